//! Entries, the journal on disk, and the timeline they add up to.
//!
//! A session file is the card followed by an append-only list of entries. It
//! is read by [`journal`], written by [`Session::record`], and everything else
//! about it (which shots belong to which setting, where each adjuster stands)
//! is computed from the entries alone by [`Timeline`].

pub mod append;
pub mod disk;
pub mod entry;
mod error;
pub mod files;
pub mod format;
pub mod hand_over;
pub mod journal;
pub mod lock;
mod mending;
pub mod place;
mod record;
pub mod repair;
mod store;
pub mod timeline;
mod warning;

pub use append::NotWritten;
pub use entry::{
    Entry, Event, Given, HandStage, Impact, LearnedGain, LearnedRecord, LearnedScatter, PriorGain,
    PriorRecord, RangeSaid, Shooter, Shot, Together, TwoArrows,
};
pub use error::SessionError;
pub use journal::{Damage, Harm, Journal, LARGEST_FILE, Remark};
pub use store::Session;
pub(crate) use store::whole_file;
pub use timeline::{
    AnswerAt, CardChange, Clearance, GroupAt, Holes, IncidentAt, MoveAt, Pending, RangeAt, Resets,
    Setting, SetupAt, ShotAt, Timeline, resets,
};
pub use warning::Warning;
