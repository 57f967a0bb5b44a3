//! Why the advice is what it is, to teach: as facts. What they say stands in
//! [`crate::words::practice`].
//!
//! A side is a rule of the trade and called so, or what this bow's own moves
//! have shown, or what earlier bows have, or not shown yet.

use crate::advice::{Advice, Finding, FirstMove, Verdict};
use crate::checks::response::Known;
use crate::gear::{AdjusterKind, Axis, Step};
use crate::question::Refusal;
use crate::session::Timeline;

/// A component of the tear under this, mm, has no side worth a word: a tear
/// is read to the millimetre.
const SIDE_MM: f64 = 0.5;

/// Why the advice is what it is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Why {
    /// The rest is left alone for this.
    Refused(Refusal),
    /// Something is moved.
    Moves {
        /// Where the tail stands of what is wanted, along the way that is
        /// moved; none where it has no side.
        tail: Option<Tail>,
        /// What the move rests on.
        ground: MoveGround,
    },
}

/// The side that the tail stands on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Tail {
    /// Up and down, or sideways.
    pub(crate) vertical: bool,
    /// High or right; else low or left.
    pub(crate) positive: bool,
    /// Whether the card wants a tear that way, so that the side is one of the
    /// wanted tear and not of the point's hole.
    pub(crate) wanted: bool,
}

/// What a move rests on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum MoveGround {
    /// A test move, with the ground of its way.
    Test(FirstMove),
    /// This bow's own moves.
    Shown(Shows),
    /// So many earlier bows of the folder; this one has not shown it yet.
    EarlierBows(u32, Shows),
    /// A test move that only learns what this adjuster does near here.
    Learn(AdjusterKind),
    /// A test move of a vertical that acts the other way round: the nock
    /// starts high and comes down.
    HighStart(AdjusterKind),
}

/// Which way the tail goes with a move.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Shows {
    /// What is moved.
    pub(crate) kind: AdjusterKind,
    /// To its positive way; else to its negative one.
    pub(crate) plus: bool,
    /// The tail goes right or up; else left or down.
    pub(crate) tail_plus: bool,
}

/// Why the advice is what it is; nothing where there is neither a move nor a
/// refusal.
#[must_use]
pub fn why(advice: &Advice, timeline: &Timeline) -> Option<Why> {
    match advice.verdict {
        Verdict::Refuse => advice.refusal.map(Why::Refused),
        Verdict::Move => {
            let steps = advice.movement.as_ref()?.moves();
            let (step, ground) = ground(advice, &steps)?;
            Some(Why::Moves {
                tail: tail(advice, timeline, step.adjuster.axis()),
                ground,
            })
        }
        Verdict::Shoot | Verdict::Probe | Verdict::Done | Verdict::Stop => None,
    }
}

/// Where the tail stands along an axis, of what is wanted.
fn tail(advice: &Advice, timeline: &Timeline, axis: Axis) -> Option<Tail> {
    let aim = timeline.card.paper.aim;
    let tear = advice.estimate.tear_mm?;
    let vertical = axis == Axis::Vertical;
    let (stands, aim) = match vertical {
        true => (tear.up, aim.1),
        false => (tear.right, aim.0),
    };
    let off = stands - aim;
    (off.abs() >= SIDE_MM).then_some(Tail {
        vertical,
        positive: off > 0.0,
        wanted: aim != 0.0,
    })
}

/// What a move rests on, and the step that this is said of.
fn ground(advice: &Advice, steps: &[Step]) -> Option<(Step, MoveGround)> {
    let first = *steps.first()?;
    let of = |kind: AdjusterKind| steps.iter().find(|s| s.adjuster == kind).copied();
    let said = advice.findings.iter().find_map(|found| match found {
        Finding::Reversed(kind, ..) => Some((of(*kind)?, MoveGround::HighStart(*kind))),
        Finding::TestMove(first) => Some((of(first.kind)?, MoveGround::Test(*first))),
        Finding::Correct(known) => {
            let step = of(known.kind)?;
            let shows = shows(known, &step)?;
            Some((step, MoveGround::Shown(shows)))
        }
        Finding::EarlierBows(bows, known) => {
            let step = of(known.kind)?;
            let shows = shows(known, &step)?;
            Some((step, MoveGround::EarlierBows(*bows, shows)))
        }
        _ => None,
    });
    Some(said.unwrap_or((first, MoveGround::Learn(first.adjuster))))
}

/// Which way the tail goes with this step; nothing while that is not known.
fn shows(known: &Known, step: &Step) -> Option<Shows> {
    (!known.is_unsure()).then_some(Shows {
        kind: known.kind,
        plus: step.amount > 0.0,
        tail_plus: known.gain.mean * step.amount > 0.0,
    })
}

#[cfg(test)]
mod tests;
