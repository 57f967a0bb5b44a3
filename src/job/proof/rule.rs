//! The trade's rules for what a stage of proof shows. What each says, with its
//! standing, is made in [`crate::words`].

use super::stage::Stage;
use crate::gear::{AdjusterKind, Hand};

/// A rule of the trade for one adjuster.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Rule {
    /// The rest goes toward the fletched group.
    TowardFletched,
    /// The rest goes toward the field points.
    TowardFieldPoints,
    /// Bare shafts low, rest up; high, rest down.
    BareRest,
    /// Broadheads low, rest up; high, rest down.
    BroadheadRest,
    /// Bare shafts high, nocking point up; low, down.
    BareNock,
    /// Broadheads high, nocking point up; low, down.
    BroadheadNock,
    /// An arrow that acts weak wants the plunger firmer, a stiff one softer.
    WeakFirmer,
    /// The rest goes against the drift.
    AgainstDrift,
}

impl Rule {
    /// Whether it expects the impacts to go with the adjuster's positive way.
    pub fn follows(self, hand: Hand) -> bool {
        match self {
            Self::BareNock | Self::BroadheadNock => false,
            // Firmer acts stiffer: a weak arrow's bare shaft lands on the
            // riser's side, right on a right-handed bow, and firmer brings it
            // back.
            Self::WeakFirmer => hand == Hand::Left,
            _ => true,
        }
    }
}

/// The trade's rule, where it has one.
pub(super) const fn rule_of(stage: Stage, kind: AdjusterKind) -> Option<Rule> {
    use AdjusterKind::{CentreShot, NockingPoint, PlungerTension, RestHeight, RestSideways};
    Some(match (stage, kind) {
        (Stage::BareShaft, RestSideways | CentreShot) => Rule::TowardFletched,
        (Stage::Broadhead, RestSideways | CentreShot) => Rule::TowardFieldPoints,
        (Stage::BareShaft, RestHeight) => Rule::BareRest,
        (Stage::Broadhead, RestHeight) => Rule::BroadheadRest,
        (Stage::BareShaft, NockingPoint) => Rule::BareNock,
        (Stage::Broadhead, NockingPoint) => Rule::BroadheadNock,
        (Stage::BareShaft, PlungerTension) => Rule::WeakFirmer,
        (Stage::WalkBack | Stage::NearFar, RestSideways | CentreShot) => Rule::AgainstDrift,
        _ => return None,
    })
}
