//! What the pages after paper say of their lines and of what is done there.

use super::super::proof::{length, title};
use super::super::{count, step};
use crate::proof::{FaceUnit, MOST, Stage};
use crate::step::State;

/// A stage that need not be shot, and may be worth it.
pub(crate) const OPTIONAL: &str =
    "Optional: worth it where groups open up for no reason; nothing waits for it.";
/// A stage that this kind of bow is not asked for.
pub(crate) const NOT_ASKED: &str = "Not asked of this kind of bow; it can be shot all the same.";
/// The line that takes the move of a stage to the bench.
pub(crate) const TAKE_MOVE: &str = "take the suggested move to the bench";
/// The line that takes a put-back to the bench.
pub(crate) const TAKE_BACK: &str = "take the put-back to the bench";
/// Work for a stage is on disk.
pub(crate) const WORK_DONE: &str = "recorded; what was shot before it no longer counts. One fletched shot through paper, then both again";
/// Nothing is marked on the face.
pub(crate) const NO_MARK: &str = "nothing is marked yet";
/// What a faint ring on the face is.
pub(crate) const FAINT_RING: &str = "A faint ring holds a group's true centre 9 times in 10.";

/// What a stage is opened or answered with.
pub(crate) const fn keys(stage: Stage) -> &'static str {
    match stage {
        Stage::Levels => "y level, x not level, s leaves it out",
        _ => "Enter: how to shoot it safely, and its hits",
    }
}

/// The line that says that the work a stage asks for was done.
pub(crate) const fn work(stage: Stage) -> &'static str {
    match stage {
        Stage::Creep => "the cable is twisted: record it, then shoot both again",
        _ => "the rest is moved: record it, then shoot both again",
    }
}

/// What to do on the line of a group.
pub(crate) fn type_hits(face: &str) -> String {
    format!("type where they hit, or {face} marks them")
}

/// The line of the distance.
pub(crate) fn distance(text: &str) -> String {
    format!("distance: {text} (Enter changes it)")
}

/// The line that goes on to the next stage.
pub(crate) fn on_to(next: Stage) -> String {
    format!("this stage is proved: on to {}", title(next))
}

/// Under hits that are not begun yet.
pub(crate) fn hits(unit: FaceUnit) -> String {
    format!(
        "3 left 2 high; 1 right; spot, in {}; one after another with ;",
        unit.unit()
    )
}

/// A stage that is ok is not left out by a slip.
pub(crate) fn ok_already(stage: Stage) -> String {
    format!("{} is ok already: nothing to leave out", title(stage))
}

/// A stage was left out.
pub(crate) fn left_out(name: &str) -> String {
    format!("{name}: left out, on the record")
}

/// A group is on disk: what it was, and how its stage stands now.
pub(crate) fn recorded(group: &str, stage: Stage, state: State) -> String {
    let state = match state {
        State::ShootMore => "more to shoot",
        other => step::state(other),
    };
    format!("recorded: {group}. {}: {state}", title(stage))
}

/// After a group: its stage suggests a move.
pub(crate) const MOVE_SUGGESTED: &str = ". A move is suggested; its line takes it to the bench";

/// After a group: nothing is left to prove.
pub(crate) fn all_proved(back: &str, sheet: &str) -> String {
    format!(". All stages are proved or left out: {back} twice, then {sheet} for the sheet")
}

/// A group is as large as a group may be.
pub(crate) fn full_group() -> String {
    format!("a group has at most {MOST} arrows; record these")
}

/// Leaving a face whose marks are not recorded.
pub(crate) fn marks_stay(marks: usize, keep: &str, back: &str) -> String {
    format!(
        "{} not recorded: {keep} records, {back} once more throws away",
        count(marks, "mark")
    )
}

/// How the mark on a face is moved.
pub(crate) fn how_to_mark(unit: FaceUnit) -> String {
    let step = match unit {
        FaceUnit::Cm => "half a centimetre",
        FaceUnit::Inch => "a quarter of an inch",
    };
    format!(
        "Seen from the shooting line, + is the spot. Digits, then an arrow, go so many {}; an arrow alone goes {step}.",
        unit.unit()
    )
}

/// What the ring on a face is.
pub(crate) fn ring(radius_mm: f64, unit: FaceUnit) -> String {
    format!("Ring of {}: what is allowed.", length(radius_mm, unit))
}
