//! What the bows that were tuned before say of the next one of their kind.
//!
//! A hierarchy: each bow's slope is drawn from a normal about a common middle,
//! from the wide prior (an odd bow), or is none at all (a dead rest); middle
//! and spread between bows are weighed over a grid. The spread has a
//! half-Cauchy prior (Gelman, Bayesian Analysis 1, 2006, 515-534, for few
//! groups), and is never below the share 1/(n+2) of the wide prior's sd that n
//! bows leave open: the law of succession (Laplace), as for the share of the
//! wide prior that always remains. Both floors are this project's own rule.

use super::bank::SCATTERS;
use super::lesson::Bell;
use super::prior::{DEAD_SHARE, Prior, SlopePrior};
use crate::stats::normal;

/// What one earlier session says of a slope.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Heard {
    /// The likelihood.
    pub(crate) bells: Vec<Bell>,
    /// Sd of that session's slope about the one asked for: another arrow,
    /// another weight, another day; mm for a unit.
    pub(crate) apart: f64,
}

impl Heard {
    /// The likelihood of a slope, up to a factor.
    fn at(&self, slope: f64) -> f64 {
        let each = self.bells.iter().map(|b| {
            let variance = b.sd * b.sd + self.apart * self.apart;
            let z = (slope - b.at).powi(2) / variance;
            (b.height - 0.5 * z).exp() * b.sd / variance.sqrt()
        });
        each.sum()
    }

    fn farthest(&self) -> f64 {
        let each = self.bells.iter().map(|b| b.at.abs() + 2.0 * b.sd);
        each.fold(0.0, f64::max)
    }
}

/// What is to be expected of the next bow's slope.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Pooled {
    /// How many bows taught it, its own earlier sessions as one of them.
    pub bows: usize,
    /// Expected slope.
    pub mean: f64,
    /// Its standard deviation.
    pub sd: f64,
    /// Share of the wide prior that remains beside it.
    pub wide: f64,
    /// Chance that it does nothing at all.
    pub dead: f64,
}

/// Points of the slope.
const POINTS: usize = 201;
/// Middles and spreads weighed.
const MIDDLES: usize = 41;
const SPREADS: usize = 8;
/// The slopes reach to so many times the usual size, at most.
const REACH: (f64, f64) = (4.0, 10.0);
/// Scale of the half-Cauchy, in sds of the wide prior.
const SCALE: f64 = 0.5;
/// Largest spread weighed, in sds of the wide prior.
const LARGEST: f64 = 2.0;
/// A dead adjuster's slope, in usual sizes.
const DEAD: f64 = 0.05;
/// Bows that the usual share of dead adjusters is worth.
const DEAD_WORTH: f64 = 2.0;

/// Densities over the points of the slope, each adding up to 1.
struct Grid {
    points: Vec<f64>,
}

impl Grid {
    fn to(reach: f64) -> Self {
        let step = 2.0 * reach / (POINTS - 1) as f64;
        Self {
            points: (0..POINTS).map(|i| i as f64 * step - reach).collect(),
        }
    }

    fn step(&self) -> f64 {
        self.points[1] - self.points[0]
    }

    fn normal(&self, mean: f64, sd: f64) -> Vec<f64> {
        let sd = sd.max(self.step());
        scaled(
            self.points
                .iter()
                .map(|x| normal::density(*x, mean, sd * sd))
                .collect(),
        )
    }

    /// How likely what was heard of one bow is at each point; the largest is 1.
    fn heard(&self, sessions: &[Heard]) -> Vec<f64> {
        let log = |x: &f64| -> f64 {
            let each = sessions
                .iter()
                .map(|s| s.at(*x).max(f64::MIN_POSITIVE).ln());
            each.sum()
        };
        let logs: Vec<f64> = self.points.iter().map(log).collect();
        let top = logs.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        logs.iter().map(|l| (l - top).exp()).collect()
    }

    fn moments(&self, density: &[f64]) -> (f64, f64) {
        let mean = dot(density, &self.points);
        let square = self.points.iter().zip(density);
        let variance: f64 = square.map(|(x, d)| d * (x - mean).powi(2)).sum();
        (mean, variance.sqrt())
    }
}

fn scaled(mut density: Vec<f64>) -> Vec<f64> {
    let total: f64 = density.iter().sum::<f64>().max(f64::MIN_POSITIVE);
    density.iter_mut().for_each(|d| *d /= total);
    density
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(x, y)| x * y).sum()
}

