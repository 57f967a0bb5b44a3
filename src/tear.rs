//! What the paper shows: reading and writing tears.
//!
//! A tear is nock hole minus point hole in millimetres, seen from the
//! shooter's side: right and up positive. People say it as `12 left 4 high`,
//! `l12 h4`, `1/2 in left 1/8 high`, `tail right 8` or `clean`.

use crate::units::{Length, MM_PER_INCH, Scan, System, clean, scan_number};

/// Nock hole minus point hole, mm: where the tail is, seen from the point.
#[derive(Debug, Clone, Copy, PartialEq, Default, serde::Serialize, serde::Deserialize)]
pub struct Tear {
    /// Right positive, mm.
    pub right: f64,
    /// Up positive, mm.
    pub up: f64,
}

/// Longer tears than this, mm, are asked about before they are recorded.
pub(crate) const ASK_ABOVE: f64 = 75.0;
/// Longer tears than this, mm, are refused: longer than most arrows' swing (common practice, no source).
pub(crate) const REFUSE_ABOVE: f64 = 500.0;

impl Tear {
    #[cfg(test)]
    /// A bullet hole.
    pub(crate) const CLEAN: Self = Self {
        right: 0.0,
        up: 0.0,
    };

    /// A tear from its parts, mm.
    pub const fn new(right: f64, up: f64) -> Self {
        Self { right, up }
    }
    /// Its length, mm.
    pub fn length(self) -> f64 {
        self.right.hypot(self.up)
    }
    /// The same tear read from the target side of the sheet.
    pub fn mirrored(self) -> Self {
        // 0.0 - x rather than -x: a clean hole stays +0.
        Self {
            right: 0.0 - self.right,
            up: self.up,
        }
    }
}

/// One hole as entered: the tear and what else the hole or the shooter said.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Hole {
    /// The tear, mm.
    pub tear: Tear,
    /// An extra slit beyond the line from point to nock: the shaft flexed.
    pub slit_extra: bool,
    /// Ragged or smeared: something touched the arrow.
    pub ragged: bool,
    /// Called bad before looking at the paper.
    pub called_bad: bool,
    /// Shot without fletching.
    pub bare: bool,
    /// Arrow number or mark.
    pub arrow: Option<String>,
}

/// Why a tear's text cannot be read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TearError {
    /// The word it stumbled on.
    pub word: String,
    /// Where that word begins, in characters from the start of the text.
    pub at: usize,
    /// What is wrong with it.
    pub problem: String,
    /// The units it was read in.
    pub system: System,
}

/// Reads one or several holes, separated by `;`. Bare numbers are in
/// `system`'s unit.
///
/// # Errors
/// Points at the first word that cannot be read.
///
/// ```
/// use tearbench::{tear, units::System};
/// let holes = tear::read_holes("12l4h; 9l3h; clean", System::Mm).unwrap();
/// assert_eq!(holes.len(), 3);
/// assert_eq!(holes[0].tear, tear::Tear::new(-12.0, 4.0));
/// ```
pub fn read_holes(text: &str, system: System) -> Result<Vec<Hole>, TearError> {
    let mut holes = Vec::new();
    let mut at = 0;
    for part in text.split(';') {
        if !part.trim().is_empty() {
            holes.push(Reader::new(part, at, system).hole()?);
        }
        at += part.chars().count() + 1;
    }
    if holes.is_empty() {
        return Err(of_all(text, "no tear here", system));
    }
    if holes.len() > 24 {
        return Err(of_all(text, "more than 24 holes in one line", system));
    }
    Ok(holes)
}

/// Words that a tear may begin with, as [`read_holes`] takes them.
const FIRST_WORDS: [&str; 15] = [
    "clean", "bullet", "bh", "perfect", "left", "right", "high", "hi", "low", "lo", "up", "down",
    "tail", "nock", "tear",
];

