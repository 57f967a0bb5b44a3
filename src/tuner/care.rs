//! Care while a bow has not answered: how large a test move is, how far it
//! may go, and what it can tell.

use super::search;
use super::task::{Task, Track};
use crate::belief::{AdjusterPrior, Belief, Place};
use crate::stats::normal;

/// Chance above which an adjuster has answered.
const ANSWERED: f64 = 0.9;
/// Odds of the other way up to which the side of a response is known.
pub(crate) const SIDE_KNOWN: f64 = 0.1;
/// While its side is not known, no move is larger than this many test moves.
const TEST_MOVES: i32 = 2;
/// Middle size of a normal number with this root mean square, roughly: the
/// response that is usual where a mean and a sd are believed beforehand.
const MIDDLE: f64 = 0.7;
/// How surely a usual response must show.
pub(crate) const POWER: f64 = 0.8;
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
    pub(crate) answered: bool,
    /// Whether it is known which way.
    pub(crate) side: bool,
    /// Whether it was not moved yet, and earlier bows say well what it does.
    pub earlier: bool,
    /// Size of a test move, whole steps, at least one.
    pub test: i32,
    /// Lowest and highest whole steps from here.
    pub(crate) bounds: (i32, i32),
}

impl Care {
    /// How adjuster `k` may be moved.
    pub fn of(belief: &Belief, task: &Task, track: &Track, k: usize) -> Self {
        let a = &task.adjusters[k];
        let caution = &task.caution[k];
        let moved = track.reached[k] != (0.0, 0.0);
        let near = 2.0 * a.step;
        let gain = belief.gain(k, a.axis, &track.here, near);
        let doubt = gain.doubt();
        let beyond = beyond(belief, task, track, k, caution.answer);
        let mut care = Care {
            moved,
            answered: moved && beyond > ANSWERED,
            side: moved && doubt <= SIDE_KNOWN,
            earlier: !moved && task.earlier && well_known(belief, k, doubt),
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
        !(self.side && self.answered || self.earlier)
    }

    /// A move made large enough to tell, as far as it may go.
    pub fn large_enough(&self, steps: i32) -> i32 {
        let size = steps.abs().max(self.test);
        (steps.signum() * size).clamp(self.bounds.0, self.bounds.1)
    }
}

/// Chance that a unit of the adjuster changes the tear by `least` or more:
/// near here, or over all the places shot, whichever shows it better.
pub(super) fn beyond(belief: &Belief, task: &Task, track: &Track, k: usize, least: f64) -> f64 {
    let a = &task.adjusters[k];
    let near = belief.gain_beyond(k, a.axis, &track.here, 2.0 * a.step, least);
    let (low, high) = track.reached[k];
    if high - low < 2.0 * a.step {
        return near;
    }
    let (at, half) = whole(track, k);
    near.max(belief.gain_beyond(k, a.axis, &at, half, least))
}

/// The middle of the places shot of an adjuster, and half the way between
/// the outermost.
fn whole(track: &Track, k: usize) -> (Place, f64) {
    let (low, high) = track.reached[k];
    let middle = 0.5 * (low + high) - track.here.positions[k];
    (track.here.moved(k, middle), 0.5 * (high - low))
}

/// From so many of its own sds the response of earlier bows is known well
/// enough to correct by (this project's own figure).
const WELL_KNOWN: f64 = 1.5;

/// Whether earlier bows say well what adjuster `k` does: the side as surely as
/// a bow must show it, the size to two thirds.
fn well_known(belief: &Belief, k: usize, doubt: f64) -> bool {
    let pooled = belief.prior.adjusters[k].pooled;
    doubt <= SIDE_KNOWN && pooled.is_some_and(|p| p.mean.abs() >= WELL_KNOWN * p.sd)
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
    pub(crate) change: f64,
    /// Shots at the new end.
    pub shots: u32,
    /// Chance that a usual response shows then.
    pub(crate) power: f64,
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
    pub(crate) power: f64,
}

/// Fewest moves after which silence is one.
const SILENT_MOVES: usize = 2;
/// A response under this share of the usual one is none.
const NONE_SHARE: f64 = 0.5;
/// Chance of more than that, under which none was seen.
const NONE_SEEN: f64 = 0.1;

/// Chance that a usual response would have shown over the places shot.
fn power(belief: &Belief, task: &Task, track: &Track, k: usize) -> f64 {
    let (at, half) = whole(track, k);
    let sd = belief.gain(k, task.adjusters[k].axis, &at, half).sd;
    normal::below(usual(&belief.prior.adjusters[k]) / sd - SURE_SCORE)
}

/// Shots after which an adjuster that still has not answered is given up.
const LONG_TRIED: usize = 16;

/// Whether an adjuster was tried for long at several places, would have shown
/// a usual response, and still has not answered.
pub fn long_tried(belief: &Belief, task: &Task, track: &Track, k: usize) -> bool {
    track.shots >= LONG_TRIED
        && track.places[k] > SILENT_MOVES
        && !Care::of(belief, task, track, k).answered
        && power(belief, task, track, k) >= POWER
}

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
    let (at, half) = whole(track, k);
    let usual = usual(&belief.prior.adjusters[k]);
    let power = power(belief, task, track, k);
    let seen = belief.gain_beyond(k, axis, &at, half, NONE_SHARE * usual);
    let most = if given_up { 0.5 } else { NONE_SEEN };
    (power >= POWER && seen < most).then_some(Silence {
        adjuster: k,
        moves,
        power,
    })
}

#[cfg(test)]
mod tests {
    use super::super::cases::{pairs, task, weighed};
    use super::*;
    use crate::belief::{OWNER, Place, Prior};

