//! Entries, the journal on disk, and the timeline they add up to.
//!
//! A session file is the card followed by an append-only list of entries. It
//! is read by [`journal`], written by [`Session::record`], and everything else
//! about it (which shots belong to which setting, where each adjuster stands)
//! is computed from the entries alone by [`Timeline`].

pub mod disk;
pub mod entry;
pub mod journal;
pub mod lock;
pub mod repair;
mod store;
pub mod timeline;

pub use entry::{
    Entry, Event, Impact, InspectPart, ONE_WORD_TEST, PriorGain, PriorRecord, RangeItem, RangeSaid,
    Shooter, Shot, is_one_word,
};
pub use journal::{Damage, Journal};
pub use store::{Session, SessionError};
pub use timeline::{
    AnswerAt, CardChange, Clearance, GroupAt, IncidentAt, MoveAt, Pending, RangeAt, Setting,
    SetupAt, ShotAt, Timeline,
};
