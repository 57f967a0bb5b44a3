//! The core of `tearbench`, a terminal console for tuning a bow through paper.
//!
//! Open a session, shoot, and ask what comes next; [`Session::open_for_writing`]
//! does the same on a file:
//!
//! ```
//! use tearbench::session::{Event, Given, Session, Shot};
//! use tearbench::{advice, range::Today, tear, units::System, words};
//!
//! let text = include_str!("../sample-sessions/half-way.toml");
//! let mut session = Session::from_text(text).expect("a session that can be read");
//! let hole = tear::read_hole("6 left 1 high", System::Mm)?;
//! let shot = Shot::of(&hole, "6 left 1 high", &Given::default())?;
//! session.record(Event::Shot(shot))?;
//! let advice = advice::advise(session.timeline(), Today::now());
//! println!("{}", words::headline(&advice, System::Mm));
//! assert_eq!(session.timeline().shots.len(), 8);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! [`Session::open_for_writing`]: session::Session::open_for_writing
//!
//! Dependencies point one way: [`units`] is at the bottom, then [`gear`] and
//! [`tear`], then [`question`] and [`session`]; [`physics`] rests on units and gear, [`stats`]
//! on nothing of ours; [`belief`] on session, physics and stats; [`checks`]
//! and [`tuner`] on belief; [`advice`] on checks and tuner. Around the paper
//! stands [`job`]: [`setup`] before it, [`trouble`] after a refusal, [`proof`]
//! at distance, [`restore`]; [`report`] and [`book`] stand on all of them. The
//! command line and the screen come last. Nothing below [`tui`] knows of a
//! terminal.
//!
//! Signs: everything is seen from the shooter's side of the paper. Right is
//! positive, up is positive. A tear is nock hole minus point hole, in mm.

pub mod actions;
pub mod advice;
pub mod belief;
pub mod bench_plan;
pub mod book;
pub(crate) mod cautions;
pub mod checks;
pub mod cli;
pub mod config;
#[cfg(test)]
#[path = "../tests/fixtures/mod.rs"]
pub(crate) mod fixtures;
pub mod gear;
pub(crate) mod job;
pub mod look;
pub mod physics;
pub mod practice;
pub mod question;
pub mod report;
pub mod session;
pub mod stats;
pub mod tear;
pub mod tui;
pub mod tuner;
pub mod units;
pub mod words;

pub use job::{proof, range, restore, setup, step, trouble};
