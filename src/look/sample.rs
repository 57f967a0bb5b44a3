//! How a look looks, in a few rows: every band, every kind of text, every
//! character, for the page in the console and for `print look`.

use super::glyphs::{GlyphChoice, Glyphs};
use super::theme::{Role, Tone};

/// A row of pieces, each in its role.
pub type Row = Vec<(String, Role)>;

/// The bands and the kinds of text, two rows.
pub(crate) fn rows() -> [Row; 2] {
    let bands = [
        (" MOVE ", Tone::Act),
        (" SHOOT ", Tone::Shoot),
        (" WITHIN TOLERANCE ", Tone::Done),
        (" DO NOT SHOOT ", Tone::Refuse),
    ];
    let bands = bands.map(|(word, tone)| (word.to_owned(), Role::Band(tone)));
    let texts = [
        ("figures ", Role::Strong),
        ("text ", Role::Text),
        ("labels ", Role::Faint),
        ("ok ", Role::Good),
        ("~ ", Role::Warn),
        ("NO", Role::Bad),
        (" ", Role::Text),
        ("likely ", Role::Likely),
        ("tolerance ", Role::Tolerance),
        ("chosen", Role::Selected),
    ];
    let texts = texts.map(|(word, role)| (word.to_owned(), role));
    [bands.to_vec(), texts.to_vec()]
}

/// The sets of characters by their words in the settings.
pub(crate) const SETS: [(&str, GlyphChoice); 3] = [
    ("unicode", GlyphChoice::Unicode),
    ("dots", GlyphChoice::Dot),
    ("ascii", GlyphChoice::Ascii),
];

/// What a set draws with, in one row.
pub(crate) fn characters(g: &Glyphs) -> String {
    let mut out = String::new();
    let mut add = |signs: &[char]| {
        out.extend(signs);
        out.push(' ');
    };
    add(&g.frame);
    add(&g.tees);
    add(&[g.point, g.nock, g.earlier, g.bad]);
    add(&g.slit);
    add(&g.axis);
    add(&[g.moved, g.dashes, g.range, g.thumb]);
    add(&g.more);
    if g.halves {
        add(&['\u{2580}', '\u{2588}', '\u{2584}']);
    }
    if g.braille {
        add(&['\u{2874}', '\u{281a}', '\u{2809}', '\u{28c0}', '\u{2824}']);
    }
    out.push_str(g.to);
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_the_set_with_braille_shows_braille() {
        let has = |choice: GlyphChoice| {
            let text = characters(choice.set());
            text.chars().any(|c| ('\u{2800}'..='\u{28ff}').contains(&c))
        };
        assert!(has(GlyphChoice::Unicode) && !has(GlyphChoice::Dot));
        assert!(characters(GlyphChoice::Ascii.set()).is_ascii());
    }
}
