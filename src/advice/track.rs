//! The running record: what was believed after each shot, and how the
//! verdict was reached.

use super::decide::Outcome;
use super::reading::Reading;
use super::types::{TrackPoint, Verdict};
use crate::belief::{Belief, Obs, Place};
use crate::checks::response;
use crate::tear::Tear;
use crate::tuner::forecast;
use crate::words;

/// How many of the latest shots get a point: what the widest screen shows.
const POINTS: usize = 80;

/// One point for each shot of the timeline.
pub(super) fn points(reading: &Reading<'_>) -> Vec<Option<TrackPoint>> {
    let shots = &reading.view.shots;
    let first = shots.len().saturating_sub(POINTS);
    (0..shots.len())
        .map(|i| (i >= first && !shots[i].called_bad).then(|| point(reading, &shots[..=i])))
        .collect()
}

fn point(reading: &Reading<'_>, shots: &[Obs]) -> TrackPoint {
    let last = &shots[shots.len() - 1].place;
    let at = Place {
        arrow: None,
        bare: false,
        distance_m: reading.view.here.distance_m,
        ..last.clone()
    };
    let belief = Belief::fit(&reading.view.prior, shots, at.shooter);
    let tear = belief.tear(&at);
    let aim = reading.view.task.aim;
    let length = Tear::new(tear.mean[0] - aim[0], tear.mean[1] - aim[1]).length();
    let sd = super::rms(tear.sd[0], tear.sd[1]);
    TrackPoint {
        right: tear.mean[0],
        up: tear.mean[1],
        // About nine in ten of a plane's spread lies within 1.6 of its per-axis sd each way.
        band: ((length - 1.6 * sd).max(0.0), length + 1.6 * sd),
        within: belief.probability_within(&at, aim, reading.view.task.tolerance),
    }
}

/// How the verdict was reached, line by line, in plain words.
pub(super) fn reckoning(reading: &Reading<'_>, outcome: &Outcome) -> Vec<String> {
    let mut lines = Vec::new();
    let system = reading.system;
    if reading.known() {
        let tear = reading.belief.tear(&reading.track.here);
        lines.push(format!(
            "True tear here: {}, give or take {}",
            words::tear_with_unit(reading.mean(), system),
            system.tear(super::rms(tear.sd[0], tear.sd[1]))
        ));
        lines.push(format!(
            "Chance it is inside {} now: {}; best place within reach: {}",
            system.tear(reading.view.task.tolerance),
            words::odds(reading.decision.here),
            words::odds(reading.decision.best.chance.max(reading.decision.here))
        ));
        lines.extend(last_shot(reading));
        let once_more = forecast::odds_of_done(&reading.belief, &reading.view.task, &reading.track);
        lines.push(format!(
            "Odds that one more shot here makes it done: {}",
            words::odds(once_more)
        ));
    }
    for (kind, gain, used) in &reading.gains {
        let odds = words::odds(
            gain.probability_negative
                .min(1.0 - gain.probability_negative),
        );
        let known = if *used {
            ""
        } else {
            " (not moved yet: what is usual, wide)"
        };
        lines.push(format!(
            "{}; odds of the other way: {odds}{known}",
            response::sentence(*kind, gain, system)
        ));
    }
    lines.extend(bad_shots(reading));
    if outcome.verdict == Verdict::Move {
        lines.push(format!("Why this size: it gives the best chance of being inside, {}, within what is known so far", words::odds(reading.decision.best.chance)));
    }
    lines
}

/// What the last shot changed.
fn last_shot(reading: &Reading<'_>) -> Option<String> {
    let shots = &reading.view.shots;
    let before = shots.len().checked_sub(1)?;
    if before == 0 {
        return None;
    }
    let belief = Belief::fit(
        &reading.view.prior,
        &shots[..before],
        reading.view.here.shooter,
    );
    let chance = belief.probability_within(
        &reading.track.here,
        reading.view.task.aim,
        reading.view.task.tolerance,
    );
    Some(format!(
        "Before the last shot that chance was {}",
        words::odds(chance)
    ))
}

fn bad_shots(reading: &Reading<'_>) -> Vec<String> {
    let shots = &reading.timeline.shots;
    (0..shots.len())
        .filter_map(|i| Some((i, reading.belief.shot_bad(i)?)))
        .filter(|(_, p)| *p >= 0.5)
        .map(|(i, p)| {
            format!(
                "Shot {} (entry {}) looks like a bad one: {}; it counts for little",
                i + 1,
                shots[i].entry,
                words::odds(p)
            )
        })
        .collect()
}
