//! Where each length of the card is measured: a few lines of drawing beside
//! what the line means.
//!
//! ```text
//! | string to grip pivot, undrawn; such as 7 in      |             (|  |
//! |                                                  |<----------->(|  |
//! |                                                  string     grip   |
//! ```

use ratatui::layout::Rect;

use crate::look::Role;
use crate::tui::draw::paint::Paint;

/// Columns of a drawing.
pub(crate) const WIDE: u16 = 30;
/// Rows of a drawing.
pub(crate) const HIGH: u16 = 5;
/// A page smaller than this has no room for one.
const LEAST: (u16, u16) = (68, 17);

pub(crate) type Drawing = [&'static str; HIGH as usize];

const BRACE: Drawing = [
    "  |                 (|",
    "  |                 (|",
    "  |<--------------->(|",
    "  |                 (|",
    "string, undrawn    grip pivot",
];
const DRAW: Drawing = [
    "     /              (|",
    "   /                (|",
    " <------------------(|--->|",
    "   \\                (|",
    "nock, drawn    pivot + 1 3/4in",
];
const AXLES: Drawing = [
    "  (o)---- upper axle",
    "   |  ^",
    "   |  |  this length, undrawn",
    "   |  v",
    "  (o)---- lower axle",
];
const SHAFT: Drawing = [
    " )==================|>",
    " ^                  ^",
    " |<---------------->|",
    "nock throat   end of the shaft",
    "the point is not counted",
];
const DIAMETER: Drawing = [
    "      .--.",
    "     (    )   shaft, end on",
    "      '--'",
    "     |<-->|",
    "   outside diameter",
];
const FULL_DRAW: Drawing = [
    " )==============o======|>",
    " ^              ^",
    " |<------------>|",
    "nock throat    rest contact",
    "at this archer's full draw",
];
const AHEAD: Drawing = [
    "      (|        o",
    "      (|<------>|   target >",
    "      (|",
    " grip pivot   rest contact",
    "minus: behind the pivot",
];
const FRONT: Drawing = [
    "      o   |####|",
    "      |<------>|   target >",
    "          |####|",
    " rest contact  riser's front",
    "",
];
/// As the shooter sees it: a right-handed bow has the arrow left of the riser.
const SIDEWAYS_RIGHT: Drawing = [
    "             |####",
    "   o         |####",
    "    |<------>|####",
    " shaft     riser",
    "near side, as you shoot",
];
const SIDEWAYS_LEFT: Drawing = [
    "  ####|",
    "  ####|         o",
    "  ####|<------>|",
    "  riser     shaft",
    "near side, as you shoot",
];
const HEIGHT: Drawing = [
    "     o    under the shaft",
    "     ^",
    "     |  this height",
    "     v",
    "  -------  a mark that stays",
];
const PAPER: Drawing = [
    "   (|                  |",
    "   (o<---------------->|",
    "   (|                  |",
    "  rest contact      paper",
    "",
];

/// The drawing of a line, by its key and the hand of the bow.
pub fn of(key: &str, hand: &str) -> Option<&'static Drawing> {
    Some(match key {
        "bow.brace_height" => &BRACE,
        "bow.draw_length" => &DRAW,
        "bow.axle_to_axle" => &AXLES,
        "arrow.shaft_length" => &SHAFT,
        "arrow.diameter" => &DIAMETER,
        "rest.full_draw_mark" => &FULL_DRAW,
        "rest.contact_ahead" => &AHEAD,
        "rest.riser_front" => &FRONT,
        "rest.reading" if hand == "left" => &SIDEWAYS_LEFT,
        "rest.reading" => &SIDEWAYS_RIGHT,
        "rest.height_reading" => &HEIGHT,
        "paper.distance" => &PAPER,
        _ => return None,
    })
}

/// Whether a page of the card has room for a drawing.
pub(crate) const fn fits(area: Rect) -> bool {
    area.width >= LEAST.0 && area.height >= LEAST.1
}

/// Draws one at the right end of an area.
pub fn draw(drawing: &Drawing, paint: &mut Paint<'_>, area: Rect) {
    let [flat, upright, ..] = paint.glyphs.frame;
    let x = area.right().saturating_sub(WIDE);
    for (y, line) in (area.y..area.bottom()).zip(drawing) {
        for (at, c) in (x..area.right()).zip(line.chars()) {
            let c = match c {
                '-' => flat,
                '|' => upright,
                other => other,
            };
            if c != ' ' {
                paint.cell(at, y, c, Role::Text);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::gear::field::{FIELDS, FieldKind};

    #[test]
    fn every_length_that_is_measured_on_the_bow_or_arrow_has_its_drawing() {
        // Steps of a screw, and how large a tear may remain, are no lengths to
        // be measured on the bow.
        let not_measured = |key: &str| {
            ["rest.click", "rest.travel", "rest.backlash"].contains(&key)
                || (key.starts_with("paper.") && key != "paper.distance")
        };
        for field in FIELDS {
            let length = matches!(field.kind, FieldKind::Length(..) | FieldKind::Offset(..));
            let wanted = length && !not_measured(field.key);
            assert_eq!(of(field.key, "right").is_some(), wanted, "{}", field.key);
        }
    }

    #[test]
    fn drawings_fit_and_the_one_with_a_side_is_mirrored_with_the_hand() {
        for field in FIELDS {
            for hand in ["right", "left"] {
                for line in of(field.key, hand).into_iter().flatten() {
                    assert!(line.len() <= WIDE.into(), "{}: {line}", field.key);
                    assert!(line.is_ascii());
                }
            }
        }
        // As the shooter sees it the arrow of a right-handed bow passes left
        // of the riser (trade notes, glossary: window).
        let right = of("rest.reading", "right").unwrap()[2];
        assert!(right.find('<') < right.find('#'), "{right}");
        let left = of("rest.reading", "left").unwrap()[2];
        assert!(left.find('#') < left.find('<'), "{left}");
    }
}
