//! The real program in a real pseudo-terminal. These tests wait for text on
//! the screen, never for time.
#![cfg(unix)]

mod bow;
mod dropped;
mod files;
mod job;
mod lifecycle;
mod looks;
mod terminal;
