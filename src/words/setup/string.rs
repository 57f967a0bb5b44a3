//! Levels, nock, nocking point, rest, sight.

use super::item::Told;
use crate::gear::{BowKind, Card, Release, RestKind};
use crate::question::SetupItem;
use crate::units::System;

pub(super) fn told(item: SetupItem, card: &Card, system: System) -> Option<Told> {
    Some(match item {
        SetupItem::Levels => levels(card),
        SetupItem::Peep => peep(),
        SetupItem::NockFit => nock_fit(),
        SetupItem::NockingPoint => nocking_point(card, system),
        SetupItem::RestHeight => rest_height(system),
        SetupItem::CentreShot => centre_shot(card, system),
        SetupItem::RestTiming => rest_timing(),
        SetupItem::Blade => blade(),
        SetupItem::Plunger => plunger(),
        SetupItem::EyeToPin => eye_to_pin(card),
        SetupItem::SightClick => sight_click(),
        _ => return None,
    })
}

fn levels(card: &Card) -> Told {
    let sight = if card.bow.release == Release::Aid {
        ", the sight's second and third axis"
    } else {
        ", the sight bar if there is one"
    };
    Told::default()
        .how(format!(
            "Bow upright by the string, arrow level on it{sight}."
        ))
        .start("all level")
        .if_off("Level them now: a crooked sight fakes a wrong centre shot at distance.")
}

fn peep() -> Told {
    Told::default()
        .how("Eyes shut, anchor, open: the peep is round and where the eye is. Write down its height above the nocking point.")
        .start("at the archer's natural anchor, not turned")
        .if_off("Move or turn it (press) before the nocking point is set.")
}

fn nock_fit() -> Told {
    Told::default()
        .how("Hang the arrow from the string: it stays by itself and lets go at a light tap. It does not slide on the serving by itself.")
        .start("holds its own weight, lets go at a tap")
        .if_off("Too loose risks coming off the string, a dry fire: do not shoot it. Too tight fakes a stiff arrow. Other nocks or another serving.")
}

fn nocking_point(card: &Card, system: System) -> Told {
    let start = match (card.bow.release, card.rest.kind) {
        (Release::Aid, _) => "bottom of the nock square to 1/4 in high: level to slightly high",
        (_, RestKind::Shelf) => {
            "3/4 in high, and come down: bottom of the nock 1/4 to 3/4 in high, whichever side of the nock the figure means"
        }
        _ => match system {
            System::Mm => {
                "about 1/2 in (12 mm) high at the top of the nock, under its marker: bottom of the nock about 6 mm high. Guides do not say which side they mean: 4 to 14 mm holds both"
            }
            System::Inch => {
                "about 1/2 in high at the top of the nock, under its marker: bottom of the nock about 1/4 in high. Guides do not say which side they mean: 0.16 to 0.55 in holds both"
            }
        },
    };
    let floor = match system {
        System::Mm => "1202 mm / 1198 mm",
        System::Inch => "47 3/8 in / 47 1/4 in",
    };
    Told::default()
        .how(format!("Bow square on the string, resting where the arrow rests: bottom of the nock above the square line. Or the bow upright over a level floor: height of the bottom of the nock / of the shaft's underside at the rest, such as {floor}."))
        .start(start)
        .if_off("Set it in this band before the first shot; paper moves it from there.")
}

fn rest_height(system: System) -> Told {
    Told::default()
        .how("Arrow on the rest, as it lies at full draw: centre of the shaft above the centre of the plunger (Berger) hole.")
        .start(format!(
            "through the middle of the hole or just above, 0 to {}",
            system.measured(3.0)
        ))
        .if_off("Set it there and set the nocking point to suit.")
}

fn centre_shot(card: &Card, system: System) -> Told {
    let start = match (card.bow.release, system) {
        (Release::Aid, System::Mm) => "shaft straight down the string's line, within 1 mm",
        (Release::Aid, System::Inch) => "shaft straight down the string's line, within 0.04 in",
        (Release::Fingers, System::Mm) => "point 1/16 to 1/8 in (1.6 to 3.2 mm) outside the string",
        (Release::Fingers, System::Inch) => "point 1/16 to 1/8 in outside the string",
    };
    let places = match system {
        System::Mm => "1 mm out at 4 in / 2 mm out at 24 in",
        System::Inch => "1/32 in out at 4 in / 1/16 in out at 24 in",
    };
    Told::default()
        .how(format!("Arrow on the string, string in line with the middle of both limbs: how far the point stands out from (or in toward) the riser. Or two places along the shaft: {places}, ahead of the nock."))
        .start(start)
        .if_off("Set it here before the first shot and count it as the start.")
}

fn rest_timing() -> Told {
    Told::default()
        .how("Draw slowly: the arm is fully up for most of the draw; let down: it is down before the vanes would be there. Cord snug.")
        .start("up early, down before the vanes arrive")
        .if_off("Move the cord; then the powder test. Any rest-height move or press work asks for this again.")
}

fn blade() -> Told {
    Told::default()
        .how("Angle of the blade to the arrow; the blade just carries the arrow without sagging.")
        .start("about 30 to 35 degrees, stiffness to the arrow's weight")
        .if_off("Another blade: too soft bounces, too stiff kicks the tail up.")
}

fn plunger() -> Told {
    Told::default()
        .how("Turns from fully soft, or a spring scale on the tip: write it down in a unit.")
        .start("the middle of its range, written as a number")
        .if_off("Set it to the middle and count from there.")
}

fn eye_to_pin(card: &Card) -> Told {
    let none = match card.bow.kind {
        BowKind::Compound => "",
        _ => " Leave out where the bow has no sight.",
    };
    Told::default()
        .how(format!("At full draw a helper holds a tape from behind, from the eye to the sight pin, without touching the archer.{none}"))
        .start("written down: every sight move is worked out from it")
        .if_off("Without it sight moves are found by trial.")
}

fn sight_click() -> Told {
    Told::default()
        .how("Calipers over ten clicks, divided by ten. Leave out where it does not click.")
        .start("written down")
        .if_off("Sight moves are then given as a length only.")
}
