//! Warnings that stand beside a verdict: a borderline arrow, a bow that
//! answers the other way round, an odd arrow, a flier, a long sitting.

use super::another::Standing;
use super::decide::Outcome;
use super::reading::Reading;
use super::types::{Reason, Verdict};
use super::upside::{self, Upside};
use crate::belief::Axis;
use crate::checks::safety::{self, Waiting};
use crate::checks::{consistency, response, rests};
use crate::gear::AdjusterKind;
use crate::words;

/// Warnings that stand beside any verdict that may shoot.
pub(super) fn warn(reading: &Reading<'_>, outcome: &mut Outcome) {
    if let Some(code) = reading.spine.warning() {
        let check = reading.checks().spine_match;
        outcome.reasons.push(Reason {
            code,
            text: check.text,
            value: check.value,
            limit: check.limit,
            unit: check.unit,
        });
    }
    // Beside SHOOT it is the first thing to read; elsewhere the verdict's own
    // reason is.
    let at = usize::from(outcome.verdict != Verdict::Shoot).min(outcome.reasons.len());
    for reason in held_back(reading).into_iter().rev() {
        if outcome.reasons.iter().all(|r| r.code != reason.code) {
            outcome.reasons.insert(at, reason);
        }
    }
    if outcome.verdict != Verdict::Refuse {
        outcome.reasons.extend(long_tear(reading));
    }
    if let Some((behind, text)) = safety::overdraw(&reading.timeline.card) {
        let reason = Reason::measured("overdraw", text, -behind, 0.0, "in");
        outcome.reasons.push(reason);
    }
    if outcome.verdict != Verdict::Refuse {
        outcome.reasons.extend(backwards(reading));
        outcome.reasons.extend(odd_arrow(reading));
        outcome.reasons.extend(fliers(reading));
    }
    let junior = reading.timeline.card.archer.junior;
    let most = if junior {
        consistency::JUNIOR_SITTING
    } else {
        consistency::SITTING
    };
    let sitting = consistency::sitting(reading.timeline);
    if sitting >= most {
        outcome.reasons.push(Reason::measured("rest-the-archer", format!("{sitting} shots in this sitting: rest the archer before the next group (common practice, no source)"), sitting as f64, most as f64, "shots"));
    } else if reading
        .evidence
        .drift
        .iter()
        .any(|d| consistency::drifts(*d))
    {
        outcome.reasons.push(Reason::plain("drift", "the tear creeps from shot to shot at one setting: rest the archer, and look for a part that works loose"));
    }
    if reading.timeline.pending.is_some() {
        outcome.reasons.push(Reason::plain(
            "pending-move",
            "a move was taken to the bench and is not confirmed yet: say whether it was made",
        ));
    }
}

/// Why nothing is called done whatever the shots say: values that nobody
/// confirmed, and what else the safety check waits for.
pub(super) fn held_back(reading: &Reading<'_>) -> Vec<Reason> {
    let timeline = reading.timeline;
    let mut all = Vec::new();
    if let Some(what) = rests::open(timeline) {
        let text = format!(
            "not yet: {what} not confirmed. These are usual values: confirm or change them on the card"
        );
        all.push(Reason::plain("not-confirmed", text));
    }
    for waits in safety::waiting(timeline) {
        let code = match waits {
            // Said above, with what the other checks rest on.
            Waiting::Unconfirmed(_) => continue,
            Waiting::Unweighed => "weigh-first",
            Waiting::PartNotGiven(_) => "weight-not-given",
            Waiting::TurnsNotCounted => "count-turns",
        };
        all.push(Reason::plain(code, waits.text(timeline)));
    }
    all
}

/// Inside tolerance, with a check that rests on what nobody confirmed or
/// weighed: the warnings say on what.
pub(super) fn not_yet_done(reading: &Reading<'_>) -> Outcome {
    let mut outcome = Outcome::new(
        Verdict::Shoot,
        "Within tolerance, but not done: the bow or arrow on the card is not certain",
    );
    outcome.reasons = held_back(reading);
    outcome
}

