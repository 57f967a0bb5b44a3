//! What is said of the session's file: read again, changed elsewhere, opened,
//! begun; and of the files that the bench book lists.

use super::super::{count, entries};

/// Read again, and the file was changed by another program.
pub(crate) const READ_CHANGED: &str = "read again: the file was changed";
/// The session is kept nowhere.
pub(crate) const IN_MEMORY: &str = "there is no file: this session is in memory only";
/// It was open for reading, and now for writing.
pub(crate) const YOURS: &str = "the file is yours now: entries can be recorded";
/// Read again at the user's word.
pub(crate) const READ_AGAIN: &str = "read again, as it is on disk now";

/// Another program changed the file while it is open for writing.
pub(crate) fn changed(name: &str, key: &str) -> String {
    format!(
        "{name} was changed by another program; {key} reads it again, and until then nothing is written over it"
    )
}

/// The file cannot be read any more.
pub(crate) fn gone(name: &str, problem: &str) -> String {
    format!(
        "{name} cannot be read any more: {problem}. What is on screen was read before; put it back, and go on"
    )
}

/// What another program recorded.
pub(crate) fn elsewhere(recorded: &[String]) -> String {
    match recorded.len() {
        0 => READ_CHANGED.into(),
        1..=3 => format!("recorded elsewhere: {}", recorded.join("; ")),
        n => format!("recorded elsewhere: {n} entries"),
    }
}

/// Read again, and something is to be said of it.
pub(crate) fn read_again_but(what: &str) -> String {
    format!("read again; {what}")
}

/// A line could not be recorded because the file changed underneath.
pub(crate) fn held(problem: &str) -> String {
    format!("{problem}. Enter reads it as it is now and records this")
}

/// The session is open for reading only because its file is so on disk.
pub(crate) fn marked_read_only(name: &str) -> String {
    format!("reading only: {name} is marked read-only on disk")
}

/// The session is open for reading only.
pub(crate) fn reading_only(why: &str) -> String {
    format!("reading only: {why}")
}

/// Practice was saved as a file.
pub(crate) fn practice_kept(path: &str) -> String {
    format!("{path} holds the practice so far; what follows is not kept")
}

/// A new session is begun: what earlier bows teach, and what comes next.
pub(crate) fn begun(path: &str, taught: Option<&str>, before: &str) -> String {
    let taught = taught.map_or(String::new(), |taught| {
        format!(" Earlier bows teach: {taught}.")
    });
    format!("{path} is started.{taught} Next: {before}, the list before paper")
}

/// A visit is begun from the card of an earlier session.
pub(crate) fn begun_from(path: &str, taught: Option<&str>, notes: &[String]) -> String {
    let taught = taught.map(|taught| format!("earlier bows teach: {taught}"));
    let mut all = vec![format!("{path} is started")];
    all.extend(taught);
    all.extend_from_slice(notes);
    all.join("; ")
}

/// Shots were handed to the session of another bow.
pub(crate) fn handed_over(shots: usize, path: &str, copies: &[u32]) -> String {
    format!(
        "{} count in {path} now, as entries {}",
        count(shots, "shot"),
        entries(copies)
    )
}

/// No session is chosen to compare the open one with.
pub(crate) const CHOOSE_TO_COMPARE: &str = "choose a session to compare with";
/// The open session is compared with itself.
pub(crate) const COMPARE_ANOTHER: &str =
    "this is the open session: choose another one of the same bow";
/// No session is chosen to begin a visit from.
pub(crate) const CHOOSE_CARD: &str = "choose the session whose card is to be used";
/// Under a line that would hold the name of a session's file.
pub(crate) const NAME_OF_FILE: &str = "the name of a session file";
/// The file named does not exist.
pub(crate) const NO_SUCH_FILE: &str = "no file of that name yet";