/// Whether what is typed so far may be the beginning of a tear: a digit, the
/// first letters of a word that begins one, or such a side with a size begun.
///
/// ```
/// use tearbench::tear::may_begin;
/// assert!(may_begin("1") && may_begin("cl") && may_begin("l1") && may_begin("left "));
/// assert!(!may_begin("card") && !may_begin("q") && !may_begin("c1"));
/// ```
pub fn may_begin(text: &str) -> bool {
    let text = text.to_lowercase();
    let text = text.trim_start();
    if text.starts_with(|c: char| c.is_ascii_digit()) {
        return true;
    }
    let (word, after) = take_word(text);
    match after.chars().next() {
        None => FIRST_WORDS.iter().any(|w| w.starts_with(word)) && !word.is_empty(),
        Some(c) if c.is_ascii_digit() || c == '.' => way(word).is_some(),
        Some(c) => c.is_whitespace() && (way(word).is_some() || FIRST_WORDS.contains(&word)),
    }
}

/// Reads exactly one hole.
///
/// # Errors
/// As [`read_holes`], and when there are several.
pub fn read_hole(text: &str, system: System) -> Result<Hole, TearError> {
    let mut holes = read_holes(text, system)?;
    if holes.len() == 1 {
        return Ok(holes.remove(0));
    }
    Err(of_all(text, "one hole at a time here", system))
}

fn of_all(text: &str, problem: &str, system: System) -> TearError {
    TearError {
        word: clean(text),
        at: 0,
        problem: problem.into(),
        system,
    }
}

#[derive(Debug, Clone, Copy, PartialEq)]
enum Way {
    Left,
    Right,
    Up,
    Down,
}

struct Reader<'a> {
    text: &'a str,
    rest: &'a str,
    offset: usize,
    system: System,
    hole: Hole,
    seen: (Option<f64>, Option<f64>),
    said: bool,
}

impl<'a> Reader<'a> {
    fn new(text: &'a str, offset: usize, system: System) -> Self {
        Self {
            text,
            rest: text,
            offset,
            system,
            hole: Hole::default(),
            seen: (None, None),
            said: false,
        }
    }

    fn hole(mut self) -> Result<Hole, TearError> {
        loop {
            self.rest = self
                .rest
                .trim_start_matches(|c: char| c.is_whitespace() || c == ',' || c == ':');
            if self.rest.is_empty() {
                break;
            }
            self.token()?;
        }
        if !self.said && self.seen == (None, None) {
            return Err(self.fail(self.text, "no tear here"));
        }
        let tear = Tear::new(self.seen.0.unwrap_or(0.0), self.seen.1.unwrap_or(0.0));
        if !tear.length().is_finite() || tear.length() > REFUSE_ABOVE {
            return Err(self.fail(self.text, "too long to be a tear"));
        }
        self.hole.tear = tear;
        Ok(self.hole)
    }

    fn token(&mut self) -> Result<(), TearError> {
        let here = self.rest;
        if here.starts_with('#') {
            return self.arrow_number();
        }
        if !starts_with_arrow_sign(here)
            && let Some(scan) = scan_number(here)
        {
            return self.number_then_way(here, &scan);
        }
        let (word, after) = take_word(here);
        if word.is_empty() {
            return Err(self.fail(first_char(here), "not understood"));
        }
        if self.flag(&word.to_lowercase()) {
            self.rest = after;
            return Ok(());
        }
        let way = way(word).ok_or_else(|| self.fail(word, "not understood"))?;
        let after = after.trim_start();
        let scan = scan_number(after).ok_or_else(|| self.fail(word, "how far?"))?;
        let (value, rest) = self.with_unit(&scan);
        self.rest = rest;
        self.put(way, value, word)
    }

    fn number_then_way(&mut self, here: &'a str, scan: &Scan<'a>) -> Result<(), TearError> {
        let number = scan.value;
        let (value, rest) = self.with_unit(scan);
        let rest = rest.trim_start();
        let (word, after) = take_word(rest);
        let Some(way) = way(word) else {
            let digits = &here[..here.len() - rest.len()].trim_end();
            // A lone zero is a way people write a bullet hole.
            if number == 0.0 {
                self.rest = rest;
                self.said = true;
                return Ok(());
            }
            if word.is_empty() {
                return Err(self.fail(digits, "which way? left, right, high or low"));
            }
            return Err(self.fail(word, "not a direction; left, right, high or low"));
        };
        self.rest = after;
        self.put(way, value, word)
    }

