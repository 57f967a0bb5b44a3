//! What the console says of itself as lines.

/// What can be typed.
pub(crate) const HELP: &str = "Type a tear (12 left 4 high), or an action by name or key, with what it wants after it (note string changed; own-move rest left 1.5 mm; new blue). up, down, enter and back work as keys, down 3 three times. An empty line reads everything again. keys lists the actions that work now.";
/// What the next line does where one was refused.
pub(crate) const AGAIN: &str =
    "An empty line tries it again, back leaves it, anything else replaces it";
/// Marks are set with the cursor.
pub(crate) const NO_MARKS: &str =
    "marks need the screen; type the tear instead, such as 12 left 4 high";

/// No action has this name here.
pub(crate) fn no_action(line: &str) -> String {
    format!("{line}: nothing of that name works here; keys lists what does, back leaves")
}

/// A line is neither tear nor action.
pub(crate) fn not_recorded(problem: &str) -> String {
    format!("{problem}; not recorded. help says what can be typed")
}
