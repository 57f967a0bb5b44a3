//! Reading what was measured, with its units.

use super::compute;
use super::item::Measure;
use crate::units::{Force, Length, Mass, clean, scan_number};

/// A measured value in base units: mm, pounds, grains, turns, a count.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Value {
    /// Judged by eye: in order, or what is wrong.
    Look(bool, String),
    /// One number.
    One(f64),
    /// Top and bottom.
    Pair(f64, f64),
    /// One for each arrow.
    Many(Vec<f64>),
    /// Run-out scaled to the 28 in span, with the span it was read over.
    RunOut { scaled: f64, span: f64 },
    /// Sideways offsets at two places ahead of the nock: (place, out), mm.
    Places((f64, f64), (f64, f64)),
    /// Free text.
    Text(String),
}

/// Why a value cannot be read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Unread {
    /// In words.
    pub problem: String,
    /// Whether that shows what would be right.
    pub(crate) shows: bool,
}

impl From<&str> for Unread {
    fn from(problem: &str) -> Self {
        Self {
            problem: problem.into(),
            shows: false,
        }
    }
}

impl From<String> for Unread {
    fn from(problem: String) -> Self {
        Self {
            problem,
            shows: false,
        }
    }
}

/// A problem that shows what would be right.
fn shown(problem: impl std::fmt::Display) -> Unread {
    Unread {
        problem: problem.to_string(),
        shows: true,
    }
}

pub(super) fn read(measure: Measure, text: &str) -> Result<Value, Unread> {
    let text = text.trim();
    if text.is_empty() {
        return Err("nothing was entered".into());
    }
    match measure {
        Measure::Look => Ok(look(text)),
        Measure::Length => Length::parse(text)
            .map(|l| Value::One(l.mm()))
            .map_err(shown),
        Measure::OutIn if text.contains(" at ") => places(text),
        Measure::HighLow if text.contains(" / ") => heights(text),
        Measure::OutIn => signed(text, "out", "in").map(Value::One),
        Measure::HighLow => signed(text, "high", "low").map(Value::One),
        Measure::TopBottom => pair(text, |part| {
            Length::parse(part).map(Length::mm).map_err(shown)
        }),
        Measure::Turns => pair(text, turns),
        Measure::Force => Force::parse(text)
            .map(|f| Value::One(f.pounds()))
            .map_err(shown),
        Measure::Count => count(text),
        Measure::Mass => Mass::parse(text)
            .map(|m| Value::One(m.grains()))
            .map_err(shown),
        Measure::Masses => masses(text),
        Measure::RunOut => runout(text),
        Measure::Note => Ok(Value::Text(clean(text))),
    }
}

fn look(text: &str) -> Value {
    let lower = text.to_lowercase();
    let good = ["ok", "yes", "fine", "good", "clear", "none", "done"];
    Value::Look(good.contains(&lower.as_str()), clean(text))
}

/// `2 mm out` or `0`: the positive word first.
fn signed(text: &str, plus: &str, minus: &str) -> Result<f64, Unread> {
    if scan_number(text).is_some_and(|s| s.value == 0.0 && s.rest.trim().is_empty()) {
        return Ok(0.0);
    }
    let lower = text.to_lowercase();
    let words: Vec<&str> = lower.split_whitespace().collect();
    let (word, rest) = match words.split_last() {
        Some((last, rest)) if *last == plus || *last == minus => (*last, rest.join(" ")),
        _ => match words.split_first() {
            Some((first, rest)) if *first == plus || *first == minus => (*first, rest.join(" ")),
            _ => {
                return Err(shown(format_args!(
                    "'{}': say which way, {plus} or {minus}; write for example 2 mm {plus}",
                    clean(text)
                )));
            }
        },
    };
    let size = Length::parse(&rest).map_err(shown)?.mm();
    if size < 0.0 {
        return Err(
            format!("give the way as {plus} or {minus}, and the size without a minus").into(),
        );
    }
    Ok(if word == plus { size } else { 0.0 - size })
}

const TWO_PLACES: &str = "two places are wanted, such as 1 mm out at 4 in / 2 mm out at 24 in";

/// `1 mm out at 4 in / 2 mm out at 24 in`.
fn places(text: &str) -> Result<Value, Unread> {
    let one = |part: &str| {
        let (out, place) = part.split_once(" at ").ok_or_else(|| shown(TWO_PLACES))?;
        let place = Length::parse(place.trim()).map_err(shown)?.mm();
        Ok::<_, Unread>((place, signed(out.trim(), "out", "in")?))
    };
    let (near, far) = text.split_once(" / ").ok_or_else(|| shown(TWO_PLACES))?;
    let (near, far) = (one(near)?, one(far)?);
    if (near.0 - far.0).abs() < 50.0 {
        return Err("the two places must be at least 50 mm apart".into());
    }
    Ok(Value::Places(near, far))
}

/// Height of the bottom of the nock, then of the shaft's underside at the rest.
fn heights(text: &str) -> Result<Value, Unread> {
    let Value::Pair(nock, rest) = pair(text, |part| {
        Length::parse(part).map(Length::mm).map_err(shown)
    })?
    else {
        return Err("two heights are wanted".into());
    };
    Ok(Value::One(compute::nocking_height(nock, rest)))
}

