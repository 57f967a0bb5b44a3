//! The order of the checks, and the verdict.
//!
//! Safety first, then spine match, consistency, response; only then the
//! tuner. A verdict that refuses never shows a move beside it.

use super::another::Standing;
use super::probes;
use super::reading::Reading;
use super::types::{
    MoveAdvice, MovePurpose, NextShot, Probe, Reason, StepAdvice, TearEstimate, Verdict,
};
use crate::belief::{Axis, Place};
use crate::checks::{self, next_steps, response, safety};
use crate::gear::{AdjusterUnit, Step};
use crate::question::Refusal;
use crate::tuner::gates::Gate;
use crate::tuner::{Choice, Purpose, care, choose, forecast};
use crate::words;

/// What was decided.
pub(super) struct Outcome {
    pub verdict: Verdict,
    /// Why it refuses or stops, where it does.
    pub refusal: Option<Refusal>,
    pub headline: String,
    pub reasons: Vec<Reason>,
    pub movement: Option<MoveAdvice>,
    pub probe: Option<Probe>,
    pub shots_wanted: u32,
    pub next_shot: Option<NextShot>,
}

impl Outcome {
    pub(super) fn new(verdict: Verdict, headline: impl Into<String>) -> Self {
        Self {
            verdict,
            refusal: None,
            headline: headline.into(),
            reasons: Vec::new(),
            movement: None,
            probe: None,
            shots_wanted: 0,
            next_shot: None,
        }
    }
}

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
        let text = words::in_order(&next);
        outcome.reasons.push(Reason::plain("next-steps", text));
    }
    if outcome.verdict != Verdict::Stop {
        super::warnings::warn(reading, &mut outcome);
    }
    if outcome.next_shot.is_none() && reading.known() {
        outcome.next_shot = Some(next_shot(reading, &standing(reading)));
    }
    outcome
}

pub(super) fn stop(timeline: &crate::session::Timeline) -> Option<Outcome> {
    let dangers = safety::dangers(timeline);
    let first = dangers.first()?;
    let refusal = first.refusal;
    let headline = match refusal {
        Refusal::Incident => "Do not shoot: inspect the bow first",
        Refusal::TooLight => "Do not shoot: the arrow is too light for this bow",
        Refusal::FarTooWeak => "Do not shoot: the arrow is far too weak for this bow",
        Refusal::WeighFirst => "Do not shoot: weigh the bow first",
        Refusal::PastLimit => "Do not shoot: past the bow maker's limit",
        _ => "Do not shoot: the arrow is too short for this draw",
    };
    let mut outcome = Outcome::new(Verdict::Stop, headline);
    outcome.refusal = Some(refusal);
    outcome.reasons = dangers
        .into_iter()
        .map(|d| match d.figure {
            Some((value, limit, unit)) => {
                Reason::measured(d.refusal.code(), d.text, value, limit, unit)
            }
            None => Reason::plain(d.refusal.code(), d.text),
        })
        .collect();
    Some(outcome)
}

