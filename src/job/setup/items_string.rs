//! Levels, nock, nocking point, rest, sight.

use super::item::{Again, Item, Measure, Part, Rule, Standing};
use crate::cautions::Caution;
use crate::gear::{BowKind, Card, Release, RestKind};
use crate::question::SetupItem;
use crate::units::MM_PER_INCH;

pub(super) fn items(card: &Card) -> Vec<Item> {
    let mut all = vec![levels(card)];
    if card.bow.kind == BowKind::Compound && card.bow.release == Release::Aid {
        all.push(peep());
    }
    all.extend([nock_fit(), nocking_point(card)]);
    if card.rest.kind != RestKind::Shelf {
        all.push(rest_height());
    }
    if !matches!(card.rest.kind, RestKind::Shelf | RestKind::Fixed) {
        all.push(centre_shot(card));
    }
    all.extend(rest_kind(card.rest.kind));
    all.extend([eye_to_pin(card), sight_click()]);
    all
}

fn levels(card: &Card) -> Item {
    let sight = if card.bow.release == Release::Aid {
        ", the sight's second and third axis"
    } else {
        ", the sight bar if there is one"
    };
    Item::new(SetupItem::Levels, Part::Fit, "Level, one after another")
        .how(format!(
            "Bow upright by the string, arrow level on it{sight}."
        ))
        .start(
            "all level",
            Standing::Source("two magazine articles on sight axes, one by a shop manager"),
        )
        .if_off("Level them now: a crooked sight fakes a wrong centre shot at distance.")
        .again(Again::PRESS)
}

fn peep() -> Item {
    Item::new(SetupItem::Peep, Part::Fit, "Peep")
        .how("Eyes shut, anchor, open: the peep is round and where the eye is. Write down its height above the nocking point.")
        .start("at the archer's natural anchor, not turned", Standing::CommonPractice)
        .measured(Measure::Length, Rule::Record)
        .if_off("Move or turn it (press) before the nocking point is set.")
        .again(Again::PRESS)
}

fn nock_fit() -> Item {
    Item::new(SetupItem::NockFit, Part::Fit, "Nock fit")
        .how("Hang the arrow from the string: it stays by itself and lets go at a light tap. It does not slide on the serving by itself.")
        .start(
            "holds its own weight, lets go at a tap",
            Standing::Disputed("hang-and-tap; lets go within half an inch of pull; rather loose with a loop"),
        )
        .if_off("Too loose risks coming off the string, a dry fire: do not shoot it. Too tight fakes a stiff arrow. Other nocks or another serving.")
        .again(Again { press: true, arrow: true, ..Again::NEVER })
        .gate()
}

/// Band of nocking heights to begin with, mm: the bottom of the nock above
/// the square line.
///
/// With fingers guides print about 1/2 in (12 mm) and the ones seen do not say
/// which side of the nock they mean (from memory). A marker above the nock
/// sets its top there, and a nock is about 6 mm thick (common practice, no
/// source), so the band holds both readings with a millimetre or two to spare.
pub fn nocking_band(card: &Card) -> (f64, f64) {
    match (card.bow.release, card.rest.kind) {
        (Release::Aid, _) => (0.0, 0.25 * MM_PER_INCH),
        (Release::Fingers, RestKind::Shelf) => (0.25 * MM_PER_INCH, 0.75 * MM_PER_INCH),
        (Release::Fingers, _) => (4.0, 14.0),
    }
}

fn nocking_point(card: &Card) -> Item {
    let (low, high) = nocking_band(card);
    let (start, standing) = match (card.bow.release, card.rest.kind) {
        (Release::Aid, _) => (
            "bottom of the nock square to 1/4 in high: level to slightly high",
            Standing::FromMemory,
        ),
        (_, RestKind::Shelf) => (
            "3/4 in high, and come down: bottom of the nock 1/4 to 3/4 in high, whichever side of the nock the figure means",
            Standing::Source("a forum of traditional archers (low weight)"),
        ),
        _ => (
            "about 1/2 in (12 mm) high at the top of the nock, under its marker: bottom of the nock about 6 mm high. Guides do not say which side they mean: 4 to 14 mm holds both",
            Standing::FromMemory,
        ),
    };
    Item::new(SetupItem::NockingPoint, Part::Fit, "Nocking point")
        .how("Bow square on the string, resting where the arrow rests: bottom of the nock above the square line. Or the bow upright over a level floor: height of the bottom of the nock / of the shaft's underside at the rest, such as 1202 mm / 1198 mm.")
        .start(start, standing)
        .measured(Measure::HighLow, Rule::Between(low, high))
        .if_off("Set it in this band before the first shot; paper moves it from there.")
        .again(Again::PRESS)
}

