//! What was shot, moved, checked and proved.

use std::collections::BTreeMap;

use super::document::{Block, Cell, Section};
use super::holes::{HoleMark, HolesFigure};
use super::options::Options;
use super::plot::{PlotFigure, PlotPoint};
use super::put_back;
use crate::advice::{Analysis, running_record};
use crate::gear::Card;
use crate::proof;
use crate::question::Question;
use crate::restore;
use crate::session::{Shooter, Timeline};
use crate::setup::{self, ItemState, Measure};
use crate::step::State;
use crate::tear::Tear;
use crate::units::{System, visible};
use crate::words;

/// The sections of the record, in order.
pub(super) fn sections(
    timeline: &Timeline,
    analysis: &Analysis,
    options: &Options,
) -> Vec<Section> {
    vec![
        holes(timeline, options),
        convergence(timeline, options),
        changes(timeline, options),
        restoring(timeline, options),
        checklist(timeline, options),
        proofs(timeline, analysis, options),
        answers(timeline),
    ]
}

/// Every hole as drawn: tear, arrow, whether bad or bare.
pub(super) fn marks(timeline: &Timeline) -> Vec<HoleMark> {
    timeline
        .shots
        .iter()
        .enumerate()
        .map(|(i, s)| HoleMark {
            number: i + 1,
            setting: timeline.settings[s.setting].number,
            tear: s.shot.tear(),
            bare: s.shot.bare,
            bad: s.shot.called_bad,
        })
        .collect()
}

fn holes(timeline: &Timeline, options: &Options) -> Section {
    if timeline.shots.is_empty() {
        return Section::new("Holes", Vec::new());
    }
    let figure = HolesFigure::new(
        marks(timeline),
        places(timeline, options),
        timeline.card.arrow.diameter.mm(),
        (timeline.card.paper.aim, timeline.card.paper.tolerance),
        options.system,
    );
    Section::new("Holes, seen by the shooter", vec![Block::Holes(figure)])
}

/// Where the adjusters stood at each setting, by its number.
fn places(timeline: &Timeline, options: &Options) -> Vec<(u32, String)> {
    let place = |s: &crate::session::Setting| {
        let place = words::place(timeline, &s.positions, options.system);
        (s.number, place)
    };
    timeline.settings.iter().map(place).collect()
}

fn convergence(timeline: &Timeline, options: &Options) -> Section {
    if timeline.shots.len() < 2 {
        return Section::new("Convergence", Vec::new());
    }
    let record = running_record(timeline);
    let aim = timeline.card.paper.aim;
    let points: Vec<PlotPoint> = timeline
        .shots
        .iter()
        .enumerate()
        .map(|(i, s)| PlotPoint {
            number: i + 1,
            size: Tear::new(s.shot.right - aim.0, s.shot.up - aim.1).length(),
            setting: timeline.settings[s.setting].number,
            bad: s.shot.called_bad,
            band: record.get(i).copied().flatten().map(|t| t.band),
        })
        .collect();
    let figure = PlotFigure {
        points,
        tolerance: timeline.card.paper.tolerance,
        system: options.system,
    };
    let title = format!("Tear size shot by shot ({})", options.system.unit());
    Section::new(&title, vec![Block::Plot(figure)])
}

fn changes(timeline: &Timeline, options: &Options) -> Section {
    if timeline.moves.is_empty() {
        return Section::new(
            "What was changed",
            vec![Block::Text("Nothing was moved.".into())],
        );
    }
    // Looked up once: there may be as many settings as moves.
    let settings = timeline.settings.iter();
    let reached: BTreeMap<u32, u32> = settings
        .filter_map(|s| Some((s.by_move?, s.number)))
        .collect();
    let rows = timeline
        .moves
        .iter()
        .map(|m| {
            let reached = reached
                .get(&m.entry)
                .map_or(String::new(), |number| format!(" -> setting {number}"));
            let steps: Vec<String> = m
                .steps
                .iter()
                .map(|s| words::step_headline(s, &timeline.card, options.system))
                .collect();
            vec![
                Cell::from(format!("after shot {}", m.shots_before)),
                format!("{}{reached}", steps.join("; ")).into(),
            ]
        })
        .collect();
    Section::new(
        "What was changed",
        vec![Block::table(
            &["When", "Move, and the setting it reached"],
            rows,
        )],
    )
}

fn restoring(timeline: &Timeline, options: &Options) -> Section {
    let mut blocks = vec![put_back::standing(timeline, options.system)];
    let back = restore::to_the_start(timeline);
    if !back.is_there() {
        blocks.push(Block::Text("Back to the start:".into()));
        blocks.push(Block::Lines(words::put_back(&back, options.system)));
    }
    Section::new("Settings, and how to put them back", blocks)
}

