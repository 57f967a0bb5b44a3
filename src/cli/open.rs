//! Opening a session from the command line, warnings on stderr.

use std::path::Path;

use super::{Failure, say};
use crate::advice::{self, Stop};
use crate::session::{Event, Session, SessionError, lock};
use crate::units::System;

/// Who a headless write says it is.
pub const HOLDER: &str = "tearbench (a command)";

/// Opens a session for reading.
pub fn reading(path: &Path) -> Result<Session, Failure> {
    let session = Session::open(path)?;
    warn(path, &session);
    Ok(session)
}

/// Opens a session for writing, waiting a little for another program.
pub fn writing(path: &Path) -> Result<Session, Failure> {
    let session = Session::open_for_writing(path, HOLDER, lock::PATIENCE).map_err(not_recorded)?;
    warn(path, &session);
    Ok(session)
}

/// Opens a session whose card may be damaged past use, to show or mend the card.
pub fn mending(path: &Path, write: bool) -> Result<Session, Failure> {
    let session = if write {
        Session::open_to_mend(path)?;
        Session::lock_to_mend(path, HOLDER, lock::PATIENCE).map_err(not_recorded)?
    } else {
        Session::open_to_mend(path)?
    };
    warn(path, &session);
    Ok(session)
}

/// A command that cannot have the file has not recorded what it was given.
fn not_recorded(error: SessionError) -> Failure {
    match error {
        SessionError::Locked { .. } => Failure::Other(format!("{error}; not recorded")),
        other => other.into(),
    }
}

/// Records one event; returns its entry number.
pub fn record(session: &mut Session, event: Event) -> Result<u32, Failure> {
    Ok(session.record(event)?)
}

/// Records what one command says in several entries, all or none, to be undone
/// together; returns the number of the last entry, 0 where there are none.
pub fn record_all(session: &mut Session, events: Vec<Event>) -> Result<u32, Failure> {
    let numbers = session.record_all(events)?;
    Ok(numbers.last().copied().unwrap_or_default())
}

/// Says what forbids the next shot, before anything else is said; whether
/// anything does.
pub fn stop_first(session: &Session) -> bool {
    let stop = advice::stopped(session.timeline());
    stop.iter().flat_map(Stop::lines).for_each(|l| say(&l));
    stop.is_some()
}

/// Repeats on stderr what forbids the next shot: recording is not blocked by
/// it, and nobody overlooks it.
pub fn repeat_stop(session: &Session) {
    let stop = advice::stopped(session.timeline());
    for line in stop.iter().flat_map(Stop::lines) {
        super::warn(&line);
    }
}

/// The display system of a session's card.
pub fn system(session: &Session) -> System {
    session.timeline().card.paper.system
}

fn warn(path: &Path, session: &Session) {
    for warning in session.warnings() {
        super::warn(&format!("{}: warning: {warning}", path.display()));
    }
}
