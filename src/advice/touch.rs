//! Contact is looked for before the shots or the bow are blamed: what knocks
//! on the vanes scatters, jumps or turns the response round, and powder is cheap.

use super::finding::{Behind, Finding, Headline};
use super::outcome::Outcome;
use super::probes;
use super::reading::Reading;
use crate::belief::Axis;
use crate::checks::{self, response::Obstacle};
use crate::question::{Contact, Refusal, Test};
use crate::session::Timeline;
use crate::stats::normal;
use crate::tuner::Choice;

/// Chance from which the other way round than expected is acted on.
const REVERSED: f64 = 0.9;
/// How surely a side must have been expected for the other to be a surprise.
const EXPECTED: f64 = 0.7;

/// The powder test, where contact could be behind what is about to be
/// refused and nobody has looked yet.
pub(super) fn first(reading: &Reading<'_>) -> Option<Outcome> {
    if ruled_out(reading.timeline) {
        return None;
    }
    let behind = behind(reading)?;
    let headline = Headline::ContactFirst(behind);
    Some(probes::powder(headline, Finding::ContactFirst(behind)))
}

/// Whether powder was looked at; after "nobody looked" it is asked for once
/// more, on new shots.
fn ruled_out(timeline: &Timeline) -> bool {
    let all = timeline
        .answers
        .iter()
        .filter(|a| a.test == Test::Contact && a.arrow_epoch == timeline.arrow_epoch);
    let Some(last) = all.clone().next_back() else {
        return false;
    };
    let unseen = Contact::of(&last.result) == Contact::NotLooked;
    !(unseen && all.count() == 1 && last.shots_before < timeline.shots.len())
}

/// Whether powder found contact that is still to be cured.
pub(super) fn found(reading: &Reading<'_>) -> bool {
    matches!(reading.obstacle, Some(Obstacle::Contact(_)))
        && !checks::resumed(reading.timeline, Refusal::Contact)
}

fn behind(reading: &Reading<'_>) -> Option<Behind> {
    let timeline = reading.timeline;
    if reading.scatter_refuses() && !checks::resumed(timeline, Refusal::Scatter) {
        return Some(Behind::Scatter);
    }
    let open = |o: &&Obstacle| !checks::resumed(timeline, o.refusal());
    let obstacle = reading.obstacle.as_ref().filter(open);
    if matches!(obstacle, Some(Obstacle::Jumps(_))) {
        return Some(Behind::Jumps);
    }
    reversed_sideways(reading).then_some(Behind::Reversed)
}

/// Whether the adjuster that is about to move the tear sideways answers
/// against a side that was expected of this bow.
fn reversed_sideways(reading: &Reading<'_>) -> bool {
    let Some(k) = reading.view.task.adjuster(Axis::Right) else {
        return false;
    };
    let Choice::Move(steps) = &reading.decision.choice else {
        return false;
    };
    let (_, gain, used) = &reading.gains[k];
    let expected = reading.view.prior.adjusters[k].slope[Axis::Right.index()];
    let negative = normal::below(-expected.mean / expected.sd);
    let against = (negative >= EXPECTED && 1.0 - gain.probability_negative >= REVERSED)
        || (1.0 - negative >= EXPECTED && gain.probability_negative >= REVERSED);
    *used && against && reading.consistency.may_move() && steps.iter().any(|(n, _)| *n == k)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::advice::{Advice, Verdict, advise};
    use crate::gear::{AdjusterKind, Step};
    use crate::physics::prior::MODEL_VERSION;
    use crate::range::Today;
    use crate::session::{Event, PriorGain, PriorRecord, Shot};
    use crate::setup::tests::{COMPOUND, timeline};

    fn answer(test: &str, result: &str) -> Event {
        Event::Answer {
            test: test.into(),
            result: result.into(),
            detail: None,
        }
    }

    fn shots(rights: &[f64]) -> Vec<Event> {
        let shot = |right: &f64| {
            Event::Shot(Shot {
                right: *right,
                ..Shot::default()
            })
        };
        rights.iter().map(shot).collect()
    }

    /// A bow believed to go against the rest with this chance, whose tear
    /// went 4 mm against it for each mm.
    fn against(hand: &str, believed: f64, more: Vec<Event>) -> Advice {
        let card = COMPOUND.replace("hand=\"right\"", &format!("hand=\"{hand}\""));
        let side = if hand == "left" { -1.0 } else { 1.0 };
        let mut events = vec![Event::Prior(PriorRecord {
            model: MODEL_VERSION,
            seed: 1,
            draws: 128,
            gains: vec![PriorGain {
                adjuster: AdjusterKind::RestSideways,
                mean: 0.0,
                sd: 0.0,
                wander: 0.0,
                negative: believed,
            }],
            learned: None,
        })];
        events.push(answer("hand", "relaxed"));
        events.extend(shots(&[side * 25.0, side * 26.0, side * 25.0]));
        events.push(Event::Move {
            steps: vec![Step {
                adjuster: AdjusterKind::RestSideways,
                amount: side * 3.0,
            }],
            said: None,
            confirms: None,
        });
        events.extend(shots(&[side * 13.0, side * 14.0]));
        events.extend(more);
        advise(&timeline(&card, events), Today::now())
    }

    fn asks(advice: &Advice) -> bool {
        let asked = |f: &Finding| matches!(f, Finding::ContactFirst(_));
        advice.findings.iter().any(asked)
    }

    #[test]
    fn powder_comes_before_a_side_that_was_not_expected_is_believed() {
        for hand in ["right", "left"] {
            let found = against(hand, 0.2, vec![]);
            assert_eq!(
                found.verdict,
                Verdict::Probe,
                "{hand}: {:?}",
                found.headline
            );
            assert!(asks(&found), "{hand}: {found:?}");
            let clean = against(hand, 0.2, vec![answer("contact", "none")]);
            assert_eq!(clean.verdict, Verdict::Move, "{hand}: {:?}", clean.headline);
            // As expected, or nothing expected: no question.
            for believed in [0.8, 0.5] {
                let found = against(hand, believed, vec![]);
                assert_eq!(found.verdict, Verdict::Move, "{hand}: {:?}", found.headline);
                assert!(!asks(&found));
            }
        }
    }

    #[test]
    fn after_nobody_looked_powder_is_asked_for_once_more_on_new_shots() {
        let wild = [-30.0, 22.0, -8.0, 31.0, -18.0, 25.0, -33.0];
        let asked = |answers: &[&str]| {
            let mut events = shots(&wild);
            for said in answers {
                events.push(answer("contact", said));
                events.extend(shots(&wild));
            }
            ruled_out(&timeline(COMPOUND, events))
        };
        assert!(!asked(&[]));
        assert!(!asked(&["not-looked"]));
        assert!(asked(&["not-looked", "not-looked"]));
        assert!(asked(&["none"]));
        assert!(asked(&["cable"]));
    }
}
