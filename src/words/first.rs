//! Why a test move goes its way, and what each test asks for.

use super::{count, percent, powder};
use crate::advice::{
    Against, Ask, ByGuides, ByHeight, FirstMove, Ground, GuideWay, Pad, ProbeKind,
};
use crate::belief::Powder;
use crate::gear::AdjusterKind;
use crate::question::Answer;
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

/// The powder test of any bow.
fn powder_test(system: System) -> String {
    format!(
        "{} Shoot once, and look for wiped paths. Common practice, not measured.",
        powder("the rest, the riser and the cables", system)
    )
}

/// What a test asks to be done, without what its answers mean.
pub fn to_do(ask: &Ask, system: System) -> String {
    match ask {
        Ask::Powder | Ask::PowderBeforeBoth => powder_test(system),
        Ask::PowderFirst(what) => format!(
            "{} Shoot twice; both shots must show the same.",
            powder(&format!("the {} and the rest", pad(*what)), system)
        ),
        Ask::ClearSlap => {
            let outside = match system {
                System::Mm => "1.6 to 3.2 mm",
                System::Inch => "1/16 to 1/8 in",
            };
            format!(
                "Try in this order: turn the nock a little; bend or lower the rest arm; put centre shot to its starting figure, {outside} outside the string (set-up, no tuning move); then a stiffer arrow if there is one. Powder again, two shots alike."
            )
        }
        Ask::Hand => {
            "Was the bow hand open and relaxed in these shots, face and string loop free?".into()
        }
        Ask::OpenHand => "Hand open and relaxed, nothing gripped, face off the string, loop untwisted. Shoot at this setting and enter the tears. If the tear changes, it is not the rest.".into(),
        Ask::OtherArrows(_, _, in_ten) => format!(
            "Shoot two other arrows of the set here, once each. Enter them with their numbers (... #2). Tells the two apart about {in_ten} times in 10 on virtual bows."
        ),
    }
}

/// What an answer to a test means, in a few words.
pub(crate) fn answer_means(ask: &Ask, answer: Answer, system: System) -> String {
    let words = match (ask, answer) {
        (Ask::Powder | Ask::PowderBeforeBoth, Answer::None) => "only the rest's own track, go on",
        (Ask::PowderBeforeBoth, Answer::NotLooked) => "one axis at a time",
        (Ask::Powder | Ask::PowderBeforeBoth, _) => {
            "a wiped path there: turn the nock a little or clear the contact, then test again"
        }
        (Ask::PowderFirst(_), Answer::None) => "no mark there",
        (Ask::PowderFirst(what), Answer::Button) => {
            return format!("the rear of the shaft wiped the {}", pad(*what));
        }
        (Ask::PowderFirst(_), Answer::NotLooked) => "nobody looked",
        (Ask::ClearSlap, Answer::None) => "cleared, the likely tear is forgotten",
        (Ask::ClearSlap, Answer::Button | Answer::NotLooked) => {
            "it may stay: tuning goes on with a test move"
        }
        (Ask::PowderFirst(_) | Ask::ClearSlap, _) => "vanes or shaft wiped that: clear it first",
        (Ask::Hand, Answer::Relaxed) => "go on, no shot is needed",
        (Ask::Hand, Answer::Not) => "shoot two with a relaxed hand",
        (Ask::Hand, _) => "nobody watched",
        (Ask::OtherArrows(mark, limit, _), Answer::Same) => {
            return format!(
                "both within about {} of arrow {}: it is not the arrow, leave the rest alone",
                system.tear(*limit),
                clean(mark)
            );
        }
        (Ask::OtherArrows(mark, ..), _) => {
            return format!(
                "they agree with each other and not with it: arrow {} is set aside, and the others start over",
                clean(mark)
            );
        }
        (Ask::OpenHand, _) => "",
    };
    words.to_owned()
}

/// What a test asks for, and what each outcome means, as one text.
pub fn ask(ask: &Ask, answers: &[Answer], system: System) -> String {
    let mut text = to_do(ask, system);
    let mut told: Vec<(Vec<&str>, String)> = Vec::new();
    for answer in answers {
        let means = answer_means(ask, *answer, system);
        match told.last_mut().filter(|(_, last)| *last == means) {
            Some((ids, _)) => ids.push(answer.id()),
            None => told.push((vec![answer.id()], means)),
        }
    }
    for (ids, means) in told.iter().filter(|(_, means)| !means.is_empty()) {
        text.push_str(&format!(" {}: {means}.", ids.join(" or ")));
    }
    text
}

/// What a test is called.
pub(crate) const fn test_title(kind: ProbeKind) -> &'static str {
    match kind {
        ProbeKind::Contact => "Powder test",
        ProbeKind::Hand => "The bow hand",
        ProbeKind::Arrow => "Other arrows",
        ProbeKind::Distance => "Another distance",
        ProbeKind::BareShaft => "Bare shaft",
    }
}
