//! Figures and letters in half blocks, three rows high: for what must be met
//! first and has no room for more.
//!
//! ```text
//! █▀█ █ █ ▀█▀
//! █ █ █ █  █
//! ▀▀▀ ▀▀▀  ▀
//! ```

use crate::look::{Glyphs, Role};
use crate::tui::draw::paint::Paint;

/// Rows of pixels of a letter.
const HIGH: usize = 5;
/// Pixels between letters, and of a space.
const GAP: u16 = 1;
const SPACE: u16 = 3;

/// Letters, five rows of pixels, a `#` a pixel.
const FONT: &[(char, [&str; HIGH])] = &[
    ('0', ["###", "# #", "# #", "# #", "###"]),
    ('1', ["## ", " # ", " # ", " # ", "###"]),
    ('2', ["###", "  #", "###", "#  ", "###"]),
    ('3', ["###", "  #", "###", "  #", "###"]),
    ('4', ["# #", "# #", "###", "  #", "  #"]),
    ('5', ["###", "#  ", "###", "  #", "###"]),
    ('6', ["###", "#  ", "###", "# #", "###"]),
    ('7', ["###", "  #", "  #", "  #", "  #"]),
    ('8', ["###", "# #", "###", "# #", "###"]),
    ('9', ["###", "# #", "###", "  #", "###"]),
    ('.', [" ", " ", " ", " ", "#"]),
    ('/', ["  #", "  #", " # ", "#  ", "#  "]),
    ('+', ["   ", " # ", "###", " # ", "   "]),
    ('A', ["###", "# #", "###", "# #", "# #"]),
    ('D', ["## ", "# #", "# #", "# #", "## "]),
    ('E', ["###", "#  ", "###", "#  ", "###"]),
    ('F', ["###", "#  ", "###", "#  ", "#  "]),
    ('G', ["###", "#  ", "# #", "# #", "###"]),
    ('H', ["# #", "# #", "###", "# #", "# #"]),
    ('I', ["#", "#", "#", "#", "#"]),
    ('L', ["#  ", "#  ", "#  ", "#  ", "###"]),
    ('M', ["#   #", "## ##", "# # #", "#   #", "#   #"]),
    ('N', ["#  #", "## #", "# ##", "#  #", "#  #"]),
    ('O', ["###", "# #", "# #", "# #", "###"]),
    ('P', ["###", "# #", "###", "#  ", "#  "]),
    ('R', ["###", "# #", "## ", "# #", "# #"]),
    ('S', ["###", "#  ", "###", "  #", "###"]),
    ('T', ["###", " # ", " # ", " # ", " # "]),
    ('U', ["# #", "# #", "# #", "# #", "###"]),
    ('W', ["#   #", "#   #", "# # #", "## ##", "#   #"]),
];

fn letter(c: char) -> Option<&'static [&'static str; HIGH]> {
    FONT.iter().find(|(l, _)| *l == c).map(|(_, rows)| rows)
}

/// Rows of cells a line takes in this set of characters.
pub fn high(glyphs: &Glyphs) -> u16 {
    let rows = if glyphs.halves {
        HIGH.div_ceil(2)
    } else {
        HIGH
    };
    rows as u16
}

/// Columns a text takes; none where a letter of it is not in the font.
pub fn wide(text: &str) -> Option<u16> {
    let mut columns = 0;
    for c in text.chars() {
        columns += match c {
            ' ' => SPACE,
            c => letter(c)?[0].len() as u16 + GAP,
        };
    }
    Some(columns.saturating_sub(GAP))
}

/// Draws a text from a place; letters that are not in the font are left out.
pub fn draw(paint: &mut Paint<'_>, at: (u16, u16), text: &str, role: Role) {
    let mut x = at.0;
    for c in text.chars() {
        let Some(rows) = letter(c) else {
            x += SPACE;
            continue;
        };
        for column in 0..rows[0].len() {
            let pixel = |row: usize| {
                let line = rows.get(row).map_or(&b""[..], |r| r.as_bytes());
                line.get(column) == Some(&b'#')
            };
            stack(paint, (x + column as u16, at.1), pixel, role);
        }
        x += rows[0].len() as u16 + GAP;
    }
}

/// One column of pixels: two to a cell in half blocks, else one.
fn stack(paint: &mut Paint<'_>, (x, y): (u16, u16), pixel: impl Fn(usize) -> bool, role: Role) {
    let glyphs = paint.glyphs;
    for row in 0..usize::from(high(glyphs)) {
        let c = if glyphs.halves {
            match (pixel(2 * row), pixel(2 * row + 1)) {
                (true, true) => '█',
                (true, false) => '▀',
                (false, true) => '▄',
                (false, false) => continue,
            }
        } else if pixel(row) {
            glyphs.block
        } else {
            continue;
        };
        paint.cell(x, y + row as u16, c, role);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_letter_is_as_wide_in_each_of_its_rows() {
        for (c, rows) in FONT {
            assert!(rows.iter().all(|r| r.len() == rows[0].len()), "{c}");
        }
    }

    #[test]
    fn every_way_of_an_order_and_every_figure_can_be_written() {
        for word in [
            "OUT", "IN", "UP", "DOWN", "LEFT", "RIGHT", "FIRMER", "SOFTER",
        ] {
            assert!(wide(word).is_some(), "{word}");
        }
        assert_eq!(
            wide("OUT 2.25"),
            Some(11 + 1 + 3 + 3 + 1 + 1 + 1 + 3 + 1 + 3)
        );
        assert!(wide("0123456789 1 1/16").is_some());
        assert_eq!(wide("é"), None);
    }
}
