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
use crate::look::Role;
use crate::session::Event;
use crate::tui::draw::list;
use crate::tui::draw::paint::{Paint, row, under, wrap};
use crate::tui::effects::{Effect, ask};
use crate::tui::model::Model;
use crate::tui::prompt::{Echo, Prompt, Purpose};
use crate::tui::screen::Screen;
use crate::tui::travel::chosen;
use crate::words::pages::incident;

/// What may have happened to the bow on screen.
fn happened(model: &Model) -> [&'static str; 6] {
    incident::happened(model.timeline().card.bow.kind)
}

/// The screen.
#[derive(Debug, Default)]
pub(crate) struct IncidentScreen {
    at: usize,
}

fn record(model: &Model, what: &str) -> Vec<Effect> {
    let key = model.key(Action::Answer);
    vec![
        Effect::Record(vec![Event::Incident { what: what.into() }]),
        Effect::Complain(incident::recorded(&key)),
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
            self.at = chosen(self.at, happened(model).len() + 1, action);
            return Vec::new();
        }
        match happened(model).get(self.at) {
            Some(what) => record(model, what),
            None => ask(Prompt::new(Purpose::Screen, "What happened")),
        }
    }
    fn echo(&self, _text: &str, _model: &Model) -> Echo {
        Echo::Hint(incident::STOPS_SHORT.into())
    }
    fn answer(&mut self, text: &str, model: &Model) -> Result<Vec<Effect>, String> {
        Ok(match text.trim() {
            "" => Vec::new(),
            what => record(model, what),
        })
    }
    fn draw(&self, model: &Model, paint: &mut Paint<'_>, area: Rect) {
        let text = wrap(incident::STOPS, Role::Warn, area.width, 0);
        let used = paint.rows(area, &text) + 1;
        let rest = under(area, used);
        let rows: Vec<_> = happened(model)
            .into_iter()
            .chain([incident::SOMETHING_ELSE])
            .enumerate()
            .map(|(i, w)| (row(w, Role::Text), Some(i)))
            .collect();
        list::draw(paint, rest, &rows, self.at);
    }
}
