//! What the parts of the card page share: the keys of its own lines, their
//! names, and what follows once a change is recorded.

use crate::tui::model::Model;
pub(crate) use crate::words::{card_label as label, card_value as shown};

/// Columns for the field's name.
pub(crate) const NAME: usize = 20;

/// The last line of a new card.
pub(crate) const START: &str = "start the session";
/// The line about what earlier bows teach.
pub(crate) const EARLIER: &str = "earlier bows";
/// How the key of the line begins that folds a section.
pub(crate) const FOLD: &str = "fold.";

/// What follows once a change of the card is recorded.
#[derive(Debug, Default)]
pub(crate) enum Follows {
    /// Nothing more.
    #[default]
    Nothing,
    /// An adjuster was listed or taken off: what is said, and how the key the
    /// cursor goes to begins.
    Adjusters { said: String, cursor: String },
    /// So many lines of a section were confirmed.
    Section { name: String, lines: usize },
    /// What earlier bows teach is used, or left out.
    Earlier(bool),
}

/// That a change of the card lifted a stop, where it did.
pub fn lifted(model: &Model, entry: u32) -> String {
    let all = crate::checks::safety::lifted_by_card(model.timeline());
    let found = all.iter().find(|l| l.entry == entry);
    found.map_or(String::new(), |l| crate::words::pages::card::lifts(&l.was))
}

/// The heading of a section: `ADJUSTER: REST SIDEWAYS`.
pub(crate) fn heading(section: &str) -> String {
    section
        .replacen('.', ": ", 1)
        .replace('-', " ")
        .to_uppercase()
}
