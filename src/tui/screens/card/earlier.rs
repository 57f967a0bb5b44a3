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
use crate::words::pages::card as page;

impl CardScreen {
    /// The line about earlier bows: what they teach, or that it is left out.
    pub(crate) fn earlier_row(&self, timeline: &Timeline, room: usize) -> Row {
        let text = match (&self.path, self.earlier, &timeline.learned) {
            (Some(_), true, _) => page::TAUGHT.to_owned(),
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
            page::ABOUT_TAUGHT
        } else {
            page::ABOUT_NOT_TAUGHT
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
            return complain(page::NOTHING_TAUGHT);
        }
        self.after = Follows::Earlier(found);
        vec![Effect::Earlier(learned)]
    }
}
