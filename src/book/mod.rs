//! The bench book: a folder of session files, nothing else.
//!
//! [`scan`] lists the sessions of a folder and is not stopped by a bad file;
//! `stand` says where one bow stands, for coming back to it; [`compare`]
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
pub(crate) use fresh::{fresh_card, head_still_holds};
pub use lesson::Response;
pub use list::Row;
pub(crate) use list::{list_page, scan};
pub(crate) use stand::stand;
pub(crate) use taught::Class;
pub use taught::{How, Lessons};
