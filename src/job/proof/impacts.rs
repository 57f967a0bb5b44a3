//! Reading impact points the way people say them: `3 left 2 high; 1 r; spot`.

use crate::session::Impact;
use crate::units::{MM_PER_INCH, Scan, clean, scan_number};

/// What a bare number means on a target face.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum FaceUnit {
    /// Centimetres.
    #[default]
    Cm,
    /// Inches.
    Inch,
}

impl FaceUnit {
    /// One of it, mm.
    pub const fn mm(self) -> f64 {
        match self {
            Self::Cm => 10.0,
            Self::Inch => MM_PER_INCH,
        }
    }
    /// As written after a number.
    pub const fn unit(self) -> &'static str {
        match self {
            Self::Cm => "cm",
            Self::Inch => "in",
        }
    }
    /// The face's unit that goes with a display system.
    pub const fn of(system: crate::units::System) -> Self {
        match system {
            crate::units::System::Mm => Self::Cm,
            crate::units::System::Inch => Self::Inch,
        }
    }
}

/// Why impacts cannot be read; said in [`crate::words`].
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ImpactError {
    /// The word it stumbled on.
    pub word: String,
    /// Which impact of the line, from 1.
    pub number: usize,
    /// What is wrong.
    pub wrong: WrongImpact,
}

/// What is wrong with the impacts of a line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WrongImpact {
    /// There are none, or more than a group may have.
    HowMany,
    /// One way is said twice: a `;` is missing between two impacts.
    Twice,
    /// It is farther from the spot than any face is large.
    TooFar,
    /// A size without its side.
    NoSide,
    /// A word that is no side.
    NotASide,
    /// A side without its size.
    NoSize,
    /// A size with a minus.
    Minus,
}

/// Farther from the spot than this, mm, is no impact on a face (2 m).
const FARTHEST: f64 = 2000.0;
/// Most impacts in one group.
pub(crate) const MOST: usize = 36;

/// Reads impacts, separated by `;`. Bare numbers are in `unit`; mm, cm and in
/// may be written. `spot` is the aiming spot itself.
///
/// # Errors
/// Names the word and the impact it belongs to.
pub fn read_impacts(text: &str, unit: FaceUnit) -> Result<Vec<Impact>, ImpactError> {
    let lower = text.to_lowercase();
    let parts: Vec<&str> = lower.split(';').filter(|p| !p.trim().is_empty()).collect();
    if parts.is_empty() || parts.len() > MOST {
        return Err(ImpactError {
            word: clean(text),
            number: 1,
            wrong: WrongImpact::HowMany,
        });
    }
    parts
        .iter()
        .enumerate()
        .map(|(i, part)| {
            one(part, unit).map_err(|(word, wrong)| ImpactError {
                word: clean(word),
                number: i + 1,
                wrong,
            })
        })
        .collect()
}

/// The word it stumbled on, and what is wrong with it.
type Trouble<'a> = (&'a str, WrongImpact);

fn one(part: &str, unit: FaceUnit) -> Result<Impact, Trouble<'_>> {
    let part = part.trim();
    if matches!(part, "spot" | "centre" | "center" | "0" | "on") {
        return Ok(Impact {
            right: 0.0,
            up: 0.0,
        });
    }
    let (mut right, mut up) = (None, None);
    let mut rest = part;
    while !skip(rest).is_empty() {
        rest = skip(rest);
        let (mm, way, after) = piece(rest, unit)?;
        let (slot, sign) = match way {
            'l' => (&mut right, -1.0),
            'r' => (&mut right, 1.0),
            'd' => (&mut up, -1.0),
            _ => (&mut up, 1.0),
        };
        if slot.is_some() {
            return Err((part, WrongImpact::Twice));
        }
        *slot = Some(sign * mm);
        rest = after;
    }
    let impact = Impact {
        right: right.unwrap_or(0.0) + 0.0,
        up: up.unwrap_or(0.0) + 0.0,
    };
    if impact.right.hypot(impact.up) > FARTHEST {
        return Err((part, WrongImpact::TooFar));
    }
    Ok(impact)
}

