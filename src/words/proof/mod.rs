//! After paper: what a stage of proof found, the move it suggests and what
//! that rests on; said alike by console, command line, JSON and sheet.

mod face;
mod found;
mod stage;
mod suggestion;

pub(crate) use face::{impact, length};
pub use found::found;
pub(crate) use found::{NOT_SHOT, more};
pub use stage::title;
pub(crate) use stage::{instructions, kind};
pub(crate) use suggestion::no_move;
pub use suggestion::{suggestion, why};

use crate::proof::{StageState, StageStatus, Summary};

/// What a move made in proof, or other work on the bow, asks of the paper.
pub const PAPER_CHECK: &str =
    "The bow was changed in proof: one fletched shot through paper first.";
/// What is said while there is nothing to prove yet.
pub(crate) const PAPER_FIRST: &str =
    "Paper is not within tolerance yet: what is shot here is recorded, but paper comes first.";

/// How a stage stands, in a word or two.
pub const fn status(status: StageStatus) -> &'static str {
    match status {
        StageStatus::Open => "to do",
        StageStatus::NotYet | StageStatus::LevelsFirst => "not yet",
        StageStatus::ShootMore => "shoot",
        StageStatus::Passed => "ok",
        StageStatus::Off => "OFF",
        StageStatus::Skipped => "skipped",
    }
}

/// The same for a list, where a stage need not be shot.
pub const fn state(state: &StageState) -> &'static str {
    match state.verdict.status {
        StageStatus::Open if state.optional => "optional",
        StageStatus::Open if !state.usual => "-",
        other => status(other),
    }
}

/// A stage as the list names it: what it waits for stands with it.
pub(crate) fn listed(state: &StageState) -> String {
    let name = title(state.verdict.stage);
    match state.verdict.status {
        StageStatus::LevelsFirst => format!("{name}: levels first"),
        _ => name.into(),
    }
}

/// How far the proof went: `2 of 8 stages ok, 1 left out`.
pub(crate) fn summary(summary: &Summary) -> String {
    let mut text = format!("{} of {} stages ok", summary.ok, summary.usual);
    for (count, word) in [(summary.off, "OFF"), (summary.left_out, "left out")] {
        if count > 0 {
            text.push_str(&format!(", {count} {word}"));
        }
    }
    text
}

#[cfg(test)]
mod tests;
