//! The status line: whose bow, hand, setting, shots, what is pending.
//!
//! ```text
//! Ann: blue bow | left hand | setting 3: rest 1.50 mm left | 7 shots | AT THE BENCH | DEMO: NOT KEPT
//! ```

use ratatui::layout::Rect;
use unicode_width::UnicodeWidthStr;

use super::paint::{Paint, fit, safe};
use crate::tui::state::App;
use crate::tui::theme::Role;
use crate::tui::wording;
use crate::words;

/// A piece with how much it matters: the lowest goes first where room is short.
struct Piece {
    text: String,
    role: Role,
    rank: u8,
}

/// Columns in which the name can still be told from others.
const NAME_READS: usize = 18;

/// Bytes of the line over a new card where there is no room for all of it.
const NEW_SHORT: usize = "A NEW SESSION: check the card, then start it".len();

/// Rank of the piece that says where the adjusters stand.
const STANDING: u8 = 3;

/// Columns the bow's name may take at least and at most.
const NAME: (usize, usize) = (10, 28);

fn pieces(app: &App) -> Vec<Piece> {
    let timeline = app.timeline();
    let card = &timeline.card;
    let mut all = vec![Piece {
        text: format!("{}-handed", card.bow.hand.id()),
        role: Role::Text,
        rank: 4,
    }];
    let mut add = |text: String, role: Role, rank: u8| all.push(Piece { text, role, rank });
    let number = timeline.setting().number;
    let shots = timeline.shots_here().count();
    add(format!("setting {number}"), Role::Text, 6);
    add(
        wording::standing(timeline, app.system),
        Role::Text,
        STANDING,
    );
    add(words::count(shots, "shot"), Role::Text, 5);
    let next = wording::next_shots(&app.next, app.system);
    if !next.is_empty() {
        add(next, Role::Warn, 8);
    }
    if timeline.open_incident().is_some() {
        add("INCIDENT".into(), Role::Bad, 10);
    }
    if timeline.closed.is_some() {
        add("CLOSED".into(), Role::Good, 9);
    }
    if timeline.pending.is_some() {
        add("AT THE BENCH".into(), Role::Warn, 9);
    }
    if app.demo {
        add("DEMO: NOT KEPT".into(), Role::Warn, 11);
    }
    if app.practice.is_some() {
        add("PRACTICE: NOT KEPT".into(), Role::Warn, 11);
    }
    if !timeline.holes.is_none() {
        add("FILE HAS HOLES".into(), Role::Warn, 9);
    }
    if app.read_only.is_some() {
        add("READING ONLY".into(), Role::Warn, 10);
    }
    all
}

/// Whose bow; by its file where neither owner nor bow has a name.
fn whose(app: &App) -> String {
    let card = &app.timeline().card;
    let named = card.job.owner.is_some() || card.bow.name.is_some();
    let stem = app.session().path().and_then(|p| p.file_stem());
    match stem.filter(|_| !named) {
        Some(stem) => format!("{}: {}", stem.to_string_lossy(), card.title()),
        None => card.title(),
    }
}

/// Draws the line.
pub fn draw(app: &App, paint: &mut Paint<'_>, area: Rect) {
    let width = usize::from(area.width);
    if app.situation().new_card {
        let text = "A NEW SESSION: check the card, then start it; nothing is kept before";
        let text = if text.width() > width {
            &text[..NEW_SHORT]
        } else {
            text
        };
        paint.put(area.x, area.y, text, Role::Warn, area.width);
        return;
    }
    let mut all = pieces(app);
    let title = safe(&whose(app));
    let readable = NAME_READS.min(title.width());
    let least_name = NAME.0.min(title.width());
    let needed = |all: &[Piece]| all.iter().map(|p| p.text.width() + 3).sum::<usize>();
    if needed(&all) + readable > width
        && let Some(piece) = all.iter_mut().find(|p| p.rank == STANDING)
    {
        piece.text = wording::standing_short(app.timeline(), app.system);
    }
    if needed(&all) + readable > width {
        all.retain(|p| p.rank != STANDING);
    }
    while needed(&all) + least_name > width {
        let Some(least) = (0..all.len()).min_by_key(|i| all[*i].rank) else {
            break;
        };
        all.remove(least);
    }
    let room = width
        .saturating_sub(needed(&all))
        .clamp(least_name, NAME.1.max(least_name));
    let title = fit(&title, room);
    let mut x = paint.put(area.x, area.y, &title, Role::Strong, area.width);
    for piece in all {
        x = paint.put(
            x,
            area.y,
            " | ",
            Role::Faint,
            area.right().saturating_sub(x),
        );
        x = paint.put(
            x,
            area.y,
            &piece.text,
            piece.role,
            area.right().saturating_sub(x),
        );
    }
}
