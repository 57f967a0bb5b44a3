//! How a step stands on any list around the paper, in a word or two, and what
//! is told of one, label by label, for console and page alike.

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

/// How much a fact weighs where it is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Weight {
    /// It says how the step stands; its label is the word for that.
    Stands(State),
    /// It is to be heeded.
    Careful,
    /// One among others.
    Plain,
    /// Good to know, last.
    Quiet,
}

/// One thing that is told of a step.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Fact {
    /// What it is about, in a word or two.
    pub label: String,
    /// What it says.
    pub text: String,
    /// How much it weighs.
    pub weight: Weight,
}

/// One fact among others.
pub(crate) fn fact(label: impl Into<String>, text: impl Into<String>) -> Fact {
    Fact {
        label: label.into(),
        text: text.into(),
        weight: Weight::Plain,
    }
}

impl Fact {
    /// The same, weighing so much.
    pub(super) fn weighs(self, weight: Weight) -> Self {
        Self { weight, ..self }
    }

    /// Its label and what it says, in one line.
    pub(crate) fn line(&self) -> String {
        format!("{}: {}", self.label, self.text)
    }
}

/// Facts in one cell of a table, whose row says already how the step stands.
pub(crate) fn in_a_cell(facts: &[Fact]) -> String {
    let one = |fact: &Fact| match fact.weight {
        Weight::Stands(_) => fact.text.clone(),
        _ => fact.line(),
    };
    facts.iter().map(one).collect::<Vec<_>>().join(" ")
}
