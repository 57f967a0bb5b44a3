//! The order of the checks, and the verdict.
//!
//! Safety first, then spine match, consistency, response; only then the
//! tuner. A verdict that refuses never shows a move beside it.

use super::another::Standing;
use super::finding::{Chance, Finding, Headline, Missing, Weighed};
use super::movement::{movement, next_shot};
use super::outcome::Outcome;
use super::probes;
use super::reading::Reading;
use super::types::Verdict;
use crate::belief::Place;
use crate::checks::{self, next_steps, safety};
use crate::gear::Release;
use crate::question::Refusal;
use crate::tuner::gates::{Gate, REPEATS};
use crate::tuner::{Choice, choose, forecast};

/// Decides.
pub(super) fn decide(reading: &Reading<'_>) -> Outcome {
    let mut outcome = stop(reading.timeline)
        .or_else(|| refuse_spine(reading))
        .or_else(|| super::touch::first(reading))
        .or_else(|| refuse_scatter(reading))
        .or_else(|| probes::contact(reading))
        .or_else(|| super::upside::ask(reading))
        .or_else(|| probes::other_arrows(reading))
        .or_else(|| refuse_response(reading))
        .or_else(|| super::first::ask(reading))
        .unwrap_or_else(|| tune(reading));
    super::first::remark(reading, &mut outcome);
    if outcome.verdict == Verdict::Refuse
        && let Some(next) = outcome
            .refusal
            .and_then(|refusal| next_steps::after(reading.timeline, refusal))
    {
        outcome.findings.push(Finding::NextSteps(next));
    }
    // Under a stop no shot comes next that could be expected to land anywhere.
    if outcome.verdict == Verdict::Stop {
        return outcome;
    }
    super::warnings::warn(reading, &mut outcome);
    if outcome.next_shot.is_none() && reading.known() {
        outcome.next_shot = Some(next_shot(reading, &standing(reading)));
    }
    outcome
}

pub(super) fn stop(timeline: &crate::session::Timeline) -> Option<Outcome> {
    let dangers = safety::dangers(timeline);
    let first = dangers.first()?;
    let refusal = first.refusal();
    let mut outcome = Outcome::new(Verdict::Stop, Headline::Stop(refusal));
    outcome.refusal = Some(refusal);
    outcome.findings = dangers.into_iter().map(Finding::Danger).collect();
    Some(outcome)
}

fn refuse_spine(reading: &Reading<'_>) -> Option<Outcome> {
    let refusal = reading.spine.refusal()?;
    let weighed = match reading.timeline.weight_unknown() {
        true => Weighed::Unknown,
        false => Weighed::Known,
    };
    let mut outcome = Outcome::new(Verdict::Refuse, Headline::Spine(refusal, weighed));
    outcome.refusal = Some(refusal);
    outcome.findings.push(Finding::Spine(reading.spine.clone()));
    if !reading.timeline.card.bow.weighed {
        outcome.findings.push(Finding::WeighBow);
    }
    if reading.timeline.card.arrow.only_these {
        outcome.findings.push(Finding::OnlyThese);
    }
    Some(outcome)
}

fn refuse_scatter(reading: &Reading<'_>) -> Option<Outcome> {
    // Contact that was found comes first: it scatters the shots.
    if !reading.scatter_refuses()
        || super::touch::found(reading)
        || checks::resumed(reading.timeline, Refusal::Scatter)
    {
        return None;
    }
    let mut outcome = Outcome::new(Verdict::Refuse, Headline::Scatter);
    outcome.refusal = Some(Refusal::Scatter);
    outcome.findings.push(Finding::Scatter(reading.repeats()));
    // What shows that it is over without a word: a tight run.
    outcome.shots_wanted = super::cures::RUNS[0] as u32;
    Some(outcome)
}

