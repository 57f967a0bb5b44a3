//! What may go wrong with a session. What it says is made in [`crate::words`].

use std::path::PathBuf;

use super::append::NotWritten;
use super::files::Fault;
use super::journal::Remark;
use super::lock::LockError;
use crate::gear::CardProblem;

/// Why a session cannot be opened or written.
#[derive(Debug)]
pub enum SessionError {
    /// The file itself cannot be read or made.
    File {
        /// Which file.
        path: PathBuf,
        /// What is wrong with it.
        fault: Fault,
    },
    /// The card in it cannot be read.
    Card {
        /// Which file.
        path: PathBuf,
        /// Every problem found.
        problems: Vec<CardProblem>,
    },
    /// Another program is writing to it, or nobody may.
    Locked {
        /// Which file.
        path: PathBuf,
        /// Who holds it.
        source: LockError,
    },
    /// The disk did not take what was to be recorded.
    NotRecorded {
        /// Which file.
        path: PathBuf,
        /// Why not.
        source: NotWritten,
    },
    /// The file takes no more, or what would be written could not be read again.
    Full {
        /// Which file.
        path: PathBuf,
        /// Why not.
        why: Full,
    },
    /// What was asked cannot be recorded.
    Refused(Refused),
}

/// Why a file takes an entry no more.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Full {
    /// Every entry number is used.
    Numbers,
    /// It is so large, in bytes.
    Large(u64),
    /// The entry would be read as another.
    Otherwise,
    /// The entry could not be read: why.
    Unreadable(String),
}

/// Why a session takes no entries.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ReadOnly {
    /// Its file is of this format, newer than the newest known.
    Format(u32),
    /// It holds an entry from a newer program.
    Newer(Remark),
}

/// Why what was asked cannot be recorded. Numbers are those of entries.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Refused {
    /// No entry can be undone.
    NothingToUndo,
    /// No entry was undone.
    NothingToRedo,
    /// The session takes no entries.
    ReadOnly(ReadOnly),
    /// The session of this name, one of two, takes none.
    OtherReadOnly(String, ReadOnly),
    /// The session was not opened for writing.
    OpenForReading,
    /// The card is damaged past use.
    CardDamaged,
    /// A text is longer than is kept.
    TooLong {
        /// Its characters.
        characters: usize,
        /// So many are kept.
        most: usize,
    },
    /// More than one entry claims this number.
    ClaimedTwice(u32),
    /// No entry has this number.
    NoEntry(u32),
    /// The entry is an incident.
    Incident(u32),
    /// The entry, of this kind, is none that is undone.
    NotToUndo(u32, &'static str),
    /// The entry is undone.
    UndoneAlready(u32),
    /// The entry is not undone.
    NotUndone(u32),
    /// No setting has this number; there are so many.
    NoSetting(u32, usize),
    /// The entry is no shot that counts: what it is, and the shots that do.
    NoShot(u32, NoShot, Vec<u32>),
    /// The entry is no shot and was recorded together with shots that go.
    WithNoShot(u32),
    /// No shots were named.
    NoShotsNamed,
}

/// What an entry is that is no shot that counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoShot {
    /// There is none of that number.
    NoEntry,
    /// A shot that is undone.
    Undone,
    /// An entry of this kind.
    Other(&'static str),
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
