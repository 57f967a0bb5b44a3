//! What the pages of practice say of their lines.

/// The line that saves practice.
pub(crate) const SAVE: &str = "save this session as a file";
/// The line that asks for a guess first, while it does.
pub(crate) const ASKED: &str = "your guess is asked before the advice: Enter leaves that off";
/// The same, while it does not.
pub(crate) const NOT_ASKED: &str = "no guess is asked before the advice: Enter asks one";
/// Over what changes the bow.
pub(crate) const FIXES: &str = "FIXES: they change the bow, and the round goes on";
/// Over what only tells.
pub(crate) const TESTS: &str = "TESTS: they tell, and change nothing";
/// Over the answers.
pub(crate) const ANSWER: &str = "YOUR ANSWER: it ends the round";
/// A bow of this level, after the first steps.
pub(crate) const FIRST: &str = "practise: another bow with something wrong";
/// Another bow as hard as this one.
pub(crate) const SAME_LEVEL: &str = "another bow of this level";
/// A harder bow.
pub(crate) const NEXT_LEVEL: &str = "a bow of the next level";
/// The bow from its start.
pub(crate) const AGAIN: &str = "this bow again, from the start";
/// A session of one's own.
pub(crate) const OWN: &str = "your own bow: a session of your own";
/// On with the bow.
pub(crate) const BACK: &str = "back to this bow as it stands";

/// The line after which no guess is asked.
pub(crate) fn never_ask(key: &str) -> String {
    format!("do not ask me first ({key} can ask again)")
}

/// How practice goes on this level.
pub(crate) fn so_far(done: &str) -> String {
    format!("This level so far: {done}.")
}