fn pair(text: &str, one: impl Fn(&str) -> Result<f64, Unread>) -> Result<Value, Unread> {
    let parts: Vec<&str> = if text.contains(" / ") {
        text.split(" / ").collect()
    } else {
        text.split([',', ';']).collect()
    };
    match parts.as_slice() {
        [top, bottom] => Ok(Value::Pair(one(top.trim())?, one(bottom.trim())?)),
        _ => Err(shown(format_args!(
            "'{}': two values are wanted, top then bottom, such as 190 mm / 187 mm",
            clean(text)
        ))),
    }
}

fn turns(text: &str) -> Result<f64, Unread> {
    let scan =
        scan_number(text).ok_or_else(|| format!("'{}' is no number of turns", clean(text)))?;
    match scan.rest.trim() {
        "" | "turn" | "turns" if scan.value >= 0.0 => Ok(scan.value),
        _ => Err(shown(format_args!(
            "'{}': turns out from seated, such as 2 or 1 1/2",
            clean(text)
        ))),
    }
}

fn count(text: &str) -> Result<Value, Unread> {
    let first = text.split_whitespace().next().unwrap_or(text);
    first
        .parse::<u32>()
        .map(|n| Value::One(f64::from(n)))
        .map_err(|_| {
            shown(format_args!(
                "'{}' is no whole number; write for example 120",
                clean(text)
            ))
        })
}

/// `412 gr, 411.5, 413`: a unit once is enough.
fn masses(text: &str) -> Result<Value, Unread> {
    let parts: Vec<&str> = text
        .split([',', ';'])
        .map(str::trim)
        .filter(|p| !p.is_empty())
        .collect();
    let unit = parts
        .iter()
        .find_map(|p| {
            scan_number(p)
                .map(|s| s.rest.trim())
                .filter(|u| !u.is_empty())
        })
        .ok_or_else(|| shown("the unit is missing; write it once, such as 412 gr, 411.5, 413"))?;
    let read = |(i, part): (usize, &&str)| {
        let bare = scan_number(part).is_some_and(|s| s.rest.trim().is_empty());
        let full = if bare {
            format!("{part} {unit}")
        } else {
            (*part).to_owned()
        };
        Mass::parse(&full)
            .map(Mass::grains)
            .map_err(|e| shown(format_args!("arrow {}: {e}", i + 1)))
    };
    let all: Vec<f64> = parts
        .iter()
        .enumerate()
        .map(read)
        .collect::<Result<_, _>>()?;
    if all.len() < 3 {
        return Err("at least three arrows are wanted".into());
    }
    Ok(Value::Many(all))
}

/// `0.003 in over 28 in`; the standard span where none is said.
fn runout(text: &str) -> Result<Value, Unread> {
    let (reading, span) = match text.split_once("over") {
        Some((reading, span)) => (reading, Length::parse(span.trim()).map_err(shown)?.mm()),
        None => (text, compute::STANDARD_SPAN_MM),
    };
    let reading = Length::parse(reading.trim()).map_err(shown)?.mm();
    if !(200.0..=1000.0).contains(&span) || reading < 0.0 {
        return Err("a span between 8 and 39 in, and a reading that is not negative".into());
    }
    Ok(Value::RunOut {
        scaled: compute::straightness_28(reading, span),
        span,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn offsets_say_which_way() {
        assert_eq!(read(Measure::OutIn, "2 mm out"), Ok(Value::One(2.0)));
        assert_eq!(read(Measure::OutIn, "1/16 in in"), Ok(Value::One(-1.5875)));
        assert_eq!(read(Measure::OutIn, "out 2 mm"), Ok(Value::One(2.0)));
        assert_eq!(read(Measure::HighLow, "0"), Ok(Value::One(0.0)));
        assert!(
            read(Measure::OutIn, "2 mm")
                .unwrap_err()
                .problem
                .contains("which way")
        );
    }

    #[test]
    fn pairs_sets_and_run_outs_are_read() {
        assert_eq!(
            read(Measure::TopBottom, "190 mm / 187 mm"),
            Ok(Value::Pair(190.0, 187.0))
        );
        assert_eq!(read(Measure::Turns, "1 1/2 / 2"), Ok(Value::Pair(1.5, 2.0)));
        let Ok(Value::Many(all)) = read(Measure::Masses, "412 gr, 411.5, 413") else {
            panic!("three arrows")
        };
        assert_eq!(all.len(), 3);
        assert!((all[1] - 411.5).abs() < 1e-9);
        assert!(
            read(Measure::Masses, "412, 411, 413")
                .unwrap_err()
                .problem
                .contains("unit")
        );
        let Ok(Value::RunOut { scaled, .. }) = read(Measure::RunOut, "0.003 in over 25 in") else {
            panic!("a run-out")
        };
        assert!((scaled / 25.4 - 0.003 * 1.2544).abs() < 1e-9);
    }
    /// What does not show what would be right gets an example beside it.
    #[test]
    fn a_problem_knows_whether_it_shows_what_would_be_right() {
        let shows = |measure, text| read(measure, text).unwrap_err().shows;
        assert!(shows(Measure::Length, "7"));
        assert!(shows(Measure::OutIn, "2 mm"));
        assert!(shows(Measure::TopBottom, "190 mm"));
        assert!(shows(Measure::Turns, "2 mm / 2"));
        assert!(shows(Measure::Count, "many"));
        assert!(!shows(Measure::Length, ""));
        assert!(!shows(Measure::Turns, "x / 2"));
        assert!(!shows(Measure::RunOut, "0.003 in over 90 in"));
    }
}
