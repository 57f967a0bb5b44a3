//! The bow itself: inspection, draw, limbs, cams.

use super::item::{Again, Item, Measure, Part, Rule, Standing};
use crate::cautions::Caution;
use crate::gear::{BowKind, Card, Release};
use crate::question::SetupItem;
use crate::units::{MM_PER_INCH, format_fraction, trim_number};

const EIGHTH: f64 = MM_PER_INCH / 8.0;
const SIXTEENTH: f64 = MM_PER_INCH / 16.0;

pub(super) fn items(card: &Card) -> Vec<Item> {
    let mut all = vec![
        accessories(),
        as_found(card),
        inspection(card),
        string_settled(card),
    ];
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
    Item::new(
        SetupItem::Accessories,
        Part::Bow,
        "Everything the archer will use is on",
    )
    .how("Sight, stabiliser, quiver, string fittings, release or tab: all as it will be shot.")
    .start(
        "on, before anything is measured",
        Standing::Source("an arrow maker's tuning guide; FITA coach's manual, recurve tuning"),
    )
    .if_off("Fit it now: any part changes the tune.")
}

fn as_found(card: &Card) -> Item {
    let cams = match card.bow.kind {
        BowKind::Compound => "limb bolts and cams",
        BowKind::Recurve => "plunger, limb bolts and nocking point",
        BowKind::Longbow => "handle and nocking point",
    };
    Item::new(SetupItem::AsFound, Part::Bow, "As it came in, written down and marked")
        .how(format!("Before touching anything: paint-pen marks across rest, sight, {cams}; calipers riser to shaft; write the scales down."))
        .start("marked and written", Standing::Source("a club journal on marking sight and rest, 2014"))
        .measured(Measure::Note, Rule::Record)
        .if_off("Without it there is nothing to put back to.")
}

fn inspection(card: &Card) -> Item {
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
    Item::new(SetupItem::Inspection, Part::Bow, "Safety inspection")
        .how(format!(
            "{parts}. Run a cotton ball over the limbs: it catches on a crack."
        ))
        .start(
            "nothing cracked, frayed, bent or loose",
            Standing::Source("a bow maker's owner-care sheet"),
        )
        .if_off(if_off)
        .again(Again::PRESS)
        .gate()
}

fn string_settled(card: &Card) -> Item {
    let how = match card.bow.kind {
        BowKind::Compound => {
            "Shots since the string or a cable was fitted. Later stretch shows as a longer axle-to-axle, a shorter brace height, a turned peep."
        }
        _ => "Shots since the string was fitted. Later stretch shows as a shorter brace height.",
    };
    Item::new(SetupItem::StringSettled, Part::Bow, "String shot in")
        .how(how)
        .start(
            "100 shots; some say 50 to 60",
            Standing::Disputed("about 100 in one magazine, 50 to 60 from a broadhead maker"),
        )
        .measured(Measure::Count, Rule::AtLeast(50.0))
        .if_off("Shoot it in first, or plan to measure and paper again after it has settled.")
        .again(Again::PRESS)
}

fn draw_length(card: &Card) -> Item {
    let want = card.bow.draw_length;
    Item::new(SetupItem::DrawLength, Part::Bow, "Draw length of this archer")
        .careful(Caution::Helper)
        .how("At the archer's own anchor: string at the nocking point to the grip pivot, plus 1 3/4 in.")
        .start(
            format!("{} in as on the card, within 1/4 in", format_fraction(want.inches(), 16)),
            Standing::Source("ASTM F1880 for the measure; fit before tuning: a hunting course"),
        )
        .measured(
            Measure::Length,
            Rule::Near { target: want.mm(), tolerance: 0.25 * MM_PER_INCH },
        )
        .if_off(match card.bow.kind {
            BowKind::Compound => {
                "Set the draw length first, or put the true figure on the card: arrow and weight hang on it."
            }
            _ => "Put the archer's true figure on the card: arrow and weight hang on it.",
        })
}

fn draw_weight(card: &Card) -> Item {
    let want = card.bow.peak_weight.pounds();
    let what = if card.bow.kind == BowKind::Compound {
        "peak weight"
    } else {
        "weight at this archer's draw"
    };
    Item::new(SetupItem::DrawWeight, Part::Bow, "Draw weight on a scale")
        .careful(Caution::Weighing)
        .how(format!("Bow scale, drawn slowly: the {what}. Not the label."))
        .start(
            format!("{} lb as on the card, within 2 lb", trim_number(want, 1)),
            Standing::Source("a bow maker's note: marked weights can be out by 7 lb or more; the 2 lb is common practice, no source"),
        )
        .measured(Measure::Force, Rule::Near { target: want, tolerance: 2.0 })
        .if_off("Put the scale's figure on the card (peak weight, and that it was weighed): safety and arrow match are worked out from it.")
        .again(Again::PRESS_OR_LIMBS)
}

