//! `undo` and `redo`: both are entries; nothing is deleted.

use std::path::PathBuf;

use clap::Args;

use super::{FileOnly, Outcome, open, say};
use crate::session::Event;

/// Arguments of `undo`.
#[derive(Debug, Args)]
pub struct UndoArgs {
    /// Session file
    pub file: PathBuf,
    /// Entry to take back; the latest where absent
    pub entry: Option<u32>,
}

/// Takes an entry back.
pub fn undo(args: &UndoArgs) -> Outcome {
    let mut session = open::writing(&args.file)?;
    let target = match args.entry {
        Some(target) => {
            open::record(&mut session, Event::Undo { target })?;
            target
        }
        None => session.undo()?,
    };
    say(&format!(
        "entry {target} no longer counts; redo brings it back"
    ));
    open::repeat_stop(&session);
    Ok(0)
}

/// Brings an entry back.
pub fn redo(args: &FileOnly) -> Outcome {
    let mut session = open::writing(&args.file)?;
    let target = session.redo()?;
    say(&format!("entry {target} counts again"));
    open::repeat_stop(&session);
    Ok(0)
}
