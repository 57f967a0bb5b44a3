//! The bench book: a folder of session files, nothing else.
//!
//! [`scan`] lists the sessions of a folder and is not stopped by a bad file;
//! [`stand`] says where one bow stands, for coming back to it; [`compare`]
//! holds two sessions of one bow against each other; [`fresh_card`] makes the
//! card of a new session from an old one; [`Lessons`] are what the sessions of
//! a folder teach a new one.

mod compare;
mod fresh;
mod lesson;
mod list;
mod stand;
mod taught;

pub use compare::{Change, Comparison, compare};
pub use fresh::{FreshCard, fresh_card, no_incident};
pub use lesson::{Lesson, Response};
pub use list::{ONLY_A_CARD, Row, list_page, scan};
pub use stand::{Stand, stand};
pub use taught::{Class, How, Lessons, PATIENCE};