/// Pools the other bows and this bow's own earlier sessions. `usual` is the
/// wide prior. `None` where nothing was heard.
pub(crate) fn pool(others: &[Vec<Heard>], own: &[Heard], usual: SlopePrior) -> Option<Pooled> {
    let bows = others.len() + usize::from(!own.is_empty());
    if bows == 0 {
        return None;
    }
    let size = usual.mean.hypot(usual.sd);
    let all = others.iter().flatten().chain(own);
    let farthest = all.map(Heard::farthest).fold(0.0, f64::max);
    let grid = Grid::to(farthest.clamp(REACH.0 * size, REACH.1 * size));
    let wide = grid.normal(usual.mean, usual.sd);
    let dead = grid.normal(0.0, DEAD * size);
    let open = 1.0 / (bows + 2) as f64;
    let heard: Vec<Vec<f64>> = others.iter().map(|b| grid.heard(b)).collect();
    let level = Level::of(&grid, &heard, &wide, &dead, open, usual);
    let mut likely = level.next;
    let mut odd = level.odd;
    let mut apart = 0.0;
    if !own.is_empty() {
        let said = grid.heard(own);
        let share = |density: &[f64], share: f64| share * dot(density, &said);
        let parts = [share(&likely, 1.0 - open), share(&wide, open)];
        odd += parts[1] / (parts[0] + parts[1]).max(f64::MIN_POSITIVE);
        let mixed = likely.iter().zip(&wide).zip(&said);
        likely = scaled(
            mixed
                .map(|((p, w), l)| ((1.0 - open) * p + open * w) * l)
                .collect(),
        );
        apart = own.iter().map(|h| h.apart).fold(f64::INFINITY, f64::min);
    }
    let (mean, sd) = grid.moments(&likely);
    Some(Pooled {
        bows,
        mean,
        sd: sd.hypot(apart).max(open * usual.sd),
        wide: (open * (1.0 + odd)).min(1.0),
        dead: (DEAD_WORTH * DEAD_SHARE + level.dead) / (DEAD_WORTH + others.len() as f64),
    })
}

/// What was heard of one bow alone: its slope, and give or take.
pub(crate) fn alone(sessions: &[Heard]) -> (f64, f64) {
    let farthest = sessions.iter().map(Heard::farthest).fold(1.0, f64::max);
    let grid = Grid::to(farthest);
    grid.moments(&scaled(grid.heard(sessions)))
}

/// What the other bows say: the next one's density, and how many of them were
/// odd or dead.
struct Level {
    next: Vec<f64>,
    odd: f64,
    dead: f64,
}

/// One middle and spread, with what they expect of the next bow.
struct Supposed {
    density: Vec<f64>,
    log: f64,
    odd: f64,
    dead: f64,
}

impl Level {
    fn of(
        grid: &Grid,
        heard: &[Vec<f64>],
        wide: &[f64],
        dead: &[f64],
        open: f64,
        usual: SlopePrior,
    ) -> Self {
        let shares = [1.0 - open - DEAD_SHARE, open, DEAD_SHARE];
        let known: Vec<[f64; 2]> = heard.iter().map(|l| [dot(l, wide), dot(l, dead)]).collect();
        let weigh = |middle: f64, spread: f64, before: f64| {
            let density = grid.normal(middle, spread);
            let mut out = Supposed {
                log: before,
                density,
                odd: 0.0,
                dead: 0.0,
            };
            for (l, [odd, none]) in heard.iter().zip(&known) {
                let parts = [
                    shares[0] * dot(l, &out.density),
                    shares[1] * odd,
                    shares[2] * none,
                ];
                let sum = parts.iter().sum::<f64>().max(f64::MIN_POSITIVE);
                out.log += sum.ln();
                out.odd += parts[1] / sum;
                out.dead += parts[2] / sum;
            }
            out
        };
        let mut all = Vec::with_capacity(MIDDLES * SPREADS);
        let (least, most) = (open * usual.sd, LARGEST * usual.sd);
        let fold = (most / least).ln() / (SPREADS - 1) as f64;
        let every = (POINTS - 1) / (MIDDLES - 1);
        for i in 0..SPREADS {
            let spread = least * (fold * i as f64).exp();
            let tail = 1.0 + (spread / (SCALE * usual.sd)).powi(2);
            for (middle, before) in grid.points.iter().zip(wide).step_by(every) {
                // Spreads are spaced by folds: each stands for as wide a piece.
                let log = before.max(f64::MIN_POSITIVE).ln() + (spread / tail).ln();
                all.push(weigh(*middle, spread, log));
            }
        }
        let top = all.iter().map(|s| s.log).fold(f64::NEG_INFINITY, f64::max);
        let total: f64 = all.iter().map(|s| (s.log - top).exp()).sum();
        let mut level = Self {
            next: vec![0.0; POINTS],
            odd: 0.0,
            dead: 0.0,
        };
        for s in &all {
            let weight = (s.log - top).exp() / total;
            level.odd += weight * s.odd;
            level.dead += weight * s.dead;
            let sum = level.next.iter_mut().zip(&s.density);
            sum.for_each(|(n, d)| *n += weight * d);
        }
        level
    }
}

