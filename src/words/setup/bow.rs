//! The bow itself: inspection, draw, limbs, cams.

use super::item::Told;
use crate::gear::{BowKind, Card, Release};
use crate::question::SetupItem;
use crate::units::{System, format_fraction, trim_number};

pub(super) fn told(item: SetupItem, card: &Card, system: System) -> Option<Told> {
    Some(match item {
        SetupItem::Accessories => accessories(),
        SetupItem::AsFound => as_found(card),
        SetupItem::Inspection => inspection(card),
        SetupItem::StringSettled => string_settled(card),
        SetupItem::DrawLength => draw_length(card),
        SetupItem::DrawWeight => draw_weight(card),
        SetupItem::BraceHeight => brace_height(card),
        SetupItem::AxleToAxle => axle_to_axle(card),
        SetupItem::Tiller => tiller(card, system),
        SetupItem::LimbBolts => limb_bolts(card),
        SetupItem::CamTiming => cam_timing(),
        SetupItem::CamLean => cam_lean(),
        _ => return None,
    })
}

fn accessories() -> Told {
    Told::default()
        .how("Sight, stabiliser, quiver, string fittings, release or tab: all as it will be shot.")
        .start("on, before anything is measured")
        .if_off("Fit it now: any part changes the tune.")
}

fn as_found(card: &Card) -> Told {
    let cams = match card.bow.kind {
        BowKind::Compound => "limb bolts and cams",
        BowKind::Recurve => "plunger, limb bolts and nocking point",
        BowKind::Longbow => "handle and nocking point",
    };
    Told::default()
        .how(format!("Before touching anything: paint-pen marks across rest, sight, {cams}; calipers riser to shaft; write the scales down."))
        .start("marked and written")
        .if_off("Without it there is nothing to put back to.")
}

fn inspection(card: &Card) -> Told {
    let parts = match card.bow.kind {
        BowKind::Compound => {
            "String and cables (fray, cut strands, serving gaps at the cams), limbs and pockets, cams, axles and clips, riser, every bolt"
        }
        _ => {
            "String (fray, cut strands, loops), limbs (cracks, twist, delamination), limb seats, riser, every bolt"
        }
    };
    let if_off = match card.bow.kind {
        BowKind::Compound => {
            "Do not draw the bow. Fix it first; a cracked limb or bent cam goes to the maker."
        }
        _ => "Do not draw the bow. Fix it first; a cracked or twisted limb goes to the maker.",
    };
    Told::default()
        .how(format!(
            "{parts}. Run a cotton ball over the limbs: it catches on a crack."
        ))
        .start("nothing cracked, frayed, bent or loose")
        .if_off(if_off)
}

fn string_settled(card: &Card) -> Told {
    let how = match card.bow.kind {
        BowKind::Compound => {
            "Shots since the string or a cable was fitted. Later stretch shows as a longer axle-to-axle, a shorter brace height, a turned peep."
        }
        _ => "Shots since the string was fitted. Later stretch shows as a shorter brace height.",
    };
    Told::default()
        .how(how)
        .start("100 shots; some say 50 to 60")
        .if_off("Shoot it in first, or plan to measure and paper again after it has settled.")
}

fn draw_length(card: &Card) -> Told {
    let want = card.bow.draw_length;
    Told::default()
        .how("At the archer's own anchor: string at the nocking point to the grip pivot, plus 1 3/4 in.")
        .start(format!("{} in as on the card, within 1/4 in", format_fraction(want.inches(), 16)))
        .if_off(match card.bow.kind {
            BowKind::Compound => {
                "Set the draw length first, or put the true figure on the card: arrow and weight hang on it."
            }
            _ => "Put the archer's true figure on the card: arrow and weight hang on it.",
        })
}

fn draw_weight(card: &Card) -> Told {
    let want = card.bow.peak_weight.pounds();
    let what = if card.bow.kind == BowKind::Compound {
        "peak weight"
    } else {
        "weight at this archer's draw"
    };
    Told::default()
        .how(format!("Bow scale, drawn slowly: the {what}. Not the label."))
        .start(format!("{} lb as on the card, within 2 lb", trim_number(want, 1)))
        .if_off("Put the scale's figure on the card (peak weight, and that it was weighed): safety and arrow spine are worked out from it.")
}

