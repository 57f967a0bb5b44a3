//! The inspection after an incident: every part looked at, or what is damaged.
//!
//! ```text
//! +- Inspection ------------------------------+
//! | dry fire (entry 7)                        |
//! | > [x] String and cables                   |
//! |   [ ] Limbs and pockets                   |
//! |   [ ] Slow draw, last                     |
//! |   something is damaged                    |
//! |                                           |
//! | what to look for                          |
//! +-------------------------------------------+
//! ```

use ratatui::layout::Rect;

use crate::actions::{Action, Scope};
use crate::look::Role;
use crate::question::{Answer, InspectPart, Question};
use crate::session::{Event, Timeline};
use crate::tui::draw::list;
use crate::tui::draw::paint::{Paint, row, under, wrap};
use crate::tui::effects::{Effect, ask, complain, record};
use crate::tui::model::Model;
use crate::tui::prompt::{Prompt, Purpose};
use crate::tui::screen::Screen;
use crate::tui::travel::chosen;
use crate::{trouble, words};

/// The screen.
#[derive(Debug)]
pub(crate) struct InspectionScreen {
    at: usize,
}

/// The steps for this bow, the slow draw last.
fn steps(timeline: &Timeline) -> Vec<InspectPart> {
    trouble::inspection(&timeline.card)
}

/// Whether a part was found in order since the incident.
fn is_good(timeline: &Timeline, part: InspectPart) -> bool {
    let incident = timeline.open_incident();
    incident.is_none_or(|i| !timeline.parts_open(i).contains(&part))
}

/// The first step not yet found in order.
fn next(timeline: &Timeline) -> Option<usize> {
    let all = steps(timeline);
    all.iter().position(|s| !is_good(timeline, *s))
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
        let steps = steps(timeline);
        let Some(step) = steps.get(self.at) else {
            return ask(Prompt::new(Purpose::Screen, "Damaged"));
        };
        let open = next(timeline).unwrap_or(self.at);
        if *step == InspectPart::Draw && open < self.at {
            // Nothing is drawn before every part was looked at.
            self.at = open;
            return complain("first every part: this one was not looked at yet");
        }
        if !is_good(timeline, *step) {
            return record(trouble::found(*step, InspectPart::GOOD));
        }
        self.go_on(model)
    }

    /// On to the next part, or away once every part was looked at.
    fn go_on(&mut self, model: &Model) -> Vec<Effect> {
        if model.timeline().open_incident().is_none() {
            let then = model.before_shooting();
            return vec![
                Effect::Say(format!(
                    "every part was looked at. {then}. First shots close in"
                )),
                Effect::Close,
            ];
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
    fn act(&mut self, action: Action, model: &Model) -> Vec<Effect> {
        if action == Action::Choose {
            return self.choose(model);
        }
        self.at = chosen(self.at, steps(model.timeline()).len() + 1, action);
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
            Effect::Complain(
                "DO NOT SHOOT: damage found. Put it right; then every part is looked at again"
                    .into(),
            ),
            Effect::Close,
        ])
    }
    fn recorded(&mut self, _entry: u32, model: &Model) -> Vec<Effect> {
        self.go_on(model)
    }
    fn draw(&self, model: &Model, paint: &mut Paint<'_>, area: Rect) {
        let timeline = model.timeline();
        let what = timeline.open_incident();
        let what = what.map_or(String::new(), |i| {
            format!("{} (entry {}). ", i.what, i.entry)
        });
        let text = format!(
            "{what}Look at each part, then Enter: it is undamaged. A slow draw comes last."
        );
        let used = paint.rows(area, &wrap(&text, Role::Warn, area.width, 0)) + 1;
        let rest = under(area, used);
        let steps = steps(timeline);
        let mut rows = Vec::new();
        for (i, step) in steps.iter().enumerate() {
            let mark = if is_good(timeline, *step) {
                "[x]"
            } else {
                "[ ]"
            };
            let name = words::trouble::part_title(*step, timeline.card.bow.kind);
            rows.extend(list::wrapped(
                &format!("{mark} {name}"),
                Role::Text,
                i,
                area.width,
                4,
            ));
        }
        rows.push((
            row("something is damaged: type what", Role::Text),
            Some(steps.len()),
        ));
        let text = steps.get(self.at).map_or(String::new(), |s| {
            words::trouble::part_in_full(*s, timeline.card.bow.kind)
        });
        let text = wrap(&text, Role::Strong, area.width, 0);
        list::with_text(paint, rest, &rows, self.at, &text, 0);
    }
}
