//! Walk-back and near-far: whether arrows drift sideways with distance, and
//! whether the line is bent.
//!
//! right = a + b x distance, and over four distances + c x q, where q is the
//! square of the distance from the middle in half spans: 1 at both ends, 0
//! between, so that b is the slope from end to end and -c how far the middle
//! stands off the straight line. Fitted against distance, not against the
//! height on the face: arrows drop ever faster, and a plain slant looks bent
//! there. Scatter grows with distance, so every impact is weighed by
//! 1 / (5 m + distance)^2 (common practice, no source).

use crate::session::Impact;
use crate::stats::{quantile, regression};

/// Sideways drift with distance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Drift {
    /// Drift from end to end, mm sideways per m of distance, right positive.
    pub per_m: f64,
    /// Its standard error.
    pub se: f64,
    /// Degrees of freedom.
    pub df: f64,
    /// Nearest and farthest distance, m.
    pub(crate) span: (f64, f64),
    /// Scatter of a single arrow sideways at the farthest distance, mm.
    pub(crate) sd_far: f64,
    /// How the line is bent, where that was asked for.
    pub(crate) bend: Option<Bend>,
}

/// How far the middle of the line stands off the straight line between its ends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Bend {
    /// Right positive, mm.
    pub mm: f64,
    /// Its standard error.
    pub se: f64,
    /// Degrees of freedom.
    pub df: f64,
}

/// Whether a figure stands out from the scatter: less than 1 in 20 by chance.
fn is_real(mm: f64, se: f64, df: f64) -> bool {
    let t = (mm / se.max(1e-12)).abs();
    2.0 * (1.0 - quantile::student_t_below(t, df)) <= 0.05
}

/// Chance that the true figure is within `limit` either way.
fn within(mm: f64, se: f64, df: f64, limit: f64) -> f64 {
    let below = |x: f64| quantile::student_t_below((x - mm) / se.max(1e-9), df);
    below(limit) - below(-limit)
}

impl Bend {
    /// Whether it stands out from the scatter: less than 1 in 20 by chance.
    pub fn is_real(&self) -> bool {
        is_real(self.mm, self.se, self.df)
    }
    /// Chance that the true bend is within `limit` mm either way.
    pub fn odds_within(&self, limit: f64) -> f64 {
        within(self.mm, self.se, self.df, limit)
    }
}

impl Drift {
    /// Drift from the nearest to the farthest distance, mm.
    pub(crate) fn over_span(&self) -> f64 {
        self.per_m * (self.span.1 - self.span.0)
    }
    /// Standard error of that, mm.
    pub(crate) fn over_span_se(&self) -> f64 {
        self.se * (self.span.1 - self.span.0)
    }
    /// Whether it stands out from the scatter: less than 1 in 20 by chance.
    pub fn is_real(&self) -> bool {
        is_real(self.per_m, self.se, self.df)
    }
    /// Chance that the true drift over the span is within `limit` mm either way.
    pub fn odds_within(&self, limit: f64) -> f64 {
        within(self.over_span(), self.over_span_se(), self.df, limit)
    }
}

const STEADY_M: f64 = 5.0;
/// Distances closer together than this share are one.
const SAME: f64 = 0.05;
/// Distances over which a bend is told from a slant.
const BENT_OVER: usize = 4;

/// The distances at which two arrows or more were shot, nearest first, m.
pub(crate) fn distances(groups: &[(f64, &[Impact])]) -> Vec<f64> {
    let mut all: Vec<(f64, usize)> = Vec::new();
    for (m, hits) in groups {
        match all.iter_mut().find(|(at, _)| (at - m).abs() < SAME * m) {
            Some((_, n)) => *n += hits.len(),
            None => all.push((*m, hits.len())),
        }
    }
    all.retain(|(_, n)| *n >= 2);
    all.sort_by(|a, b| a.0.total_cmp(&b.0));
    all.into_iter().map(|(m, _)| m).collect()
}

