//! Entries, the journal on disk, and the timeline they add up to.
//!
//! A session file is the card followed by an append-only list of entries. It
//! is read by [`journal`], written by [`Session::record`], and everything else
//! about it (which shots belong to which setting, where each adjuster stands)
//! is computed from the entries alone by [`Timeline`].

pub mod append;
pub mod disk;
pub(crate) mod entry;
mod error;
pub mod files;
pub(crate) mod format;
pub(crate) mod hand_over;
pub(crate) mod journal;
pub mod lock;
mod mending;
pub(crate) mod place;
mod record;
pub mod repair;
mod store;
pub(crate) mod timeline;
#[cfg(test)]
pub(crate) mod told;
mod warning;

pub use append::NotWritten;
pub use entry::{
    Entry, Event, Given, HandStage, Impact, LearnedGain, LearnedRecord, LearnedScatter, PriorGain,
    PriorRecord, RangeSaid, Shooter, Shot, Together, TwoArrows,
};
pub use error::{Full, NoShot, ReadOnly, Refused, SessionError};
pub(crate) use journal::LARGEST_FILE;
pub use journal::{Damage, Harm, Journal, Remark};
pub use store::Session;
pub(crate) use store::{FORMAT, whole_file};
pub use timeline::{AnswerAt, IncidentAt, MoveAt, Pending, Setting, SetupAt, ShotAt, Timeline};
pub(crate) use timeline::{Clearance, GroupAt, Holes, RangeAt, Resets, resets};
pub use warning::Warning;
