//! The list of further actions, each with the one letter that does it.
//!
//! ```text
//! +- More actions -------------------------+
//! | n  new session      Start a session .. |
//! | b  before paper     The range, the ..  |
//! +----------------------------------------+
//! ```

use ratatui::layout::Rect;

use crate::actions::{ACTIONS, Action, Scope};
use crate::look::Role;
use crate::tui::draw::paint::{Paint, Row, wrap};
use crate::tui::effects::Effect;
use crate::tui::model::Model;
use crate::tui::screen::Screen;
use crate::tui::travel::scrolled;

/// Columns for the letter, and for the letter with the action's name.
const LETTER: u16 = 4;
const NAME: u16 = 20;

/// The screen.
#[derive(Debug, Default)]
pub(crate) struct MoreScreen {
    scroll: u16,
}

impl Screen for MoreScreen {
    fn scope(&self) -> Scope {
        Scope::More
    }
    fn title(&self, _model: &Model) -> String {
        Scope::More.title().into()
    }
    fn about(&self) -> &'static str {
        crate::words::screens::MORE
    }
    fn act(&mut self, action: Action, _model: &Model) -> Vec<Effect> {
        self.scroll = scrolled(self.scroll, action);
        Vec::new()
    }
    fn draw(&self, model: &Model, paint: &mut Paint<'_>, area: Rect) {
        let now = model.situation();
        let mut rows: Vec<Row> = Vec::new();
        for spec in ACTIONS.iter().filter(|s| s.action.behind_more()) {
            let usable = spec.when.holds(&now);
            let (key, text) = if usable {
                (Role::Key, Role::Text)
            } else {
                (Role::Faint, Role::Faint)
            };
            let letter = model.look.keymap.first(spec.action);
            let words = if usable {
                spec.doc
            } else {
                spec.when.else_say()
            };
            let lines = wrap(words, text, area.width.saturating_sub(LETTER + NAME), 0);
            for (i, mut line) in lines.into_iter().enumerate() {
                let (letter, name) = if i == 0 {
                    (letter.as_str(), spec.label)
                } else {
                    ("", "")
                };
                line.insert(0, (format!("{name:<20}"), text));
                line.insert(0, (format!("{letter:<4}"), key));
                rows.push(line);
            }
        }
        paint.scrolled(area, &rows, self.scroll);
    }
}
