//! The best place to put an adjuster, in whole steps inside its travel.

use super::care::Care;
use super::task::{Task, Track};
use crate::belief::{Axis, Belief, Place};

/// What a search maximises.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Goal {
    /// Chance that the adjuster's own component is inside.
    Component,
    /// Chance that the length of the tear is inside.
    Length,
}

/// The best place found.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Found {
    /// Whole steps from here, 0 to stay.
    pub steps: i32,
    /// Chance of being inside there.
    pub chance: f64,
}

/// First excursion beyond what has been shot, as a share of the travel.
const FIRST_EXCURSION: f64 = 0.4;

/// Lowest and highest whole steps from here: inside travel, and not too far
/// beyond the positions already shot (no further beyond them than they
/// reach from end to end).
pub fn room(task: &Task, track: &Track, k: usize) -> (i32, i32) {
    let a = &task.adjusters[k];
    let here = track.here.positions[k];
    let half = 0.5 * (a.high - a.low);
    let (least, most) = track.reached[k];
    let excursion = (FIRST_EXCURSION * half).max(most - least).max(a.step);
    let low = a.low.max(least - excursion);
    let high = a.high.min(most + excursion);
    let down = ((low - here) / a.step - 1e-6).ceil().min(0.0) as i32;
    let up = ((high - here) / a.step + 1e-6).floor().max(0.0) as i32;
    (down, up)
}

fn travel(task: &Task, track: &Track, k: usize) -> (i32, i32) {
    let a = &task.adjusters[k];
    let here = track.here.positions[k];
    let down = ((a.low - here) / a.step - 1e-6).ceil().min(0.0) as i32;
    let up = ((a.high - here) / a.step + 1e-6).floor().max(0.0) as i32;
    (down, up)
}

fn place(track: &Track, task: &Task, k: usize, steps: i32) -> Place {
    track
        .here
        .moved(k, f64::from(steps) * task.adjusters[k].step)
}

fn score(belief: &Belief, task: &Task, at: &Place, axis: Axis, goal: Goal) -> f64 {
    match goal {
        Goal::Length => belief.probability_within(at, task.aim, task.tolerance),
        Goal::Component => {
            belief.probability_component(axis, at, task.aim[axis.index()], task.tolerance)
        }
    }
}

/// The best place along one adjuster, as far as care allows.
pub fn along(belief: &Belief, task: &Task, track: &Track, k: usize, goal: Goal) -> Found {
    let bounds = Care::of(belief, task, track, k).bounds;
    let axis = task.adjusters[k].axis;
    let prefer = usual_way(belief, task, track, k);
    coarse_to_fine(bounds, prefer, |n| {
        score(belief, task, &place(track, task, k, n), axis, goal)
    })
}

/// Which way to look first, when both ways promise the same: against the tear
/// by what is usual of the adjuster, toward the tail where nothing is usual.
pub(super) fn usual_way(belief: &Belief, task: &Task, track: &Track, k: usize) -> i32 {
    let i = task.adjusters[k].axis.index();
    let off = belief.tear(&track.here).mean[i] - task.aim[i];
    let usual = belief
        .prior
        .adjusters
        .get(k)
        .map_or(0.0, |a| a.slope[i].mean);
    let toward = if off < 0.0 { -1 } else { 1 };
    if usual > 0.0 { -toward } else { toward }
}

/// Largest value over whole numbers between the bounds: every fourth first,
/// then around the best. `prefer` (+1 or -1) wins ties.
fn coarse_to_fine(bounds: (i32, i32), prefer: i32, value: impl Fn(i32) -> f64) -> Found {
    const STRIDE: i32 = 4;
    let mut best = Found {
        steps: 0,
        chance: value(0),
    };
    let consider = |best: &mut Found, n: i32| {
        if n < bounds.0 || n > bounds.1 || n == 0 {
            return;
        }
        let chance = value(n);
        let tie = (chance - best.chance).abs() <= 1e-9 * (1.0 + best.chance);
        let nicer = tie && n.signum() == prefer && best.steps.signum() != prefer && best.steps != 0;
        if (!tie && chance > best.chance) || nicer {
            *best = Found { steps: n, chance };
        }
    };
    let reach = bounds.1.max(-bounds.0);
    for n in (STRIDE..reach + STRIDE).step_by(STRIDE as usize) {
        let n = n.min(reach);
        consider(&mut best, prefer * n);
        consider(&mut best, -prefer * n);
    }
    let centre = best.steps;
    for d in 1..STRIDE {
        consider(&mut best, centre + prefer * d);
        consider(&mut best, centre - prefer * d);
    }
    best
}

/// The best chance anywhere within travel, the axes taken in turn.
pub(crate) fn best_reachable(belief: &Belief, task: &Task, track: &Track) -> Found {
    let mut at = track.clone();
    let mut total = Found {
        steps: 0,
        chance: 0.0,
    };
    for axis in [Axis::Up, Axis::Right] {
        let Some(k) = task.adjuster(axis) else {
            continue;
        };
        let prefer = usual_way(belief, task, track, k);
        let found = coarse_to_fine(travel(task, &at, k), prefer, |n| {
            score(belief, task, &place(&at, task, k, n), axis, Goal::Component)
        });
        at.here = place(&at, task, k, found.steps);
        total.steps += found.steps.abs();
    }
    total.chance = belief.probability_within(&at.here, task.aim, task.tolerance);
    total
}

/// Both axes at once: each to its own best place, the vertical first.
pub fn together(belief: &Belief, task: &Task, track: &Track) -> Option<Vec<(usize, i32)>> {
    let (kv, kh) = (task.adjuster(Axis::Up)?, task.adjuster(Axis::Right)?);
    let up = along(belief, task, track, kv, Goal::Component);
    let mut at = track.clone();
    at.here = place(track, task, kv, up.steps);
    let side = along(belief, task, &at, kh, Goal::Length);
    at.here = place(&at, task, kh, side.steps);
    let steps: Vec<(usize, i32)> = [(kv, up.steps), (kh, side.steps)]
        .into_iter()
        .filter(|s| s.1 != 0)
        .collect();
    (!steps.is_empty()).then_some(steps)
}

/// Chance of being inside after the given steps.
pub fn chance_after(belief: &Belief, task: &Task, track: &Track, steps: &[(usize, i32)]) -> f64 {
    let mut at = track.here.clone();
    for (k, n) in steps {
        at.positions[*k] += f64::from(*n) * task.adjusters[*k].step;
    }
    belief.probability_within(&at, task.aim, task.tolerance)
}

#[cfg(test)]
mod tests {
    use super::super::cases::{pairs, task, weighed};
    use super::*;

    /// A rest that has shown 3 mm a mm and stands 7 mm from where it would be
    /// clean: the best chance is looked for over the whole travel, further than
    /// the next move may go, and no further than the travel.
    #[test]
    fn the_best_chance_is_looked_for_over_the_whole_travel() {
        let best = |travel: f64, side: f64| {
            let seen = [0.0, -1.0, -2.0].map(|x| (side * x, side * (21.0 + 3.0 * x)));
            let (belief, track) = weighed(&pairs(&seen));
            best_reachable(&belief, &task(travel), &track)
        };
        for side in [1.0, -1.0] {
            let far = best(8.0, side);
            assert!((17..=23).contains(&far.steps), "{far:?}");
            assert!(far.chance > 0.6, "{far:?}");
            // From 2 to 3 mm out: four clicks, and 12 mm are left.
            let near = best(3.0, side);
            assert_eq!(near.steps, 4);
            assert!(near.chance < 0.05, "{near:?}");
        }
    }
}
