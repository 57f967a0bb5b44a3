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
        (AdjusterUnit::Mm, _) | (_, System::Mm) => format!("{:.1}", tidy_zero(mm)),
        (_, System::Inch) => format!("{:.2}", tidy_zero(mm / 25.4)),
    }
}

/// No minus before a nought.
fn tidy_zero(v: f64) -> f64 {
    if v.abs() < 0.005 { 0.0 } else { v }
}
