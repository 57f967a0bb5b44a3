//! The range, before anything is drawn.

use super::item::{Item, Measure, Part, Rule, Standing};
use crate::gear::Card;
use crate::units::trim_number;

/// Room wanted behind the sheet beyond the arrow's length, mm: half a metre
/// (an arrow length and one or two feet; the figure is derived, the rule is printed).
pub const BEYOND_ARROW_MM: f64 = 500.0;

/// Least depth from the sheet to the face of the backstop, mm: the whole
/// arrow has to be through the paper before its point is stopped.
pub fn least_backstop_mm(card: &Card) -> f64 {
    card.arrow.shaft_length.mm() + BEYOND_ARROW_MM
}

pub(super) fn items(card: &Card) -> Vec<Item> {
    let depth = least_backstop_mm(card);
    vec![
        Item::new("range-backstop", Part::Range, "Backstop behind the sheet")
            .how("Tape from the sheet to the face of the backstop, along the arrow's line.")
            .start(
                format!(
                    "at least {} m: the arrow's length and half a metre more",
                    trim_number(depth / 1000.0, 2)
                ),
                Standing::Source(
                    "a hunting magazine's tuning course; the figure is worked out here",
                ),
            )
            .measured(Measure::Length, Rule::AtLeast(depth))
            .if_off("The point is stopped while the tail is still in the paper: the hole lies. Move the frame or the backstop.")
            .gate(),
        Item::new("range-size", Part::Range, "Backstop large enough for a miss")
            .how("Stand where the archer stands. Picture the worst arrow of the day, high and wide: it must end in something soft or a bank.")
            .start(
                "wider and higher than the sheet by half a metre each way, whole and rated for this bow",
                Standing::CommonPractice,
            )
            .if_off("Do not shoot. Plan on missing: layouts are in AMO FP-4.")
            .gate(),
        Item::new("range-clear", Part::Range, "Nobody beside or past the frame")
            .how("Doors to the lane shut, pets in, everyone behind the archer; one person calls the shooting.")
            .start(
                "nobody level with the bow or beyond it until the arrow has stopped",
                Standing::Source("AMO FP-4, range guidelines"),
            )
            .if_off("Do not shoot.")
            .gate(),
        Item::new("range-eyes", Part::Range, "Eye protection and arm guard")
            .how("Archer and whoever stands near wear safety glasses; the archer an arm guard.")
            .start("worn", Standing::CommonPractice)
            .if_off("Fetch them: a carbon shaft that fails throws splinters.")
            .gate(),
        Item::new("range-law", Part::Range, "Allowed here")
            .how("Local ordinance, club or home insurance, age rules; a minor is supervised and the bow suits them.")
            .start("allowed, insured, supervised", Standing::Source("hunter-education study guide; trade-association advice on home ranges"))
            .if_off("Shoot somewhere it is allowed.")
            .gate(),
        Item::new("range-paper", Part::Range, "Paper frame")
            .how("Tape from the rest at full draw to the sheet. The sheet is thin, held on all edges, its centre at arrow height, square to the arrow.")
            .start(
                format!(
                    "{} m as on the card; guides print 1.5 to 2.7 m",
                    trim_number(card.paper.distance.m(), 2)
                ),
                Standing::Disputed("5 ft, 6 ft, 6 to 8 ft, 2 to 3 yd"),
            )
            .measured(
                Measure::Length,
                Rule::Near {
                    target: card.paper.distance.mm(),
                    tolerance: 0.05 * card.paper.distance.mm(),
                },
            )
            .if_off("Move the frame, or put the true distance on the card: tears change with distance."),
    ]
}
