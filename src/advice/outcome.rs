//! A verdict while it is made, and how figures are rounded in it.

use super::finding::{Finding, Headline};
use super::types::{MoveAdvice, NextShot, Probe, Verdict};
use crate::question::Refusal;

/// What was decided.
pub(super) struct Outcome {
    pub verdict: Verdict,
    /// Why it refuses or stops, where it does.
    pub refusal: Option<Refusal>,
    pub headline: Headline,
    pub findings: Vec<Finding>,
    pub movement: Option<MoveAdvice>,
    pub probe: Option<Probe>,
    pub shots_wanted: u32,
    pub next_shot: Option<NextShot>,
}

impl Outcome {
    pub(super) fn new(verdict: Verdict, headline: Headline) -> Self {
        Self {
            verdict,
            refusal: None,
            headline,
            findings: Vec::new(),
            movement: None,
            probe: None,
            shots_wanted: 0,
            next_shot: None,
        }
    }
}

/// The root of the mean square of two figures.
pub(super) fn rms(a: f64, b: f64) -> f64 {
    ((a * a + b * b) / 2.0).sqrt()
}

/// Four decimals: more would claim a precision nobody has.
pub(crate) fn tidy(value: f64) -> f64 {
    (value * 1e4).round() / 1e4
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_root_of_the_mean_square_and_four_decimals() {
        assert_eq!(rms(3.0, 3.0), 3.0);
        assert_eq!(rms(1.0, 7.0), 5.0);
        assert_eq!(rms(0.0, 0.0), 0.0);
        assert_eq!(tidy(1.234_56), 1.234_6);
        assert_eq!(tidy(-0.000_04), 0.0);
    }
}
