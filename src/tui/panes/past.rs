//! What the moves did and the tail of the log: what a pane with room to
//! spare shows of the way here.
//!
//! ```text
//! | WHAT THE MOVES DID            |
//! | 1 UP 3.25    7 high  -> 5 high |
//! | LOG                           |
//! | 16:07  shot 8 left, 2 high    |
//! ```

use unicode_width::UnicodeWidthStr;

use crate::look::{Glyphs, Role};
use crate::session::{Event, Timeline};
use crate::tear::Tear;
use crate::tui::draw::paint::{Row, row, wrap};
use crate::tui::model::Model;
use crate::tui::wording;
use crate::words::order::{self, Order};

/// Moves and entries shown, at least and at most.
const MOVES: (usize, usize) = (3, 8);
const ENTRIES: (usize, usize) = (3, 10);
/// Rows a chart needs above them.
const CHART: u16 = 16;
/// Columns of a time before an entry.
const TIME: u16 = 7;

/// Both lists, as long as the height allows.
pub(crate) fn rows(model: &Model, glyphs: &Glyphs, width: u16, height: u16) -> Vec<Row> {
    let spare = usize::from(height.saturating_sub(CHART + 4));
    let moves = moves(model, glyphs);
    let entries = entries(model, width);
    let most = (spare / 2).clamp(MOVES.0, MOVES.1).min(moves.len());
    let mut left = spare.saturating_sub(most).clamp(ENTRIES.0, ENTRIES.1);
    let mut rows = Vec::new();
    if most > 0 {
        rows.push(Row::new());
        rows.push(row("WHAT THE MOVES DID", Role::Faint));
        rows.extend(columns(&moves[moves.len() - most..], usize::from(width)));
    }
    if !entries.is_empty() {
        rows.push(Row::new());
        rows.push(row("LOG", Role::Faint));
        // Whole entries only.
        for entry in entries {
            if entry.len() > left {
                break;
            }
            left -= entry.len();
            rows.extend(entry);
        }
    }
    rows
}

/// One move: its number, what was moved, the tear before and after.
struct Did {
    number: String,
    what: String,
    before: String,
    after: String,
}

/// The likely tear with the last shot of those before a place in the list.
fn likely_before(model: &Model, shots: usize) -> Option<Tear> {
    let track = model.memo.points().get(..shots)?;
    let last = track.iter().rev().find_map(|t| *t)?;
    Some(Tear::new(last.right, last.up))
}

/// The shots that were made before the next move.
fn until(timeline: &Timeline, i: usize) -> usize {
    let next = timeline.moves.get(i + 1);
    next.map_or(timeline.shots.len(), |m| m.shots_before)
}

fn moves(model: &Model, glyphs: &Glyphs) -> Vec<Did> {
    let timeline = model.timeline();
    let mut out = Vec::new();
    for (i, made) in timeline.moves.iter().enumerate() {
        let shot = until(timeline, i) > made.shots_before;
        for (n, step) in made.steps.iter().enumerate() {
            let kind = step.adjuster;
            let along = |tear: Option<Tear>| {
                tear.map_or_else(|| "?".into(), |t| order::along(t, kind, model.system))
            };
            let order = Order::of(step, &timeline.card, model.system);
            let after = likely_before(model, until(timeline, i)).filter(|_| shot);
            out.push(Did {
                number: if n == 0 {
                    (i + 1).to_string()
                } else {
                    String::new()
                },
                what: order.short(kind),
                before: along(likely_before(model, made.shots_before)),
                after: format!("{} {}", glyphs.to, along(after)),
            });
        }
    }
    out
}

/// The moves in columns that are as wide as what stands in them.
fn columns(all: &[Did], width: usize) -> Vec<Row> {
    let wide = |of: fn(&Did) -> &str| all.iter().map(|d| of(d).width()).max().unwrap_or(0);
    let number = wide(|d| &d.number);
    let what = wide(|d| &d.what);
    let before = wide(|d| &d.before);
    let after = wide(|d| &d.after);
    let wanted = number + what + before + after + 3;
    let beside = wanted <= width;
    let gap = if wanted < width { 2 } else { 1 };
    let mut rows = Vec::new();
    for d in all {
        let head = format!("{:<number$} {:<what$}{:gap$}", d.number, d.what, "");
        let mut row = vec![(head, Role::Text)];
        if !beside {
            rows.push(std::mem::take(&mut row));
            row.push((" ".repeat(number + 1), Role::Text));
        }
        row.push((format!("{:<before$} ", d.before), Role::Faint));
        row.push((d.after.clone(), Role::Strong));
        rows.push(row);
    }
    rows
}

/// An entry in as few words as tell it.
fn short(model: &Model, event: &Event) -> String {
    let card = &model.timeline().card;
    match event {
        Event::Shot(shot) => format!("shot {}", order::tear(shot.tear(), model.system)),
        Event::Move { steps, .. } | Event::Pending { steps } => {
            let each = steps.iter().map(|step| {
                let order = Order::of(step, card, model.system);
                order.short(step.adjuster)
            });
            let all: Vec<String> = each.collect();
            let made = matches!(event, Event::Move { .. });
            let verb = if made { "moved" } else { "to the bench:" };
            format!("{verb} {}", all.join(", "))
        }
        other => wording::entry(other, card, model.system),
    }
}

/// The latest entries, newest first.
fn entries(model: &Model, width: u16) -> Vec<Vec<Row>> {
    let timeline = model.timeline();
    let room = width.saturating_sub(TIME);
    let all = model.session().entries().iter().rev();
    all.take(ENTRIES.1)
        .map(|entry| {
            let undone = timeline.undone.contains(&entry.number);
            let mark = if undone { "undone: " } else { "" };
            let what = short(model, &entry.event);
            let role = if undone { Role::Faint } else { Role::Text };
            let rows = wrap(&format!("{mark}{what}"), role, room, 0).into_iter();
            let head = entry.at.format("%H:%M  ").to_string();
            rows.enumerate()
                .map(|(i, mut row)| {
                    let blank = " ".repeat(TIME.into());
                    let head = if i == 0 { head.clone() } else { blank };
                    row.insert(0, (head, Role::Faint));
                    row
                })
                .collect()
        })
        .collect()
}
