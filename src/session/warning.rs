//! What there is to know when a session is opened. What it says is made in
//! [`crate::words`].

use super::error::ReadOnly;
use super::journal::{Damage, Remark};
use crate::gear::CardProblem;

/// Something to know when a session is opened.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Warning {
    /// A piece of the file that does not count.
    Damage(Damage),
    /// A line of the card that cannot be read, or an unusual value on it.
    Card(CardProblem),
    /// Something to know about what was read.
    Remark(Remark),
    /// Shots were being handed to another session when it was cut short, and
    /// still count here.
    HandedAndHere {
        /// Their entries here.
        entries: Vec<u32>,
        /// The other session's file.
        to: String,
    },
    /// Shots came from another session, where they may count still.
    CopiedFrom {
        /// Their entries here.
        entries: Vec<u32>,
        /// The other session's file.
        from: String,
    },
    /// The file is so large, in bytes, that it nears its limit.
    NearlyFull(u64),
    /// So many entry numbers are left.
    NumbersLeft(u32),
    /// Nothing can be recorded: why.
    ReadOnly(ReadOnly),
    /// So many more.
    More(usize),
}
