//! What a sheet says, before it is laid out.

use super::holes::HolesFigure;
use super::plot::PlotFigure;
use crate::step::State;
use crate::words::step::{self, Fact};

/// A whole sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct Document {
    /// What nobody may overlook, above the heading: a stop, line by line.
    pub(crate) alarm: Vec<String>,
    /// Its heading.
    pub(crate) title: String,
    /// Short lines under it: owner, dates, technician.
    pub(crate) lead: Vec<String>,
    /// Sections, in order; none is empty.
    pub(crate) sections: Vec<Section>,
}

/// One section.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Section {
    /// Its heading.
    pub(crate) title: String,
    /// What it holds.
    pub(crate) blocks: Vec<Block>,
}

/// One piece of a section.
#[derive(Debug, Clone, PartialEq)]
pub enum Block {
    /// The verdict in a few words, and its sentence.
    Banner {
        /// In capitals.
        verdict: String,
        /// The sentence under it.
        text: String,
        /// Whether it is good news.
        good: bool,
    },
    /// Names and values.
    Facts(Vec<(String, String)>),
    /// A table.
    Table {
        /// Column headings.
        head: Vec<String>,
        /// Rows, each as long as the heading.
        rows: Vec<Vec<Cell>>,
    },
    /// Lines of a list.
    Lines(Vec<String>),
    /// A paragraph.
    Text(String),
    /// The holes to scale.
    Holes(HolesFigure),
    /// The convergence plot.
    Plot(PlotFigure),
}

/// One cell of a table.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Cell {
    /// What stands in it.
    pub text: String,
    /// Whether it is what the reader must not overlook.
    pub(crate) alarm: bool,
}

impl Cell {
    /// A state, marked where it is one not to be overlooked.
    pub fn state(text: impl Into<String>, alarm: bool) -> Self {
        Self {
            text: text.into(),
            alarm,
        }
    }
}

impl Cell {
    /// How a step stands.
    pub(super) fn of(state: State) -> Self {
        Self::state(step::state(state), state.is_alarm())
    }
}

impl From<String> for Cell {
    fn from(text: String) -> Self {
        Self::state(text, false)
    }
}

impl From<&str> for Cell {
    fn from(text: &str) -> Self {
        Self::state(text, false)
    }
}

impl Block {
    /// What is told of a step.
    pub(super) fn facts(told: impl IntoIterator<Item = Fact>) -> Self {
        Self::Facts(told.into_iter().map(|f| (f.label, f.text)).collect())
    }

    /// A table; each row as long as the headings.
    pub(crate) fn table(head: &[&str], rows: Vec<Vec<Cell>>) -> Self {
        Self::Table {
            head: head.iter().map(|h| (*h).to_owned()).collect(),
            rows,
        }
    }
}

impl Document {
    /// A page with a title and nothing under it yet.
    pub fn new(title: impl Into<String>) -> Self {
        Self {
            alarm: Vec::new(),
            title: title.into(),
            lead: Vec::new(),
            sections: Vec::new(),
        }
    }

    /// With what nobody may overlook above it.
    #[must_use]
    pub fn after(mut self, alarm: Vec<String>) -> Self {
        self.alarm = alarm;
        self
    }

    /// With one more section, where it holds something.
    #[must_use]
    pub fn with(mut self, title: &str, blocks: Vec<Block>) -> Self {
        if !blocks.is_empty() {
            self.sections.push(Section::new(title, blocks));
        }
        self
    }
}

impl Section {
    pub(super) fn new(title: &str, blocks: Vec<Block>) -> Self {
        Self {
            title: title.into(),
            blocks,
        }
    }
}
