//! Whether two groups really land apart, given how large they are.
//!
//! Two-sample Hotelling test with pooled covariance: with d the difference
//! of the means and S the pooled covariance of the n1 + n2 impacts,
//! T^2 = d' [S (1/n1 + 1/n2)]^-1 d, and (f - 1) / (2 f) T^2 follows F with 2
//! and f - 1 degrees of freedom, f = n1 + n2 - 2. With two numerator degrees
//! the tail of F has a closed form: P(F > x) = (1 + 2 x / m)^(-m/2).

use crate::session::Impact;
use crate::stats::disk;
use crate::stats::spread::Ellipse;

/// Centre and scatter of one group, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spot {
    /// How many impacts.
    pub count: usize,
    /// Centre, right.
    pub right: f64,
    /// Centre, up.
    pub up: f64,
    /// Sums of squares and products about the centre: right, mixed, up.
    pub(crate) squares: (f64, f64, f64),
}

/// Centre and scatter of impacts; `None` of none.
pub fn spot(impacts: &[Impact]) -> Option<Spot> {
    if impacts.is_empty() {
        return None;
    }
    let n = impacts.len() as f64;
    let right = impacts.iter().map(|i| i.right).sum::<f64>() / n;
    let up = impacts.iter().map(|i| i.up).sum::<f64>() / n;
    let squares = impacts.iter().fold((0.0, 0.0, 0.0), |s, i| {
        let (x, y) = (i.right - right, i.up - up);
        (s.0 + x * x, s.1 + x * y, s.2 + y * y)
    });
    Some(Spot {
        count: impacts.len(),
        right,
        up,
        squares,
    })
}

/// The difference of two groups' centres, and how well it is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Difference {
    /// First less second, right, mm.
    pub right: f64,
    /// First less second, up, mm.
    pub up: f64,
    /// Covariance of that difference: right, mixed, up, mm^2.
    pub covariance: (f64, f64, f64),
    /// Degrees of freedom behind the covariance, n1 + n2 - 2.
    pub df: f64,
    /// Hotelling's T squared; `None` when the impacts lie on one line.
    pub t2: Option<f64>,
    /// Chance of a difference this large by the scatter alone, by Hotelling's test.
    pub chance: Option<f64>,
}

/// Degrees of freedom below which the scatter is taken as round.
pub(crate) const FEW: f64 = 8.0;
/// Chance below which a difference is taken as real.
const REAL: f64 = 0.05;

impl Difference {
    /// From its parts; the test is worked out here. With one group of n
    /// against the spot, `df` is n - 1 and the same formula is Hotelling's
    /// one-sample test.
    pub fn new(right: f64, up: f64, covariance: (f64, f64, f64), df: f64) -> Self {
        let t2 = quadratic(covariance, (right, up)).filter(|_| df > 1.0);
        let chance = t2.map(|t2| tail_f2((df - 1.0) / (2.0 * df) * t2, df - 1.0));
        Self {
            right,
            up,
            covariance,
            df,
            t2,
            chance,
        }
    }
    /// Chance of a difference this large when the scatter is round: with s^2
    /// pooled over both axes, d^2 / 2 s^2 follows F with 2 and 2 f degrees.
    pub fn round_chance(&self) -> f64 {
        let spread = (self.covariance.0 + self.covariance.2).max(1e-12);
        tail_f2(self.length().powi(2) / spread, 2.0 * self.df)
    }
    /// The chance that is judged by: round scatter where impacts are few.
    pub fn judged_chance(&self) -> f64 {
        match self.chance {
            Some(chance) if self.df >= FEW => chance,
            _ => self.round_chance(),
        }
    }
    /// Whether it stands out from the scatter: less than 1 in 20 by chance.
    pub fn is_real(&self) -> bool {
        self.judged_chance() <= REAL
    }
    /// Its length, mm.
    pub fn length(&self) -> f64 {
        self.right.hypot(self.up)
    }
    /// Standard error sideways, mm.
    pub fn se_right(&self) -> f64 {
        self.covariance.0.sqrt()
    }
    /// Standard error vertically, mm.
    pub fn se_up(&self) -> f64 {
        self.covariance.2.sqrt()
    }
    /// The region that holds the true difference with probability `level`.
    pub fn ellipse(&self, level: f64) -> Option<Ellipse> {
        let m = self.df - 1.0;
        (m > 0.0).then(|| {
            let f = quantile_f2(level, m);
            let k = (2.0 * self.df / m * f).sqrt();
            ellipse((self.right, self.up), self.covariance, k)
        })
    }
}

