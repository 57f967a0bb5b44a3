//! What was asked before the first sideways move and what came of it: the
//! powder, the hand, and which adjuster goes first within which window.

use crate::belief::Powder;
use crate::gear::{AdjusterKind, Axis, Release};
use crate::question::{Answer, Contact, Test as Asked};
use crate::session::{AnswerAt, Shooter, ShotAt, Timeline};
use crate::setup;

/// Shots asked for with an open, relaxed hand.
pub(super) const HAND_SHOTS: usize = 2;

/// A change of the mean tear counts from so many of its own sds.
const CHANGED: f64 = 2.0;

/// Scatter sideways taken along with what few shots show, mm: what an average
/// archer with a release aid scatters, worth two spare readings.
const USUAL_SD: f64 = 2.8;
const USUAL_WORTH: f64 = 2.0;

/// Where the powder test stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Test {
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

pub(super) fn powder_test(timeline: &Timeline) -> Test {
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
pub(super) struct HandChanged {
    pub(super) shots_before: usize,
    pub(super) from: f64,
    pub(super) to: f64,
}

pub(super) fn hand_answer(timeline: &Timeline) -> Option<&AnswerAt> {
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
pub(super) fn shots_since<'a>(timeline: &'a Timeline, answer: &AnswerAt) -> Vec<&'a ShotAt> {
    let shooter = whose(timeline, answer);
    let since = timeline.shots.iter().skip(answer.shots_before);
    let first = since.clone().next().map(|s| s.setting);
    since
        .filter(|s| of(shooter, s) && Some(s.setting) == first)
        .collect()
}

/// What opening the hand changed, once two shots were shot so.
pub(super) fn hand_changed(timeline: &Timeline) -> Option<HandChanged> {
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
pub(super) fn moved_sideways(timeline: &Timeline) -> bool {
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
        made.steps.iter().any(sideways) && !clearing(made.place)
    })
}

/// Moves of a plunger's spring before the rest has its turn again.
const SPRING_MOVES: usize = 2;

/// How far outside the string's line the point stands now, mm, where that was
/// measured.
pub(super) fn outside_mm(timeline: &Timeline) -> Option<f64> {
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
