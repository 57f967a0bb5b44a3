//! `tearbench card`: show the card, or change it.

use std::collections::BTreeMap;
use std::path::PathBuf;

use clap::Args;

use super::open;
use super::outcome::{Failure, Outcome, say};
use crate::advice;
use crate::checks::safety;
use crate::question::Taken;
use crate::session::Event;

/// Arguments of `card`.
#[derive(Debug, Args)]
pub(crate) struct CardArgs {
    /// Session file
    pub(crate) file: PathBuf,
    /// Changes, such as bow.peak_weight="62 lb"; an empty value takes the field off
    pub(crate) changes: Vec<String>,
    /// A typo is corrected: what was shot was shot with the card as it stands after it
    #[arg(long, conflicts_with = "changed", requires = "changes")]
    pub(crate) corrected: bool,
    /// The bow or the arrow was changed: the likely tear is unknown again
    #[arg(long, requires = "changes")]
    pub(crate) changed: bool,
}

impl CardArgs {
    fn taken(&self) -> Option<Taken> {
        match (self.corrected, self.changed) {
            (true, _) => Some(Taken::Corrected),
            (_, true) => Some(Taken::Changed),
            _ => None,
        }
    }
}

/// Shows or changes the card.
pub(crate) fn run(args: &CardArgs) -> Outcome {
    if args.changes.is_empty() {
        let session = open::mending(&args.file, false)?;
        for problem in session.missing_on_card() {
            super::outcome::warn(&format!("{}: damaged card: {problem}", args.file.display()));
        }
        for line in session.readable_card().to_toml().lines() {
            say(line);
        }
        if session.missing_on_card().is_empty() {
            open::repeat_stop(&session);
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
    let (shots, epoch) = (session.timeline().shots.len(), session.timeline().epoch);
    let taken = args.taken().map(Into::into);
    let entry = open::record(&mut session, Event::Card { set, taken })?;
    if let [first, ..] = session.missing_on_card() {
        say(&format!(
            "card changed (entry {entry}); it still cannot be used without {first}"
        ));
        return Ok(0);
    }
    advice::prior::refresh(&mut session)?;
    for warning in session.timeline().warnings.iter().skip(before) {
        super::outcome::warn(&format!("warning: {warning}"));
    }
    say(&format!("card changed (entry {entry})"));
    if shots > 0 {
        say_taken(args, session.timeline().epoch != epoch);
    }
    for lifted in safety::lifted_by_card(session.timeline()) {
        if lifted.entry == entry {
            say(&format!(
                "This change of the card lifts a stop, and the sheet says so: {}",
                crate::words::danger(&lifted.was)
            ));
        }
    }
    open::repeat_stop(&session);
    Ok(0)
}

/// Says which a change was taken for: a typo corrected, or a bow or an arrow
/// changed.
fn say_taken(args: &CardArgs, unknown_again: bool) {
    if !unknown_again && args.changed {
        return say(
            "Nothing that makes bow or arrow shoot as they do was changed: what was shot still counts.",
        );
    }
    if !unknown_again {
        return say("Taken for a correction: what was shot still counts.");
    }
    say("Taken for a change: the likely tear is unknown again.");
    if args.taken().is_none() {
        say(&format!(
            "If only a typo was corrected: tearbench undo {}, then the same again with --corrected",
            args.file.display()
        ));
    }
}
