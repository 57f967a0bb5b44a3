//! What is measured of the range.

use super::item::Told;
use crate::gear::Card;
use crate::question::SetupItem;
use crate::range::least_backstop_mm;
use crate::units::trim_number;

pub(super) fn told(item: SetupItem, card: &Card) -> Option<Told> {
    Some(match item {
        SetupItem::RangeBackstop => backstop(card),
        SetupItem::RangePaper => paper(card),
        _ => return None,
    })
}

fn backstop(card: &Card) -> Told {
    Told::default()
        .how("Bows down. Tape from the sheet to the face of the backstop, along the arrow's line.")
        .start(format!(
            "at least {} m: the arrow's length and half a metre more",
            trim_number(least_backstop_mm(card) / 1000.0, 2)
        ))
        .if_off("The point is stopped while the tail is still in the paper: the hole lies. Move the frame or the backstop.")
}

fn paper(card: &Card) -> Told {
    Told::default()
        .how("Draw at the backstop; a helper marks on the floor where the rest stands. Let down, arrow off the string, then tape from the mark to the sheet. The sheet is thin, held on all edges, its centre at arrow height, square to the arrow.")
        .start(format!(
            "{} m as on the card; guides print 1.5 to 2.7 m",
            trim_number(card.paper.distance.m(), 2)
        ))
        .if_off("Move the frame, or put the true distance on the card: tears change with distance.")
}
