//! Offers at the very limits.

use super::tests::{card, find};
use crate::setup::tests::COMPOUND;

/// Without its vanes the arrow weighs 371 gr, its point 126.1 gr; at a
/// floor of 350 gr 20 gr of the point may go, to 105 gr, and no more. Under
/// the floor draw weight may still come off.
#[test]
fn a_lighter_point_goes_to_the_very_floor_and_less_weight_under_it() {
    let at = |floor: &'static str| {
        card(
            COMPOUND,
            &[
                ("bow.peak_weight", "66 lb"),
                ("arrow.spine", "0.5"),
                ("arrow.shaft_mass", "8.1 gr/in"),
                ("arrow.point_mass", "126.1 gr"),
                ("arrow.shaft_length", "29 in"),
                ("bow.maker_min_weight", "60 lb"),
                ("bow.maker_max_turns", "6 turns"),
                ("bow.maker_min_arrow", floor),
            ],
        )
    };
    let point = |floor| find(&at(floor), "point").map(|o| o.card.unwrap().1);
    assert_eq!(point("349.9 gr").as_deref(), Some("105 gr"));
    assert_eq!(point("350 gr").as_deref(), Some("110 gr"));
    assert_eq!(point("372 gr"), None);
    assert!(find(&at("400 gr"), "weight").is_some());
}
