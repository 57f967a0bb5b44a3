//! What the panes say where the verdict has no words for it, and what is said
//! where they cannot be drawn.

/// Over a card that is no session yet.
pub(crate) const NEW_SESSION: &str =
    "A NEW SESSION: check the card, then start it; nothing is kept before";
/// The same where there is no room for all of it.
pub(crate) const NEW_SESSION_SHORT: &str = "A NEW SESSION: check the card, then start it";
/// Before the first tear.
pub(crate) const NO_TEARS: &str = "No tears yet: they line up here";
/// Only the technician shot.
pub(crate) const OWNER_SHOOTS: &str = "Judged by the technician's shots: let the owner shoot";
/// Where the cursor goes on the grid first.
pub(crate) const POINT_HOLE: &str = "put it on the point hole";
/// What is done at the bench where another move was made.
pub(crate) const OTHER_MOVE: &str = "something else was made: type it, or a calipers reading";
/// What leaving the bench does.
pub(crate) const LATER: &str = "leave it for later; it stays pending";
/// No scheme can be shown.
pub(crate) const NO_COLOURS: &str =
    "No colours are written here: NO_COLOR, the terminal or the settings say so";

/// The keys of a move at the bench: made as shown, another, none, shown.
pub(crate) fn pending(made: &str, other: &str, none: &str, shown: &str) -> String {
    format!("{made} made as shown, {other} other, {none} not made, {shown} shows how")
}

/// A look is in use: the setting that keeps it, and where.
pub(crate) fn look_in_use(setting: &str, word: &str, file: &str) -> String {
    format!(
        "In use until you leave. To keep it, write {setting} = \"{word}\" under [display] in {file}"
    )
}

/// The window is too small: what is needed and what there is, in columns and
/// rows.
pub(crate) fn too_small(needs: (u16, u16), has: (u16, u16), quit: &str) -> String {
    format!(
        "tearbench needs {} columns and {} rows; here are {} and {}. Make the window larger, or {quit} quits.",
        needs.0, needs.1, has.0, has.1
    )
}

/// What the console needs a terminal for, and what does without.
const INSTEAD: &str = "without one use: tearbench advise, shot, move (tearbench --help lists them)";

/// The terminal places no text.
pub(crate) fn dumb() -> String {
    format!("the console needs a terminal that can place text, and TERM is dumb; {INSTEAD}")
}

/// There is no terminal.
pub(crate) fn no_terminal() -> String {
    format!("the console needs a terminal for input and output; {INSTEAD}")
}

/// A part of the program failed.
pub(crate) const BROKEN: &str = "a part of the program failed; everything recorded is on disk";
