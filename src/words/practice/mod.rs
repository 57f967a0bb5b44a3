//! What practice says: why the advice is what it is.

mod faults;
mod why;

pub(crate) use faults::tell_tale;
pub use why::why;

#[cfg(test)]
mod tests;
