//! The characters things are drawn with: braille curves where the font has
//! them, dots where it has only the common blocks, ASCII anywhere.

/// Which set to draw with.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum GlyphChoice {
    /// Unicode where the locale says UTF-8, else ASCII.
    #[default]
    Auto,
    /// Lines, marks and braille curves.
    Unicode,
    /// Lines and marks, curves as dots.
    Dot,
    /// ASCII only.
    Ascii,
}

/// One set.
#[derive(Debug, PartialEq, Eq)]
pub struct Glyphs {
    /// Curves at eight dots a cell.
    pub braille: bool,
    /// Horizontal, vertical, then corners: top left, top right, bottom left, bottom right.
    pub frame: [char; 6],
    /// Tees: down, up, right, left; then the cross.
    pub tees: [char; 5],
    /// A dot of a curve, where there is no braille.
    pub dot: char,
    /// The point hole.
    pub point: char,
    /// The nock hole.
    pub nock: char,
    /// An earlier nock hole of this setting.
    pub earlier: char,
    /// A shot called bad or taken for one.
    pub bad: char,
    /// The mean tear.
    pub mean: char,
    /// Where the next shot is expected.
    pub next: char,
    /// The slit: flat, upright, rising, falling.
    pub slit: [char; 4],
    /// The cursor on the grid.
    pub cursor: char,
    /// A move, under the chart.
    pub moved: char,
    /// The band of the mean.
    pub band: char,
    /// A line across the chart.
    pub dashes: char,
    /// Block letters.
    pub block: char,
    /// The line the cursor is on.
    pub here: char,
    /// Typing place.
    pub more: [char; 2],
}

static UNICODE: Glyphs = Glyphs {
    braille: true,
    frame: ['─', '│', '┌', '┐', '└', '┘'],
    tees: ['┬', '┴', '├', '┤', '┼'],
    dot: '·',
    point: '+',
    nock: '●',
    earlier: '○',
    bad: 'x',
    mean: '◆',
    next: '?',
    slit: ['─', '│', '╱', '╲'],
    cursor: '┼',
    moved: '▲',
    band: '░',
    dashes: '╌',
    block: '█',
    here: '>',
    more: ['↑', '↓'],
};

static DOT: Glyphs = Glyphs {
    braille: false,
    ..UNICODE_BASE
};

const UNICODE_BASE: Glyphs = Glyphs {
    braille: true,
    frame: ['─', '│', '┌', '┐', '└', '┘'],
    tees: ['┬', '┴', '├', '┤', '┼'],
    dot: '·',
    point: '+',
    nock: 'O',
    earlier: 'o',
    bad: 'x',
    mean: 'M',
    next: '?',
    slit: ['─', '│', '/', '\\'],
    cursor: '┼',
    moved: '^',
    band: ':',
    dashes: '-',
    block: '█',
    here: '>',
    more: ['^', 'v'],
};

static ASCII: Glyphs = Glyphs {
    braille: false,
    frame: ['-', '|', '+', '+', '+', '+'],
    tees: ['+', '+', '+', '+', '+'],
    dot: '.',
    slit: ['-', '|', '/', '\\'],
    cursor: '#',
    block: '#',
    ..UNICODE_BASE
};

impl GlyphChoice {
    /// The set for a choice.
    pub fn set(self) -> &'static Glyphs {
        match self {
            Self::Unicode => &UNICODE,
            Self::Dot => &DOT,
            Self::Ascii => &ASCII,
            Self::Auto if locale_is_utf8() => &UNICODE,
            Self::Auto => &ASCII,
        }
    }
}

/// Whether the locale says UTF-8, the first of the three variables that is set deciding.
fn locale_is_utf8() -> bool {
    ["LC_ALL", "LC_CTYPE", "LANG"]
        .iter()
        .find_map(|name| std::env::var(name).ok().filter(|v| !v.is_empty()))
        .is_some_and(|v| {
            let v = v.to_lowercase();
            v.contains("utf-8") || v.contains("utf8")
        })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_ascii_set_is_ascii() {
        let g = GlyphChoice::Ascii.set();
        let all = [
            g.dot, g.point, g.nock, g.earlier, g.bad, g.mean, g.next, g.cursor, g.moved, g.band,
            g.dashes, g.block, g.here,
        ];
        assert!(
            all.iter()
                .chain(&g.frame)
                .chain(&g.tees)
                .chain(&g.slit)
                .chain(&g.more)
                .all(char::is_ascii)
        );
    }
}
