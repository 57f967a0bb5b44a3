//! The mechanics: column, launch, flight, paper.
//!
//! Everything here is in SI units, seen from the shooter's side of the
//! paper: right is positive, up is positive. What nobody publishes is a named
//! parameter with a wide range, never a hidden constant.
//!
//! What is known beforehand, without a shot:
//!
//! - [`mod@column`]: masses along the arrow, balance, critical load.
//! - [`spine`]: static spine to stiffness, and [`spine::spine_match`], the
//!   load ratio on its bands; [`references`] holds the one table it rests on.
//! - [`remedies`]: sizes of remedies, with their side effects.
//! - [`modes`]: free-free frequencies, shapes, nodes; [`bending`] the first of
//!   them for an arrow in flight.
//! - [`bow`]: force-draw curve, energy, speed, time on the string.
//!
//! The shot:
//!
//! - [`unknowns`]: what nobody publishes, by name, with ranges.
//! - [`drive`] and [`contact`]: what acts on the arrow from outside.
//! - [`launch`]: both planes, release to the nock passing the rest.
//! - [`flight`] and [`paper`]: from there to the cut.
//! - [`virtual_bow`]: settings and a disturbance in, a cut out.
//!
//! For the tuner:
//!
//! - [`prior`]: the response to expect, by Monte Carlo over the unknowns.
//! - [`distances`]: what a tear here says of the tear at other distances.
//! - [`card`]: from a card to all of these.
//!
//! How fast, and how exact: a launch with full contact in both planes takes
//! 7 shapes and steps of 0.1 ms. `cargo bench --bench launch` measures the
//! speed, `tests/properties/launch_fine.rs` what it costs: 0.2 to 0.8 % of
//! the tears (root mean square) against a fine finite-element solution.

// Matrix formulas read best with their indices as written.
#![allow(clippy::needless_range_loop)]

pub mod bending;
pub mod bow;
pub(crate) mod card;
pub mod column;
pub mod contact;
pub mod distances;
pub mod drive;
pub mod flight;
pub(crate) mod kinds;
pub mod launch;
mod legendre;
pub mod linalg;
pub mod modes;
pub mod paper;
pub mod prior;
pub mod references;
pub mod remedies;
pub mod rng;
pub mod si;
pub mod spine;
pub mod unknowns;
pub mod virtual_bow;

pub use bow::{BowSpec, Losses};
pub use column::ArrowSpec;
pub use kinds::{BowKind, Hand, Release, RestKind, Setup};
pub use modes::FreeModes;
pub use prior::ResponsePrior;
pub use spine::{SpineBow, SpineGrade, SpineMatch, spine_match};
pub use unknowns::Unknowns;
pub use virtual_bow::{Disturbance, Settings, Steadiness, VirtualBow};
