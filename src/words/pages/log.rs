//! What the log says of its entries and of what is done to them.

use super::super::{count, entries};
use crate::session::Timeline;
use crate::units::System;

/// The cursor is on no entry.
pub(crate) const NO_ENTRY: &str = "there is no entry here";
/// A session without a file hands nothing over.
pub(crate) const NOT_IN_A_FILE: &str =
    "this session is not kept in a file, so nothing can go to another";
/// The session named to hand shots to is the open one.
pub(crate) const SAME_SESSION: &str = "that is this session; type the name of the other bow's";
/// The entry led to no setting and was shot at none.
pub(crate) const NO_SETTING: &str = "no setting belongs to this entry; choose a shot or a move";
/// Under a move that is to be placed.
pub(crate) fn as_people_say(system: System) -> String {
    let example = super::super::move_example(system);
    format!("the move as people say it: {example}")
}
/// Under the name of the session that shots go to.
pub(crate) const OTHER_FILE: &str = "the session file of the bow they were shot with";
/// The log is empty.
pub(crate) const EMPTY: &str = "Nothing is recorded yet";

/// No shot follows the entry, so no move can be placed before one.
pub(crate) fn no_shot_follows(key: &str) -> String {
    format!("no shot follows this entry: Esc, then {key} records a move made now")
}

/// What placing a move does, before it is placed.
pub(crate) fn places(what: &[String]) -> String {
    format!("{}. Enter places it, Esc does not", what.join(". "))
}

/// No session has this name.
pub(crate) fn no_session(path: &str) -> String {
    format!("there is no session {path}; type the name of one")
}

/// What handing shots over does, before it is done; `to` is the other session
/// as it stands.
pub(crate) fn hands(shots: &[u32], path: &str, to: &Timeline, system: System) -> String {
    format!(
        "{} (entries {}) go to {path}: {}, at its setting {}, {}. Here they no longer count. Enter hands them over, Esc does not",
        count(shots.len(), "shot"),
        entries(shots),
        to.card.title(),
        to.setting().number,
        super::super::standing(to, system)
    )
}

/// An entry was redone.
pub(crate) fn counts_again(entry: u32) -> String {
    format!("entry {entry} counts again")
}

/// An entry was undone.
pub(crate) fn counts_no_longer(entry: u32) -> String {
    format!("entry {entry} no longer counts; it stays in the log")
}

/// The bow was put back to the setting of an entry.
pub(crate) fn back_at(setting: u32, undo: &str) -> String {
    format!(
        "recorded: the bow is back at setting {setting}; the likely tear is forgotten. {undo} undoes it"
    )
}

/// A move was placed before a shot.
pub(crate) fn was_placed(entry: u32, placed: &str) -> String {
    format!("recorded as entry {entry}: {placed}")
}
