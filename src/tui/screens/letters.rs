//! The verdict in block letters, to be read from 3 m.
//!
//! ```text
//! # #  ##  # # ###
//! ###  # # # # ##      as large as the screen allows
//! # #  ##   #  ###
//! ```

use ratatui::layout::Rect;

use crate::actions::Scope;
use crate::advice::Verdict;
use crate::gear::{AdjusterKind, Step};
use crate::look::Role;
use crate::tui::draw::paint::{Paint, wrap};
use crate::tui::model::Model;
use crate::tui::panes::verdict::Band;
use crate::tui::screen::Screen;
use crate::words::order::Order;

/// Cells of a letter, and with its gap.
const CELLS: u16 = 5;
const PITCH: u16 = CELLS + 1;

/// Letters, five rows of five cells, a bit a cell, leftmost highest.
const FONT: &[(char, [u8; 5])] = &[
    ('A', [0b01110, 0b10001, 0b11111, 0b10001, 0b10001]),
    ('B', [0b11110, 0b10001, 0b11110, 0b10001, 0b11110]),
    ('C', [0b01111, 0b10000, 0b10000, 0b10000, 0b01111]),
    ('D', [0b11110, 0b10001, 0b10001, 0b10001, 0b11110]),
    ('E', [0b11111, 0b10000, 0b11110, 0b10000, 0b11111]),
    ('F', [0b11111, 0b10000, 0b11110, 0b10000, 0b10000]),
    ('G', [0b01111, 0b10000, 0b10011, 0b10001, 0b01111]),
    ('H', [0b10001, 0b10001, 0b11111, 0b10001, 0b10001]),
    ('I', [0b01110, 0b00100, 0b00100, 0b00100, 0b01110]),
    ('J', [0b00111, 0b00010, 0b00010, 0b10010, 0b01100]),
    ('K', [0b10010, 0b10100, 0b11000, 0b10100, 0b10010]),
    ('L', [0b10000, 0b10000, 0b10000, 0b10000, 0b11111]),
    ('M', [0b10001, 0b11011, 0b10101, 0b10001, 0b10001]),
    ('N', [0b10001, 0b11001, 0b10101, 0b10011, 0b10001]),
    ('O', [0b01110, 0b10001, 0b10001, 0b10001, 0b01110]),
    ('P', [0b11110, 0b10001, 0b11110, 0b10000, 0b10000]),
    ('Q', [0b01110, 0b10001, 0b10101, 0b10010, 0b01101]),
    ('R', [0b11110, 0b10001, 0b11110, 0b10010, 0b10001]),
    ('S', [0b01111, 0b10000, 0b01110, 0b00001, 0b11110]),
    ('T', [0b11111, 0b00100, 0b00100, 0b00100, 0b00100]),
    ('U', [0b10001, 0b10001, 0b10001, 0b10001, 0b01110]),
    ('V', [0b10001, 0b10001, 0b10001, 0b01010, 0b00100]),
    ('W', [0b10001, 0b10001, 0b10101, 0b11011, 0b10001]),
    ('X', [0b10001, 0b01010, 0b00100, 0b01010, 0b10001]),
    ('Y', [0b10001, 0b01010, 0b00100, 0b00100, 0b00100]),
    ('Z', [0b11111, 0b00010, 0b00100, 0b01000, 0b11111]),
    ('0', [0b01110, 0b10011, 0b10101, 0b11001, 0b01110]),
    ('1', [0b00100, 0b01100, 0b00100, 0b00100, 0b01110]),
    ('2', [0b11110, 0b00001, 0b01110, 0b10000, 0b11111]),
    ('3', [0b11110, 0b00001, 0b01110, 0b00001, 0b11110]),
    ('4', [0b10010, 0b10010, 0b11111, 0b00010, 0b00010]),
    ('5', [0b11111, 0b10000, 0b11110, 0b00001, 0b11110]),
    ('6', [0b01110, 0b10000, 0b11110, 0b10001, 0b01110]),
    ('7', [0b11111, 0b00010, 0b00100, 0b01000, 0b01000]),
    ('8', [0b01110, 0b10001, 0b01110, 0b10001, 0b01110]),
    ('9', [0b01110, 0b10001, 0b01111, 0b00001, 0b01110]),
    ('.', [0b00000, 0b00000, 0b00000, 0b00000, 0b00100]),
    ('/', [0b00001, 0b00010, 0b00100, 0b01000, 0b10000]),
    ('-', [0b00000, 0b00000, 0b01110, 0b00000, 0b00000]),
];

/// The screen.
#[derive(Debug, Default)]
pub(crate) struct LettersScreen;

