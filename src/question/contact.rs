//! What the powder test can find.

use super::{Answer, Said};

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
    /// Every finding.
    pub(crate) const ALL: [Self; 6] = [
        Self::None,
        Self::Button,
        Self::Rest,
        Self::Cable,
        Self::Other,
        Self::NotLooked,
    ];

    /// The answer that says so.
    pub(crate) const fn answer(self) -> Answer {
        match self {
            Self::None => Answer::None,
            Self::Button => Answer::Button,
            Self::Rest => Answer::Rest,
            Self::Cable => Answer::Cable,
            Self::Other => Answer::Other,
            Self::NotLooked => Answer::NotLooked,
        }
    }

    /// What an answer on record says. Words of older files that are no longer
    /// offered count as what they said: no contact, or some.
    pub fn of(said: &Said<Answer>) -> Self {
        match said.known() {
            Some(Answer::No | Answer::Clear) => Self::None,
            Some(known) => Self::ALL
                .into_iter()
                .find(|found| found.answer() == known)
                .unwrap_or(Self::Other),
            None => Self::Other,
        }
    }

    /// Whether it is contact that must be cured before anything is moved. A
    /// slap of the button alone is not.
    pub(crate) const fn must_be_cured(self) -> bool {
        matches!(self, Self::Rest | Self::Cable | Self::Other)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_of_older_files_keep_what_they_said() {
        for (word, means) in [
            ("none", Contact::None),
            ("no", Contact::None),
            ("clear", Contact::None),
            ("vanes", Contact::Other),
            ("button", Contact::Button),
            ("not-looked", Contact::NotLooked),
            ("sound", Contact::Other),
        ] {
            assert_eq!(Contact::of(&word.into()), means, "{word}");
        }
    }
}
