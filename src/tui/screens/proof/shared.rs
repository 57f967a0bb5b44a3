//! What both pages after paper say: what stands in the way of proof, which
//! stage comes next, a stage's verdict with its odds and the move it suggests.

use crate::actions::Action;
use crate::look::Role;
use crate::proof::{self, Stage, StageState, StageStatus, StageVerdict};
use crate::question::{Answer, Question, Test};
use crate::session::Event;
use crate::tui::draw::paint::{Row, flow, wrap};
use crate::tui::model::Model;
use crate::units::System;
use crate::words::{self, proof as said};
use crate::{advice, range};

/// The levels answered in one word.
pub(crate) fn levels(ok: bool) -> Event {
    Event::Answer {
        test: Question::Test(Test::Levels).into(),
        result: if ok { Answer::Ok } else { Answer::Off }.into(),
        detail: None,
    }
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

/// The role a status is written in.
pub(crate) const fn status_role(status: StageStatus) -> Role {
    match status {
        StageStatus::Passed => Role::Good,
        StageStatus::Off => Role::Bad,
        StageStatus::ShootMore | StageStatus::LevelsFirst | StageStatus::NotYet => Role::Warn,
        StageStatus::Open | StageStatus::Skipped => Role::Faint,
    }
}

/// What stands in the way of proof, if anything does.
pub fn first(model: &Model) -> Option<String> {
    if let Some(stop) = advice::stopped(model.timeline()) {
        let why = stop.findings.first();
        let why = why.map_or(String::new(), |found| words::say(found, model.system));
        return Some(format!("{} {why}", words::stop_line(&stop)));
    }
    let list = range::due(model.timeline(), model.today());
    let list = list.map(|due| {
        format!(
            "{} (Esc, then {})",
            crate::words::range_due(due),
            model.by_name(Action::Range)
        )
    });
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

/// The verdict with why, and the move it suggests.
pub(crate) fn about_verdict(v: &StageVerdict, why: &str, system: System, width: u16) -> Vec<Row> {
    let mut rows = flow(
        &[
            (
                &format!("{}: ", said::status(v.status)),
                status_role(v.status),
            ),
            (why, Role::Strong),
        ],
        width,
        2,
    );
    if let Some(more) = v.more_wanted() {
        rows.extend(wrap(&said::more(more), Role::Strong, width, 2));
    }
    if let Some(found) = v.suggestion() {
        let text = said::suggestion(found, system);
        rows.extend(flow(
            &[("Suggested: ", Role::Strong), (&text, Role::Text)],
            width,
            2,
        ));
    }
    if let Some(back) = v.put_back.as_ref().filter(|b| !b.is_there()) {
        let text = format!(
            "back to {}: {}",
            words::target(back.target),
            words::put_back_command(back)
        );
        rows.extend(flow(
            &[("Suggested: ", Role::Strong), (&text, Role::Text)],
            width,
            2,
        ));
    }
    rows
}
