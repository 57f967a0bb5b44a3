//! The set-up card: bow, rest and adjusters, arrow, archer, paper.
//!
//! A card is text with units ([`CardText`]), as a person writes it; reading it
//! gives a [`Card`] of plain quantities, with every problem named by line and
//! field. What may stand on a card is one table, [`field::FIELDS`], from which
//! reading, validation, the card screen and the reference are made.

mod adjuster;
mod bench;
mod blank;
mod card;
mod chart;
pub(crate) mod confirm;
pub(crate) mod field;
pub(crate) mod format;
mod moves;
mod read;
mod salvage;
mod text;

pub use adjuster::{Adjuster, AdjusterKind, AdjusterUnit, Axis};
pub use bench::BenchStep;
pub(crate) use bench::{BoltsLimit, beyond, toward_the_tail};
pub(crate) use blank::blank_card;
pub(crate) use card::grains_per_pound;
pub use card::{Arrow, Bow, BowKind, Card, Hand, Job, Paper, Release, Rest, RestKind};
pub(crate) use chart::CHART_EXAMPLE;
pub use confirm::Unconfirmed;
pub(crate) use field::usual_weights;
pub(crate) use moves::read_bare_length;
pub use moves::{MoveError, Positions, Step, parse_moves};
pub(crate) use read::{check_value, turns_counted, unusual};
pub(crate) use text::FORMAT;
pub use text::{CardProblem, CardText, Entered};
pub(crate) use text::{line_of, quote};