/// Upper-tail probability of F with 2 and m degrees of freedom.
fn tail_f2(x: f64, m: f64) -> f64 {
    (1.0 + 2.0 * x / m).powf(-0.5 * m)
}

/// Quantile of F with 2 and m degrees of freedom.
fn quantile_f2(level: f64, m: f64) -> f64 {
    0.5 * m * ((1.0 - level).powf(-2.0 / m) - 1.0)
}

/// Compares two groups; `None` when together they have fewer than four
/// impacts, or one is empty: the scatter is then unknown.
pub fn compare(first: &[Impact], second: &[Impact]) -> Option<Difference> {
    let (a, b) = (spot(first)?, spot(second)?);
    let df = (a.count + b.count) as f64 - 2.0;
    if df < 2.0 {
        return None;
    }
    let share = (1.0 / a.count as f64 + 1.0 / b.count as f64) / df;
    let covariance = (
        (a.squares.0 + b.squares.0) * share,
        (a.squares.1 + b.squares.1) * share,
        (a.squares.2 + b.squares.2) * share,
    );
    let (right, up) = (a.right - b.right, a.up - b.up);
    Some(Difference::new(right, up, covariance, df))
}

/// d' C^-1 d; `None` when C has no inverse.
fn quadratic(c: (f64, f64, f64), d: (f64, f64)) -> Option<f64> {
    let det = c.0 * c.2 - c.1 * c.1;
    (det > 1e-12 * (c.0 * c.2).max(1e-12))
        .then(|| (c.2 * d.0 * d.0 - 2.0 * c.1 * d.0 * d.1 + c.0 * d.1 * d.1) / det)
}

/// Eigenvalues (larger first) and angle of the larger axis of a covariance.
fn principal(c: (f64, f64, f64)) -> (f64, f64, f64) {
    let middle = 0.5 * (c.0 + c.2);
    let reach = (0.25 * (c.0 - c.2).powi(2) + c.1 * c.1).sqrt();
    let angle = 0.5 * (2.0 * c.1).atan2(c.0 - c.2);
    (middle + reach, (middle - reach).max(0.0), angle)
}

fn ellipse(mean: (f64, f64), covariance: (f64, f64, f64), k: f64) -> Ellipse {
    let (large, small, angle) = principal(covariance);
    Ellipse {
        right: mean.0,
        up: mean.1,
        major: k * large.sqrt(),
        minor: k * small.sqrt(),
        angle,
    }
}

/// The region that holds a group's true centre with probability `level`:
/// 2 (n - 1) / (n (n - 2)) F(level; 2, n - 2) on the sample covariance
/// (Hotelling). `None` below three impacts.
pub fn ellipse_of_mean(impacts: &[Impact], level: f64) -> Option<Ellipse> {
    let found = spot(impacts)?;
    if found.count < 3 {
        return None;
    }
    let n = found.count as f64;
    let c = (
        found.squares.0 / (n - 1.0),
        found.squares.1 / (n - 1.0),
        found.squares.2 / (n - 1.0),
    );
    let k = (2.0 * (n - 1.0) / (n * (n - 2.0)) * quantile_f2(level, n - 2.0)).sqrt();
    Some(ellipse((found.right, found.up), c, k))
}