fn brace_height(card: &Card) -> Item {
    let want = card.bow.brace_height;
    let (start, standing) = match card.bow.kind {
        BowKind::Compound => ("the maker's figure", Standing::FromMemory),
        BowKind::Recurve => (
            "64 in bow 8 1/4 to 8 1/2 in, 66 in 8 3/8 to 8 5/8, 68 in 8 1/2 to 8 3/4, 70 in 8 5/8 to 8 7/8, then by sound and grouping in half twists",
            Standing::FromMemory,
        ),
        BowKind::Longbow => ("the maker's figure", Standing::CommonPractice),
    };
    Item::new(SetupItem::BraceHeight, Part::Bow, "Brace height")
        .how("String to the grip pivot, square to the string, always at the same place.")
        .start(
            format!(
                "{} in as on the card, within 1/8 in; {start}",
                format_fraction(want.inches(), 16)
            ),
            standing,
        )
        .measured(Measure::Length, Rule::Near { target: want.mm(), tolerance: EIGHTH })
        .if_off(match card.bow.kind {
            BowKind::Compound => {
                "String or cables have stretched or are twisted wrong: press work (trained hands) before paper. Or put the true figure on the card."
            }
            _ => {
                "Twist the string, unstrung, until it is; or put the true figure on the card. A string that has grown needs the rest of this list again."
            }
        })
        .again(Again::PRESS_OR_LIMBS)
}

fn axle_to_axle(card: &Card) -> Item {
    let (start, rule) = match card.bow.axle_to_axle {
        Some(want) => (
            format!(
                "{} in as on the card, within 1/8 in",
                format_fraction(want.inches(), 16)
            ),
            Rule::Near {
                target: want.mm(),
                tolerance: EIGHTH,
            },
        ),
        None => ("the maker's figure; write it down".into(), Rule::Record),
    };
    Item::new(SetupItem::AxleToAxle, Part::Bow, "Axle to axle")
        .how("Centre of the top axle to centre of the bottom axle, same side each time.")
        .start(start, Standing::FromMemory)
        .measured(Measure::Length, rule)
        .if_off("String or cables have stretched or are twisted wrong: press work before paper.")
        .again(Again::PRESS_OR_LIMBS)
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

fn tiller(card: &Card) -> Item {
    let item = Item::new(SetupItem::Tiller, Part::Bow, "Tiller")
        .how("String square to each limb where it meets the riser: top, then bottom.");
    let item = match (card.bow.kind, card.bow.release) {
        (BowKind::Compound, _) => item
            .start(
                "equal within 1/16 in, both limb bolts turned the same",
                Standing::Source(
                    "a shop manager's tuning checklist; the 1/16 in is common practice, no source",
                ),
            )
            .measured(
                Measure::TopBottom,
                Rule::TopMinusBottom(-SIXTEENTH, SIXTEENTH),
            ),
        (_, Release::Fingers) => item
            .start(
                "top larger by 0 to 6 mm, 1/8 in to begin with",
                Standing::Source("a magazine on tiller; a club equipment guide"),
            )
            .measured(Measure::TopBottom, Rule::TopMinusBottom(0.0, 6.0)),
        (_, Release::Aid) => item
            .start("about equal, within 3 mm", Standing::CommonPractice)
            .measured(Measure::TopBottom, Rule::TopMinusBottom(-3.0, 3.0)),
    };
    item.if_off(tiller_off(card.bow.kind))
        .again(Again::PRESS_OR_LIMBS)
}

fn limb_bolts(card: &Card) -> Item {
    let item = Item::new(SetupItem::LimbBolts, Part::Bow, "Limb bolts")
        .how("Turns out from fully seated, top then bottom; then put them back. Leave out where the bow has none.")
        .again(Again { press: true, limbs: true, ..Again::NEVER });
    if card.bow.kind == BowKind::Compound {
        return item
            .start(
                "the same top and bottom, never past the maker's greatest number of turns",
                Standing::Source("a bow maker's warranty page; a shop manager's checklist"),
            )
            .measured(Measure::Turns, Rule::TopMinusBottom(-0.26, 0.26))
            .if_off("Turn both the same, never past the maker's turns; then weigh the bow and put its weight on the card.");
    }
    // What the tiller asks for need not be the same at both ends.
    item.start(
        "as the tiller asks, written down; never past the maker's greatest number of turns",
        Standing::CommonPractice,
    )
    .measured(Measure::Turns, Rule::Record)
    .if_off("Back inside the maker's turns before it is drawn; then the tiller again.")
}

fn cam_timing() -> Item {
    Item::new(SetupItem::CamTiming, Part::Bow, "Cams arrive together")
        .careful(Caution::Cams)
        .how("On a draw board: the gap left at one stop when the other touches.")
        .start(
            "both stops touch together, within 1/16 in; some want the top a hair early",
            Standing::Source("dealer workbench column, 2015; a technician's diary, 2010, on 1/16 in"),
        )
        .measured(Measure::Length, Rule::AtMost(SIXTEENTH))
        .if_off("Correct the timing (press, trained hands) before paper: a badly timed bow cannot be papered out.")
        .again(Again::PRESS)
}

fn cam_lean() -> Item {
    Item::new(SetupItem::CamLean, Part::Bow, "Cam lean")
        .careful(Caution::Cams)
        .how("A straight arrow along the cam's face, put there with the bow at rest. Then on a draw board at full draw, looked at from behind.")
        .start(
            "upright at full draw",
            Standing::Disputed("at full draw for most; at rest with a straight-edge for one"),
        )
        .if_off("Yoke twist or shims (press): add to one leg what comes out of the other. Not before the timing.")
        .again(Again::PRESS)
}
