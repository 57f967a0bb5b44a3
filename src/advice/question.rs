//! What is asked in words before a sideways move, and every answer: the one
//! table of these questions. The harmless answer stands first.

use crate::gear::Release;

/// The powder test: what wiped the powder off shaft and vanes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Contact {
    /// Nothing but the rest's own track.
    None,
    /// A late mark of the button: the rear of the shaft slapped it.
    Button,
    /// The rest.
    Rest,
    /// A cable or its guard.
    Cable,
    /// Something else: riser, shelf, clothing.
    Other,
    /// Nobody looked.
    NotLooked,
}

impl Contact {
    /// Every answer.
    pub const ALL: [Self; 6] = [
        Self::None,
        Self::Button,
        Self::Rest,
        Self::Cable,
        Self::Other,
        Self::NotLooked,
    ];

    /// The word it is recorded under.
    pub const fn id(self) -> &'static str {
        match self {
            Self::None => "none",
            Self::Button => "button",
            Self::Rest => "rest",
            Self::Cable => "cable",
            Self::Other => "other",
            Self::NotLooked => "not-looked",
        }
    }

    /// The answer that a recorded word stands for. Words of older files that
    /// are no longer offered count as what they said: no contact, or some.
    pub fn of_word(word: &str) -> Self {
        match word {
            "no" | "clear" => Self::None,
            _ => Self::ALL
                .into_iter()
                .find(|answer| answer.id() == word)
                .unwrap_or(Self::Other),
        }
    }

    /// Whether it is contact that must be cured before anything is moved. A
    /// slap of the button alone is not.
    pub const fn must_be_cured(self) -> bool {
        matches!(self, Self::Rest | Self::Cable | Self::Other)
    }
}

/// Whether the shots that stand were shot with an open, relaxed hand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Hand {
    /// They were.
    Relaxed,
    /// They were not.
    Not,
    /// Nobody looked.
    NotLooked,
}

impl Hand {
    /// Every answer.
    pub const ALL: [Self; 3] = [Self::Relaxed, Self::Not, Self::NotLooked];

    /// The word it is recorded under.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Relaxed => "relaxed",
            Self::Not => "not",
            Self::NotLooked => "not-looked",
        }
    }
}

/// Answers of the powder test as it is put before the first sideways move of
/// a bow shot with fingers.
pub const BUTTON_ANSWERS: [&str; 5] = [
    Contact::None.id(),
    Contact::Button.id(),
    Contact::Rest.id(),
    Contact::Other.id(),
    Contact::NotLooked.id(),
];

/// Answers of the powder test after ragged holes.
pub const RAGGED_ANSWERS: [&str; 4] = [
    Contact::None.id(),
    Contact::Rest.id(),
    Contact::Cable.id(),
    Contact::Other.id(),
];

/// Answers to the question about the hand.
pub const HAND_ANSWERS: [&str; 3] = [Hand::Relaxed.id(), Hand::Not.id(), Hand::NotLooked.id()];

/// The test the powder is recorded under.
pub const CONTACT: &str = "contact";
/// The test the hand is recorded under.
pub const HAND: &str = "hand";
/// The test with other arrows of the set is recorded under this.
pub const ARROW: &str = "arrow";
/// Answers of the test with other arrows.
pub const ARROW_ANSWERS: [&str; 2] = ["same", "odd"];

/// The answers a test takes with this release; `None` for a test that is not
/// in this table.
pub fn answers(test: &str, release: Release) -> Option<Vec<&'static str>> {
    match (test, release) {
        (CONTACT, Release::Fingers) => Some(Contact::ALL.map(Contact::id).to_vec()),
        (CONTACT, Release::Aid) => Some(RAGGED_ANSWERS.to_vec()),
        (HAND, _) => Some(HAND_ANSWERS.to_vec()),
        (ARROW, _) => Some(ARROW_ANSWERS.to_vec()),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_harmless_answer_stands_first_and_a_slap_alone_never_refuses() {
        assert_eq!(
            BUTTON_ANSWERS,
            ["none", "button", "rest", "other", "not-looked"]
        );
        assert_eq!(RAGGED_ANSWERS, ["none", "rest", "cable", "other"]);
        assert_eq!(HAND_ANSWERS, ["relaxed", "not", "not-looked"]);
        let cured: Vec<&str> = Contact::ALL
            .into_iter()
            .filter(|a| a.must_be_cured())
            .map(Contact::id)
            .collect();
        assert_eq!(cured, ["rest", "cable", "other"]);
    }

    #[test]
    fn words_of_older_files_keep_what_they_said() {
        for (word, means) in [
            ("none", Contact::None),
            ("no", Contact::None),
            ("clear", Contact::None),
            ("vanes", Contact::Other),
            ("button", Contact::Button),
        ] {
            assert_eq!(Contact::of_word(word), means, "{word}");
        }
    }
}
