//! What is measured of the range; what is only looked at stands on the range
//! safety list.

use super::item::{Item, Measure, Part, Rule, Source, Standing};
use crate::cautions::Caution;
use crate::gear::Card;
use crate::question::SetupItem;
use crate::range::least_backstop_mm;

pub(super) fn items(card: &Card) -> Vec<Item> {
    let depth = least_backstop_mm(card);
    vec![
        Item::new(SetupItem::RangeBackstop, Part::Range)
            .standing(Standing::Source(Source::Backstop))
            .measured(Measure::Length, Rule::AtLeast(depth)),
        Item::new(SetupItem::RangePaper, Part::Range)
            .careful(Caution::Helper)
            .standing(Standing::Disputed(Source::PaperDistance))
            .measured(
                Measure::Length,
                Rule::Near {
                    target: card.paper.distance.mm(),
                    tolerance: 0.05 * card.paper.distance.mm(),
                },
            ),
    ]
}
