//! The inspection after an incident: every part looked at, or what is damaged.
//!
//! ```text
//! +- Inspection ------------------------------+
//! | dry fire (entry 7)                        |
//! |   ok       String and cables              |
//! | > to do    Limbs and pockets              |
//! |   to do    Slow draw, last                |
//! |   something is damaged                    |
//! |                                           |
//! | what to look for                          |
//! +-------------------------------------------+
//! ```

use ratatui::layout::Rect;

use crate::actions::{Action, Scope, Situation};
use crate::look::Role;
use crate::question::{Answer, InspectPart, Question};
use crate::session::{Event, Timeline};
use crate::step::State;
use crate::tui::draw::list;
use crate::tui::draw::paint::{Paint, row, under, wrap};
use crate::tui::draw::steps::{self, Listed};
use crate::tui::effects::{Effect, ask, complain, record};
use crate::tui::model::Model;
use crate::tui::prompt::{Prompt, Purpose};
use crate::tui::screen::Screen;
use crate::tui::travel::chosen;
use crate::words::pages::incident;
use crate::{trouble, words};

/// The screen.
#[derive(Debug)]
pub(crate) struct InspectionScreen {
    at: usize,
}

/// The first part not yet found in order.
fn next(timeline: &Timeline) -> Option<usize> {
    let all = trouble::inspected(timeline);
    all.iter().position(|(_, state)| *state != State::Ok)
}

impl InspectionScreen {
    /// With the cursor on the first step not yet found in order.
    pub fn of(model: &Model) -> Self {
        Self {
            at: next(model.timeline()).unwrap_or(0),
        }
    }

    fn choose(&mut self, model: &Model) -> Vec<Effect> {
        let timeline = model.timeline();
        let Some((part, state)) = trouble::inspected(timeline).into_iter().nth(self.at) else {
            return ask(Prompt::new(Purpose::Screen, "Damaged"));
        };
        let open = next(timeline).unwrap_or(self.at);
        if part == InspectPart::Draw && open < self.at {
            // Nothing is drawn before every part was looked at.
            self.at = open;
            return complain(incident::PARTS_FIRST);
        }
        match state {
            State::Ok => self.go_on(model),
            // Put right, it is looked at again.
            State::Off => record(trouble::put_right(part)),
            _ => record(trouble::found(part, InspectPart::GOOD)),
        }
    }

    /// On to the next part, or away once every part was looked at.
    fn go_on(&mut self, model: &Model) -> Vec<Effect> {
        if model.timeline().open_incident().is_none() {
            let then = model.before_shooting();
            return vec![Effect::Say(incident::cleared(&then)), Effect::Close];
        }
        self.at = next(model.timeline()).unwrap_or(self.at);
        Vec::new()
    }
}

impl Screen for InspectionScreen {
    fn scope(&self) -> Scope {
        Scope::Choice
    }
    fn title(&self, _model: &Model) -> String {
        "Inspection".into()
    }
    fn about(&self) -> &'static str {
        crate::words::screens::INSPECTION
    }
    fn adjust(&self, now: &mut Situation) {
        now.undoable = true;
    }
    fn act(&mut self, action: Action, model: &Model) -> Vec<Effect> {
        if action == Action::Choose {
            return self.choose(model);
        }
        let lines = trouble::inspected(model.timeline()).len() + 1;
        self.at = chosen(self.at, lines, action);
        Vec::new()
    }
    fn answer(&mut self, text: &str, _model: &Model) -> Result<Vec<Effect>, String> {
        if text.trim().is_empty() {
            return Ok(Vec::new());
        }
        let damage = Event::Answer {
            test: Question::Inspection.into(),
            result: Answer::Damage.into(),
            detail: Some(text.trim().into()),
        };
        Ok(vec![
            Effect::Record(vec![damage]),
            Effect::Complain(incident::DAMAGED.into()),
            Effect::Close,
        ])
    }
    fn undone(&mut self, model: &Model) -> Vec<Effect> {
        if model.timeline().open_incident().is_none() {
            return vec![Effect::Close];
        }
        self.at = next(model.timeline()).unwrap_or(0);
        Vec::new()
    }
    fn recorded(&mut self, _entry: u32, model: &Model) -> Vec<Effect> {
        self.go_on(model)
    }
    fn draw(&self, model: &Model, paint: &mut Paint<'_>, area: Rect) {
        let timeline = model.timeline();
        let what = timeline.open_incident();
        let text = incident::inspect(what.map(|i| (i.what.as_str(), i.entry)));
        let used = paint.rows(area, &wrap(&text, Role::Warn, area.width, 0)) + 1;
        let rest = under(area, used);
        let (all, kind) = (trouble::inspected(timeline), timeline.card.bow.kind);
        let listed = |(part, state): &(InspectPart, State)| {
            Listed::new(*state, words::trouble::part_title(*part, kind))
        };
        let mut rows = steps::lines(all.iter().map(listed), area.width);
        rows.push((
            row(incident::SOMETHING_DAMAGED, Role::Text),
            Some(all.len()),
        ));
        let text = match all.get(self.at) {
            Some((_, State::Off)) => words::pages::trouble::once_it_is(),
            Some((part, _)) => words::trouble::part_in_full(*part, kind),
            None => String::new(),
        };
        let text = wrap(&text, Role::Strong, area.width, 0);
        list::with_text(paint, rest, &rows, self.at, &text, 0);
    }
}
