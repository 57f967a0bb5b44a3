//! Offers at the very limits.

use super::tests::{card, find, taken, try_card};
use super::{cut_wants_a_mark, offers};
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

/// Sizes are rounded to half pounds, never past the maker's least weight,
/// wherever it lies about the weight that is wanted.
#[test]
fn no_weight_is_offered_under_the_makers_least() {
    let mut offered = 0;
    for tenths in 0..110 {
        let least = 48.0 + 0.1 * f64::from(tenths);
        let least_text = format!("{least:.1} lb");
        let changes = [
            ("arrow.spine", "0.470"),
            ("bow.maker_min_weight", least_text.as_str()),
            ("bow.maker_max_turns", "6 turns"),
        ];
        if let Some(offer) = find(&card(COMPOUND, &changes), "weight") {
            let after = taken(COMPOUND, &changes, &offer, &[]);
            let lb = after.bow.peak_weight.pounds();
            assert!(lb >= least - 1e-6 && lb < 59.9, "{least}: {lb}");
            offered += 1;
        }
    }
    assert!(offered >= 50, "{offered}");
}

/// Under the floor already a stiff arrow may still have a heavier point: it
/// only adds. A trial point leaves the own one as it is, so a lighter trial
/// point has all the room that its own mass leaves: 477.5 gr less 21 gr of
/// vanes, 56 gr over a maker's 400 gr.
#[test]
fn a_heavier_point_needs_no_room_and_a_trial_point_counts_by_itself() {
    let point = |changes: &[(&str, &str)]| {
        let offer = find(&card(COMPOUND, changes), "point")?;
        Some(
            taken(COMPOUND, changes, &offer, &[])
                .arrow
                .next_point()
                .grains(),
        )
    };
    let stiff = [("arrow.spine", "0.250"), ("bow.maker_min_arrow", "600 gr")];
    assert!(point(&stiff).is_some_and(|gr| gr > 125.5));
    let trial = [
        ("arrow.spine", "0.400"),
        ("arrow.trial_point", "200 gr"),
        ("bow.maker_min_arrow", "400 gr"),
    ];
    let lighter = point(&trial).expect("room for a lighter trial point");
    assert!((143.0..199.0).contains(&lighter), "{lighter}");
}

#[test]
fn only_a_weak_arrow_that_may_be_shot_waits_for_the_mark_to_be_cut() {
    let wants = |changes: &[(&str, &str)]| cut_wants_a_mark(&card(COMPOUND, changes));
    assert!(wants(&[("arrow.spine", "0.500")]));
    let mark = ("rest.full_draw_mark", "27 1/4 in");
    assert!(!wants(&[("arrow.spine", "0.500"), mark]));
    assert!(!wants(&[("arrow.spine", "0.250")]));
    assert!(!wants(&[("arrow.spine", "0.800")]));
}

/// With 2 gr of room over its maker's least and points in steps of 5 gr there
/// is no lighter point: what rounding leaves of one is no change, however its
/// last digit falls.
#[test]
fn a_point_that_rounds_to_the_one_at_hand_is_no_offer() {
    for step in 16..50 {
        let point = 5 * step;
        // 29 in at 8.5 gr/in, a 10 gr nock; the vanes may come off.
        let floor = format!("{} gr", f64::from(point) + 29.0 * 8.5 + 10.0 - 2.0);
        let point = format!("{point} gr");
        let changes = [
            ("arrow.spine", "0.470"),
            ("arrow.point_mass", point.as_str()),
            ("bow.maker_min_arrow", floor.as_str()),
        ];
        let card = card(COMPOUND, &changes);
        if super::of_card(&card).load_ratio > 1.1 {
            assert_eq!(find(&card, "point"), None, "{point} over {floor}");
        }
    }
}
