//! The parts looked at after an incident, as they are recorded: one entry a
//! part. No single word stands for all of them.

use crate::gear::BowKind;

/// One part of the inspection.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum InspectPart {
    /// String, and on a compound the cables.
    String,
    /// Limbs and their pockets or seats.
    Limbs,
    /// Cams, axles and the cable guard of a compound.
    Cams,
    /// Riser, limb bolts and every screw.
    Riser,
    /// Rest, plunger and sight.
    Rest,
    /// Every arrow that was near it.
    Arrows,
    /// The backstop, and where the arrow went.
    Range,
    /// A slow draw, last.
    Draw,
}

impl InspectPart {
    /// All parts, in the order in which they are looked at.
    pub const ALL: [Self; 8] = [
        Self::String,
        Self::Limbs,
        Self::Cams,
        Self::Riser,
        Self::Rest,
        Self::Arrows,
        Self::Range,
        Self::Draw,
    ];
    /// The answer that a part is in order.
    pub const GOOD: &'static str = "sound";
    /// The answer that it is not.
    pub const BAD: &'static str = "damaged";

    /// The test under which it is recorded.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::String => "inspect-string",
            Self::Limbs => "inspect-limbs",
            Self::Cams => "inspect-cams",
            Self::Riser => "inspect-riser",
            Self::Rest => "inspect-rest",
            Self::Arrows => "inspect-arrows",
            Self::Range => "inspect-range",
            Self::Draw => "inspect-draw",
        }
    }

    /// The part recorded under this test.
    #[must_use]
    pub fn from_id(id: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|p| p.id() == id)
    }

    /// The parts that a bow of this kind has.
    pub fn of(kind: BowKind) -> impl Iterator<Item = Self> + Clone {
        let compound = kind == BowKind::Compound;
        Self::ALL
            .into_iter()
            .filter(move |p| compound || *p != Self::Cams)
    }

    /// Its name on a bow of this kind.
    #[must_use]
    pub const fn name(self, kind: BowKind) -> &'static str {
        let compound = matches!(kind, BowKind::Compound);
        match self {
            Self::String if compound => "string and cables",
            Self::String => "string",
            Self::Limbs if compound => "limbs and pockets",
            Self::Limbs => "limbs",
            Self::Cams => "cams, axles and cable guard",
            Self::Riser => "riser and every screw",
            Self::Rest => "rest and sight",
            Self::Arrows => "arrows",
            Self::Range => "backstop",
            Self::Draw => "slow draw, last",
        }
    }
}

/// The test that older programs took for the whole inspection.
pub const ONE_WORD_TEST: &str = "inspection";

/// Whether an older program took this answer for the whole inspection.
#[must_use]
pub fn is_one_word(test: &str, result: &str) -> bool {
    test == ONE_WORD_TEST && matches!(result, "clear" | "passed" | "sound" | "none")
}
