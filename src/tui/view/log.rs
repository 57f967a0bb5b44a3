//! Every entry, newest at the bottom.
//!
//! ```text
//! +- Log --------------------------------------+
//! |    1 10:02 shot 15 mm left, 8 mm high      |
//! |    2 10:04 move made: Rest OUT 1.50 mm     |
//! | >  3 10:09 shot 4 mm left (undone)         |
//! +--------------------------------------------+
//! ```

use ratatui::layout::Rect;

use super::list;
use super::paint::{Paint, Row, row, wrap};
use crate::actions::{Action, Scope};
use crate::look::Role;
use crate::session::Event;
use crate::tui::model::Model;
use crate::tui::screen::{Flow, Screen};
use crate::tui::state::App;
use crate::tui::travel::chosen;
use crate::tui::wording;

/// Columns of the number and the time before an entry.
const HEAD: u16 = 11;

/// The screen.
pub struct LogScreen {
    at: usize,
}

impl LogScreen {
    /// With the cursor on the newest entry.
    pub fn of(app: &Model) -> Self {
        Self {
            at: app.session().entries().len().saturating_sub(1),
        }
    }

    fn toggle(&self, app: &mut App) {
        let Some(entry) = app.session().entries().get(self.at) else {
            return app.complain("there is no entry here");
        };
        let number = entry.number;
        let undone = app.timeline().undone.contains(&number);
        let event = if undone {
            Event::Redo { target: number }
        } else {
            Event::Undo { target: number }
        };
        match app.record(event) {
            Ok(_) if undone => app.say(format!("entry {number} counts again")),
            Ok(_) => app.say(format!(
                "entry {number} no longer counts; it stays in the log"
            )),
            Err(problem) => app.complain(problem),
        }
    }

    /// The setting an entry led to or was shot at.
    fn setting(&self, app: &Model) -> Option<u32> {
        let timeline = app.timeline();
        let number = app.session().entries().get(self.at)?.number;
        let shot = timeline.shots.iter().find(|s| s.entry == number);
        let by_shot = shot.map(|s| timeline.settings[s.setting].number);
        let by_move = timeline.settings.iter().find(|s| s.by_move == Some(number));
        by_shot.or_else(|| by_move.map(|s| s.number))
    }
}

/// That a shot does not count, where it does not, and why.
fn not_counted(app: &Model, entry: u32) -> &'static str {
    let shots = &app.timeline().shots;
    let Some(i) = shots.iter().position(|s| s.entry == entry) else {
        return "";
    };
    if shots[i].shot.called_bad {
        ": not counted"
    } else if app.analysis.is_flier(i) {
        ": a flier, counts little"
    } else {
        ""
    }
}

impl Screen for LogScreen {
    fn scope(&self) -> Scope {
        Scope::Log
    }
    fn title(&self, app: &Model) -> String {
        format!(
            "Log, {}",
            crate::words::count(app.session().entries().len(), "entry")
                .replace("entrys", "entries")
        )
    }
    fn about(&self) -> &'static str {
        "Everything recorded, in order. Nothing is ever deleted: an undone entry stays here, marked, and can be brought back."
    }
    fn act_on(&mut self, action: Action, app: &mut App) -> Flow {
        match action {
            Action::UndoEntry => self.toggle(app),
            Action::RestartAt => match self.setting(app) {
                Some(setting) => app.restart(Some(setting)),
                None => app.complain("no setting belongs to this entry; choose a shot or a move"),
            },
            _ => self.at = chosen(self.at, app.session().entries().len(), action),
        }
        Flow::Stay
    }
    fn draw(&self, app: &Model, paint: &mut Paint<'_>, area: Rect) {
        let timeline = app.timeline();
        let room = area.width.saturating_sub(2 + HEAD);
        // Only what can be seen is worded: a session may hold thousands of entries.
        let height = usize::from(area.height);
        let all = app.session().entries();
        let from = self.at.saturating_sub(height);
        let lifted = crate::checks::safety::lifted_by_card(timeline);
        let rows: Vec<(Row, Option<usize>)> = all
            .iter()
            .enumerate()
            .skip(from)
            .take(2 * height + 1)
            .flat_map(|(i, entry)| {
                let undone = timeline.undone.contains(&entry.number);
                let mark = if undone { "(undone) " } else { "" };
                let mut what = wording::entry(&entry.event, &timeline.card, app.system);
                what.push_str(not_counted(app, entry.number));
                if lifted.iter().any(|l| l.entry == entry.number) {
                    what.push_str(" (lifts DO NOT SHOOT)");
                }
                let role = if undone { Role::Faint } else { Role::Text };
                let text = wrap(&format!("{mark}{what}"), role, room, 0);
                let head = format!("{:>4} {} ", entry.number, entry.at.format("%H:%M"));
                text.into_iter().enumerate().map(move |(n, mut line)| {
                    let before = if n == 0 {
                        head.clone()
                    } else {
                        " ".repeat(HEAD.into())
                    };
                    line.insert(0, (before, role));
                    (line, (n == 0).then_some(i))
                })
            })
            .collect();
        if rows.is_empty() {
            paint.rows(area, &[row("Nothing is recorded yet", Role::Faint)]);
        }
        list::lines(paint, area, &rows, self.at);
        // The list holds only what is near: the mark is of all entries.
        if all.len() > height {
            let top = self.at.saturating_sub(height / 2).min(all.len() - height);
            paint.place(area, top, height, all.len());
        }
    }
}
