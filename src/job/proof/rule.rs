//! The trade's rules for what a stage of proof shows, each with its standing.

use super::stage::Stage;
use crate::gear::{AdjusterKind, Hand};

/// A rule of the trade for one adjuster.
pub(super) struct Rule {
    /// Whether it expects the impacts to go with the adjuster's positive way.
    pub follows: bool,
    /// In words, with its standing.
    pub says: &'static str,
}

/// The trade's rule, where it has one.
pub(super) fn rule_of(stage: Stage, kind: AdjusterKind, hand: Hand) -> Option<Rule> {
    use AdjusterKind::{CentreShot, NockingPoint, PlungerTension, RestHeight, RestSideways};
    let rule = |follows, says| Some(Rule { follows, says });
    match (stage, kind) {
        (Stage::BareShaft, RestSideways | CentreShot) => rule(
            true,
            "the rest goes toward the fletched group (from memory; guides contradict each other on paper)",
        ),
        (Stage::Broadhead, RestSideways | CentreShot) => {
            rule(true, "the rest goes toward the field points (from memory)")
        }
        (Stage::BareShaft, RestHeight) => rule(
            true,
            "bare shafts low, rest up; high, rest down (from memory)",
        ),
        (Stage::Broadhead, RestHeight) => rule(
            true,
            "broadheads low, rest up; high, rest down (from memory)",
        ),
        (Stage::BareShaft, NockingPoint) => rule(
            false,
            "bare shafts high, nocking point up; low, down (from memory)",
        ),
        (Stage::Broadhead, NockingPoint) => rule(
            false,
            "broadheads high, nocking point up; low, down (from memory)",
        ),
        // Firmer acts stiffer: a weak arrow's bare shaft lands on the riser's
        // side, right on a right-handed bow, and firmer brings it back.
        (Stage::BareShaft, PlungerTension) => rule(
            hand == Hand::Left,
            "an arrow that acts weak wants the plunger firmer, a stiff one softer (a hunting site's chart)",
        ),
        (Stage::WalkBack | Stage::NearFar, RestSideways | CentreShot) => {
            rule(true, "the rest goes against the drift (from memory)")
        }
        _ => None,
    }
}
