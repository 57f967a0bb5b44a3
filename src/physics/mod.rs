//! The mechanics: column, launch, flight, paper.
//!
//! Everything here is in SI units, seen from the shooter's side of the
//! paper: right is positive, up is positive. What nobody publishes is a named
//! parameter with a wide range, never a hidden constant.
//!
//! - [`column`]: masses along the arrow, balance, critical load.
//! - [`spine`]: static spine to stiffness, and [`spine::spine_match`], the
//!   load ratio on its bands; [`references`] holds the one table it rests on.
//! - [`modes`]: free-free frequencies, shapes, nodes.

pub mod column;
pub mod kinds;
mod legendre;
pub mod linalg;
pub mod modes;
pub mod references;
pub mod si;
pub mod spine;

pub use column::ArrowSpec;
pub use kinds::{BowKind, Hand, Release, RestKind};
pub use modes::FreeModes;
pub use spine::{SpineBow, SpineGrade, SpineMatch, spine_match};
