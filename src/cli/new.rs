//! `tearbench new`: begin a session from a set-up card.

use std::path::{Path, PathBuf};

use clap::Args;

use super::{Failure, Outcome, open, say};
use crate::gear::{Card, CardText};
use crate::session::files::{self, Fault};
use crate::session::{Session, SessionError, journal, lock};
use crate::{advice, book};

/// Arguments of `new`.
#[derive(Debug, Args)]
pub struct NewArgs {
    /// Session file to make
    pub file: PathBuf,
    /// Set-up card, TOML with units
    #[arg(long, value_name = "CARD")]
    pub card: Option<PathBuf>,
    /// An old session of the same bow: its card as it stood at the end
    #[arg(long, value_name = "SESSION", conflicts_with = "card")]
    pub from: Option<PathBuf>,
}

/// Makes the session; it never replaces a file.
pub fn run(args: &NewArgs) -> Outcome {
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
    Session::create(&args.file, &card)?;
    // Opened quietly: the card's warnings were said above.
    let mut session = Session::open_for_writing(&args.file, open::HOLDER, lock::PATIENCE)?;
    advice::prior::refresh(&mut session)?;
    say(&format!("made {}", args.file.display()));
    Ok(0)
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
    // A whole session may serve as a card: what comes before its entries.
    if let Ok(whole) = Session::from_text(&source) {
        book::no_incident(whole.timeline()).map_err(Failure::Input)?;
    }
    let header = journal::Journal::from_text(&source).header;
    let card = CardText::from_toml(&header).map_err(problems)?;
    let (_, warnings) = Card::read(&card).map_err(problems)?;
    for warning in warnings {
        super::warn(&format!("{}: warning: {warning}", path.display()));
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
