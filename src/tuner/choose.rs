//! Shoot, move, probe, done or limit.

use std::cmp::Ordering;

use super::care::{self, Care};
use super::search::{self, Found, Goal};
use super::task::{Task, Track};
use super::untried;
use crate::belief::{Axis, Belief, Place};

/// What to do next.
#[derive(Debug, Clone, PartialEq)]
pub enum Choice {
    /// Shoot here again.
    Shoot,
    /// Move these adjusters by these whole steps (none of them zero).
    Move(Vec<(usize, i32)>),
    /// Inside tolerance, proved to the level asked for.
    Done,
    /// Nothing good within reach.
    Limit,
}

/// Why a move was chosen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Purpose {
    /// First move of an adjuster: to learn what it does.
    Test,
    /// To the best place known.
    Correct,
    /// A small step to learn the slope near here.
    Learn,
}

impl Purpose {
    /// Whether it is made to learn, not to correct.
    pub const fn is_test(self) -> bool {
        !matches!(self, Self::Correct)
    }
}

/// The decision and the figures behind it.
#[derive(Debug, Clone, PartialEq)]
pub struct Decision {
    /// What to do next.
    pub choice: Choice,
    /// Chance of being inside tolerance here.
    pub here: f64,
    /// Best chance within travel, the setting that has it, and its steps.
    pub best: Found,
    /// Chance that the vertical alone is inside here.
    pub(crate) vertical_here: f64,
    /// Why it moves, when it does.
    pub purpose: Option<Purpose>,
}

/// Chance of the vertical at which the sideways adjuster is released.
pub(crate) const VERTICAL_LIKELY: f64 = 0.8;
/// Gain of chance that a move must promise, divided by the shots here.
const WORTH_MOVING: f64 = 0.05;
/// Below this chance a place is as good as any other.
const HOPELESS: f64 = 1e-4;
/// Size of a move that only learns the slope, as a share of the travel.
const LEARN_SHARE: f64 = 0.19;
/// A mean this far out after three more shots is worth a learning move, as a
/// share of the tolerance.
const LEARN_ABOVE: f64 = 0.4;
/// A tear that changes by less is the same tear: it is read to the millimetre.
const SAME_TEAR: f64 = 0.5;
/// So sure that one shot at the setting is enough, where the card wants no
/// more; less sure takes another.
const ONE_IS_ENOUGH: f64 = 0.96;
const SHOTS_ELSE: usize = 2;
/// Shots at the last setting grow with the square of this many scatters in
/// the tolerance: the mean of the setting's own shots must mean something.
const OWN_SHOTS: f64 = 2.1;
/// Shots that scatter wider than this share of the tolerance.
const WIDE: f64 = 0.8;
/// The chance asked for of them (settled on the judging bench).
const WIDE_LEVEL: f64 = 0.98;
/// Nothing within reach is better than this after [`LIMIT_SHOTS`]: give up.
const LIMIT_CHANCE: f64 = 0.2;
/// Fewest shots and moves before giving up.
const LIMIT_SHOTS: usize = 10;
const LIMIT_MOVES: usize = 2;
/// After so many shots at a setting that has nothing better within reach, it
/// is given up where it is not as likely inside as not: the tear stands at the
/// tolerance, and shots alone do not settle that.
const LONG_HERE: usize = 12;
const LONG_CHANCE: f64 = 0.5;

