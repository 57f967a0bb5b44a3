//! How a step stands on any list around the paper: an item before paper, a
//! part of the inspection, a stage of proof. What it says is made in
//! [`crate::words::step`].

/// How a step stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum State {
    /// Not done yet.
    Open,
    /// Something must stand on the card before it is done.
    NotYet,
    /// Levels are not answered, and they come first.
    LevelsFirst,
    /// Not enough was shot to tell.
    ShootMore,
    /// In order.
    Ok,
    /// Not in order.
    Off,
    /// Left out knowingly.
    Skipped,
    /// Was answered, and is due again: why.
    Again(Since),
}

/// Why a step is due again.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Since {
    /// Press work.
    Press,
    /// The limb bolts or the brace height moved.
    Limbs,
    /// The rest height moved.
    RestHeight,
    /// Other arrows on the card.
    Arrows,
}

impl State {
    /// The stable word of it in JSON.
    pub(crate) const fn code(self) -> &'static str {
        match self {
            Self::Open => "to do",
            Self::NotYet => "not yet",
            Self::LevelsFirst => "levels",
            Self::ShootMore => "shoot",
            Self::Ok => "ok",
            Self::Off => "OFF",
            Self::Skipped => "skipped",
            Self::Again(_) => "again",
        }
    }

    /// Whether it is answered and still holds: in order, off or left out.
    pub(crate) const fn is_answered(self) -> bool {
        matches!(self, Self::Ok | Self::Off | Self::Skipped)
    }

    /// Whether nothing is left to do about it: in order or left out.
    pub(crate) const fn is_settled(self) -> bool {
        matches!(self, Self::Ok | Self::Skipped)
    }

    /// Whether it must not be overlooked on a list: off, or due again.
    pub(crate) const fn is_alarm(self) -> bool {
        matches!(self, Self::Off | Self::Again(_))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_state_has_the_word_that_json_had_for_it_and_says_what_is_left_to_do() {
        let again = State::Again(Since::Limbs);
        // The state, its word, answered, settled, not to be overlooked.
        for (state, word, answered, settled, alarm) in [
            (State::Open, "to do", false, false, false),
            (State::NotYet, "not yet", false, false, false),
            (State::LevelsFirst, "levels", false, false, false),
            (State::ShootMore, "shoot", false, false, false),
            (State::Ok, "ok", true, true, false),
            (State::Off, "OFF", true, false, true),
            (State::Skipped, "skipped", true, true, false),
            (again, "again", false, false, true),
        ] {
            let said = (state.is_answered(), state.is_settled(), state.is_alarm());
            assert_eq!((state.code(), said), (word, (answered, settled, alarm)));
        }
    }
}
