//! The stages of proof as a page, and one stage.

use super::document::{Block, Cell, Document};
use super::first;
use crate::advice::{self, Analysis};
use crate::proof::{self, Found, Stage, StageState, StageVerdict};
use crate::range::Today;
use crate::session::Timeline;
use crate::step::State;
use crate::units::visible;
use crate::words::proof as said;
use crate::words::step::{Fact, in_a_cell};

/// Every stage as it stands, and how the next one is shot.
pub(crate) fn proof_page(timeline: &Timeline, analysis: &Analysis, today: Today) -> Document {
    let all = proof::stages(timeline, analysis);
    let stopped = first::is_stopped(timeline);
    let listed = all.iter().filter(|s| s.is_listed());
    let rows = listed.map(|s| row(s, timeline, stopped)).collect();
    let title = format!("Proof at distance: {}", visible(&timeline.card.title()));
    let page = Document::new(title)
        .after(first::before_a_shot(timeline, today))
        .with("", vec![Block::table(&["", "Stage", "What it says"], rows)]);
    if stopped {
        return page;
    }
    let before = before(timeline, analysis);
    let before = (!before.is_empty()).then_some(Block::Lines(before));
    let page = page.with("First", before.into_iter().collect());
    match proof::next_stage(&all) {
        Some(next) => page.with(
            &format!("next: {}", name(next.verdict.stage)),
            how(timeline, &next.verdict),
        ),
        None => page.with(
            "next",
            vec![Block::Text(
                "All stages are proved or left out: tearbench report FILE writes the sheet.".into(),
            )],
        ),
    }
}

/// What comes before any shot of proof.
fn before(timeline: &Timeline, analysis: &Analysis) -> Vec<String> {
    let paper_first = (!proof::ready(analysis)).then(|| said::PAPER_FIRST.to_owned());
    let check = proof::paper_check_due(timeline).then(|| said::PAPER_CHECK.to_owned());
    [paper_first, check].into_iter().flatten().collect()
}

/// One stage; how it is shot only where nothing forbids a shot.
pub(crate) fn stage_page(timeline: &Timeline, stage: Stage, today: Today) -> Document {
    let page = Document::new(name(stage)).after(first::before_a_shot(timeline, today));
    if first::is_stopped(timeline) {
        let none = format!("{}: nothing is shot before that.", name(stage));
        return page.with("", vec![Block::Text(none)]);
    }
    let analysis = advice::analyse(timeline, today);
    let verdict = proof::assess(timeline, &analysis, stage);
    page.with("", how(timeline, &verdict))
}

/// What a stage found, as it is said after a group of it was recorded.
pub(crate) fn stage_lines(timeline: &Timeline, verdict: &StageVerdict) -> Vec<String> {
    let found = said::found(verdict, &timeline.card, timeline.card.paper.system);
    let facts = said::stands(verdict, &found, said::typed);
    facts.iter().map(Fact::line).collect()
}

fn name(stage: Stage) -> String {
    format!("{} ({})", said::title(stage), stage.id())
}

fn row(s: &StageState, timeline: &Timeline, stopped: bool) -> Vec<Cell> {
    let v = &s.verdict;
    // Before it is shot its text is how it is shot.
    let found = || visible(&said::found(v, &timeline.card, timeline.card.paper.system));
    let text = match v.status {
        State::Open | State::LevelsFirst => said::listed(s),
        _ if stopped => found(),
        _ => in_a_cell(&said::stands(v, &found(), said::typed)),
    };
    vec![
        Cell::state(said::state(s), v.status.is_alarm()),
        v.stage.id().into(),
        text.into(),
    ]
}

fn how(timeline: &Timeline, verdict: &StageVerdict) -> Vec<Block> {
    let mut blocks = Vec::new();
    if verdict.found != Found::NotShot {
        blocks.extend(stage_lines(timeline, verdict).into_iter().map(Block::Text));
    }
    blocks.push(Block::facts(said::how(
        verdict.stage,
        &timeline.card,
        timeline.card.paper.system,
    )));
    blocks
}
