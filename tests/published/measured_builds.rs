//! The 34 builds of a public shooting-machine study: labels 340, 300, 250 and
//! 200 with 125 to 350 gr in front, one 70 lb, 28 in compound. All were
//! brought to a clean hole at 15 ft with the rest left alone, by the bow's own
//! side adjustment.
//!
//! Not readable: shaft lengths, weights an inch, which builds were which, how
//! many needed a second try, and whether the adjustment moves the string's
//! plane, its path or both. So a grid over the stated span stands for them,
//! 28 in long, with everyday weights.

use tearbench::advice::{self, Verdict};
use tearbench::checks::{Status, spine};
use tearbench::gear::CardText;
use tearbench::physics::rng::Rng;
use tearbench::physics::unknowns::Unknowns;
use tearbench::physics::virtual_bow::{Disturbance, Settings, VirtualBow};
use tearbench::physics::{ArrowSpec, RestKind};
use tearbench::range::Today;
use tearbench::session::Session;

use crate::physics_support::{aid, arrow, compound};

/// Label, grains an inch (everyday, not the study's).
const LABELS: [(f64, f64); 4] = [(0.340, 9.0), (0.300, 9.8), (0.250, 10.5), (0.200, 11.5)];
/// Grains in front.
const FRONTS: [f64; 6] = [125.0, 150.0, 200.0, 250.0, 300.0, 350.0];

/// A session with one of the builds on the study's bow.
fn session(spine: f64, per_inch: f64, front: f64) -> Session {
    let source = crate::fixtures::COMPOUND;
    let mut text = CardText::from_toml(source).unwrap();
    for (key, value) in [
        ("bow.peak_weight", "70 lb".to_owned()),
        ("bow.draw_length", "28 in".to_owned()),
        ("arrow.shaft_length", "28 in".to_owned()),
        ("arrow.spine", format!("{spine}")),
        ("arrow.shaft_mass", format!("{per_inch} gr/in")),
        ("arrow.point_mass", format!("{front} gr")),
    ] {
        text.set(key, &value).unwrap();
    }
    Session::from_text(&text.to_toml()).unwrap()
}

/// None of the builds may be refused or stopped, whatever the warning.
/// Source: public shooting-machine study of 34 builds, 2026, results on front
/// of centre, read.
#[test]
fn none_of_the_builds_is_refused() {
    for (label, per_inch) in LABELS {
        for front in FRONTS {
            let session = session(label, per_inch, front);
            let check = spine::assess(session.timeline());
            assert_ne!(check.status, Status::Fail, "{label} {front}: {check:?}");
            let advice = advice::advise(session.timeline(), Today::now());
            let no = [Verdict::Refuse, Verdict::Stop].contains(&advice.verdict);
            assert!(!no, "{label} {front}: {:?}", advice.headline);
        }
    }
}

/// The farthest of them: label 340 with 350 gr reads 1.17, weak enough to be
/// warned of (over 1.15) and short of a refusal (over 1.25).
/// Source: public shooting-machine study of 34 builds, 2026, results on front
/// of centre, read; the ratio is the program's.
#[test]
fn the_weakest_build_is_warned_of_and_goes_on() {
    let session = session(0.340, 9.0, 350.0);
    let ratio = spine::of_card(&session.timeline().card).load_ratio;
    println!("label 340, 350 gr: {ratio:.3}");
    assert!((1.165..1.180).contains(&ratio), "{ratio}");
    let check = spine::assess(session.timeline());
    assert_eq!(check.status, Status::Borderline);
}

/// How far a side adjustment has to go for a tear of 6 mm or less at 15 ft,
/// by moving the string's plane against the rest, and by moving its path, mm.
fn needed(build: &ArrowSpec, rest: RestKind, unknowns: &Unknowns) -> [f64; 2] {
    let bow = compound(70.0, 19.25);
    let setup = aid(rest);
    let tear = |plane_mm: f64, path_mm: f64| {
        let unknowns = Unknowns {
            path_side_m: unknowns.path_side_m + 1e-3 * path_mm,
            ..*unknowns
        };
        // The string's plane to the left is the rest to the right of it.
        let settings = Settings {
            rest_side_mm: -plane_mm,
            ..Settings::default()
        };
        let bow = VirtualBow::new(build, &bow, &setup, &unknowns);
        bow.tear_mm(&settings, &Disturbance::default(), &bow.paper(4.57))[0]
    };
    let still = tear(0.0, 0.0);
    [tear(1.0, 0.0), tear(0.0, 1.0)].map(|moved| {
        let gain = (moved - still).abs();
        (still.abs() - 6.0).max(0.0) / gain.max(1e-9)
    })
}

/// With the rest left alone a clean hole at 15 ft is in reach of each build:
/// within 5 mm of the string's plane or path in every drawn bow with each
/// rest, and of the plane alone, which is what a limb shifter moves, in 97 of
/// 100. (5 mm is a judgement: the study states no travel. Measured: by the
/// plane alone 589 of 600 with a drop-away, 599 and 600 with the others.)
/// Source: public shooting-machine study of 34 builds, 2026, results on front
/// of centre, read.
#[test]
fn every_build_has_a_clean_hole_in_reach_with_the_rest_left_alone() {
    for rest in [RestKind::DropAway, RestKind::Blade, RestKind::Capture] {
        let mut rng = Rng::new(34);
        let (mut all, mut plane, mut either) = (0, 0, 0);
        for _ in 0..25 {
            let unknowns = Unknowns::draw(&aid(rest), &mut rng);
            for (label, per_inch) in LABELS {
                for front in FRONTS {
                    let build = arrow(label, 28.0, per_inch, front);
                    let [by_plane, by_path] = needed(&build, rest, &unknowns);
                    all += 1;
                    plane += usize::from(by_plane <= 5.0);
                    either += usize::from(by_plane.min(by_path) <= 5.0);
                }
            }
        }
        println!("{rest:?}: plane {plane}, plane or path {either} of {all}");
        assert_eq!(either, all, "{rest:?}");
        assert!(plane * 100 >= 97 * all, "{rest:?}: {plane} of {all}");
    }
}
