//! What the other sessions of the folder teach: taken up when a session is
//! begun, left out or taken up again from the card.

use std::path::Path;

use super::model::Model;
use super::state::App;
use crate::advice::prior;
use crate::book::{How, Lessons};
use crate::gear::{Card, CardText};
use crate::session::LearnedRecord;

impl Model {
    /// What the sessions of a folder teach, but for one file of it. A folder
    /// that cannot be read teaches nothing.
    pub(super) fn lessons(&self, folder: &Path, except: Option<&Path>) -> Lessons {
        let how = How::kept_in(self.look.recent.folder().map(Path::to_owned), folder);
        Lessons::of(folder, except, &how).unwrap_or_default()
    }

    /// What the other sessions of a file's folder teach of the bow of a card.
    pub(super) fn earlier_bows(&self, file: &Path, card: &CardText) -> Option<LearnedRecord> {
        let (card, _) = Card::read(card).ok()?;
        let folder = match file.parent() {
            Some(folder) if folder != Path::new("") => folder,
            _ => Path::new("."),
        };
        self.lessons(folder, Some(file)).for_card(&card)
    }
}

impl App {
    /// Records what to expect of the card as it stands with what earlier bows
    /// taught, or without.
    pub(super) fn expect(&mut self, learned: Option<LearnedRecord>) -> Result<(), String> {
        let begun = match &self.model.read_only {
            Some(why) => Err(why.clone()),
            None => prior::begin(&mut self.model.session, learned).map_err(|e| e.to_string()),
        };
        self.refresh();
        begun.map(drop)
    }

    /// The same; what went wrong is said.
    pub(super) fn begin_prior(&mut self, learned: Option<LearnedRecord>) -> bool {
        let failed = self.expect(learned).err();
        if let Some(problem) = &failed {
            self.complain(problem.clone());
        }
        failed.is_none()
    }
}
