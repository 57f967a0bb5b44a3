//! A test answered in words: the possible answers, the harmless one first.
//!
//! ```text
//! +- Powder test ----------------------------+
//! | what to do                               |
//! |                                          |
//! | > 1 none: no mark there                  |
//! |   2 rest: vanes or shaft wiped that      |
//! +------------------------------------------+
//! ```

use ratatui::layout::Rect;

use crate::actions::{Action, Scope, Situation};
use crate::advice::Probe;
use crate::look::Role;
use crate::question::Question;
use crate::session::Event;
use crate::tui::draw::list;
use crate::tui::draw::paint::{Paint, under, wrap};
use crate::tui::effects::{Effect, say};
use crate::tui::model::Model;
use crate::tui::screen::Screen;
use crate::tui::travel::chosen;
use crate::words;

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

    /// Records the answer the cursor is on.
    fn choose(&self) -> Vec<Effect> {
        let (Some(test), Some(result)) = (self.probe.kind.test(), self.probe.answers.get(self.at))
        else {
            return vec![Effect::Close];
        };
        let event = Event::answer(Question::Test(test), *result);
        vec![
            Effect::Record(vec![event]),
            Effect::Say(format!(
                "recorded: {}: {result}",
                words::test_title(self.probe.kind).to_lowercase()
            )),
            Effect::Close,
        ]
    }
}

impl Screen for AnswersScreen {
    fn scope(&self) -> Scope {
        Scope::Choice
    }
    fn title(&self, _model: &Model) -> String {
        words::test_title(self.probe.kind).into()
    }
    fn about(&self) -> &'static str {
        crate::words::screens::ANSWERS
    }
    fn adjust(&self, now: &mut Situation) {
        now.undoable = true;
    }
    fn act(&mut self, action: Action, _model: &Model) -> Vec<Effect> {
        if action != Action::Choose {
            self.at = chosen(self.at, self.probe.answers.len(), action);
            return Vec::new();
        }
        self.choose()
    }
    fn undone(&mut self, model: &Model) -> Vec<Effect> {
        let asked = model.analysis.advice.probe.as_ref();
        match asked.is_some_and(|probe| probe.kind == self.probe.kind) {
            true => Vec::new(),
            false => vec![Effect::Close],
        }
    }
    fn digit_answers(&self) -> bool {
        true
    }
    fn digit(&mut self, digit: char, _model: &Model) -> Vec<Effect> {
        let at = digit.to_digit(10).unwrap_or(0) as usize;
        if !(1..=self.probe.answers.len()).contains(&at) {
            return say(words::pages::typing::no_answer(digit));
        }
        self.at = at - 1;
        self.choose()
    }
    fn draw(&self, model: &Model, paint: &mut Paint<'_>, area: Rect) {
        let text = wrap(
            &words::to_do(&self.probe.ask, model.system),
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
            .flat_map(|(i, answer)| {
                let means = words::answer_means(&self.probe.ask, *answer, model.system);
                let text = format!("{} {answer}: {means}", i + 1);
                list::wrapped(&text, Role::Text, i, area.width, 4)
            })
            .collect();
        list::draw(paint, rest, &rows, self.at);
    }
}
