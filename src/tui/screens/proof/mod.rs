//! After paper: the stages of proof in order, and how each stands.
//!
//! ```text
//! +- After paper -----------------------------------+
//! |   ok       Levels                               |
//! | > shoot    Bare shaft                           |
//! |   to do    Walk-back                            |
//! |                                                 |
//! | the verdict, the move it suggests with its odds |
//! +-------------------------------------------------+
//! ```

pub(crate) mod face;
pub(crate) mod marks;
pub(crate) mod shared;
pub(crate) mod stage;

use ratatui::layout::Rect;

use crate::actions::{Action, Scope, Situation};
use crate::advice;
use crate::look::Role;
use crate::proof::{Stage, StageState};
use crate::step::State;
use crate::tui::draw::list;
use crate::tui::draw::paint::{Paint, row, under, wrap};
use crate::tui::draw::steps::{self, Listed};
use crate::tui::effects::{Effect, say};
use crate::tui::model::Model;
use crate::tui::names::Name;
use crate::tui::screen::Screen;
use crate::tui::screens::proof::shared::{about_verdict, answered, first, next_stage, stages};
use crate::tui::travel::chosen;
use crate::words::pages::proof as page;
use crate::words::proof as said;

/// The screen.
pub(crate) struct ProofScreen {
    stage: Stage,
    scroll: u16,
    /// A stage was answered or left out last: the cursor goes on to the next.
    goes_on: bool,
    /// Entries on record when a stage was opened.
    entries: usize,
}

impl ProofScreen {
    /// With the cursor on the stage that comes next.
    pub fn of(model: &Model) -> Self {
        Self {
            stage: next_stage(model).unwrap_or(Stage::Levels),
            scroll: 0,
            goes_on: false,
            entries: 0,
        }
    }
}

/// The stages of this kind of bow, and what else is on record.
fn listed(model: &Model) -> Vec<StageState> {
    let mut list = stages(model);
    list.retain(StageState::is_listed);
    list
}

/// Where a stage stands in the list.
fn place(list: &[StageState], stage: Stage) -> usize {
    let at = list.iter().position(|s| s.verdict.stage == stage);
    at.unwrap_or(0)
}

impl Screen for ProofScreen {
    fn scope(&self) -> Scope {
        Scope::Job
    }
    fn title(&self, _model: &Model) -> String {
        "After paper".into()
    }
    fn about(&self) -> &'static str {
        crate::words::screens::PROOF
    }
    fn adjust(&self, now: &mut Situation) {
        now.by_word = self.stage == Stage::Levels;
    }
    fn act(&mut self, action: Action, model: &Model) -> Vec<Effect> {
        let (stage, list) = (self.stage, listed(model));
        let at = place(&list, stage);
        match action {
            Action::Choose => {
                self.entries = model.session().entries().len();
                return vec![Effect::Open(Name::Stage(stage))];
            }
            // What was proved is not struck from the record by a slip.
            Action::LeaveOut if list[at].verdict.status == State::Ok => {
                return say(page::ok_already(stage));
            }
            Action::InOrder | Action::NotInOrder | Action::LeaveOut => {
                let Some((event, words)) = answered(stage, action) else {
                    return Vec::new();
                };
                self.goes_on = true;
                return vec![Effect::Record(vec![event]), Effect::Say(words)];
            }
            Action::PressWork => {
                self.goes_on = false;
                return vec![Effect::PressWork];
            }
            Action::Left => self.scroll = self.scroll.saturating_sub(1),
            Action::Right => self.scroll = (self.scroll + 1).min(100),
            _ => {
                self.stage = list[chosen(at, list.len(), action)].verdict.stage;
                self.scroll = 0;
            }
        }
        Vec::new()
    }
    fn recorded(&mut self, _entry: u32, model: &Model) -> Vec<Effect> {
        if self.goes_on {
            self.stage = next_stage(model).unwrap_or(self.stage);
        }
        Vec::new()
    }
    fn uncovered(&mut self, model: &Model) {
        // Nothing was recorded: whoever looks about stays where the cursor is.
        if model.session().entries().len() != self.entries {
            self.stage = next_stage(model).unwrap_or(self.stage);
        }
    }
    fn draw(&self, model: &Model, paint: &mut Paint<'_>, area: Rect) {
        let list = listed(model);
        let at = place(&list, self.stage);
        let mut used = 0;
        if let Some(text) = first(model) {
            used = paint.rows(area, &wrap(&text, Role::Warn, area.width, 0)) + 1;
        }
        let rest = under(area, used);
        let rows = list.iter().map(|s| Listed {
            word: said::state(s),
            ..Listed::new(s.verdict.status, said::listed(s))
        });
        let rows = steps::lines(rows, area.width);
        let stage = &list[at];
        let mut text = vec![row(
            said::title(stage.verdict.stage).to_uppercase(),
            Role::Title,
        )];
        if !stage.usual {
            let say = if stage.optional {
                page::OPTIONAL
            } else {
                page::NOT_ASKED
            };
            text.extend(wrap(say, Role::Faint, area.width, 0));
        }
        if advice::stopped(model.timeline()).is_none() {
            let why = said::found(&stage.verdict, &model.timeline().card, model.system);
            text.extend(about_verdict(
                &stage.verdict,
                &why,
                model.system,
                area.width,
            ));
        }
        let keys = page::keys(stage.verdict.stage);
        text.extend(wrap(keys, Role::Faint, area.width, 0));
        // All stages stay in sight, whatever is said about one; the text scrolls instead.
        let least = rows.len() as u16;
        list::keeping(least, paint, rest, &rows, at, &text, self.scroll);
    }
}
