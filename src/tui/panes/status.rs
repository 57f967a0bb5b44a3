//! The status line: whose bow, its setting, where its adjusters stand, and
//! what must not be overlooked.
//!
//! ```text
//! Ann: blue bow  compound, left-handed, release aid        setting 3  rest 1.50 mm left
//! ```

use ratatui::layout::Rect;
use unicode_width::{UnicodeWidthChar, UnicodeWidthStr};

use crate::look::Role;
use crate::tui::draw::paint::{Paint, fit, safe};
use crate::tui::model::Model;
use crate::tui::wording;
use crate::words::pages::panes::{NEW_SESSION, NEW_SESSION_SHORT};

/// A piece with how much it matters: the lowest goes first where room is short.
struct Piece {
    text: String,
    role: Role,
    rank: u8,
}

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
    // Without a name the kind stands for it already.
    let kind = bow.name.as_ref().map(|_| bow.kind.id());
    let all: Vec<&str> = kind.into_iter().chain([hand.as_str(), release]).collect();
    [all.join(between), hand]
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

/// As much of a name as fits: letter by letter where its first word alone is
/// longer than the room.
fn cut(name: &str, room: usize) -> String {
    if name.width() <= room || first_word(name) + 3 <= room {
        return fit(name, room);
    }
    let mut out = String::new();
    for c in name.chars() {
        if out.width() + c.width().unwrap_or(0) + 3 > room {
            break;
        }
        out.push(c);
    }
    format!("{}...", out.trim_end())
}

/// Columns of the first word of a name.
fn first_word(name: &str) -> usize {
    name.split(' ').next().map_or(0, UnicodeWidthStr::width)
}

/// The title in its room: where it is too long, owner and bow each keep a part.
fn both(model: &Model, title: &str, room: usize) -> String {
    let card = &model.timeline().card;
    let parts = (card.job.owner.as_deref(), card.bow.name.as_deref());
    let (Some(owner), Some(bow)) = parts else {
        return cut(title, room);
    };
    let (owner, bow) = (safe(owner), safe(bow));
    // Each keeps its first word at least, or the whole line is cut as one.
    let least = |name: &str| name.width().min(first_word(name) + 3);
    let shared = room.saturating_sub(2);
    if title.width() <= room || least(&owner) + least(&bow) > shared {
        return cut(title, room);
    }
    let owned = (shared / 2).max(shared.saturating_sub(bow.width()));
    let owner = cut(&owner, owned.clamp(least(&owner), shared - least(&bow)));
    let bow = cut(&bow, shared - owner.width());
    format!("{owner}: {bow}")
}

/// Draws the line.
pub fn draw(model: &Model, paint: &mut Paint<'_>, area: Rect) {
    let width = usize::from(area.width);
    if model.situation().new_card {
        let text = if NEW_SESSION.width() > width {
            NEW_SESSION_SHORT
        } else {
            NEW_SESSION
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
    // A long name takes what the hand leaves.
    let hand = GAP + kind(model, paint.glyphs.between)[1].width();
    let most = NAME.1.max(room.saturating_sub(hand)).max(least);
    let title = both(model, &title, room.clamp(least, most));
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
