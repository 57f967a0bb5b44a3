//! The bow itself: inspection, draw, limbs, cams.

use super::item::{Again, Item, Measure, Part, Rule, Source, Standing};
use crate::cautions::Caution;
use crate::checks::safety::{DRAW_AGREES_IN, WEIGHT_AGREES_LB};
use crate::gear::{BowKind, Card, Release};
use crate::question::SetupItem;
use crate::units::MM_PER_INCH;

const EIGHTH: f64 = MM_PER_INCH / 8.0;
const SIXTEENTH: f64 = MM_PER_INCH / 16.0;

pub(super) fn items(card: &Card) -> Vec<Item> {
    let mut all = vec![accessories(), as_found(), inspection(), string_settled()];
    all.extend([draw_length(card), draw_weight(card), brace_height(card)]);
    if card.bow.kind == BowKind::Compound {
        all.push(axle_to_axle(card));
    }
    all.push(tiller(card));
    // A longbow's limbs are not bolted on.
    if card.bow.kind != BowKind::Longbow {
        all.push(limb_bolts(card));
    }
    if card.bow.kind == BowKind::Compound {
        all.extend([cam_timing(), cam_lean()]);
    }
    all
}

fn accessories() -> Item {
    Item::new(SetupItem::Accessories, Part::Bow).standing(Standing::Source(Source::AllOn))
}

fn as_found() -> Item {
    Item::new(SetupItem::AsFound, Part::Bow)
        .standing(Standing::Source(Source::Marking))
        .measured(Measure::Note, Rule::Record)
}

fn inspection() -> Item {
    Item::new(SetupItem::Inspection, Part::Bow)
        .standing(Standing::Source(Source::OwnerCare))
        .again(Again::PRESS)
        .gate()
}

fn string_settled() -> Item {
    Item::new(SetupItem::StringSettled, Part::Bow)
        .standing(Standing::Disputed(Source::StringShots))
        .measured(Measure::Count, Rule::AtLeast(50.0))
        .again(Again::PRESS)
}

fn draw_length(card: &Card) -> Item {
    let want = card.bow.draw_length;
    Item::new(SetupItem::DrawLength, Part::Bow)
        .careful(Caution::Helper)
        .standing(Standing::Source(Source::DrawLength))
        .measured(
            Measure::Length,
            Rule::Near {
                target: want.mm(),
                tolerance: DRAW_AGREES_IN * MM_PER_INCH,
            },
        )
}

fn draw_weight(card: &Card) -> Item {
    let want = card.bow.peak_weight.pounds();
    Item::new(SetupItem::DrawWeight, Part::Bow)
        .careful(Caution::Weighing)
        .standing(Standing::Source(Source::MarkedWeight))
        .measured(
            Measure::Force,
            Rule::Near {
                target: want,
                tolerance: WEIGHT_AGREES_LB,
            },
        )
        .again(Again::PRESS_OR_LIMBS)
}

fn brace_height(card: &Card) -> Item {
    let want = card.bow.brace_height;
    let standing = match card.bow.kind {
        BowKind::Compound | BowKind::Recurve => Standing::FromMemory,
        BowKind::Longbow => Standing::CommonPractice,
    };
    Item::new(SetupItem::BraceHeight, Part::Bow)
        .standing(standing)
        .measured(
            Measure::Length,
            Rule::Near {
                target: want.mm(),
                tolerance: EIGHTH,
            },
        )
        .again(Again::PRESS_OR_LIMBS)
}

fn axle_to_axle(card: &Card) -> Item {
    let rule = card
        .bow
        .axle_to_axle
        .map_or(Rule::Record, |want| Rule::Near {
            target: want.mm(),
            tolerance: EIGHTH,
        });
    Item::new(SetupItem::AxleToAxle, Part::Bow)
        .standing(Standing::FromMemory)
        .measured(Measure::Length, rule)
        .again(Again::PRESS_OR_LIMBS)
}

fn tiller(card: &Card) -> Item {
    let item = Item::new(SetupItem::Tiller, Part::Bow);
    let item = match (card.bow.kind, card.bow.release) {
        (BowKind::Compound, _) => item
            .standing(Standing::Source(Source::CompoundTiller))
            .measured(
                Measure::TopBottom,
                Rule::TopMinusBottom(-SIXTEENTH, SIXTEENTH),
            ),
        (_, Release::Fingers) => item
            .standing(Standing::Source(Source::FingerTiller))
            .measured(Measure::TopBottom, Rule::TopMinusBottom(0.0, 6.0)),
        (_, Release::Aid) => item
            .standing(Standing::CommonPractice)
            .measured(Measure::TopBottom, Rule::TopMinusBottom(-3.0, 3.0)),
    };
    item.again(Again::PRESS_OR_LIMBS)
}

fn limb_bolts(card: &Card) -> Item {
    let item = Item::new(SetupItem::LimbBolts, Part::Bow).again(Again::PRESS_OR_LIMBS);
    if card.bow.kind == BowKind::Compound {
        return item
            .standing(Standing::Source(Source::LimbBolts))
            .measured(Measure::Turns, Rule::TopMinusBottom(-0.26, 0.26));
    }
    // What the tiller asks for need not be the same at both ends.
    item.standing(Standing::CommonPractice)
        .measured(Measure::Turns, Rule::Record)
}

fn cam_timing() -> Item {
    Item::new(SetupItem::CamTiming, Part::Bow)
        .careful(Caution::Cams)
        .standing(Standing::Source(Source::CamTiming))
        .measured(Measure::Length, Rule::AtMost(SIXTEENTH))
        .again(Again::PRESS)
}

fn cam_lean() -> Item {
    Item::new(SetupItem::CamLean, Part::Bow)
        .careful(Caution::Cams)
        .standing(Standing::Disputed(Source::CamLean))
        .again(Again::PRESS)
}