fn refuse_spine(reading: &Reading<'_>) -> Option<Outcome> {
    if !reading.spine_refuses() {
        return None;
    }
    let side = if reading.spine.weak() {
        "weak"
    } else {
        "stiff"
    };
    let headline = if reading.timeline.weight_unknown() {
        "Leave the rest alone: weigh the bow first".to_owned()
    } else {
        format!("Leave the rest alone: the arrow is too {side} for this bow")
    };
    let mut outcome = Outcome::new(Verdict::Refuse, headline);
    let check = reading.checks().spine_match;
    let refusal = reading.spine.refusal().unwrap_or(Refusal::SpineWeak);
    outcome.refusal = Some(refusal);
    outcome.reasons.push(Reason {
        code: refusal.code(),
        text: check.text,
        value: check.value,
        limit: check.limit,
        unit: check.unit,
    });
    if !reading.timeline.card.bow.weighed {
        outcome.reasons.push(Reason::plain("weigh-bow", format!("before you believe this, weigh the bow on a scale at this draw and put it on the card: peak weight, and weighed. {}", crate::cautions::WEIGHING)));
    }
    if reading.timeline.card.arrow.only_these {
        outcome.reasons.push(Reason::plain("only-these", "with only these arrows: your own moves can be recorded; three good shots in a row within tolerance by the owner lift this, as long as later shots bear it out; or close as best with these arrows, not matched"));
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
    let mut outcome = Outcome::new(
        Verdict::Refuse,
        "Leave the rest alone: repeat shots do not agree",
    );
    let check = reading.checks().consistency;
    outcome.refusal = Some(Refusal::Scatter);
    outcome.reasons.push(Reason {
        code: Refusal::Scatter.code(),
        text: check.text,
        value: check.value,
        limit: check.limit,
        unit: check.unit,
    });
    // What shows that it is over without a word: a tight run.
    outcome.shots_wanted = super::cures::RUNS[0] as u32;
    Some(outcome)
}

fn refuse_response(reading: &Reading<'_>) -> Option<Outcome> {
    let obstacle = reading.obstacle.as_ref()?;
    if checks::resumed(reading.timeline, obstacle.refusal()) {
        return None;
    }
    let mut outcome = Outcome::new(
        Verdict::Refuse,
        match obstacle {
            response::Obstacle::HugeTear(..) => {
                "Leave the rest alone: the tear is too large for the rest"
            }
            response::Obstacle::Weak(..) => "Leave the rest alone: it hardly moves the tear",
            response::Obstacle::NoResponse(..) | response::Obstacle::Silent(..) => {
                "Leave the rest alone: it does not answer"
            }
            response::Obstacle::Jumps(_) => "Leave the rest alone: the tear jumps between moves",
            response::Obstacle::Travel(_) => "Leave the rest alone: its travel does not reach",
            response::Obstacle::NoAdjuster(_) => {
                "Leave the rest alone: nothing on this bow moves it that way"
            }
            response::Obstacle::Contact(_) => "Leave the rest alone: something touches the arrow",
        },
    );
    let check = reading.checks().response;
    outcome.refusal = Some(obstacle.refusal());
    outcome.reasons.push(Reason {
        code: obstacle.refusal().code(),
        text: check.text,
        value: check.value,
        limit: check.limit,
        unit: check.unit,
    });
    if reading.view.another == Standing::Same {
        outcome.reasons.push(Reason::plain(
            "arrow-same",
            "other arrows of the set tear alike: it is not the one arrow",
        ));
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
        Choice::Move(_) if super::proved::holds(reading) => super::proved::still_inside(reading),
        Choice::Shoot if super::proved::made_last(reading.timeline) && reading.known() => {
            super::proved::still_inside(reading)
        }
        Choice::Done | Choice::Move(_) if !reading.consistency.may_move() => repeat_first(reading),
        Choice::Done => done(reading),
        Choice::Shoot if reading.consistency.gate == Gate::Bent => repeat_first(reading),
        Choice::Move(steps) => movement(reading, steps),
        // Refused before as an obstacle; kept total.
        Choice::Limit => Outcome::new(
            Verdict::Refuse,
            "Leave the rest alone: its travel does not reach",
        ),
        Choice::Shoot => shoot(reading),
    }
}

/// Whether too few shots are left once an odd arrow is set aside: the ones
/// that showed it up were picked for agreeing.
fn afresh(reading: &Reading<'_>) -> bool {
    matches!(reading.view.another, Standing::Odd(_))
        && reading.track.shots_here < checks::RESUME_SHOTS
}

/// The archer is judged before the rest is moved: what a single shot shows
/// may be the archer's.
fn repeat_first(reading: &Reading<'_>) -> Outcome {
    let bent = reading.consistency.gate == Gate::Bent;
    let mut outcome = Outcome::new(
        Verdict::Shoot,
        if bent {
            "Shoot two more here: a bent response, or shots that scatter?"
        } else {
            "Shoot again here: the shots must repeat before anything is moved"
        },
    );
    let check = reading.checks().consistency;
    outcome.reasons.push(Reason {
        code: if bent {
            "bent-or-scatter"
        } else {
            "repeat-first"
        },
        text: check.text,
        value: check.value,
        limit: check.limit,
        unit: check.unit,
    });
    outcome.shots_wanted = if bent { 2 } else { 1 };
    outcome
}

fn owner_must_shoot(reading: &Reading<'_>) -> Outcome {
    let who = reading.view.shooter.id();
    let mut outcome = Outcome::new(
        Verdict::Shoot,
        format!("Within tolerance for the {who}: let the owner shoot 3"),
    );
    outcome.reasons.push(Reason::plain(
        "owner-must-shoot",
        "another hand, another tear: only the owner's own shots make it done",
    ));
    outcome.shots_wanted = 3;
    outcome
}

fn done(reading: &Reading<'_>) -> Outcome {
    let mut outcome = Outcome::new(Verdict::Done, "Within tolerance: now prove it at distance");
    let level = choose::wanted_level(&reading.belief, &reading.view.task);
    let text = format!(
        "chance that the true tear is within {} of the aim: {} (asked for {})",
        reading.system.tear(reading.view.task.tolerance),
        words::odds(reading.decision.here),
        words::odds(level)
    );
    outcome.reasons.push(Reason::measured(
        "inside",
        text,
        reading.decision.here,
        level,
        "chance",
    ));
    outcome
        .reasons
        .push(Reason::plain("rests-on", super::tells::rests_on(reading)));
    outcome
}

fn shoot(reading: &Reading<'_>) -> Outcome {
    let here = reading.track.shots_here;
    let wanted = shots_wanted(reading);
    let headline = match (reading.track.shots, here, reading.track.fresh) {
        (0, ..) => "Shoot the first shots here".to_owned(),
        (_, 0, _) => "Shoot here: this setting has not been shot".to_owned(),
        (.., 0) => "Shoot here: nothing was shot since the last move".to_owned(),
        _ => super::tells::shoot_again(reading, wanted),
    };
    let mut outcome = Outcome::new(Verdict::Shoot, headline);
    outcome.shots_wanted = wanted;
    if !reading.known() {
        outcome.reasons.push(Reason::plain(
            "nothing-shot",
            "nothing is known of the tear yet",
        ));
        return outcome;
    }
    let text = format!(
        "chance that it is inside {} now: {}; {}",
        reading.system.tear(reading.view.task.tolerance),
        words::odds(reading.decision.here),
        what_is_missing(reading)
    );
    outcome.reasons.push(Reason::measured(
        "not-sure-yet",
        text,
        reading.decision.here,
        choose::wanted_level(&reading.belief, &reading.view.task),
        "chance",
    ));
    outcome
}

/// Why it is not done yet: the odds, or shots at this setting.
fn what_is_missing(reading: &Reading<'_>) -> String {
    let task = &reading.view.task;
    let needed = choose::shots_needed(&reading.belief, task, reading.decision.here);
    let level = choose::wanted_level(&reading.belief, task);
    if reading.decision.here >= level && reading.track.shots_here < needed {
        let least = words::count(needed, "shot");
        return format!("at least {least} at a setting are wanted to call it done");
    }
    format!("{} is wanted to call it done", words::odds(level))
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

fn movement(reading: &Reading<'_>, chosen: &[(usize, i32)]) -> Outcome {
    let purpose = reading.decision.purpose.unwrap_or(Purpose::Correct);
    let mut outcome = move_by(reading, chosen, MovePurpose::of(purpose));
    outcome.reasons.push(why(reading, chosen, purpose));
    if purpose.is_test() {
        outcome.reasons.extend(tells(reading, chosen));
    }
    outcome
}

/// A move made to learn, whatever the tuner would choose.
pub(super) fn test_move(reading: &Reading<'_>, chosen: &[(usize, i32)]) -> Outcome {
    move_by(reading, chosen, MovePurpose::Test)
}

fn move_by(reading: &Reading<'_>, chosen: &[(usize, i32)], purpose: MovePurpose) -> Outcome {
    let card = &reading.timeline.card;
    let steps: Vec<Step> = chosen
        .iter()
        .map(|(k, n)| {
            let step = reading.view.task.adjusters[*k].step;
            Step {
                adjuster: reading.view.kinds[*k],
                amount: (f64::from(*n) * step * 1e6).round() / 1e6,
            }
        })
        .collect();
    let headline: Vec<String> = steps
        .iter()
        .map(|s| words::step_headline(s, card, reading.system))
        .collect();
    let mut outcome = Outcome::new(Verdict::Move, headline.join("; "));
    let mut to = reading.track.here.clone();
    for (k, n) in chosen {
        to.positions[*k] += f64::from(*n) * reading.view.task.adjusters[*k].step;
    }
    let next = next_shot(reading, &to);
    outcome.movement = Some(MoveAdvice {
        purpose,
        steps: steps.iter().map(|s| step_advice(reading, s)).collect(),
        expected_tear_mm: TearEstimate {
            right: super::tidy(next.right),
            up: super::tidy(next.up),
            sd: super::tidy(rms(next.sd_right, next.sd_up)),
        },
    });
    outcome.next_shot = Some(next);
    outcome
}

fn why(reading: &Reading<'_>, chosen: &[(usize, i32)], purpose: Purpose) -> Reason {
    let kind = reading.view.kinds[chosen[0].0];
    match purpose {
        Purpose::Test => Reason::plain(
            "test-move",
            super::first::why(reading, kind, amount(reading, chosen)),
        ),
        Purpose::Learn => Reason::plain(
            "learn",
            "a small move to see how this bow answers near here",
        ),
        Purpose::Correct => super::earlier::correct(reading, chosen),
    }
}

/// What a test move can tell, and how many shots there that takes.
fn tells(reading: &Reading<'_>, chosen: &[(usize, i32)]) -> Option<Reason> {
    let (k, steps) = *chosen.first()?;
    let span = f64::from(steps) * reading.view.task.adjusters[k].step;
    let (task, track) = (&reading.view.task, &reading.track);
    let telling = care::telling(&reading.belief, task, track, k, span);
    let text = format!(
        "a usual response would change the tear by about {}: {} there will show it (chance {})",
        reading.system.tear(telling.change),
        words::count(telling.shots as usize, "shot"),
        words::odds(telling.power)
    );
    let power = telling.power;
    Some(Reason::measured(
        "test-tells",
        text,
        power,
        care::POWER,
        "chance",
    ))
}

/// How far the first of the chosen steps goes, in its adjuster's unit.
fn amount(reading: &Reading<'_>, chosen: &[(usize, i32)]) -> f64 {
    let (k, n) = chosen[0];
    f64::from(n) * reading.view.task.adjusters[k].step
}

fn step_advice(reading: &Reading<'_>, step: &Step) -> StepAdvice {
    let card = &reading.timeline.card;
    let mut text = words::step_bench(step, card, &reading.timeline.now, reading.system);
    match words::toward_the_tail(step, reading.mean()) {
        Some(true) => text.push_str(", toward the tail"),
        Some(false) => text.push_str(", away from the tail"),
        None => {}
    }
    let clicks = card
        .adjuster(step.adjuster)
        .filter(|a| a.clicks && step.adjuster.unit() == AdjusterUnit::Mm)
        .map(|a| a.steps_in(step.amount));
    StepAdvice {
        adjuster: step.adjuster,
        amount: step.amount,
        unit: step.adjuster.unit().id(),
        clicks,
        text,
        say: step.say(),
    }
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

fn next_shot(reading: &Reading<'_>, at: &Place) -> NextShot {
    let [right, up] = Axis::BOTH.map(|axis| reading.belief.next_shot(axis, at));
    NextShot {
        right: right.0,
        up: up.0,
        sd_right: right.1,
        sd_up: up.1,
    }
}

pub(super) fn rms(a: f64, b: f64) -> f64 {
    ((a * a + b * b) / 2.0).sqrt()
}
