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

use crate::proof::{StageState, Summary};
use crate::step::State;

/// What a move made in proof, or other work on the bow, asks of the paper.
pub const PAPER_CHECK: &str =
    "The bow was changed in proof: one fletched shot through paper first.";
/// What is said while there is nothing to prove yet.
pub(crate) const PAPER_FIRST: &str =
    "Paper is not within tolerance yet: what is shot here is recorded, but paper comes first.";

/// How a stage stands in a list, where it need not be shot.
pub const fn state(state: &StageState) -> &'static str {
    match state.verdict.status {
        State::Open if state.optional => "optional",
        State::Open if !state.usual => "-",
        other => super::step::state(other),
    }
}

/// A stage as the list names it: what it waits for stands with it.
pub(crate) fn listed(state: &StageState) -> String {
    let name = title(state.verdict.stage);
    match state.verdict.status {
        State::LevelsFirst => format!("{name}: levels first"),
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
