//! What earlier bows taught, in words.

use crate::gear::{AdjusterKind, AdjusterUnit};
use crate::session::LearnedRecord;
use crate::units::System;

/// What a prior that rests on earlier bows rests on: `11 bows of this kind,
/// release and rest in the folder (14 sessions)`.
pub fn learned(record: &LearnedRecord) -> String {
    let count = |n: u32, what: &str| super::count(n as usize, what);
    let mut text = format!(
        "{} of this kind, release and rest in the folder ({}",
        count(record.bows, "bow"),
        count(record.sessions, "session")
    );
    if record.own > 0 {
        text.push_str(&format!(", {} of this bow's own", record.own));
    }
    text.push(')');
    if let Some([read, of]) = record.read {
        text.push_str(&format!("; the newest {read} of {of} files were read"));
    }
    if let Some(scatter) = &record.scatter {
        text.push_str(&format!(
            "; the owner's scatter from {}",
            count(scatter.repeats, "repeat")
        ));
    }
    text
}

/// Why a move that this bow has not answered yet is a correction all the same;
/// `answer` says what the adjuster does.
pub(crate) fn earlier_bows(bows: u32, answer: &str) -> String {
    format!(
        "{} of the folder: {answer}. Not shown by this bow yet; the next shot checks it.",
        super::count(bows as usize, "earlier bow")
    )
}

/// What a slope of an adjuster counts, as a heading.
pub(crate) fn slope_of(kind: AdjusterKind, system: System) -> String {
    let name = kind.spoken();
    match (kind.unit(), system) {
        (AdjusterUnit::Mm, _) => format!("{name}: times its own move that the tear goes"),
        (unit, System::Mm) => format!("{name}: mm of tear for 1 {}", unit.id()),
        (unit, System::Inch) => format!("{name}: inches of tear for 1 {}", unit.id()),
    }
}

/// A slope with its sign, as [`slope_of`] counts it: `-2.3`.
pub fn slope(mm: f64, kind: AdjusterKind, system: System) -> String {
    match (kind.unit(), system) {
        (AdjusterUnit::Mm, _) | (_, System::Mm) => places(mm, 1),
        (_, System::Inch) => places(mm / 25.4, 2),
    }
}

/// So many decimals, and no minus before a nought.
fn places(value: f64, decimals: usize) -> String {
    let unit = 10_f64.powi(decimals as i32);
    let rounded = (value * unit).round() / unit;
    let shown = if rounded == 0.0 { 0.0 } else { rounded };
    format!("{shown:.decimals$}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slope_has_its_sign_and_a_nought_has_none() {
        use AdjusterKind::{PlungerTension, RestSideways};
        for (mm, wanted) in [
            (-2.34, "-2.3"),
            (2.36, "2.4"),
            (-0.04, "0.0"),
            (0.04, "0.0"),
        ] {
            for system in [System::Mm, System::Inch] {
                assert_eq!(slope(mm, RestSideways, system), wanted);
            }
            assert_eq!(slope(mm, PlungerTension, System::Mm), wanted);
        }
        assert_eq!(slope(-12.7, PlungerTension, System::Inch), "-0.50");
        assert_eq!(slope(-0.1, PlungerTension, System::Inch), "0.00");
        assert_eq!(slope(-0.06, RestSideways, System::Mm), "-0.1");
    }
}
