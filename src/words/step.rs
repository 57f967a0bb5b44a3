//! How a step stands on any list around the paper, in a word or two.

use crate::step::{Since, State};

/// How a step stands, in a word for a list.
pub(crate) const fn state(state: State) -> &'static str {
    match state {
        State::Open => "to do",
        State::NotYet | State::LevelsFirst => "not yet",
        State::ShootMore => "shoot",
        State::Ok => "ok",
        State::Off => "OFF",
        State::Skipped => "skipped",
        State::Again(_) => "due again",
    }
}

/// Why a step is due again.
pub(crate) const fn since(since: Since) -> &'static str {
    match since {
        Since::Press => "press work since",
        Since::Limbs => "limb bolts or brace height moved since",
        Since::RestHeight => "rest height moved since",
        Since::Arrows => "other arrows on the card since",
    }
}