/// Odds that the true difference is shorter than `radius`, mm.
///
/// Normal, with the spread widened to that of Student's t where the scatter
/// itself is known from few impacts (standard deviation sqrt(f / (f - 2))).
pub fn odds_within(difference: &Difference, radius: f64) -> f64 {
    let (c, df) = if difference.df < FEW {
        let round = 0.5 * (difference.covariance.0 + difference.covariance.2);
        ((round, 0.0, round), 2.0 * difference.df)
    } else {
        (difference.covariance, difference.df)
    };
    // Threefold at two degrees of freedom, where t has no standard deviation.
    let widen = if df > 2.5 {
        (df / (df - 2.0)).sqrt()
    } else {
        3.0
    };
    let (large, small, angle) = principal(c);
    // Along the axes of the scatter the two parts are independent, and a circle stays a circle.
    let (sin, cos) = angle.sin_cos();
    let along = difference.right * cos + difference.up * sin;
    let across = difference.up * cos - difference.right * sin;
    let sd = |v: f64| (widen * v.sqrt()).max(1e-6);
    disk::probability(radius, (along, across), (sd(large), sd(small)))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn hits(all: &[(f64, f64)]) -> Vec<Impact> {
        all.iter()
            .map(|(right, up)| Impact {
                right: *right,
                up: *up,
            })
            .collect()
    }

    #[test]
    fn too_few_impacts_have_no_answer() {
        assert!(compare(&hits(&[(0.0, 0.0)]), &hits(&[(1.0, 1.0), (2.0, 0.0)])).is_none());
        assert!(spot(&[]).is_none());
        assert!(ellipse_of_mean(&hits(&[(0.0, 0.0), (1.0, 0.0)]), 0.9).is_none());
    }

    #[test]
    fn impacts_on_one_line_give_no_chance_but_a_difference() {
        let found = compare(
            &hits(&[(0.0, 0.0), (2.0, 2.0)]),
            &hits(&[(10.0, 10.0), (12.0, 12.0)]),
        )
        .unwrap();
        assert_eq!((found.right, found.up, found.t2), (-10.0, -10.0, None));
        assert!(odds_within(&found, 1.0) < 0.2);
    }

    #[test]
    fn swapping_the_groups_turns_the_difference_and_nothing_else() {
        let a = hits(&[(0.0, 1.0), (3.0, 2.0), (1.0, -4.0)]);
        let b = hits(&[(9.0, 1.0), (7.0, 3.0), (12.0, 0.0)]);
        let (one, two) = (compare(&a, &b).unwrap(), compare(&b, &a).unwrap());
        assert_eq!(one.right, -two.right);
        assert!((one.t2.unwrap() - two.t2.unwrap()).abs() < 1e-9);
    }

    #[test]
    fn the_edge_of_the_ellipse_is_where_the_test_turns() {
        let a = hits(&[(0.0, 1.0), (3.0, 2.0), (1.0, -4.0), (2.0, 2.0)]);
        let b = hits(&[(9.0, 1.0), (7.0, 3.0), (12.0, 0.0)]);
        let found = compare(&a, &b).unwrap();
        let level = 1.0 - found.chance.unwrap();
        let e = found.ellipse(level).unwrap();
        // No difference at all (the origin) lies exactly on the edge at that level.
        let (sin, cos) = e.angle.sin_cos();
        let (x, y) = (-e.right, -e.up);
        let on = ((x * cos + y * sin) / e.major).powi(2) + ((y * cos - x * sin) / e.minor).powi(2);
        assert!((on - 1.0).abs() < 1e-9, "{on}");
    }

    /// A small generator of normal numbers, so that the figures stay the same.
    struct Normals(u64);

    impl Normals {
        fn uniform(&mut self) -> f64 {
            self.0 = self
                .0
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1_442_695_040_888_963_407);
            ((self.0 >> 11) as f64 + 0.5) / (1u64 << 53) as f64
        }
        fn next(&mut self) -> f64 {
            let (u, v) = (self.uniform(), self.uniform());
            (-2.0 * u.ln()).sqrt() * (std::f64::consts::TAU * v).cos()
        }
        fn group(&mut self, n: usize, right: f64, sd: f64) -> Vec<Impact> {
            (0..n)
                .map(|_| Impact {
                    right: right + sd * self.next(),
                    up: sd * self.next(),
                })
                .collect()
        }
    }

    /// Share called real and far, of pairs of groups that truly land `apart`.
    fn called_off(apart: f64, sd: f64, sizes: (usize, usize), limit: f64) -> f64 {
        let mut normals = Normals(7);
        let trials = 1000;
        let off = (0..trials)
            .filter(|_| {
                let a = normals.group(sizes.0, 0.0, sd);
                let b = normals.group(sizes.1, apart, sd);
                let d = compare(&b, &a).unwrap();
                d.is_real() && odds_within(&d, limit) <= 0.2
            })
            .count();
        off as f64 / f64::from(trials)
    }

    #[test]
    fn groups_that_truly_agree_are_rarely_called_apart_and_far_ones_nearly_always() {
        for (sd, limit) in [
            (15.0, 50.0),
            (30.0, 50.0),
            (60.0, 50.0),
            (60.0, 100.0),
            (90.0, 100.0),
        ] {
            let wrong = called_off(0.0, sd, (3, 3), limit);
            assert!(wrong <= 0.07, "sd {sd}, limit {limit}: {wrong}");
        }
        assert!(called_off(100.0, 15.0, (3, 2), 50.0) > 0.97);
        assert!(called_off(150.0, 30.0, (3, 3), 50.0) > 0.97);
        assert!(called_off(300.0, 60.0, (3, 3), 100.0) > 0.97);
    }
}
