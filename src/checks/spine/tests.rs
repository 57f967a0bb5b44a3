use super::*;
use crate::fixtures::SPINE_COMPOUND;
use crate::gear::CardText;
use crate::physics::references::BowSort;
use crate::session::{Event, Shot, told};

fn timeline(changes: &[(&str, &str)], shots: &[f64]) -> Timeline {
    let mut text = CardText::from_toml(SPINE_COMPOUND).unwrap();
    for (key, value) in changes {
        text.set(key, value).unwrap();
    }
    let shot = |right: &f64| {
        Event::Shot(Shot {
            right: *right,
            ..Shot::default()
        })
    };
    told::timeline_of(&text, shots.iter().map(shot))
}

#[test]
fn a_usual_arrow_passes_and_a_very_weak_one_fails() {
    assert_eq!(assess(&timeline(&[], &[])).status, Status::Pass);
    let weak = timeline(&[("arrow.spine", "0.600")], &[]);
    assert_eq!(assess(&weak).status, Status::Fail);
    assert_eq!(assess(&weak).refusal(), Some(Refusal::SpineWeak));
    assert!(danger(&weak.card, false).is_none());
    let border = [("arrow.spine", "0.500")];
    assert!(!assess(&timeline(&border, &[])).weighed);
    let weighed = timeline(&[border[0], ("bow.weighed", "true")], &[]);
    assert_eq!(assess(&weighed).status, Status::Borderline);
    assert!(assess(&weighed).weighed);
}

#[test]
fn a_stiff_arrow_is_a_warning_with_an_aid_and_a_fail_with_fingers() {
    let stiff = [("arrow.spine", "0.250")];
    assert_eq!(assess(&timeline(&stiff, &[])).status, Status::Borderline);
    let fingers = [("arrow.spine", "0.250"), ("bow.release", "fingers")];
    assert_eq!(
        assess(&timeline(&fingers, &[])).refusal(),
        Some(Refusal::SpineStiff)
    );
}

/// What a reference rests on goes with the finding, and whether it is a guess.
#[test]
fn the_check_names_what_it_rests_on() {
    let reference = |changes: &[(&str, &str)]| {
        let found = assess(&timeline(changes, &[])).computed.reference;
        (found.sort, found.guess)
    };
    let aid = reference(&[("arrow.spine", "0.550")]);
    assert_eq!(aid, (BowSort::CompoundAid, false));
    let compound = reference(&[("bow.release", "fingers"), ("arrow.spine", "0.550")]);
    assert_eq!(compound, (BowSort::CompoundFingers, true));
    let recurve = [
        ("bow.kind", "recurve"),
        ("bow.let_off", ""),
        ("bow.release", "fingers"),
        ("arrow.spine", "0.600"),
    ];
    let plunger = reference(&[&recurve[..], &[("rest.kind", "plunger")]].concat());
    assert_eq!(plunger, (BowSort::RecurvePlunger, true));
    let shelf = reference(&[&recurve[..], &[("rest.kind", "shelf")]].concat());
    assert_eq!(shelf, (BowSort::Shelf, false));
}

/// The points of the next shots count: 60 lb, 29 in, 0.400, 8.5 gr/in.
#[test]
fn a_trial_point_counts_in_the_match() {
    let base = [
        ("arrow.shaft_length", "29 in"),
        ("arrow.point_mass", "125 gr"),
    ];
    let ratio = |more: &[(&str, &str)]| {
        of_card(&timeline(&[&base[..], more].concat(), &[]).card).load_ratio
    };
    let near = |found: f64, wanted: f64| assert!((found - wanted).abs() < 5e-4, "{found}");
    near(ratio(&[]), 1.0606);
    near(ratio(&[("arrow.trial_point", "225 gr")]), 1.1767);
    near(ratio(&[("arrow.point_mass", "225 gr")]), 1.1767);
    assert!(ratio(&[("arrow.trial_point", "75 gr")]) < ratio(&[]));
}

/// A trial point is another arrow: good shots with the old one say nothing of it.
#[test]
fn three_good_shots_by_the_owner_lift_a_computed_fail() {
    let weak = [("arrow.spine", "0.600")];
    let status = |shots: &[f64]| assess(&timeline(&weak, shots)).status;
    assert_eq!(status(&[4.0, 5.0]), Status::Fail);
    assert_eq!(status(&[4.0, 5.0, 9.0, 4.0]), Status::Fail);
    let lifted = timeline(&weak, &[9.0, 4.0, 5.0, 3.0]);
    assert_eq!(assess(&lifted).status, Status::Borderline);
    assert!(assess(&lifted).lifted);
}

