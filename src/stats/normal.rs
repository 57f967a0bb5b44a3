//! The normal distribution: density, lower tail, interval.

use statrs::function::erf::{erf, erfc};
use std::f64::consts::{FRAC_1_SQRT_2, PI};

/// Density of a normal distribution of the given mean and variance (> 0) at `x`.
pub(crate) fn density(x: f64, mean: f64, variance: f64) -> f64 {
    log_density(x, mean, variance).exp()
}

/// Natural logarithm of [`density`].
pub(crate) fn log_density(x: f64, mean: f64, variance: f64) -> f64 {
    let d = x - mean;
    -0.5 * (d * d / variance + (2.0 * PI * variance).ln())
}

/// Probability that a standard normal number is below `z`.
pub fn below(z: f64) -> f64 {
    0.5 * erfc(-z * FRAC_1_SQRT_2)
}

/// Probability that a normal number of this mean and sd lies between -h and +h.
///
/// Zero for `h <= 0`. An sd of zero is a point mass at the mean.
pub fn within(h: f64, mean: f64, sd: f64) -> f64 {
    if h <= 0.0 {
        return 0.0;
    }
    if sd <= 0.0 {
        return if mean.abs() <= h { 1.0 } else { 0.0 };
    }
    let (a, b) = ((h - mean) / sd, (-h - mean) / sd);
    // Both limits on one side: take the tails, so that nothing cancels.
    if b > 0.0 {
        (below(-b) - below(-a)).max(0.0)
    } else if a < 0.0 {
        (below(a) - below(b)).max(0.0)
    } else {
        0.5 * (erf(a * FRAC_1_SQRT_2) - erf(b * FRAC_1_SQRT_2))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_two_and_three_sigma_hold_the_textbook_shares() {
        for (h, share) in [
            (1.0, 0.682_689_492),
            (2.0, 0.954_499_736),
            (3.0, 0.997_300_204),
        ] {
            assert!((within(h, 0.0, 1.0) - share).abs() < 1e-9);
        }
    }

    #[test]
    fn a_far_interval_keeps_its_small_probability() {
        // Upper tail at 8 sigma is 6.22e-16.
        let p = within(2.0, 10.0, 1.0);
        assert!(p > 6.0e-16 && p < 6.4e-16, "{p}");
        assert_eq!(p, within(2.0, -10.0, 1.0));
    }

    #[test]
    fn no_spread_is_a_point() {
        assert_eq!(within(6.0, 5.9, 0.0), 1.0);
        assert_eq!(within(6.0, 6.1, 0.0), 0.0);
        assert_eq!(within(-1.0, 0.0, 1.0), 0.0);
    }
}