    fn silent(places: &[(f64, f64)], given_up: bool) -> Option<Silence> {
        let (belief, track) = weighed(&pairs(places));
        silence(&belief, &task(8.0), &track, 0, given_up)
    }

    /// Three places 3 mm apart and the tear the same at each; or it answers
    /// either way; or there were too few moves to say.
    #[test]
    fn two_moves_that_show_nothing_are_silence_and_one_move_is_not() {
        let none = silent(&[(0.0, 10.0), (3.0, 10.0), (-3.0, 10.0)], false).unwrap();
        assert_eq!((none.adjuster, none.moves), (0, 2));
        assert!((POWER..1.0).contains(&none.power), "{none:?}");
        let back = silent(&[(-3.0, 10.0), (3.0, 10.0), (0.0, 10.0)], false).unwrap();
        assert_eq!(back.moves, 2);
        for given_up in [false, true] {
            assert!(silent(&[(0.0, 10.0), (3.0, 10.0)], given_up).is_none());
            for way in [1.0, -1.0] {
                let answers = [
                    (0.0, 10.0),
                    (3.0, 10.0 + 6.0 * way),
                    (-3.0, 10.0 - 6.0 * way),
                ];
                assert!(silent(&answers, given_up).is_none(), "{way}");
            }
        }
        // A quarter of a millimetre would have shown nothing usual.
        let small = [(0.0, 10.0), (0.25, 10.0), (-0.25, 10.0)];
        assert!(silent(&small, false).is_none() && silent(&small, true).is_none());
    }

    /// The usual response of an aid's rest is 0.7 x 2.8 = 1.96 mm a mm; with
    /// 2.8 mm of scatter, one shot here and one there, 2.1232 x 2.8 x root 2
    /// over 1.96 is 4.29 mm: 18 clicks, of which the first move allows 16.
    #[test]
    fn a_test_move_is_the_size_at_which_the_usual_shows() {
        let belief = Belief::fit(&Prior::aid(), &[], OWNER);
        assert!((usual(&belief.prior.adjusters[0]) - 1.96).abs() < 1e-12);
        // Up and down: 0.7 x root (2^2 + 2^2).
        assert!((usual(&belief.prior.adjusters[1]) - 1.979_899).abs() < 1e-6);
        assert!((blur(2.8, 1.0, 1.0) - 3.959_798).abs() < 1e-6);
        assert!((blur(2.8, 4.0, 2.0) - 2.424_871).abs() < 1e-6);
        // Less than one shot counts as one.
        assert_eq!(blur(2.8, 0.0, 0.5), blur(2.8, 1.0, 1.0));
    }

    fn care(answered: bool, moved: bool, side: bool) -> Care {
        Care {
            moved,
            answered,
            side,
            earlier: false,
            test: 6,
            bounds: (-32, 32),
        }
    }

    /// Window 3 mm left to 5 mm right of the start, first move 4 mm, a click
    /// 0.25 mm: whole clicks, never past it, from where the rest stands.
    #[test]
    fn a_move_stays_within_its_window_its_first_size_and_two_test_moves() {
        let mut task = task(8.0);
        task.caution[0].window = (-3.0, 5.0);
        task.caution[0].first = 4.0;
        let bounds = |mut care: Care, here: f64| {
            let place = Place::start(2, 2.0).moved(0, here);
            let track = Track::count(&[], &place, OWNER);
            care.keep_within(&task, &track, 0);
            care.bounds
        };
        // Nothing known: the window, and 16 clicks of the first move.
        assert_eq!(bounds(care(false, false, false), 0.0), (-12, 16));
        assert_eq!(bounds(care(false, false, false), 1.0), (-16, 16));
        assert_eq!(bounds(care(false, false, false), -2.0), (-4, 16));
        // Moved, no answer, no side: the window and two test moves of 6.
        assert_eq!(bounds(care(false, true, false), 0.0), (-12, 12));
        assert_eq!(bounds(care(false, true, false), 4.0), (-12, 4));
        // Its side known, no answer: the window alone.
        assert_eq!(bounds(care(false, true, true), 0.0), (-12, 20));
        // Answered, side not known: two test moves. Both: as far as it goes.
        assert_eq!(bounds(care(true, true, false), 0.0), (-12, 12));
        assert_eq!(bounds(care(true, true, true), 0.0), (-32, 32));
        // Outside its window already: back only, and never further out.
        assert_eq!(bounds(care(false, true, true), 6.0), (-32, 0));
        assert_eq!(bounds(care(false, true, true), -4.0), (0, 32));
        // Half a click short of a whole one is not gone.
        task.caution[0].window = (-3.1, 5.1);
        let place = Place::start(2, 2.0);
        let track = Track::count(&[], &place, OWNER);
        let mut found = care(false, true, true);
        found.keep_within(&task, &track, 0);
        assert_eq!(found.bounds, (-12, 20));
    }

    #[test]
    fn a_move_is_a_test_until_both_side_and_answer_are_known() {
        let tests = [(false, false), (false, true), (true, false), (true, true)];
        let is = tests.map(|(answered, side)| care(answered, true, side).is_test());
        assert_eq!(is, [true, true, true, false]);
    }

    /// Made as large as a test move, either way, and no further than it may go.
    #[test]
    fn a_move_is_large_enough_to_tell() {
        let mut one = care(false, true, false);
        one.bounds = (-12, 4);
        assert_eq!(
            [2, -2, 9, -9, -20].map(|n| one.large_enough(n)),
            [4, -6, 4, -9, -12]
        );
        one.bounds = (-12, 12);
        assert_eq!([2, -2, 9].map(|n| one.large_enough(n)), [6, -6, 9]);
    }
}