    /// The number in mm, its unit taken off the text if one follows. Nobody
    /// reads half a millimetre off paper: a fraction alone is of an inch.
    fn with_unit(&self, scan: &Scan<'a>) -> (f64, &'a str) {
        let (number, rest) = (scan.value, scan.rest);
        let trimmed = rest.trim_start();
        for (name, factor) in [
            ("millimetres", 1.0),
            ("mm", 1.0),
            ("cm", 10.0),
            ("inches", MM_PER_INCH),
            ("inch", MM_PER_INCH),
            ("in", MM_PER_INCH),
            ("\"", MM_PER_INCH),
            ("''", MM_PER_INCH),
            ("\u{2033}", MM_PER_INCH),
            ("\u{201d}", MM_PER_INCH),
        ] {
            if let Some(after) = trimmed.strip_prefix(name)
                && !(name == "in" && after.starts_with(|c: char| c.is_alphabetic()))
            {
                return (number * factor, after);
            }
        }
        let unit = if scan.fraction {
            MM_PER_INCH
        } else {
            self.system.mm_per_unit()
        };
        (number * unit, rest)
    }

    fn put(&mut self, way: Way, value: f64, word: &str) -> Result<(), TearError> {
        if value < 0.0 {
            return Err(self.fail(word, "give the side in words and the size without a minus"));
        }
        let (slot, signed) = match way {
            Way::Left => (&mut self.seen.0, 0.0 - value),
            Way::Right => (&mut self.seen.0, value),
            Way::Down => (&mut self.seen.1, 0.0 - value),
            Way::Up => (&mut self.seen.1, value),
        };
        if slot.is_some() {
            return Err(self.fail(word, "said twice for one hole; put ; between holes"));
        }
        *slot = Some(signed);
        Ok(())
    }

    fn flag(&mut self, word: &str) -> bool {
        match word {
            "clean" | "bullet" | "bh" | "hole" | "perfect" => self.said = true,
            "tail" | "nock" | "tear" | "and" | "by" | "of" | "a" => {}
            "ragged" | "smeared" | "smear" => self.hole.ragged = true,
            "slit" | "extra" => self.hole.slit_extra = true,
            "bad" => self.hole.called_bad = true,
            "bare" => self.hole.bare = true,
            _ => return false,
        }
        true
    }

    fn arrow_number(&mut self) -> Result<(), TearError> {
        let (mark, after) = take_mark(&self.rest[1..]);
        if mark.is_empty() {
            return Err(self.fail("#", "which arrow? write #3"));
        }
        self.hole.arrow = Some(mark.chars().take(12).collect());
        self.rest = after;
        Ok(())
    }

    fn fail(&self, word: &str, problem: &str) -> TearError {
        let bytes = (word.as_ptr() as usize).saturating_sub(self.text.as_ptr() as usize);
        let inside = bytes <= self.text.len() && self.text.is_char_boundary(bytes);
        let before = if inside {
            self.text[..bytes].chars().count()
        } else {
            0
        };
        TearError {
            word: clean(word.trim()),
            at: self.offset + before,
            problem: problem.into(),
            system: self.system,
        }
    }
}

fn starts_with_arrow_sign(text: &str) -> bool {
    text.starts_with("->") || text.starts_with("\u{2212}>")
}

fn take_word(text: &str) -> (&str, &str) {
    for sign in [
        "<-", "->", "<", ">", "^", "\u{2190}", "\u{2192}", "\u{2191}", "\u{2193}",
    ] {
        if let Some(after) = text.strip_prefix(sign) {
            return (&text[..sign.len()], after);
        }
    }
    let end = text
        .find(|c: char| !c.is_alphabetic())
        .unwrap_or(text.len());
    text.split_at(end)
}

fn take_mark(text: &str) -> (&str, &str) {
    let end = text
        .find(|c: char| !c.is_alphanumeric())
        .unwrap_or(text.len());
    text.split_at(end)
}

fn first_char(text: &str) -> &str {
    let end = text.chars().next().map_or(0, char::len_utf8);
    &text[..end]
}

fn way(word: &str) -> Option<Way> {
    Some(match word.to_lowercase().as_str() {
        "left" | "l" | "<-" | "<" | "\u{2190}" => Way::Left,
        "right" | "r" | "->" | ">" | "\u{2192}" => Way::Right,
        "high" | "hi" | "h" | "up" | "u" | "^" | "\u{2191}" => Way::Up,
        "low" | "lo" | "down" | "d" | "dn" | "\u{2193}" => Way::Down,
        _ => return None,
    })
}

