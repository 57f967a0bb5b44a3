//! What the shots of one session say of a response, apart from what was
//! believed before them: the likelihood of the slope at the start.
//!
//! The shots are weighed once against a prior so wide that it hardly leans,
//! and that prior is divided out again. Under one supposed scatter both are
//! normal, so what is left is a bell; over the supposed scatters, a few.

use super::bank::Bank;
use super::cells::Cells;
use super::kernel::Kernel;
use super::obs::{Axis, Obs, Place, Shooter};
use super::prior::{Prior, SlopePrior};
use super::shooters;

/// One bell of a likelihood: `exp(height) * exp(-(slope - at)^2 / 2 sd^2)`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Bell {
    /// Natural logarithm of its height.
    pub(crate) height: f64,
    /// Where it stands, mm of tear for a unit.
    pub at: f64,
    /// How wide it is.
    pub sd: f64,
}

/// What one session teaches.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct Lesson {
    /// For each adjuster the likelihood of its slope on its own axis; empty
    /// where it was not moved.
    pub(crate) slopes: Vec<Vec<Bell>>,
    /// Right and up: how many repeats the judged shooter has, and the sum of
    /// squares about the means of the settings, mm^2.
    pub repeats: [(f64, f64); 2],
}

/// The wide prior is so many times the usual size of a response.
const WIDE: f64 = 4.0;
/// Bells with less than this share of the whole are left out.
const SLIGHT: f64 = 0.01;
/// A shot more likely bad than this is no repeat.
const BAD: f64 = 0.5;
/// Half the span over which the slope at the start is taken, in units.
const HALF: f64 = 0.25;
/// Latest shots that teach: more would only cost time.
const MOST_SHOTS: usize = 400;

/// What the shots of one session teach, whatever was believed before them.
pub(crate) fn lesson(prior: &Prior, shots: &[Obs], judged: Shooter) -> Lesson {
    let shots = &shots[shots.len().saturating_sub(MOST_SHOTS)..];
    let wide = widened(prior);
    let cells = Cells::build(shots, false);
    let others = shooters::scatters(&wide, &cells, judged);
    let mut out = Lesson {
        slopes: vec![Vec::new(); prior.adjusters.len()],
        ..Lesson::default()
    };
    if cells.cells.is_empty() {
        return out;
    }
    for axis in Axis::BOTH {
        let i = axis.index();
        let mut kernel = Kernel::new(&wide, i);
        kernel.plain = true;
        let bank = Bank::fit(&kernel, &cells, judged, &others[i]);
        out.repeats[i] = shooters::squares(&cells, i, judged, |r| bank.bad(r) < BAD);
        for (k, slopes) in out.slopes.iter_mut().enumerate() {
            let place = |c: &super::cells::Cell| c.place.positions[k];
            let moved = cells
                .cells
                .iter()
                .any(|c| place(c) != place(&cells.cells[0]));
            if moved && wide.adjusters[k].axis == axis {
                *slopes = bells(&kernel, &bank, k, &cells.cells[cells.cells.len() - 1].place);
            }
        }
    }
    out
}

/// The usual prior, so wide on every adjuster's own axis that it hardly leans.
fn widened(prior: &Prior) -> Prior {
    let mut wide = prior.clone();
    wide.wide = [1.0; 2];
    for a in &mut wide.adjusters {
        let own = a.slope[a.axis.index()];
        a.pooled = None;
        a.slope[a.axis.index()] = SlopePrior {
            mean: 0.0,
            sd: WIDE * own.mean.hypot(own.sd),
            walk: own.walk,
        };
    }
    wide
}

/// The belief about the slope with what was believed beforehand divided out.
fn bells(kernel: &Kernel, bank: &Bank, k: usize, at: &Place) -> Vec<Bell> {
    let here = at.positions[k];
    let (low, high) = (at.moved(k, -HALF - here), at.moved(k, HALF - here));
    let span = 2.0 * HALF;
    let before = (kernel.between(&high, &high) + kernel.between(&low, &low)
        - 2.0 * kernel.between(&low, &high))
        / (span * span);
    let all: Vec<Bell> = bank
        .slope(kernel, &low, &high, span)
        .iter()
        .filter_map(|p| {
            let variance = p.sd * p.sd;
            let precision = 1.0 / variance - 1.0 / before;
            if precision * before < 1e-6 || p.weight <= 0.0 {
                return None;
            }
            let at = p.mean / variance / precision;
            let ratio = 0.5 * (before / variance).ln();
            let height = p.weight.ln() + ratio - 0.5 * (at - p.mean).powi(2) / variance
                + 0.5 * at * at / before;
            Some(Bell {
                height,
                at,
                sd: precision.recip().sqrt(),
            })
        })
        .collect();
    slightest_left_out(all)
}

