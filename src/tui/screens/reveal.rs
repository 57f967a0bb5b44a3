//! The end of a practice bow: what was wrong, and how it went.
//!
//! ```text
//! +- What it was -----------------------------+
//! | Right: it is tuned: hand it over          |
//! | WHAT WAS WRONG                            |
//! |   the rest stood 3.4 mm too far left      |
//! | HOW IT WENT                               |
//! |   you: 7 shots, 3 moves; tear now ...     |
//! |   the program's own advice: 5 shots ...   |
//! | > another bow of this level               |
//! |   ...                                     |
//! +-------------------------------------------+
//! ```

use ratatui::layout::Rect;

use crate::actions::{Action, Scope};
use crate::look::Role;
use crate::practice::{LEVELS, Practice, Reveal};
use crate::tui::draw::list;
use crate::tui::draw::paint::{Paint, Row, row, under, wrap};
use crate::tui::effects::Effect;
use crate::tui::model::Model;
use crate::tui::prompt::{Prompt, Purpose};
use crate::tui::screen::Screen;
use crate::tui::screens::pair::Pair;
use crate::tui::travel::chosen;
use crate::words::pages::practice as page;
use crate::words::practice as words;

/// What can be done next.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Next {
    SameLevel,
    LevelUp,
    Again,
    Own,
    Back,
}

impl Next {
    /// What is offered after a practice bow, and after the first steps.
    const fn all(first_steps: bool) -> &'static [Self] {
        if first_steps {
            &[Self::SameLevel, Self::Own, Self::Again, Self::Back]
        } else {
            &[Self::SameLevel, Self::LevelUp, Self::Again, Self::Back]
        }
    }

    const fn words(self, first_steps: bool) -> &'static str {
        match self {
            Self::SameLevel if first_steps => page::FIRST,
            Self::SameLevel => page::SAME_LEVEL,
            Self::LevelUp => page::NEXT_LEVEL,
            Self::Again => page::AGAIN,
            Self::Own => page::OWN,
            Self::Back => page::BACK,
        }
    }
}

/// The screen.
pub(crate) struct RevealScreen {
    reveal: Reveal,
    /// How practice goes on this level, where it is counted.
    done: Option<String>,
    at: usize,
}

impl RevealScreen {
    /// For an end, with how this level goes.
    pub const fn new(reveal: Reveal, done: Option<String>) -> Self {
        Self {
            reveal,
            done,
            at: 0,
        }
    }

    fn rows(&self, model: &Model, width: u16) -> Vec<Row> {
        let found = &self.reveal;
        let role = if found.right { Role::Good } else { Role::Warn };
        let mut rows = wrap(&words::judged(found.judged), role, width, 0);
        rows.push(row("WHAT WAS WRONG", Role::Title));
        for fault in &found.faults {
            let found_it = if found.right { " You found it." } else { "" };
            let fault_text = words::was_wrong(fault, model.system);
            rows.extend(wrap(
                &format!("- {fault_text}{found_it}"),
                Role::Text,
                width,
                2,
            ));
            let tell_tale = words::tell_tale(fault.fault());
            rows.extend(wrap(&format!("  {tell_tale}"), Role::Faint, width, 2));
        }
        rows.push(row("HOW IT WENT", Role::Title));
        for line in how(found, model) {
            rows.extend(wrap(&line, Role::Text, width, 2));
        }
        if let Some(done) = &self.done {
            let line = page::so_far(done);
            rows.extend(wrap(&line, Role::Faint, width, 2));
        }
        rows.push(Row::new());
        rows
    }
}

fn how(found: &Reveal, model: &Model) -> Vec<String> {
    let tolerance = model.timeline().card.paper.tolerance;
    let mut lines = words::how_it_went(found, tolerance, model.system);
    let bow = model.practice.as_ref();
    lines.extend(bow.map(|bow| words::the_same_again(bow.level(), bow.seed())));
    lines
}

impl Screen for RevealScreen {
    fn scope(&self) -> Scope {
        Scope::Choice
    }
    fn title(&self, _model: &Model) -> String {
        "What it was".into()
    }
    fn about(&self) -> &'static str {
        crate::words::screens::REVEAL
    }
    fn act(&mut self, action: Action, model: &Model) -> Vec<Effect> {
        let next = Next::all(model.first_steps.is_some());
        if action != Action::Choose {
            self.at = chosen(self.at, next.len(), action);
            return Vec::new();
        }
        let Some(level) = model.practice.as_ref().map(Practice::level) else {
            return vec![Effect::Panes];
        };
        vec![match next.get(self.at) {
            Some(Next::SameLevel) => Effect::Practise(level),
            Some(Next::LevelUp) => Effect::Practise((level + 1).min(*LEVELS.end())),
            Some(Next::Again) if model.first_steps.is_some() => Effect::FirstSteps,
            Some(Next::Again) => Effect::PractiseAgain,
            Some(Next::Own) => {
                let line = Prompt::new(Purpose::NewFile, "New session");
                return vec![Effect::Ask(line), Effect::Panes];
            }
            Some(Next::Back) | None => Effect::Panes,
        }]
    }
    fn draw(&self, model: &Model, paint: &mut Paint<'_>, area: Rect) {
        let text = self.rows(model, area.width);
        let first_steps = model.first_steps.is_some();
        let next = Next::all(first_steps);
        let room = area.height.saturating_sub(next.len() as u16);
        let above = Rect::new(area.x, area.y, area.width, room);
        let mut used = paint.rows(above, &text);
        if let Some(pair) = Pair::whole(model) {
            // Where nothing has to give way for them.
            used += pair.draw(model, paint, under(above, used));
        }
        let rest = under(area, used);
        let rows: Vec<_> = next
            .iter()
            .enumerate()
            .map(|(i, next)| (row(next.words(first_steps), Role::Text), Some(i)))
            .collect();
        list::draw(paint, rest, &rows, self.at);
    }
}
