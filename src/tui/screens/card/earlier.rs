//! The card's line about earlier bows: what they teach, and the one key that
//! leaves it out.

use std::path::Path;

use crate::look::Role;
use crate::session::Timeline;
use crate::tui::draw::paint::{Row, fit};
use crate::tui::effects::{Effect, complain};
use crate::tui::model::Model;
use crate::tui::screens::card::CardScreen;
use crate::tui::screens::card::keys::{EARLIER, Follows, NAME};

impl CardScreen {
    /// The line about earlier bows: what they teach, or that it is left out.
    pub(crate) fn earlier_row(&self, timeline: &Timeline, room: usize) -> Row {
        let text = match (&self.path, self.earlier, &timeline.learned) {
            (Some(_), true, _) => "what the folder's other sessions teach is used".to_owned(),
            (None, true, Some(learned)) => crate::words::learned(learned),
            _ => "left out".to_owned(),
        };
        vec![
            (format!("{EARLIER:<NAME$}"), Role::Text),
            (fit(&text, room.saturating_sub(NAME)), Role::Text),
        ]
    }

    /// What stands under the list while the cursor is on that line.
    pub(crate) const fn earlier_about(&self) -> &'static str {
        if self.earlier {
            "The other sessions of this folder say what to expect of this kind of bow, release and rest: how many bows, no names. Enter leaves it out."
        } else {
            "What the other sessions of this folder teach is left out. Enter uses it."
        }
    }

    /// Leaves out what earlier bows teach, or takes it up again; one key.
    pub(crate) fn turn_earlier(&mut self, model: &Model) -> Vec<Effect> {
        let learned = match (&self.path, self.earlier) {
            (Some(_), _) => {
                self.earlier = !self.earlier;
                return Vec::new();
            }
            (None, true) => None,
            (None, false) => {
                let own = model.session().path().map(Path::to_owned);
                own.and_then(|path| model.earlier_bows(&path, &self.base))
            }
        };
        let found = learned.is_some();
        if !found && !self.earlier {
            return complain("the other sessions of the folder teach nothing of this bow");
        }
        self.after = Follows::Earlier(found);
        vec![Effect::Earlier(learned)]
    }
}