fn refuse_response(reading: &Reading<'_>) -> Option<Outcome> {
    let obstacle = reading.obstacle.as_ref()?;
    if checks::resumed(reading.timeline, obstacle.refusal()) {
        return None;
    }
    let mut outcome = Outcome::new(Verdict::Refuse, Headline::Obstacle(obstacle.clone()));
    outcome.refusal = Some(obstacle.refusal());
    outcome.findings.push(Finding::Obstacle(obstacle.clone()));
    if reading.view.another == Standing::Same {
        outcome.findings.push(Finding::ArrowSame);
    }
    Some(outcome)
}

fn tune(reading: &Reading<'_>) -> Outcome {
    match &reading.decision.choice {
        Choice::Done if !reading.owner_is_judged() => owner_must_shoot(reading),
        Choice::Done if !super::warnings::held_back(reading).is_empty() => {
            super::warnings::not_yet_done(reading)
        }
        Choice::Done if afresh(reading) => shoot(reading),
        Choice::Done if repeated_once(reading) => once_more(reading),
        Choice::Move(_) if super::proved::holds(reading) => super::proved::still_inside(reading),
        Choice::Shoot if super::proved::made_last(reading.timeline) && reading.known() => {
            super::proved::still_inside(reading)
        }
        Choice::Done | Choice::Move(_) if !reading.consistency.may_move() => repeat_first(reading),
        Choice::Done => done(reading),
        Choice::Shoot if reading.consistency.gate == Gate::Bent => repeat_first(reading),
        Choice::Move(steps) => movement(reading, steps),
        // A refusal says why, and this one was said as an obstacle. Here the
        // path after it was walked to its end: the shots it asked for come.
        Choice::Limit => shoot(reading),
        Choice::Shoot => shoot(reading),
    }
}

/// Whether too few shots are left once an odd arrow is set aside: the ones
/// that showed it up were picked for agreeing.
fn afresh(reading: &Reading<'_>) -> bool {
    matches!(reading.view.another, Standing::Odd(_))
        && reading.track.shots_here < checks::RESUME_SHOTS
}

/// Whether shots with fingers were repeated only once: two that agree by luck
/// would end it. A third is asked for, unless the owner says how many there
/// must be, or the folder knows how this owner scatters.
fn repeated_once(reading: &Reading<'_>) -> bool {
    let card = &reading.timeline.card;
    card.bow.release == Release::Fingers
        && card.paper.least_shots.is_none()
        && reading.consistency.gate == Gate::SoFar
        && reading.track.repeats < REPEATS
}

/// One more shot before it is called done.
fn once_more(reading: &Reading<'_>) -> Outcome {
    let tolerance = reading.view.task.tolerance;
    let mut outcome = Outcome::new(Verdict::Shoot, Headline::MoreWithin(1, tolerance));
    let missing = Finding::NotSureYet(chance(reading), Missing::Repeat);
    outcome.findings.push(missing);
    outcome.shots_wanted = 1;
    outcome
}

/// The archer is judged before the rest is moved: what a single shot shows
/// may be the archer's.
fn repeat_first(reading: &Reading<'_>) -> Outcome {
    let repeats = reading.repeats();
    let (headline, finding, shots) = match reading.consistency.gate {
        Gate::Bent => (Headline::BentOrScatter, Finding::BentOrScatter(repeats), 2),
        _ => (Headline::RepeatFirst, Finding::RepeatFirst(repeats), 1),
    };
    let mut outcome = Outcome::new(Verdict::Shoot, headline);
    outcome.findings.push(finding);
    outcome.shots_wanted = shots;
    outcome
}

fn owner_must_shoot(reading: &Reading<'_>) -> Outcome {
    let headline = Headline::OwnerMustShoot(reading.view.shooter);
    let mut outcome = Outcome::new(Verdict::Shoot, headline);
    outcome.findings.push(Finding::OwnerMustShoot);
    outcome.shots_wanted = 3;
    outcome
}

fn done(reading: &Reading<'_>) -> Outcome {
    let mut outcome = Outcome::new(Verdict::Done, Headline::Done);
    outcome.findings.push(Finding::Within(chance(reading)));
    let rests_on = super::tells::rests_on(reading);
    outcome.findings.push(Finding::RestsOn(rests_on));
    outcome
}

