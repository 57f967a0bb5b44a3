//! The stages of proof, in order: what is shot at each, from where, and how
//! far apart it may land. How each is shot safely is said in [`crate::words`].

use crate::gear::{BowKind, Card, Release};
pub(crate) use crate::question::GroupKind;
pub use crate::question::Stage;

impl Stage {
    /// What is shot at it, as recorded with a group; empty for levels.
    pub const fn whats(self) -> &'static [GroupKind] {
        use GroupKind::{Bare, Broadhead, Field, Fletched, Hard, Normal, TurnedLeft, TurnedRight};
        match self {
            Self::Levels => &[],
            Self::Creep => &[Normal, Hard],
            Self::Torque => &[TurnedLeft, TurnedRight],
            Self::BareShaft => &[Fletched, Bare],
            Self::Broadhead => &[Field, Broadhead],
            _ => &[Fletched],
        }
    }

    /// Distance to begin with, m.
    pub fn distance_m(self, card: &Card) -> f64 {
        match self {
            Self::Levels => 0.0,
            Self::RoughSight => 5.0,
            Self::BareShaft
            | Self::Broadhead
            | Self::FinalSight
            | Self::WalkBack
            | Self::Creep
            | Self::Torque => 18.0,
            Self::NearFar => 3.0,
            Self::Groups if card.bow.kind == BowKind::Compound => 18.0,
            Self::Groups => 30.0,
        }
    }

    /// Distances in the order they are shot, m: what a line shows is said, and
    /// a move suggested, once all of them are shot.
    pub fn distances_m(self, card: &Card) -> Vec<f64> {
        match self {
            Self::BareShaft => vec![5.0, 18.0],
            Self::WalkBack => vec![18.0, 27.0, 32.0, 36.0],
            Self::NearFar => vec![3.0, 30.0],
            _ => vec![self.distance_m(card)],
        }
    }

    /// How far apart the two groups may land, or the group from the spot, mm, at a distance.
    pub fn tolerance_mm(self, card: &Card, distance_m: f64) -> f64 {
        let at_18 = match (self, card.bow.release) {
            (Self::BareShaft, Release::Fingers) => 100.0,
            (Self::RoughSight, _) => 150.0,
            // Half of what bare shafts are allowed: common practice, no source.
            (Self::FinalSight | Self::Creep, _) => 25.0,
            _ => 50.0,
        };
        at_18 * (distance_m / 18.0).max(0.2)
    }

    /// Usual for this bow: broadheads are not asked of a recurve or longbow,
    /// and nobody is asked for what is optional.
    pub fn usual(self, card: &Card) -> bool {
        match self {
            Self::Broadhead => card.bow.kind == BowKind::Compound,
            Self::Creep | Self::Torque => false,
            _ => true,
        }
    }

    /// Optional for this bow: there is a wall to hold against, a rest to move
    /// fore and aft.
    pub fn optional(self, card: &Card) -> bool {
        matches!(self, Self::Creep | Self::Torque) && card.bow.kind == BowKind::Compound
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::setup::tests::{COMPOUND, RECURVE, timeline};

    /// Common practice, no source: close in and at 18 m for bare shafts, four
    /// distances for walk-back, the nearest pin and 30 m for near and far.
    #[test]
    fn each_stage_is_shot_at_its_distances() {
        for (bow, groups) in [(COMPOUND, 18.0), (RECURVE, 30.0)] {
            let card = timeline(bow, vec![]).card;
            for (stage, metres) in [
                (Stage::Levels, vec![0.0]),
                (Stage::RoughSight, vec![5.0]),
                (Stage::BareShaft, vec![5.0, 18.0]),
                (Stage::WalkBack, vec![18.0, 27.0, 32.0, 36.0]),
                (Stage::NearFar, vec![3.0, 30.0]),
                (Stage::Broadhead, vec![18.0]),
                (Stage::Groups, vec![groups]),
                (Stage::FinalSight, vec![18.0]),
                (Stage::Creep, vec![18.0]),
                (Stage::Torque, vec![18.0]),
            ] {
                assert_eq!(stage.distances_m(&card), metres, "{stage:?}");
            }
        }
    }
}
