//! The small numbers: regression, small-sample factors, distributions, and
//! the linear algebra they and the other rooms need.
//!
//! Pure arithmetic on slices of numbers; nothing here knows of bows, files or
//! screens. Lengths are in whatever unit the caller uses throughout.

pub mod adjust;
pub(crate) mod cholesky;
pub mod disk;
pub(crate) mod normal;
pub mod outliers;
mod qr;
pub mod quantile;
pub mod regression;
pub mod sample;
pub(crate) mod spread;
