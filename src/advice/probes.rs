//! The tests that are asked for: the one cheapest shot or look that would
//! change what is said next. Which are worth asking for is measured:
//! [`crate::tuner::probe`].

use super::another::{self, Standing};
use super::finding::{Ask, Finding, Headline};
use super::outcome::Outcome;
use super::reading::Reading;
use super::types::{Probe, ProbeKind, Verdict};
use crate::checks::{self, response::Obstacle};
use crate::question::{ARROW_ANSWERS, RAGGED_ANSWERS, Test};
use crate::tuner::probe::OTHER_ARROWS;

/// Before the response is given up on shots from one arrow alone: two others
/// of the set, where that tells well enough.
pub(super) fn other_arrows(reading: &Reading<'_>) -> Option<Outcome> {
    use Obstacle::{Jumps, NoResponse, Short, Silent, Travel, Weak};
    let (mark, obstacle) = match &reading.view.another {
        Standing::Alone(mark) => (mark, reading.obstacle.clone()),
        // Half answered: the question is what the first arrow's shots asked.
        Standing::Begun(mark) => {
            let own = another::only(reading.timeline, mark);
            (mark, Reading::of(&own).obstacle)
        }
        _ => return None,
    };
    let obstacle = obstacle.filter(|o| {
        matches!(
            o,
            NoResponse(..) | Silent(..) | Jumps(_) | Travel(_) | Weak(_) | Short(_)
        )
    })?;
    if checks::resumed(reading.timeline, obstacle.refusal()) {
        return None;
    }
    let card = &reading.timeline.card;
    let enough = card.arrow.count.is_none_or(|n| n > OTHER_ARROWS);
    let telling = another::telling(card.bow.release).filter(|_| enough)?;
    let headline = Headline::OtherArrows(mark.clone());
    let mut outcome = Outcome::new(Verdict::Probe, headline);
    outcome
        .findings
        .push(Finding::OneArrow(mark.clone(), obstacle));
    outcome.probe = Some(Probe {
        kind: ProbeKind::Arrow,
        distance_m: None,
        shots: OTHER_ARROWS,
        answers: ARROW_ANSWERS.to_vec(),
        ask: Ask::OtherArrows(mark.clone(), telling.limit_mm, telling.times_in_ten()),
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
    Some(powder(Headline::Powder, Finding::Ragged))
}

/// The powder test, and why it is asked for.
pub(super) fn powder(headline: Headline, why: Finding) -> Outcome {
    let mut outcome = Outcome::new(Verdict::Probe, headline);
    outcome.findings.push(why);
    outcome.probe = Some(Probe {
        kind: ProbeKind::Contact,
        distance_m: None,
        shots: 0,
        answers: RAGGED_ANSWERS.to_vec(),
        ask: Ask::Powder,
    });
    outcome
}
