//! Shoot, move, probe, done or limit.

use super::search::{self, Found};
use super::task::{Task, Track};
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
    pub vertical_here: f64,
    /// Why it moves, when it does.
    pub purpose: Option<Purpose>,
}

/// Chance of the vertical at which the sideways adjuster is released.
pub const VERTICAL_LIKELY: f64 = 0.8;
/// Gain of chance that a move must promise, divided by the shots here.
const WORTH_MOVING: f64 = 0.05;
/// Below this chance a place is as good as any other.
const HOPELESS: f64 = 1e-4;
/// Size of a move that only learns the slope, mm.
const LEARN_MM: f64 = 1.5;
/// A mean this far out after three more shots is worth a learning move, mm.
const LEARN_ABOVE: f64 = 2.5;

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
    if track.shots == 0 {
        return out;
    }
    if here >= task.level && track.shots_here >= task.least_shots {
        out.choice = Choice::Done;
        return out;
    }
    if track.shots >= 10 && track.moves >= 2 && out.best.chance.max(here) < 0.2 {
        out.choice = Choice::Limit;
        return out;
    }
    if track.shots_here == 0 {
        return out;
    }
    if let Some((steps, purpose)) = pick_move(belief, task, track, here, vertical_here) {
        out.choice = Choice::Move(steps);
        out.purpose = Some(purpose);
    }
    out
}

fn component(belief: &Belief, task: &Task, axis: Axis, at: &Place) -> f64 {
    belief.probability_component(axis, at, task.aim[axis.index()], task.tolerance)
}

fn pick_move(
    belief: &Belief,
    task: &Task,
    track: &Track,
    here: f64,
    vertical_here: f64,
) -> Option<(Vec<(usize, i32)>, Purpose)> {
    let worth = WORTH_MOVING / track.shots_here as f64;
    let (sideways, upright) = (task.adjuster(Axis::Right), task.adjuster(Axis::Up));
    if task.vertical_first
        && vertical_here < VERTICAL_LIKELY
        && let Some(k) = upright
    {
        let found = search::along(belief, task, track, k, search::Goal::Component);
        let both = sideways.filter(|s| {
            task.both_at_once && known(belief, task, track, *s) && known(belief, task, track, k)
        });
        if let (true, Some(_)) = (gain_worth(&found, vertical_here, worth), both)
            && let Some(steps) = search::together(belief, task, track)
        {
            return Some((steps, Purpose::Correct));
        }
        if gain_worth(&found, vertical_here, worth) {
            return Some((vec![(k, found.steps)], purpose(track, k)));
        }
        if found.chance >= 0.5 || track.shots_here < 3 {
            return learn(belief, task, track, k);
        }
    }
    let mut options: Vec<(usize, Found)> = Vec::new();
    for k in [upright, sideways].into_iter().flatten() {
        options.push((
            k,
            search::along(belief, task, track, k, search::Goal::Length),
        ));
    }
    if task.both_at_once
        && let (Some(a), Some(b)) = (sideways, upright)
        && known(belief, task, track, a)
        && known(belief, task, track, b)
        && let Some(steps) = search::together(belief, task, track)
    {
        let chance = search::chance_after(belief, task, track, &steps);
        let single = options.iter().map(|o| o.1.chance).fold(0.0, f64::max);
        if steps.len() == 2 && chance - single > worth && chance - here > worth {
            return Some((steps, Purpose::Correct));
        }
    }
    let top = options
        .iter()
        .max_by(|a, b| a.1.chance.total_cmp(&b.1.chance))?;
    if top.1.steps != 0 && (top.1.chance - here > worth || top.1.chance < HOPELESS) {
        return Some((vec![(top.0, top.1.steps)], purpose(track, top.0)));
    }
    let tear = belief.tear(&track.here);
    let far = |a: Axis| (tear.mean[a.index()] - task.aim[a.index()]).abs();
    let axis = if far(Axis::Right) > far(Axis::Up) {
        Axis::Right
    } else {
        Axis::Up
    };
    learn(belief, task, track, task.adjuster(axis)?)
}

fn gain_worth(found: &Found, here: f64, worth: f64) -> bool {
    found.steps != 0 && (found.chance - here > worth || found.chance < HOPELESS)
}

fn purpose(track: &Track, k: usize) -> Purpose {
    if track.reached[k] == (0.0, 0.0) {
        Purpose::Test
    } else {
        Purpose::Correct
    }
}

/// Whether the response of an adjuster is known well enough to move it
/// together with the other: moved before, sign and size both clear.
fn known(belief: &Belief, task: &Task, track: &Track, k: usize) -> bool {
    let a = &task.adjusters[k];
    let g = belief.gain(k, a.axis, &track.here, 2.0 * a.step);
    track.reached[k] != (0.0, 0.0)
        && g.mean.abs() > 2.0 * g.sd
        && g.probability_negative.min(1.0 - g.probability_negative) < 0.025
}

fn learn(
    belief: &Belief,
    task: &Task,
    track: &Track,
    k: usize,
) -> Option<(Vec<(usize, i32)>, Purpose)> {
    let a = &task.adjusters[k];
    let off = belief.tear(&track.here).mean[a.axis.index()] - task.aim[a.axis.index()];
    if !track.shots_here.is_multiple_of(3) || off.abs() <= LEARN_ABOVE {
        return None;
    }
    let n = ((LEARN_MM / a.step).round() as i32).max(1);
    let room = search::room(task, track, k);
    let side = |n: i32| {
        (n >= room.0 && n <= room.1).then(|| {
            component(
                belief,
                task,
                a.axis,
                &track.here.moved(k, f64::from(n) * a.step),
            )
        })
    };
    let steps = match (side(-n), side(n)) {
        (Some(l), Some(r)) if l > r => -n,
        (_, Some(_)) => n,
        (Some(_), None) => -n,
        (None, None) => return None,
    };
    Some((vec![(k, steps)], Purpose::Learn))
}
