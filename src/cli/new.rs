//! `tearbench new`: begin a session from a set-up card.

use std::path::PathBuf;

use clap::Args;

use super::{Failure, Outcome, open, say};
use crate::advice;
use crate::gear::{Card, CardText};
use crate::session::{Session, SessionError, journal, lock};

/// Arguments of `new`.
#[derive(Debug, Args)]
pub struct NewArgs {
    /// Session file to make
    pub file: PathBuf,
    /// Set-up card, TOML with units
    #[arg(long, value_name = "CARD")]
    pub card: PathBuf,
}

/// Makes the session; it never replaces a file.
pub fn run(args: &NewArgs) -> Outcome {
    let file = |problem: String| SessionError::File {
        path: args.card.clone(),
        problem,
    };
    let source = journal::read_text(&args.card).map_err(file)?;
    if source.trim().is_empty() {
        return Err(file("is empty; a card has [bow], [rest], [arrow] and [paper]".into()).into());
    }
    let problems = |problems| {
        Failure::from(SessionError::Card {
            path: args.card.clone(),
            problems,
        })
    };
    // A whole session may serve as a card: what comes before its entries.
    let header = journal::Journal::from_text(&source).header;
    let card = CardText::from_toml(&header).map_err(problems)?;
    let (_, warnings) = Card::read(&card).map_err(problems)?;
    for warning in warnings {
        eprintln!("tearbench: {}: warning: {warning}", args.card.display());
    }
    Session::create(&args.file, &card)?;
    // Opened quietly: the card's warnings were said above.
    let mut session = Session::open_for_writing(&args.file, open::HOLDER, lock::PATIENCE)?;
    advice::prior::refresh(&mut session)?;
    say(&format!("made {}", args.file.display()));
    Ok(0)
}
