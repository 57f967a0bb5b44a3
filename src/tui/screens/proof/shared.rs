//! What both pages after paper say: what stands in the way of proof, which
//! stage comes next, a stage's verdict with its odds and the move it suggests.

use crate::actions::Action;
use crate::advice;
use crate::proof::{self, Stage, StageState, StageVerdict};
use crate::question::{Answer, Question, Test};
use crate::session::Event;
use crate::tui::draw::paint::Row;
use crate::tui::draw::steps;
use crate::tui::model::Model;
use crate::units::System;
use crate::words::pages::proof as page;
use crate::words::{self, proof as said};

/// A stage answered with a key: the entry, and what is said of it. Levels are
/// in order or not; any stage can be left out.
pub(crate) fn answered(stage: Stage, action: Action) -> Option<(Event, String)> {
    let levels = |result| Event::answer(Question::Test(Test::Levels), result);
    Some(match (action, stage) {
        (Action::InOrder, Stage::Levels) => (levels(Answer::Ok), "levels: ok".into()),
        (Action::NotInOrder, Stage::Levels) => {
            (levels(Answer::Off), "levels: OFF. Level it first".into())
        }
        (Action::LeaveOut, _) => (proof::skip(stage), page::left_out(said::title(stage))),
        _ => return None,
    })
}

/// How each stage stands.
pub fn stages(model: &Model) -> Vec<StageState> {
    proof::stages(model.timeline(), &model.analysis)
}

/// The stage that comes next.
pub fn next_stage(model: &Model) -> Option<Stage> {
    let list = stages(model);
    Some(proof::next_stage(&list)?.verdict.stage)
}

/// What stands in the way of proof, if anything does.
pub fn first(model: &Model) -> Option<String> {
    if let Some(stop) = advice::stopped(model.timeline()) {
        let why = stop.findings.first();
        let why = why.map_or(String::new(), |found| words::say(found, model.system));
        return Some(format!("{} {why}", words::stop_line(&stop)));
    }
    let list = model.range_first();
    let paper = if proof::paper_check_due(model.timeline()) {
        Some(format!("{} (Esc, then the tear)", said::PAPER_CHECK))
    } else if proof::ready(&model.analysis) {
        None
    } else {
        Some(said::PAPER_FIRST.into())
    };
    let all: Vec<String> = list.into_iter().chain(paper).collect();
    (!all.is_empty()).then(|| all.join(" "))
}

/// How a stage stands and why, and the moves it suggests.
pub(crate) fn about_verdict(v: &StageVerdict, why: &str, system: System, width: u16) -> Vec<Row> {
    let facts = said::stands(v, why, |found| said::suggestion(found, system));
    steps::told(&facts, width)
}
