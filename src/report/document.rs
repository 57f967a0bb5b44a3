//! What a sheet says, before it is laid out.

use super::holes::HolesFigure;
use super::plot::PlotFigure;

/// A whole sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct Document {
    /// Its heading.
    pub title: String,
    /// Short lines under it: owner, dates, technician.
    pub lead: Vec<String>,
    /// Sections, in order; none is empty.
    pub sections: Vec<Section>,
}

/// One section.
#[derive(Debug, Clone, PartialEq)]
pub struct Section {
    /// Its heading.
    pub title: String,
    /// What it holds.
    pub blocks: Vec<Block>,
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
        rows: Vec<Vec<String>>,
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

impl Section {
    pub(super) fn new(title: &str, blocks: Vec<Block>) -> Self {
        Self {
            title: title.into(),
            blocks,
        }
    }
}
