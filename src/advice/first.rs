//! Before the first sideways move: one question, and why the move goes the
//! way it goes.
//!
//! With fingers the powder is looked at, because a slap of the button turns
//! the response round. With a release aid the hand comes first: a steady
//! torque repeats, so no statistic sees it.

use super::asked::{
    HAND_SHOTS, Test, hand_answer, hand_changed, moved_sideways, powder, powder_test, shots_since,
};
use super::earlier::{Together, gain_of, together};
use super::finding::{
    Against, Ask, ByGuides, ByHeight, ByLoad, Finding, FirstMove, Ground, GuideWay, Headline, Pad,
};
use super::outcome::Outcome;
use super::reading::Reading;
use super::types::{Probe, ProbeKind, Verdict};
use super::upside::guides_say;
use crate::belief::Powder;
use crate::checks::response::Known;
use crate::gear::{AdjusterKind, Axis, Release};
use crate::question::{Answer, BEFORE_BOTH_ANSWERS, BUTTON_ANSWERS, HAND_ANSWERS};
use crate::tuner::Choice;
use crate::tuner::care::Care;

/// Whether a sideways move is next, the first of this session.
fn is_next(reading: &Reading<'_>) -> bool {
    let Choice::Move(steps) = &reading.decision.choice else {
        return false;
    };
    let sideways = |k: usize| reading.view.kinds[k].axis() == Axis::Sideways;
    steps.iter().any(|(k, _)| sideways(*k)) && !moved_sideways(reading.timeline)
}

/// The question to ask before the first sideways move.
pub(super) fn ask(reading: &Reading<'_>) -> Option<Outcome> {
    if !is_next(reading) || !reading.consistency.may_move() {
        return None;
    }
    if let Choice::Move(steps) = &reading.decision.choice
        && reading.timeline.card.bow.release == Release::Aid
        && asks_for_powder(reading, steps)
    {
        return Some(ask_before_both());
    }
    match reading.timeline.card.bow.release {
        Release::Fingers => match powder_test(reading.timeline) {
            Test::Open => Some(ask_powder(reading)),
            Test::Clearing => Some(ask_clearing(reading)),
            Test::Settled(_) => None,
        },
        Release::Aid => ask_hand(reading),
    }
}

fn probe(headline: Headline, kind: ProbeKind, shots: u32, answers: &[Answer], ask: Ask) -> Outcome {
    let mut outcome = Outcome::new(Verdict::Probe, headline);
    outcome.probe = Some(Probe {
        kind,
        distance_m: None,
        shots,
        answers: answers.to_vec(),
        ask,
    });
    outcome
}

/// What the shaft lies against on this bow.
fn pad(reading: &Reading<'_>) -> Pad {
    Pad::of(reading.timeline.card.rest.kind)
}

fn ask_powder(reading: &Reading<'_>) -> Outcome {
    let pad = pad(reading);
    let ask = Ask::PowderFirst(pad);
    let answers = &BUTTON_ANSWERS;
    let mut outcome = probe(Headline::PowderFirst, ProbeKind::Contact, 0, answers, ask);
    outcome.findings.push(Finding::PowderFirst(pad));
    outcome
}

/// Both axes at once on the word of earlier bows: nothing may touch the arrow,
/// or the answer could not be read.
fn ask_before_both() -> Outcome {
    let mut outcome = super::probes::powder(Headline::PowderBeforeBoth, Finding::PowderBeforeBoth);
    if let Some(probe) = &mut outcome.probe {
        probe.answers = BEFORE_BOTH_ANSWERS.to_vec();
        probe.ask = Ask::PowderBeforeBoth;
    }
    outcome
}

fn ask_clearing(reading: &Reading<'_>) -> Outcome {
    let answers = &BUTTON_ANSWERS;
    let ask = Ask::ClearSlap;
    let mut outcome = probe(Headline::ClearSlap, ProbeKind::Contact, 0, answers, ask);
    outcome.findings.push(Finding::Slap(pad(reading)));
    outcome
}

fn ask_hand(reading: &Reading<'_>) -> Option<Outcome> {
    match hand_answer(reading.timeline) {
        None => {
            let answers = &HAND_ANSWERS;
            let mut outcome = probe(Headline::Hand, ProbeKind::Hand, 0, answers, Ask::Hand);
            outcome.findings.push(Finding::HandFirst);
            Some(outcome)
        }
        Some(answer) if answer.result == Answer::Not => {
            let missing = HAND_SHOTS.saturating_sub(shots_since(reading.timeline, answer).len());
            (missing > 0).then(|| two_so(missing))
        }
        Some(_) => None,
    }
}

fn two_so(missing: usize) -> Outcome {
    let headline = Headline::OpenHand(missing);
    let shots = missing as u32;
    let mut outcome = probe(headline, ProbeKind::Hand, shots, &[], Ask::OpenHand);
    outcome.findings.push(Finding::HandNotRelaxed);
    outcome.shots_wanted = shots;
    outcome
}

/// Says so where opening the hand changed the tear, until something is moved.
pub(super) fn remark(reading: &Reading<'_>, outcome: &mut Outcome) {
    if moved_sideways(reading.timeline) {
        return;
    }
    let changed = hand_changed(reading.timeline);
    let found = changed.map(|c| Finding::HandChanged(c.from, c.to));
    outcome.findings.extend(found);
}

