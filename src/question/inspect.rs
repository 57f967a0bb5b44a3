//! The parts looked at after an incident: one entry a part. No single word
//! stands for all of them.

use super::said::word_table;
use super::{Answer, Question, Said};
use crate::gear::BowKind;

word_table! {
    /// One part of the inspection, in the order in which they are looked at.
    pub enum InspectPart {
        /// String, and on a compound the cables.
        String = "inspect-string",
        /// Limbs and their pockets or seats.
        Limbs = "inspect-limbs",
        /// Cams, axles and the cable guard of a compound.
        Cams = "inspect-cams",
        /// Riser, limb bolts and every screw.
        Riser = "inspect-riser",
        /// Rest, plunger and sight.
        Rest = "inspect-rest",
        /// Every arrow that was near it.
        Arrows = "inspect-arrows",
        /// The backstop, and where the arrow went.
        Range = "inspect-range",
        /// A slow draw, last.
        Draw = "inspect-draw",
    }
}

impl InspectPart {
    /// The answer that a part is in order.
    pub(crate) const GOOD: Answer = Answer::Sound;
    /// The answer that it is not.
    pub(crate) const BAD: Answer = Answer::Damaged;

    /// The parts that a bow of this kind has.
    pub fn of(kind: BowKind) -> impl Iterator<Item = Self> + Clone {
        let compound = kind == BowKind::Compound;
        Self::ALL
            .into_iter()
            .filter(move |p| compound || *p != Self::Cams)
    }
}

/// Whether an older program took this answer for the whole inspection.
#[must_use]
pub(crate) fn clears_in_one_word(test: &Said<Question>, result: &Said<Answer>) -> bool {
    let clears = matches!(
        result.known(),
        Some(Answer::Clear | Answer::Passed | Answer::Sound | Answer::None)
    );
    *test == Question::Inspection && clears
}
