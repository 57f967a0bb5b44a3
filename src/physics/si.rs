//! The few unit constants the mechanics needs; everything inside is SI.

pub use crate::units::GRAVITY;

/// One grain in kilograms.
pub const GRAIN_KG: f64 = crate::units::KG_PER_GRAIN;
/// One inch in metres.
pub const INCH_M: f64 = 1e-3 * crate::units::MM_PER_INCH;
/// One pound-force in newtons.
pub const POUND_N: f64 = crate::units::N_PER_LBF;
/// One foot per second in metres per second.
pub const FOOT_PER_SECOND: f64 = 12.0 * INCH_M;
