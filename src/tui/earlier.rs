//! What the other sessions of the folder teach.

use std::path::Path;

use crate::book::{How, Lessons};
use crate::gear::{Card, CardText};
use crate::session::LearnedRecord;
use crate::tui::model::Model;

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
