//! Cases that the tests of this room share: a release aid's two adjusters, and
//! shots at places of the rest sideways.

use super::task::{Range, Task, Track};
use crate::belief::{Axis, Belief, OWNER, Obs, Place, Prior};

/// An adjuster of 0.25 mm clicks with this travel each way, mm.
pub(super) const fn range(axis: Axis, travel: f64) -> Range {
    Range {
        axis,
        step: 0.25,
        low: -travel,
        high: travel,
        usable: true,
    }
}

/// The rest sideways and its height, with this travel each way, mm; 6 mm wanted.
pub(super) fn task(travel: f64) -> Task {
    let both = vec![range(Axis::Right, travel), range(Axis::Up, travel)];
    Task::new(both, 6.0)
}

/// The rest this far right of the start, mm.
pub(super) fn rest_at(x: f64) -> Place {
    Place::start(2, 2.0).moved(0, x)
}

/// One shot there.
pub(super) const fn shot(place: Place, tear: [f64; 2]) -> Obs {
    Obs {
        place,
        called_bad: false,
        tear,
    }
}

/// Two shots, 1 mm apart, at each place of the rest, with the tear to the
/// right that they average to, mm.
pub(super) fn pairs(seen: &[(f64, f64)]) -> Vec<Obs> {
    seen.iter()
        .flat_map(|(x, right)| [-0.5, 0.5].map(|off| shot(rest_at(*x), [right + off, 0.0])))
        .collect()
}

/// What an aid's prior and these shots make of it; the adjusters stand where
/// the last was shot.
pub(super) fn weighed(shots: &[Obs]) -> (Belief, Track) {
    let belief = Belief::fit(&Prior::aid(), shots, OWNER);
    let track = Track::count(shots, &shots[shots.len() - 1].place, OWNER);
    (belief, track)
}