/// Tears are read from the aim of the paper, each way, and the tolerance
/// itself is inside: aim (12, -10) mm, tolerance 5 mm.
#[test]
fn what_lifts_a_fail_lies_around_the_aim_up_to_the_very_tolerance() {
    for (right, up) in [(12.0, -10.0), (-12.0, 10.0)] {
        let status = |off: (f64, f64)| {
            let mut shot = timeline(&[("arrow.spine", "0.600")], &[right + off.0; 3]);
            shot.shots.iter_mut().for_each(|s| s.shot.up = up + off.1);
            (shot.card.paper.aim, shot.card.paper.tolerance) = ((right, up), 5.0);
            assess(&shot).status
        };
        for good in [(0.0, 0.0), (5.0, 0.0), (-5.0, 0.0), (0.0, 5.0), (3.0, -4.0)] {
            assert_eq!(status(good), Status::Borderline, "{right} {up} {good:?}");
        }
        for bad in [(5.1, 0.0), (-5.1, 0.0), (0.0, -5.1), (-right, -up)] {
            assert_eq!(status(bad), Status::Fail, "{right} {up} {bad:?}");
        }
    }
}

#[test]
fn later_bad_shots_take_the_lifting_back_and_later_good_ones_give_it_again() {
    let weak = [("arrow.spine", "0.600")];
    let status = |shots: &[f64]| assess(&timeline(&weak, shots)).status;
    let good = [4.0, 5.0, 3.0];
    // One may be a flier.
    assert_eq!(status(&[&good[..], &[12.0]].concat()), Status::Borderline);
    assert_eq!(
        status(&[&good[..], &[12.0, 2.0, 3.0]].concat()),
        Status::Borderline
    );
    // Two of three are not.
    assert_eq!(status(&[&good[..], &[12.0, 11.0]].concat()), Status::Fail);
    assert_eq!(
        status(&[&good[..], &[12.0, 2.0, 11.0]].concat()),
        Status::Fail
    );
    assert_eq!(
        status(&[&good[..], &[12.0, 11.0, 2.0, 3.0]].concat()),
        Status::Fail
    );
    let again = [&good[..], &[12.0, 11.0], &good[..]].concat();
    assert_eq!(status(&again), Status::Borderline);
}

/// 60 lb, 28 in, 8.5 gr/in, 100 gr: 0.647 lies at 1.599, 0.648 at 1.601.
#[test]
fn an_arrow_past_the_stop_load_is_not_shot_and_no_shot_lifts_it() {
    let at = |spine: &str, shots: &[f64]| timeline(&[("arrow.spine", spine)], shots);
    let edge = of_card(&at("0.500", &[]).card).load_ratio / 0.5;
    let (mild, far) = (1.599 / edge, 1.601 / edge);
    assert!(danger(&at(&format!("{mild:.5}"), &[]).card, false).is_none());
    let stopped = at(&format!("{far:.5}"), &[4.0, 5.0, 3.0]);
    let said = danger(&stopped.card, false).unwrap();
    assert_eq!(said.refusal(), Refusal::FarTooWeak);
    let figure = said.figure().unwrap();
    assert!((figure.value - 1.601).abs() < 1e-4 && figure.limit == 1.6);
    assert_eq!(assess(&stopped).status, Status::Fail);
    assert_eq!(super::super::safety::check(&stopped).status(), Status::Fail);
    assert!(!assess(&stopped).lifted);
}

