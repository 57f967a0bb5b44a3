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

use crate::actions::{Action, Scope};
use crate::gear::BowKind;
use crate::look::Role;
use crate::session::Event;
use crate::tui::draw::list;
use crate::tui::draw::paint::{Paint, row, under, wrap};
use crate::tui::effects::{Effect, ask};
use crate::tui::model::Model;
use crate::tui::prompt::{Echo, Prompt, Purpose};
use crate::tui::screen::Screen;
use crate::tui::travel::chosen;

/// What may have happened to a bow of this kind.
fn happened(model: &Model) -> [&'static str; 7] {
    let mut all = WHAT;
    if model.timeline().card.bow.kind != BowKind::Compound {
        all[1] = "string off a limb";
    }
    all
}

const WHAT: [&str; 7] = [
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
pub(crate) struct IncidentScreen {
    at: usize,
}

fn record(model: &Model, what: &str) -> Vec<Effect> {
    let key = model.key(Action::Answer);
    vec![
        Effect::Record(vec![Event::Incident { what: what.into() }]),
        Effect::Complain(format!(
            "DO NOT SHOOT. {key} goes through every part, one at a time"
        )),
        Effect::Close,
    ]
}

impl Screen for IncidentScreen {
    fn scope(&self) -> Scope {
        Scope::Choice
    }
    fn title(&self, _model: &Model) -> String {
        "What happened?".into()
    }
    fn about(&self) -> &'static str {
        crate::words::screens::INCIDENT
    }
    fn act(&mut self, action: Action, model: &Model) -> Vec<Effect> {
        if action != Action::Choose {
            self.at = chosen(self.at, WHAT.len(), action);
            return Vec::new();
        }
        if self.at + 1 == WHAT.len() {
            return ask(Prompt::new(Purpose::Screen, "What happened"));
        }
        record(model, happened(model)[self.at])
    }
    fn echo(&self, _text: &str, _model: &Model) -> Echo {
        Echo::Hint("it stops the shooting until every part was looked at".into())
    }
    fn answer(&mut self, text: &str, model: &Model) -> Result<Vec<Effect>, String> {
        Ok(match text.trim() {
            "" => Vec::new(),
            what => record(model, what),
        })
    }
    fn draw(&self, model: &Model, paint: &mut Paint<'_>, area: Rect) {
        let text = "Shooting stops until every part of the bow was looked at. This is not undone.";
        let used = paint.rows(area, &wrap(text, Role::Warn, area.width, 0)) + 1;
        let rest = under(area, used);
        let rows: Vec<_> = happened(model)
            .into_iter()
            .enumerate()
            .map(|(i, w)| (row(w, Role::Text), Some(i)))
            .collect();
        list::draw(paint, rest, &rows, self.at);
    }
}