/// The chance of being within tolerance here.
fn chance(reading: &Reading<'_>) -> Chance {
    Chance {
        now: reading.decision.here,
        level: choose::wanted_level(&reading.belief, &reading.view.task),
        tolerance: reading.view.task.tolerance,
    }
}

fn shoot(reading: &Reading<'_>) -> Outcome {
    let here = reading.track.shots_here;
    let wanted = shots_wanted(reading);
    let headline = match (reading.track.shots, here, reading.track.fresh) {
        (0, ..) if reading.timeline.shots.is_empty() => Headline::FirstShots,
        (0, ..) => Headline::NoneCounts,
        (_, 0, _) => Headline::NewSetting,
        (.., 0) => Headline::SinceTheMove,
        _ => super::tells::shoot_again(reading, wanted),
    };
    let mut outcome = Outcome::new(Verdict::Shoot, headline);
    outcome.shots_wanted = wanted;
    outcome.findings.push(if reading.known() {
        Finding::NotSureYet(chance(reading), what_is_missing(reading))
    } else {
        Finding::NothingShot
    });
    outcome
}

/// Why it is not done yet: the chance, or shots at this setting.
fn what_is_missing(reading: &Reading<'_>) -> Missing {
    let task = &reading.view.task;
    let needed = choose::shots_needed(&reading.belief, task, reading.decision.here);
    let level = choose::wanted_level(&reading.belief, task);
    if reading.decision.here >= level && reading.track.shots_here < needed {
        return Missing::Shots(needed);
    }
    Missing::Chance
}

/// How many more shots here should settle it if the mean stays where it is
/// believed; three where no number of them would.
fn shots_wanted(reading: &Reading<'_>) -> u32 {
    if reading.track.shots == 0 || reading.track.shots_here == 0 {
        return reading.view.task.least_shots.max(1) as u32;
    }
    let wanted = forecast::shots_wanted(&reading.belief, &reading.view.task, &reading.track);
    wanted.map_or(3, |n| n.min(9))
}

