//! Where all text enters the screen: made safe, wrapped on words, styled by role.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Style;
use unicode_width::{UnicodeWidthChar, UnicodeWidthStr};

use crate::look::{Glyphs, Role, Theme};

/// A text with nothing in it that a terminal would act on: control characters
/// and marks that reorder text become `?`, line ends become spaces.
pub fn safe(text: &str) -> String {
    text.chars()
        .map(|c| match c {
            '\n' | '\r' | '\t' => ' ',
            c if c.is_control() || crate::units::is_direction_mark(c) => '?',
            c => c,
        })
        .collect()
}

/// A piece of text in one role.
pub(crate) type Span = (String, Role);

/// A row of pieces.
pub type Row = Vec<Span>;

/// What is left of an area under so many of its rows.
pub(crate) const fn under(area: Rect, used: u16) -> Rect {
    let height = area.height.saturating_sub(used);
    Rect::new(area.x, area.bottom() - height, area.width, height)
}

/// One piece as a row.
pub fn row(text: impl Into<String>, role: Role) -> Row {
    vec![(text.into(), role)]
}

/// Wraps on words; a word longer than a row is the only thing that is split.
/// Rows after the first begin with `hang` spaces.
pub(crate) fn flow(spans: &[(&str, Role)], width: u16, hang: u16) -> Vec<Row> {
    let width = usize::from(width.max(1));
    let hang = usize::from(hang).min(width / 2);
    let mut rows: Vec<Row> = vec![Row::new()];
    let mut used = 0;
    let mut gap = false;
    for (text, role) in spans {
        let text = safe(text);
        let mut first = true;
        for word in text.split(' ') {
            gap |= !first;
            first = false;
            if word.is_empty() {
                continue;
            }
            for piece in pieces(word, width - hang) {
                let wide = piece.width();
                let start = if rows.len() == 1 { 0 } else { hang };
                let space = usize::from(gap && used > start);
                if used + space + wide > width && used > start {
                    rows.push(match hang {
                        0 => Row::new(),
                        _ => row(" ".repeat(hang), Role::Text),
                    });
                    used = hang;
                } else if space == 1 {
                    append(&mut rows, " ", *role);
                    used += 1;
                }
                append(&mut rows, &piece, *role);
                used += wide;
                gap = false;
            }
        }
    }
    rows
}

/// Wraps one text in one role.
pub(crate) fn wrap(text: &str, role: Role, width: u16, hang: u16) -> Vec<Row> {
    flow(&[(text, role)], width, hang)
}

fn append(rows: &mut [Row], text: &str, role: Role) {
    if let Some(last) = rows.last_mut() {
        match last.last_mut() {
            Some((t, r)) if *r == role => t.push_str(text),
            _ => last.push((text.to_owned(), role)),
        }
    }
}

fn pieces(word: &str, width: usize) -> Vec<String> {
    if word.width() <= width {
        return vec![word.to_owned()];
    }
    let mut out = vec![String::new()];
    for c in word.chars() {
        let last = out.len() - 1;
        if out[last].width() + c.width().unwrap_or(0) > width && !out[last].is_empty() {
            out.push(String::new());
        }
        let last = out.len() - 1;
        out[last].push(c);
    }
    out
}

/// As many whole words of a text as fit.
pub fn fit(text: &str, width: usize) -> String {
    let text = safe(text);
    if text.width() <= width {
        return text;
    }
    let mut out = String::new();
    for word in text.split(' ') {
        let space = usize::from(!out.is_empty());
        // Room is kept for the mark that says something is left out.
        if out.width() + space + word.width() + 3 > width {
            break;
        }
        if space == 1 {
            out.push(' ');
        }
        out.push_str(word);
    }
    if width >= out.width() + 3 {
        out.push_str("...");
    }
    out
}

/// What draws: a buffer, the theme, the characters.
pub(crate) struct Paint<'a> {
    /// The frame being drawn.
    pub(crate) buf: &'a mut Buffer,
    /// Colours.
    pub theme: Theme,
    /// Characters.
    pub glyphs: &'static Glyphs,
    /// Where the terminal's cursor goes, when something is being typed.
    pub(crate) cursor: Option<(u16, u16)>,
}

