//! Sheets: one document, written as text, Markdown, JSON or one HTML file.
//!
//! [`Document`] is what the sheet says, section by section; the writers only
//! lay it out. The HTML needs no network and no script, is light or dark with
//! the reader's screen, and prints on one or two A4 or Letter pages. The
//! owner's contact stays out unless asked for.

mod before_page;
mod closing;
mod document;
mod file;
mod first;
mod holes;
mod html;
mod json;
mod markdown;
mod markup;
mod next_page;
mod options;
mod plot;
mod proof_page;
mod put_back;
mod record;
mod safety;
#[cfg(test)]
mod tests;
mod text;
mod verdict;

pub(crate) use before_page::{before_next, before_page, item_page, range_page};
pub(crate) use closing::{Closing, closings};
pub use document::{Block, Cell, Document};
pub(crate) use file::{may_replace, save};
pub use holes::{HoleMark, HolesFigure};
pub use json::checklist as checklist_json;
pub(crate) use json::proof_stages as proof_json;
pub(crate) use next_page::{next_page, refused};
pub use options::{Format, Options};
pub use plot::PlotFigure;
pub(crate) use proof_page::{proof_page, stage_lines, stage_page};
pub(crate) use put_back::put_back_page;
pub use put_back::put_back_sheet;

use crate::advice::Analysis;
use crate::session::Timeline;

/// The sheet of a session in one format.
pub fn render(
    timeline: &Timeline,
    analysis: &Analysis,
    format: Format,
    options: &Options,
) -> String {
    if format == Format::Json {
        return json::write(timeline, analysis, options);
    }
    print(&document(timeline, analysis, options), format)
}

/// A document in one format; as text where it has no JSON of its own.
pub(crate) fn print(document: &Document, format: Format) -> String {
    match format {
        Format::Markdown => markdown::write(document),
        Format::Html => html::write(document),
        Format::Text | Format::Json => text::write(document, text::WIDE),
    }
}

/// A document as lines of at most so many columns, for a screen.
pub fn page(document: &Document, wide: usize) -> Vec<String> {
    let text = text::write(document, wide);
    text.lines().map(str::to_owned).collect()
}

/// The sheet as plain text of at most so many columns, for a screen.
pub(crate) fn lines(
    timeline: &Timeline,
    analysis: &Analysis,
    options: &Options,
    wide: usize,
) -> Vec<String> {
    page(&document(timeline, analysis, options), wide)
}

/// What the sheet says, section by section.
pub(crate) fn document(timeline: &Timeline, analysis: &Analysis, options: &Options) -> Document {
    let mut sections = vec![
        verdict::section(timeline, analysis, options),
        verdict::card(timeline, options),
    ];
    sections.extend(record::sections(timeline, analysis, options));
    sections.push(safety::section(timeline));
    sections.push(verdict::watch(timeline));
    sections.push(verdict::cautions(timeline));
    Document {
        alarm: Vec::new(),
        title: verdict::title(timeline),
        lead: verdict::lead(timeline, options),
        sections: sections
            .into_iter()
            .filter(|s| !s.blocks.is_empty())
            .collect(),
    }
}
