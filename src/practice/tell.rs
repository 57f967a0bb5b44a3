//! What practice says to teach: one line of why, and the tell-tales of each
//! fault. A side is a rule of the trade and called so, or what this bow's own
//! moves have shown, or said to be not shown yet.

use super::Fault;
use crate::advice::{Advice, Finding, FirstMove, Ground, GuideWay, Verdict};
use crate::checks::response::Known;
use crate::gear::{Axis, Step};
use crate::question::Refusal;
use crate::session::Timeline;

/// Where the tail tore to, of the two sides of an axis.
fn tail(axis: Axis, off: f64) -> (&'static str, &'static str) {
    match (axis, off < 0.0) {
        (Axis::Vertical, true) => ("low", "below"),
        (Axis::Vertical, false) => ("high", "above"),
        (_, true) => ("left", "left of"),
        (_, false) => ("right", "right of"),
    }
}

/// One line of why the advice is what it is; nothing where there is neither a
/// move nor a refusal.
#[must_use]
pub fn why(advice: &Advice, timeline: &Timeline) -> Option<String> {
    match advice.verdict {
        Verdict::Refuse => advice.refusal.map(refused),
        Verdict::Move => {
            let step = *advice.movement.as_ref()?.moves().first()?;
            Some(moved(advice, timeline, &step))
        }
        _ => None,
    }
}

fn moved(advice: &Advice, timeline: &Timeline, step: &Step) -> String {
    let axis = step.adjuster.axis();
    let aim = timeline.card.paper.aim;
    let seen = advice.estimate.tear_mm.map(|tear| match axis {
        Axis::Vertical => tear.up - aim.1,
        _ => tear.right - aim.0,
    });
    let ground = ground(advice, step, seen);
    match seen {
        Some(off) => {
            let (side, place) = tail(axis, off);
            format!("Tail {side}: the nock end came through {place} the point. {ground}")
        }
        None => ground,
    }
}

/// What the side of the move rests on.
fn ground(advice: &Advice, step: &Step, off: Option<f64>) -> String {
    let unknown = "This bow has not shown the side yet: the move is a test.";
    let first = advice.findings.iter().find_map(|found| match found {
        Finding::TestMove(first) => Some(by_first(first, off)),
        Finding::Correct(known) => Some(by_known(known, step)),
        Finding::EarlierBows(_, known) => Some(by_known(known, step)),
        Finding::Learn => Some(unknown.to_owned()),
        _ => None,
    });
    first.unwrap_or_else(|| unknown.to_owned())
}

/// The ground of an adjuster's first move on this bow.
fn by_first(first: &FirstMove, off: Option<f64>) -> String {
    match &first.ground {
        Ground::Vertical => {
            let low = off.is_some_and(|off| off < 0.0);
            let (rest, nock) = if low { ("high", "low") } else { ("low", "high") };
            format!(
                "A rule of the trade: rest too {rest} or nocking point too {nock}. How far, this bow will show."
            )
        }
        Ground::Aid(_) => {
            "With a release aid guides contradict each other on the side. This bow has not shown it yet: the move is a test.".into()
        }
        Ground::Fingers(by) => {
            let way = match by.way {
                GuideWay::PlungerFirmer => "plunger firmer",
                GuideWay::PlungerSofter => "plunger softer",
                GuideWay::RestIn => "rest IN",
                GuideWay::RestOut => "rest OUT",
            };
            let side = if by.tail_left { "left" } else { "right" };
            let follows = if by.followed {
                "The move tries that"
            } else {
                "The move tries the other way, since the powder speaks against it"
            };
            format!(
                "A rule of the trade for fingers: tail {side}, {way}. {follows}; this bow has not shown it yet."
            )
        }
    }
}