fn slightest_left_out(mut all: Vec<Bell>) -> Vec<Bell> {
    let mass = |b: &Bell| b.height + b.sd.ln();
    let top = all.iter().map(mass).fold(f64::NEG_INFINITY, f64::max);
    all.retain(|b| mass(b) > top + SLIGHT.ln());
    let high = all
        .iter()
        .map(|b| b.height)
        .fold(f64::NEG_INFINITY, f64::max);
    all.iter_mut().for_each(|b| b.height -= high);
    all
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::belief::OWNER;

    fn shots(slope: f64, places: &[f64]) -> Vec<Obs> {
        let start = Place::start(2, 2.0);
        let noise = [0.6, -0.8, 0.3, -0.1, 0.9, -0.5];
        let each = places.iter().zip(noise.iter().cycle());
        each.map(|(x, e)| Obs {
            place: start.moved(0, *x),
            called_bad: false,
            tear: [9.0 + slope * x + e, 1.0 - e],
        })
        .collect()
    }

    fn middle(bells: &[Bell]) -> f64 {
        let mass = |b: &Bell| b.height.exp() * b.sd;
        bells.iter().map(|b| mass(b) * b.at).sum::<f64>() / bells.iter().map(mass).sum::<f64>()
    }

    #[test]
    fn the_likelihood_stands_at_the_slope_and_an_adjuster_not_moved_says_nothing() {
        let places = [0.0, 0.0, -3.0, -3.0, 3.0, 3.0];
        for slope in [-4.0, 0.0, 2.0, 12.0] {
            let found = lesson(&Prior::aid(), &shots(slope, &places), OWNER);
            let at = middle(&found.slopes[0]);
            assert!((at - slope).abs() < 0.6, "{slope} {at}");
            assert!(found.slopes[1].is_empty());
            assert_eq!(found.repeats[0].0, 3.0);
        }
    }

    #[test]
    fn only_what_weighs_next_to_nothing_is_left_out_and_the_highest_stands_at_nothing() {
        let bell = |height: f64, sd: f64| Bell {
            height,
            at: height,
            sd,
        };
        // Mass is height by width: a high thin one weighs as a low wide one.
        let slight = SLIGHT.ln();
        let left = slightest_left_out(vec![
            bell(-3.0, 1.0),
            bell(-12.0, std::f64::consts::E.powi(8)),
            bell(-3.0 + slight + 0.01, 1.0),
            bell(-3.0 + slight - 0.01, 1.0),
        ]);
        let heights: Vec<f64> = left.iter().map(|b| b.height).collect();
        assert_eq!(heights.len(), 3);
        for (height, wanted) in heights.iter().zip([0.0, -9.0, slight + 0.01]) {
            assert!((height - wanted).abs() < 1e-12, "{heights:?}");
        }
        assert_eq!(left[1].at, -12.0);
    }

    #[test]
    fn what_was_believed_before_the_shots_is_divided_out() {
        let shots = shots(-3.0, &[0.0, 0.0, -2.0, -2.0, 1.0]);
        let plain = lesson(&Prior::aid(), &shots, OWNER);
        let mut taught = Prior::aid();
        taught.wide = [0.1; 2];
        taught.adjusters[0].pooled = Some(SlopePrior {
            mean: 5.0,
            sd: 0.2,
            walk: 0.1,
        });
        taught.scatter_known = true;
        assert_eq!(lesson(&taught, &shots, OWNER), plain);
    }

    #[test]
    fn a_mirrored_session_teaches_the_same_of_a_rest_and_the_other_of_a_spring() {
        let there = shots(-3.0, &[0.0, 0.0, -2.0, -2.0, 1.0]);
        let mirrored = |sign: f64| -> Vec<Obs> {
            let turn = |s: &Obs| Obs {
                place: s.place.moved(0, (sign - 1.0) * s.place.positions[0]),
                tear: [-s.tear[0], s.tear[1]],
                ..s.clone()
            };
            there.iter().map(turn).collect()
        };
        let own = middle(&lesson(&Prior::aid(), &there, OWNER).slopes[0]);
        let rest = middle(&lesson(&Prior::aid(), &mirrored(-1.0), OWNER).slopes[0]);
        let spring = middle(&lesson(&Prior::aid(), &mirrored(1.0), OWNER).slopes[0]);
        assert!((own - rest).abs() < 1e-9 && (own + spring).abs() < 1e-9);
    }
}
