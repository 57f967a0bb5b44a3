//! What to do next, over the key line: single hints, what is due again, the
//! first steps. `{}` is the key, put in where it is shown.

/// Heading of a single hint.
pub(crate) const HINT: &str = "Hint:";
/// The way on where the verdict refuses.
pub(crate) const TROUBLE: &str = "{} is troubleshooting, step by step";
/// Heading of what the moves made due again.
pub(crate) const DUE_AGAIN: &str = "Due again since the moves:";

/// Before the first shot of the day.
pub(crate) const RANGE: &str = "Is the range safe? {} shows eight items: read them, then Enter. This bow is virtual; on yours every item counts";
/// The first shot.
pub(crate) const SHOOT: &str =
    "{} shoots this virtual bow through the paper. You see the hole from where you stand";
/// The second shot at the same setting.
pub(crate) const REPEAT: &str =
    "One hole may be luck. {} shoots again; nothing moves before two shots agree";
/// A question that is answered in words.
pub(crate) const ASK: &str = "{} answers what the console asks";
/// To the bench with the move.
pub(crate) const TAKE: &str =
    "Two shots agree. {} takes the move to the bench, worded for a bow lying there";
/// The move is made.
pub(crate) const MAKE: &str = "You turn the screw, then {} says that the move was made as shown";
/// The shot that shows what the move did.
pub(crate) const CHECK: &str = "{} shoots: the next hole shows what the move did";
/// Within tolerance.
pub(crate) const WITHIN: &str = "Within tolerance. {} shows what had been wrong with this bow";

/// Single hints, one an action.
pub(crate) mod hint {
    /// Entering a tear; `{tear}` is an example.
    pub(crate) const SHOT: &str = "a digit starts a tear: {tear}, then Enter";
    /// To the bench.
    pub(crate) const TAKE_MOVE: &str = "{} takes the move to the bench";
    /// The move was made.
    pub(crate) const AS_SHOWN: &str = "{} once the move is made as shown";
    /// A question or test.
    pub(crate) const ANSWER: &str = "{} answers what is asked";
    /// Help.
    pub(crate) const HELP: &str = "{} explains what is on the screen now";
    /// The reasons.
    pub(crate) const WHY: &str = "{} says how the verdict was reached";
    /// Undo.
    pub(crate) const UNDO: &str = "{} undoes the latest entry";
    /// Calling a shot bad.
    pub(crate) const CALL_BAD: &str = "{} before looking calls the next shot bad";
    /// The four checks.
    pub(crate) const CHECKS: &str = "{} shows the four checks with their figures";
    /// Block letters.
    pub(crate) const LETTERS: &str = "{} shows the verdict large, to read from across the room";
}

/// What the moves made due again, and the key to the list.
pub(crate) fn due_again(names: &[&str], key: &str) -> String {
    format!(
        "{}. Press {key} for the list",
        names.join("; ").to_lowercase()
    )
}

/// Heading of a first step, with its number where it has one.
pub(crate) fn step_of(number: Option<u8>, last: u8) -> String {
    match number {
        Some(number) => format!("First steps, {number} of {last}:"),
        None => "First steps:".to_owned(),
    }
}
