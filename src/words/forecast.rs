//! What to expect of the next shot, and of the adjusters.

use super::{capital, expected, known_sentence};
use crate::advice::{GainEstimate, NextShot};
use crate::gear::AdjusterKind;
use crate::tear::Tear;
use crate::units::System;

/// What the next shot should look like if the estimate is right.
pub fn next_shot(next: &NextShot, system: System) -> String {
    expected(Tear::new(next.right, next.up), next.sd(), system)
}

/// What an adjuster does, in words, as far as it is known.
pub fn gain(kind: AdjusterKind, gain: &GainEstimate, system: System) -> String {
    capital(&known_sentence(&gain.known(kind), system))
}
