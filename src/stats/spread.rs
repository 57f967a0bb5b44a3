//! The confidence ellipse of a mean.

/// An ellipse on the paper.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ellipse {
    /// Centre, right.
    pub right: f64,
    /// Centre, up.
    pub up: f64,
    /// Longer half axis.
    pub major: f64,
    /// Shorter half axis.
    pub minor: f64,
    /// Angle of the longer axis from the right, radians, counter-clockwise.
    pub angle: f64,
}
