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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_riser_stands_right_of_a_right_handed_arrow_and_left_of_a_left_handed_one() {
        let setup = |hand| Setup {
            kind: BowKind::Recurve,
            release: Release::Fingers,
            rest: RestKind::Plunger,
            hand,
        };
        assert_eq!(setup(Hand::Right).riser_side(), 1.0);
        assert_eq!(setup(Hand::Left).riser_side(), -1.0);
    }
}
