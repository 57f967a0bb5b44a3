//! Scatter of shots in two dimensions: pooled circular sd, its limits,
//! Hotelling's T squared, and the confidence ellipse of a mean.

use super::{quantile, sample};

/// Pooled circular standard deviation of groups of shots.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CircularSd {
    /// Square root of the pooled variance (one axis), biased low when few.
    pub raw: f64,
    /// `raw` divided by c4, unbiased for circular normal shots.
    pub unbiased: f64,
    /// Degrees of freedom: 2 for each shot beyond the first of its group.
    pub df: usize,
}

impl CircularSd {
    /// Limits that hold sigma with probability `level` (both tails equal):
    /// df s^2 / sigma^2 is chi-squared with df degrees of freedom.
    pub fn limits(&self, level: f64) -> (f64, f64) {
        let (df, tail) = (self.df as f64, 0.5 * (1.0 - level));
        let low = (df / quantile::chi_squared(1.0 - tail, df)).sqrt() * self.raw;
        let high = (df / quantile::chi_squared(tail, df)).sqrt() * self.raw;
        (low, high)
    }
}

/// Pools groups, each about its own mean: s^2 = sum |y - mean|^2 / df with
/// df = 2 (n - groups). `None` when no group has two shots.
pub fn circular_sd<'a>(groups: impl IntoIterator<Item = &'a [(f64, f64)]>) -> Option<CircularSd> {
    let (mut squares, mut df) = (0.0, 0usize);
    for shots in groups {
        if shots.len() < 2 {
            continue;
        }
        let n = shots.len() as f64;
        let mx = shots.iter().map(|s| s.0).sum::<f64>() / n;
        let my = shots.iter().map(|s| s.1).sum::<f64>() / n;
        squares += shots
            .iter()
            .map(|s| (s.0 - mx).powi(2) + (s.1 - my).powi(2))
            .sum::<f64>();
        df += 2 * (shots.len() - 1);
    }
    if df == 0 {
        return None;
    }
    let raw = (squares / df as f64).sqrt();
    Some(CircularSd {
        raw,
        unbiased: raw / sample::c4(df + 1),
        df,
    })
}

/// Hotelling's T squared critical value for `n` two-dimensional points:
/// p(n-1)/(n-p) F(p, n-p), p = 2. NaN for n < 3.
pub fn hotelling_critical(n: usize, level: f64) -> f64 {
    if n < 3 {
        return f64::NAN;
    }
    let n = n as f64;
    2.0 * (n - 1.0) / (n - 2.0) * quantile::f_ratio(level, 2.0, n - 2.0)
}

/// Hotelling's T squared of shots against an aim point; `None` below three
/// shots or when they lie on one line.
pub fn hotelling_t2(shots: &[(f64, f64)], aim: (f64, f64)) -> Option<f64> {
    let (mean, c) = covariance(shots)?;
    let n = shots.len() as f64;
    let (dx, dy) = (mean.0 - aim.0, mean.1 - aim.1);
    let det = c.0 * c.2 - c.1 * c.1;
    if shots.len() < 3 || det <= 0.0 {
        return None;
    }
    Some(n * (c.2 * dx * dx - 2.0 * c.1 * dx * dy + c.0 * dy * dy) / det)
}

type Pair = (f64, f64);

fn covariance(shots: &[Pair]) -> Option<(Pair, (f64, f64, f64))> {
    if shots.len() < 2 {
        return None;
    }
    let n = shots.len() as f64;
    let mx = shots.iter().map(|s| s.0).sum::<f64>() / n;
    let my = shots.iter().map(|s| s.1).sum::<f64>() / n;
    let mut c = (0.0, 0.0, 0.0);
    for s in shots {
        let (dx, dy) = (s.0 - mx, s.1 - my);
        c = (c.0 + dx * dx, c.1 + dx * dy, c.2 + dy * dy);
    }
    Some((
        (mx, my),
        (c.0 / (n - 1.0), c.1 / (n - 1.0), c.2 / (n - 1.0)),
    ))
}

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
    fn a_group_of_one_adds_no_scatter() {
        let (one, two) = ([(5.0, 5.0)], [(0.0, 0.0), (2.0, 0.0)]);
        assert_eq!(circular_sd([&one[..]]), None);
        let s = circular_sd([&one[..], &two[..]]).unwrap();
        assert_eq!((s.raw, s.df), (1.0, 2));
        assert!((s.unbiased - 1.0 / 0.886_226_925).abs() < 1e-6);
    }

    #[test]
    fn shots_on_one_line_have_no_t2() {
        assert_eq!(
            hotelling_t2(&[(0.0, 0.0), (1.0, 1.0), (2.0, 2.0)], (0.0, 0.0)),
            None
        );
    }

    #[test]
    fn t2_of_a_square_about_its_corner() {
        // Variances 4/3 each, no correlation, mean off by (1, 1): 4 * (3/4 + 3/4).
        let shots = [(0.0, 0.0), (2.0, 0.0), (0.0, 2.0), (2.0, 2.0)];
        assert!((hotelling_t2(&shots, (0.0, 0.0)).unwrap() - 6.0).abs() < 1e-12);
    }

    #[test]
    fn the_ellipse_turns_upright_when_the_vertical_is_less_known() {
        let e = ellipse((1.0, 2.0), (1.0, 3.0), 0.95);
        assert!(e.major > e.minor && e.angle > 1.5);
        assert!((e.minor - 2.447_746_8).abs() < 1e-6);
    }
}
