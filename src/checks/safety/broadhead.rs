//! Whether a broadhead at full draw stays ahead of the hand and the riser.

use super::{reach_inches, shaft_end_inches};
use crate::gear::Card;

/// Where a broadhead on this arrow stands at full draw.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Carried {
    /// Ahead of hand and riser.
    Clear,
    /// Over the bow hand: so many inches behind the grip pivot.
    OverHand(f64),
    /// Beside the riser: so many inches behind its front.
    BehindRiser(f64),
    /// The riser's front was not measured.
    NotMeasured,
}

/// Whether the head, which begins at the shaft's end, stands ahead of the grip
/// pivot and of the riser's front at full draw.
pub fn broadhead(card: &Card) -> Carried {
    let end = shaft_end_inches(card);
    if end <= 1e-9 {
        return Carried::OverHand(-end);
    }
    let Some(front) = card.rest.riser_front else {
        return Carried::NotMeasured;
    };
    let ahead = reach_inches(card) - front.inches();
    if ahead <= 1e-9 {
        return Carried::BehindRiser(-ahead);
    }
    Carried::Clear
}