fn rest_height() -> Item {
    Item::new(SetupItem::RestHeight, Part::Fit, "Rest height")
        .how("Arrow on the rest, as it lies at full draw: centre of the shaft above the centre of the plunger (Berger) hole.")
        .start("through the middle of the hole or just above, 0 to 3 mm", Standing::CommonPractice)
        .measured(Measure::HighLow, Rule::Between(-0.5, 3.5))
        .if_off("Set it there and set the nocking point to suit.")
}

/// Band of the point's place outside the string to begin with, mm, outward positive.
pub fn centre_shot_band(card: &Card) -> (f64, f64) {
    match card.bow.release {
        Release::Aid => (-1.0, 1.0),
        Release::Fingers => (MM_PER_INCH / 16.0 - 0.1, MM_PER_INCH / 8.0 + 0.1),
    }
}

fn centre_shot(card: &Card) -> Item {
    let (low, high) = centre_shot_band(card);
    let start = match card.bow.release {
        Release::Aid => "shaft straight down the string's line, within 1 mm",
        Release::Fingers => "point 1/16 to 1/8 in (1.6 to 3.2 mm) outside the string",
    };
    Item::new(SetupItem::CentreShot, Part::Fit, "Centre shot")
        .how("Arrow on the string, string in line with the middle of both limbs: how far the point stands out from (or in toward) the riser. Or two places along the shaft: 1 mm out at 4 in / 2 mm out at 24 in, ahead of the nock.")
        .start(start, Standing::Source("an arrow maker's tuning guide; by eye and by a maker's distance can differ"))
        .measured(Measure::OutIn, Rule::Between(low, high))
        .if_off("Set it here before the first shot and count it as the start.")
}

fn rest_kind(kind: RestKind) -> Vec<Item> {
    let timing = Again {
        press: true,
        rest_height: true,
        ..Again::NEVER
    };
    match kind {
        RestKind::DropAway => vec![
            Item::new(SetupItem::RestTiming, Part::Fit, "Drop-away timing")
                .careful(Caution::Helper)
                .how("Draw slowly: the arm is fully up for most of the draw; let down: it is down before the vanes would be there. Cord snug.")
                .start("up early, down before the vanes arrive", Standing::CommonPractice)
                .if_off("Move the cord; then the powder test. Any rest-height move or press work asks for this again.")
                .again(timing),
        ],
        RestKind::Blade => vec![
            Item::new(SetupItem::Blade, Part::Fit, "Blade angle and stiffness")
                .how("Angle of the blade to the arrow; the blade just carries the arrow without sagging.")
                .start("about 30 to 35 degrees, stiffness to the arrow's weight", Standing::FromMemory)
                .if_off("Another blade: too soft bounces, too stiff kicks the tail up."),
        ],
        RestKind::Plunger => vec![
            Item::new(SetupItem::Plunger, Part::Fit, "Plunger tension")
                .how("Turns from fully soft, or a spring scale on the tip: write it down in a unit.")
                .start("the middle of its range, written as a number", Standing::Source("a club coach's note: 'medium' is no setting"))
                .measured(Measure::Note, Rule::Record)
                .if_off("Set it to the middle and count from there."),
        ],
        RestKind::Capture | RestKind::Fixed | RestKind::Shelf => vec![],
    }
}

fn eye_to_pin(card: &Card) -> Item {
    let none = match card.bow.kind {
        BowKind::Compound => "",
        _ => " Leave out where the bow has no sight.",
    };
    Item::new(SetupItem::EyeToPin, Part::Fit, "Eye to pin")
        .careful(Caution::Helper)
        .how(format!("At full draw a helper holds a tape from behind, from the eye to the sight pin, without touching the archer.{none}"))
        .start("written down: every sight move is worked out from it", Standing::CommonPractice)
        .measured(Measure::Length, Rule::Record)
        .if_off("Without it sight moves are found by trial.")
}

fn sight_click() -> Item {
    Item::new(SetupItem::SightClick, Part::Fit, "One click of the sight")
        .how("Calipers over ten clicks, divided by ten. Leave out where it does not click.")
        .start("written down", Standing::CommonPractice)
        .measured(Measure::Length, Rule::Record)
        .if_off("Sight moves are then given in mm only.")
}
