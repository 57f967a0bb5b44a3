//! A bare shaft against the stop load and the worst case of the bolts.

use super::tests::{bolts, timeline, timeline_of};
use super::*;

/// Without the 21 gr of vanes at its rear the shaft carries 3.85 % more of the
/// push: 402.5 gr fletched load it to 2.6514 times its spine, 381.5 gr bare to
/// 2.7536 times. Worked out apart from the program, by a series of sines in
/// another language (physics.md 3.3 in the textbook's words: the column pushed
/// by its own inertia, Timoshenko and Gere, 18.57 where it is uniform).
#[test]
fn a_bare_shaft_is_held_against_the_stop_load_without_its_vanes() {
    for hand in ["right", "left"] {
        let at = |spine: &str| timeline(&[("bow.hand", hand), ("arrow.spine", spine)]);
        for (spine, fletched, bare) in [
            ("0.5805", false, false), // bare 1.5985
            ("0.5816", false, true),  // bare 1.6015, fletched 1.5421
            ("0.6029", false, true),  // fletched 1.5985
            ("0.6040", true, true),   // fletched 1.6014
        ] {
            let mut t = at(spine);
            assert_eq!(!dangers(&t).is_empty(), fletched, "{hand} {spine}");
            assert_eq!(bare_forbidden(&t).is_some(), bare, "{hand} {spine}");
            t.next_bare = true;
            assert_eq!(!dangers(&t).is_empty(), bare, "{hand} {spine} bare");
        }
        let t = at("0.59");
        let Safety::Ok {
            bare: Some(Danger::FarTooWeak {
                ratio, bare: true, ..
            }),
            ..
        } = check(&t)
        else {
            panic!("{:?}", check(&t))
        };
        assert!((ratio - 1.6246).abs() < 2e-4, "{ratio}");
    }
}

/// 298.5 gr of bare shaft on 58 lb: one turn in may make it 62 lb, 310 gr.
#[test]
fn a_bare_shaft_is_held_against_the_worst_case_of_the_bolts() {
    let card = [
        ("bow.peak_weight", "58 lb"),
        ("bow.weighed", "true"),
        ("arrow.point_mass", "42 gr"),
    ];
    let forbids = |turns: f64| {
        let t = timeline_of(&card, vec![bolts(turns)]);
        assert!(dangers(&t).is_empty(), "{turns}");
        bare_forbidden(&t).map(|d| d.refusal().code())
    };
    // 59.7 lb are what 298.5 gr allow: less than half a turn at 4 lb.
    assert_eq!(forbids(0.4), None);
    assert_eq!(forbids(0.45), Some("weigh-first"));
    assert_eq!(forbids(-1.0), None);
}
