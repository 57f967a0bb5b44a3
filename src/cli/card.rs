//! `tearbench card`: show the card, or change it.

use std::collections::BTreeMap;
use std::path::PathBuf;

use clap::Args;

use super::{Failure, Outcome, open, say};
use crate::advice;
use crate::checks::safety;
use crate::session::Event;

/// Arguments of `card`.
#[derive(Debug, Args)]
pub struct CardArgs {
    /// Session file
    pub file: PathBuf,
    /// Changes, such as bow.peak_weight="62 lb"; an empty value takes the field off
    pub changes: Vec<String>,
}

/// Shows or changes the card.
pub fn run(args: &CardArgs) -> Outcome {
    if args.changes.is_empty() {
        let session = open::mending(&args.file, false)?;
        for problem in session.missing_on_card() {
            super::warn(&format!("{}: damaged card: {problem}", args.file.display()));
        }
        for line in session.readable_card().to_toml().lines() {
            say(line);
        }
        return Ok(0);
    }
    let mut session = open::mending(&args.file, true)?;
    let mut set = BTreeMap::new();
    for change in &args.changes {
        let (key, value) = change.split_once('=').ok_or_else(|| {
            Failure::Input(format!(
                "'{change}' is no change; write key=value, such as bow.peak_weight=\"62 lb\""
            ))
        })?;
        set.insert(key.trim().to_owned(), value.trim().to_owned());
    }
    let before = session.timeline().warnings.len();
    let entry = open::record(&mut session, Event::Card { set })?;
    if let [first, ..] = session.missing_on_card() {
        say(&format!(
            "card changed (entry {entry}); it still cannot be used without {first}"
        ));
        return Ok(0);
    }
    advice::prior::refresh(&mut session)?;
    for warning in session.timeline().warnings.iter().skip(before) {
        super::warn(&format!("warning: {warning}"));
    }
    say(&format!("card changed (entry {entry})"));
    for lifted in safety::lifted_by_card(session.timeline()) {
        if lifted.entry == entry {
            say(&format!(
                "This change of the card lifts a stop, and the sheet says so: {}",
                lifted.was.text
            ));
        }
    }
    open::repeat_stop(&session);
    Ok(0)
}
