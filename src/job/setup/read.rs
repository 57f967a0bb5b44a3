//! Reading what was measured, with its units.

use super::compute;
use super::item::Measure;
use crate::units::{Force, Length, Mass, QuantityError, clean, scan_number};

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

/// Why a value cannot be read; said in [`crate::words`].
#[derive(Debug, Clone, PartialEq)]
pub enum Unread {
    /// Nothing was entered.
    Nothing,
    /// No length, weight or force.
    Quantity(QuantityError),
    /// It does not say which of two ways.
    NoWay(String, Ways),
    /// A minus beside the way.
    Minus(Ways),
    /// Offsets at two places are wanted.
    TwoPlaces,
    /// The two places are nearer to each other than [`PLACES_APART_MM`].
    PlacesTooNear,
    /// Two values are wanted.
    TwoValues(String),
    /// No number of turns.
    NoTurns(String),
    /// No turns out from seated.
    NotFromSeated(String),
    /// No whole number.
    NotWhole(String),
    /// No arrow of the set has its unit.
    NoUnit,
    /// The weight of one arrow of the set, by its place from 1.
    Arrow(usize, QuantityError),
    /// Fewer than three arrows.
    FewArrows,
    /// A reading below zero, or a span that no run-out is read over.
    NoRunOut,
}

/// The words for the positive way and for the other.
type Ways = (&'static str, &'static str);
const OUT_IN: Ways = ("out", "in");
const HIGH_LOW: Ways = ("high", "low");

/// Least distance between the two places an offset is read at, mm.
pub(crate) const PLACES_APART_MM: f64 = 50.0;

fn length_mm(text: &str) -> Result<f64, Unread> {
    let found = Length::parse(text.trim()).map_err(Unread::Quantity)?;
    Ok(found.mm())
}

