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

use super::list;
use super::paint::{Paint, row, under, wrap};
use crate::actions::{Action, Scope};
use crate::advice::Probe;
use crate::look::Role;
use crate::question::Question;
use crate::session::Event;
use crate::tui::input::chosen;
use crate::tui::model::Model;
use crate::tui::screens::{Flow, Screen};
use crate::tui::state::App;

/// The screen.
pub struct AnswersScreen {
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
        "A test whose answer is not a tear. Do it as it says, then choose what you found; tears shot for it may be entered instead, and answer it. The harmless answer stands first."
    }
    fn act(&mut self, action: Action, app: &mut App) -> Flow {
        if action != Action::Choose {
            self.at = chosen(self.at, self.probe.answers.len(), action);
            return Flow::Stay;
        }
        let (Some(test), Some(result)) = (self.probe.kind.test(), self.probe.answers.get(self.at))
        else {
            return Flow::Close;
        };
        let event = Event::Answer {
            test: Question::Test(test).into(),
            result: (*result).into(),
            detail: None,
        };
        match app.record(event) {
            Ok(_) => {
                app.say(format!("recorded: {test} {result}"));
                Flow::Close
            }
            Err(problem) => {
                app.complain(problem);
                Flow::Stay
            }
        }
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
