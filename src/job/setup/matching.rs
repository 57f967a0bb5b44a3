//! A set of arrows: how alike they are, and which one is odd.

use crate::stats::{outliers, sample};

/// How alike a set is, in one quantity.
#[derive(Debug, Clone, PartialEq)]
pub struct ArrowMatch {
    /// How many were measured.
    pub count: usize,
    /// Mean.
    pub mean: f64,
    /// Lightest to heaviest.
    pub(crate) spread: f64,
    /// Standard deviation.
    pub sd: f64,
    /// The arrow that does not belong, where one stands out.
    pub(crate) odd: Option<OddArrow>,
    /// Spread of the rest without the odd arrow.
    pub(crate) spread_without_odd: Option<f64>,
}

/// The arrow that stands out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OddArrow {
    /// Its number, from 1, in the order measured.
    pub number: usize,
    /// Its value.
    pub(crate) value: f64,
    /// How far from the mean of the others.
    pub(crate) off: f64,
    /// Whether it stands out beyond chance (Grubbs' test, 1 in 20).
    pub(crate) certain: bool,
}

/// Assesses a set; `None` below three arrows.
///
/// The odd arrow is the one farthest from the mean of the others. It is
/// `certain` when Grubbs' two-sided test at 5 % says so (Grubbs 1969); a set
/// whose values all agree to the reading has none.
pub(crate) fn match_arrows(values: &[f64]) -> Option<ArrowMatch> {
    if values.len() < 3 || values.iter().any(|v| !v.is_finite()) {
        return None;
    }
    let (mean, sd) = (sample::mean(values)?, sample::sd(values)?);
    let spread = spread(values.iter().copied());
    let odd = (sd > 0.0).then(|| odd_of(values)).flatten();
    let spread_without_odd = odd.map(|odd| {
        self::spread(
            values
                .iter()
                .enumerate()
                .filter(|(i, _)| i + 1 != odd.number)
                .map(|(_, v)| *v),
        )
    });
    Some(ArrowMatch {
        count: values.len(),
        mean,
        spread,
        sd,
        odd,
        spread_without_odd,
    })
}

fn odd_of(values: &[f64]) -> Option<OddArrow> {
    let mean = sample::mean(values)?;
    let (index, value) = values
        .iter()
        .copied()
        .enumerate()
        .max_by(|a, b| (a.1 - mean).abs().total_cmp(&(b.1 - mean).abs()))?;
    let n = values.len() as f64;
    let off = (value - mean) * n / (n - 1.0);
    let certain = outliers::grubbs(values)
        .is_some_and(|g| g > outliers::grubbs_critical(values.len(), 0.05, true));
    Some(OddArrow {
        number: index + 1,
        value,
        off,
        certain,
    })
}

fn spread(values: impl Iterator<Item = f64>) -> f64 {
    let (low, high) = values.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), v| {
        (low.min(v), high.max(v))
    });
    high - low
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_odd_arrow_of_a_dozen_is_named() {
        let dozen = [
            412.0, 411.5, 412.5, 412.0, 411.0, 412.0, 418.5, 412.5, 411.5, 412.0, 412.0, 411.5,
        ];
        let found = match_arrows(&dozen).unwrap();
        let odd = found.odd.unwrap();
        assert_eq!((odd.number, odd.certain), (7, true));
        assert!((odd.off - 6.636_363_6).abs() < 1e-6, "{}", odd.off);
        assert_eq!(found.spread, 7.5);
        assert_eq!(found.spread_without_odd, Some(1.5));
    }

    #[test]
    fn an_even_set_has_no_arrow_that_stands_out() {
        let even = match_arrows(&[412.0, 411.0, 413.0, 412.0, 411.5, 412.5]).unwrap();
        assert!(!even.odd.unwrap().certain);
        assert!(match_arrows(&[412.0, 412.0, 412.0]).unwrap().odd.is_none());
        assert!(match_arrows(&[412.0, 411.0]).is_none());
    }
}
