//! A page of lines to read: a sheet, two sessions compared.
//!
//! ```text
//! +- The sheet ------------------+
//! | Tuning sheet: green compound |
//! | ...                          |
//! +------------------------------+
//! ```

use ratatui::layout::Rect;

use crate::actions::{Action, Scope};
use crate::look::Role;
use crate::tui::draw::paint::{Paint, Row, row, wrap};
use crate::tui::effects::Effect;
use crate::tui::model::Model;
use crate::tui::screen::Screen;
use crate::tui::travel::scrolled;

/// Columns of a page on a screen of 80.
pub(crate) const COLUMNS: usize = 76;

/// The screen.
pub(crate) struct Page {
    title: String,
    lines: Vec<String>,
    scroll: u16,
}

impl Page {
    /// With these lines.
    pub fn new(title: impl Into<String>, lines: Vec<String>) -> Self {
        Self {
            title: title.into(),
            lines,
            scroll: 0,
        }
    }
}

impl Screen for Page {
    fn scope(&self) -> Scope {
        Scope::Reading
    }
    fn title(&self, _model: &Model) -> String {
        self.title.clone()
    }
    fn about(&self) -> &'static str {
        crate::words::screens::REPORT_PAGE
    }
    fn act(&mut self, action: Action, _model: &Model) -> Vec<Effect> {
        self.scroll = scrolled(self.scroll, action).min(self.lines.len() as u16 * 3);
        Vec::new()
    }
    fn draw(&self, _model: &Model, paint: &mut Paint<'_>, area: Rect) {
        let mut rows: Vec<Row> = Vec::new();
        for line in &self.lines {
            let fits = line.chars().count() <= usize::from(area.width);
            if fits {
                // Columns stay where they are.
                rows.push(row(crate::tui::draw::paint::safe(line), Role::Text));
            } else {
                let indent = (line.len() - line.trim_start().len()) as u16;
                let indent = indent.min(area.width / 2);
                for mut more in wrap(line, Role::Text, area.width - indent, 2) {
                    more.insert(0, (" ".repeat(usize::from(indent)), Role::Text));
                    rows.push(more);
                }
            }
        }
        paint.scrolled(area, &rows, self.scroll);
    }
}