/// An owner's scatter as earlier sessions had it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Steadiness {
    /// Median of the shot-to-shot sd, right and up, mm.
    pub scatter: [f64; 2],
    /// Sd of its logarithm, the wider of the two axes.
    pub(crate) spread: f64,
    /// Repeats it rests on, those of the axis with fewer.
    pub repeats: f64,
}

/// An owner's scatter differs between sittings by so much (sd of the
/// logarithm; this project's own figure, no source).
const SITTING: f64 = 0.25;
/// So many repeats and the scatter is known.
const KNOWN_REPEATS: f64 = 6.0;

/// Pools an owner's repeats, for each session right and up: how many, and the
/// sum of squares. `None` with too few to know it.
pub(crate) fn steadiness(prior: &Prior, sessions: &[[(f64, f64); 2]]) -> Option<Steadiness> {
    let count = |axis: usize| sessions.iter().map(|s| s[axis].0).sum::<f64>();
    let repeats = count(0).min(count(1));
    if repeats < KNOWN_REPEATS {
        return None;
    }
    let logs: Vec<f64> = fine().map(f64::ln).collect();
    let mut scatter = [0.0; 2];
    let mut spread: f64 = 0.0;
    for (axis, median) in scatter.iter_mut().enumerate() {
        let mut weights: Vec<f64> = logs
            .iter()
            .map(|l| -0.5 * ((l - prior.scatter[axis].ln()) / prior.scatter_spread).powi(2))
            .collect();
        for [df, about] in sessions.iter().map(|s| [s[axis].0, s[axis].1]) {
            // A sitting's own scatter stands about the owner's usual one.
            let own: Vec<f64> = logs
                .iter()
                .map(|l| -df * l - 0.5 * about * (-2.0 * l).exp())
                .collect();
            let top = own.iter().copied().fold(f64::NEG_INFINITY, f64::max);
            for (w, l) in weights.iter_mut().zip(&logs) {
                let near =
                    |(m, o): (&f64, &f64)| (o - top - 0.5 * ((l - m) / SITTING).powi(2)).exp();
                *w += logs
                    .iter()
                    .zip(&own)
                    .map(near)
                    .sum::<f64>()
                    .max(f64::MIN_POSITIVE)
                    .ln();
            }
        }
        let top = weights.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let weights = scaled(weights.iter().map(|w| (w - top).exp()).collect());
        let mean = dot(&weights, &logs);
        let variance: f64 = logs
            .iter()
            .zip(&weights)
            .map(|(l, w)| w * (l - mean).powi(2))
            .sum();
        *median = mean.exp();
        spread = spread.max((variance + SITTING * SITTING).sqrt());
    }
    Some(Steadiness {
        scatter,
        spread,
        repeats,
    })
}

/// Scatters between those supposed, four to a step.
fn fine() -> impl Iterator<Item = f64> {
    let (low, high) = (SCATTERS[0], SCATTERS[SCATTERS.len() - 1]);
    let steps = 4 * (SCATTERS.len() - 1);
    (0..=steps).map(move |i| low * (high / low).powf(i as f64 / steps as f64))
}

#[cfg(test)]
mod tests {
    use super::*;

    const USUAL: SlopePrior = SlopePrior {
        mean: 0.0,
        sd: 2.8,
        walk: 0.15,
    };

    fn bow(at: f64) -> Vec<Heard> {
        let bell = Bell {
            height: 0.0,
            at,
            sd: 0.3,
        };
        vec![Heard {
            bells: vec![bell],
            apart: 0.4,
        }]
    }

    fn bows(slopes: &[f64]) -> Vec<Vec<Heard>> {
        slopes.iter().map(|s| bow(*s)).collect()
    }

