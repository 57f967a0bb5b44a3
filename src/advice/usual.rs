//! What is usual for a release, and the belief's axis of an adjuster.

use crate::belief;
use crate::gear::{AdjusterKind, Axis, Card, Release};

/// The usual tolerance for a release, mm (common practice, from memory): an
/// archer normal for the release is not refused for a finer one.
pub(crate) fn usual_tolerance(release: Release) -> f64 {
    match release {
        Release::Aid => 6.0,
        Release::Fingers => 12.0,
    }
}

/// Fewest shots at the last setting before it is called done: one with a
/// release aid; two with fingers, whose response may be kinked; or as many as
/// the owner says (this project's own figures, settled on the judging bench).
pub fn least_shots(card: &Card) -> usize {
    let usual = match card.bow.release {
        Release::Aid => 1,
        Release::Fingers => 2,
    };
    card.paper.least_shots.unwrap_or(usual).max(1) as usize
}

/// The belief's axis of an adjuster.
pub fn axis(kind: AdjusterKind) -> belief::Axis {
    match kind.axis() {
        Axis::Vertical => belief::Axis::Up,
        _ => belief::Axis::Right,
    }
}