fn brace_height(card: &Card) -> Told {
    let want = card.bow.brace_height;
    let start = match card.bow.kind {
        BowKind::Compound | BowKind::Longbow => "the maker's figure",
        BowKind::Recurve => {
            "64 in bow 8 1/4 to 8 1/2 in, 66 in 8 3/8 to 8 5/8, 68 in 8 1/2 to 8 3/4, 70 in 8 5/8 to 8 7/8, then by sound and grouping in half twists"
        }
    };
    Told::default()
        .how("String to the grip pivot, square to the string, always at the same place.")
        .start(format!(
                "{} in as on the card, within 1/8 in; {start}",
                format_fraction(want.inches(), 16)
            ))
        .if_off(match card.bow.kind {
            BowKind::Compound => {
                "String or cables have stretched or are twisted wrong: press work (trained hands) before paper. Or put the true figure on the card."
            }
            _ => {
                "Twist the string, unstrung, until it is; or put the true figure on the card. A string that has grown needs the rest of this list again."
            }
        })
}

fn axle_to_axle(card: &Card) -> Told {
    let start = card.bow.axle_to_axle.map_or_else(
        || "the maker's figure; write it down".into(),
        |want| {
            format!(
                "{} in as on the card, within 1/8 in",
                format_fraction(want.inches(), 16)
            )
        },
    );
    Told::default()
        .how("Centre of the top axle to centre of the bottom axle, same side each time.")
        .start(start)
        .if_off("String or cables have stretched or are twisted wrong: press work before paper.")
}

/// What follows where the tiller is off: on a compound both limbs carry the
/// same; a recurve's tiller is what its bolts are for; a longbow's is in its
/// limbs.
const fn tiller_off(kind: BowKind) -> &'static str {
    match kind {
        BowKind::Compound => {
            "Even the limb bolts (never past the maker's turns) and measure the brace height again."
        }
        BowKind::Recurve => {
            "One limb bolt a quarter turn, never past the maker's turns; measure again and keep the way that comes nearer, the other way if not. Then brace height, draw weight and nocking point again. String walkers may want it equal or the other way."
        }
        BowKind::Longbow => "The tiller is in the limbs: ask the maker before it is shot more.",
    }
}

fn tiller(card: &Card, system: System) -> Told {
    let item = Told::default()
        .how("String square to each limb where it meets the riser: top, then bottom.");
    let item = match (card.bow.kind, card.bow.release) {
        (BowKind::Compound, _) => {
            item.start("equal within 1/16 in, both limb bolts turned the same")
        }
        (_, Release::Fingers) => item.start(format!(
            "top larger by 0 to {}, 1/8 in to begin with",
            system.measured(6.0)
        )),
        (_, Release::Aid) => item.start(format!("about equal, within {}", system.measured(3.0))),
    };
    item.if_off(tiller_off(card.bow.kind))
}

fn limb_bolts(card: &Card) -> Told {
    let item = Told::default()
        .how("Turns out from fully seated, top then bottom; then put them back. Leave out where the bow has none.");
    if card.bow.kind == BowKind::Compound {
        return item
        .start("the same top and bottom, never past the maker's greatest number of turns")
            .if_off("Turn both the same, never past the maker's turns; then weigh the bow and put its weight on the card.");
    }
    // What the tiller asks for need not be the same at both ends.
    item.start("as the tiller asks, written down; never past the maker's greatest number of turns")
        .if_off("Back inside the maker's turns before it is drawn; then the tiller again.")
}

fn cam_timing() -> Told {
    Told::default()
        .how("On a draw board: the gap left at one stop when the other touches.")
        .start("both stops touch together, within 1/16 in; some want the top a hair early")
        .if_off("Correct the timing (press, trained hands) before paper: a badly timed bow cannot be papered out.")
}

fn cam_lean() -> Told {
    Told::default()
        .how("A straight arrow along the cam's face, put there with the bow at rest. Then on a draw board at full draw, looked at from behind.")
        .start("upright at full draw")
        .if_off("Yoke twist or shims (press): add to one leg what comes out of the other. Not before the timing.")
}
