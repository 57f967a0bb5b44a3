//! Put the bow back: to the start, or to a setting it was at.
//!
//! ```text
//! +- Put back ------------------------------------------+
//! | > the start                                         |
//! |   setting 2: rest-sideways 1.50 mm left, 3 shots    |
//! |   setting 3: ...                          here      |
//! |                                                     |
//! | the moves that put it there, and what to check after|
//! +-----------------------------------------------------+
//! ```

use ratatui::layout::Rect;

use crate::actions::{Action, Scope, Situation};
use crate::look::Role;
use crate::restore::{self, Target};
use crate::session::Timeline;
use crate::tui::draw::list;
use crate::tui::draw::paint::{Paint, Row, row, under, wrap};
use crate::tui::effects::{Effect, complain};
use crate::tui::model::Model;
use crate::tui::screen::Screen;
use crate::tui::travel::chosen;
use crate::units::System;
use crate::words;

/// The screen.
#[derive(Debug, Default)]
pub(crate) struct PutBackScreen {
    at: usize,
}

/// Where the bow can be put back to: the start, then every later setting.
fn targets(timeline: &Timeline) -> Vec<Target> {
    let later = timeline.settings.iter().skip(1);
    std::iter::once(Target::Start)
        .chain(later.map(|s| Target::Setting(s.number)))
        .collect()
}

fn name(timeline: &Timeline, target: Target, system: System) -> String {
    let number = match target {
        Target::Start => 1,
        Target::Setting(n) => n,
    };
    let Some(index) = timeline.settings.iter().position(|s| s.number == number) else {
        return words::target(target);
    };
    let positions = timeline.settings[index].positions;
    let shots = timeline.shots.iter().filter(|s| s.setting == index).count();
    let mut text = match target {
        Target::Start => "the start".to_owned(),
        Target::Setting(_) => format!(
            "{}: {}",
            words::target(target),
            words::place(timeline, &positions, system)
        ),
    };
    text.push_str(&format!(", {}", words::count(shots, "shot")));
    if positions == timeline.now {
        text.push_str(" (the bow stands here)");
    }
    text
}

impl Screen for PutBackScreen {
    fn scope(&self) -> Scope {
        Scope::Choice
    }
    fn title(&self, _model: &Model) -> String {
        "Put back".into()
    }
    fn about(&self) -> &'static str {
        crate::words::screens::RESTORE
    }
    fn adjust(&self, now: &mut Situation) {
        now.undoable = true;
    }
    fn act(&mut self, action: Action, model: &Model) -> Vec<Effect> {
        let list = targets(model.timeline());
        if action != Action::Choose {
            self.at = chosen(self.at, list.len(), action);
            return Vec::new();
        }
        let Some(target) = list.get(self.at) else {
            return Vec::new();
        };
        match restore::put_back(model.timeline(), *target) {
            Ok(back) if back.is_there() => complain(words::put_back(&back, model.system).join(" ")),
            Ok(back) => vec![Effect::ToTheBench(back.moves())],
            Err(problem) => complain(problem.to_string()),
        }
    }
    fn draw(&self, model: &Model, paint: &mut Paint<'_>, area: Rect) {
        let timeline = model.timeline();
        let stop = model.stop_line();
        let stop = stop.map_or_else(Vec::new, |stop| wrap(&stop, Role::Bad, area.width, 0));
        let used = paint.rows(area, &stop);
        let area = under(area, used);
        let list = targets(timeline);
        let mut rows = Vec::new();
        for (i, target) in list.iter().enumerate() {
            let text = name(timeline, *target, model.system);
            rows.extend(list::wrapped(&text, Role::Text, i, area.width, 4));
        }
        let mut text: Vec<Row> = Vec::new();
        if let Some(target) = list.get(self.at) {
            text.push(row(
                format!(
                    "TO PUT IT BACK TO {}",
                    words::target(*target).to_uppercase()
                ),
                Role::Title,
            ));
            match restore::put_back(timeline, *target) {
                Ok(back) => {
                    for line in words::put_back(&back, model.system) {
                        text.extend(wrap(&line, Role::Strong, area.width, 2));
                    }
                    if !back.is_there() {
                        let say = words::pages::setup::TO_THE_BENCH;
                        text.extend(wrap(say, Role::Faint, area.width, 0));
                    }
                }
                Err(problem) => text.extend(wrap(&problem.to_string(), Role::Warn, area.width, 0)),
            }
        }
        list::with_text(paint, area, &rows, self.at, &text, 0);
    }
}