/// What this bow has shown: which way the tail goes with this step.
fn by_known(known: &Known, step: &Step) -> String {
    let kind = step.adjuster;
    if known.kind != kind {
        return "This bow has not shown the side yet: the move is a test.".into();
    }
    let (minus, plus) = kind.directions();
    let way = if step.amount < 0.0 { minus } else { plus };
    let goes = known.gain.mean * step.amount;
    let side = match (kind.axis(), goes < 0.0) {
        (Axis::Vertical, true) => "down",
        (Axis::Vertical, false) => "up",
        (_, true) => "left",
        (_, false) => "right",
    };
    format!(
        "Shown by this bow's own moves: {} {way} sends the tail {side}.",
        kind.noun()
    )
}

/// Why the rest is left alone, in one line.
fn refused(refusal: Refusal) -> String {
    match refusal {
        Refusal::SpineWeak => {
            "The arrow is too weak for this bow by its load: no place of the rest cures that."
        }
        Refusal::SpineStiff => {
            "The arrow is too stiff for this bow by its load: no place of the rest cures that."
        }
        Refusal::Scatter => {
            "Shots at one setting differ by more than the limit: no move can be judged by them."
        }
        Refusal::Contact => {
            "An arrow that touches something leaves a hole that says nothing of the rest."
        }
        _ => "The moves made so far did not do what a rest does: it is not the rest.",
    }
    .into()
}

impl Fault {
    /// How it shows itself before anybody is told: what to look for next time.
    #[must_use]
    pub(crate) const fn tell_tale(self) -> &'static str {
        match self {
            Self::OffCentre => "shots agree, all to one side; a move of the rest moves them all",
            Self::Height => "shots agree, all high or all low; one step of height moves them all",
            Self::Backwards => "the first move makes the tear longer, or sends it the other way",
            Self::Weak => {
                "the spine check fails before any shot, on a weight that the scale bears out"
            }
            Self::Stiff => "the spine check fails before any shot, with fingers on the string",
            Self::PoorArcher => {
                "shots at one setting disagree, to no side in particular; another shooter's are tighter"
            }
            Self::Contact => "ragged holes, tears that jump from shot to shot, marks in the powder",
            Self::Label => "the spine check fails, and the scale shows less than the card",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::belief::Gain;
    use crate::gear::AdjusterKind;

    fn step(adjuster: AdjusterKind, amount: f64) -> Step {
        Step { adjuster, amount }
    }

    fn known(kind: AdjusterKind, mean: f64) -> Known {
        Known {
            kind,
            gain: Gain {
                mean,
                sd: 0.2,
                probability_negative: if mean < 0.0 { 1.0 } else { 0.0 },
            },
        }
    }

    /// Tail low is rest too high or nocking point too low, and the reverse
    /// (trade notes 3.10: tail-high, nocking point down or rest up).
    #[test]
    fn up_and_down_is_the_rule_of_the_trade() {
        let first = FirstMove {
            kind: AdjusterKind::RestHeight,
            ground: Ground::Vertical,
        };
        assert!(by_first(&first, Some(-8.0)).contains("rest too high or nocking point too low"));
        assert!(by_first(&first, Some(8.0)).contains("rest too low or nocking point too high"));
    }

    #[test]
    fn what_the_bow_has_shown_is_said_as_it_went() {
        use AdjusterKind::{NockingPoint, PlungerTension, RestSideways};
        for (kind, mean, amount, wanted) in [
            (RestSideways, -2.0, -1.5, "rest left sends the tail right"),
            (RestSideways, 2.0, -1.5, "rest left sends the tail left"),
            (RestSideways, -2.0, 1.5, "rest right sends the tail left"),
            (
                NockingPoint,
                2.0,
                -1.0,
                "nocking point down sends the tail down",
            ),
            (
                PlungerTension,
                6.0,
                0.25,
                "plunger firmer sends the tail right",
            ),
        ] {
            let said = by_known(&known(kind, mean), &step(kind, amount));
            assert!(said.contains(wanted), "{said}");
        }
        let other = by_known(&known(NockingPoint, 1.0), &step(RestSideways, 1.0));
        assert!(other.contains("not shown"), "{other}");
    }
}
