//! After paper: what a stage of proof found, the move it suggests and what
//! that rests on; said alike by console, command line, JSON and sheet.

mod face;
mod found;
mod refused;
mod stage;
mod suggestion;

pub(crate) use face::{impact, length};
pub(crate) use found::NOT_SHOT;
pub use found::found;
use found::more;
use stage::instructions;
pub(crate) use stage::kind;
pub use stage::title;
pub(crate) use suggestion::no_move;
pub(crate) use suggestion::typed;
pub use suggestion::{suggestion, why};

use super::step::{Fact, Weight, fact};
use super::{BEFORE_EVERY_SHOT, put_back_command, step, target};
use crate::advice::Analysis;
use crate::gear::Card;
use crate::proof::{Found, Stage, StageState, StageVerdict, Suggestion, Summary};
use crate::session::Timeline;
use crate::step::State;
use crate::units::System;

/// What a move made in proof, or other work on the bow, asks of the paper.
pub const PAPER_CHECK: &str =
    "The bow was changed in proof: one fletched shot through paper first.";
/// What is said while there is nothing to prove yet.
pub(crate) const PAPER_FIRST: &str =
    "Paper is not within tolerance yet: what is shot here is recorded, but paper comes first.";

/// What comes after a finished paper tune: the stage of proof that is next.
pub(crate) fn comes_next(timeline: &Timeline, analysis: &Analysis) -> String {
    if crate::proof::paper_check_due(timeline) {
        return PAPER_CHECK.trim_end_matches('.').into();
    }
    match crate::proof::comes_next(timeline, analysis) {
        Some(stage @ (Stage::Levels | Stage::Groups)) => format!("{} come next", title(stage)),
        Some(stage) => format!("{} comes next", title(stage)),
        None => "Every stage of proof is settled: the tuning sheet comes next".into(),
    }
}

/// How a stage stands in a list, where it need not be shot.
pub const fn state(state: &StageState) -> &'static str {
    match state.verdict.status {
        State::Open if state.optional => "optional",
        State::Open if !state.usual => "-",
        other => step::state(other),
    }
}

/// A stage as the list names it: what it waits for stands with it.
pub(crate) fn listed(state: &StageState) -> String {
    let name = title(state.verdict.stage);
    match (state.verdict.status, &state.verdict.found) {
        (State::LevelsFirst, _) => format!("{name}: levels first"),
        (_, Found::RiserFrontUnknown) => format!("{name}: riser front first"),
        _ => name.into(),
    }
}

/// How a stage stands and why, and the moves it suggests, each said by `say`.
pub(crate) fn stands(
    v: &StageVerdict,
    why: &str,
    say: impl Fn(&Suggestion) -> String,
) -> Vec<Fact> {
    let more = v.more_wanted().map(more);
    let why = more.map_or_else(|| why.to_owned(), |more| format!("{why} {more}"));
    let mut all = vec![fact(step::state(v.status), why).weighs(Weight::Stands(v.status))];
    all.extend(v.suggestion().map(|found| fact("Suggested", say(found))));
    let back = v.put_back.as_ref().filter(|back| !back.is_there());
    all.extend(back.map(|back| {
        let (to, command) = (target(back.target), put_back_command(back));
        fact("Suggested", format!("back to {to}: {command}"))
    }));
    all
}

/// How a stage is shot safely, and what it rests on.
pub(crate) fn how(stage: Stage, card: &Card, system: System) -> Vec<Fact> {
    let told = instructions(stage, card, system);
    let mut all = vec![fact("Safety", told.safety).weighs(Weight::Careful)];
    if stage != Stage::Levels {
        all.push(fact("Before each shot", BEFORE_EVERY_SHOT));
    }
    all.extend([
        fact("How", told.how),
        fact("Exclude first", told.confound),
        fact("Standing", told.standing).weighs(Weight::Quiet),
    ]);
    all
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