/// Chooses from the belief; the belief's judged shooter is the one it is for.
pub fn choose(belief: &Belief, task: &Task, track: &Track) -> Decision {
    let here = belief.probability_within(&track.here, task.aim, task.tolerance);
    let vertical_here = component(belief, task, Axis::Up, &track.here);
    let best = search::best_reachable(belief, task, track);
    let mut out = Decision {
        choice: Choice::Shoot,
        here,
        best,
        vertical_here,
        purpose: None,
    };
    // After a move comes a shot, at a setting shot before as well: without
    // one there is nothing new that a second move could rest on.
    if track.fresh == 0 {
        return out;
    }
    if here >= wanted_level(belief, task) {
        if track.shots_here >= shots_needed(belief, task, here) {
            out.choice = Choice::Done;
        }
        return out;
    }
    let given_up = track.shots >= LIMIT_SHOTS && track.moves >= LIMIT_MOVES;
    let long = track.shots_here >= LONG_HERE;
    let least = if long { LONG_CHANCE } else { LIMIT_CHANCE };
    if given_up && best.chance.max(here) < least {
        out.choice = Choice::Limit;
        return out;
    }
    let scene = Scene {
        belief,
        task,
        track,
        here,
        vertical_here,
        best: best.chance.max(here),
    };
    if let Some((steps, purpose)) = scene.pick() {
        out.choice = Choice::Move(steps);
        out.purpose = Some(purpose);
    }
    out
}

/// The chance of being inside that is asked for: what the card says, and more
/// where single shots scatter nearly as wide as the tolerance. The shots that
/// look good enough were then picked by their luck, and the chance worked out
/// from them is too good.
pub fn wanted_level(belief: &Belief, task: &Task) -> f64 {
    let wide = Axis::BOTH.map(|a| belief.scatter(a).mean);
    let share = wide[0].max(wide[1]) / task.tolerance;
    if share > WIDE {
        task.level.max(WIDE_LEVEL)
    } else {
        task.level
    }
}

/// Fewest shots at the last setting before it may be called done.
pub fn shots_needed(belief: &Belief, task: &Task, here: f64) -> usize {
    let wide = Axis::BOTH.map(|a| belief.scatter(a).mean);
    let share = OWN_SHOTS * wide[0].max(wide[1]) / task.tolerance;
    let own = (share * share).round() as usize;
    let least = if here >= ONE_IS_ENOUGH { 1 } else { SHOTS_ELSE };
    own.max(least).max(task.least_shots)
}

fn component(belief: &Belief, task: &Task, axis: Axis, at: &Place) -> f64 {
    belief.probability_component(axis, at, task.aim[axis.index()], task.tolerance)
}

type Picked = Option<(Vec<(usize, i32)>, Purpose)>;

/// What a move is chosen from.
struct Scene<'a> {
    belief: &'a Belief,
    task: &'a Task,
    track: &'a Track,
    here: f64,
    vertical_here: f64,
    /// Best chance within travel, here included.
    best: f64,
}

