//! `tearbench new`: begin a session from a set-up card.

use std::path::{Path, PathBuf};

use clap::Args;

use super::open;
use super::outcome::{Failure, Outcome, say};
use crate::book::{How, Lessons};
use crate::gear::{Card, CardText};
use crate::session::files::{self, Fault};
use crate::session::{LearnedRecord, Session, SessionError, journal, lock};
use crate::{advice, book, words};

/// Arguments of `new`.
#[derive(Debug, Args)]
pub(crate) struct NewArgs {
    /// Session file to make
    pub(crate) file: PathBuf,
    /// Set-up card, TOML with units
    #[arg(long, value_name = "CARD")]
    pub card: Option<PathBuf>,
    /// An old session of the same bow: its card as it stood at the end
    #[arg(long, value_name = "SESSION", conflicts_with = "card")]
    pub(crate) from: Option<PathBuf>,
    /// Leave out what the other sessions of its folder teach
    #[arg(long)]
    pub(crate) no_history: bool,
}

/// Makes the session; it never replaces a file.
pub(crate) fn run(args: &NewArgs) -> Outcome {
    let card = match (&args.card, &args.from) {
        (Some(path), _) => read_card(path)?,
        (None, Some(path)) => old_card(path)?,
        (None, None) => {
            return Err(Failure::Input(format!(
                "a session begins with a set-up card: tearbench print card > card.toml, fill it in, \
                 then tearbench new {} --card card.toml; or in the console: tearbench {}",
                args.file.display(),
                args.file.display()
            )));
        }
    };
    let learned = match args.no_history {
        true => None,
        false => earlier_bows(&args.file, &card),
    };
    Session::create(&args.file, &card)?;
    // Opened quietly: the card's warnings were said above.
    let mut session = Session::open_for_writing(&args.file, lock::COMMAND, lock::PATIENCE)?;
    let taught = learned.as_ref().map(words::learned);
    advice::prior::begin(&mut session, learned)?;
    say(&format!("made {}", args.file.display()));
    if let Some(taught) = taught {
        say(&format!(
            "earlier bows teach: {taught}; --no-history leaves it out"
        ));
    }
    Ok(0)
}

/// Files left out of what earlier bows teach that are named; the rest are
/// counted.
const NAMED: usize = 3;

/// What the other sessions of the folder teach of the bow of a card. A folder
/// that cannot be read teaches nothing; making the file says why.
fn earlier_bows(file: &Path, card: &CardText) -> Option<LearnedRecord> {
    let (card, _) = Card::read(card).ok()?;
    let folder = match file.parent() {
        Some(folder) if folder != Path::new("") => folder,
        _ => Path::new("."),
    };
    let lessons = Lessons::of(folder, Some(file), &How::of_user(folder)).ok()?;
    for skipped in lessons.skipped.iter().take(NAMED) {
        super::outcome::warn(skipped);
    }
    if lessons.skipped.len() > NAMED {
        let more = lessons.skipped.len() - NAMED;
        super::outcome::warn(&format!(
            "and {more} more files left out; tearbench list names them"
        ));
    }
    lessons.for_card(&card)
}

fn read_card(path: &Path) -> Result<CardText, Failure> {
    let file = |fault: Fault| SessionError::File {
        path: path.into(),
        fault,
    };
    let source = files::read_text(path, journal::LARGEST_FILE).map_err(file)?;
    if source.trim().is_empty() {
        let empty = Fault::typed("is empty; a card has [bow], [rest], [arrow] and [paper]");
        return Err(file(empty).into());
    }
    let problems = |problems| {
        Failure::from(SessionError::Card {
            path: path.into(),
            problems,
        })
    };
    let header = journal::Journal::from_text(&source).header;
    let card = CardText::from_toml(&header).map_err(problems)?;
    let (_, warnings) = Card::read(&card).map_err(problems)?;
    // A whole session may serve as a card: what comes before its entries, as
    // long as no stop and no weight is left behind with them.
    if let Ok(whole) = Session::from_text(&source) {
        let named = |why| Failure::Input(format!("{}: {why}", path.display()));
        book::head_still_holds(&card, whole.timeline()).map_err(named)?;
    }
    for warning in warnings {
        super::outcome::warn(&format!("{}: warning: {warning}", path.display()));
    }
    Ok(card)
}

fn old_card(path: &Path) -> Result<CardText, Failure> {
    let fresh = book::fresh_card(open::reading(path)?.timeline()).map_err(Failure::Input)?;
    for note in fresh.notes {
        say(&format!("note: {note}"));
    }
    Ok(fresh.card)
}
