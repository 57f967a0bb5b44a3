//! What shots tell: what "inside" rests on, and what more of them would change.

use super::reading::Reading;
use crate::tuner::care::Care;
use crate::tuner::forecast;
use crate::words;

/// What "inside" rests on, and what one more shot here would change.
pub(super) fn rests_on(reading: &Reading<'_>) -> String {
    let (track, task) = (&reading.track, &reading.view.task);
    let cares = (0..task.adjusters.len()).map(|k| Care::of(&reading.belief, task, track, k));
    let moved: Vec<Care> = cares.filter(|care| care.moved).collect();
    let how = if moved.is_empty() {
        "nothing was moved"
    } else if moved.iter().all(|care| care.side) {
        "how the tear answers is known"
    } else {
        "how the tear answers is not sure yet"
    };
    let here = words::count(track.shots_here, "shot");
    let on_the_way = match track.shots.saturating_sub(track.shots_here) {
        0 => String::new(),
        n => format!(" and {n} on the way"),
    };
    let more = forecast::chance_after(&reading.belief, task, track, 1);
    format!(
        "it rests on {here} here{on_the_way}; {how}. One more here that agrees would make it {}",
        words::odds(more)
    )
}

/// What the next shots here are to tell.
pub(super) fn shoot_again(reading: &Reading<'_>, wanted: u32) -> String {
    let n = words::count(wanted as usize, "more shot");
    let tolerance = reading.system.tear(reading.view.task.tolerance);
    match forecast::shots_wanted(&reading.belief, &reading.view.task, &reading.track) {
        Some(_) => format!("Shoot again here: {n} should show whether it is within {tolerance}"),
        None => format!("Shoot again here: {n} will show better where the tear is"),
    }
}
