//! Texts from strangers against every reader: cards, sessions, tears, moves,
//! settings. Nothing panics, numbers stay finite, sizes bounded, and nothing
//! a terminal acts on comes back in an error.
//!
//! `TEARBENCH_HOSTILE_CASES` sets how many texts each test tries (300 where
//! it is not set).

#[path = "../fixtures/mod.rs"]
mod fixtures;
mod mutate;
mod readers;
