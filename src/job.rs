//! The work around the paper, side by side: the range safety list and the
//! list before it, troubleshooting after a refusal, proof after it, and the
//! moves that put a bow back. How a step of theirs stands is one type, [`step::State`].
//!
//! What can be asked of them and answered stands in [`crate::question`], what
//! each step says in [`crate::words`]. A test that more than one of them asks
//! for is described once: on the list before paper where it has the item.

pub mod proof;
pub mod range;
pub mod restore;
pub mod setup;
pub mod step;
pub mod trouble;
