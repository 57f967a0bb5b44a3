//! What was open when the console ended, offered at the next start.

use std::time::Duration;

use super::super::count;

/// Over the sessions that are offered: so many were dropped; with none it is
/// the last one, left with a pending move.
pub(crate) const fn head(dropped: usize) -> &'static str {
    match dropped {
        0 => "This was left with a move pending.",
        1 => {
            "The console ended before this session was left: the line dropped, or the machine stopped. Every entry that was shown as recorded is on disk."
        }
        _ => {
            "The console ended before these sessions were left: the line dropped, or the machine stopped. Every entry that was shown as recorded is on disk."
        }
    }
}

/// How much stands in a session, and how long ago it was written.
pub(crate) fn stands(shots: usize, past: Option<Duration>) -> String {
    let shots = count(shots, "shot");
    match past {
        None => shots,
        Some(past) => format!("{shots}, last written {}", ago(past)),
    }
}

/// How long ago.
fn ago(past: Duration) -> String {
    const DAY: u64 = 24 * 3600;
    match past.as_secs() {
        0..60 => "less than a minute ago".to_owned(),
        s @ 60..3600 => format!("{} ago", count((s / 60) as usize, "minute")),
        s @ 3600..DAY => format!("{} ago", count((s / 3600) as usize, "hour")),
        s => format!("{} ago", count((s / DAY) as usize, "day")),
    }
}

/// The line that goes on with none of so many sessions.
pub(crate) const fn leave(offered: usize) -> &'static str {
    match offered {
        1 => "leave it: the demo",
        _ => "leave them: the demo",
    }
}

/// Once they were left.
pub(crate) fn left(files: &str) -> String {
    format!("Nothing is lost. Press {files} for recent sessions.")
}
