//! Choosing the next move or probe.
//!
//! The rule looks one step ahead: be inside with the largest chance, one axis
//! a move, the vertical first; move when that promises enough more than
//! another shot here; stop when the chance passes the level asked for.

pub mod care;
pub mod choose;
pub mod forecast;
pub mod gates;
pub mod probe;
pub mod reach;
pub mod search;
mod task;
pub mod untried;

pub use choose::{Choice, Decision, Purpose, VERTICAL_LIKELY, choose};
pub use task::{ANSWER_MM, Caution, Range, Repeated, Task, Track};
