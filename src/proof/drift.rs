//! Walk-back and near-far: whether arrows drift sideways with distance.
//!
//! right = a + b x distance. Scatter grows with distance, so every impact is
//! weighed by 1 / (5 m + distance)^2 (common practice, no source).

use crate::session::Impact;
use crate::stats::{quantile, regression};

/// Sideways drift with distance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Drift {
    /// Drift, mm sideways per m of distance, right positive.
    pub per_m: f64,
    /// Its standard error.
    pub se: f64,
    /// Degrees of freedom.
    pub df: f64,
    /// Nearest and farthest distance, m.
    pub span: (f64, f64),
    /// Scatter of a single arrow sideways at the farthest distance, mm.
    pub sd_far: f64,
}

impl Drift {
    /// Drift from the nearest to the farthest distance, mm.
    pub fn over_span(&self) -> f64 {
        self.per_m * (self.span.1 - self.span.0)
    }
    /// Standard error of that, mm.
    pub fn over_span_se(&self) -> f64 {
        self.se * (self.span.1 - self.span.0)
    }
    /// Whether it stands out from the scatter: less than 1 in 20 by chance.
    pub fn is_real(&self) -> bool {
        let t = (self.per_m / self.se.max(1e-12)).abs();
        2.0 * (1.0 - quantile::student_t_below(t, self.df)) <= 0.05
    }
    /// Odds that the true drift over the span is within `limit` mm either way.
    pub fn odds_within(&self, limit: f64) -> f64 {
        let (d, se) = (self.over_span(), self.over_span_se().max(1e-9));
        let below = |x: f64| quantile::student_t_below((x - d) / se, self.df);
        below(limit) - below(-limit)
    }
}

const STEADY_M: f64 = 5.0;

/// Fits the drift; `None` without two distances and two spare impacts.
pub fn drift(groups: &[(f64, &[Impact])]) -> Option<Drift> {
    let shots: Vec<(f64, f64)> = groups
        .iter()
        .flat_map(|(m, hits)| hits.iter().map(move |i| (*m, i.right)))
        .collect();
    let near = shots.iter().map(|s| s.0).fold(f64::INFINITY, f64::min);
    let far = shots.iter().map(|s| s.0).fold(0.0, f64::max);
    if shots.len() < 4 || far < 1.2 * near {
        return None;
    }
    let weight = |m: f64| 1.0 / (STEADY_M + m);
    let constant: Vec<f64> = shots.iter().map(|s| weight(s.0)).collect();
    let slope: Vec<f64> = shots.iter().map(|s| weight(s.0) * s.0).collect();
    let y: Vec<f64> = shots.iter().map(|s| weight(s.0) * s.1).collect();
    let fit = regression::least_squares(&[constant, slope], &y)?;
    Some(Drift {
        per_m: fit.coefficients[1],
        se: fit.sds[1],
        df: fit.df as f64,
        span: (near, far),
        sd_far: fit.residual_sd / weight(far),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn row(m: f64, rights: &[f64]) -> (f64, Vec<Impact>) {
        let hits = rights
            .iter()
            .map(|r| Impact { right: *r, up: 0.0 })
            .collect();
        (m, hits)
    }

    fn of(rows: &[(f64, Vec<Impact>)]) -> Option<Drift> {
        let groups: Vec<(f64, &[Impact])> = rows.iter().map(|(m, h)| (*m, h.as_slice())).collect();
        drift(&groups)
    }

    #[test]
    fn a_straight_column_does_not_drift_and_a_diagonal_does() {
        let straight = of(&[
            row(18.0, &[5.0, -5.0]),
            row(27.0, &[-7.0, 7.0]),
            row(36.0, &[9.0, -9.0]),
        ])
        .unwrap();
        assert!(straight.per_m.abs() < 1e-9);
        let diagonal = of(&[
            row(18.0, &[4.0, -4.0]),
            row(27.0, &[50.0, 40.0]),
            row(36.0, &[95.0, 85.0]),
        ])
        .unwrap();
        assert!((diagonal.per_m - 5.0).abs() < 0.1, "{diagonal:?}");
        assert!(diagonal.odds_within(20.0) < 0.01);
    }

    #[test]
    fn one_distance_says_nothing_of_drift() {
        assert!(of(&[row(18.0, &[0.0, 1.0, 2.0, 3.0])]).is_none());
        assert!(of(&[row(18.0, &[0.0]), row(30.0, &[1.0])]).is_none());
    }
}