impl Paint<'_> {
    /// The style of a role.
    pub(crate) fn style(&self, role: Role) -> Style {
        self.theme.style(role)
    }

    /// Writes text from a place, as many whole words as fit in `width`
    /// columns; returns the column after it.
    pub(crate) fn put(&mut self, x: u16, y: u16, text: &str, role: Role, width: u16) -> u16 {
        let area = self.buf.area;
        if y >= area.bottom() || x >= area.right() {
            return x;
        }
        let width = usize::from(width.min(area.right() - x));
        let style = self.style(role);
        // The one sign of the sentences that plain ASCII has not.
        let text = match self.glyphs.about {
            "±" => text.to_owned(),
            about => text.replace('±', about),
        };
        let (after, _) = self.buf.set_stringn(x, y, fit(&text, width), width, style);
        after
    }

    /// One character, inside the frame only.
    pub(crate) fn cell(&mut self, x: u16, y: u16, c: char, role: Role) {
        let style = self.style(role);
        if let Some(cell) = self.buf.cell_mut((x, y)) {
            cell.reset();
            cell.set_char(c).set_style(style);
        }
    }

    /// A row of pieces.
    pub fn row(&mut self, x: u16, y: u16, row: &[Span], width: u16) -> u16 {
        let mut at = x;
        for (text, role) in row {
            let left = (x + width).saturating_sub(at);
            at = self.put(at, y, text, *role, left);
        }
        at
    }

    /// Rows from the top of an area; returns how many were drawn.
    pub(crate) fn rows(&mut self, area: Rect, rows: &[Row]) -> u16 {
        let count = rows.len().min(usize::from(area.height));
        for (i, row) in rows.iter().take(count).enumerate() {
            self.row(area.x, area.y + i as u16, row, area.width);
        }
        count as u16
    }

    /// Rows with a scroll position; marks at the right edge say there is more.
    pub(crate) fn scrolled(&mut self, area: Rect, rows: &[Row], scroll: u16) {
        let height = usize::from(area.height);
        let most = rows.len().saturating_sub(height);
        let from = usize::from(scroll).min(most);
        self.rows(area, &rows[from..]);
        self.place(area, from, height, rows.len());
    }

    /// Marks on the right edge of an area how far down one is: which part of
    /// so many rows is in sight, and where there is more.
    pub fn place(&mut self, area: Rect, from: usize, shown: usize, all: usize) {
        if all <= shown || area.height == 0 {
            return;
        }
        let [up, down] = self.glyphs.more;
        // On the frame where it is the next column but one, clear of the text.
        let frame = self.glyphs.frame[1];
        let framed = self
            .buf
            .cell((area.right() + 1, area.y))
            .is_some_and(|c| c.symbol().starts_with(frame));
        let (x, last) = (area.right() + u16::from(framed), area.bottom() - 1);
        if area.height >= 5 {
            // Between the two ends, at least one cell long.
            let track = usize::from(area.height) - 2;
            let long = (track * shown / all).max(1);
            let top = (track - long) * from / (all - shown);
            for i in top..top + long {
                let y = area.y + 1 + i as u16;
                self.cell(x, y, self.glyphs.thumb, Role::Faint);
            }
        }
        if from > 0 {
            self.cell(x, area.y, up, Role::Strong);
        }
        if from + shown < all {
            self.cell(x, last, down, Role::Strong);
        }
    }

    /// Blanks an area: nothing on it but the theme's own ground.
    pub(crate) fn clear(&mut self, area: Rect) {
        let ground = self.theme.ground();
        for y in area.top()..area.bottom() {
            for x in area.left()..area.right() {
                if let Some(cell) = self.buf.cell_mut((x, y)) {
                    cell.reset();
                    cell.set_style(ground);
                }
            }
        }
    }

    /// Gives cells that are on screen the ground of what is within tolerance;
    /// what stands on them stays. Whether the theme has such a ground.
    pub(crate) fn shade(&mut self, cells: impl Iterator<Item = (u16, u16)>) -> bool {
        let Some(colour) = self.theme.shade() else {
            return false;
        };
        for at in cells {
            if let Some(cell) = self.buf.cell_mut(at) {
                cell.set_bg(colour);
            }
        }
        true
    }

    /// Fills an area with one character of a role.
    pub(crate) fn fill(&mut self, area: Rect, c: char, role: Role) {
        for y in area.top()..area.bottom() {
            for x in area.left()..area.right() {
                self.cell(x, y, c, role);
            }
        }
    }

    /// A filled row: its words, the rest of it in the same style.
    pub fn band(&mut self, area: Rect, y: u16, words: [&str; 2], role: Role) {
        let row = Rect {
            y,
            height: 1,
            ..area
        };
        self.fill(row, self.glyphs.fill, role);
        let [first, last] = words;
        let wide = last.width() as u16 + 2;
        let room = area.width.saturating_sub(2);
        if !first.is_empty() {
            self.put(area.x, y, &format!(" {first} "), role, room + 2);
        }
        if !last.is_empty() && wide <= area.width {
            self.put(area.right() - wide, y, &format!(" {last} "), role, wide);
        }
    }

    /// A frame with dividers; neighbours share a border. Titles stand in the
    /// top border of each part. Returns the insides, left to right.
    pub(crate) fn frame(&mut self, area: Rect, dividers: &[u16], titles: &[&str]) -> Vec<Rect> {
        let [flat, upright, tl, tr, bl, br] = self.glyphs.frame;
        let [down, up, ..] = self.glyphs.tees;
        let (left, right) = (area.left(), area.right() - 1);
        let (top, bottom) = (area.top(), area.bottom() - 1);
        for x in left..=right {
            self.cell(x, top, flat, Role::Border);
            self.cell(x, bottom, flat, Role::Border);
        }
        for y in top + 1..bottom {
            for x in [left, right].iter().chain(dividers) {
                self.cell(*x, y, upright, Role::Border);
            }
        }
        for (x, y, c) in [
            (left, top, tl),
            (right, top, tr),
            (left, bottom, bl),
            (right, bottom, br),
        ] {
            self.cell(x, y, c, Role::Border);
        }
        for x in dividers {
            self.cell(*x, top, down, Role::Border);
            self.cell(*x, bottom, up, Role::Border);
        }
        let mut edges = vec![left];
        edges.extend(dividers);
        edges.push(right);
        let mut insides = Vec::new();
        for (i, pair) in edges.windows(2).enumerate() {
            let width = pair[1] - pair[0] - 1;
            if let Some(title) = titles.get(i) {
                let title = format!(" {} ", fit(title, usize::from(width.saturating_sub(4))));
                self.put(
                    pair[0] + 2,
                    top,
                    &title,
                    Role::Title,
                    width.saturating_sub(2),
                );
            }
            insides.push(Rect::new(pair[0] + 1, top + 1, width, bottom - top - 1));
        }
        insides
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn text(rows: &[Row]) -> Vec<String> {
        rows.iter()
            .map(|r| r.iter().map(|(t, _)| t.as_str()).collect())
            .collect()
    }

    #[test]
    fn words_are_kept_whole() {
        let rows = flow(
            &[
                ("Rest OUT 1.50 mm", Role::Strong),
                (" (6 clicks), LEFT", Role::Text),
            ],
            12,
            2,
        );
        assert_eq!(
            text(&rows),
            ["Rest OUT", "  1.50 mm (6", "  clicks),", "  LEFT"]
        );
    }

    #[test]
    fn only_a_word_longer_than_the_row_is_split() {
        assert_eq!(
            text(&wrap("a Donaudampfschiff b", Role::Text, 8, 0)),
            ["a", "Donaudam", "pfschiff", "b"]
        );
    }

    #[test]
    fn fitting_leaves_out_whole_words_and_says_so() {
        assert_eq!(fit("one two three", 10), "one two...");
        assert_eq!(fit("one two", 7), "one two");
        assert_eq!(fit("three", 3), "...");
    }

    #[test]
    fn nothing_a_terminal_acts_on_gets_through() {
        assert_eq!(safe("a\u{1b}[31m\u{202e}b\nc"), "a?[31m?b c");
    }
}
