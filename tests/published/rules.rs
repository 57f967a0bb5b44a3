//! Rules of the trade that are published as numbers.

use approx::assert_relative_eq;
use tearbench::checks::safety;
use tearbench::gear::{Card, CardText, grains_per_pound};
use tearbench::units::{Force, Length, Mass, Spine};

/// ASTM F2031-05: span 28 in, 1.94 lb at mid-span; EI = F S^3 / 48 d for a
/// simply supported beam under a central load. Worked values of the closed form.
#[test]
fn static_spine_gives_bending_stiffness() {
    for (spine, ei) in [
        (0.200, 12.731),
        (0.300, 8.487),
        (0.340, 7.489),
        (0.400, 6.3654),
        (0.500, 5.092),
        (1.000, 2.546),
    ] {
        assert_relative_eq!(
            Spine::from_deflection(spine).stiffness(),
            ei,
            max_relative = 1e-3
        );
        assert_relative_eq!(
            tearbench::physics::spine::ei_from_spine(spine),
            ei,
            max_relative = 1e-3
        );
    }
}

/// The older test, 26 in and 2 lb (Rheingans in "Archery: the Technical Side",
/// 1947); wooden-arrow pounds are 26 over that deflection.
#[test]
fn the_older_spine_test_converts() {
    assert_relative_eq!(
        Spine::from_deflection(0.500).deflection_26(),
        0.4127,
        max_relative = 1e-3
    );
    assert_relative_eq!(
        Spine::parse("63.0 lb").unwrap().deflection(),
        0.500,
        max_relative = 1e-3
    );
    assert_relative_eq!(
        Spine::parse("45 lb").unwrap().deflection(),
        0.700,
        max_relative = 1e-3
    );
}

fn card(weight: &str, point: &str) -> Card {
    let source = include_str!("../scenarios/cards/compound.toml");
    let mut text = CardText::from_toml(source).unwrap();
    text.set("bow.peak_weight", weight).unwrap();
    text.set("arrow.point_mass", point).unwrap();
    Card::read(&text).unwrap().0
}

/// Five grains for each pound: bow makers' warranty terms (80 lb asks for
/// 400 gr, 60 lb for 300 gr) and a tournament rule (62 lb, 310 gr). ASTM
/// F1544-11 tests at the same mass: 70 lb, 350 gr (22.7 g).
#[test]
fn the_least_arrow_mass_is_five_grains_a_pound() {
    for (weight, least) in [
        ("60 lb", 300.0),
        ("62 lb", 310.0),
        ("70 lb", 350.0),
        ("80 lb", 400.0),
    ] {
        // The shaft weighs 246.5 gr and the nock 10 gr; the bare shaft counts too.
        let bare = 246.5 + 10.0;
        let enough = card(weight, &format!("{} gr", least - bare + 0.5));
        assert!(safety::card_dangers(&enough).is_empty(), "{weight}");
        let short = card(weight, &format!("{} gr", least - bare - 0.5));
        let danger = &safety::card_dangers(&short)[0];
        assert_eq!(danger.code, "arrow-too-light");
        assert_relative_eq!(danger.figure.unwrap().1, least, max_relative = 1e-9);
    }
    assert_relative_eq!(Mass::from_grains(350.0).grams(), 22.68, max_relative = 1e-3);
    assert_relative_eq!(
        grains_per_pound(Mass::from_grains(350.0), Force::from_pounds(70.0)),
        5.0
    );
}

/// ASTM F1880-09: the trade's draw length is pivot point plus 1 3/4 in, so a
/// 29 in draw holds the nock 27 1/4 in behind the pivot.
#[test]
fn draw_length_is_counted_from_the_pivot_plus_an_inch_and_three_quarters() {
    let card = card("60 lb", "125 gr");
    assert_relative_eq!(
        safety::reach_inches(&card),
        29.0 - 27.25,
        max_relative = 1e-9
    );
}

/// NIST SP 811: exact definitions.
#[test]
fn units_are_the_international_ones() {
    assert_relative_eq!(Length::parse("1 yd").unwrap().mm(), 914.4);
    assert_relative_eq!(Mass::parse("1 gr").unwrap().grams(), 0.064_798_91);
    assert_relative_eq!(
        Force::parse("1 lb").unwrap().newtons(),
        4.448_221_615_260_5,
        max_relative = 1e-12
    );
}