/// The verdict in few words, a line each.
fn lines(model: &Model) -> Vec<String> {
    let advice = &model.analysis.advice;
    let texts: &[&str] = match advice.verdict {
        Verdict::Stop => &["DO NOT", "SHOOT"],
        _ if model.analysis.list_first().is_some() => &["RANGE", "LIST", "FIRST"],
        _ if model.timeline().pending.is_some() => &["PENDING", "MOVE"],
        Verdict::Shoot if model.analysis.advice.shots_here == 0 => &["SHOOT"],
        Verdict::Shoot => &["SHOOT", "AGAIN"],
        Verdict::Refuse => &["LEAVE", "THE REST", "ALONE"],
        Verdict::Done => &["WITHIN", "NOW", "PROVE IT"],
        Verdict::Probe => &["TEST"],
        Verdict::Move => &[],
    };
    if let (Some(advised), true) = (&advice.movement, texts.is_empty()) {
        return moves(model, &advised.moves());
    }
    texts.iter().map(|t| (*t).to_owned()).collect()
}

/// What stands small under the letters: before a shot what is looked at every
/// time, and under a finished paper tune the list that is due before proof.
fn under(model: &Model) -> Option<String> {
    let due = model.analysis.range_due;
    match model.analysis.advice.verdict {
        Verdict::Shoot if due.is_none() && model.timeline().pending.is_none() => {
            Some(crate::words::BEFORE_EVERY_SHOT.to_owned())
        }
        Verdict::Done => due.map(crate::words::range_due),
        _ => None,
    }
}

/// `OUT 2.25`, `9 CLICKS` and the side as the shooter sees it; of two steps
/// only the first of these, or they would be too small to read.
fn moves(model: &Model, steps: &[Step]) -> Vec<String> {
    let card = &model.timeline().card;
    let of = |step: &Step| (step.adjuster, Order::of(step, card, model.system));
    if let [one] = steps {
        let (kind, order) = of(one);
        let lines = std::iter::once(order.short(kind))
            .chain(order.clicks)
            .chain(order.toward);
        return lines.map(|l| l.to_uppercase()).collect();
    }
    let short = |(kind, order): (AdjusterKind, Order)| order.short(kind).to_uppercase();
    steps.iter().map(of).map(short).collect()
}

impl Screen for LettersScreen {
    fn scope(&self) -> Scope {
        Scope::Reading
    }
    fn title(&self, _model: &Model) -> String {
        "Verdict".into()
    }
    fn about(&self) -> &'static str {
        crate::words::screens::LETTERS
    }
    fn draw(&self, model: &Model, paint: &mut Paint<'_>, area: Rect) {
        let lines = lines(model);
        // In the colour of the verdict from edge to edge: that is seen first.
        let role = Role::Band(Band::of(model).tone);
        paint.fill(area, ' ', role);
        let mut area = area;
        if let Some(said) = under(model).filter(|_| area.height > 8) {
            let text = wrap(&said, role, area.width, 0);
            let rows = text.len() as u16;
            area.height -= rows;
            paint.rows(Rect::new(area.x, area.bottom(), area.width, rows), &text);
        }
        let longest = lines.iter().map(|l| l.chars().count()).max().unwrap_or(1) as u16;
        let count = lines.len().max(1) as u16;
        let wide = area.width / (longest * PITCH).max(1);
        let high = area.height / (count * PITCH).max(1);
        if wide == 0 || high == 0 {
            paint.rows(area, &wrap(&lines.join(" "), role, area.width, 0));
            return;
        }
        // Letters wider than twice their height in cells look squashed.
        let (wide, high) = (wide.min(2 * high), high.min(2 * wide));
        let mut y = area.y + (area.height - count * PITCH * high + high) / 2;
        for line in &lines {
            let across = line.chars().count() as u16 * PITCH * wide;
            let mut x = area.x + (area.width.saturating_sub(across)) / 2;
            for c in line.chars() {
                letter(paint, (x, y), c, (wide, high), role);
                x += PITCH * wide;
            }
            y += PITCH * high;
        }
    }
}

fn letter(paint: &mut Paint<'_>, at: (u16, u16), c: char, (wide, high): (u16, u16), role: Role) {
    let Some((_, rows)) = FONT.iter().find(|(l, _)| *l == c) else {
        return;
    };
    for (r, bits) in rows.iter().enumerate() {
        for cell in (0..CELLS).filter(|cell| bits & (1 << (CELLS - 1 - cell)) != 0) {
            for dy in 0..high {
                for dx in 0..wide {
                    let place = (at.0 + cell * wide + dx, at.1 + r as u16 * high + dy);
                    paint.cell(place.0, place.1, paint.glyphs.block, role);
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_letter_a_verdict_needs_can_be_drawn() {
        let words = "DO NOT SHOOT AGAIN PENDING MOVE LEAVE REST ALONE WITHIN NOW PROVE IT TEST UP DOWN IN OUT LEFT RIGHT CLICKS MM TURN TWIST FIRMER SOFTER POINT PLUNGER TIP YOKE BOLTS HEIGHT RANGE LIST FIRST 0123456789./";
        for c in words.chars().filter(|c| *c != ' ') {
            assert!(FONT.iter().any(|(l, _)| *l == c), "{c}");
        }
    }
}
