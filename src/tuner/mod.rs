//! Choosing the next move or probe.
//!
//! The rule looks one step ahead: be inside with the largest chance, one axis
//! a move, the vertical first; move when that promises enough more than
//! another shot here; stop when the chance passes the level asked for.

pub mod care;
#[cfg(test)]
mod cases;
pub mod choose;
pub mod forecast;
pub mod gates;
pub(crate) mod probe;
pub mod reach;
pub mod search;
mod task;
pub mod untried;

pub use choose::{Choice, Decision, Purpose, choose};
pub(crate) use task::ANSWER_MM;
pub use task::{Caution, Range, Repeated, Task, Track};
