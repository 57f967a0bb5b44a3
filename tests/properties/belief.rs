//! What must hold whatever was shot: order, mirror, called-bad shots.

use proptest::prelude::*;
use tearbench::belief::{Axis, Belief, OWNER, Obs, Place, Prior};
use tearbench::tuner::{Choice, Decision, Range, Task, Track, choose};

fn task() -> Task {
    let range = |axis| Range {
        axis,
        step: 0.25,
        low: -8.0,
        high: 8.0,
        usable: true,
    };
    Task::new(vec![range(Axis::Right), range(Axis::Up)], 6.0)
}

fn shot(clicks: [i32; 2], tear: [i32; 2]) -> Obs {
    let positions = clicks.map(|c| 0.25 * f64::from(c)).to_vec();
    let place = Place {
        positions,
        ..Place::start(2, 2.0)
    };
    Obs {
        place,
        called_bad: false,
        tear: tear.map(f64::from),
    }
}

fn decide(prior: &Prior, shots: &[Obs]) -> Decision {
    let belief = Belief::fit(prior, shots, OWNER);
    let track = Track::count(shots, &shots[shots.len() - 1].place, OWNER);
    choose(&belief, &task(), &track)
}

/// Settings one after another, each with one to four shots.
fn practice() -> impl Strategy<Value = Vec<Obs>> {
    let tear = prop::array::uniform2(-25i32..25);
    let setting = (
        prop::array::uniform2(-16i32..16),
        prop::collection::vec(tear, 1..5),
    );
    prop::collection::vec(setting, 1..4).prop_map(|settings| {
        settings
            .into_iter()
            .flat_map(|(c, tears)| tears.into_iter().map(move |t| shot(c, t)))
            .collect()
    })
}

/// The same shots with those of each setting in reverse.
fn reversed_within(shots: &[Obs]) -> Vec<Obs> {
    let mut out: Vec<Obs> = Vec::new();
    let mut rest = shots;
    while let Some(first) = rest.first() {
        let n = rest
            .iter()
            .take_while(|s| s.place.same_setting(&first.place))
            .count();
        out.extend(rest[..n].iter().rev().cloned());
        rest = &rest[n..];
    }
    out
}

fn mirrored(shots: &[Obs]) -> Vec<Obs> {
    let mut out = shots.to_vec();
    for s in &mut out {
        s.tear[0] = -s.tear[0];
        s.place.positions[0] = -s.place.positions[0];
    }
    out
}

fn kind(c: &Choice) -> u8 {
    match c {
        Choice::Shoot => 0,
        Choice::Move(_) => 1,
        Choice::Done => 2,
        Choice::Limit => 3,
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn the_order_of_shots_within_a_setting_does_not_matter(shots in practice()) {
        for prior in [Prior::aid(), Prior::fingers()] {
            let (a, b) = (decide(&prior, &shots), decide(&prior, &reversed_within(&shots)));
            prop_assert!((a.here - b.here).abs() < 0.01);
            prop_assert!((a.best.chance - b.best.chance).abs() < 0.01);
            prop_assert_eq!(a.choice, b.choice);
        }
    }

    #[test]
    fn a_mirrored_practice_gets_the_mirrored_answer(shots in practice()) {
        // The aid's sideways belief is even, so the mirror image is exact.
        let prior = Prior::aid();
        let (a, b) = (decide(&prior, &shots), decide(&prior, &mirrored(&shots)));
        prop_assert!((a.here - b.here).abs() < 0.01, "{} {}", a.here, b.here);
        prop_assert_eq!(kind(&a.choice), kind(&b.choice));
        // A mean of exactly nothing has no side: only then may a move agree.
        if let (Choice::Move(m), Choice::Move(n)) = (&a.choice, &b.choice) {
            let tear = Belief::fit(&prior, &shots, OWNER).tear(&shots[shots.len() - 1].place);
            if tear.mean[0].abs() > 1e-6 {
                let turned: Vec<(usize, i32)> =
                    m.iter().map(|(k, s)| (*k, if *k == 0 { -s } else { *s })).collect();
                prop_assert_eq!(&turned, n);
            }
        }
    }

    #[test]
    fn a_called_bad_shot_changes_nothing(shots in practice(), tear in prop::array::uniform2(-60i32..60)) {
        let prior = Prior::aid();
        let mut more = shots.clone();
        let mut bad = shots[shots.len() - 1].clone();
        bad.called_bad = true;
        bad.tear = tear.map(f64::from);
        more.push(bad);
        prop_assert_eq!(decide(&prior, &shots), decide(&prior, &more));
    }

    #[test]
    fn probabilities_are_probabilities_and_moves_stay_inside_travel(shots in practice()) {
        for prior in [Prior::aid(), Prior::fingers()] {
            let d = decide(&prior, &shots);
            prop_assert!((0.0..=1.0).contains(&d.here) && (0.0..=1.0).contains(&d.best.chance));
            if let Choice::Move(steps) = d.choice {
                prop_assert!(!steps.is_empty());
                for (k, n) in steps {
                    let to = shots[shots.len() - 1].place.positions[k] + 0.25 * f64::from(n);
                    prop_assert!(n != 0 && to.abs() <= 8.0 + 1e-9);
                }
            }
        }
    }
}
