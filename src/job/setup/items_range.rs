//! What is measured of the range; what is only looked at stands on the range
//! safety list.

use super::item::{Item, Measure, Part, Rule, Standing};
use crate::cautions::Caution;
use crate::gear::Card;
use crate::question::SetupItem;
use crate::range::least_backstop_mm;

pub(super) fn items(card: &Card) -> Vec<Item> {
    let depth = least_backstop_mm(card);
    vec![
        Item::new(SetupItem::RangeBackstop, Part::Range)
            .standing(Standing::Source(
                "a hunting magazine's tuning course; the figure is worked out here",
            ))
            .measured(Measure::Length, Rule::AtLeast(depth)),
        Item::new(SetupItem::RangePaper, Part::Range)
            .careful(Caution::Helper)
            .standing(Standing::Disputed("5 ft, 6 ft, 6 to 8 ft, 2 to 3 yd"))
            .measured(
                Measure::Length,
                Rule::Near {
                    target: card.paper.distance.mm(),
                    tolerance: 0.05 * card.paper.distance.mm(),
                },
            ),
    ]
}
