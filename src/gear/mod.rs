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
pub mod confirm;
pub mod field;
pub(crate) mod format;
mod moves;
mod read;
mod salvage;
mod text;

pub use adjuster::{Adjuster, AdjusterKind, AdjusterUnit, Axis};
pub use bench::{BenchStep, BoltsLimit, beyond, toward_the_tail};
pub use blank::blank_card;
pub use card::{
    Archer, Arrow, Bow, BowKind, Card, Hand, Job, Paper, Release, Rest, RestKind, grains_per_pound,
};
pub use chart::{CHART_EXAMPLE, MakerChart};
pub use confirm::Unconfirmed;
pub use moves::{MoveError, Positions, Step, parse_moves, read_bare_length};
pub(crate) use read::turns_counted;
pub use read::{CardAndWarnings, check_value};
pub use text::{CardProblem, CardText, Entered, FORMAT};
pub(crate) use text::{line_of, quote};
