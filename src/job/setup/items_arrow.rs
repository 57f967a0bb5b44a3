//! The arrows, clearance, marks.

use super::item::{Again, Item, Measure, Part, Rule, Source, Standing};
use crate::cautions::Caution;
use crate::checks::safety::MASS_AGREES_GR;
use crate::gear::{BowKind, Card, Release};
use crate::question::SetupItem;
use crate::units::MM_PER_INCH;

pub(super) fn items(card: &Card) -> Vec<Item> {
    vec![
        flex(),
        mass(card),
        matched(card),
        straight(),
        balance(card),
        ends(),
        marks(),
        // The first item that shoots an arrow: the marks stand before it.
        clearance(),
    ]
}

fn flex() -> Item {
    Item::new(SetupItem::ArrowFlex, Part::Arrows)
        .standing(Standing::Source(Source::ArrowSafety))
        .again(Again::ARROW)
        .gate()
}

fn mass(card: &Card) -> Item {
    let total = card.arrow.total_mass().grains();
    Item::new(SetupItem::ArrowMass, Part::Arrows)
        .standing(Standing::Source(Source::LeastWeight))
        .measured(
            Measure::Mass,
            Rule::Near {
                target: total,
                tolerance: MASS_AGREES_GR,
            },
        )
        .again(Again::ARROW)
}

fn matched(card: &Card) -> Item {
    let limit = match (card.bow.release, card.bow.kind) {
        (Release::Aid, BowKind::Compound) => 5.0,
        _ => 2.0,
    };
    Item::new(SetupItem::ArrowMatch, Part::Arrows)
        // R. McKinney, Arrow Spine, Weight and Straightness.
        .standing(Standing::Source(Source::SetOfArrows))
        .measured(Measure::Masses, Rule::SpreadAtMost(limit))
        .again(Again::ARROW)
}

fn straight() -> Item {
    Item::new(SetupItem::ArrowStraightness, Part::Arrows)
        .standing(Standing::Source(Source::Straightness))
        .measured(
            Measure::RunOut,
            Rule::StraightnessAtMost(0.006 * MM_PER_INCH),
        )
        .again(Again::ARROW)
}

fn balance(card: &Card) -> Item {
    let standing = match card.bow.kind {
        BowKind::Compound => Standing::CommonPractice,
        _ => Standing::FromMemory,
    };
    Item::new(SetupItem::ArrowBalance, Part::Arrows)
        .standing(standing)
        .measured(Measure::Length, Rule::Record)
        .again(Again::ARROW)
}

fn ends() -> Item {
    Item::new(SetupItem::ArrowEnds, Part::Arrows)
        .standing(Standing::CommonPractice)
        .again(Again::ARROW)
}

fn clearance() -> Item {
    Item::new(SetupItem::Clearance, Part::FirstShot)
        .careful(Caution::Helper)
        .standing(Standing::Source(Source::PowderTest))
        .again(Again {
            press: true,
            rest_height: true,
            arrow: true,
            limbs: false,
        })
}

fn marks() -> Item {
    Item::new(SetupItem::WitnessMarks, Part::Last)
        .standing(Standing::Source(Source::Marking))
        .measured(Measure::Note, Rule::Record)
        .again(Again::PRESS)
}
