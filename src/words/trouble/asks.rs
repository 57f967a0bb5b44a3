//! What each step asks. A test that stands on the list before paper is
//! described there.

use super::super::brief;
use super::super::setup::{title, told};
use super::parts::part_in_full;
use crate::gear::{AdjusterKind, Card, Release};
use crate::question::{Refusal, Test};
use crate::trouble::Asked;

pub(super) fn asks(asked: &Asked, reason: Refusal, card: &Card) -> String {
    match asked {
        Asked::Test(test) => own(*test, card).into(),
        Asked::OnTheList(test, item) => format!(
            "{}: {} {}",
            title(*item),
            told(*item, card, card.paper.system).how,
            on_the_list(*test, reason)
        ),
        Asked::CardComplete { has, brace } => card_complete(has, *brace),
        Asked::Offers {
            weak,
            stopped,
            wants_mark,
        } => offers(*weak, *stopped, *wants_mark),
        Asked::Part(part) => part_in_full(*part, card.bow.kind),
    }
}

/// What is asked of a test that is described on the list before paper.
const fn on_the_list(test: Test, reason: Refusal) -> &'static str {
    match test {
        Test::Contact => "What was wiped?",
        Test::Timing => "Both within 1/16 in?",
        Test::Lean => "Upright? And the cable guard's load as its maker has it?",
        Test::RestTiming => "Is it so?",
        Test::DrawLength => "As on the card, within 1/4 in?",
        // Labels can be out by 7 lb.
        Test::DrawWeight => "Labels can be out by 7 lb. As on the card, within 2 lb?",
        Test::WeighBow if matches!(reason, Refusal::WeighFirst) => {
            "Labels can be out by 7 lb. What does it read?"
        }
        Test::WeighBow => "Labels can be out by 7 lb. Do this before believing the spine check.",
        Test::NockingPoint => {
            "In its starting band, and does the nock let go of the string at a tap?"
        }
        _ => "",
    }
}

/// A test with its own words.
const fn own(test: Test, card: &Card) -> &'static str {
    match test {
        Test::PutBack => {
            "Put everything back to the start: a rest that went far makes up for something else."
        }
        Test::RestMoves => {
            "Does the rest itself move when its screw is turned, and stay where it was set? Calipers riser to shaft before and after, lock screw tight, then push it by hand; look at the witness marks."
        }
        Test::Torque => match card.bow.release {
            Release::Aid => {
                "Shoot 3 with extra care: relaxed open bow hand, no twist in the loop, no face pressure on the string."
            }
            Release::Fingers => {
                "Shoot 3 with extra care: relaxed open bow hand, string hand straight behind, tab clean off."
            }
        },
        Test::WallHold => {
            "Shoot 2 held at the wall as always and 2 pulled hard into it, same aim. Does the tail go high or low with it?"
        }
        Test::OtherArrow => {
            "Shoot 3 with another arrow known to suit this bow, or one a shaft group stiffer or weaker."
        }
        Test::LimbsTrue => {
            "Sight along the string from behind: does it split both limbs and the riser? Limbs untwisted, seated, tiller as it should be?"
        }
        Test::Loose => {
            "Try by hand: limb bolts, rest and its screws, sight, stabiliser, loop and nocking point, nocks in the shafts, inserts, points."
        }
        Test::OneSide => {
            "Was each setting approached from the same side, with the backlash taken up, and the lock screw tightened after?"
        }
        Test::OneArrow => {
            "Shoot one marked arrow 3 times, at the same setting, and record it with its number."
        }
        Test::BadShots => {
            "Were any of these shots bad ones, felt before looking at the hole (grip, release, a punch)? Judge the shot before walking to the paper."
        }
        Test::Tired => {
            "Is the archer tired, cold or rushed? Put the bow down for ten minutes, then shoot 3."
        }
        Test::SecondShooter => {
            "Let the technician (same hand, about the same draw) or a machine shoot 3, recorded as theirs. Tune for the owner's hand, not theirs."
        }
        Test::RightArrow => {
            "Is this the arrow that is on the card: shaft, length, point, nock seated?"
        }
        Test::OtherPoint => {
            "What such a bow has instead is the arrow: shoot 3 with a point 25 gr lighter or heavier, above the safety floor."
        }
        Test::WeightsRight => "Weigh the bow and one finished arrow: are both as on the card?",
        Test::LengthsRight => {
            "Shaft length (nock throat to shaft end), draw length, and where the rest stands: as on the card?"
        }
        Test::LimitRight => {
            "Turns out from fully seated, and the maker's greatest turns and weight: as on the card and the list?"
        }
        Test::ArrowAsCard => {
            "One arrow against the card: nock throat to shaft end, point with insert on a scale, the spine printed on the shaft (and whether its maker means 28 in and 1.94 lb)."
        }
        Test::MakerChart => {
            "Look up the arrow maker's chart for this draw weight, shaft length and point: does it give this shaft?"
        }
        other => brief(other),
    }
}

fn card_complete(has: &[AdjusterKind], brace: bool) -> String {
    let such_as = if brace {
        "rest, nocking point, plunger, brace height"
    } else {
        "rest, nocking point, plunger"
    };
    let has: Vec<String> = has.iter().map(|kind| kind.spoken()).collect();
    let has = if has.is_empty() {
        "nothing".into()
    } else {
        has.join(", ")
    };
    format!(
        "The card says this bow has: {has}. Is there anything else that can be moved and measured ({such_as})?"
    )
}

fn offers(weak: bool, stopped: bool, wants_mark: bool) -> String {
    if stopped {
        return "These fix it without a test shot. Which was done?".into();
    }
    let side = if weak { "stiffer" } else { "weaker" };
    let mark = if wants_mark {
        " Cutting is left out: the card holds no full draw mark to cut by."
    } else {
        ""
    };
    format!("What makes the arrow act {side}, cheap and reversible first. Which was done?{mark}")
}
