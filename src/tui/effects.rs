//! What a screen wants done after a key: it says so, and the console does it.
//! Effects are done in their order; where one fails the rest is left undone
//! and the screen stays as it was.

use std::path::PathBuf;

use crate::gear::{CardText, Step};
use crate::look::{Glyphs, Theme};
use crate::practice::{Conclusion, Guess, Job};
use crate::session::{Event, LearnedRecord};
use crate::tui::model::NextShots;
use crate::tui::names::Name;
use crate::tui::prompt::Prompt;

/// One thing a screen wants done.
pub(crate) enum Effect {
    /// These entries are recorded together, all or none; the screen is told
    /// once they are on disk, and where the card is among them what to expect
    /// of it is worked out again before that.
    Record(Vec<Event>),
    /// Work at the press that is no move of an adjuster was done.
    PressWork,
    /// A move goes to the bench: recorded as pending, then shown.
    ToTheBench(Vec<Step>),
    /// A line for the user.
    Say(String),
    /// The same, where something went wrong or must not be overlooked.
    Complain(String),
    /// A line is typed for the screen.
    Ask(Prompt),
    /// Another screen on top.
    Open(Name),
    /// Back to the screen before.
    Close,
    /// Back to the panes.
    Panes,
    /// What the next shots are recorded with.
    NextShots(NextShots),
    /// Colours, until the console is left.
    Theme(Theme),
    /// Characters, until the console is left.
    Glyphs(&'static Glyphs),
    /// The session of this file in place of the open one, which is parked.
    OpenSession(PathBuf),
    /// A session is made from a new card, with what earlier bows teach or without.
    Begin {
        /// Where.
        path: PathBuf,
        /// Its card.
        card: CardText,
        /// What earlier bows teach is used.
        earlier: bool,
    },
    /// A session is made from the card of an earlier one of the same bow.
    Visit {
        /// Where.
        path: PathBuf,
        /// The earlier session.
        from: PathBuf,
    },
    /// What to expect of the card is recorded anew, with what earlier bows
    /// taught or without.
    Earlier(Option<LearnedRecord>),
    /// These sessions were dropped and are not gone on with.
    LeaveBehind(Vec<PathBuf>),
    /// Shots go to the session of another bow, and no longer count here.
    HandOver {
        /// Their entries.
        shots: Vec<u32>,
        /// The other session.
        to: PathBuf,
    },
    /// A sheet is written to a file.
    Write {
        /// Where.
        path: PathBuf,
        /// The whole sheet.
        text: String,
    },
    /// A job at the bench of the virtual bow.
    Work(Job),
    /// The player's answer ends the round: counted, and what was wrong shown.
    Conclude(Conclusion),
    /// Another virtual bow of this level.
    Practise(u8),
    /// The same virtual bow from the start.
    PractiseAgain,
    /// What the player would do, before the advice is shown.
    Guess(Guess),
    /// A guess is asked before the advice from now on, or is not.
    GuessFirst(bool),
    /// The practice so far is kept as a file of this name.
    SavePractice(String),
    /// The first steps from the start.
    FirstSteps,
}

/// One entry recorded.
pub(super) fn record(event: Event) -> Vec<Effect> {
    vec![Effect::Record(vec![event])]
}

/// A line for the user.
pub(super) fn say(text: impl Into<String>) -> Vec<Effect> {
    vec![Effect::Say(text.into())]
}

/// A line that must not be overlooked.
pub(super) fn complain(text: impl Into<String>) -> Vec<Effect> {
    vec![Effect::Complain(text.into())]
}

/// A line to be typed.
pub(super) fn ask(prompt: Prompt) -> Vec<Effect> {
    vec![Effect::Ask(prompt)]
}
