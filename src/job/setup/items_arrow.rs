//! The arrows, clearance, marks.

use super::item::{Again, Item, Measure, Part, Rule, Standing};
use crate::cautions::Caution;
use crate::gear::{BowKind, Card, Release};
use crate::question::SetupItem;
use crate::units::MM_PER_INCH;

/// Scale reading against the sum of the parts, gr, within which they agree
/// (common practice, no source).
pub(crate) const MASS_AGREES_GR: f64 = 5.0;

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
        .standing(Standing::Source(
            "arrow makers' safety pages; a national federation on carbon arrows",
        ))
        .again(Again::ARROW)
        .gate()
}

fn mass(card: &Card) -> Item {
    let total = card.arrow.total_mass().grains();
    Item::new(SetupItem::ArrowMass, Part::Arrows)
        .standing(Standing::Source("5 gr/lb: bow makers' warranty pages, arrow makers; agreement of the parts: common practice, no source"))
        .measured(Measure::Mass, Rule::Near { target: total, tolerance: MASS_AGREES_GR })
        .again(Again::ARROW)
}

fn matched(card: &Card) -> Item {
    let limit = match (card.bow.release, card.bow.kind) {
        (Release::Aid, BowKind::Compound) => 5.0,
        _ => 2.0,
    };
    Item::new(SetupItem::ArrowMatch, Part::Arrows)
        // R. McKinney, Arrow Spine, Weight and Straightness.
        .standing(Standing::Source("a coach's article on arrow spine, weight and straightness (2 gr a dozen); hunting sets 3 to 5 gr from memory"))
        .measured(Measure::Masses, Rule::SpreadAtMost(limit))
        .again(Again::ARROW)
}

fn straight() -> Item {
    Item::new(SetupItem::ArrowStraightness, Part::Arrows)
        .standing(Standing::Source("ASTM F1889 and ATA/ARR-203 for the method; the limit is common practice, no source (trade grades are usually half the reading)"))
        .measured(Measure::RunOut, Rule::StraightnessAtMost(0.006 * MM_PER_INCH))
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
        .standing(Standing::Source(
            "a club's powder-test note, crediting a printed coach's book",
        ))
        .again(Again {
            press: true,
            rest_height: true,
            arrow: true,
            limbs: false,
        })
}

fn marks() -> Item {
    Item::new(SetupItem::WitnessMarks, Part::Last)
        .standing(Standing::Source(
            "a club journal on marking sight and rest, 2014",
        ))
        .measured(Measure::Note, Rule::Record)
        .again(Again::PRESS)
}
