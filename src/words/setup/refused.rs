//! Why what was said of an item of the list is not taken, and what would be.

use std::fmt;

use crate::setup::{Measure, PLACES_APART_MM, SetupError, SetupRefused, Unread};
use crate::units::clean;

/// What would be a right entry.
pub(crate) const fn example(measure: Measure) -> &'static str {
    match measure {
        Measure::Look => "ok, or what is wrong",
        Measure::Length => "178 mm, 7 in, 2.5 m",
        Measure::OutIn => "2 mm out, 1/16 in in, 0",
        Measure::HighLow => "3 mm high, 1/8 in high, 0",
        Measure::TopBottom => "190 mm / 187 mm, 7 1/2 in / 7 3/8 in",
        Measure::Turns => "2 / 2, 1 1/2 / 1 1/2",
        Measure::Force => "61.5 lb",
        Measure::Count => "120",
        Measure::Mass => "412 gr",
        Measure::Masses => "412 gr, 411.5, 413",
        Measure::RunOut => "0.003 in over 28 in",
        Measure::Note => "any words",
    }
}

/// What is wrong, and whether that shows what would be right.
fn unread(unread: &Unread) -> (String, bool) {
    let shows = |text: String| (text, true);
    let wrong = |text: &str| (text.to_owned(), false);
    match unread {
        Unread::Nothing => wrong("nothing was entered"),
        Unread::Quantity(problem) => shows(problem.to_string()),
        Unread::NoWay(text, (plus, minus)) => shows(format!(
            "'{}': say which way, {plus} or {minus}; write for example 2 mm {plus} or 1/16 in {plus}",
            clean(text)
        )),
        Unread::Minus((plus, minus)) => wrong(&format!(
            "give the way as {plus} or {minus}, and the size without a minus"
        )),
        Unread::TwoPlaces => {
            shows("two places are wanted, such as 1 mm out at 4 in / 2 mm out at 24 in".into())
        }
        Unread::PlacesTooNear => wrong(&format!(
            "the two places must be at least {PLACES_APART_MM} mm (2 in) apart"
        )),
        Unread::TwoValues(text) => shows(format!(
            "'{}': two values are wanted, top then bottom, such as 190 mm / 187 mm or 7 1/2 in / 7 3/8 in",
            clean(text)
        )),
        Unread::NoTurns(text) => wrong(&format!("'{}' is no number of turns", clean(text))),
        Unread::NotFromSeated(text) => shows(format!(
            "'{}': turns out from seated, such as 2 or 1 1/2",
            clean(text)
        )),
        Unread::NotWhole(text) => shows(format!(
            "'{}' is no whole number; write for example 120",
            clean(text)
        )),
        Unread::NoUnit => {
            shows("the unit is missing; write it once, such as 412 gr, 411.5, 413".into())
        }
        Unread::Arrow(number, problem) => shows(format!("arrow {number}: {problem}")),
        Unread::FewArrows => wrong("at least three arrows are wanted"),
        Unread::NoRunOut => wrong("give a span of 8 to 39 in and a reading of 0 or more"),
    }
}

impl fmt::Display for SetupRefused {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unread(measure, why) => match unread(why) {
                (text, true) => out.write_str(&text),
                (text, false) => write!(out, "{text}; write for example {}", example(*measure)),
            },
            Self::NoSuchItem(has) => {
                let ids: Vec<&str> = has.iter().map(|item| item.id()).collect();
                let ids = ids.join(", ");
                write!(out, "this bow's list has no such item; it has {ids}")
            }
            Self::NeverSkipped => {
                out.write_str("this is a safety item and is not skipped; answer ok when it is so")
            }
            Self::WantsFigure(measure) => write!(
                out,
                "a safety item wants its figure, such as {}",
                example(*measure)
            ),
        }
    }
}

impl fmt::Display for SetupError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{}: {}", clean(&self.item.word()), self.why)
    }
}

impl std::error::Error for SetupError {}
