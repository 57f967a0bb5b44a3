//! Usual values on the card that nobody entered, and confirming them.

use std::collections::BTreeMap;

use crate::actions::Action;
use crate::question::Taken;
use crate::session::resets;
use crate::tui::effects::{Effect, complain, say};
use crate::tui::model::Model;
use crate::tui::screens::card::CardScreen;
use crate::tui::screens::card::keys::{FOLD, Follows, START, heading};
use crate::words::pages::card as page;

impl CardScreen {
    /// Whether a line holds a usual value that nobody entered or confirmed.
    pub(crate) fn unchecked(&self, key: &str) -> bool {
        self.base.is_unconfirmed(key) && !self.changes.contains_key(key)
    }

    /// Confirms what stands on these lines: on a session it is recorded.
    pub(crate) fn confirm(&mut self, keys: &[String]) -> Vec<Effect> {
        self.confirm_then(keys, Follows::Nothing)
    }

    fn confirm_then(&mut self, keys: &[String], after: Follows) -> Vec<Effect> {
        let stands = keys.iter().map(|key| (key.clone(), self.text(key)));
        let set: BTreeMap<String, String> = stands.collect();
        if self.path.is_none() {
            self.changes.extend(set);
            return self.record(after);
        }
        for (key, value) in &set {
            // The keys are those of the card's own table.
            let _ = self.base.set(key, value);
        }
        self.go_after(after)
    }

    /// Goes on after what was recorded, or put on a new card.
    pub(crate) fn go_after(&mut self, after: Follows) -> Vec<Effect> {
        match after {
            Follows::Nothing => Vec::new(),
            Follows::Adjusters { said, cursor } => {
                let keys = self.keys();
                let at = keys.iter().position(|k| k.starts_with(&cursor));
                self.at = at.unwrap_or(self.at).min(keys.len() - 1);
                say(said)
            }
            Follows::Section { name, lines } => {
                self.starting = false;
                let keys = self.keys();
                let next = keys.iter().position(|k| self.unchecked(k));
                let lines = crate::words::count(lines, "line");
                let said = format!("{}: {lines} confirmed", heading(&name));
                // Once all is confirmed on a new card, its last line comes next.
                let start = keys.iter().position(|k| k == START);
                self.at = next.or(start).unwrap_or(self.at);
                match (next, start) {
                    (None, Some(_)) => say(page::may_start(&said)),
                    _ => say(said),
                }
            }
            Follows::Earlier(used) => {
                self.earlier = used;
                say(if used {
                    page::TAUGHT_AGAIN
                } else {
                    page::NOT_TAUGHT
                })
            }
        }
    }

    /// Confirms every usual value of the section the cursor is in, and goes on
    /// to the next line that wants it.
    pub(crate) fn confirm_section(&mut self) -> Vec<Effect> {
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
            return say(page::nothing_waits(&heading(&own)));
        }
        let after = Follows::Section {
            name: own,
            lines: open.len(),
        };
        self.confirm_then(&open, after)
    }

    /// Whether usual values nobody looked at are to be looked at first: said
    /// once, with the cursor on the first of them. The spine match and the
    /// safety check rest on these lines.
    fn asks_to_look(&mut self, model: &Model) -> Option<Vec<Effect>> {
        let keys = self.keys();
        let open: Vec<usize> = (0..keys.len())
            .filter(|i| self.unchecked(&keys[*i]))
            .collect();
        let first = open.first().filter(|_| !self.starting)?;
        self.starting = true;
        self.at = *first;
        let section = model.key(Action::ConfirmSection);
        Some(complain(page::look_first(open.len(), &section)))
    }

    /// What the changes that wait would make unknown, as a question.
    pub(crate) fn resets(&self, model: &Model) -> Option<String> {
        let timeline = model.timeline();
        let (card, _) = crate::gear::Card::read(&self.with_changes()).ok()?;
        if timeline.shots.is_empty() {
            return None;
        }
        Some(page::typo_or_changed(resets(&timeline.card, &card)?))
    }

    /// Records the changes that wait as what a digit says they are: 1 a typo
    /// corrected, 2 a bow or an arrow changed.
    pub(crate) fn says_which(&mut self, digit: char) -> Vec<Effect> {
        let taken = match digit {
            '1' => Some(Taken::Corrected),
            '2' => None,
            _ => return Vec::new(),
        };
        self.asking = false;
        self.record_as(taken, Follows::Nothing)
    }

    /// Makes the session file from a new card.
    pub fn start(&mut self, model: &Model) -> Vec<Effect> {
        let Some(path) = self.path.clone() else {
            return Vec::new();
        };
        self.asks_to_look(model).unwrap_or_else(|| {
            vec![Effect::Begin {
                path,
                card: self.base.clone(),
                earlier: self.earlier,
            }]
        })
    }

    /// Leaves the card; what is not recorded or made yet is said once first.
    pub(crate) fn leave(&mut self) -> Vec<Effect> {
        let fresh = self.path.is_some();
        if (!fresh && self.changes.is_empty()) || self.leaving {
            return vec![Effect::Close];
        }
        self.leaving = true;
        complain(if fresh {
            page::NOTHING_MADE.to_owned()
        } else {
            page::drops(self.changes.len())
        })
    }
}