pub(super) fn read(measure: Measure, text: &str) -> Result<Value, Unread> {
    let text = text.trim();
    if text.is_empty() {
        return Err(Unread::Nothing);
    }
    match measure {
        Measure::Look => Ok(look(text)),
        Measure::Length => length_mm(text).map(Value::One),
        Measure::OutIn if text.contains(" at ") => places(text),
        Measure::HighLow if text.contains(" / ") => heights(text),
        Measure::OutIn => signed(text, OUT_IN).map(Value::One),
        Measure::HighLow => signed(text, HIGH_LOW).map(Value::One),
        Measure::TopBottom => pair(text, length_mm).map(|(top, bottom)| Value::Pair(top, bottom)),
        Measure::Turns => pair(text, turns).map(|(top, bottom)| Value::Pair(top, bottom)),
        Measure::Force => Force::parse(text)
            .map(|f| Value::One(f.pounds()))
            .map_err(Unread::Quantity),
        Measure::Count => count(text),
        Measure::Mass => Mass::parse(text)
            .map(|m| Value::One(m.grains()))
            .map_err(Unread::Quantity),
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
fn signed(text: &str, ways: Ways) -> Result<f64, Unread> {
    let is_way = |word: &str| word == ways.0 || word == ways.1;
    // Nothing has no way.
    let nothing = scan_number(text).is_some_and(|s| s.value == 0.0 && s.rest.trim().is_empty());
    if nothing || Length::parse(text).is_ok_and(|l| l.mm() == 0.0) {
        return Ok(0.0);
    }
    let lower = text.to_lowercase();
    let words: Vec<&str> = lower.split_whitespace().collect();
    let (word, rest) = match (words.split_last(), words.split_first()) {
        (Some((last, rest)), _) if is_way(last) => (*last, rest.join(" ")),
        (_, Some((first, rest))) if is_way(first) => (*first, rest.join(" ")),
        _ => return Err(Unread::NoWay(text.into(), ways)),
    };
    let size = length_mm(&rest)?;
    if size < 0.0 {
        return Err(Unread::Minus(ways));
    }
    Ok(if word == ways.0 { size } else { 0.0 - size })
}

/// `1 mm out at 4 in / 2 mm out at 24 in`.
fn places(text: &str) -> Result<Value, Unread> {
    let one = |part: &str| {
        let (out, place) = part.split_once(" at ").ok_or(Unread::TwoPlaces)?;
        Ok::<_, Unread>((length_mm(place)?, signed(out.trim(), OUT_IN)?))
    };
    let (near, far) = text.split_once(" / ").ok_or(Unread::TwoPlaces)?;
    let (near, far) = (one(near)?, one(far)?);
    if (near.0 - far.0).abs() < PLACES_APART_MM {
        return Err(Unread::PlacesTooNear);
    }
    Ok(Value::Places(near, far))
}

/// Height of the bottom of the nock, then of the shaft's underside at the rest.
fn heights(text: &str) -> Result<Value, Unread> {
    let (nock, rest) = pair(text, length_mm)?;
    Ok(Value::One(compute::nocking_height(nock, rest)))
}

fn pair(text: &str, one: impl Fn(&str) -> Result<f64, Unread>) -> Result<(f64, f64), Unread> {
    let parts: Vec<&str> = if text.contains(" / ") {
        text.split(" / ").collect()
    } else {
        text.split([',', ';']).collect()
    };
    match parts.as_slice() {
        [top, bottom] => Ok((one(top.trim())?, one(bottom.trim())?)),
        _ => Err(Unread::TwoValues(text.into())),
    }
}

fn turns(text: &str) -> Result<f64, Unread> {
    let scan = scan_number(text).ok_or_else(|| Unread::NoTurns(text.into()))?;
    match scan.rest.trim() {
        "" | "turn" | "turns" if scan.value >= 0.0 => Ok(scan.value),
        _ => Err(Unread::NotFromSeated(text.into())),
    }
}

fn count(text: &str) -> Result<Value, Unread> {
    let first = text.split_whitespace().next().unwrap_or(text);
    first
        .parse::<u32>()
        .map(|n| Value::One(f64::from(n)))
        .map_err(|_| Unread::NotWhole(text.into()))
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
        .ok_or(Unread::NoUnit)?;
    let read = |(i, part): (usize, &&str)| {
        let bare = scan_number(part).is_some_and(|s| s.rest.trim().is_empty());
        let full = if bare {
            format!("{part} {unit}")
        } else {
            (*part).to_owned()
        };
        Mass::parse(&full)
            .map(Mass::grains)
            .map_err(|e| Unread::Arrow(i + 1, e))
    };
    let all: Vec<f64> = parts
        .iter()
        .enumerate()
        .map(read)
        .collect::<Result<_, _>>()?;
    if all.len() < 3 {
        return Err(Unread::FewArrows);
    }
    Ok(Value::Many(all))
}

/// `0.003 in over 28 in`; the standard span where none is said.
fn runout(text: &str) -> Result<Value, Unread> {
    let (reading, span) = match text.split_once("over") {
        Some((reading, span)) => (reading, length_mm(span)?),
        None => (text, compute::STANDARD_SPAN_MM),
    };
    let reading = length_mm(reading)?;
    if !(200.0..=1000.0).contains(&span) || reading < 0.0 {
        return Err(Unread::NoRunOut);
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
        let no_way = Unread::NoWay("2 mm".into(), OUT_IN);
        assert_eq!(read(Measure::OutIn, "2 mm"), Err(no_way));
        let minus = Unread::Minus(HIGH_LOW);
        assert_eq!(read(Measure::HighLow, "-2 mm high"), Err(minus));
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
        let none = read(Measure::Masses, "412, 411, 413");
        assert_eq!(none, Err(Unread::NoUnit));
        let Ok(Value::RunOut { scaled, .. }) = read(Measure::RunOut, "0.003 in over 25 in") else {
            panic!("a run-out")
        };
        assert!((scaled / 25.4 - 0.003 * 1.2544).abs() < 1e-9);
    }

    #[test]
    fn what_cannot_be_read_is_told_apart() {
        let unread = |measure, text| read(measure, text).unwrap_err();
        assert_eq!(unread(Measure::Length, " "), Unread::Nothing);
        let places = |far| format!("1 mm out at 100 mm / 2 mm out at {far} mm");
        let one_place = unread(Measure::OutIn, "1 mm out at 4 in");
        assert_eq!(one_place, Unread::TwoPlaces);
        assert!(read(Measure::OutIn, &places(150)).is_ok());
        let near = read(Measure::OutIn, &places(149));
        assert_eq!(near, Err(Unread::PlacesTooNear));
        let two = Unread::TwoValues("190 mm".into());
        assert_eq!(unread(Measure::TopBottom, "190 mm"), two);
        assert_eq!(unread(Measure::Turns, "x / 2"), Unread::NoTurns("x".into()));
        let seated = Unread::NotFromSeated("2 mm".into());
        assert_eq!(unread(Measure::Turns, "2 mm / 2"), seated);
        assert_eq!(
            unread(Measure::Count, "many"),
            Unread::NotWhole("many".into())
        );
        assert_eq!(unread(Measure::Masses, "412 gr, 411"), Unread::FewArrows);
        assert!(matches!(
            unread(Measure::Masses, "412 gr, 411, x gr"),
            Unread::Arrow(3, _)
        ));
        for wrong in ["0.003 in over 90 in", "-0.003 in over 28 in"] {
            assert_eq!(unread(Measure::RunOut, wrong), Unread::NoRunOut, "{wrong}");
        }
    }
}