    #[test]
    fn the_pool_stands_about_the_bows_and_is_no_narrower_than_they_differ() {
        let slopes = [
            -1.0, -3.5, -2.0, -2.8, -1.5, -3.0, -2.2, -1.8, -2.6, -2.4, -3.3,
        ];
        let found = pool(&bows(&slopes), &[], USUAL).unwrap();
        // Mean and sd of the list: -2.37 and 0.76.
        assert!((found.mean + 2.37).abs() < 0.15, "{found:?}");
        assert!((0.65..1.2).contains(&found.sd), "{found:?}");
        assert!(found.dead < DEAD_SHARE && found.bows == 11, "{found:?}");
    }

    #[test]
    fn a_share_of_the_wide_prior_and_a_spread_always_remain() {
        for n in [1, 2, 5, 12, 60] {
            let found = pool(&bows(&vec![-2.0; n]), &[], USUAL).unwrap();
            let least = 1.0 / (n as f64 + 2.0);
            assert!(
                found.wide >= least && found.sd >= 2.8 * least,
                "{n} {found:?}"
            );
        }
        let one = pool(&bows(&[-2.0]), &[], USUAL).unwrap();
        assert!(one.sd > 1.2, "one bow teaches little: {one:?}");
        assert_eq!(pool(&[], &[], USUAL), None);
    }

    #[test]
    fn odd_bows_leave_more_of_the_wide_prior_and_dead_ones_more_dead() {
        let same = pool(&bows(&[-2.0; 10]), &[], USUAL).unwrap();
        let odd = pool(
            &bows(&[-2.0, -2.1, -1.9, -2.2, -1.8, -2.0, -2.1, -1.9, 4.0, 5.0]),
            &[],
            USUAL,
        )
        .unwrap();
        assert!(odd.wide > 1.5 * same.wide, "{odd:?} {same:?}");
        let dead = pool(
            &bows(&[-2.0, -2.1, -1.9, -2.2, 0.0, 0.0, 0.0, -2.1, -1.9, -2.0]),
            &[],
            USUAL,
        )
        .unwrap();
        assert!(
            (0.15..0.27).contains(&dead.dead) && same.dead < 0.05,
            "{dead:?} {same:?}"
        );
    }

    #[test]
    fn a_bows_own_sessions_weigh_most() {
        let others = bows(&[-2.0, -2.5, -1.5, -2.2, -1.8, -2.4]);
        let own = pool(&others, &bow(3.0), USUAL).unwrap();
        assert!(own.mean > 2.0 && own.sd < 1.0, "{own:?}");
        let near = pool(&others, &bow(-2.2), USUAL).unwrap();
        assert!(
            near.sd < pool(&others, &[], USUAL).unwrap().sd + 0.1,
            "{near:?}"
        );
    }

    #[test]
    fn mirrored_bows_pool_to_the_mirrored_slope() {
        let right = pool(&bows(&[-2.0, -3.0, -1.0, -2.5]), &[], USUAL).unwrap();
        let left = pool(&bows(&[2.0, 3.0, 1.0, 2.5]), &[], USUAL).unwrap();
        assert!((right.mean + left.mean).abs() < 1e-9 && (right.sd - left.sd).abs() < 1e-9);
    }

    #[test]
    fn an_owners_scatter_is_known_from_six_repeats() {
        let prior = Prior::aid();
        // Two repeats a session about an sd of 3 mm and 2 mm.
        let session = [(2.0, 18.0), (2.0, 8.0)];
        assert_eq!(steadiness(&prior, &[session, session]), None);
        let found = steadiness(&prior, &[session; 6]).unwrap();
        assert!((2.5..3.5).contains(&found.scatter[0]), "{found:?}");
        assert!((1.7..2.4).contains(&found.scatter[1]), "{found:?}");
        assert!(found.spread < prior.scatter_spread && found.spread > SITTING);
        // Two sittings about 2 mm and two about 4: between them, and less sure.
        let sitting = |sd: f64| [(20.0, 20.0 * sd * sd), (20.0, 20.0 * sd * sd)];
        let alike = steadiness(&prior, &[sitting(2.83); 4]).unwrap();
        let apart = steadiness(&prior, &[2.0, 4.0, 2.0, 4.0].map(sitting)).unwrap();
        for found in [&alike, &apart] {
            let middle = found.scatter[0];
            assert!((2.7..2.95).contains(&middle), "{found:?}");
            assert_eq!(found.repeats, 80.0);
        }
        // Four sittings tell the middle to SITTING / 2 and the next sitting's
        // own is SITTING about it: 0.28.
        for found in [&alike, &apart] {
            assert!((0.26..0.31).contains(&found.spread), "{found:?}");
        }
    }
}
