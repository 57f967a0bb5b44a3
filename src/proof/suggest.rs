//! The move a proof suggests, and the odds that it is the right way.
//!
//! The trade's rules (bare shaft or broadhead: rest toward the fletched
//! group; bare high: nocking point up) contradict the trade's own paper
//! rules on some bows. What this bow has shown decides: first how earlier
//! groups of the same proof answered to a move, else how the tears answered
//! on paper. An arrow that arrives tail-right planes left, so what brings
//! the tail one way brings the impact the other.

use crate::advice::Analysis;
use crate::gear::{AdjusterKind, Axis, Hand, Release, Step};
use crate::session::Timeline;
use crate::stats::normal;
use crate::units::{MM_PER_INCH, System};
use crate::words;

/// How often the side a bow showed on paper is taken to hold at distance:
/// planing follows the tail's angle, but paper sees one moment of a bending
/// arrow. An assumption, no source.
const PAPER_HOLDS: f64 = 0.8;

/// A suggested move.
#[derive(Debug, Clone, PartialEq)]
pub struct Suggestion {
    /// The move.
    pub step: Step,
    /// As `tearbench move` takes it.
    pub command: String,
    /// For the bench.
    pub bench: String,
    /// Odds that this way brings them together, 0.5 to 1.
    pub odds: f64,
    /// Near even odds: a test move, to see which way this bow answers.
    pub test: bool,
    /// What the odds rest on, and whether the usual rule says otherwise.
    pub why: String,
}

/// How impacts answered to an adjuster at an earlier setting of this proof:
/// place, offset on the axis and its standard error, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Run {
    pub place: f64,
    pub offset: f64,
    pub se: f64,
}

/// What is to be brought to nothing.
pub(super) struct Wanted<'a> {
    pub axis: Axis,
    /// Offset on that axis now (bare less fletched, broadhead less field, far less near), mm.
    pub offset: f64,
    /// Its standard error, mm.
    pub se: f64,
    /// Runs of this proof at other places of the adjuster, latest last.
    pub earlier: &'a [Run],
    /// Whether the offset comes from planing (bare shaft, broadhead) rather than a line of flight.
    pub planes: bool,
    /// Size of a first move, mm.
    pub size_mm: f64,
}

/// The adjuster that answers on an axis.
pub(super) fn adjuster_for(timeline: &Timeline, axis: Axis) -> Option<AdjusterKind> {
    let found = match axis {
        Axis::Vertical => timeline.card.vertical(),
        _ => timeline.card.sideways(),
    };
    found.map(|a| a.kind)
}

/// Chance that moving the adjuster its positive way moves the impacts the
/// positive way, and what that rests on.
fn follows(
    timeline: &Timeline,
    analysis: &Analysis,
    kind: AdjusterKind,
    wanted: &Wanted<'_>,
) -> (f64, &'static str) {
    let now = timeline.now.get(kind);
    let shown = wanted
        .earlier
        .iter()
        .rev()
        .find(|r| r.place != now)
        .map(|r| {
            let moved = now - r.place;
            let gain = (wanted.offset - r.offset) / moved;
            let se = (wanted.se.hypot(r.se) / moved).abs().max(1e-9);
            normal::below(gain / se)
        });
    if let Some(p) = shown
        && (p - 0.5).abs() > 0.3
    {
        return (p, "by how these groups answered to the last move");
    }
    let paper = analysis.advice.estimate.gain.get(kind.id());
    if let (true, Some(gain)) = (wanted.planes, paper) {
        let p = PAPER_HOLDS * gain.probability_negative
            + (1.0 - PAPER_HOLDS) * (1.0 - gain.probability_negative);
        return (
            p,
            "by what this bow has shown on paper, which is taken to hold at distance 4 times in 5",
        );
    }
    // Walk-back and near-far: arrows that hit right usually call for rest left.
    let follows = usual_follows(kind, timeline.card.bow.hand);
    (
        if follows { 0.7 } else { 0.3 },
        "by the usual rule (from memory), not shown by this bow yet",
    )
}

/// Whether the usual rule expects impacts to follow the adjuster's positive
/// way: the rest toward the fletched group, the nocking point up for a bare
/// shaft that lands high, a plunger, which has no side, by the hand.
fn usual_follows(kind: AdjusterKind, hand: Hand) -> bool {
    match kind {
        AdjusterKind::NockingPoint => false,
        AdjusterKind::PlungerTension => hand == Hand::Left,
        _ => true,
    }
}

pub(super) fn suggest(
    timeline: &Timeline,
    analysis: &Analysis,
    wanted: &Wanted<'_>,
    system: System,
) -> Option<Suggestion> {
    let kind = adjuster_for(timeline, wanted.axis)?;
    let adjuster = timeline.card.adjuster(kind)?;
    let (p, rests_on) = follows(timeline, analysis, kind, wanted);
    let sign = if p >= 0.5 { 1.0 } else { -1.0 };
    let size = match kind.unit() {
        crate::gear::AdjusterUnit::Mm => wanted.size_mm,
        // An eighth of a turn, half a twist: one of the trade's small steps.
        _ => adjuster.step,
    };
    let size = adjuster.rounded(size).max(adjuster.step);
    let amount = -wanted.offset.signum() * sign * size;
    let there = timeline.now.get(kind) + amount;
    if there.abs() > adjuster.range + 1e-9 {
        return None;
    }
    let step = Step {
        adjuster: kind,
        amount,
    };
    let odds = p.max(1.0 - p);
    let against = (p >= 0.5) != usual_follows(kind, timeline.card.bow.hand);
    let mut why = format!(
        "{} that this is the right way, {rests_on}",
        words::odds(odds)
    );
    if against && odds >= 0.65 {
        why.push_str("; the usual rule says the other way, and for this bow it does not hold");
    }
    if odds < 0.65 {
        why.push_str(": a test move, keep it if they come together, reverse it if not");
    }
    if timeline.card.bow.release == Release::Fingers
        && wanted.planes
        && wanted.axis == Axis::Sideways
    {
        why.push_str("; with fingers the arrow's stiffness comes before the rest");
    }
    Some(Suggestion {
        command: words::step_command(&step),
        bench: words::step_bench(&step, &timeline.card, &timeline.now, system),
        odds,
        test: odds < 0.65,
        why,
        step,
    })
}

/// The trade's small step, 1/32 in.
pub(super) const SMALL_MM: f64 = MM_PER_INCH / 32.0;
/// The trade's first step, 1/16 in.
pub(super) const FIRST_MM: f64 = MM_PER_INCH / 16.0;
