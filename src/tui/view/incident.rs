//! Something happened that stops shooting until the bow is inspected.
//!
//! ```text
//! +- What happened? ----------+
//! | > dry fire                |
//! |   string off its track    |
//! |   something else          |
//! +---------------------------+
//! ```

use ratatui::layout::Rect;

use super::list;
use super::paint::{Paint, row, under, wrap};
use crate::actions::{Action, Scope};
use crate::session::Event;
use crate::tui::input::chosen;
use crate::tui::prompt::{Echo, Prompt, Purpose};
use crate::tui::screens::{Flow, Screen};
use crate::tui::state::App;
use crate::tui::theme::Role;

/// What may have happened.
const WHAT: &[&str] = &[
    "dry fire",
    "string or cable off its track",
    "arrow struck something on the bow",
    "arrow broken or cracked",
    "lost nock",
    "arrow missed the backstop",
    "something else: type it",
];

/// The screen.
#[derive(Debug, Default)]
pub struct IncidentScreen {
    at: usize,
}

fn record(app: &mut App, what: &str) -> Result<Flow, String> {
    app.record(Event::Incident { what: what.into() })?;
    let key = app.key(Action::Answer);
    app.complain(format!(
        "DO NOT SHOOT until the bow and its arrows are inspected; then {key} answers"
    ));
    Ok(Flow::Close)
}

impl Screen for IncidentScreen {
    fn scope(&self) -> Scope {
        Scope::Choice
    }
    fn title(&self, _app: &App) -> String {
        "What happened?".into()
    }
    fn about(&self) -> &'static str {
        "Anything that may have hurt the bow, an arrow or somebody. It stops the shooting until an inspection is answered, and it is not undone: safety cannot be waived."
    }
    fn act(&mut self, action: Action, app: &mut App) -> Flow {
        if action != Action::Choose {
            self.at = chosen(self.at, WHAT.len(), action);
            return Flow::Stay;
        }
        if self.at + 1 == WHAT.len() {
            app.prompt = Some(Prompt::new(Purpose::Screen, "What happened"));
            return Flow::Stay;
        }
        record(app, WHAT[self.at]).unwrap_or_else(|problem| {
            app.complain(problem);
            Flow::Stay
        })
    }
    fn echo(&self, _text: &str, _app: &App) -> Echo {
        Echo::Hint("it stops the shooting until the inspection".into())
    }
    fn answer(&mut self, text: &str, app: &mut App) -> Result<Flow, String> {
        match text.trim() {
            "" => Ok(Flow::Stay),
            what => record(app, what),
        }
    }
    fn draw(&self, _app: &App, paint: &mut Paint<'_>, area: Rect) {
        let text = "Shooting stops until the bow and its arrows are inspected. This is not undone.";
        let used = paint.rows(area, &wrap(text, Role::Warn, area.width, 0)) + 1;
        let rest = under(area, used);
        let rows: Vec<_> = WHAT
            .iter()
            .enumerate()
            .map(|(i, w)| (row(*w, Role::Text), Some(i)))
            .collect();
        list::draw(paint, rest, &rows, self.at);
    }
}
