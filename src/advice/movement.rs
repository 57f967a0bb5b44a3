//! A move as advice: its steps, what it is for, what is expected of it.

use super::finding::{Finding, Headline, Telling};
use super::first;
use super::outcome::{Outcome, rms, tidy};
use super::reading::Reading;
use super::types::{MoveAdvice, MovePurpose, NextShot, StepAdvice, TearEstimate, Verdict};
use crate::belief::{Axis, Place};
use crate::gear::{BenchStep, toward_the_tail};
use crate::tuner::{Purpose, care};

/// The move the tuner has chosen.
pub(super) fn movement(reading: &Reading<'_>, chosen: &[(usize, i32)]) -> Outcome {
    let purpose = reading.decision.purpose.unwrap_or(Purpose::Correct);
    let mut outcome = move_by(reading, chosen, MovePurpose::of(purpose));
    outcome.findings.push(why(reading, chosen, purpose));
    if purpose.is_test() {
        outcome.findings.extend(tells(reading, chosen));
    }
    outcome
}

/// A move made to learn, whatever the tuner would choose.
pub(super) fn test_move(reading: &Reading<'_>, chosen: &[(usize, i32)]) -> Outcome {
    move_by(reading, chosen, MovePurpose::Test)
}

fn move_by(reading: &Reading<'_>, chosen: &[(usize, i32)], purpose: MovePurpose) -> Outcome {
    let mut outcome = Outcome::new(Verdict::Move, Headline::Move);
    let mut to = reading.track.here.clone();
    for (k, n) in chosen {
        to.positions[*k] += f64::from(*n) * reading.view.task.adjusters[*k].step;
    }
    let next = next_shot(reading, &to);
    outcome.movement = Some(MoveAdvice {
        purpose,
        steps: chosen
            .iter()
            .filter_map(|(k, n)| step_advice(reading, *k, *n))
            .collect(),
        expected_tear_mm: TearEstimate {
            right: tidy(next.right),
            up: tidy(next.up),
            sd: tidy(rms(next.sd_right, next.sd_up)),
        },
    });
    outcome.next_shot = Some(next);
    outcome
}

fn why(reading: &Reading<'_>, chosen: &[(usize, i32)], purpose: Purpose) -> Finding {
    let kind = reading.view.kinds[chosen[0].0];
    match purpose {
        Purpose::Test => Finding::TestMove(first::why(reading, kind, amount(reading, chosen))),
        Purpose::Learn => Finding::Learn,
        Purpose::Correct => first::correct(reading, chosen),
    }
}

/// What a test move can tell, and how many shots there that takes.
fn tells(reading: &Reading<'_>, chosen: &[(usize, i32)]) -> Option<Finding> {
    let (k, steps) = *chosen.first()?;
    let span = f64::from(steps) * reading.view.task.adjusters[k].step;
    let (task, track) = (&reading.view.task, &reading.track);
    let telling = care::telling(&reading.belief, task, track, k, span);
    Some(Finding::TestTells(Telling {
        change: telling.change,
        shots: telling.shots,
        power: telling.power,
        wanted: care::POWER,
    }))
}

/// How far the first of the chosen steps goes, in its adjuster's unit.
fn amount(reading: &Reading<'_>, chosen: &[(usize, i32)]) -> f64 {
    let (k, n) = chosen[0];
    f64::from(n) * reading.view.task.adjusters[k].step
}

/// So many whole steps of an adjuster, which stay whole all the way.
fn step_advice(reading: &Reading<'_>, k: usize, steps: i32) -> Option<StepAdvice> {
    let timeline = reading.timeline;
    let kind = reading.view.kinds[k];
    let bench = BenchStep::of_steps(kind, steps, &timeline.card, &timeline.now)?;
    Some(StepAdvice {
        bench,
        toward_tail: toward_the_tail(&bench.step, reading.mean()),
    })
}

/// What the next shot at a place is expected to show.
pub(super) fn next_shot(reading: &Reading<'_>, at: &Place) -> NextShot {
    let [right, up] = Axis::BOTH.map(|axis| reading.belief.next_shot(axis, at));
    NextShot {
        right: right.0,
        up: up.0,
        sd_right: right.1,
        sd_up: up.1,
    }
}