fn skip(text: &str) -> &str {
    text.trim_start_matches(|c: char| c.is_whitespace() || c == ',')
}

/// A number, its unit and its side, in either order: `3 cm left`, `l3`.
fn piece<'a>(text: &'a str, unit: FaceUnit) -> Result<(f64, char, &'a str), Trouble<'a>> {
    let shown = |word: &'a str| if word.is_empty() { text } else { word };
    if let Some(scan) = scan_number(text) {
        let (mm, after) = with_unit(&scan, unit);
        let (word, rest) = word(after.trim_start());
        let way = way(word).ok_or((shown(word), WrongImpact::NoSide))?;
        return positive(mm, text).map(|mm| (mm, way, rest));
    }
    let (side, after) = word(text);
    let way = way(side).ok_or((shown(side), WrongImpact::NotASide))?;
    let scan = scan_number(after).ok_or((side, WrongImpact::NoSize))?;
    let (mm, rest) = with_unit(&scan, unit);
    positive(mm, text).map(|mm| (mm, way, rest))
}

fn positive(mm: f64, text: &str) -> Result<f64, Trouble<'_>> {
    if mm < 0.0 || !mm.is_finite() {
        return Err((text, WrongImpact::Minus));
    }
    Ok(mm)
}

/// The number in mm; a fraction without a unit is of an inch.
fn with_unit<'a>(scan: &Scan<'a>, unit: FaceUnit) -> (f64, &'a str) {
    let (value, rest) = (scan.value, scan.rest);
    let trimmed = rest.trim_start();
    for (name, factor) in [
        ("mm", 1.0),
        ("cm", 10.0),
        ("inches", MM_PER_INCH),
        ("inch", MM_PER_INCH),
        ("in", MM_PER_INCH),
        ("\"", MM_PER_INCH),
    ] {
        if let Some(after) = trimmed.strip_prefix(name)
            && !after.starts_with(|c: char| c.is_alphabetic())
        {
            return (value * factor, after);
        }
    }
    let alone = if scan.fraction {
        MM_PER_INCH
    } else {
        unit.mm()
    };
    (value * alone, rest)
}

fn word(text: &str) -> (&str, &str) {
    let end = text
        .find(|c: char| !c.is_alphabetic())
        .unwrap_or(text.len());
    text.split_at(end)
}

fn way(word: &str) -> Option<char> {
    match word {
        "left" | "l" => Some('l'),
        "right" | "r" => Some('r'),
        "high" | "up" | "h" | "u" => Some('u'),
        "low" | "down" | "d" => Some('d'),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Vec<(f64, f64)> {
        read_impacts(text, FaceUnit::Cm)
            .unwrap_or_else(|e| panic!("{e}"))
            .iter()
            .map(|i| (i.right, i.up))
            .collect()
    }

    #[test]
    fn impacts_are_read_the_way_people_say_them() {
        assert_eq!(
            read("3 left 2 high; l3h2; 1 in right, 5 mm low; spot; 0"),
            [
                (-30.0, 20.0),
                (-30.0, 20.0),
                (25.4, -5.0),
                (0.0, 0.0),
                (0.0, 0.0)
            ]
        );
        let inch = read_impacts("1/2 left", FaceUnit::Inch).unwrap();
        assert_eq!(inch[0].right, -12.7);
    }

    #[test]
    fn what_cannot_be_read_is_named_with_its_place() {
        let error = read_impacts("3 left; 2 sideways", FaceUnit::Cm).unwrap_err();
        assert_eq!((error.number, error.word.as_str()), (2, "sideways"));
        for (text, wrong) in [
            ("", WrongImpact::HowMany),
            ("3", WrongImpact::NoSide),
            ("3 sideways", WrongImpact::NoSide),
            ("-3 left", WrongImpact::Minus),
            ("3 left 2 left", WrongImpact::Twice),
            ("300 left", WrongImpact::TooFar),
            ("left", WrongImpact::NoSize),
            ("nan left", WrongImpact::NotASide),
        ] {
            let found = read_impacts(text, FaceUnit::Cm).map_err(|e| e.wrong);
            assert_eq!(found, Err(wrong), "{text}");
        }
    }
}
