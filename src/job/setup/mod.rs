//! Before paper: the range, the checklist, what the program can compute.
//!
//! [`checklist`] lists what is to be checked on this kind of bow, in working
//! order, with how each item stands by the entries. [`judge`] reads what was
//! typed and says whether it is in order and why. Nothing here blocks
//! recording a shot; what was skipped stays on the record as skipped.

pub mod compute;
mod item;
mod items_arrow;
mod items_bow;
mod items_range;
mod items_string;
mod judge;
mod last_word;
mod matching;
mod measured;
mod read;
mod state;

pub use item::{Item, Measure, Part, Source, Standing};
pub(crate) use items_string::{centre_shot_band, nocking_band};
pub use judge::{Judged, Judgement, SetupError, SetupRefused, by_word, judge, record, skip};
pub(crate) use last_word::{contact_found, stands_on_the_list};
pub use matching::{ArrowMatch, OddArrow};
pub(crate) use measured::{measured_now, nock_above_square_mm, point_outside_mm};
pub(crate) use read::PLACES_APART_MM;
pub use read::Unread;
pub use state::{ItemState, checklist, next_open, safety_open, work_done};
pub(crate) use state::{Summary, bow_changed, due_again, summary};

use crate::gear::Card;
use crate::question::{Said, SetupItem};

/// Every item for this bow, in working order.
pub fn items(card: &Card) -> Vec<Item> {
    let mut all = items_range::items(card);
    all.extend(items_bow::items(card));
    all.extend(items_string::items(card));
    all.extend(items_arrow::items(card));
    all
}

/// The item with this id, if this bow has it.
pub fn item(card: &Card, id: impl Into<Said<SetupItem>>) -> Option<Item> {
    let id = id.into().known()?;
    items(card).into_iter().find(|item| item.id == id)
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;
    pub(crate) use crate::fixtures::{LABELLED_RECURVE as RECURVE, MEASURED_COMPOUND as COMPOUND};

    pub(crate) use crate::session::told::timeline;

    #[test]
    fn ids_are_unique() {
        for card in [COMPOUND, RECURVE] {
            let all = items(&timeline(card, vec![]).card);
            for (i, item) in all.iter().enumerate() {
                assert!(all[i + 1..].iter().all(|o| o.id != item.id), "{}", item.id);
            }
        }
    }

    #[test]
    fn the_list_fits_the_bow() {
        let has = |card: &str, id: &str| item(&timeline(card, vec![]).card, id).is_some();
        for id in [
            "cam-timing",
            "cam-lean",
            "axle-to-axle",
            "rest-timing",
            "peep",
        ] {
            assert!(has(COMPOUND, id), "{id}");
            assert!(!has(RECURVE, id), "{id}");
        }
        assert!(has(RECURVE, "plunger") && !has(COMPOUND, "plunger"));
        assert!(has(RECURVE, "tiller") && has(COMPOUND, "tiller"));
    }

    #[test]
    fn the_range_comes_first_and_witness_marks_before_the_first_shot() {
        let all = items(&timeline(COMPOUND, vec![]).card);
        assert_eq!(all[0].id, SetupItem::RangeBackstop);
        // The one item that shoots an arrow comes after the marks.
        assert_eq!(all[all.len() - 2].id, SetupItem::WitnessMarks);
        assert_eq!(all[all.len() - 1].id, SetupItem::Clearance);
        let at = |id: &str| all.iter().position(|i| i.id.id() == id).unwrap();
        assert!(at("inspection") < at("draw-weight"));
        assert!(at("cam-timing") < at("nocking-point"));
        assert!(at("nocking-point") < at("centre-shot"));
        assert!(at("centre-shot") < at("clearance"));
    }
}