/// A tear long enough to look at arrow and basics first; it stops nothing.
fn long_tear(reading: &Reading<'_>) -> Option<Reason> {
    let (mean, aim) = (reading.mean(), reading.timeline.card.paper.aim);
    let off = crate::tear::Tear::new(mean.right - aim.0, mean.up - aim.1).length();
    (reading.known() && off > response::LONG).then(|| {
        let text = format!(
            "the tear is over {}: look at arrow, draw length, draw weight and nocking point as well (published advice). Its size alone stops nothing",
            reading.system.tear(response::LONG)
        );
        Reason::measured("long-tear", text, off, response::LONG, "mm")
    })
}

/// Shots that lie far from their neighbours: named, never dropped silently.
fn fliers(reading: &Reading<'_>) -> Option<Reason> {
    let entries: Vec<String> = reading
        .view
        .fliers
        .iter()
        .map(|i| reading.timeline.shots[*i].entry.to_string())
        .collect();
    if entries.is_empty() {
        return None;
    }
    let text = format!(
        "entry {} lies far from its neighbours: taken for a flier or a slip of the finger, it counts for nothing; undo it if it was mistyped",
        entries.join(", ")
    );
    Some(Reason::plain("flier", text))
}

/// A numbered arrow that stands off from the others.
fn odd_arrow(reading: &Reading<'_>) -> Option<Reason> {
    if let Standing::Odd(mark) = &reading.view.another {
        let mark = crate::units::clean(mark);
        let text = format!(
            "arrow {mark} is odd, two others of the set agree against it: its shots count for nothing; inspect and flex it, look at its nock, then bench it out"
        );
        return Some(Reason::plain("odd-arrow", text));
    }
    let odd = reading.belief.odd_arrow(&reading.track.here)?;
    if odd.chance < ODD_SURE {
        return None;
    }
    let mark = crate::units::clean(reading.view.arrows.get(odd.arrow as usize)?);
    let tear = match odd.axis {
        Axis::Right => crate::tear::Tear::new(odd.offset, 0.0),
        Axis::Up => crate::tear::Tear::new(0.0, odd.offset),
    };
    let text = format!(
        "arrow {mark} tears about {} of the others: inspect and flex it, look at its nock and turn it, then bench it out; its shots count for little",
        words::tear_with_unit(tear, reading.system)
    );
    Some(Reason::measured(
        "odd-arrow",
        text,
        odd.chance,
        ODD_SURE,
        "chance",
    ))
}

/// Chance at which an arrow is called odd.
const ODD_SURE: f64 = 0.9;

/// An adjuster that answers against what was expected of it: against the
/// trade's rule for the vertical, or away from the tail sideways.
fn backwards(reading: &Reading<'_>) -> Option<Reason> {
    let believed = upside::standing(reading) == Upside::Believed;
    reading
        .gains
        .iter()
        .enumerate()
        .filter(|(_, (.., used))| *used)
        .filter(|(_, (kind, ..))| super::view::axis(*kind) != Axis::Up || believed)
        .find_map(|(k, (kind, gain, _))| {
            let axis = super::view::axis(*kind);
            let expected = reading.view.prior.adjusters[k].slope[axis.index()];
            // Where the side was open, the first move goes toward the tail: a tail
            // that follows the rest is not what that move hoped for.
            let open = expected.mean.abs() < 0.25 * expected.sd;
            // A plunger has no side of its own for the tail to go with.
            if open && *kind == AdjusterKind::PlungerTension {
                return None;
            }
            let usual_negative = open || expected.mean < 0.0;
            let wrong = if usual_negative {
                1.0 - gain.probability_negative
            } else {
                gain.probability_negative
            };
            if wrong < 0.9 {
                return None;
            }
            let sentence = response::sentence(*kind, gain, reading.system);
            let how = if open {
                "on this bow the tail goes with the rest, not against it"
            } else {
                "this bow answers the other way round"
            };
            let text = format!("{how}: {sentence}. The moves allow for it");
            Some(Reason::measured(
                "answers-backwards",
                text,
                wrong,
                0.9,
                "chance",
            ))
        })
}
