//! The few unit constants the mechanics needs; everything inside is SI.

/// One grain in kilograms (exact by definition of the pound).
pub const GRAIN_KG: f64 = 64.798_91e-6;
/// One inch in metres (exact).
pub const INCH_M: f64 = 0.0254;
/// One pound-force in newtons.
pub const POUND_N: f64 = 4.448_221_615_260_5;
/// Standard gravity, m/s^2 (exact).
pub const GRAVITY: f64 = 9.806_65;
/// One foot per second in metres per second (exact).
pub const FOOT_PER_SECOND: f64 = 0.3048;
