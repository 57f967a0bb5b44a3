//! Before the first sideways move: one question, and why the move goes the
//! way it goes.
//!
//! With fingers the powder is looked at, because a slap of the button turns
//! the response round. With a release aid the hand comes first: a steady
//! torque repeats, so no statistic sees it.

use super::decide::Outcome;
use super::finding::{Ask, ByGuides, ByLoad, Finding, FirstMove, Ground, GuideWay, Headline, Pad};
use super::reading::Reading;
use super::types::{Probe, ProbeKind, Verdict};
use crate::belief::Powder;
use crate::gear::{AdjusterKind, Axis, Release};
use crate::question::{
    Answer, BEFORE_BOTH_ANSWERS, BUTTON_ANSWERS, Contact, HAND_ANSWERS, Test as Asked,
};
use crate::session::{AnswerAt, Shooter, ShotAt, Timeline};
use crate::setup;
use crate::tuner::Choice;

/// Shots asked for with an open, relaxed hand.
const HAND_SHOTS: usize = 2;
/// A change of the mean tear counts from so many of its own sds.
const CHANGED: f64 = 2.0;
/// Scatter sideways taken along with what few shots show, mm: what an average
/// archer with a release aid scatters, worth two spare readings.
const USUAL_SD: f64 = 2.8;
const USUAL_WORTH: f64 = 2.0;

/// Where the powder test stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Test {
    /// Nobody was asked yet.
    Open,
    /// A slap was found; one round of clearing is offered.
    Clearing,
    /// As settled as it gets.
    Settled(Powder),
}

fn contacts(timeline: &Timeline) -> impl DoubleEndedIterator<Item = (&AnswerAt, Contact)> {
    let here = timeline.arrow_epoch;
    timeline
        .answers
        .iter()
        .filter(move |a| a.test == Asked::Contact && a.arrow_epoch == here)
        .map(|a| (a, Contact::of(&a.result)))
}

fn powder_test(timeline: &Timeline) -> Test {
    let mut answers = contacts(timeline).map(|(_, answer)| answer).rev();
    let Some(last) = answers.next() else {
        return Test::Open;
    };
    let slapped_before = answers.next() == Some(Contact::Button);
    match (last, slapped_before) {
        (Contact::None, _) => Test::Settled(Powder::Clean),
        (Contact::Button, false) => Test::Clearing,
        (Contact::Button | Contact::NotLooked, true) => Test::Settled(Powder::Slap),
        _ => Test::Settled(Powder::NotLooked),
    }
}

/// What the powder says of this bow with these arrows.
pub(super) fn powder(timeline: &Timeline) -> Powder {
    match powder_test(timeline) {
        Test::Open => Powder::NotLooked,
        Test::Clearing => Powder::Slap,
        Test::Settled(powder) => powder,
    }
}

/// How many shots were before a slap was cleared, or before the hand was
/// opened and the tear changed with it: they were another bow's, or another
/// hand's, and count for nothing.
pub(super) fn shots_before(timeline: &Timeline) -> usize {
    let cleared = contacts(timeline)
        .zip(contacts(timeline).skip(1))
        .filter(|((_, before), (_, then))| (*before, *then) == (Contact::Button, Contact::None))
        .map(|(_, (answer, _))| answer.shots_before)
        .last();
    let opened = hand_changed(timeline).map(|change| change.shots_before);
    cleared.unwrap_or(0).max(opened.unwrap_or(0))
}

/// The tear sideways before and after the hand was opened, mm.
struct HandChanged {
    shots_before: usize,
    from: f64,
    to: f64,
}

fn hand_answer(timeline: &Timeline) -> Option<&AnswerAt> {
    let answers = timeline.answers.iter().rev();
    answers.into_iter().find(|a| a.test == Asked::Hand)
}

/// Whether a shot speaks of this shooter's hand.
fn of(shooter: Shooter, shot: &ShotAt) -> bool {
    !shot.shot.called_bad && !shot.shot.bare && shot.shot.by == shooter
}

/// Whose hand was asked about: whoever shot last before the answer.
fn whose(timeline: &Timeline, answer: &AnswerAt) -> Shooter {
    let mut before = timeline.shots.iter().take(answer.shots_before);
    before.next_back().map_or(Shooter::Owner, |s| s.shot.by)
}

/// That shooter's shots since the answer, at the setting it was given at.
fn shots_since<'a>(timeline: &'a Timeline, answer: &AnswerAt) -> Vec<&'a ShotAt> {
    let shooter = whose(timeline, answer);
    let since = timeline.shots.iter().skip(answer.shots_before);
    let first = since.clone().next().map(|s| s.setting);
    since
        .filter(|s| of(shooter, s) && Some(s.setting) == first)
        .collect()
}

