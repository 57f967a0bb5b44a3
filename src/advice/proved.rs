//! A move made in proof, and what paper has to say of it.
//!
//! Groups at distance and tears on paper are evidence of one bow. What groups
//! asked for is not taken back because paper leans the other way a little:
//! paper is asked one question, whether the tear is still within tolerance,
//! and moves the rest only once that is unlikely.

use super::finding::{Finding, Headline, OUTSIDE};
use super::outcome::Outcome;
use super::reading::Reading;
use super::types::Verdict;
use crate::question::Stage;
use crate::session::Timeline;
use crate::tuner::forecast;

/// Most shots the question takes before it is asked again.
const MOST: u32 = 9;

/// Whether the latest move was made in proof: between it and the fletched
/// shots through paper before it stands a group.
pub(super) fn made_last(timeline: &Timeline) -> bool {
    let Some(made) = timeline.moves.last().map(|m| m.place) else {
        return false;
    };
    // Groups of the rough sight say nothing of the rest.
    let groups = timeline.groups.iter();
    let groups = groups.filter(|g| g.proof != Stage::RoughSight);
    let group = groups.map(|g| g.entry).filter(|e| *e < made).max();
    let plain = timeline.shots.iter().filter(|s| !s.shot.bare);
    let shot = plain.map(|s| s.entry).filter(|e| *e < made).max();
    group.is_some_and(|g| shot.is_none_or(|s| s < g))
}

/// Whether what proof has set stands against the move paper leans to.
pub(super) fn holds(reading: &Reading<'_>) -> bool {
    made_last(reading.timeline) && 1.0 - reading.decision.here < OUTSIDE
}

/// The one question: still within tolerance?
pub(super) fn still_inside(reading: &Reading<'_>) -> Outcome {
    let task = &reading.view.task;
    let wanted = forecast::shots_wanted(&reading.belief, task, &reading.track);
    let wanted = wanted.map_or(3, |n| n.min(MOST));
    let headline = Headline::StillWithin(task.tolerance, wanted);
    let mut outcome = Outcome::new(Verdict::Shoot, headline);
    outcome.shots_wanted = wanted;
    let outside = 1.0 - reading.decision.here;
    outcome.findings.push(Finding::ProofMoved(outside));
    outcome
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::advice::{Advice, advise};
    use crate::gear::{AdjusterKind, Step};
    use crate::proof::tests::group;
    use crate::range::Today;
    use crate::session::{Event, Shot};
    use crate::setup::tests::{COMPOUND, timeline};

    fn shot(right: f64) -> Event {
        Event::Shot(Shot {
            right,
            ..Shot::default()
        })
    }

    /// Four clean shots, a group of bare shafts, a move for it, then these.
    fn after_proof(hand: &str, proved: bool, rights: &[f64]) -> Advice {
        let card = COMPOUND.replace("hand=\"right\"", &format!("hand=\"{hand}\""));
        let mut events: Vec<Event> = [0.0, 1.0, -1.0, 0.0].map(shot).to_vec();
        if proved {
            events.push(group(
                "bare-shaft",
                "bare",
                "18 m",
                &[(0.0, 0.0), (4.0, 1.0)],
            ));
        }
        events.push(Event::Move {
            steps: vec![Step {
                adjuster: AdjusterKind::RestSideways,
                amount: if hand == "left" { -0.75 } else { 0.75 },
            }],
            said: None,
            confirms: None,
        });
        events.extend(rights.iter().map(|r| shot(*r)));
        advise(&timeline(&card, events), Today::now())
    }

    /// The chance of being outside that stands beside the question.
    fn asks(advice: &Advice) -> Option<f64> {
        advice.findings.iter().find_map(|found| match found {
            Finding::ProofMoved(outside) => Some(*outside),
            _ => None,
        })
    }

    #[test]
    fn paper_asks_one_question_after_a_move_made_in_proof() {
        for (hand, side) in [("right", 1.0), ("left", -1.0)] {
            let open = after_proof(hand, true, &[]);
            assert_eq!(open.verdict, Verdict::Shoot, "{hand}: {:?}", open.headline);
            assert!(asks(&open).is_some(), "{hand}: {open:?}");
            assert!((1..=MOST).contains(&open.shots_wanted), "{hand}");
            // Within tolerance: done, and nothing is taken back.
            let inside = after_proof(hand, true, &[side * 2.0, side * 3.0]);
            assert_eq!(
                inside.verdict,
                Verdict::Done,
                "{hand}: {:?}",
                inside.headline
            );
        }
    }

    #[test]
    fn paper_moves_what_proof_set_only_once_it_is_likely_outside() {
        for (hand, side) in [("right", 1.0), ("left", -1.0)] {
            let at = |rights: &[f64]| after_proof(hand, true, rights);
            let close = at(&[side * 5.0, side * 6.0]);
            assert_eq!(
                close.verdict,
                Verdict::Shoot,
                "{hand}: {:?}",
                close.headline
            );
            assert!(asks(&close).is_some_and(|p| p < OUTSIDE), "{close:?}");
            let out = at(&[side * 14.0, side * 15.0, side * 13.0]);
            assert_eq!(out.verdict, Verdict::Move, "{hand}: {:?}", out.headline);
        }
    }

    /// What groups asked for is never taken back on a leaning: whatever the
    /// next shots read, a move comes only where being outside has a chance of
    /// 0.8 or more, and till then one question is asked.
    #[test]
    fn paper_never_advises_back_what_proof_has_just_advised() {
        for (hand, side) in [("right", 1.0), ("left", -1.0)] {
            let mut moved = 0;
            for tear in -15..=15 {
                for shots in 1..=3 {
                    let rights = [0.0, 1.0, -1.0].map(|off| side * f64::from(tear) + off);
                    let found = after_proof(hand, true, &rights[..shots]);
                    let seen = format!("{hand} {tear} {shots}: {:?}", found.headline);
                    let inside = found.estimate.probability_within_tolerance;
                    let outside = 1.0 - inside.expect("it was shot");
                    match found.verdict {
                        Verdict::Move => {
                            assert!(outside >= 0.8, "{seen} {outside}");
                            moved += 1;
                        }
                        Verdict::Shoot if shots > 0 && outside < 0.8 => {
                            let asked = asks(&found).is_some();
                            assert!(asked && found.movement.is_none(), "{seen}");
                        }
                        Verdict::Done => assert!(outside < 0.051, "{seen} {outside}"),
                        _ => {}
                    }
                }
            }
            assert!(moved > 0, "{hand}: a tear far out is moved");
        }
    }

    #[test]
    fn a_move_of_the_paper_itself_is_no_move_of_proof() {
        let advice = after_proof("right", false, &[]);
        assert_eq!(asks(&advice), None);
    }
}
