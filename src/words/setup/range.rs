//! What is measured of the range.

use super::item::Told;
use crate::gear::Card;
use crate::question::SetupItem;
use crate::range::least_backstop_mm;
use crate::units::System;

pub(super) fn told(item: SetupItem, card: &Card, system: System) -> Option<Told> {
    Some(match item {
        SetupItem::RangeBackstop => backstop(card, system),
        SetupItem::RangePaper => paper(card, system),
        _ => return None,
    })
}

fn backstop(card: &Card, system: System) -> Told {
    Told::default()
        .how("Bows down. Tape from the sheet to the face of the backstop, along the arrow's line.")
        .start(format!(
            "at least {}: the arrow's length and {} more",
            system.at_least(least_backstop_mm(card) / 1000.0),
            match system {
                System::Mm => "half a metre",
                System::Inch => "20 in",
            }
        ))
        .if_off("The point is stopped while the tail is still in the paper: the hole lies. Move the frame or the backstop.")
}

fn paper(card: &Card, system: System) -> Told {
    Told::default()
        .how("Draw at the backstop; a helper marks on the floor where the rest stands. Let down, arrow off the string, then tape from the mark to the sheet. The sheet is thin, held on all edges, its centre at arrow height, square to the arrow.")
        .start(format!(
            "{} as on the card; guides print {}",
            system.distance(card.paper.distance),
            match system {
                System::Mm => "1.5 to 2.7 m",
                System::Inch => "5 to 9 ft",
            }
        ))
        .if_off("Move the frame, or put the true distance on the card: tears change with distance.")
}
