//! The arrows, clearance, marks.

use super::super::powder;
use super::item::Told;
use crate::checks::safety::MASS_AGREES_GR;
use crate::gear::{BowKind, Card, Release, RestKind, grains_per_pound};
use crate::question::SetupItem;
use crate::setup::compute;
use crate::units::trim_number;

pub(super) fn told(item: SetupItem, card: &Card) -> Option<Told> {
    Some(match item {
        SetupItem::ArrowFlex => flex(),
        SetupItem::ArrowMass => mass(card),
        SetupItem::ArrowMatch => matched(card),
        SetupItem::ArrowStraightness => straight(),
        SetupItem::ArrowBalance => balance(card),
        SetupItem::ArrowEnds => ends(),
        SetupItem::WitnessMarks => marks(card),
        SetupItem::Clearance => clearance(card),
        _ => return None,
    })
}

fn flex() -> Told {
    Told::default()
        .how("Every arrow, new ones too: turn it while looking and feeling, flex it a little away from people as its maker says, twist both ways, look at the nock. Never with a broadhead on.")
        .start("no crack, softness, loose insert or split nock; before every shot")
        .if_off("Break it and bin it. Do not shoot it once more to see.")
}

fn mass(card: &Card) -> Told {
    let total = card.arrow.total_mass().grains();
    let gpp = grains_per_pound(card.arrow.total_mass(), card.bow.peak_weight);
    Told::default()
        .how("One finished arrow, point and nock in, on a grain scale.")
        .start(format!(
                "{} gr by the card's parts, within {MASS_AGREES_GR:.0} gr; never under 5 gr/lb or the bow maker's figure",
                trim_number(total, 0)
            ))
        .if_off("A part on the card is wrong or missing (insert, collar, wrap, bushing): correct the card, the arrow spine is worked out from it.")
        .computed(format!("{} gr in all, {gpp:.1} gr/lb", trim_number(total, 0)))
}

fn matched(card: &Card) -> Told {
    let words = if card.bow.release == Release::Aid && card.bow.kind == BowKind::Compound {
        "lightest to heaviest within 5 gr; a sorted dozen can be within 2 gr"
    } else {
        "lightest to heaviest within 2 gr"
    };
    Told::default()
        .how("Number every arrow; weigh each, in order. The program names the odd one.")
        .start(words)
        .if_off("Set the odd arrow aside, or sort into two sets; do not tune with it.")
}

fn straight() -> Told {
    Told::default()
        .how("Shaft on supports 28 in apart, dial at mid-span, one full turn: highest less lowest. Shafts of 29 in or shorter: 25 in span, scaled to 28 by the program. Write the span.")
        .start("at most 0.006 in over 28 in, highest less lowest")
        .if_off("Set it aside. Less straight arrows were found to group worse; angled vanes soften it (a paper of 2018).")
}

fn balance(card: &Card) -> Told {
    let foc = compute::card_foc_percent(card);
    let words = if card.bow.kind == BowKind::Compound {
        "hunting 10 to 15 %"
    } else {
        "target 7 to 16 %"
    };
    Told::default()
        .how("Balance the finished arrow on an edge: nock throat to the balance point. The program gives the front-of-centre.")
        .start(format!("{words}; only recorded, no limit"))
        .if_off("A figure far from the computed one says a part on the card is wrong.")
        .computed(format!("front of centre {foc:.1} % by the card"))
}

fn ends() -> Told {
    Told::default()
        .how("Shaft ends square, nocks straight and clear of the vanes on the rest, inserts and points spun without wobble; stiff sides all the same way.")
        .start("square, straight, no wobble")
        .if_off("Square the end, turn or change the nock, reset the insert.")
}

fn clearance(card: &Card) -> Told {
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
    Told::default()
        .how(format!(
            "{} Shoot, and look for wiped paths. A second person watches for marks made while drawing.",
            powder(&format!("the {parts}"), card.paper.system)
        ))
        .start(own)
        .if_off(if card.bow.kind == BowKind::Compound {
            "Turn the nock a little, clean, repeat; then drop-away timing, lower vanes, cable clearance. Set all nocks the same."
        } else {
            "Turn the nock a little, clean, repeat; then the rest's arm, the centre shot at its start, lower vanes. Set all nocks the same."
        })
}

fn marks(card: &Card) -> Told {
    let joints = match card.bow.kind {
        BowKind::Compound => "rest, sight, limb bolts, cams",
        BowKind::Recurve => "rest, plunger, sight, limb bolts; the nocking point on the string",
        BowKind::Longbow => "rest and sight where there are any; the nocking point on the string",
    };
    Told::default()
        .how(format!("Paint pen across both sides of each joint: {joints}. Calipers riser to shaft and rest height, on the card under REST, as its readings."))
        .start("marked, before the first shot")
        .if_off("A knock in the field then leaves no trace, and there is no put-back.")
}
