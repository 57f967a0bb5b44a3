//! What the card page says of its lines and of what is done on them.

use super::super::{count, danger};
use crate::checks::safety::Danger;
use crate::session::Resets;

/// What earlier bows teach counts on this card.
pub(crate) const TAUGHT: &str = "what the folder's other sessions teach is used";
/// It was left out, and is used again.
pub(crate) const TAUGHT_AGAIN: &str = "what earlier bows teach is used again";
/// It was used, and is left out.
pub(crate) const NOT_TAUGHT: &str = "what earlier bows teach is left out";
/// There is nothing to use.
pub(crate) const NOTHING_TAUGHT: &str =
    "the other sessions of the folder teach nothing of this bow";
/// The line about earlier bows, while they are used.
pub(crate) const ABOUT_TAUGHT: &str = "The other sessions of this folder say what to expect of this kind of bow, release and rest: how many bows, no names. Enter leaves it out.";
/// The line about earlier bows, while they are left out.
pub(crate) const ABOUT_NOT_TAUGHT: &str =
    "What the other sessions of this folder teach is left out. Enter uses it.";
/// What the last line of a new card does.
pub(crate) const STARTS: &str = "Enter makes the session file from this card";
/// What comes once a new card is in use.
pub(crate) const THEN: &str = "Then shoot, and type the tear.";
/// An empty line on the card.
pub(crate) const EMPTY: &str = "empty takes it off the card";
/// Leaving a new card that is no session yet.
pub(crate) const NOTHING_MADE: &str =
    "nothing is made yet: the last line starts the session, Esc again leaves without it";

/// All of a new card is confirmed.
pub(crate) fn may_start(said: &str) -> String {
    format!("{said}. Enter starts the session")
}

/// No line of a section waits to be confirmed.
pub(crate) fn nothing_waits(section: &str) -> String {
    format!("nothing under {section} waits to be confirmed")
}

/// Lines that nobody looked at, before a session starts on them.
pub(crate) fn look_first(lines: usize, section: &str) -> String {
    format!(
        "{} still unchecked, such as this one: Enter keeps it, {section} keeps its section. The last line again starts all the same; nothing is called done until they are confirmed",
        count(lines, "line")
    )
}

/// What a change of the card is, where shots stand already.
pub(crate) fn typo_or_changed(lost: Resets) -> String {
    let lost = match lost {
        Resets::Arrow => "likely tear and response unknown again",
        Resets::Bow => "the likely tear is unknown again",
    };
    format!("1: typo, shots count on. 2: changed, {lost}. Enter is 2, Esc twice drops it")
}

/// Leaving a card whose changes are not recorded.
pub(crate) fn drops(changes: usize) -> String {
    format!(
        "{} not recorded: Esc again drops it",
        count(changes, "change")
    )
}

/// A change that cannot stand without another.
pub(crate) fn something_else(problem: &str) -> String {
    format!("not recorded yet, something else must change too: {problem}")
}

/// A change of the card lifted what stopped the bow.
pub(crate) fn lifts(was: &Danger) -> String {
    format!(
        ". It lifts DO NOT SHOOT, and the sheet says so: {}",
        danger(was)
    )
}
