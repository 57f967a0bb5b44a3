//! What may go wrong with a session, in words.

use std::path::{Path, PathBuf};

use super::append::NotWritten;
use super::files::Fault;
use super::lock::LockError;
use crate::gear::CardProblem;
use crate::units::clean;

/// Why a session cannot be opened or written.
#[derive(Debug, thiserror::Error)]
pub enum SessionError {
    /// The file itself cannot be read or made.
    #[error("{}: {fault}", name(path))]
    File {
        /// Which file.
        path: PathBuf,
        /// What is wrong with it.
        fault: Fault,
    },
    /// The card in it cannot be read.
    #[error("{}", card_problems(path, problems))]
    Card {
        /// Which file.
        path: PathBuf,
        /// Every problem found.
        problems: Vec<CardProblem>,
    },
    /// Another program is writing to it, or nobody may.
    #[error("{}: {source}", name(path))]
    Locked {
        /// Which file.
        path: PathBuf,
        /// Who holds it.
        source: LockError,
    },
    /// The disk did not take what was to be recorded.
    #[error("{}: not recorded: {source}", name(path))]
    NotRecorded {
        /// Which file.
        path: PathBuf,
        /// Why not.
        source: NotWritten,
    },
    /// What would be written could not be read again.
    #[error("{}: not recorded: {problem}", name(path))]
    Full {
        /// Which file.
        path: PathBuf,
        /// In words.
        problem: String,
    },
    /// What was asked cannot be recorded.
    #[error("{0}")]
    Refused(String),
}

fn name(path: &Path) -> String {
    clean(&path.display().to_string())
}

fn card_problems(path: &Path, problems: &[CardProblem]) -> String {
    let name = name(path);
    let lines: Vec<String> = problems
        .iter()
        .map(|p| match p.line {
            Some(line) => format!(
                "{name}:{line}: {}",
                CardProblem {
                    line: None,
                    ..p.clone()
                }
            ),
            None => format!("{name}: {p}"),
        })
        .collect();
    lines.join("\n")
}

impl SessionError {
    /// Whether typing something else mends it (exit code 2), rather than the
    /// machine being at fault: no space, no permission, a disk, a holder.
    pub(crate) const fn is_input(&self) -> bool {
        match self {
            Self::File { fault, .. } => fault.typed,
            Self::Card { .. } | Self::Refused(_) => true,
            Self::Locked { .. } | Self::NotRecorded { .. } | Self::Full { .. } => false,
        }
    }
}
