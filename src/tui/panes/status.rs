//! The status line: whose bow, its setting, where its adjusters stand, and
//! what must not be overlooked.
//!
//! ```text
//! Ann: blue bow  compound, left-handed, release aid        setting 3  rest 1.50 mm left
//! ```

use ratatui::layout::Rect;
use unicode_width::UnicodeWidthStr;

use crate::look::Role;
use crate::tui::draw::paint::{Paint, fit, safe};
use crate::tui::model::Model;
use crate::tui::wording;

/// A piece with how much it matters: the lowest goes first where room is short.
struct Piece {
    text: String,
    role: Role,
    rank: u8,
}

/// Bytes of the line over a new card where there is no room for all of it.
const NEW_SHORT: usize = "A NEW SESSION: check the card, then start it".len();

/// Rank of the piece that says where the adjusters stand: it stays to the end.
const STANDING: u8 = 12;

/// Columns the bow's name may take at least and at most.
const NAME: (usize, usize) = (10, 32);

/// Columns between two pieces.
const GAP: usize = 2;

/// What stands at the right end.
fn pieces(model: &Model) -> Vec<Piece> {
    let timeline = model.timeline();
    let mut all = Vec::new();
    let mut add = |text: String, role: Role, rank: u8| all.push(Piece { text, role, rank });
    if model.demo {
        add("DEMO: NOT KEPT".into(), Role::Warn, 11);
    }
    if model.practice.is_some() && !model.demo {
        add("PRACTICE: NOT KEPT".into(), Role::Warn, 11);
    }
    if model.read_only.is_some() {
        add("READING ONLY".into(), Role::Warn, 10);
    }
    if !timeline.holes.is_none() {
        add("FILE HAS HOLES".into(), Role::Warn, 9);
    }
    if timeline.open_incident().is_some() {
        add("INCIDENT".into(), Role::Bad, 10);
    }
    if timeline.closed.is_some() {
        add("CLOSED".into(), Role::Good, 9);
    }
    if timeline.pending.is_some() {
        add("PENDING MOVE".into(), Role::Warn, 5);
    }
    let next = wording::next_shots(&model.next, model.system);
    if !next.is_empty() {
        add(next, Role::Warn, 8);
    }
    let number = timeline.setting().number;
    add(format!("setting {number}"), Role::Text, 6);
    add(
        wording::standing(timeline, model.system),
        Role::Text,
        STANDING,
    );
    all
}

/// What kind of bow and whose hand, in full and in short.
fn kind(model: &Model, between: &str) -> [String; 2] {
    let bow = &model.timeline().card.bow;
    let hand = format!("{}-handed", bow.hand.id());
    let release = match bow.release {
        crate::gear::Release::Aid => "release aid",
        crate::gear::Release::Fingers => "fingers",
    };
    [[bow.kind.id(), &hand, release].join(between), hand]
}

/// Whose bow; by its file where neither owner nor bow has a name.
fn whose(model: &Model) -> String {
    let card = &model.timeline().card;
    let named = card.job.owner.is_some() || card.bow.name.is_some();
    let stem = model.session().path().and_then(|p| p.file_stem());
    match stem.filter(|_| !named) {
        Some(stem) => format!("{}: {}", stem.to_string_lossy(), card.title()),
        None => card.title(),
    }
}

/// Draws the line.
pub fn draw(model: &Model, paint: &mut Paint<'_>, area: Rect) {
    let width = usize::from(area.width);
    if model.situation().new_card {
        let text = "A NEW SESSION: check the card, then start it; nothing is kept before";
        let text = if text.width() > width {
            &text[..NEW_SHORT]
        } else {
            text
        };
        paint.put(area.x, area.y, text, Role::Warn, area.width);
        return;
    }
    let mut all = pieces(model);
    let title = safe(&whose(model));
    let least = NAME.0.min(title.width());
    let needed = |all: &[Piece]| all.iter().map(|p| p.text.width() + GAP).sum::<usize>();
    let wanted = title.width().min(NAME.1);
    if needed(&all) + wanted > width
        && let Some(piece) = all.iter_mut().find(|p| p.rank == STANDING)
    {
        piece.text = wording::standing_short(model.timeline(), model.system);
    }
    while needed(&all) + least > width {
        let Some(lowest) = (0..all.len()).min_by_key(|i| all[*i].rank) else {
            break;
        };
        if all[lowest].rank == STANDING {
            break;
        }
        all.remove(lowest);
    }
    let room = width.saturating_sub(needed(&all));
    let title = fit(&title, room.clamp(least, NAME.1.max(least)));
    let x = paint.put(area.x, area.y, &title, Role::Strong, area.width);
    let left = room.saturating_sub(title.width() + GAP);
    let fits = |text: &&String| text.width() <= left;
    let kind = kind(model, paint.glyphs.between);
    if let Some(kind) = kind.iter().find(fits) {
        let x = x + GAP as u16;
        paint.put(x, area.y, kind, Role::Faint, area.right().saturating_sub(x));
    }
    let mut x = (area.right() + GAP as u16).saturating_sub(needed(&all) as u16);
    for piece in all {
        let room = area.right().saturating_sub(x);
        x = paint.put(x, area.y, &piece.text, piece.role, room) + GAP as u16;
    }
}
