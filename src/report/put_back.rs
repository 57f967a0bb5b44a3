//! The put-back sheet: where things stand, the moves back to the start, every
//! setting, and what was measured.

use super::document::{Block, Cell, Document};
use super::first;
use crate::restore::{self, PutBack};
use crate::session::Timeline;
use crate::setup::{self, Measure};
use crate::step::State;
use crate::units::System;
use crate::units::visible;
use crate::words;

/// Where every adjuster stands, from the start, and its calipers.
pub(super) fn standing(timeline: &Timeline, system: System) -> Block {
    let row = |at: &restore::Difference| -> Vec<Cell> {
        let calipers = at.readings.map_or(String::new(), |(start, now)| {
            let (start, now) = (words::reading(start, system), words::reading(now, system));
            format!("{start} -> {now}")
        });
        vec![
            at.adjuster.spoken().into(),
            words::stands(at, system).into(),
            calipers.into(),
        ]
    };
    let rows = restore::differences(timeline).iter().map(row).collect();
    Block::table(
        &["Adjuster", "Now, from the start", "Calipers, start -> now"],
        rows,
    )
}

/// The sheet from which a bow is put back.
pub fn put_back_sheet(timeline: &Timeline, system: System) -> Document {
    let back = restore::to_the_start(timeline);
    let settings = timeline.settings.iter().map(|setting| {
        let place = words::place(timeline, &setting.positions, system);
        vec![Cell::from(setting.number.to_string()), place.into()]
    });
    Document::new(format!(
        "Put-back sheet: {}",
        visible(&timeline.card.title())
    ))
    .after(first::stop(timeline))
    .with(
        "Where things stand, seen by the shooter",
        vec![standing(timeline, system)],
    )
    .with("To put it back to the start", steps(&back, system))
    .with(
        "Settings of this session",
        vec![Block::table(&["Setting", "Where"], settings.collect())],
    )
    .with("Measured before paper", measured(timeline))
    .with(
        "Last",
        vec![Block::Text(
            "Finish every move from the same side as before, and look at the witness marks.".into(),
        )],
    )
}

/// Only the moves that put a bow back.
pub(crate) fn put_back_page(timeline: &Timeline, back: &PutBack, system: System) -> Document {
    let title = format!("To put it back to {}", words::target(back.target));
    Document::new(title)
        .after(first::stop(timeline))
        .with("", steps(back, system))
}

fn steps(back: &PutBack, system: System) -> Vec<Block> {
    vec![Block::Lines(words::put_back(back, system))]
}

fn measured(timeline: &Timeline) -> Vec<Block> {
    let rows: Vec<Vec<Cell>> = setup::checklist(timeline)
        .iter()
        .filter(|s| s.entry.is_some())
        .map(|s| {
            let value = match s.state {
                State::Again(why) => {
                    let value = s.value.as_deref().unwrap_or("");
                    format!("{value} ({})", words::step::since(why))
                }
                // Looked at: its state says all.
                _ if s.item.measure == Measure::Look => String::new(),
                _ => s.value.clone().unwrap_or_default(),
            };
            vec![
                words::setup::title(s.item.id).into(),
                Cell::of(s.state),
                visible(&value).into(),
            ]
        })
        .collect();
    if rows.is_empty() {
        return Vec::new();
    }
    vec![Block::table(&["Item", "", "Measured"], rows)]
}