/// Where the next shot will be shot: here, or where a move that waits to be
/// confirmed leads.
fn standing(reading: &Reading<'_>) -> Place {
    let mut at = reading.track.here.clone();
    let pending = reading.timeline.pending.as_ref();
    for step in pending.iter().flat_map(|p| &p.steps) {
        if let Some(k) = reading.view.column(step.adjuster) {
            at.positions[k] += step.amount;
        }
    }
    at
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::advice::{Advice, advise};
    use crate::gear::{AdjusterKind, CardText, Step};
    use crate::range::Today;
    use crate::session::{Event, Shot, Timeline};
    use crate::setup::tests::{COMPOUND, timeline};

    const RECURVE: &str = include_str!("../../tests/scenarios/cards/recurve.toml");

    fn shot(right: f64, up: f64) -> Event {
        Event::Shot(Shot {
            right,
            up,
            ..Shot::default()
        })
    }

    fn answer(test: &str, result: &str) -> Event {
        Event::Answer {
            test: test.into(),
            result: result.into(),
            detail: None,
        }
    }

    /// A tear of 16 mm that each mm of rest toward it takes 3 mm off, and a move
    /// of 2 mm more that waits to be confirmed.
    #[test]
    fn the_next_shot_is_forecast_where_a_pending_move_leads() {
        for side in [1.0, -1.0] {
            let step = |mm: f64| {
                vec![Step {
                    adjuster: AdjusterKind::RestSideways,
                    amount: mm * side,
                }]
            };
            let moved = |mm: f64| Event::Move {
                steps: step(mm),
                said: None,
                confirms: None,
            };
            let mut events = vec![answer("hand", "relaxed")];
            for (mm, tears) in [(0.0, [16.0, 16.0]), (2.0, [10.0, 10.0])] {
                if mm != 0.0 {
                    events.push(moved(mm));
                }
                events.extend(tears.map(|right| shot(side * right, 0.0)));
            }
            let next = |events: &[Event]| {
                let t = timeline(COMPOUND, events.to_vec());
                let analysis = crate::advice::analyse(&t, Today::now());
                side * analysis.next_shot.expect("a forecast").right
            };
            events.push(Event::Pending { steps: step(2.0) });
            let there = next(&events);
            assert!((2.0..6.0).contains(&there), "{side}: {there}");
        }
    }

    /// Two shots at each place of the rest, whose tear stays 20 mm out.
    fn hopeless(side: f64) -> Vec<Event> {
        let mut events = vec![answer("hand", "relaxed"), answer("contact", "none")];
        let mut at = 0.0;
        for place in [0.0, 4.0, -4.0, 8.0, -8.0, 0.0] {
            if place != at {
                events.push(Event::Move {
                    steps: vec![Step {
                        adjuster: AdjusterKind::RestSideways,
                        amount: place - at,
                    }],
                    said: None,
                    confirms: None,
                });
                at = place;
            }
            events.extend([shot(20.0 * side, 0.0), shot(21.0 * side, 1.0)]);
        }
        events
    }

    /// Every path that a response may send to, walked to its end.
    fn walked() -> Vec<Event> {
        let paths = [
            Refusal::NoResponse,
            Refusal::Jumps,
            Refusal::TravelLimit,
            Refusal::HugeTear,
        ];
        let resume = |path: Refusal| answer(&format!("remedy-{path}"), "resume");
        paths.map(resume).to_vec()
    }

    fn of(t: &Timeline) -> Advice {
        advise(t, Today::now())
    }

    #[test]
    fn nothing_within_reach_is_refused_with_its_reason_and_after_its_path_shoots() {
        for side in [1.0, -1.0] {
            let t = timeline(COMPOUND, hopeless(side));
            assert_eq!(Reading::of(&t).decision.choice, Choice::Limit);
            let refused = of(&t);
            assert_eq!(refused.verdict, Verdict::Refuse);
            assert!(refused.refusal.is_some() && !refused.findings.is_empty());
            // The path is at its end: the shots it asked for, not a refusal
            // that names nothing.
            let t = timeline(COMPOUND, [hopeless(side), walked()].concat());
            assert_eq!(Reading::of(&t).decision.choice, Choice::Limit);
            let open = of(&t);
            assert_eq!(open.verdict, Verdict::Shoot, "{:?}", open.headline);
            assert!(open.refusal.is_none() && open.shots_wanted > 0);
            // Once they are shot it may be refused again, and says why.
            let three = [20.0, 21.0, 20.0].map(|r| shot(side * r, 0.0)).to_vec();
            let t = timeline(COMPOUND, [hopeless(side), walked(), three].concat());
            let again = of(&t);
            assert_eq!(again.verdict, Verdict::Refuse);
            assert_eq!(again.refusal, refused.refusal);
        }
    }

    /// Two shots of fingers that agree 3 mm apart, well inside 12 mm; the same
    /// with an aid, inside 6 mm.
    #[test]
    fn with_fingers_one_repeat_does_not_end_it_unless_the_owner_says_so() {
        let ends = |card: &str, said: Option<&str>, tears: &[f64]| {
            let mut card = CardText::from_toml(card).unwrap();
            if let Some(said) = said {
                card.set("paper.least_shots", said).unwrap();
            }
            let shots = tears.iter().map(|right| shot(*right, 0.0));
            let t = timeline(&card.to_toml(), shots);
            let advice = of(&t);
            // Nothing is to be moved: that is not what the third shot is for.
            let repeat = |f: &Finding| matches!(f, Finding::NotSureYet(_, Missing::Repeat));
            let asked = advice.findings.iter().any(repeat);
            assert_eq!(
                asked,
                advice.verdict == Verdict::Shoot,
                "{:?}",
                advice.findings
            );
            advice.verdict
        };
        for side in [1.0, -1.0] {
            let two = [-side, 2.0 * side];
            let three = [-side, 2.0 * side, side];
            assert_eq!(ends(RECURVE, None, &two), Verdict::Shoot);
            assert_eq!(ends(RECURVE, None, &three), Verdict::Done);
            assert_eq!(ends(RECURVE, Some("2"), &two), Verdict::Done);
        }
    }
}
