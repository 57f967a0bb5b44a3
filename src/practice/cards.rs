//! Invented customers and their bows. Plausible and safe: no build comes
//! under the safety floor, bare shafts included.

use super::fault::{Fault, Plan};
use crate::checks::spine::{arrow_spec, spine_bow};
use crate::gear::{Card, CardText};
use crate::physics::rng::Rng;
use crate::physics::spine_match;

/// Bare arrow mass wanted for each pound, grains: with room over the floor.
const AID_GPP: f64 = 6.0;
const FINGERS_GPP: f64 = 8.8;
/// How far a label is out: seven pounds in sixty (trade notes).
pub(super) const LABEL_OUT: f64 = 7.0 / 60.0;

const OWNERS: [&str; 10] = [
    "Ann", "Joe", "Mira", "Tom", "Edda", "Sam", "Ruth", "Lars", "Ines", "Paul",
];
const COMPOUNDS: [&str; 6] = [
    "green hunting bow",
    "black target bow",
    "short hunting bow",
    "second-hand bow",
    "blue 3D bow",
    "grey field bow",
];
const RECURVES: [&str; 4] = [
    "club recurve",
    "white target recurve",
    "wooden recurve",
    "red field recurve",
];
/// Said of any bow, whatever is wrong with it.
const REASONS: [&str; 6] = [
    "new string and cables",
    "tears since last week",
    "bought second-hand",
    "groups opened up at distance",
    "new arrows",
    "wants it ready for the season",
];

fn pick<'a>(from: &[&'a str], rng: &mut Rng) -> &'a str {
    from[rng.below(from.len())]
}

/// A number on a grid of `step` between two ends.
fn on_grid(low: f64, high: f64, step: f64, rng: &mut Rng) -> f64 {
    let count = ((high - low) / step).round() as usize + 1;
    low + step * rng.below(count) as f64
}

/// How the arrow's load is to compare with what suits the bow, by its label.
fn wanted_ratio(plan: &Plan, rng: &mut Rng) -> f64 {
    if plan.has(Fault::Weak) {
        rng.between(1.32, 1.45)
    } else if plan.has(Fault::Stiff) {
        rng.between(0.6, 0.7)
    } else if plan.has(Fault::Label) {
        // Truly inside the band, by the label past it.
        1.13 * (1.0 + LABEL_OUT) * rng.between(1.0, 1.004)
    } else {
        rng.between(0.93, 1.06)
    }
}

/// The card of one bow, and its plain reading.
pub(super) fn draw(plan: &Plan, rng: &mut Rng) -> (CardText, Card) {
    let owner = pick(&OWNERS, rng);
    let (kind, rest, names, gpp): (_, _, &[&str], _) = if plan.fingers {
        ("recurve", "plunger", &RECURVES, FINGERS_GPP)
    } else {
        let rest = pick(&["drop-away", "drop-away", "blade"], rng);
        ("compound", rest, &COMPOUNDS, AID_GPP)
    };
    let weight = if plan.has(Fault::Label) {
        on_grid(56.0, 62.0, 1.0, rng)
    } else if plan.fingers {
        on_grid(30.0, 40.0, 1.0, rng)
    } else {
        on_grid(48.0, 64.0, 1.0, rng)
    };
    let draw = on_grid(27.5, 29.5, 0.5, rng);
    let brace = if plan.fingers {
        on_grid(8.25, 9.0, 0.25, rng)
    } else {
        on_grid(6.25, 7.5, 0.25, rng)
    };
    let (release, tolerance) = if plan.fingers {
        ("fingers", 12)
    } else {
        ("aid", 6)
    };
    let let_off = if plan.fingers {
        String::new()
    } else {
        format!("let_off = \"{:.0} %\"\n", on_grid(70.0, 85.0, 5.0, rng))
    };
    let point = on_grid(100.0, 125.0, 25.0, rng);
    let length = draw - 0.5;
    let shaft_mass = (((gpp * weight - point - 9.0) / length).max(6.5) * 10.0).ceil() / 10.0;
    let hand = if plan.left_handed { "left" } else { "right" };
    let (name, reason) = (pick(names, rng), pick(&REASONS, rng));
    let ratio = wanted_ratio(plan, rng);
    let source = format!(
        "format = 1\n\n[bow]\nkind = \"{kind}\"\nhand = \"{hand}\"\nrelease = \"{release}\"\n\
         peak_weight = \"{weight} lb\"\ndraw_length = \"{draw} in\"\nbrace_height = \"{brace} in\"\n\
         {let_off}name = \"{name}\"\n\n[rest]\nkind = \"{rest}\"\nclick = \"0.25 mm\"\n\
         travel = \"8 mm\"\n\n[arrow]\nshaft_length = \"{length} in\"\nspine = \"1.000\"\n\
         shaft_mass = \"{shaft_mass} gr/in\"\npoint_mass = \"{point} gr\"\nnock_mass = \"9 gr\"\n\
         vane_mass = \"21 gr\"\ndiameter = \"6.5 mm\"\ncount = \"6\"\n\n[paper]\n\
         distance = \"2 m\"\ntolerance = \"{tolerance} mm\"\n\n[job]\nowner = \"{owner}\"\n\
         reason = \"{reason}\"\n"
    );
    let mut text = CardText::from_toml(&source).expect("the card above is sound");
    let read = |text: &CardText| Card::read(text).expect("the card above is sound").0;
    // The load ratio is in proportion to the static spine, all else as it is.
    let card = read(&text);
    let at_one = spine_match(&arrow_spec(&card), &spine_bow(&card)).load_ratio;
    let spine = (ratio / at_one * 200.0).round() / 200.0;
    text.set("arrow.spine", &format!("{spine:.3}"))
        .expect("a spine on a card");
    let card = read(&text);
    (text, card)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::spine::of_card;
    use crate::physics::SpineGrade;
    use crate::practice::LEVELS;

    #[test]
    fn every_card_is_safe_and_as_matched_as_its_faults_say() {
        for level in LEVELS {
            for seed in 0..60 {
                let mut rng = Rng::new(seed);
                let plan = Plan::draw(level, &mut rng);
                let (text, card) = draw(&plan, &mut rng);
                let (_, warnings) = Card::read(&text).unwrap();
                assert!(warnings.is_empty(), "{warnings:?}");
                let gpp = card.arrow.next_mass(true).grains() / card.bow.peak_weight.pounds();
                assert!(
                    gpp >= if plan.fingers { 8.5 } else { 5.5 },
                    "{gpp} {plan:?}"
                );
                let grade = of_card(&card).grade;
                let wanted = match () {
                    () if plan.has(Fault::Weak) || plan.has(Fault::Label) => SpineGrade::WeakFail,
                    () if plan.has(Fault::Stiff) => SpineGrade::StiffFail,
                    () => SpineGrade::Matched,
                };
                assert_eq!(grade, wanted, "{plan:?}");
            }
        }
    }

    #[test]
    fn a_bow_whose_label_is_out_has_an_arrow_that_suits_it_once_weighed() {
        let plan = Plan {
            faults: vec![Fault::Label, Fault::OffCentre],
            fingers: false,
            left_handed: false,
            spread: 0.4,
        };
        for seed in 0..40 {
            let (mut text, card) = draw(&plan, &mut Rng::new(seed));
            let weighed = card.bow.peak_weight.pounds() / (1.0 + LABEL_OUT);
            text.set("bow.peak_weight", &format!("{weighed:.1} lb"))
                .unwrap();
            let (card, _) = Card::read(&text).unwrap();
            assert_eq!(of_card(&card).grade, SpineGrade::Matched);
        }
    }
}
