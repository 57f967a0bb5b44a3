//! The refusals, in the order of the bench.

use super::policy::End;
use super::world::Kind;
use tearbench::belief::{Belief, Obs};
use tearbench::tuner::gates::{self, Gate, Unfit};
use tearbench::tuner::{Decision, Task, Track};

/// What the checks say after this shot, if they refuse.
pub fn refused(
    belief: &Belief,
    shots: &[Obs],
    task: &Task,
    track: &Track,
    decision: &Decision,
    kind: Kind,
) -> Option<End> {
    let normal = if kind == Kind::Aid { 6.0 } else { 12.0 };
    if gates::consistency(belief, task, track, normal).gate == Gate::Refuse {
        return Some(End::Scatter);
    }
    let evidence = gates::evidence(belief, shots, track);
    match gates::response(&evidence, decision, task, track)? {
        Unfit::Dead(..) => Some(End::Dead),
        Unfit::Jumps(_) => Some(End::Jumps),
        Unfit::Clipped(_) => Some(End::Limit),
    }
}
