//! What practice says: why the advice is what it is, what is seen of the bow,
//! and how it ended.

mod bench;
mod console;
mod ends;
mod faults;
mod story;
mod why;

pub(crate) use bench::{guess, guessed, job, seen};
pub(crate) use console::{
    COUNTS_LOST, Customer, NO_ANSWER, NOTHING_COUNTED, Then, guesses_asked, paper_is_read, through,
    welcome,
};
pub(crate) use ends::{conclusion, counts, how_it_went, judged, level_counts, the_same_again};
pub(crate) use faults::{level, tell_tale, was_wrong};
pub(crate) use story::told;
pub use why::why;

#[cfg(test)]
mod tests;
