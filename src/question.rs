//! What can be asked and answered, and what stops: one typed table. Its
//! `parse` and `Display` are the file's words, and nothing else compares them
//! as text.

mod refusal;

pub use refusal::Refusal;
