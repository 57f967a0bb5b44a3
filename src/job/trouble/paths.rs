//! What is left of each path when every step was harmless.

use super::node::Then;
use crate::checks::{safety, spine};
use crate::gear::{AdjusterKind, Card};
use crate::question::Refusal;
use crate::session::Timeline;

/// The end of the path after a refusal.
pub(super) fn end(timeline: &Timeline, refusal: Refusal) -> Then {
    let card = &timeline.card;
    match refusal {
        // Its last part ends it.
        Refusal::Incident => Then::Next,
        Refusal::Jumps => Then::Resume(
            "nothing found. Shoot 3 here without moving anything; if they agree, go on".into(),
        ),
        Refusal::Contact => Then::Resume("the powder test is clean".into()),
        Refusal::SpineWeak | Refusal::SpineStiff | Refusal::FarTooWeak => {
            Then::Fix(no_such_arrow(card).into())
        }
        Refusal::Scatter => Then::Fix(super::scatter::end()),
        Refusal::NoResponse => Then::Fix(
            "nothing on the bench explains it. Ask the bow's maker or a second technician".into(),
        ),
        Refusal::TravelLimit => Then::Fix("the rest cannot reach and nothing on the bench explains it. If the card's travel is less than the rest really has, correct the travel on the card; otherwise ask the bow's maker".into()),
        Refusal::HugeTear => Then::Fix("basics look right and the tear is still huge: try an arrow of another stiffness, and let a second person shoot the bow".into()),
        Refusal::NoAdjuster => Then::Fix(nothing_to_move(card).into()),
        Refusal::TooLight => Then::Fix(too_light(card)),
        Refusal::TooShort => Then::Fix("longer arrows: the shaft must reach at least half an inch past the rest at full draw, or it can fall behind the rest and into the hand. This cannot be waived".into()),
        Refusal::WeighFirst => Then::Fix("turn the limb bolts back to where the bow was weighed and record that, then weigh it. This cannot be waived".into()),
        Refusal::PastLimit => Then::Fix(format!(
            "{}. Draw nothing before they are back inside the limit, and record the move. This cannot be waived",
            crate::words::bolts_caution(card)
        )),
    }
}

fn no_such_arrow(card: &Card) -> &'static str {
    if spine::stops(card) {
        "stiffer shafts, or another bow. These arrows are not shot on this bow, not even as a test, and the owner is told so. This cannot be waived"
    } else if card.arrow.only_these {
        "with only these arrows: your own moves can be recorded; three good shots in a row within tolerance by the owner lift this, as long as later shots bear it out; or close as best with these arrows, not matched"
    } else {
        "other shafts. Until then no rest move is advised; your own can be recorded"
    }
}

fn nothing_to_move(card: &Card) -> &'static str {
    let strings = !card.needs_press(AdjusterKind::BraceHeight);
    if strings && card.adjuster(AdjusterKind::BraceHeight).is_some() {
        "brace height in half twists of the string, within its maker's band; or a rest that can be moved"
    } else {
        "other shafts, or a rest that can be moved. Or close as best with these arrows"
    }
}

fn too_light(card: &Card) -> String {
    let weight = card.bow.peak_weight.pounds();
    let maker = card.bow.maker_min_arrow;
    format!(
        "heavier point or shaft, or less draw weight: at least {:.0} gr for {weight:.0} lb, with the point that is shot, or the bow maker's own figure. This cannot be waived",
        (safety::LEAST_GPP * weight).max(maker.map_or(0.0, crate::units::Mass::grains))
    )
}

#[cfg(test)]
mod tests {
    use super::super::Ask;
    use super::super::walk::{next_step, path};
    use super::*;
    use crate::checks::next_steps::{after, is_done, steps};
    use crate::gear::Step;
    use crate::question::{Question, Test};
    use crate::session::Event;
    use crate::setup::tests::{COMPOUND, RECURVE, timeline};
    use crate::words;

    /// A compound with a blade and fingers, a longbow off the shelf, a bow
    /// whose weight was read off a scale.
    fn bows() -> Vec<String> {
        let longbow = RECURVE
            .replace("\"recurve\"", "\"longbow\"")
            .replace("\"plunger\"", "\"shelf\"")
            .replace("brace_height=\"8 3/4 in\"", "brace_height=\"7 in\"");
        let blade = COMPOUND.replace("\"drop-away\"", "\"blade\"");
        let weighed = COMPOUND.replace("[rest]", "weighed=true\n[rest]");
        vec![COMPOUND.into(), RECURVE.into(), longbow, blade, weighed]
    }

    fn moved() -> Event {
        Event::Move {
            steps: vec![Step {
                adjuster: AdjusterKind::RestSideways,
                amount: -3.0,
            }],
            said: None,
            confirms: None,
        }
    }

    /// What the advice names is what the path asks, in the same order.
    #[test]
    fn the_path_walks_the_steps_that_the_advice_names_for_every_refusal_and_bow() {
        let mut walked = 0;
        for card in bows() {
            for events in [vec![], vec![moved()]] {
                let t = timeline(&card, events.clone());
                for refusal in Refusal::ALL.into_iter().filter(|r| *r != Refusal::Incident) {
                    let listed = steps(&t, refusal);
                    let asked: Vec<Question> =
                        path(&t, refusal).nodes.iter().map(|n| n.id).collect();
                    let listed: Vec<Question> = listed.into_iter().map(Into::into).collect();
                    assert_eq!(asked, listed, "{refusal:?}");
                    let first = steps(&t, refusal).into_iter().find(|s| !is_done(&t, *s));
                    let next = next_step(&t, refusal).unwrap();
                    match first {
                        Some(test) => assert_eq!(next.id, test.into(), "{refusal:?}"),
                        None => assert!(matches!(next.ask, Ask::Resume | Ask::FixFirst)),
                    }
                    named_in_order(&t, refusal);
                    walked += 1;
                }
            }
        }
        assert_eq!(walked, 5 * 2 * 14);
    }

    /// The sentence names each step of the path, one after another.
    fn named_in_order(t: &Timeline, refusal: Refusal) {
        let Some(next) = after(t, refusal) else {
            assert!(refusal.stops());
            return;
        };
        let text = words::in_order(&next);
        let mut at = 0;
        let plain = |test: &&Test| **test != Test::SpineRemedy && refusal != Refusal::Contact;
        for test in next.steps.iter().filter(plain) {
            let place = text[at..].find(words::brief(*test));
            at += place.unwrap_or_else(|| panic!("{test} is missing or out of order: {text}"));
        }
    }
}
