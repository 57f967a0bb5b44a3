//! The tests that are asked for: the one cheapest shot or look that would
//! change what is said next. Which are worth asking for is measured:
//! [`crate::tuner::probe`].

use super::another::{self, Standing};
use super::decide::Outcome;
use super::reading::Reading;
use super::types::{Probe, ProbeKind, Reason, Verdict};
use crate::checks::{self, response::Obstacle};
use crate::question::{ARROW_ANSWERS, RAGGED_ANSWERS, Test};
use crate::tuner::probe::OTHER_ARROWS;

/// Before the response is given up on shots from one arrow alone: two others
/// of the set, where that tells well enough.
pub(super) fn other_arrows(reading: &Reading<'_>) -> Option<Outcome> {
    use Obstacle::{Jumps, NoResponse, Silent, Travel, Weak};
    let (mark, obstacle) = match &reading.view.another {
        Standing::Alone(mark) => (mark, reading.obstacle.clone()),
        // Half answered: the question is what the first arrow's shots asked.
        Standing::Begun(mark) => {
            let own = another::only(reading.timeline, mark);
            (mark, Reading::of(&own, reading.system).obstacle)
        }
        _ => return None,
    };
    let obstacle = obstacle.filter(|o| {
        matches!(
            o,
            NoResponse(..) | Silent(..) | Jumps(_) | Travel(_) | Weak(..)
        )
    })?;
    if checks::resumed(reading.timeline, obstacle.refusal()) {
        return None;
    }
    let card = &reading.timeline.card;
    let enough = card.arrow.count.is_none_or(|n| n > OTHER_ARROWS);
    let telling = another::telling(card.bow.release).filter(|_| enough)?;
    let mark = crate::units::clean(mark);
    let why = obstacle.text(card, reading.system);
    let mut outcome = Outcome::new(
        Verdict::Probe,
        format!("Before the rest is given up: two other arrows, every shot was arrow {mark}"),
    );
    outcome.reasons.push(Reason::plain(
        "one-arrow",
        format!("every shot so far came from arrow {mark}, and: {why}"),
    ));
    outcome.probe = Some(Probe {
        kind: ProbeKind::Arrow,
        distance_m: None,
        shots: OTHER_ARROWS,
        answers: ARROW_ANSWERS.to_vec(),
        text: format!(
            "Shoot two other arrows of the set here, once each, entered with their numbers (... #2). same: both within about {} of arrow {mark}: it is not the arrow, leave the rest alone. odd: they agree with each other and not with it: arrow {mark} is set aside, the others start afresh. Tells the two apart about {} times in 10 on virtual bows",
            reading.system.tear(telling.limit_mm),
            telling.times_in_ten()
        ),
    });
    Some(outcome)
}

/// Ragged holes among the latest few ask for the powder test, once.
pub(super) fn contact(reading: &Reading<'_>) -> Option<Outcome> {
    let shots = &reading.timeline.shots;
    let since = reading
        .timeline
        .answer(Test::Contact)
        .map_or(0, |a| a.shots_before);
    let recent = shots[since.min(shots.len())..].iter().rev().take(4);
    if recent
        .filter(|s| s.shot.ragged && !s.shot.called_bad)
        .count()
        < 2
    {
        return None;
    }
    Some(powder(
        "Test for contact: powder the arrow's rear third, vanes and rest, shoot once",
        Reason::plain(
            "ragged",
            "ragged or smeared holes: something may touch the arrow, and then no rest position means anything",
        ),
    ))
}

/// The powder test, and why it is asked for.
pub(super) fn powder(headline: &str, why: Reason) -> Outcome {
    let mut outcome = Outcome::new(Verdict::Probe, headline);
    outcome.reasons.push(why);
    outcome.probe = Some(Probe {
        kind: ProbeKind::Contact,
        distance_m: None,
        shots: 0,
        answers: RAGGED_ANSWERS.to_vec(),
        text: "Powder (foot spray) on the rear third of the shaft, the vanes, the rest and the cables. Shoot once, watch that drawing leaves no marks. none: only the rest's own track, go on. rest, cable or other: a wiped path there; turn the nock a little or cure the contact, then test again. A look, not a tear: common practice, not measured".into(),
    });
    outcome
}
