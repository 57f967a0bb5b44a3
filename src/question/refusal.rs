//! Why the rest is to be left alone, or the bow not shot.

use std::fmt;

/// A refusal or a stop: one type from the check that finds it to the pane
/// that walks its path.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Refusal {
    /// A safety incident.
    Incident,
    /// Limb bolts or draw weight are past the bow maker's limit.
    PastLimit,
    /// The draw weight is not known since the limb bolts were moved.
    WeighFirst,
    /// The arrow is too light for the bow.
    TooLight,
    /// The arrow is too short for the draw.
    TooShort,
    /// The arrow is too weak to be shot at all.
    FarTooWeak,
    /// The arrow is too weak for the bow.
    SpineWeak,
    /// The arrow is too stiff, shot with fingers.
    SpineStiff,
    /// Repeat shots do not agree.
    Scatter,
    /// Something touches the arrow.
    Contact,
    /// The rest does nothing.
    NoResponse,
    /// The mean jumps between moves.
    Jumps,
    /// The rest's travel does not reach.
    TravelLimit,
    /// The tear is too large for the rest.
    HugeTear,
    /// The bow has no adjuster that way.
    NoAdjuster,
}

impl Refusal {
    /// Every refusal and stop, the stops first.
    pub const ALL: [Self; 15] = [
        Self::Incident,
        Self::PastLimit,
        Self::WeighFirst,
        Self::TooLight,
        Self::TooShort,
        Self::FarTooWeak,
        Self::SpineWeak,
        Self::SpineStiff,
        Self::Scatter,
        Self::Contact,
        Self::NoResponse,
        Self::Jumps,
        Self::TravelLimit,
        Self::HugeTear,
        Self::NoAdjuster,
    ];

    /// The stable code of the reason in the advice, part of the file's words.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Incident => "incident",
            Self::PastLimit => "past-maker-limit",
            Self::WeighFirst => "weigh-first",
            Self::TooLight => "arrow-too-light",
            Self::TooShort => "arrow-too-short",
            Self::FarTooWeak => "arrow-far-too-weak",
            Self::SpineWeak => "spine-weak",
            Self::SpineStiff => "spine-stiff",
            Self::Scatter => "scatter",
            Self::Contact => "contact",
            Self::NoResponse => "no-response",
            Self::Jumps => "jumps",
            Self::TravelLimit => "travel",
            Self::HugeTear => "huge-tear",
            Self::NoAdjuster => "no-adjuster",
        }
    }

    /// The refusal with this code.
    pub fn parse(code: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|r| r.code() == code)
    }

    /// Whether it forbids shooting, and not only moving the rest.
    pub const fn stops(self) -> bool {
        matches!(
            self,
            Self::Incident
                | Self::PastLimit
                | Self::WeighFirst
                | Self::TooLight
                | Self::TooShort
                | Self::FarTooWeak
        )
    }

    /// Whether only the card lifts it: no answer does.
    pub(crate) const fn of_the_card(self) -> bool {
        matches!(
            self,
            Self::SpineWeak
                | Self::SpineStiff
                | Self::TooLight
                | Self::TooShort
                | Self::WeighFirst
                | Self::PastLimit
                | Self::FarTooWeak
        )
    }
}

impl fmt::Display for Refusal {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.pad(self.code())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_refusal_is_read_back_from_its_code_and_has_its_own() {
        for (i, refusal) in Refusal::ALL.into_iter().enumerate() {
            assert_eq!(Refusal::parse(refusal.code()), Some(refusal));
            let others = &Refusal::ALL[i + 1..];
            assert!(others.iter().all(|o| o.code() != refusal.code()));
        }
        assert_eq!(Refusal::parse("inside"), None);
    }
}
