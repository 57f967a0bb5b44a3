//! Opening a session from the command line, warnings on stderr.

use std::io::{self, Read as _};
use std::path::Path;
use std::time::Duration;

use super::outcome::Failure;
use crate::advice;
use crate::session::journal::LARGEST_FILE;
use crate::session::lock::{self, LockError};
use crate::session::{Event, Session, SessionError};
use crate::units::System;
use crate::words::stop_lines;

/// Opens a session for reading; `-` is one on standard input.
pub(crate) fn reading(path: &Path) -> Result<Session, Failure> {
    let session = if is_stdin(path) {
        from_stdin()?
    } else {
        Session::open(path)?
    };
    warn(path, &session);
    Ok(session)
}

/// Whether a file is named by `-`: standard input.
pub(crate) fn is_stdin(path: &Path) -> bool {
    path.as_os_str() == "-"
}

/// All of standard input, as far as a session file may be long.
pub(crate) fn stdin_bytes() -> Result<Vec<u8>, Failure> {
    let mut bytes = Vec::new();
    io::stdin()
        .take(LARGEST_FILE + 1)
        .read_to_end(&mut bytes)
        .map_err(|e| Failure::Other(format!("standard input: {e}")))?;
    if bytes.len() as u64 > LARGEST_FILE {
        return Err(Failure::Input(
            "standard input is longer than any session file".into(),
        ));
    }
    Ok(bytes)
}

fn from_stdin() -> Result<Session, Failure> {
    let bytes = stdin_bytes()?;
    if bytes.trim_ascii().is_empty() {
        return Err(Failure::Input(
            "standard input is empty; give it a session file, such as: tearbench advise - < bow.toml"
                .into(),
        ));
    }
    Session::from_bytes(&bytes).map_err(|problems| {
        let path = "standard input".into();
        SessionError::Card { path, problems }.into()
    })
}

/// Opens a session for writing. Where another program has it, says so and
/// waits a little.
pub(crate) fn writing(path: &Path) -> Result<Session, Failure> {
    if is_stdin(path) {
        return Err(Failure::Input(
            "nothing can be recorded on standard input; name the session's file".into(),
        ));
    }
    let session = patiently(path, |patience| {
        Session::open_for_writing(path, lock::COMMAND, patience)
    })?;
    warn(path, &session);
    Ok(session)
}

/// Tries at once, then says who has the file and waits for it.
fn patiently(
    path: &Path,
    open: impl Fn(Duration) -> Result<Session, SessionError>,
) -> Result<Session, Failure> {
    match open(lock::GLANCE) {
        Err(SessionError::Locked {
            source: LockError::Held(holder),
            ..
        }) => {
            super::outcome::warn(&format!(
                "{}: in use by {holder}; waiting up to {} s for it",
                path.display(),
                lock::PATIENCE.as_secs()
            ));
            open(lock::PATIENCE).map_err(not_recorded)
        }
        other => other.map_err(not_recorded),
    }
}

/// Opens a session whose card may be damaged past use, to show or mend the card.
pub(crate) fn mending(path: &Path, write: bool) -> Result<Session, Failure> {
    let session = if write {
        Session::open_to_mend(path)?;
        patiently(path, |patience| {
            Session::lock_to_mend(path, lock::COMMAND, patience)
        })?
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

/// Repeats on stderr what forbids the next shot: recording is not blocked by
/// it, and nobody overlooks it.
pub(crate) fn repeat_stop(session: &Session) {
    let stop = advice::stopped(session.timeline());
    for line in stop.iter().flat_map(|s| stop_lines(s, system(session))) {
        super::outcome::warn(&line);
    }
}

/// The display system of a session's card.
pub fn system(session: &Session) -> System {
    session.timeline().card.paper.system
}

fn warn(path: &Path, session: &Session) {
    for warning in session.warnings() {
        let warning = crate::words::warning(&warning);
        super::outcome::warn(&format!("{}: warning: {warning}", path.display()));
    }
}
