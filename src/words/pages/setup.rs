//! What the pages before paper say of their lines: the list and the range
//! safety list.

use super::super::setup::example;
use crate::range::Due;
use crate::setup::Measure;

/// The line that says that the bench stands elsewhere.
pub(crate) const ELSEWHERE: &str = "we are at another place: ask again";
/// All eight cannot be answered while one is off.
pub(crate) const PUT_RIGHT: &str = "this item is OFF: put it right, then Enter says it is ok";

/// An item of the range safety list is off.
pub(crate) fn off(said: &str) -> String {
    format!("{said}. Do not shoot before it is put right")
}

/// What stands over the range safety list.
pub(crate) const fn range_head(virtual_bow: bool, due: Option<Due>) -> &'static str {
    match due {
        _ if virtual_bow => {
            "This bow is virtual: nothing is drawn, one key goes on. On a real bow read all eight, every day."
        }
        None => {
            "It stands for today. It is due again tomorrow, with another shooter, at another place, after an incident."
        }
        Some(Due::Off(_)) => "An item is OFF. Put it right, choose it, then answer all.",
        Some(_) => "Read all eight. Enter: all in order.",
    }
}

/// What an item is answered with; one that is needed before the first shot is
/// not skipped.
pub(crate) fn keys(measure: Measure, needed: bool) -> String {
    match (measure, needed) {
        (Measure::Look, true) => "y ok, x off; Enter says what was found".into(),
        (Measure::Look, false) => "y ok, x off, s skip; Enter says what was found".into(),
        (Measure::Note, _) => "Enter writes it down; y done but not written, s skip".into(),
        (_, true) => format!("Enter or a digit types it: {}", example(measure)),
        (_, false) => format!(
            "Enter or a digit types it: {}; y in order but not measured, s skip",
            example(measure)
        ),
    }
}

/// The list is gone through.
pub(crate) fn now_paper(summary: &str) -> String {
    format!("{summary}: now paper. Esc, then type the first tear")
}

/// What a put-back is, on the page that shows it.
pub(crate) const TO_THE_BENCH: &str = "Enter takes this to the bench as a move to be confirmed.";
