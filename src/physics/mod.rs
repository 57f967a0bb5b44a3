//! The mechanics: column, launch, flight, paper.
//!
//! Everything here is in SI units, seen from the shooter's side of the
//! paper: right is positive, up is positive. What nobody publishes is a named
//! parameter with a wide range, never a hidden constant.
//!
//! - [`mod@column`]: masses along the arrow, balance, critical load.
//! - [`spine`]: static spine to stiffness, and [`spine::spine_match`], the
//!   load ratio on its bands; [`references`] holds the one table it rests on.
//! - [`remedies`]: sizes of remedies, with their side effects.
//! - [`bow`]: force-draw curve, energy, speed, time on the string.
//! - [`modes`]: free-free frequencies, shapes, nodes.

// Matrix formulas read best with their indices as written.
#![allow(clippy::needless_range_loop)]

pub mod bow;
pub mod column;
pub mod contact;
pub mod drive;
pub mod flight;
pub mod kinds;
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
pub use spine::{SpineBow, SpineGrade, SpineMatch, spine_match};
