//! Undo and redo, and starting over at a setting.

use crate::actions::Action;
use crate::checks::safety;
use crate::session::{Event, SessionError};
use crate::tui::app::App;
use crate::tui::wording;
use crate::words;

impl App {
    /// Undoes the latest entry.
    pub(super) fn undo(&mut self) {
        self.undo_or_redo(true);
    }

    /// Undoes the latest entry; the screen in front goes on from there.
    pub(super) fn undo_here(&mut self) {
        self.undo();
        if let Some(mut screen) = self.pop() {
            let effects = screen.undone(&self.model);
            self.follow(screen, effects);
        }
    }

    /// Redoes what was undone last.
    pub(super) fn redo(&mut self) {
        self.undo_or_redo(false);
    }

    fn undo_or_redo(&mut self, undo: bool) {
        let stopped = safety::dangers(self.timeline());
        let done = self.step_back(undo);
        self.refresh();
        match done {
            Ok((first, last)) => {
                let entry = self
                    .model
                    .session
                    .entries()
                    .iter()
                    .find(|e| e.number == first);
                let what = entry.map_or(String::new(), |e| {
                    wording::entry(&e.event, &self.timeline().card, self.model.system)
                });
                let verb = if undo { "undone" } else { "redone" };
                let which = if first == last {
                    format!("entry {first}")
                } else {
                    format!("entries {first} to {last}")
                };
                let gone = safety::gone(&stopped, self.timeline());
                let lifts = gone.first().map_or(String::new(), |was| {
                    format!(". {}", words::lifted_by_undo(was))
                });
                self.say(format!("{verb}: {which}, {what}{lifts}"));
            }
            Err(error) => self.complain(error.to_string()),
        }
    }

    /// Undoes or redoes the next entry, and with it those that were recorded
    /// together with it. The first and the last of them.
    fn step_back(&mut self, undo: bool) -> Result<(u32, u32), SessionError> {
        let taken = if undo {
            self.model.session.undo()?
        } else {
            self.model.session.redo()?
        };
        let first = taken.iter().min().copied().unwrap_or_default();
        Ok((first, taken.iter().max().copied().unwrap_or(first)))
    }

    /// Forgets the likely tear from here on.
    pub(super) fn restart(&mut self) {
        let event = Event::Restart {
            setting: None,
            why: None,
        };
        match self.record(event) {
            Ok(_) => {
                let undo = self.model.key(Action::Undo);
                self.say(words::pages::typing::started_over(&undo));
            }
            Err(problem) => self.complain(problem),
        }
    }
}