/// Why a test move of an adjuster goes the way it goes, true for this release
/// and this adjuster. `amount` is in the adjuster's unit.
pub(super) fn why(reading: &Reading<'_>, kind: AdjusterKind, amount: f64) -> FirstMove {
    let ground = match (kind.axis(), reading.timeline.card.bow.release) {
        (Axis::Vertical, _) => Ground::Vertical(by_height(reading, kind, amount)),
        (_, Release::Aid) => Ground::Aid(by_load(reading, kind)),
        (_, Release::Fingers) => Ground::Fingers(by_guides(reading, kind, amount)),
    };
    FirstMove {
        kind,
        tried: tried(reading, kind),
        ground,
    }
}

/// Whether this bow was shot at two positions of the adjuster.
fn tried(reading: &Reading<'_>, kind: AdjusterKind) -> bool {
    reading.view.column(kind).is_some_and(|k| reading.moved(k))
}

/// Chance from which the arrow's load is worth a word on the side.
const LEANS: f64 = 0.55;

/// What the arrow's load says of the side. What the bow or earlier ones have
/// shown since stands in the same chance, and is not the load's word.
fn by_load(reading: &Reading<'_>, kind: AdjusterKind) -> Option<ByLoad> {
    if tried(reading, kind) || gain_of(reading.timeline, kind).is_some() {
        return None;
    }
    let known = reading.gains.iter().find(|(k, ..)| *k == kind);
    let negative = known.map_or(0.5, |(_, gain, _)| gain.probability_negative);
    let drawn = reading.timeline.prior.as_ref()?.draws;
    let found = ByLoad {
        with_rest: negative < 0.5,
        chance: negative.max(1.0 - negative),
        drawn,
    };
    (found.chance > LEANS && kind != AdjusterKind::PlungerTension).then_some(found)
}

fn by_height(reading: &Reading<'_>, kind: AdjusterKind, amount: f64) -> ByHeight {
    let off = reading.mean().up - reading.timeline.card.paper.aim.1;
    let printed = -off * guides_say(kind);
    ByHeight {
        tail_low: off < 0.0,
        against: against(reading, kind, printed, amount),
    }
}

fn by_guides(reading: &Reading<'_>, kind: AdjusterKind, amount: f64) -> ByGuides {
    let tail = reading.mean().right - reading.timeline.card.paper.aim.0;
    let inward = reading.timeline.card.bow.hand.in_sign();
    let spring = kind == AdjusterKind::PlungerTension;
    // Guides: the rest toward the tail; the spring firmer for a tail out.
    let printed = if spring { -inward * tail } else { tail };
    let way = match (spring, printed > 0.0, inward > 0.0) {
        (true, true, _) => GuideWay::PlungerFirmer,
        (true, false, _) => GuideWay::PlungerSofter,
        (false, true, true) | (false, false, false) => GuideWay::RestIn,
        (false, ..) => GuideWay::RestOut,
    };
    ByGuides {
        tail_left: tail < 0.0,
        way,
        powder: powder(reading.timeline),
        against: against(reading, kind, printed, amount),
        pad: pad(reading),
    }
}

/// Why a move of `amount` goes against the guides, whose way has the sign of
/// `printed`; nothing where it goes theirs.
fn against(
    reading: &Reading<'_>,
    kind: AdjusterKind,
    printed: f64,
    amount: f64,
) -> Option<Against> {
    if amount * printed > 0.0 {
        return None;
    }
    let slap = kind.axis() == Axis::Sideways && powder(reading.timeline) == Powder::Slap;
    let tried = tried(reading, kind);
    if slap && !tried {
        return Some(Against::Slap);
    }
    let k = reading.view.column(kind)?;
    let care = Care::of(&reading.belief, &reading.view.task, &reading.track, k);
    let room = if printed > 0.0 {
        care.bounds.1
    } else {
        care.bounds.0
    };
    Some(match gain_of(reading.timeline, kind) {
        _ if room == 0 => Against::NoRoom,
        _ if tried => Against::OwnMoves,
        Some(taught) => Against::EarlierBows(taught.bows),
        None => Against::Likelier,
    })
}

/// Whether a move is one of both axes on the word of earlier bows, and nobody
/// has looked for contact yet: that is asked first.
fn asks_for_powder(reading: &Reading<'_>, chosen: &[(usize, i32)]) -> bool {
    chosen.len() > 1
        && chosen.iter().any(|(k, _)| !reading.moved(*k))
        && together(reading.timeline) == Together::Ask
}

/// Why a move is a correction: what this bow has shown, or earlier bows where
/// it has shown nothing of it yet.
pub(super) fn correct(reading: &Reading<'_>, chosen: &[(usize, i32)]) -> Finding {
    let untried = chosen.iter().find(|(k, _)| !reading.moved(*k));
    let k = untried.or(chosen.first()).map_or(0, |(k, _)| *k);
    let (kind, gain, _) = reading.gains[k];
    let known = Known { kind, gain };
    match untried.and_then(|_| gain_of(reading.timeline, kind)) {
        Some(taught) => Finding::EarlierBows(taught.bows, known),
        None => Finding::Correct(known),
    }
}

#[cfg(test)]
mod tests;
