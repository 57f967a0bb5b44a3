//! Consistency: whether repeat shots agree well enough to tell anything.
//!
//! Three shots cannot tell a fair archer from a poor one, so the answer has
//! three values and accumulates. It never blames the archer alone: scatter
//! can be a loose part or something touching the arrow.

use super::{Check, Status};
use crate::belief::{Axis, Drift};
use crate::session::Timeline;
use crate::tuner::Track;
use crate::tuner::gates::{Consistency, Gate};
use crate::units::System;
use crate::words;

/// Shots in one sitting after which the archer should rest (common practice,
/// no source); juniors half of it.
pub const SITTING: usize = 30;
/// The same for juniors.
pub const JUNIOR_SITTING: usize = 15;
/// A pause this long starts a new sitting, minutes.
const PAUSE_MINUTES: i64 = 60;

/// Shots since the last long pause.
pub fn sitting(timeline: &Timeline) -> usize {
    let mut count = 0;
    let mut later = None;
    for shot in timeline.shots.iter().rev() {
        if later.is_some_and(|t: chrono::DateTime<_>| (t - shot.at).num_minutes() > PAUSE_MINUTES) {
            break;
        }
        later = Some(shot.at);
        count += 1;
    }
    count
}

/// Shots to be within `half` mm of the true mean with 90 % odds when single
/// shots scatter by `sd` on each axis: n = 4.605 sd^2 / half^2, the 90 % point
/// of chi squared with two degrees (-2 ln 0.1).
pub fn shots_to_prove(sd: f64, half: f64) -> u32 {
    (4.605_17 * sd * sd / (half * half))
        .ceil()
        .clamp(1.0, 999.0) as u32
}

/// Whether a drift is worth mentioning: no accident, and more than a
/// millimetre over five shots.
pub fn drifts(drift: Option<Drift>) -> bool {
    drift.is_some_and(|d| d.probability >= 0.98 && d.per_shot.abs() >= 0.2)
}

/// The consistency check.
pub fn check(found: &Consistency, track: &Track, tolerance: f64, system: System) -> Check {
    let side = match found.axis {
        Axis::Right => "sideways",
        Axis::Up => "up and down",
    };
    let (figure, limit) = (system.tear(found.figure), system.tear(found.limit));
    let Some(first) = track.repeated else {
        return Check::plain(Status::Pending, not_repeated(track.shots));
    };
    let basis = basis(track);
    let pair = track.repeats == 1;
    let apart = system.tear(first.apart);
    let (status, text) = match found.gate {
        Gate::SoFar if pair => (
            Status::Borderline,
            format!("{basis} agree within {apart} (limit {limit}): ok so far"),
        ),
        Gate::Wait if pair && first.apart > found.limit => (
            Status::Pending,
            format!("{basis} differ by {apart} (limit {limit}): a third shot will tell"),
        ),
        Gate::Pass if found.figure > 1.2 * tolerance => {
            let n = shots_to_prove(found.figure, tolerance);
            let easy = shots_to_prove(found.figure, 2.0 * tolerance);
            let text = format!(
                "{basis} scatter about {figure} {side}, normal for this release; to prove {} takes about {n} shots, {} about {easy}",
                system.tear(tolerance),
                system.tear(2.0 * tolerance)
            );
            (Status::Borderline, text)
        }
        Gate::Pass => (
            Status::Pass,
            format!("{basis} scatter about {figure} {side} (limit {limit})"),
        ),
        Gate::SoFar => (
            Status::Borderline,
            format!(
                "{basis} scatter about {figure} {side} (limit {limit}): close to it, go on with care"
            ),
        ),
        Gate::Wait => (
            Status::Pending,
            format!(
                "{basis} scatter about {figure} {side} (limit {limit}): chance {} that it is over, more shots will tell",
                words::odds(found.probability_over)
            ),
        ),
        Gate::Bent => (
            Status::Pending,
            format!(
                "{basis} agree better than the tears at different settings follow one line: the response may be bent, or the shots scatter. Two more at one setting will tell"
            ),
        ),
        Gate::Refuse => (
            Status::Fail,
            format!(
                "{basis} scatter about {figure} {side} (limit {limit}). It may be the hold, a loose part, or something touching the arrow"
            ),
        ),
    };
    let value = if pair { first.apart } else { found.figure };
    Check::measured(status, text, value, found.limit, "mm")
}

/// Nothing was shot twice at one setting: shots at different settings show
/// what the moves did, not whether they repeat.
fn not_repeated(shots: usize) -> &'static str {
    match shots {
        0 => "nothing shot yet",
        1 => "1 shot, not repeated yet: shoot again at this setting",
        _ => "no setting was shot twice yet: shoot again at this setting",
    }
}

/// What the check rests on: `2 shots at this setting`.
fn basis(track: &Track) -> String {
    let shots = words::count(track.shots_repeated, "shot");
    match track.settings_repeated {
        1 if track.repeated.is_some_and(|r| r.here) => format!("{shots} at this setting"),
        1 => format!("{shots} at an earlier setting"),
        n => format!("{shots} repeated at {n} settings"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The worked rows of shots for a 90 % mean-error radius, known scatter:
    /// h = 6: 2, 4, 11; h = 4: 3, 8, 24; h = 3: 5, 13, 42 for sd 3, 5, 9.
    #[test]
    fn shots_to_prove_a_tolerance_follow_chi_squared() {
        let row = |h: f64| [3.0, 5.0, 9.0].map(|sd| shots_to_prove(sd, h));
        assert_eq!(row(6.0), [2, 4, 11]);
        assert_eq!(row(4.0), [3, 8, 24]);
        assert_eq!(row(3.0), [5, 13, 42]);
    }
}
