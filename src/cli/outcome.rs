//! How a command ends and what it says: exit codes, stdout, stderr.

use std::path::PathBuf;

use clap::Args;

use crate::session::files::Fault;
use crate::session::{SessionError, Shooter};

/// A command that takes only a session file.
#[derive(Debug, Args)]
pub(crate) struct FileOnly {
    /// Session file
    pub(crate) file: PathBuf,
}

/// What went wrong, with its exit code.
#[derive(Debug)]
pub(crate) enum Failure {
    /// Bad input: exit code 2.
    Input(String),
    /// Anything else: exit code 1.
    Other(String),
}

impl Failure {
    /// What is wrong with a file.
    pub fn of(path: &std::path::Path, fault: &Fault) -> Self {
        let message = format!("{}: {fault}", path.display());
        if fault.typed {
            Self::Input(message)
        } else {
            Self::Other(message)
        }
    }
}

impl From<SessionError> for Failure {
    fn from(error: SessionError) -> Self {
        if error.is_input() {
            Self::Input(error.to_string())
        } else {
            Self::Other(error.to_string())
        }
    }
}

/// The result of a command: its exit code.
pub(crate) type Outcome = Result<u8, Failure>;

/// A line made safe for a terminal.
pub fn safe(line: &str) -> String {
    crate::units::visible(line)
}

/// Says a line on stderr; where nobody can be told, nothing else changes.
pub(crate) fn warn(line: &str) {
    use std::io::Write as _;
    let _ = writeln!(std::io::stderr(), "tearbench: {}", safe(line));
}

/// Prints a line; a closed pipe is no failure.
pub(crate) fn say(line: &str) {
    use std::io::Write as _;
    let _ = writeln!(std::io::stdout(), "{}", safe(line));
}

/// Who shot, by the word of the command line.
///
/// # Errors
/// In words, where it is none of the three.
pub(crate) fn parse_shooter(text: &str) -> Result<Shooter, String> {
    Shooter::from_id(text).ok_or_else(|| "owner, technician or machine".to_owned())
}
