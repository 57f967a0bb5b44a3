//! What the launch depends on besides numbers, in the card's own kinds.

pub use crate::gear::{BowKind, Hand, Release, RestKind};

/// Kinds of bow, release and rest, and the hand.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Setup {
    /// Kind of bow.
    pub kind: BowKind,
    /// How the string is let go.
    pub release: Release,
    /// Kind of rest.
    pub rest: RestKind,
    /// Hand of the archer.
    pub hand: Hand,
}

impl Setup {
    /// +1 for a right hand, -1 for a left: the side of the arrow on which
    /// the riser stands.
    #[must_use]
    pub fn riser_side(&self) -> f64 {
        self.hand.in_sign()
    }
}
