//! What is known about this bow, its response and its shooters.
//!
//! The two axes are believed in separately. On each, the mean tear is a
//! start value plus a curve for each adjuster ([`kernel`]), held in a few
//! numbers ([`basis`]); the shooter's scatter is one of nine suppositions
//! ([`bank`]), and a shot may be a bad one ([`sites`]).

mod arrows;
pub(crate) mod bank;
pub mod basis;
mod believe;
pub mod cells;
mod evidence;
#[cfg(test)]
mod exact;
pub mod kernel;
mod lesson;
mod obs;
pub(crate) mod pool;
mod prior;
mod shooters;
pub mod sites;

pub(crate) use believe::shifted;
pub use believe::{Belief, Gain, OddArrow, Scatter, Tear};
pub use evidence::{Drift, Evidence};
pub(crate) use lesson::{Bell, lesson};
pub(crate) use obs::same_distance;
pub use obs::{Axis, OWNER, Obs, Place, Shooter};
pub use prior::{AdjusterPrior, Powder, Prior, SlopePrior};
