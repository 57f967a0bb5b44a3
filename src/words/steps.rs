//! The steps after a refusal in a few words, in their order.

use crate::checks::next_steps::{NextSteps, REMEDIES};
use crate::question::{Answer, Contact, Refusal, Test};

/// `Next, in this order: ...`: the steps that the guided path walks.
pub(crate) fn in_order(next: &NextSteps) -> String {
    let named = next.steps.iter().map(|test| step(*test, next.refusal));
    let mut all: Vec<String> = named.collect();
    if let Some(found) = next.found {
        // What was found is cleared before the test is done again.
        all = vec![cure(found).into(), "then the powder test again".into()];
    }
    all.extend(end(next.refusal).map(Into::into));
    format!("Next, in this order: {}.", all.join("; "))
}

/// What clears a contact that the powder test found.
pub(crate) const fn cure(found: Contact) -> &'static str {
    match found {
        Contact::Cable => {
            "turn the nock a little and set all alike, move the guard within its maker's limits, lower vanes"
        }
        Contact::Rest => {
            "turn the nock a little and set all alike, drop-away timing, blade, lower vanes"
        }
        _ => "find what it touches (riser, shelf, clothing) and clear it",
    }
}

/// What is left when every step was harmless.
const fn end(refusal: Refusal) -> Option<&'static str> {
    match refusal {
        Refusal::Scatter => Some("another day"),
        Refusal::Jumps => Some("then shoot three more before any move"),
        Refusal::NoResponse | Refusal::TravelLimit => {
            Some("the bow's maker or a second technician")
        }
        Refusal::HugeTear => Some("an arrow of another stiffness"),
        Refusal::NoAdjuster => Some("other shafts, or a rest that can be moved"),
        _ => None,
    }
}

/// One step in a few words.
fn step(test: Test, refusal: Refusal) -> String {
    match test {
        Test::SpineRemedy => remedies(refusal),
        other => brief(other).into(),
    }
}

/// What makes the arrow act the other way, cheap and reversible first.
fn remedies(refusal: Refusal) -> String {
    let weak = refusal != Refusal::SpineStiff;
    let named = REMEDIES.into_iter().filter_map(|r| remedy(r, weak));
    let all = named.collect::<Vec<_>>().join("; ");
    if weak {
        all
    } else {
        format!("{all}. Cutting makes it worse")
    }
}

const fn remedy(remedy: Answer, weak: bool) -> Option<&'static str> {
    Some(match (remedy, weak) {
        (Answer::Plunger, true) => "with fingers a firmer plunger",
        (Answer::Plunger, false) => "a softer plunger",
        (Answer::Point, true) => "a lighter trial point (never under the safety floor)",
        (Answer::Point, false) => "a heavier trial point",
        // Nothing here knows the maker's limits, so nothing here turns bolts in.
        (Answer::Weight, true) => {
            "less draw weight where the bow maker's bolt limits on the card allow it"
        }
        (Answer::Shafts, _) => "other shafts",
        (Answer::Cut, true) => {
            "cutting last (cannot be undone), and only where rest contact and full draw were measured"
        }
        _ => return None,
    })
}

/// A test or question in a few words.
pub(crate) const fn brief(test: Test) -> &'static str {
    match test {
        Test::Contact => "powder test for contact",
        Test::Hand => "the bow hand",
        Test::Arrow => "two other arrows of the set",
        Test::Levels => "levels",
        Test::PutBack => "put the rest back to the start",
        Test::RestMoves => "see that the rest follows its screw and stays",
        Test::Torque => "grip and hand torque",
        Test::Timing => "cam timing",
        Test::WallHold => "the hold at the wall",
        Test::Lean => "cam lean",
        Test::OtherArrow => "another arrow",
        Test::LimbsTrue => "string and limbs in line",
        Test::RestTiming => "drop-away timing",
        Test::Loose => "check nocks, bolts and every moving part",
        Test::OneSide => "set the rest from one side and lock it",
        Test::OneArrow => "one marked arrow, three times",
        Test::RightArrow => "is it the right arrow",
        Test::DrawLength => "draw length",
        Test::DrawWeight => "draw weight on a scale",
        Test::NockingPoint => "nocking point and nock fit",
        Test::CardComplete => "what the bow has instead",
        Test::OtherPoint => "another point",
        Test::WeightsRight => "weigh bow and arrow",
        Test::WeighBow => "weigh the bow",
        Test::LimitRight => "the maker's figures against the card",
        Test::LengthsRight => "lengths against the card",
        Test::BadShots => "call bad shots before looking",
        Test::Tired => "rest the archer",
        Test::SecondShooter => "a second shooter",
        Test::ArrowAsCard => "measure one arrow against the card",
        Test::MakerChart => "the arrow maker's chart",
        Test::SpineRemedy => "what makes the arrow suit the bow",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::next_steps::after;
    use crate::gear::{AdjusterKind, Step};
    use crate::session::Event;
    use crate::setup::tests::{COMPOUND, RECURVE, timeline};

    fn said(card: &str, refusal: Refusal) -> String {
        in_order(&after(&timeline(card, vec![]), refusal).unwrap())
    }

    #[test]
    fn cutting_is_last_for_a_weak_arrow_and_never_advised_for_a_stiff_one() {
        let weak = said(COMPOUND, Refusal::SpineWeak);
        assert!(weak.find("other shafts").unwrap() < weak.find("cutting last").unwrap());
        let stiff = said(RECURVE, Refusal::SpineStiff);
        assert!(stiff.ends_with("Cutting makes it worse."), "{stiff}");
        assert!(!stiff.contains("draw weight"));
        assert!(weak.contains("where the bow maker's bolt limits on the card allow it"));
        for stop in Refusal::ALL.into_iter().filter(|r| r.stops()) {
            assert_eq!(after(&timeline(COMPOUND, vec![]), stop), None, "{stop:?}");
        }
    }

    #[test]
    fn what_the_bow_answers_itself_is_not_named() {
        let moved = Event::Move {
            steps: vec![Step {
                adjuster: AdjusterKind::RestSideways,
                amount: -6.0,
            }],
            said: None,
            confirms: None,
        };
        let far = after(&timeline(COMPOUND, vec![moved]), Refusal::NoResponse);
        let far = in_order(&far.unwrap());
        assert_eq!(
            far,
            "Next, in this order: put the rest back to the start; see that the rest follows its screw and stays; powder test for contact; grip and hand torque; cam timing; cam lean; string and limbs in line; another arrow; the bow's maker or a second technician."
        );
        let here = said(COMPOUND, Refusal::NoResponse);
        assert!(!here.contains("back to the start"), "{here}");
        let recurve = said(RECURVE, Refusal::NoResponse);
        assert!(!recurve.contains("cam"), "{recurve}");
    }

    #[test]
    fn a_contact_that_was_found_is_cleared_before_it_is_tested_again() {
        let found = |word: &str| {
            let answer = Event::answer("contact", word);
            in_order(&after(&timeline(COMPOUND, vec![answer]), Refusal::Contact).unwrap())
        };
        assert!(found("cable").contains("move the guard"));
        assert!(found("rest").contains("drop-away timing"));
        for word in ["cable", "rest", "other"] {
            assert!(found(word).ends_with("; then the powder test again."));
        }
    }
}
