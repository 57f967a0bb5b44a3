//! Rules of the trade that are published as numbers.

use approx::assert_relative_eq;
use tearbench::checks::safety;
use tearbench::gear::{Card, CardText};
use tearbench::units::{Force, Length, Mass, Spine};

/// `EI = F S^3 / 48 d` of a simply supported beam under a central load, 28 in
/// and 1.94 lb; rows of the closed form worked by hand.
/// Source: ASTM F2031-05, Measurement of Arrow Shaft Static Spine.
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
        let found = Spine::from_deflection(spine).stiffness();
        assert_relative_eq!(found, ei, max_relative = 1e-3);
    }
}

/// The older test, 26 in and 2 lb, of a 0.500 shaft: 0.4127 in.
/// Source: Rheingans in *Archery: the Technical Side*, 1947, spine and design.
#[test]
fn the_older_spine_test_converts() {
    let found = Spine::from_deflection(0.500).deflection_26();
    assert_relative_eq!(found, 0.4127, max_relative = 1e-3);
}

/// Wooden-arrow pounds are 26 over the 26 in, 2 lb sag: 20 lb sags 1.3 in,
/// 30 lb 0.87 in and 100 lb 0.26 in.
/// Source: a shaft maker's note in a traditional-archery forum, 2007, read.
#[test]
fn wooden_arrow_pounds_are_twenty_six_over_the_sag() {
    for (pounds, sag) in [("20 lb", 1.3), ("30 lb", 0.87), ("100 lb", 0.26)] {
        let found = Spine::parse(pounds).unwrap().deflection_26();
        assert_relative_eq!(found, sag, max_relative = 5e-3);
    }
}

fn card(changes: &[(&str, &str)]) -> Card {
    let source = crate::fixtures::COMPOUND;
    let mut text = CardText::from_toml(source).unwrap();
    for (key, value) in changes {
        text.set(key, value).unwrap();
    }
    Card::read(&text).unwrap().0
}

/// Whether a finished arrow of so many grains is too light for so many pounds.
/// The fletching weighs 1 gr, so that bare and fletched are as good as one.
fn too_light(pounds: &str, grains: f64) -> bool {
    // The shaft weighs 246.5 gr, the nock 10 gr, the fletching 1 gr.
    let point = format!("{} gr", grains - 257.5);
    let card = card(&[
        ("bow.peak_weight", pounds),
        ("arrow.vane_mass", "1 gr"),
        ("arrow.point_mass", &point),
    ]);
    assert_relative_eq!(
        card.arrow.total_mass().grains(),
        grains,
        max_relative = 1e-9
    );
    let dangers = safety::card_dangers(&card);
    dangers
        .iter()
        .any(|d| d.refusal() == tearbench::question::Refusal::TooLight)
}

/// 62 lb asks for 310 gr.
/// Source: a bowhunting federation's tournament rules, quoted in a forum.
#[test]
fn sixty_two_pounds_ask_for_three_hundred_and_ten_grains() {
    assert!(too_light("62 lb", 309.0) && !too_light("62 lb", 312.0));
}

/// 80 lb asks for 400 gr.
/// Source: a bowhunting federation's tournament rules, quoted in a forum.
#[test]
fn eighty_pounds_ask_for_four_hundred_grains() {
    assert!(too_light("80 lb", 399.0) && !too_light("80 lb", 402.0));
}

/// 60 lb asks for 300 gr.
/// Source: bow makers' warranty terms, read on a maker's page.
#[test]
fn sixty_pounds_ask_for_three_hundred_grains() {
    assert!(too_light("60 lb", 299.0) && !too_light("60 lb", 302.0));
}

/// Bows are rated with 350 gr at 70 lb; nothing lighter is shot.
/// Source: ASTM F1544-11, Rating of Initial Velocities from Archery Bows.
#[test]
fn seventy_pounds_ask_for_the_rating_arrow() {
    assert!(too_light("70 lb", 349.0) && !too_light("70 lb", 352.0));
}

/// The trade's draw length is pivot point plus 1 3/4 in, so a 29 in draw holds
/// the nock 27 1/4 in behind the pivot, and a 29 in shaft reaches 1 3/4 in on.
/// Source: ASTM F1880-09, Draw Length of Archery Bows, clause 3.2.1.
#[test]
fn draw_length_is_counted_from_the_pivot_plus_an_inch_and_three_quarters() {
    assert_relative_eq!(safety::reach_inches(&card(&[])), 1.75, max_relative = 1e-9);
}

/// Yard, grain and pound-force, exact.
/// Source: NIST SP 811, Guide for the Use of the SI, 2008, appendix B.
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
