//! `undo` and `redo`: both are entries; nothing is deleted.

use std::path::PathBuf;

use clap::Args;

use super::open;
use super::outcome::{FileOnly, Outcome, say};
use crate::checks::safety;
use crate::session::Session;
use crate::words;

/// Arguments of `undo`.
#[derive(Debug, Args)]
pub(crate) struct UndoArgs {
    /// Session file
    pub(crate) file: PathBuf,
    /// Entry to undo; the latest where absent
    pub entry: Option<u32>,
}

/// Takes an entry back.
pub fn undo(args: &UndoArgs) -> Outcome {
    let mut session = open::writing(&args.file)?;
    let stopped = safety::dangers(session.timeline());
    let taken = match args.entry {
        Some(target) => session.undo_entry(target)?,
        None => session.undo()?,
    };
    say(&match &taken[..] {
        [one] => format!("entry {one} no longer counts; redo brings it back"),
        all => format!(
            "entries {} no longer count; redo brings them back",
            listed(all)
        ),
    });
    say_lifted(&stopped, &session);
    open::repeat_stop(&session);
    Ok(0)
}

/// Brings an entry back.
pub fn redo(args: &FileOnly) -> Outcome {
    let mut session = open::writing(&args.file)?;
    let stopped = safety::dangers(session.timeline());
    let taken = session.redo()?;
    say(&match &taken[..] {
        [one] => format!("entry {one} counts again"),
        all => format!("entries {} count again", listed(all)),
    });
    say_lifted(&stopped, &session);
    open::repeat_stop(&session);
    Ok(0)
}

/// Says which stops are gone with what no longer counts, or counts again.
fn say_lifted(stopped: &[safety::Danger], session: &Session) {
    for gone in safety::gone(stopped, session.timeline()) {
        say(&words::lifted_by_undo(&gone));
    }
}

fn listed(numbers: &[u32]) -> String {
    let words: Vec<String> = numbers.iter().map(ToString::to_string).collect();
    words.join(", ")
}
