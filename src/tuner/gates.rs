//! When the rest is to be left alone: the figures behind the checks.

use super::choose::Decision;
use super::task::{Task, Track};
use crate::belief::{Axis, Belief, Evidence, Obs};

/// A three-valued answer that accumulates shot by shot.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Gate {
    /// Good enough.
    Pass,
    /// Cannot be told yet.
    Wait,
    /// Not good enough.
    Refuse,
}

/// Scatter against its limit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Consistency {
    /// The answer.
    pub gate: Gate,
    /// Larger of the two expected sds, mm.
    pub figure: f64,
    /// The axis that has it.
    pub axis: Axis,
    /// Limit for either, mm.
    pub limit: f64,
    /// Chance that the sd of that axis is above the limit.
    pub probability_over: f64,
}

/// Limit of the per-axis sd in tolerances.
pub const SCATTER_LIMIT: f64 = 1.0;
/// Chance above the limit at which it refuses.
const SURE: f64 = 0.8;
/// Fewest shots before it refuses, and before it passes.
const REFUSE_FROM: usize = 5;
/// Fewest repeats at settings before it refuses: single shots along a steep
/// response are no scatter.
const REPEATS: usize = 2;
const PASS_FROM: usize = 3;

/// Weighs the judged shooter's scatter. `normal_tolerance` is the usual one
/// for this release: an archer normal for the release is not refused because
/// the tolerance asked for is finer.
pub fn consistency(
    belief: &Belief,
    task: &Task,
    track: &Track,
    normal_tolerance: f64,
) -> Consistency {
    let limit = SCATTER_LIMIT * task.tolerance.max(normal_tolerance);
    let of = |axis: Axis| {
        let s = belief.scatter(axis);
        (s.probability_over(limit), s.mean, axis)
    };
    let (r, u) = (of(Axis::Right), of(Axis::Up));
    let (probability_over, figure, axis) = if u.0 > r.0 { u } else { r };
    let gate = if track.shots >= REFUSE_FROM && track.repeats >= REPEATS && probability_over >= SURE
    {
        Gate::Refuse
    } else if track.shots >= PASS_FROM && probability_over < 0.5 {
        Gate::Pass
    } else {
        Gate::Wait
    };
    Consistency {
        gate,
        figure,
        axis,
        limit,
        probability_over,
    }
}

/// Why the response says: leave the rest alone.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Unfit {
    /// This adjuster does nothing (its index, and how sure).
    Dead(usize, f64),
    /// The mean jumps between moves (how sure).
    Jumps(f64),
    /// Travel clips the move; best reachable chance.
    Clipped(f64),
}

/// Chance at which an adjuster is called dead.
const DEAD_SURE: f64 = 0.85;
/// Chance at which a jumping mean is called.
const JUMPS_SURE: f64 = 0.9;

/// What the response check finds, the worst first; `None` when it is fit.
pub fn response(
    evidence: &Evidence,
    decision: &Decision,
    task: &Task,
    track: &Track,
) -> Option<Unfit> {
    if track.moves >= 2 && evidence.jumps >= JUMPS_SURE {
        return Some(Unfit::Jumps(evidence.jumps));
    }
    let best = decision.best.chance.max(decision.here);
    let limit = matches!(decision.choice, super::Choice::Limit);
    // Giving up anyway, the likelier of the two reasons is named.
    let sure = if limit { 0.5 } else { DEAD_SURE };
    if track.moves >= 1 && best < 0.5 {
        let dead = (0..task.adjusters.len())
            .filter(|k| task.adjusters[*k].usable && evidence.dead[*k] >= sure)
            .max_by(|a, b| evidence.dead[*a].total_cmp(&evidence.dead[*b]));
        if let Some(k) = dead {
            return Some(Unfit::Dead(k, evidence.dead[k]));
        }
    }
    limit.then_some(Unfit::Clipped(best))
}

/// The other stories; those of a move only once something was moved.
pub fn evidence(belief: &Belief, shots: &[Obs], track: &Track) -> Evidence {
    if track.moves == 0 {
        return Evidence::unmoved(belief, shots);
    }
    Evidence::weigh(belief, shots)
}
