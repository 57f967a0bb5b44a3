//! The refusals, in the order of the bench.

use super::policy::End;
use super::world::Kind;
use tearbench::belief::{Belief, Obs, Prior};
use tearbench::tuner::{Task, Track};

/// What the checks say after this shot, if they refuse.
pub fn refused(
    _belief: &Belief,
    _prior: &Prior,
    _shots: &[Obs],
    _task: &Task,
    _track: &Track,
    _kind: Kind,
) -> Option<End> {
    None
}
