//! Pages that commands print: text, Markdown or HTML.

use std::io::{self, Write as _};

use super::outcome::say;
use crate::report::{self, Document, Format};

/// The format of a page that has no JSON, or a JSON of its own.
pub(crate) fn page_format(text: &str) -> Result<Format, String> {
    let format = Format::from_id(text).filter(|f| *f != Format::Json);
    format.ok_or_else(|| "text, markdown or html".to_owned())
}

/// Columns of a page that people read; what has a row a session is not wrapped.
pub(crate) const PAGE: usize = 78;
pub(crate) const ROWS: usize = 1000;

/// Prints a page; text line by line, as everything else is said.
pub(crate) fn show(page: &Document, format: Format, wide: usize) {
    if format == Format::Text {
        report::page(page, wide).iter().for_each(|line| say(line));
    } else {
        let text = report::print(page, format);
        let _ = io::stdout().write_all(text.as_bytes());
    }
}
