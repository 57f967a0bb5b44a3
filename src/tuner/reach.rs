//! What travel can reach: whether any likely response of this bow, either way
//! round, brings the tear within tolerance.
//!
//! The size of a tear decides nothing: 50 mm is four millimetres of a rest
//! against a button, and 20 mm is too much for a rest that goes 1 mm.

use super::task::{Task, Track};
use crate::belief::{Axis, Belief};
use crate::stats::disk::Piece;
use crate::stats::normal;

/// A response under this chance is not likely (this project's own figure).
pub(crate) const LIKELY: f64 = 0.1;
/// Places looked at on each side, as shares of the way to its end: a bent
/// response may come nearest before the end.
const ALONG: [f64; 4] = [0.25, 0.5, 0.75, 1.0];
/// Halvings of the search for the longest tear that is reached.
const HALVINGS: usize = 40;
/// Longest tear looked for, mm: no sheet shows more.
const LONGEST: f64 = 400.0;

/// One direction, and what its adjusters can do about the tear there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reach {
    /// The direction.
    pub axis: Axis,
    /// How far out the tear is there, mm.
    pub(crate) off: f64,
    /// Chance that some place within travel is inside.
    pub chance: f64,
    /// Longest tear there that a likely response brings inside, mm.
    pub(crate) longest: f64,
}

impl Reach {
    /// Whether no likely response brings the tear inside.
    pub fn is_short(&self) -> bool {
        self.chance < LIKELY
    }
}

/// What the adjusters of one axis can reach; `None` where there is none, or
/// where the tear is on the wanted spot.
pub fn of(belief: &Belief, task: &Task, track: &Track, axis: Axis) -> Option<Reach> {
    let aim = task.aim[axis.index()];
    let believed = belief.tear(&track.here).mean[axis.index()] - aim;
    let sign = if believed < 0.0 { -1.0 } else { 1.0 };
    // A long tear is believed shorter than it was shot, till many say so.
    let shot = track
        .mean_here
        .map_or(0.0, |m| sign * (m[axis.index()] - aim));
    let off = shot.max(believed.abs());
    let here = belief.pieces(axis, &track.here);
    let sides = sides(belief, task, track, axis)?;
    let chance = |longer: f64| {
        let nearer = -(off + longer - believed.abs());
        // Already inside, or past the near edge of the tolerance somewhere on
        // either side; the tail end of one side leaves little for the other.
        let past = |pieces: &[Piece]| past(pieces, sign, aim, task.tolerance + nearer);
        let best = |side: &[Vec<Piece>]| side.iter().map(|p| past(p)).fold(0.0, f64::max);
        let reached: f64 = sides.iter().map(|side| best(side)).sum();
        reached.max(past(&here)).min(1.0)
    };
    Some(Reach {
        axis,
        off,
        chance: chance(0.0),
        longest: longest(off, chance),
    })
}

/// Beliefs about the tear along either side of every adjuster of the axis,
/// the ones whose turn comes later as well.
fn sides(belief: &Belief, task: &Task, track: &Track, axis: Axis) -> Option<Vec<Vec<Vec<Piece>>>> {
    task.adjuster(axis)?;
    let all = task.adjusters.iter().enumerate();
    let both = all.filter(|(_, a)| a.axis == axis).flat_map(|(k, a)| {
        let here = track.here.positions[k];
        [a.low - here, a.high - here].map(|way| {
            let at = ALONG.map(|share| track.here.moved(k, share * way));
            at.iter().map(|p| belief.pieces(axis, p)).collect()
        })
    });
    Some(both.collect())
}

/// Chance that the tear is no further out than `edge` on the side it is on.
fn past(pieces: &[Piece], sign: f64, aim: f64, edge: f64) -> f64 {
    let one = |p: &Piece| p.weight * normal::below((edge - sign * (p.mean - aim)) / p.sd);
    pieces.iter().map(one).sum()
}

/// The tear from which the chance falls under [`LIKELY`], by halving.
fn longest(off: f64, chance: impl Fn(f64) -> f64) -> f64 {
    let (mut low, mut high) = (0.0, LONGEST);
    for _ in 0..HALVINGS {
        let middle = 0.5 * (low + high);
        if chance(middle - off) < LIKELY {
            high = middle;
        } else {
            low = middle;
        }
    }
    low
}

#[cfg(test)]
mod tests {
    use super::super::cases::{rest_at, shot, task};
    use super::*;
    use crate::belief::{OWNER, Prior};

    /// Two shots at the start that read the same, nothing moved.
    fn found(prior: &Prior, tear: [f64; 2], travel: f64, axis: Axis) -> Reach {
        let place = rest_at(0.0);
        let shots = vec![shot(place.clone(), tear); 2];
        let belief = Belief::fit(prior, &shots, OWNER);
        let track = Track::count(&shots, &place, OWNER);
        of(&belief, &task(travel), &track, axis).unwrap()
    }

    #[test]
    fn size_alone_is_not_too_much_and_travel_decides() {
        for side in [1.0, -1.0] {
            let aid = |mm: f64, travel| {
                found(&Prior::aid(), [side * mm, 0.0], travel, Axis::Right).is_short()
            };
            assert!(!aid(50.0, 8.0));
            assert!(aid(100.0, 8.0));
            // The same 20 mm: eight millimetres of travel, or one.
            assert!(!aid(20.0, 8.0));
            assert!(aid(20.0, 1.0));
            let fingers =
                |mm: f64| found(&Prior::fingers(), [side * mm, 0.0], 8.0, Axis::Right).is_short();
            assert!(!fingers(60.0));
        }
    }

    #[test]
    fn the_longest_tear_is_where_the_chance_crosses() {
        for axis in Axis::BOTH {
            for sign in [1.0, -1.0] {
                let tear = |mm: f64| {
                    let mut tear = [0.0; 2];
                    tear[axis.index()] = sign * mm;
                    found(&Prior::aid(), tear, 8.0, axis)
                };
                let longest = tear(30.0).longest;
                assert!((40.0..95.0).contains(&longest), "{longest}");
                assert!(!tear(longest - 4.0).is_short());
                assert!(tear(longest + 4.0).is_short());
            }
        }
    }
}