fn checklist(timeline: &Timeline, options: &Options) -> Section {
    let list = setup::checklist(timeline);
    if list.iter().all(|s| s.state == State::Open) {
        let none = "The checklist before paper was not recorded.";
        return Section::new("Before paper", vec![Block::Text(none.into())]);
    }
    let by_eye = |s: &&ItemState| s.state == State::Ok && s.item.measure == Measure::Look;
    let rows: Vec<Vec<Cell>> = list
        .iter()
        .filter(|s| s.state != State::Open && !by_eye(s))
        .map(|s| checked(s, &timeline.card, options))
        .collect();
    let mut blocks = vec![Block::Text(words::setup::summary(&setup::summary(&list)))];
    if !rows.is_empty() {
        blocks.push(Block::table(&["Item", "", "Measured"], rows));
    }
    let fine: Vec<&str> = list
        .iter()
        .filter(by_eye)
        .map(|s| words::setup::title(s.item.id))
        .collect();
    if !fine.is_empty() {
        blocks.push(Block::Text(format!("In order: {}.", fine.join("; "))));
    }
    let left: Vec<&str> = list
        .iter()
        .filter(|s| s.state == State::Open)
        .map(|s| words::setup::title(s.item.id))
        .collect();
    if !left.is_empty() {
        blocks.push(Block::Text(format!("Not done: {}.", left.join("; "))));
    }
    Section::new("Before paper", blocks)
}

/// One item as a row: the measured value as entered, and why it stands so.
fn checked(s: &ItemState, card: &Card, options: &Options) -> Vec<Cell> {
    let value = visible(s.value.as_deref().unwrap_or(""));
    let note = match s.state {
        State::Again(why) => words::step::since(why).into(),
        _ => s.note.as_ref().map_or(String::new(), |n| {
            visible(&words::setup::judged(n, card, options.system))
        }),
    };
    let measured = match (value.as_str(), note.as_str()) {
        ("", note) => note.to_owned(),
        (value, "") => value.to_owned(),
        // A whole dozen is in its summary.
        (value, note) if value.chars().count() > 32 || note.starts_with(value) => note.to_owned(),
        (value, note) => format!("{value}: {note}"),
    };
    vec![
        words::setup::title(s.item.id).into(),
        Cell::of(s.state),
        measured.into(),
    ]
}

/// A stage as a row, with the move it suggests.
fn proved(state: &proof::StageState, card: &Card, system: System) -> Vec<Cell> {
    let v = &state.verdict;
    let why = visible(&words::proof::found(v, card, system));
    let facts = words::proof::stands(v, &why, |m| words::proof::suggestion(m, system));
    vec![
        words::proof::title(v.stage).into(),
        Cell::of(v.status),
        words::step::in_a_cell(&facts).into(),
    ]
}

fn proofs(timeline: &Timeline, analysis: &Analysis, options: &Options) -> Section {
    if timeline.groups.is_empty() {
        return Section::new(
            "Proof at distance",
            vec![Block::Text(
                "Not proved at distance yet: paper is a start, not the proof.".into(),
            )],
        );
    }
    let list = proof::stages(timeline, analysis);
    let rows = list
        .iter()
        .filter(|s| !matches!(s.verdict.status, State::Open | State::LevelsFirst))
        .filter(|s| s.is_listed())
        .map(|s| proved(s, &timeline.card, options.system))
        .collect();
    let mut blocks = vec![Block::table(&["Proof", "", "Why"], rows)];
    if proof::paper_check_due(timeline) {
        blocks.push(Block::Text(words::proof::PAPER_CHECK.into()));
    }
    Section::new("Proof at distance", blocks)
}

fn answers(timeline: &Timeline) -> Section {
    let said: Vec<String> = timeline
        .answers
        .iter()
        // Stages of proof and ends of paths are no tests, and stand elsewhere.
        .filter(|a| !matches!(a.test.known(), Some(Question::Stage(_) | Question::Path(_))))
        .filter(|a| !setup::stands_on_the_list(timeline, a))
        .map(|a| {
            let seen = a
                .detail
                .as_deref()
                .map_or(String::new(), |d| format!(" ({})", visible(d)));
            let (what, result) = words::answered(&a.test, &a.result, &timeline.card);
            format!("{}: {}{seen}", visible(&what), visible(&result))
        })
        .collect();
    if said.is_empty() {
        return Section::new("Tests answered", Vec::new());
    }
    Section::new(
        "Tests answered",
        vec![Block::Text(format!("{}.", said.join("; ")))],
    )
}

/// Who shot, for the hole list: nothing for the owner.
pub(super) fn by(shooter: Shooter) -> &'static str {
    match shooter {
        Shooter::Owner => "",
        Shooter::Technician => "technician",
        Shooter::Machine => "machine",
    }
}
