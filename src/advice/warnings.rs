//! Warnings that stand beside a verdict: a borderline arrow, a bow that
//! answers the other way round, an odd arrow, a flier, a long sitting.

use super::another::Standing;
use super::finding::{BACKWARDS, Backwards, Finding, Headline, ODD_SURE, OddArrow};
use super::outcome::Outcome;
use super::reading::Reading;
use super::types::Verdict;
use super::upside::{self, Upside};
use crate::belief::Axis;
use crate::checks::response::{self, Known};
use crate::checks::safety::{self, Waiting};
use crate::checks::{consistency, rests};
use crate::gear::AdjusterKind;
use crate::tear::Tear;

/// Warnings that stand beside any verdict that may shoot.
pub(super) fn warn(reading: &Reading<'_>, outcome: &mut Outcome) {
    if reading.spine.warning().is_some() {
        outcome.findings.push(Finding::Spine(reading.spine.clone()));
    }
    // Beside SHOOT it is the first thing to read; elsewhere the verdict's own
    // reason is.
    let at = usize::from(outcome.verdict != Verdict::Shoot).min(outcome.findings.len());
    for found in held_back(reading).into_iter().rev() {
        if !outcome.findings.contains(&found) {
            outcome.findings.insert(at, found);
        }
    }
    if outcome.verdict != Verdict::Refuse {
        outcome.findings.extend(long_tear(reading));
    }
    let behind = safety::overdraw(&reading.timeline.card);
    outcome.findings.extend(behind.map(Finding::Overdraw));
    if outcome.verdict != Verdict::Refuse {
        outcome.findings.extend(backwards(reading));
        outcome.findings.extend(odd_arrow(reading));
        outcome.findings.extend(fliers(reading));
    }
    outcome.findings.extend(tired(reading));
    if reading.timeline.pending.is_some() {
        outcome.findings.push(Finding::PendingMove);
    }
}

/// A long sitting, or a tear that creeps.
fn tired(reading: &Reading<'_>) -> Option<Finding> {
    let most = match reading.timeline.card.archer.junior {
        true => consistency::JUNIOR_SITTING,
        false => consistency::SITTING,
    };
    let sitting = consistency::sitting(reading.timeline);
    if sitting >= most {
        return Some(Finding::RestTheArcher(sitting, most));
    }
    let drift = &reading.evidence.drift;
    let creeps = drift.iter().any(|d| consistency::drifts(*d));
    creeps.then_some(Finding::Drift)
}

/// Why nothing is called done whatever the shots say: values that nobody
/// confirmed, and what else the safety check waits for.
pub(super) fn held_back(reading: &Reading<'_>) -> Vec<Finding> {
    let open = rests::open(reading.timeline);
    let unconfirmed = (!open.is_empty()).then_some(Finding::NotConfirmed(open));
    let waits = safety::waiting(reading.timeline).into_iter();
    // Values not confirmed are said above, with what the other checks rest on.
    let others = waits.filter(|w| !matches!(w, Waiting::Unconfirmed(_)));
    unconfirmed
        .into_iter()
        .chain(others.map(Finding::Waits))
        .collect()
}

/// Within tolerance, with a check that rests on what nobody confirmed or
/// weighed: the findings say on what.
pub(super) fn not_yet_done(reading: &Reading<'_>) -> Outcome {
    let mut outcome = Outcome::new(Verdict::Shoot, Headline::NotCertain);
    outcome.findings = held_back(reading);
    outcome
}

/// A tear long enough to look at arrow and basics first; it stops nothing.
fn long_tear(reading: &Reading<'_>) -> Option<Finding> {
    let (mean, aim) = (reading.mean(), reading.timeline.card.paper.aim);
    let off = Tear::new(mean.right - aim.0, mean.up - aim.1).length();
    (reading.known() && off > response::LONG).then_some(Finding::LongTear(off))
}

/// Shots that lie far from their neighbours: named, never dropped silently.
fn fliers(reading: &Reading<'_>) -> Option<Finding> {
    let shots = &reading.timeline.shots;
    let entries = reading.view.fliers.iter().map(|i| shots[*i].entry);
    let entries: Vec<u32> = entries.collect();
    (!entries.is_empty()).then_some(Finding::Fliers(entries))
}

/// A numbered arrow that stands off from the others.
fn odd_arrow(reading: &Reading<'_>) -> Option<Finding> {
    if let Standing::Odd(mark) = &reading.view.another {
        return Some(Finding::OddArrowOut(mark.clone()));
    }
    let odd = reading.belief.odd_arrow(&reading.track.here)?;
    if odd.chance < ODD_SURE {
        return None;
    }
    let off = match odd.axis {
        Axis::Right => Tear::new(odd.offset, 0.0),
        Axis::Up => Tear::new(0.0, odd.offset),
    };
    Some(Finding::OddArrow(OddArrow {
        mark: reading.view.arrows.get(odd.arrow as usize)?.clone(),
        off,
        chance: odd.chance,
    }))
}

/// An adjuster that answers against what was expected of it: against the
/// trade's rule for the vertical, or away from the tail sideways.
fn backwards(reading: &Reading<'_>) -> Option<Finding> {
    let believed = upside::standing(reading) == Upside::Believed;
    reading
        .gains
        .iter()
        .enumerate()
        .filter(|(_, (.., used))| *used)
        .filter(|(_, (kind, ..))| super::usual::axis(*kind) != Axis::Up || believed)
        .find_map(|(k, (kind, gain, _))| {
            let axis = super::usual::axis(*kind);
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
            let known = Known {
                kind: *kind,
                gain: *gain,
            };
            (wrong >= BACKWARDS).then_some(Finding::Backwards(Backwards {
                known,
                open,
                chance: wrong,
            }))
        })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::advice::advise;
    use crate::fixtures::COMPOUND;
    use crate::range::Today;
    use crate::session::told::Bow;

    #[test]
    fn a_shot_that_is_left_out_is_named_with_its_entry() {
        for side in [1.0, -1.0] {
            let fliers = |tears: &[(f64, f64)]| {
                let mut bow = Bow::new(COMPOUND, "right", &[]);
                bow.shoot(tears);
                let advice = advise(bow.0.timeline(), Today::now());
                advice.findings.iter().find_map(|found| match found {
                    Finding::Fliers(entries) => Some(entries.clone()),
                    _ => None,
                })
            };
            let good = [(8.0, 0.0), (9.0, 0.0), (8.0, 1.0), (9.0, 1.0), (8.0, 0.0)];
            let mut tears = good.map(|(right, up)| (side * right, up)).to_vec();
            assert_eq!(fliers(&tears), None);
            tears.insert(2, (side * -70.0, 0.0));
            assert_eq!(fliers(&tears), Some(vec![3]));
        }
    }
}