/// The chart turns the stop into a fail, for what it was read for only.
#[test]
fn the_arrow_makers_chart_turns_the_stop_into_a_fail() {
    let with = |chart: &str, more: &[(&str, &str)]| {
        let base = [("arrow.spine", "0.700"), ("arrow.maker_chart", chart)];
        timeline(&[&base[..], more].concat(), &[])
    };
    let none = with("", &[]);
    assert!(stops(&none.card));
    let read = with("0.700 at 60 lb, 28 in, 100 gr", &[]);
    assert!(!stops(&read.card) && danger(&read.card, false).is_none());
    let report = assess(&read);
    assert_eq!(
        (report.status, report.refusal()),
        (Status::Fail, Some(Refusal::SpineWeak))
    );
    assert!(report.chart && !report.stops);
    for chart in [
        "0.690 at 60 lb, 28 in, 100 gr",
        "0.700 at 59 lb, 28 in, 100 gr",
        "0.700 at 60 lb, 27.5 in, 100 gr",
        "0.700 at 60 lb, 28 in, 90 gr",
    ] {
        assert!(stops(&with(chart, &[]).card), "{chart}");
    }
    let chart = "0.700 at 60 lb, 28 in, 100 gr";
    for change in [
        ("bow.peak_weight", "62 lb"),
        ("arrow.shaft_length", "29 in"),
        ("arrow.trial_point", "125 gr"),
        ("arrow.point_mass", "125 gr"),
    ] {
        let later = with(chart, &[change]);
        assert!(stops(&later.card), "{change:?}");
        assert!(
            later
                .warnings
                .iter()
                .any(|w| w.to_string().contains("Read the chart again"))
        );
    }
}

/// The limit that is shown lies on the arrow's own side: weak ones have the
/// upper edge of the band they left, stiff ones the lower (design's table).
#[test]
fn the_limit_shown_is_the_edge_on_the_arrows_own_side() {
    let limit = |changes: &[(&str, &str)]| {
        let found = assess(&timeline(changes, &[])).figure();
        found.unwrap().limit
    };
    assert_eq!(limit(&[("arrow.spine", "0.250")]), 0.85);
    assert_eq!(limit(&[("arrow.spine", "0.600")]), 1.25);
    let fingers = |spine| limit(&[("bow.release", "fingers"), ("arrow.spine", spine)]);
    assert_eq!(fingers("0.200"), 0.77);
    assert_eq!(fingers("0.550"), 1.3);
}

/// Five turns in are up to 20 lb: 60 lb may be 80, and an arrow that suits 60
/// may then be too weak. Five turns out are no drop until it is weighed.
#[test]
fn while_the_weight_is_unknown_the_greatest_it_may_be_counts() {
    let turned = |turns: f64| {
        let bolts = told::moved(crate::gear::AdjusterKind::LimbBolts, turns);
        assess(&told::timeline(SPINE_COMPOUND, [bolts])).computed
    };
    let still = assess(&timeline(&[], &[])).computed;
    assert_eq!(still.grade, SpineGrade::Matched);
    let inward = turned(5.0);
    assert_eq!(inward.grade, SpineGrade::WeakFail);
    let share = inward.load_ratio / still.load_ratio;
    assert!((share - 80.0 / 60.0).abs() < 1e-9, "{share}");
    assert_eq!(turned(-5.0).load_ratio, still.load_ratio);
}

/// Exactly as the bow wants it is on neither side: it is held against the
/// stiff edge, a hair more against the weak one.
#[test]
fn a_load_of_exactly_one_is_not_weak() {
    let at = |load_ratio: f64| {
        let mut report = assess(&timeline(&[], &[]));
        report.computed.load_ratio = load_ratio;
        (report.weak(), report.limit())
    };
    assert_eq!(at(1.0), (false, 0.85));
    assert_eq!(at(1.0 + f64::EPSILON), (true, 1.15));
    assert_eq!(at(1.0 - f64::EPSILON), (false, 0.85));
}

/// A value that nobody confirmed leaves the match unknown; what fails on it
/// fails, and a value that the match does not rest on is not waited for.
#[test]
fn a_default_leaves_the_match_not_yet_and_never_lifts_a_fail() {
    let filled = |key: &str, spine: &str| {
        let mut text = CardText::from_toml(SPINE_COMPOUND).unwrap();
        text.set("arrow.spine", spine).unwrap();
        let value = text.get(key).unwrap().to_owned();
        text.fill(key, &value).unwrap();
        assess(&Timeline::new(&text, &[]).unwrap())
    };
    for key in ["bow.peak_weight", "bow.draw_length", "arrow.shaft_length"] {
        let found = filled(key, "0.400");
        assert_eq!(found.status, Status::Pending, "{key}");
        assert_eq!((found.figure(), found.warning()), (None, None), "{key}");
        assert_eq!(filled(key, "0.600").status, Status::Fail, "{key}");
    }
    assert_eq!(filled("paper.distance", "0.400").status, Status::Pass);
}
