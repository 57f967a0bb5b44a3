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
    pub(crate) braille: bool,
    /// Block figures in half blocks; else whole cells of [`Self::block`].
    pub(crate) halves: bool,
    /// Horizontal, vertical, then corners: top left, top right, bottom left, bottom right.
    pub(crate) frame: [char; 6],
    /// Tees: down, up, right, left; then the cross.
    pub(crate) tees: [char; 5],
    /// A dot of a curve, where there is no braille.
    pub(crate) dot: char,
    /// The axes of the grid: flat, upright.
    pub axis: [char; 2],
    /// The point hole.
    pub(crate) point: char,
    /// The nock hole.
    pub(crate) nock: char,
    /// An earlier nock hole, and a shot in the chart.
    pub earlier: char,
    /// A shot called bad or taken for one.
    pub bad: char,
    /// The likely tear.
    pub(crate) likely: char,
    /// What joins one likely tear to the next.
    pub(crate) joined: char,
    /// Where the next shot is expected.
    pub(crate) next: char,
    /// How far the next shot may stray.
    pub(crate) range: char,
    /// The slit: flat, upright, rising, falling.
    pub(crate) slit: [char; 4],
    /// The cursor on the grid.
    pub(crate) cursor: char,
    /// The mark under a place along a line.
    pub(crate) under: char,
    /// A move, across the chart.
    pub moved: char,
    /// A line across the chart.
    pub(crate) dashes: char,
    /// Block letters.
    pub(crate) block: char,
    /// The line the cursor is on.
    pub here: char,
    /// More above, more below.
    pub(crate) more: [char; 2],
    /// Which part of it all is in sight, at the right edge.
    pub(crate) thumb: char,
    /// From one figure to the next.
    pub(crate) to: &'static str,
    /// Give or take.
    pub(crate) about: &'static str,
    /// Between words of one kind.
    pub between: &'static str,
    /// What a band is filled with beside its words.
    pub(crate) fill: char,
}

const UNICODE_BASE: Glyphs = Glyphs {
    braille: true,
    halves: true,
    frame: ['─', '│', '╭', '╮', '╰', '╯'],
    tees: ['┬', '┴', '├', '┤', '┼'],
    dot: '·',
    axis: ['┄', '┆'],
    point: '●',
    nock: '✶',
    earlier: '○',
    bad: 'x',
    likely: '●',
    joined: '╌',
    next: '?',
    range: '│',
    slit: ['━', '┃', '╱', '╲'],
    cursor: '┼',
    under: '▲',
    moved: '┊',
    dashes: '╌',
    block: '█',
    here: '>',
    more: ['↑', '↓'],
    thumb: '┃',
    to: "→",
    about: "±",
    between: " · ",
    fill: ' ',
};

static UNICODE: Glyphs = UNICODE_BASE;

/// What the fonts of a bare text console have.
static DOT: Glyphs = Glyphs {
    braille: false,
    frame: ['─', '│', '┌', '┐', '└', '┘'],
    axis: ['·', '·'],
    point: 'o',
    nock: '*',
    earlier: '°',
    likely: 'O',
    joined: '-',
    slit: ['─', '│', '/', '\\'],
    under: '^',
    moved: ':',
    dashes: '-',
    more: ['^', 'v'],
    thumb: '█',
    to: "->",
    ..UNICODE_BASE
};

static ASCII: Glyphs = Glyphs {
    frame: ['-', '|', '+', '+', '+', '+'],
    tees: ['+', '+', '+', '+', '+'],
    dot: '.',
    axis: ['-', ':'],
    earlier: '.',
    range: '|',
    slit: ['=', '|', '/', '\\'],
    cursor: '#',
    block: '#',
    halves: false,
    about: "+-",
    between: ", ",
    fill: '=',
    braille: false,
    point: 'o',
    nock: '*',
    likely: 'O',
    joined: '-',
    under: '^',
    moved: ':',
    dashes: '-',
    more: ['^', 'v'],
    thumb: '#',
    to: "->",
    ..UNICODE_BASE
};

impl GlyphChoice {
    /// What a terminal of this name most likely shows. The bare text console
    /// and those that are as old have no braille and few other signs.
    fn likely(utf8: bool, term: &str) -> Self {
        let bare = ["linux", "cons25", "wsvt25", "vt52", "vt100", "vt220"];
        match (utf8, bare.iter().any(|b| term.starts_with(b))) {
            (false, _) => Self::Ascii,
            (true, true) => Self::Dot,
            (true, false) => Self::Unicode,
        }
    }

    /// The set for a choice.
    pub fn set(self) -> &'static Glyphs {
        match self {
            Self::Unicode => &UNICODE,
            Self::Dot => &DOT,
            Self::Ascii => &ASCII,
            Self::Auto => {
                Self::likely(locale_is_utf8(), &std::env::var("TERM").unwrap_or_default()).set()
            }
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

    fn signs(g: &Glyphs) -> Vec<char> {
        let mut all = vec![
            g.dot, g.point, g.nock, g.earlier, g.bad, g.likely, g.joined, g.next, g.range,
            g.cursor, g.under, g.moved, g.dashes, g.block, g.here, g.fill, g.thumb,
        ];
        let more = [&g.frame[..], &g.tees, &g.axis, &g.slit, &g.more];
        all.extend(more.into_iter().flatten());
        all.extend(g.to.chars().chain(g.between.chars()).chain(g.about.chars()));
        all
    }

    #[test]
    fn the_ascii_set_is_ascii() {
        assert!(signs(GlyphChoice::Ascii.set()).iter().all(char::is_ascii));
    }

    #[test]
    fn what_must_be_told_apart_in_one_picture_differs() {
        for choice in [GlyphChoice::Unicode, GlyphChoice::Dot, GlyphChoice::Ascii] {
            let g = choice.set();
            let grid = [g.point, g.nock, g.earlier, g.bad, g.slit[0], g.axis[0]];
            let chart = [g.earlier, g.bad, g.likely, g.moved, g.joined, g.next];
            for signs in [&grid[..], &chart] {
                for (i, a) in signs.iter().enumerate() {
                    assert!(!signs[i + 1..].contains(a), "{choice:?} {a}");
                }
            }
        }
    }

    #[test]
    fn a_bare_text_console_is_never_sent_braille() {
        // Code page 437, which such consoles' fonts have at least.
        const HAVE: &str = "─│┌┐└┘├┤┬┴┼·°█±";
        assert_eq!(GlyphChoice::likely(true, "linux"), GlyphChoice::Dot);
        assert_eq!(GlyphChoice::likely(true, "vt220"), GlyphChoice::Dot);
        assert_eq!(GlyphChoice::likely(false, "linux"), GlyphChoice::Ascii);
        assert_eq!(
            GlyphChoice::likely(true, "xterm-256color"),
            GlyphChoice::Unicode
        );
        let set = GlyphChoice::Dot.set();
        assert!(!set.braille);
        for c in signs(set) {
            assert!(c.is_ascii() || HAVE.contains(c), "{c}");
        }
    }
}
