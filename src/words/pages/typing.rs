//! What the key line says of what is typed on it, and once it is recorded.

/// Under a line that would hold the name of a new session's file.
pub(crate) const NEW_FILE: &str = "a file name such as blue-bow; then its card";
/// A session's file is never written over.
pub(crate) const FILE_EXISTS: &str = "that file exists already and is never replaced";
/// Under a line that holds what stood there before.
pub(crate) const STANDS: &str = "Enter keeps it; typing replaces it, an arrow key changes it";
/// Under the line that finds an action.
pub(crate) const FIND: &str = "a few letters, up and down, Enter";
/// Under a note.
pub(crate) const NOTE: &str = "Enter keeps it, Esc does not";
/// Nothing was given to record.
pub(crate) const NOTHING: &str = "there is nothing to record";
/// The archer judged the next shot bad before looking, or no longer does.
pub(crate) const CALLED_BAD: (&str, &str) = ("the next shot is called bad", "the next shot counts");
/// From which side the sheet is read from now on: the target's, the shooter's.
pub(crate) const READ_FROM: (&str, &str) = (
    "the sheet is read from the target side",
    "the sheet is read from the shooter's side",
);
/// A pending move was not made.
pub(crate) const NOT_MADE: &str = "recorded: the move was not made";
/// The first steps are asked for where they cannot be taken.
pub(crate) const FIRST_STEPS_ELSEWHERE: &str =
    "the first steps are on the demo: leave, and start tearbench without a file";

/// Under a tear that is not begun yet: two examples, and what arrows write.
pub(crate) fn tear(example: &str, short: &str) -> String {
    format!("{example}, {short}, clean; arrows write left, right, high, low")
}

/// A line that was held because the file had changed, and is wrong still.
pub(crate) fn correct_it(problem: &str) -> String {
    format!("{problem}. Correct it, then press Enter again")
}

/// A tear so long that it is asked about.
pub(crate) fn long_tear(size: &str) -> String {
    format!("{size} is a long tear: is that right? Enter records it, Esc does not")
}

/// A move that ends past the travel on the card.
pub(crate) fn past_travel(moved: &str) -> String {
    format!("{moved}: past the travel on the card, is that right? Enter records it, Esc does not")
}

/// The folder of a new session's file is asked about.
pub(crate) fn no_folder(folder: &str) -> String {
    format!("there is no folder {folder}. Enter makes it, or type another name")
}

/// The folder cannot be made.
pub(crate) fn no_new_folder(folder: &str, error: &std::io::Error) -> String {
    format!("cannot make the folder {folder}: {error}; type another name")
}

/// The name of a new session is taken.
pub(crate) fn other_name() -> String {
    format!("{FILE_EXISTS}; type another name")
}

/// A note is on disk.
pub(crate) fn note_kept(entry: u32) -> String {
    format!("note kept as entry {entry}")
}

/// A move is on disk.
pub(crate) fn move_recorded(moved: &str) -> String {
    format!("move recorded: {moved}")
}

/// A move waits at the bench already.
pub(crate) fn pending_already(key: &str) -> String {
    format!("a move is pending already: Esc, then {key} shows it")
}

/// A shot was recorded while a move waits to be confirmed: moved, shot, and
/// never said so.
pub(crate) fn before_the_move(recorded: &str, undo: &str, made: &str) -> String {
    format!(
        "{recorded}, at the setting before the pending move. Was the move made? {undo} undoes the shot, {made} confirms the move, then enter it again"
    )
}

/// What the next shots are recorded with, for the test that is asked for.
pub(crate) fn for_this_test(how: &str, key: &str) -> String {
    format!("the next shots are recorded for this test: {how}; {key} changes that")
}

/// The likely tear is forgotten at the user's word.
pub(crate) fn started_over(undo: &str) -> String {
    format!("the likely tear is forgotten; what the adjusters do is kept. {undo} undoes it")
}

/// Work at the press is on disk.
pub(crate) fn press_work(due: usize) -> String {
    let due = super::super::count(due, "item");
    format!("press work recorded: {due} due again, the likely tear is forgotten")
}

/// What comes before the next shot while the range safety list is due.
pub(crate) fn range_list_first(key: &str) -> String {
    format!("First the range safety list: press {key}")
}

/// A digit that no answer of the page has.
pub(crate) fn no_answer(digit: char) -> String {
    format!("there is no answer {digit} here")
}

/// A key that does nothing where it was pressed.
pub(crate) fn does_nothing(key: &str) -> String {
    format!("{key} does nothing here; ? shows the keys")
}
