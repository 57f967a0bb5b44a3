//! Care while a bow has not answered: how large a test move is, how far it
//! may go, and what it can tell.

use super::search;
use super::task::{Task, Track};
use crate::belief::{AdjusterPrior, Belief};
use crate::stats::normal;

/// Chance above which an adjuster has answered.
const ANSWERED: f64 = 0.9;
/// Odds of the other way up to which the side of a response is known.
pub const SIDE_KNOWN: f64 = 0.1;
/// While its side is not known, no move is larger than this many test moves.
const TEST_MOVES: i32 = 2;
/// Middle size of a normal number with this root mean square, roughly: the
/// response that is usual where a mean and a sd are believed beforehand.
const MIDDLE: f64 = 0.7;
/// How surely a usual response must show.
pub const POWER: f64 = 0.8;
/// Standard scores of [`POWER`], and of the side being 90 % sure
/// (normal distribution, 0.8 and 0.9 points).
const POWER_SCORE: f64 = 0.8416;
const SURE_SCORE: f64 = 1.2816;
/// Most shots at the new end that a test move asks for.
const MOST_SHOTS: u32 = 6;

/// How an adjuster may be moved now.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Care {
    /// Whether it was moved and shot at all.
    pub moved: bool,
    /// Whether it has answered: the tear changes with it.
    pub answered: bool,
    /// Whether it is known which way.
    pub side: bool,
    /// Size of a test move, whole steps, at least one.
    pub test: i32,
    /// Lowest and highest whole steps from here.
    pub bounds: (i32, i32),
}

impl Care {
    /// How adjuster `k` may be moved.
    pub fn of(belief: &Belief, task: &Task, track: &Track, k: usize) -> Self {
        let a = &task.adjusters[k];
        let caution = &task.caution[k];
        let moved = track.reached[k] != (0.0, 0.0);
        let near = 2.0 * a.step;
        let gain = belief.gain(k, a.axis, &track.here, near);
        let doubt = gain
            .probability_negative
            .min(1.0 - gain.probability_negative);
        let beyond = belief.gain_beyond(k, a.axis, &track.here, near, caution.answer);
        let mut care = Care {
            moved,
            answered: moved && beyond > ANSWERED,
            side: moved && doubt <= SIDE_KNOWN,
            test: test_steps(belief, task, track, k),
            bounds: search::room(task, track, k),
        };
        care.keep_within(task, track, k);
        care
    }

    fn keep_within(&mut self, task: &Task, track: &Track, k: usize) {
        let (step, caution) = (task.adjusters[k].step, &task.caution[k]);
        let here = track.here.positions[k];
        let mut within = |low: f64, high: f64| {
            let down = (low / step - 1e-6).ceil().min(0.0) as i32;
            let up = (high / step + 1e-6).floor().max(0.0) as i32;
            self.bounds = (self.bounds.0.max(down), self.bounds.1.min(up));
        };
        if !self.answered {
            within(caution.window.0 - here, caution.window.1 - here);
        }
        if !self.moved {
            within(-caution.first, caution.first);
        }
        if self.moved && !self.side {
            let most = f64::from(TEST_MOVES * self.test) * step;
            within(-most, most);
        }
    }

    /// Whether a move of it is a test: nobody knows yet what it will do.
    pub const fn is_test(&self) -> bool {
        !(self.side && self.answered)
    }

    /// A move made large enough to tell, as far as it may go.
    pub fn large_enough(&self, steps: i32) -> i32 {
        let size = steps.abs().max(self.test);
        (steps.signum() * size).clamp(self.bounds.0, self.bounds.1)
    }
}

/// The response that is usual of an adjuster, mm for one unit.
pub fn usual(prior: &AdjusterPrior) -> f64 {
    let own = prior.slope[prior.axis.index()];
    MIDDLE * own.mean.hypot(own.sd)
}

/// Sd of the change between two ends with so many shots each.
fn blur(scatter: f64, here: f64, there: f64) -> f64 {
    scatter * (1.0 / here.max(1.0) + 1.0 / there.max(1.0)).sqrt()
}

/// The size at which a usual response shows after one shot there.
fn test_steps(belief: &Belief, task: &Task, track: &Track, k: usize) -> i32 {
    let a = &task.adjusters[k];
    let scatter = belief.scatter(a.axis).mean;
    let blur = blur(scatter, track.shots_here as f64, 1.0);
    let span = (POWER_SCORE + SURE_SCORE) * blur / usual(&belief.prior.adjusters[k]);
    let most = (task.caution[k].first / a.step + 1e-6).floor().max(1.0);
    (span / a.step).ceil().clamp(1.0, most) as i32
}

/// What a test move can tell.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Telling {
    /// What a usual response would change the tear by, mm.
    pub change: f64,
    /// Shots at the new end.
    pub shots: u32,
    /// Chance that a usual response shows then.
    pub power: f64,
}

/// What a move of `k` by `span` units tells, with the shots that takes.
pub fn telling(belief: &Belief, task: &Task, track: &Track, k: usize, span: f64) -> Telling {
    let scatter = belief.scatter(task.adjusters[k].axis).mean;
    let change = usual(&belief.prior.adjusters[k]) * span.abs();
    let power = |shots: u32| {
        let blur = blur(scatter, track.shots_here as f64, f64::from(shots));
        normal::below(change / blur - SURE_SCORE)
    };
    let shots = (1..MOST_SHOTS)
        .find(|n| power(*n) >= POWER)
        .unwrap_or(MOST_SHOTS);
    Telling {
        change,
        shots,
        power: power(shots),
    }
}

/// An adjuster that was tested and showed nothing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Silence {
    /// The adjuster.
    pub adjuster: usize,
    /// Different positions it was shot at, the first apart.
    pub moves: usize,
    /// Chance that a usual response would have shown.
    pub power: f64,
}

/// Fewest moves after which silence is one.
const SILENT_MOVES: usize = 2;
/// A response under this share of the usual one is none.
const NONE_SHARE: f64 = 0.5;
/// Chance of more than that, under which none was seen.
const NONE_SEEN: f64 = 0.1;

/// Whether two moves that would have shown a usual response showed none;
/// where it is given up anyway, whether none was more likely than one.
pub fn silence(
    belief: &Belief,
    task: &Task,
    track: &Track,
    k: usize,
    given_up: bool,
) -> Option<Silence> {
    let moves = track.places[k].saturating_sub(1);
    if moves < SILENT_MOVES || Care::of(belief, task, track, k).answered {
        return None;
    }
    let axis = task.adjusters[k].axis;
    let (low, high) = track.reached[k];
    let middle = 0.5 * (low + high) - track.here.positions[k];
    let (at, half) = (track.here.moved(k, middle), 0.5 * (high - low));
    let usual = usual(&belief.prior.adjusters[k]);
    let sd = belief.gain(k, axis, &at, half).sd;
    let power = normal::below(usual / sd - SURE_SCORE);
    let seen = belief.gain_beyond(k, axis, &at, half, NONE_SHARE * usual);
    let most = if given_up { 0.5 } else { NONE_SEEN };
    (power >= POWER && seen < most).then_some(Silence {
        adjuster: k,
        moves,
        power,
    })
}
