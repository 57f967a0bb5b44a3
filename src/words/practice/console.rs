//! What the console says on a practice bow. Keys are given as they are shown.

/// The customer and the bow, when practice begins: the job as the card has it.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Customer<'a> {
    /// Who brings the bow.
    pub(crate) owner: &'a str,
    /// What it is called.
    pub(crate) bow: &'a str,
    /// What it is brought for.
    pub(crate) reason: &'a str,
}

/// What practice begins with. `lost` says that the counts could not be read.
pub(crate) fn welcome(
    level: u8,
    customer: Customer<'_>,
    [shoot, practise]: [&str; 2],
    lost: bool,
) -> String {
    let Customer { owner, bow, reason } = customer;
    let lost = match lost {
        true => " How you did before could not be read, so the counts begin again.",
        false => "",
    };
    format!(
        "PRACTICE, level {level}: {owner} brings a {bow} ({reason}). Something is wrong with it. Press {shoot} to shoot it through paper. Follow the verdict or do as you think. Press {practise} for tests, fixes and your answer.{lost}"
    )
}

/// Whether a guess is asked before the advice from now on.
pub(crate) fn guesses_asked(on: bool, key: &str) -> String {
    match on {
        true => "Your guess is asked before the advice is shown.".into(),
        false => format!("No guess is asked any more. Press {key} to be asked again."),
    }
}

/// To a tear that was typed: the paper is read by the program.
pub(crate) fn paper_is_read(shoot: &str) -> String {
    format!("In practice the paper is read for you. Press {shoot} to shoot.")
}

/// What follows a shot, after its tear.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Then<'a> {
    /// The verdict says it.
    Verdict,
    /// It may be tuned: the key that takes the player's answer.
    Answer(&'a str),
    /// The rest is left alone: the keys of troubleshooting and of practice.
    Troubleshooting(&'a str, &'a str),
}

/// A shot through the paper, with its tear in words, and what follows.
pub(crate) fn through(tear: &str, then: Then<'_>) -> String {
    let more = match then {
        Then::Verdict => String::new(),
        Then::Answer(key) => format!(" If you think it is tuned, press {key} and say so."),
        Then::Troubleshooting(next, key) => {
            format!(" Press {next} for troubleshooting, {key} for tests, fixes and your answer.")
        }
    };
    format!("Through the paper: {tear}.{more}")
}

/// To a test that this bow cannot answer.
pub(crate) const NO_ANSWER: &str = "This bow has no answer to that test.";
/// Of the counts, where their file cannot be read.
pub(crate) const COUNTS_LOST: &str =
    "The counts of earlier practice cannot be read and begin again.";
/// Of the counts, where there are none.
pub(crate) const NOTHING_COUNTED: &str = "No practice bow was answered yet.";