/// A distance typed for a shot, such as `2.5 m` or `8 ft`.
///
/// # Errors
/// Not a length, or not between 0.5 m and 100 m.
pub(crate) fn read_distance(text: &str) -> Result<Length, String> {
    let length = Length::parse(text).map_err(|e| e.to_string())?;
    if (0.5..=100.0).contains(&length.m()) {
        Ok(length)
    } else {
        Err(format!(
            "{} is no distance to shoot paper from; usual is 1.5 m to 6 m",
            clean(text)
        ))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn mm(text: &str) -> (f64, f64) {
        let hole = read_hole(text, System::Mm).unwrap_or_else(|e| panic!("{text}: {e}"));
        (hole.tear.right, hole.tear.up)
    }

    #[test]
    fn tears_are_read_the_way_people_say_them() {
        for (text, wanted) in [
            ("12 left 4 high", (-12.0, 4.0)),
            ("l12 h4", (-12.0, 4.0)),
            ("12l4h", (-12.0, 4.0)),
            ("1/2 in left 1/8 high", (-12.7, 3.175)),
            ("1/2 left 1 1/4 hi", (-12.7, 31.75)),
            ("1/2 in left 1/8 in high", (-12.7, 3.175)),
            ("1/2\" left, 1/8\" low", (-12.7, -3.175)),
            ("tail right 8", (8.0, 0.0)),
            ("8 right", (8.0, 0.0)),
            ("clean", (0.0, 0.0)),
            ("bullet hole", (0.0, 0.0)),
            ("bh", (0.0, 0.0)),
            ("0 right 0 high", (0.0, 0.0)),
            ("0", (0.0, 0.0)),
            ("12 <- 4 up", (-12.0, 4.0)),
            ("12\u{2190}4\u{2191}", (-12.0, 4.0)),
            ("4 high and 12 left", (-12.0, 4.0)),
            ("1.5 cm low", (0.0, -15.0)),
            ("-> 7", (7.0, 0.0)),
            ("9R2LOW", (9.0, -2.0)),
        ] {
            assert_eq!(mm(text), wanted, "{text}");
        }
        let hole = read_hole("1/2 left 1/8 high", System::Inch).unwrap();
        assert_eq!((hole.tear.right, hole.tear.up), (-12.7, 3.175));
    }

    #[test]
    fn marks_beside_the_tear_are_kept() {
        let hole = read_hole("12l4h #3 ragged slit bad bare", System::Mm).unwrap();
        assert_eq!(hole.arrow.as_deref(), Some("3"));
        assert!(hole.ragged && hole.slit_extra && hole.called_bad && hole.bare);
    }

    #[test]
    fn several_holes_of_one_sheet_are_one_line() {
        let holes = read_holes("12l4h; 9l3h; clean;", System::Mm).unwrap();
        assert_eq!(holes.len(), 3);
        assert_eq!(holes[2].tear, Tear::CLEAN);
    }

    #[test]
    fn an_error_points_at_the_word_and_shows_what_would_be_right() {
        let error = read_holes("clean; 12 lift 4 high", System::Mm).unwrap_err();
        assert_eq!((error.word.as_str(), error.at), ("lift", 10));
        assert!(
            error
                .to_string()
                .contains("12 left 4 high, l12 h4, or clean")
        );
        for (text, word) in [
            ("", ""),
            ("12", "12"),
            ("12 left 3 right", "right"),
            ("-12 left", "left"),
            ("left", "left"),
            ("12 left @", "@"),
            ("900 left", "900 left"),
            ("#", "#"),
        ] {
            assert_eq!(
                read_hole(text, System::Mm).unwrap_err().word,
                word,
                "{text}"
            );
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]
        #[test]
        fn any_text_is_read_or_refused_without_panic(text in "\\PC{0,40}") {
            let _ = read_holes(&text, System::Mm);
        }

        #[test]
        fn what_is_written_reads_back(right in -60i32..60, up in -60i32..60) {
            let tear = Tear::new(f64::from(right), f64::from(up));
            let text = crate::words::tear(tear, System::Mm);
            prop_assert_eq!(read_hole(&text, System::Mm).unwrap().tear, tear);
        }
    }
}
