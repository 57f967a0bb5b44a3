//! A list of steps: how each stands, what it is called, what was measured; and
//! what is told of one of them.
//!
//! ```text
//! |   RANGE, MEASURED                            |
//! |   ok        Backstop behind the sheet  1.4 m |
//! | > to do     Paper frame                      |
//! ```

use crate::look::Role;
use crate::step::State;
use crate::tui::draw::paint::{Row, fit, flow, row};
use crate::units::clean;
use crate::words;
use crate::words::step::{Fact, Weight};

/// Columns of the word for how a step stands.
const STATE: usize = 10;
/// Columns of a step's name, where something stands behind it.
const NAME: usize = 39;

/// One step as a list names it.
pub(crate) struct Listed {
    /// The part of the list it belongs to, where the list has parts.
    pub part: &'static str,
    /// How it stands.
    pub state: State,
    /// The word for it.
    pub word: &'static str,
    /// What it is called.
    pub name: String,
    /// What was measured.
    pub value: Option<String>,
}

impl Listed {
    /// A step of a list without parts, with the usual word for how it stands.
    pub(crate) fn new(state: State, name: impl Into<String>) -> Self {
        Self {
            part: "",
            state,
            word: words::step::state(state),
            name: name.into(),
            value: None,
        }
    }
}

/// The role in which it is written how a step stands.
pub(crate) const fn role(state: State) -> Role {
    match state {
        State::Ok => Role::Good,
        State::Off => Role::Bad,
        State::Again(_) | State::ShootMore | State::LevelsFirst | State::NotYet => Role::Warn,
        State::Open | State::Skipped => Role::Faint,
    }
}

/// The lines of a list, under the headings of its parts.
pub(crate) fn lines(
    list: impl IntoIterator<Item = Listed>,
    width: u16,
) -> Vec<(Row, Option<usize>)> {
    let room = usize::from(width).saturating_sub(2 + STATE);
    let mut rows = Vec::new();
    let mut part = "";
    for (i, step) in list.into_iter().enumerate() {
        if part != step.part {
            part = step.part;
            rows.push((row(part.to_uppercase(), Role::Title), None));
        }
        let state = (format!("{:<STATE$}", step.word), role(step.state));
        let mut line = vec![state, (fit(&step.name, room), Role::Text)];
        if let Some(value) = step.value.filter(|_| room > NAME + 9) {
            line[1].0 = format!("{:<NAME$} ", line[1].0);
            line.push((fit(&clean(&value), room - NAME - 1), Role::Strong));
        }
        rows.push((line, Some(i)));
    }
    rows
}

/// What is told of a step, label by label.
pub(crate) fn told<'a>(facts: impl IntoIterator<Item = &'a Fact>, width: u16) -> Vec<Row> {
    let one = |fact: &Fact| {
        let (label, text) = match fact.weight {
            Weight::Stands(state) => (role(state), Role::Strong),
            Weight::Careful => (Role::Strong, Role::Warn),
            Weight::Plain => (Role::Strong, Role::Text),
            Weight::Quiet => (Role::Strong, Role::Faint),
        };
        let name = format!("{}: ", fact.label);
        flow(&[(&name, label), (&fact.text, text)], width, 2)
    };
    facts.into_iter().flat_map(one).collect()
}
