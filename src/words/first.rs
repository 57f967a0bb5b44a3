//! Why a test move goes its way, and what each test asks for.

use super::{count, percent, powder};
use crate::advice::{Against, Ask, ByGuides, ByHeight, FirstMove, Ground, GuideWay, Pad};
use crate::belief::Powder;
use crate::gear::AdjusterKind;
use crate::units::{System, clean};

/// Why a test move of an adjuster goes the way it goes.
pub(super) fn first_move(first: &FirstMove) -> String {
    let noun = first.kind.noun();
    let ground = match &first.ground {
        Ground::Vertical(found) => return by_height(first, found),
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
        Ground::Fingers(guides) if guides.against == Some(Against::OwnMoves) => {
            // That says itself what this bow has shown.
            return by_guides(first.kind, guides);
        }
        Ground::Fingers(guides) => by_guides(first.kind, guides),
    };
    let shown = match first.tried {
        true => "This bow has not shown it for sure yet.",
        false => "Not shown by this bow yet.",
    };
    format!("{ground} {shown}")
}

fn by_height(first: &FirstMove, found: &ByHeight) -> String {
    let noun = first.kind.noun();
    let which = match first.tried {
        true => "Another test",
        false => "First move",
    };
    match (found.against, first.tried) {
        (None, false) => {
            format!("{which} of the {noun}. Guides agree on the way; this bow will show how far.")
        }
        (None, true) => format!(
            "{which} of the {noun}. Guides agree on the way; this bow has not shown for sure how far."
        ),
        (Some(why), _) => format!(
            "{which} of the {noun}. Guides agree on the other way. {}",
            against(why, first.kind)
        ),
    }
}

/// What the guides for fingers do about a tear, without a full stop: `tail
/// left, rest OUT`.
pub(super) fn guides_do(by: &ByGuides) -> String {
    let side = if by.tail_left { "left" } else { "right" };
    let way = match by.way {
        GuideWay::PlungerFirmer => "plunger firmer",
        GuideWay::PlungerSofter => "plunger softer",
        GuideWay::RestIn => "rest IN",
        GuideWay::RestOut => "rest OUT",
    };
    format!("tail {side}, {way}")
}

/// Why a test move goes against the guides.
pub(super) fn against(why: Against, kind: AdjusterKind) -> String {
    match (why, kind) {
        (Against::Slap, AdjusterKind::PlungerTension) => {
            "After a slap a firmer plunger more likely sends the tail out.".into()
        }
        (Against::Slap, _) => "After a slap the tear more likely goes with the rest.".into(),
        (Against::NoRoom, _) => {
            "There is no more room the guides' way: the travel ends there, or the limit of a test move."
                .into()
        }
        (Against::OwnMoves, _) => {
            "What this bow has shown so far leans this way, not for sure.".into()
        }
        (Against::EarlierBows(bows), _) => format!(
            "{} of the folder {} this way, not for sure.",
            count(bows as usize, "earlier bow"),
            if bows == 1 { "leans" } else { "lean" }
        ),
        (Against::Likelier, _) => "All figures together give this way the better chance.".into(),
    }
}

fn by_guides(kind: AdjusterKind, by: &ByGuides) -> String {
    let guides = guides_do(by);
    let pad = pad(by.pad);
    match (by.against, by.powder) {
        (None, Powder::Clean) => {
            format!("The guides for fingers agree: {guides}. No late mark in the powder fits them.")
        }
        (None, Powder::NotLooked) => format!(
            "The guides for fingers agree: {guides}. Nobody looked at powder; a slap of the {pad} would turn it round."
        ),
        (None, Powder::Slap) => {
            format!("The guides for fingers say: {guides}. This move asks the bow.")
        }
        (Some(why @ Against::Slap), _) => format!(
            "The rear of the shaft slaps the {pad}. {} That is against the guides ({guides}). A computation; nobody has measured it.",
            against(why, kind)
        ),
        (Some(why), _) => format!(
            "The guides for fingers say the other way ({guides}). {}",
            against(why, kind)
        ),
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
