//! Usual values on the card that nobody entered, and confirming them.

use std::collections::BTreeMap;

use super::card::{CardScreen, FOLD};
use super::card_rows::heading;
use crate::actions::Action;
use crate::question::Taken;
use crate::session::{Resets, Session, resets};
use crate::tui::model::Model;
use crate::tui::screen::Flow;
use crate::tui::state::App;

/// That a change of the card lifted a stop, where it did.
pub(super) fn lifted(app: &Model, entry: u32) -> String {
    let all = crate::checks::safety::lifted_by_card(app.timeline());
    let found = all.iter().find(|l| l.entry == entry);
    found.map_or(String::new(), |l| {
        format!(
            ". It lifts DO NOT SHOOT, and the sheet says so: {}",
            crate::words::danger(&l.was)
        )
    })
}

impl CardScreen {
    /// Whether a line holds a usual value that nobody entered or confirmed.
    pub(super) fn unchecked(&self, key: &str) -> bool {
        self.base.is_unconfirmed(key) && !self.changes.contains_key(key)
    }

    /// Confirms what stands on these lines: on a session it is recorded.
    pub(super) fn confirm(&mut self, keys: &[String], app: &mut App) -> bool {
        let stands = keys.iter().map(|key| (key.clone(), self.text(key)));
        let set: BTreeMap<String, String> = stands.collect();
        if self.path.is_none() {
            self.changes.extend(set);
            return self.record(app);
        }
        for (key, value) in &set {
            // The keys are those of the card's own table.
            let _ = self.base.set(key, value);
        }
        true
    }

    /// Confirms every usual value of the section the cursor is in, and goes on
    /// to the next line that wants it.
    pub(super) fn confirm_section(&mut self, app: &mut App) {
        let section = |key: &str| {
            let own = key.strip_prefix(FOLD).unwrap_or(key);
            own.split('.').next().unwrap_or_default().to_owned()
        };
        let (own, all) = (section(&self.key()), self.keys());
        let open = all
            .iter()
            .filter(|k| section(k) == own && self.unchecked(k));
        let open: Vec<String> = open.cloned().collect();
        if open.is_empty() {
            return app.say(format!(
                "nothing under {} waits to be confirmed",
                heading(&own)
            ));
        }
        if !self.confirm(&open, app) {
            return;
        }
        app.say(format!(
            "{}: {} confirmed",
            heading(&own),
            crate::words::count(open.len(), "line")
        ));
        self.starting = false;
        let next = all.iter().position(|k| self.unchecked(k));
        self.at = next.unwrap_or(self.at);
    }

    /// Whether usual values nobody looked at are to be looked at first: said
    /// once, with the cursor on the first of them. The spine match and the
    /// safety check rest on these lines.
    pub(super) fn asks_to_look(&mut self, app: &mut App) -> bool {
        let keys = self.keys();
        let open: Vec<usize> = (0..keys.len())
            .filter(|i| self.unchecked(&keys[*i]))
            .collect();
        let Some(first) = open.first().filter(|_| !self.starting) else {
            return false;
        };
        self.starting = true;
        self.at = *first;
        let section = app.key(Action::ConfirmSection);
        app.complain(format!(
            "{} still unchecked, such as this one: Enter keeps it, {section} keeps its section. The last line again starts all the same; nothing is called done until they are confirmed",
            crate::words::count(open.len(), "line")
        ));
        true
    }

    /// What the changes that wait would make unknown, as a question.
    pub(super) fn resets(&self, app: &Model) -> Option<String> {
        let timeline = app.timeline();
        let (card, _) = crate::gear::Card::read(&self.with_changes()).ok()?;
        if timeline.shots.is_empty() {
            return None;
        }
        let lost = match resets(&timeline.card, &card)? {
            Resets::Arrow => "likely tear and response unknown again",
            Resets::Bow => "the likely tear is unknown again",
        };
        Some(format!(
            "1: typo, shots count on. 2: changed, {lost}. Enter is 2, Esc twice drops it"
        ))
    }

    /// Records the changes that wait as what a digit says they are: 1 a typo
    /// corrected, 2 a bow or an arrow changed.
    pub(super) fn says_which(&mut self, digit: char, app: &mut App) {
        let taken = match digit {
            '1' => Some(Taken::Corrected),
            '2' => None,
            _ => return,
        };
        self.asking = false;
        self.record_as(taken, app);
    }

    /// Makes the session file from a new card.
    pub(super) fn start(&mut self, app: &mut App) -> Flow {
        let Some(path) = self.path.clone() else {
            return Flow::Stay;
        };
        if self.asks_to_look(app) {
            return Flow::Stay;
        }
        let learned = match self.earlier {
            true => app.earlier_bows(&path, &self.base),
            false => None,
        };
        let made = Session::create(&path, &self.base)
            .and_then(|()| App::open_session(&path))
            .map_err(|e| e.to_string());
        match made {
            Ok((session, read_only)) => {
                app.take_session(session, read_only);
                let taught = learned.as_ref().map_or_else(String::new, |l| {
                    format!(" Earlier bows teach: {}.", crate::words::learned(l))
                });
                app.begin_prior(learned);
                if app.message.is_none() {
                    app.say(format!(
                        "{} is begun.{taught} {} is the list before paper; then shoot, and type the tear",
                        path.display(),
                        app.key(Action::Before)
                    ));
                }
                Flow::Panes
            }
            Err(problem) => {
                app.complain(problem);
                Flow::Stay
            }
        }
    }

    /// Leaves the card; what is not recorded or made yet is said once first.
    pub(super) fn leave(&mut self, app: &mut App) -> Flow {
        let fresh = self.path.is_some();
        if (!fresh && self.changes.is_empty()) || self.leaving {
            return Flow::Close;
        }
        self.leaving = true;
        app.complain(if fresh {
            "nothing is made yet: the last line starts the session, Esc again leaves without it"
                .to_owned()
        } else {
            format!(
                "{} not recorded: Esc again drops it",
                crate::words::count(self.changes.len(), "change")
            )
        });
        Flow::Stay
    }
}