impl Scene<'_> {
    fn pick(&self) -> Picked {
        match self.vertical_stage() {
            Some(answer) => answer,
            None => self.open_stage(),
        }
    }

    /// Chance a move must add to be worth more than another shot here.
    fn worth(&self) -> f64 {
        WORTH_MOVING / self.track.shots_here as f64
    }

    fn pays(&self, found: &Found, now: f64) -> bool {
        found.steps != 0 && (found.chance - now > self.worth() || found.chance < HOPELESS)
    }

    /// The vertical alone, until it is likely inside. `None` when it is, or
    /// when nothing is left to move it with.
    fn vertical_stage(&self) -> Option<Picked> {
        if !self.task.vertical_first || self.vertical_here >= VERTICAL_LIKELY {
            return None;
        }
        let k = self.task.adjuster(Axis::Up)?;
        let found = search::along(self.belief, self.task, self.track, k, Goal::Component);
        if let Some(steps) = self.left_out(k) {
            return Some(Some((steps, Purpose::Learn)));
        }
        if self.pays(&found, self.vertical_here) {
            if self.both_known()
                && let Some(steps) = search::together(self.belief, self.task, self.track)
            {
                return Some(Some((steps, Purpose::Correct)));
            }
            return Some(self.single(k, found.steps));
        }
        // Nothing better up or down: once that is settled, sideways is next.
        let settled = self.track.shots_here >= 2;
        match self.learn(k) {
            None if settled => None,
            learned => Some(learned),
        }
    }

    /// Either axis, whichever promises most; both when both are known.
    fn open_stage(&self) -> Picked {
        let options: Vec<(usize, Found)> = [Axis::Up, Axis::Right]
            .into_iter()
            .filter_map(|a| self.task.adjuster(a))
            .map(|k| {
                (
                    k,
                    search::along(self.belief, self.task, self.track, k, Goal::Length),
                )
            })
            .collect();
        if let Some(steps) = self.further_out().and_then(|k| self.left_out(k)) {
            return Some((steps, Purpose::Learn));
        }
        let top = options
            .iter()
            .max_by(|a, b| a.1.chance.total_cmp(&b.1.chance))?;
        if let Some(steps) = self.both(top.1.chance) {
            return Some((steps, Purpose::Correct));
        }
        if self.pays(&top.1, self.here) {
            return self.single(top.0, top.1.steps);
        }
        self.learn(self.further_out()?)
    }

    /// The adjuster of the axis on which the tear is further out.
    fn further_out(&self) -> Option<usize> {
        let tear = self.belief.tear(&self.track.here);
        let far = |a: Axis| (tear.mean[a.index()] - self.task.aim[a.index()]).abs();
        let axis = if far(Axis::Right) > far(Axis::Up) {
            Axis::Right
        } else {
            Axis::Up
        };
        self.task.adjuster(axis)
    }

    /// A place that was left out, once the belief is out of ideas.
    fn left_out(&self, k: usize) -> Option<Vec<(usize, i32)>> {
        if self.best >= untried::OUT_OF_IDEAS {
            return None;
        }
        let steps = untried::steps(self.belief, self.task, self.track, k)?;
        Some(vec![(k, steps)])
    }

    /// Both axes in one move, where that beats the better of the two alone.
    fn both(&self, single: f64) -> Option<Vec<(usize, i32)>> {
        if !self.both_known() {
            return None;
        }
        let steps = search::together(self.belief, self.task, self.track)?;
        let chance = search::chance_after(self.belief, self.task, self.track, &steps);
        let better = chance - single.max(self.here) > self.worth();
        (steps.len() == 2 && better).then_some(steps)
    }

    fn both_known(&self) -> bool {
        let known = |a: Axis| self.task.adjuster(a).is_some_and(|k| self.known(k));
        self.task.both_at_once && known(Axis::Right) && known(Axis::Up)
    }

    /// Whether earlier bows say well what an adjuster does that was not moved
    /// yet, and both axes may be moved on their word.
    fn known_from_earlier(&self, k: usize) -> bool {
        self.task.earlier_both && Care::of(self.belief, self.task, self.track, k).earlier
    }

    /// Whether the response of an adjuster is known well enough to move it
    /// together with the other: moved before, sign and size both clear, or
    /// well known from earlier bows.
    fn known(&self, k: usize) -> bool {
        if self.known_from_earlier(k) {
            return true;
        }
        let a = &self.task.adjusters[k];
        let g = self.belief.gain(k, a.axis, &self.track.here, 2.0 * a.step);
        self.moved(k) && g.mean.abs() > 2.0 * g.sd && g.doubt() < 0.025
    }

    fn moved(&self, k: usize) -> bool {
        self.track.reached[k] != (0.0, 0.0)
    }

    /// One adjuster to its best place; a test move where nobody knows yet
    /// what it will do, and then large enough to tell.
    fn single(&self, k: usize, steps: i32) -> Picked {
        let care = Care::of(self.belief, self.task, self.track, k);
        if !care.is_test() {
            let purpose = match self.promises_something(k, steps) {
                true => Purpose::Correct,
                false => Purpose::Learn,
            };
            return Some((vec![(k, steps)], purpose));
        }
        let steps = care.large_enough(steps);
        (steps != 0).then(|| (vec![(k, steps)], Purpose::Test))
    }

    /// Whether the tear expected after a move is another than today's.
    fn promises_something(&self, k: usize, steps: i32) -> bool {
        let a = &self.task.adjusters[k];
        let i = a.axis.index();
        let to = self.track.here.moved(k, f64::from(steps) * a.step);
        let off = |at: &Place| self.belief.tear(at).mean[i] - self.task.aim[i];
        (off(&to) - off(&self.track.here)).abs() >= SAME_TEAR
    }

    /// Whether a step to there would tell something: it is not known yet which
    /// way the tear goes from here to there.
    fn tells(&self, k: usize, n: i32) -> bool {
        let a = &self.task.adjusters[k];
        let half = 0.5 * f64::from(n) * a.step;
        let middle = self.track.here.moved(k, half);
        let gain = self.belief.gain(k, a.axis, &middle, half.abs());
        n != 0 && gain.doubt() > care::SIDE_KNOWN
    }

    /// Of an adjuster that has not told its side: as far as care allows, to
    /// the end where the places shot then reach furthest from end to end. A
    /// small step between them would show less than is known already.
    fn widest(&self, k: usize, care: &Care) -> Picked {
        let step = self.task.adjusters[k].step;
        let (low, high) = self.track.reached[k];
        let here = self.track.here.positions[k];
        let reach = |n: i32| {
            let to = here + f64::from(n) * step;
            (high.max(to) - low.min(to), (to - here).abs())
        };
        let (down, up) = care.bounds;
        // Nothing to choose between the ends: the way that is looked first.
        let first = match reach(down).partial_cmp(&reach(up)) {
            Some(Ordering::Greater) => true,
            Some(Ordering::Less) => false,
            _ => search::usual_way(self.belief, self.task, self.track, k) < 0,
        };
        let ends = if first { [down, up] } else { [up, down] };
        let n = ends.into_iter().find(|n| self.tells(k, *n))?;
        Some((vec![(k, n)], Purpose::Learn))
    }

    /// After every third shot without a better idea, and at once where the
    /// adjuster was never moved: a small step that shows the slope near here,
    /// to the side that is more likely inside, unless it is known already.
    fn learn(&self, k: usize) -> Picked {
        let a = &self.task.adjusters[k];
        let i = a.axis.index();
        let off = self.belief.tear(&self.track.here).mean[i] - self.task.aim[i];
        let due = self.track.shots_here.is_multiple_of(3) || !self.moved(k);
        if !due || off.abs() <= LEARN_ABOVE * self.task.tolerance {
            return None;
        }
        let size = LEARN_SHARE * 0.5 * (a.high - a.low);
        let care = Care::of(self.belief, self.task, self.track, k);
        let room = care.bounds;
        let most = (2 * care.test).min(room.1.max(-room.0));
        if self.moved(k) && care.is_test() {
            return self.widest(k, &care);
        }
        let n = ((size / a.step).round() as i32).min(most).max(1);
        let open = |n: i32| n >= room.0 && n <= room.1 && (!self.moved(k) || self.tells(k, n));
        let chance = |n: i32| {
            let to = self.track.here.moved(k, f64::from(n) * a.step);
            open(n).then(|| component(self.belief, self.task, a.axis, &to))
        };
        let steps = match (chance(-n), chance(n)) {
            // Nothing to choose between the sides: the way that is looked first.
            (Some(l), Some(r)) if (l - r).abs() < 1e-9 => {
                search::usual_way(self.belief, self.task, self.track, k) * n
            }
            (Some(l), Some(r)) if l > r => -n,
            (_, Some(_)) => n,
            (Some(_), None) => -n,
            (None, None) => return None,
        };
        if !self.moved(k) {
            return self.single(k, steps);
        }
        Some((vec![(k, steps)], Purpose::Learn))
    }
}

#[cfg(test)]
#[path = "choose_tests.rs"]
mod tests;
