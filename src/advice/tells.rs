//! What shots tell: what "within tolerance" rests on, and what more of them
//! would change.

use super::finding::{Headline, ResponseKnown, RestsOn};
use super::reading::Reading;
use crate::tuner::care::Care;
use crate::tuner::forecast;

/// What "within tolerance" rests on, and what one more shot here would change.
pub(super) fn rests_on(reading: &Reading<'_>) -> RestsOn {
    let (track, task) = (&reading.track, &reading.view.task);
    let cares = (0..task.adjusters.len()).map(|k| Care::of(&reading.belief, task, track, k));
    let moved: Vec<Care> = cares.filter(|care| care.moved).collect();
    let response = match moved.iter().all(|care| care.side) {
        _ if moved.is_empty() => ResponseKnown::NothingMoved,
        true => ResponseKnown::Known,
        false => ResponseKnown::Unsure,
    };
    RestsOn {
        here: track.shots_here,
        on_the_way: track.shots.saturating_sub(track.shots_here),
        response,
        one_more: forecast::chance_after(&reading.belief, task, track, 1),
    }
}

/// What the next shots here are to tell.
pub(super) fn shoot_again(reading: &Reading<'_>, wanted: u32) -> Headline {
    let task = &reading.view.task;
    match forecast::shots_wanted(&reading.belief, task, &reading.track) {
        Some(_) => Headline::MoreWithin(wanted, task.tolerance),
        None => Headline::MoreWhere(wanted),
    }
}
