//! A test answered in words: the possible answers, the harmless one first.
//!
//! ```text
//! +- Test: contact --------------------------+
//! | what to do, and what each answer means   |
//! |                                          |
//! | > none                                   |
//! |   rest                                   |
//! +------------------------------------------+
//! ```

use ratatui::layout::Rect;

use crate::actions::{Action, Scope};
use crate::advice::Probe;
use crate::look::Role;
use crate::question::Question;
use crate::session::Event;
use crate::tui::draw::list;
use crate::tui::draw::paint::{Paint, row, under, wrap};
use crate::tui::effects::Effect;
use crate::tui::model::Model;
use crate::tui::screen::Screen;
use crate::tui::travel::chosen;

/// The screen.
pub(crate) struct AnswersScreen {
    probe: Probe,
    at: usize,
}

impl AnswersScreen {
    /// For a test that is asked.
    pub const fn new(probe: Probe) -> Self {
        Self { probe, at: 0 }
    }
}

impl Screen for AnswersScreen {
    fn scope(&self) -> Scope {
        Scope::Choice
    }
    fn title(&self, _model: &Model) -> String {
        format!("Test: {}", self.probe.kind.id())
    }
    fn about(&self) -> &'static str {
        crate::words::screens::ANSWERS
    }
    fn act(&mut self, action: Action, _model: &Model) -> Vec<Effect> {
        if action != Action::Choose {
            self.at = chosen(self.at, self.probe.answers.len(), action);
            return Vec::new();
        }
        let (Some(test), Some(result)) = (self.probe.kind.test(), self.probe.answers.get(self.at))
        else {
            return vec![Effect::Close];
        };
        let event = Event::answer(Question::Test(test), *result);
        vec![
            Effect::Record(vec![event]),
            Effect::Say(format!("recorded: {test} {result}")),
            Effect::Close,
        ]
    }
    fn draw(&self, model: &Model, paint: &mut Paint<'_>, area: Rect) {
        let text = wrap(
            &crate::words::ask(&self.probe.ask, model.system),
            Role::Text,
            area.width,
            0,
        );
        let used = paint.rows(area, &text).min(area.height / 2) + 1;
        let rest = under(area, used);
        let rows: Vec<_> = self
            .probe
            .answers
            .iter()
            .enumerate()
            .map(|(i, a)| (row(a.id(), Role::Text), Some(i)))
            .collect();
        list::draw(paint, rest, &rows, self.at);
    }
}