/// What opening the hand changed, once two shots were shot so.
fn hand_changed(timeline: &Timeline) -> Option<HandChanged> {
    let answer = hand_answer(timeline).filter(|a| a.result == Answer::Not)?;
    let shooter = whose(timeline, answer);
    let after = shots_since(timeline, answer);
    if after.len() < HAND_SHOTS {
        return None;
    }
    let setting = after.first()?.setting;
    let before: Vec<&ShotAt> = timeline.shots[..answer.shots_before]
        .iter()
        .filter(|s| of(shooter, s) && s.setting == setting)
        .collect();
    if before.is_empty() {
        return None;
    }
    let after = &after[..HAND_SHOTS];
    let mean =
        |shots: &[&ShotAt]| shots.iter().map(|s| s.shot.right).sum::<f64>() / shots.len() as f64;
    let (from, to) = (mean(&before), mean(after));
    let about = |shots: &[&ShotAt], mean: f64| {
        shots
            .iter()
            .map(|s| (s.shot.right - mean).powi(2))
            .sum::<f64>()
    };
    let squares = about(&before, from) + about(after, to) + USUAL_WORTH * USUAL_SD * USUAL_SD;
    let spare = (before.len() + after.len() - 2) as f64 + USUAL_WORTH;
    let each = 1.0 / before.len() as f64 + 1.0 / after.len() as f64;
    let sd = (squares / spare * each).sqrt();
    ((to - from).abs() > CHANGED * sd).then_some(HandChanged {
        shots_before: answer.shots_before,
        from,
        to,
    })
}

/// Whether an adjuster was moved sideways to tune, not to clear a slap.
fn moved_sideways(timeline: &Timeline) -> bool {
    let answers: Vec<(u32, Contact)> = contacts(timeline).map(|(a, c)| (a.entry, c)).collect();
    let clearing = |entry: u32| {
        let mut before = answers.iter().filter(|(at, _)| *at < entry);
        before
            .next_back()
            .is_some_and(|(_, c)| *c == Contact::Button)
            && answers
                .iter()
                .filter(|(_, c)| *c == Contact::Button)
                .count()
                == 1
            && timeline.card.bow.release == Release::Fingers
    };
    timeline.moves.iter().any(|made| {
        let sideways = |s: &crate::gear::Step| s.adjuster.axis() == Axis::Sideways;
        made.steps.iter().any(sideways) && !clearing(made.entry)
    })
}

/// Moves of a plunger's spring before the rest has its turn again.
const SPRING_MOVES: usize = 2;

/// How far outside the string's line the point stands now, mm, where that was
/// measured.
fn outside_mm(timeline: &Timeline) -> Option<f64> {
    let start = setup::point_outside_mm(timeline)?;
    let now = &timeline.now;
    let moved = now.get(AdjusterKind::RestSideways) + now.get(AdjusterKind::CentreShot);
    Some(start - timeline.card.bow.hand.in_sign() * moved)
}

/// Whether fingers shoot from a centre shot that was measured and stands at
/// its starting figure, 1.6 to 3.2 mm outside the string.
fn at_its_figure(timeline: &Timeline) -> bool {
    let (near, far) = setup::centre_shot_band(&timeline.card);
    timeline.card.bow.release == Release::Fingers
        && outside_mm(timeline).is_some_and(|mm| (near..=far).contains(&mm))
}

/// The adjuster that advice uses sideways: the card's usual one, but with
/// centre shot at its figure the plunger's spring has its two moves first.
pub(super) fn sideways(timeline: &Timeline) -> Option<AdjusterKind> {
    let usual = timeline.card.sideways()?.kind;
    let spring = AdjusterKind::PlungerTension;
    let springs = |made: &&crate::session::MoveAt| made.steps.iter().any(|s| s.adjuster == spring);
    let made = timeline.moves.iter().filter(springs).count();
    let has_it = timeline.card.adjuster(spring).is_some();
    if has_it && made < SPRING_MOVES && at_its_figure(timeline) {
        return Some(spring);
    }
    Some(usual)
}

/// How far an adjuster may go from the start, low and high. Where fingers
/// shoot from a centre shot at its figure, the rest moves only inside that.
pub(super) fn travel(timeline: &Timeline, kind: AdjusterKind, range: f64) -> (f64, f64) {
    let whole = (-range, range);
    let moves_it = matches!(kind, AdjusterKind::RestSideways | AdjusterKind::CentreShot);
    if !moves_it || !at_its_figure(timeline) {
        return whole;
    }
    let Some(start) = setup::point_outside_mm(timeline) else {
        return whole;
    };
    let (near, far) = setup::centre_shot_band(&timeline.card);
    // Positions count right positive; in is right for the right hand.
    let inward = timeline.card.bow.hand.in_sign();
    let ends = (inward * (start - far), inward * (start - near));
    let (low, high) = (ends.0.min(ends.1), ends.0.max(ends.1));
    (low.clamp(-range, 0.0), high.clamp(0.0, range))
}

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
        && super::earlier::asks_for_powder(reading, steps)
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

/// Why the first move of an adjuster goes the way it goes, true for this
/// release and this adjuster. `amount` is in the adjuster's unit.
pub(super) fn why(reading: &Reading<'_>, kind: AdjusterKind, amount: f64) -> FirstMove {
    let ground = match (kind.axis(), reading.timeline.card.bow.release) {
        (Axis::Vertical, _) => Ground::Vertical,
        (_, Release::Aid) => Ground::Aid(by_load(reading, kind)),
        (_, Release::Fingers) => Ground::Fingers(by_guides(reading, kind, amount)),
    };
    FirstMove { kind, ground }
}

/// Chance from which the arrow's load is worth a word on the side.
const LEANS: f64 = 0.55;

fn by_load(reading: &Reading<'_>, kind: AdjusterKind) -> Option<ByLoad> {
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
        followed: amount * printed > 0.0,
        pad: pad(reading),
    }
}

#[cfg(test)]
mod tests;
