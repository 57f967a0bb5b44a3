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

/// The region that holds the mean with probability `level`, for a normal
/// belief with these sds along the axes and no correlation.
///
/// With a known covariance the radius is sqrt(-2 ln(1 - level)) sds.
pub fn ellipse(mean: (f64, f64), sd: (f64, f64), level: f64) -> Ellipse {
    let k = (-2.0 * (1.0 - level).ln()).sqrt();
    let (a, b) = (k * sd.0, k * sd.1);
    let upright = b > a;
    Ellipse {
        right: mean.0,
        up: mean.1,
        major: a.max(b),
        minor: a.min(b),
        angle: if upright {
            std::f64::consts::FRAC_PI_2
        } else {
            0.0
        },
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_ellipse_turns_upright_when_the_vertical_is_less_known() {
        let e = ellipse((1.0, 2.0), (1.0, 3.0), 0.95);
        assert!(e.major > e.minor && e.angle > 1.5);
        assert!((e.minor - 2.447_746_8).abs() < 1e-6);
    }
}
