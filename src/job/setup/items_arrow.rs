//! The arrows, clearance, marks.

use super::compute;
use super::item::{Again, Item, Measure, Part, Rule, Standing};
use crate::cautions::Caution;
use crate::gear::{BowKind, Card, Release, RestKind, grains_per_pound};
use crate::question::SetupItem;
use crate::units::{MM_PER_INCH, trim_number};

/// Scale reading against the sum of the parts, gr, within which they agree
/// (common practice, no source).
pub const MASS_AGREES_GR: f64 = 5.0;

pub(super) fn items(card: &Card) -> Vec<Item> {
    vec![
        flex(),
        mass(card),
        matched(card),
        straight(),
        balance(card),
        ends(),
        marks(card),
        // The first item that shoots an arrow: the marks stand before it.
        clearance(card),
    ]
}

fn flex() -> Item {
    Item::new(SetupItem::ArrowFlex, Part::Arrows, "Each arrow looked at, felt and flexed")
        .how("Every arrow, new ones too: turn it while looking and feeling, flex it a little away from people as its maker says, twist both ways, look at the nock. Never with a broadhead on.")
        .start("no crack, softness, loose insert or split nock; before every shot", Standing::Source("arrow makers' safety pages; a national federation on carbon arrows"))
        .if_off("Break it and bin it. Do not shoot it once more to see.")
        .again(Again::ARROW)
        .gate()
}

fn mass(card: &Card) -> Item {
    let total = card.arrow.total_mass().grains();
    let gpp = grains_per_pound(card.arrow.total_mass(), card.bow.peak_weight);
    Item::new(SetupItem::ArrowMass, Part::Arrows, "Finished arrow on the scale")
        .how("One finished arrow, point and nock in, on a grain scale.")
        .start(
            format!(
                "{} gr by the card's parts, within {MASS_AGREES_GR:.0} gr; never under 5 gr/lb or the bow maker's figure",
                trim_number(total, 0)
            ),
            Standing::Source("5 gr/lb: bow makers' warranty pages, arrow makers; agreement of the parts: common practice, no source"),
        )
        .measured(Measure::Mass, Rule::Near { target: total, tolerance: MASS_AGREES_GR })
        .if_off("A part on the card is wrong or missing (insert, collar, wrap, bushing): correct the card, the arrow spine is worked out from it.")
        .computed(format!("{} gr in all, {gpp:.1} gr/lb", trim_number(total, 0)))
        .again(Again::ARROW)
}

fn matched(card: &Card) -> Item {
    let (limit, words) = if card.bow.release == Release::Aid && card.bow.kind == BowKind::Compound {
        (
            5.0,
            "lightest to heaviest within 5 gr; a sorted dozen can be within 2 gr",
        )
    } else {
        (2.0, "lightest to heaviest within 2 gr")
    };
    Item::new(SetupItem::ArrowMatch, Part::Arrows, "The set weighed and numbered")
        .how("Number every arrow; weigh each, in order. The program names the odd one.")
        .start(words, Standing::Source("R. McKinney, Arrow Spine, Weight and Straightness (2 gr a dozen); hunting sets 3 to 5 gr from memory"))
        .measured(Measure::Masses, Rule::SpreadAtMost(limit))
        .if_off("Set the odd arrow aside, or sort into two sets; do not tune with it.")
        .again(Again::ARROW)
}

fn straight() -> Item {
    Item::new(SetupItem::ArrowStraightness, Part::Arrows, "Straightness")
        .how("Shaft on supports 28 in apart, dial at mid-span, one full turn: highest less lowest. Shafts of 29 in or shorter: 25 in span, scaled to 28 by the program. Write the span.")
        .start("0.006 in in all over 28 in", Standing::Source("ASTM F1889 and ATA/ARR-203 for the method; the limit is common practice, no source (trade grades are usually half the reading)"))
        .measured(Measure::RunOut, Rule::StraightnessAtMost(0.006 * MM_PER_INCH))
        .if_off("Set it aside. Less straight arrows were found to group worse; angled vanes soften it (Park and others 2018).")
        .again(Again::ARROW)
}

fn balance(card: &Card) -> Item {
    let foc = compute::card_foc_percent(card);
    let (words, standing) = if card.bow.kind == BowKind::Compound {
        ("hunting 10 to 15 %", Standing::CommonPractice)
    } else {
        ("target 7 to 16 %", Standing::FromMemory)
    };
    Item::new(SetupItem::ArrowBalance, Part::Arrows, "Balance point")
        .how("Balance the finished arrow on an edge: nock throat to the balance point. The program gives the front-of-centre.")
        .start(format!("{words}; only recorded, no limit"), standing)
        .measured(Measure::Length, Rule::Record)
        .if_off("A figure far from the computed one says a part on the card is wrong.")
        .computed(format!("front of centre {foc:.1} % by the card"))
        .again(Again::ARROW)
}

fn ends() -> Item {
    Item::new(SetupItem::ArrowEnds, Part::Arrows, "Ends, nocks, inserts")
        .how("Shaft ends square, nocks straight and clear of the vanes on the rest, inserts and points spun without wobble; stiff sides all the same way.")
        .start("square, straight, no wobble", Standing::CommonPractice)
        .if_off("Square the end, turn or change the nock, reset the insert.")
        .again(Again::ARROW)
}

fn clearance(card: &Card) -> Item {
    let parts = if card.bow.kind == BowKind::Compound {
        "rest, cables, guard and riser"
    } else {
        "rest and riser"
    };
    let own = if card.rest.kind == RestKind::DropAway {
        "nothing at all behind the first part of the rest's track"
    } else {
        "at most the rest's own track"
    };
    Item::new(SetupItem::Clearance, Part::FirstShot, "Clearance, by the powder test")
        .careful(Caution::Helper)
        .how(format!("Foot powder on shaft and vanes, from the nock to 2 cm short of where the undrawn shaft lies on the rest (drawing wipes what is ahead of it), and on {parts}. Shoot; look for wiped paths. A second person watches for marks made while drawing."))
        .start(own, Standing::Source("a club's powder-test note, crediting a printed coach's book"))
        .if_off(if card.bow.kind == BowKind::Compound {
            "Turn the nock a little, clean, repeat; then drop-away timing, lower vanes, cable clearance. Set all nocks the same."
        } else {
            "Turn the nock a little, clean, repeat; then the rest's arm, the centre shot at its start, lower vanes. Set all nocks the same."
        })
        .again(Again { press: true, rest_height: true, arrow: true, limbs: false })
}

fn marks(card: &Card) -> Item {
    let joints = match card.bow.kind {
        BowKind::Compound => "rest, sight, limb bolts, cams",
        BowKind::Recurve => "rest, plunger, sight, limb bolts; the nocking point on the string",
        BowKind::Longbow => "rest and sight where there are any; the nocking point on the string",
    };
    Item::new(SetupItem::WitnessMarks, Part::Last, "Witness marks and starting readings")
        .how(format!("Paint pen across both sides of each joint: {joints}. Calipers riser to shaft and rest height, on the card under REST, as its readings."))
        .start("marked, before the first shot", Standing::Source("a club journal on marking sight and rest, 2014"))
        .measured(Measure::Note, Rule::Record)
        .if_off("A knock in the field then leaves no trace, and there is no put-back.")
        .again(Again::PRESS)
}