/// Fits the drift, with the bend where `bent` and four distances were shot;
/// `None` without two distances and two spare impacts.
pub fn drift(groups: &[(f64, &[Impact])], bent: bool) -> Option<Drift> {
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
    let column = |f: &dyn Fn(f64) -> f64| -> Vec<f64> {
        shots.iter().map(|s| weight(s.0) * f(s.0)).collect()
    };
    let (middle, half) = (0.5 * (near + far), 0.5 * (far - near));
    let mut columns = vec![column(&|_| 1.0), column(&|m| m)];
    let bent = bent && distances(groups).len() >= BENT_OVER;
    if bent {
        columns.push(column(&|m| ((m - middle) / half).powi(2)));
    }
    let y: Vec<f64> = shots.iter().map(|s| weight(s.0) * s.1).collect();
    let fit = regression::least_squares(&columns, &y)?;
    let df = fit.df as f64;
    Some(Drift {
        per_m: fit.coefficients[1],
        se: fit.sds[1],
        df,
        span: (near, far),
        sd_far: fit.residual_sd / weight(far),
        bend: bent.then(|| Bend {
            mm: 0.0 - fit.coefficients[2],
            se: fit.sds[2],
            df,
        }),
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

    fn of(rows: &[(f64, Vec<Impact>)], bent: bool) -> Option<Drift> {
        let groups: Vec<(f64, &[Impact])> = rows.iter().map(|(m, h)| (*m, h.as_slice())).collect();
        drift(&groups, bent)
    }

    #[test]
    fn a_straight_column_does_not_drift_and_a_diagonal_does() {
        let straight = of(
            &[
                row(18.0, &[5.0, -5.0]),
                row(27.0, &[-7.0, 7.0]),
                row(36.0, &[9.0, -9.0]),
            ],
            false,
        )
        .unwrap();
        assert!(straight.per_m.abs() < 1e-9);
        let diagonal = of(
            &[
                row(18.0, &[4.0, -4.0]),
                row(27.0, &[50.0, 40.0]),
                row(36.0, &[95.0, 85.0]),
            ],
            false,
        )
        .unwrap();
        assert!((diagonal.per_m - 5.0).abs() < 0.1, "{diagonal:?}");
        assert!(diagonal.odds_within(20.0) < 0.01);
    }

    #[test]
    fn one_distance_says_nothing_of_drift() {
        assert!(of(&[row(18.0, &[0.0, 1.0, 2.0, 3.0])], true).is_none());
        assert!(of(&[row(18.0, &[0.0]), row(30.0, &[1.0])], true).is_none());
    }

    /// A slant of 5 mm a metre to the right; the middle 24 mm left of the line
    /// between the ends; both at once. By hand: at 18, 27, 36 and 45 m the
    /// square of the half spans is 1, 1/9, 1/9 and 1.
    #[test]
    fn a_slant_and_a_bend_are_told_apart_over_four_distances() {
        let line = |slant: f64, bend: f64| {
            let rows: Vec<(f64, Vec<Impact>)> = [
                (18.0, 1.0),
                (27.0, 1.0 / 9.0),
                (36.0, 1.0 / 9.0),
                (45.0, 1.0),
            ]
            .iter()
            .map(|(m, q)| {
                let x = slant * (m - 18.0) + bend * (1.0 - q);
                row(*m, &[x - 2.0, x + 2.0, x])
            })
            .collect();
            of(&rows, true).unwrap()
        };
        let near = |a: f64, b: f64| (a - b).abs() < 1e-9;
        let slant = line(5.0, 0.0);
        assert!(near(slant.per_m, 5.0) && near(slant.bend.unwrap().mm, 0.0));
        assert!(slant.is_real() && !slant.bend.unwrap().is_real());
        let bend = line(0.0, -24.0);
        assert!(near(bend.per_m, 0.0) && near(bend.bend.unwrap().mm, -24.0));
        assert!(!bend.is_real() && bend.bend.unwrap().is_real());
        let both = line(-5.0, 24.0);
        assert!(near(both.per_m, -5.0) && near(both.bend.unwrap().mm, 24.0));
        // Three distances, or one of the four with a single arrow: no bend is spoken of.
        let three = [
            row(18.0, &[0.0, 1.0]),
            row(27.0, &[0.0, 1.0]),
            row(36.0, &[30.0, 31.0]),
            row(45.0, &[0.0]),
        ];
        assert_eq!(of(&three, true).unwrap().bend, None);
    }

    /// Scatter that grows with the distance: at 36 m it is the one sd of the
    /// shots, each divided by its own distance and the steady part, times that
    /// of 36 m.
    #[test]
    fn the_scatter_at_the_farthest_is_that_of_the_farthest() {
        let grown = |m: f64| {
            let size = STEADY_M + m;
            row(m, &[size, -size])
        };
        let found = of(&[grown(18.0), grown(27.0), grown(36.0)], false).unwrap();
        // Six shots of 1 each, two figures fitted: the root of 6 / 4.
        let wanted = (6.0_f64 / 4.0).sqrt() * (STEADY_M + 36.0);
        assert!((found.sd_far - wanted).abs() < 1e-9, "{}", found.sd_far);
    }
}
