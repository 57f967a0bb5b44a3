//! What is measured of the range; what is only looked at stands on the range
//! safety list.

use super::item::{Item, Measure, Part, Rule, Standing};
use crate::cautions::Caution;
use crate::gear::Card;
use crate::question::SetupItem;
use crate::range::least_backstop_mm;
use crate::units::trim_number;

pub(super) fn items(card: &Card) -> Vec<Item> {
    let depth = least_backstop_mm(card);
    vec![
        Item::new(SetupItem::RangeBackstop, Part::Range, "Backstop behind the sheet")
            .how("Bows down. Tape from the sheet to the face of the backstop, along the arrow's line.")
            .start(
                format!(
                    "at least {} m: the arrow's length and half a metre more",
                    trim_number(depth / 1000.0, 2)
                ),
                Standing::Source(
                    "a hunting magazine's tuning course; the figure is worked out here",
                ),
            )
            .measured(Measure::Length, Rule::AtLeast(depth))
            .if_off("The point is stopped while the tail is still in the paper: the hole lies. Move the frame or the backstop."),
        Item::new(SetupItem::RangePaper, Part::Range, "Paper frame")
            .careful(Caution::Helper)
            .how("Draw at the backstop; a helper marks on the floor where the rest stands. Let down, arrow off the string, then tape from the mark to the sheet. The sheet is thin, held on all edges, its centre at arrow height, square to the arrow.")
            .start(
                format!(
                    "{} m as on the card; guides print 1.5 to 2.7 m",
                    trim_number(card.paper.distance.m(), 2)
                ),
                Standing::Disputed("5 ft, 6 ft, 6 to 8 ft, 2 to 3 yd"),
            )
            .measured(
                Measure::Length,
                Rule::Near {
                    target: card.paper.distance.mm(),
                    tolerance: 0.05 * card.paper.distance.mm(),
                },
            )
            .if_off("Move the frame, or put the true distance on the card: tears change with distance."),
    ]
}
