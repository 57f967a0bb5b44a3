//! Offers at the very limits.

use super::offers;
use super::tests::{card, find, taken, try_card};
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

/// 315 gr carry 43.8 lb at a maker's 7.2 gr/lb, and 63 lb at 5: more weight is
/// offered no further than that.
#[test]
fn more_weight_stops_where_the_arrow_gets_too_light() {
    let most = |minimum: &str| {
        let changes = [
            ("bow.peak_weight", "43.4 lb"),
            ("bow.draw_length", "24 in"),
            ("bow.maker_max_weight", "60.4 lb"),
            ("bow.maker_max_turns", "6 turns"),
            ("bow.maker_min_arrow", minimum),
            ("arrow.shaft_length", "30.65 in"),
            ("arrow.spine", "0.200"),
            ("arrow.shaft_mass", "5 gr/in"),
            ("arrow.point_mass", "152 gr"),
            ("arrow.nock_mass", "10 gr"),
            ("arrow.vane_mass", "0 gr"),
        ];
        let card = try_card(COMPOUND, &changes).unwrap();
        let offer = offers(&card)
            .into_iter()
            .find(|o| o.id == crate::question::Answer::Weight);
        offer.map(|o| taken(COMPOUND, &changes, &o, &[]).bow.peak_weight.pounds())
    };
    assert!(most("7.2 gr/lb").is_none_or(|lb| lb <= 43.8));
    assert!(most("").is_some_and(|lb| lb > 50.0 && lb <= 60.4));
}
