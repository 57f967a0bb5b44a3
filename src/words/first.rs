//! Why a first move goes its way, and what each test asks for.

use super::{percent, powder};
use crate::advice::{Ask, ByGuides, FirstMove, Ground, GuideWay, Pad};
use crate::belief::Powder;
use crate::units::{System, clean};

/// Why the first move of an adjuster goes the way it goes.
pub(super) fn first_move(first: &FirstMove) -> String {
    let noun = first.kind.noun();
    let ground = match &first.ground {
        Ground::Vertical => {
            return format!(
                "First move of the {noun}. Guides agree on the way; this bow will show how far."
            );
        }
        Ground::Aid(load) => {
            let load = load.map_or(String::new(), |load| {
                format!(
                    " By this arrow's load the tear more likely goes {} the rest: chance {} ({} drawn bows, a computation).",
                    if load.with_rest { "with" } else { "against" },
                    percent(load.chance),
                    load.drawn
                )
            });
            format!(
                "With a release aid printed guides contradict each other on which way the {noun} goes.{load}"
            )
        }
        Ground::Fingers(guides) => by_guides(guides),
    };
    format!("{ground} Not shown by this bow yet.")
}

fn by_guides(by: &ByGuides) -> String {
    let side = if by.tail_left { "left" } else { "right" };
    let way = match by.way {
        GuideWay::PlungerFirmer => "plunger firmer",
        GuideWay::PlungerSofter => "plunger softer",
        GuideWay::RestIn => "rest IN",
        GuideWay::RestOut => "rest OUT",
    };
    let guides = format!("tail {side}, {way}");
    let pad = pad(by.pad);
    match (by.powder, by.followed) {
        (Powder::Clean, true) => {
            format!("The guides for fingers agree: {guides}. No late mark in the powder fits them.")
        }
        (Powder::Slap, false) => format!(
            "The rear of the shaft slaps the {pad}. Then the tear more likely goes with the rest, against the guides ({guides}). A computation; nobody has measured it."
        ),
        (Powder::NotLooked, true) => format!(
            "The guides for fingers agree: {guides}. Nobody looked at powder; a slap of the {pad} would turn it round."
        ),
        (_, true) => format!("The guides for fingers say: {guides}. This move asks the bow."),
        (_, false) => {
            format!("The guides for fingers say the other way ({guides}). This move asks the bow.")
        }
    }
}

/// What the shaft lies against sideways.
pub(super) const fn pad(pad: Pad) -> &'static str {
    match pad {
        Pad::Plunger => "plunger",
        Pad::SidePlate => "side plate",
        Pad::Rest => "rest",
    }
}

/// The powder test of any bow, with what each answer means.
fn powder_test() -> String {
    format!(
        "{} Shoot once, and look for wiped paths. none: only the rest's own track, go on. rest, cable or other: a wiped path there. Turn the nock a little or cure the contact, then test again. Common practice, not measured.",
        powder("the rest, the riser and the cables")
    )
}

/// What a test asks for, and what each outcome means.
pub fn ask(ask: &Ask, system: System) -> String {
    match ask {
        Ask::Powder => powder_test(),
        Ask::PowderBeforeBoth => format!("{} not-looked: one axis at a time.", powder_test()),
        Ask::PowderFirst(what) => {
            let pad = pad(*what);
            format!(
                "{} Shoot twice; both shots must show the same. none: no mark there. button: the rear of the shaft wiped the {pad}. rest or other: vanes or shaft wiped that; cure it first. not-looked: nobody looked.",
                powder(&format!("the {pad} and the rest"))
            )
        }
        Ask::ClearSlap => "Try in this order: turn the nock a little; bend or lower the rest arm; put centre shot to its starting figure, 1.6 to 3.2 mm outside the string (set-up, no tuning move); then a stiffer arrow if there is one. Powder again, two shots alike. none: cleared, the likely tear is forgotten. button or not-looked: it may stay, and tuning goes on with a test move.".into(),
        Ask::Hand => "Were the shots that stand shot with an open, relaxed hand, face and loop free? relaxed: go on, no shot is needed. not: two shots so will tell. not-looked: nobody watched.".into(),
        Ask::OpenHand => "Hand open and relaxed, nothing gripped, face off the string, loop untwisted. Shoot at this setting and enter the tears. If the tear changes, it is not the rest.".into(),
        Ask::OtherArrows(mark, limit, in_ten) => {
            let mark = clean(mark);
            format!(
                "Shoot two other arrows of the set here, once each. Enter them with their numbers (... #2). same: both within about {} of arrow {mark}. It is not the arrow: leave the rest alone. odd: they agree with each other and not with it. Arrow {mark} is set aside, and the others start over. Tells the two apart about {in_ten} times in 10 on virtual bows.",
                system.tear(*limit)
            )
        }
    }
}
