//! What the drawn bows say, held to literal figures.

use super::super::column::tests::common_arrow;
use super::super::kinds::{BowKind, Hand, Release};
use super::*;

fn case(rest: RestKind) -> Case {
    let fingers = rest == RestKind::Plunger;
    let bow = super::super::bow::tests::compound(if fingers { 40.0 } else { 60.0 }, 19.25);
    let (kind, release) = if fingers {
        (BowKind::Recurve, Release::Fingers)
    } else {
        (BowKind::Compound, Release::Aid)
    };
    let mut arrow = common_arrow();
    if fingers {
        arrow.ei = super::super::spine::ei_from_spine(0.600);
    }
    Case {
        arrow,
        bow: BowSpec { kind, ..bow },
        setup: Setup {
            kind,
            release,
            rest,
            hand: Hand::Right,
        },
        paper_m: 2.0,
        weighed: true,
    }
}

fn prior(rest: RestKind, seed: u64) -> ResponsePrior {
    response_prior_of(&case(rest), &MODELLED, seed, DRAWS).expect("a launch")
}

#[test]
fn the_same_seed_gives_the_same_prior_and_another_nearly_the_same() {
    let (one, other) = (prior(RestKind::DropAway, 1), prior(RestKind::DropAway, 2));
    assert_eq!(one, prior(RestKind::DropAway, 1));
    assert_ne!(one.gains, other.gains);
    for (a, b) in one.gains.iter().zip(&other.gains) {
        assert!((a.mean - b.mean).abs() < 0.4 * a.sd, "{a:?} {b:?}");
    }
}

#[test]
fn a_release_aid_leaves_the_sideways_sign_of_a_drop_away_open() {
    let prior = prior(RestKind::DropAway, 1);
    let gain = prior.gain(AdjusterKind::RestSideways).expect("modelled");
    assert!((0.25..0.9).contains(&gain.probability_negative), "{gain:?}");
    assert!((1.0..5.0).contains(&gain.typical_size), "{gain:?}");
}

#[test]
fn fingers_on_a_button_answer_more_and_with_a_kink() {
    let aid = *prior(RestKind::DropAway, 1)
        .gain(AdjusterKind::RestSideways)
        .expect("modelled");
    let button = *prior(RestKind::Plunger, 1)
        .gain(AdjusterKind::RestSideways)
        .expect("modelled");
    assert!(
        button.typical_size > 1.5 * aid.typical_size,
        "{button:?} {aid:?}"
    );
    assert!(button.kink > 0.1 && aid.kink < 0.05, "{button:?} {aid:?}");
    assert!(
        button.slope_walk > 1.0 && aid.slope_walk < 0.1,
        "{button:?} {aid:?}"
    );
}

#[test]
fn a_left_handed_bow_has_the_same_gains_and_the_mirrored_start() {
    let right = prior(RestKind::Plunger, 3);
    let mut case = case(RestKind::Plunger);
    case.setup.hand = Hand::Left;
    let left = response_prior_of(&case, &MODELLED, 3, DRAWS).expect("a launch");
    let apart = |a: f64, b: f64| (a - b).abs() > 1e-9 * (1.0 + a.abs());
    for (a, b) in right.gains.iter().zip(&left.gains) {
        // A button's tension has no side of its own: its answer mirrors.
        let way = if a.adjuster == AdjusterKind::PlungerTension {
            -1.0
        } else {
            1.0
        };
        assert!(!apart(a.mean, way * b.mean), "{a:?} {b:?}");
    }
    assert!(!apart(right.start_mean_mm[0], -left.start_mean_mm[0]));
    assert!(!apart(right.start_mean_mm[1], left.start_mean_mm[1]));
}

#[test]
fn what_the_model_cannot_move_is_left_out() {
    let kinds = [AdjusterKind::YokeTwist, AdjusterKind::RestHeight];
    let prior = response_prior_of(&case(RestKind::Blade), &kinds, 1, 10).expect("a launch");
    assert_eq!(prior.gains.len(), 1);
    assert!(prior.gain(AdjusterKind::YokeTwist).is_none());
}

#[test]
fn a_prior_survives_being_written_down() {
    let prior = prior(RestKind::Capture, 1);
    let text = toml::to_string(&prior).expect("plain numbers");
    assert_eq!(
        toml::from_str::<ResponsePrior>(&text).expect("its own text"),
        prior
    );
}

#[test]
fn a_bow_that_cannot_launch_gives_no_prior_and_a_hopeless_arrow_no_nonsense() {
    let mut none = case(RestKind::Blade);
    none.bow.brace_height_m = none.bow.draw_length_m;
    assert!(response_prior_of(&none, &MODELLED, 1, 10).is_none());
    for spine in [0.02, 0.8, 1.5, 3.0, 20.0] {
        let mut weak = case(RestKind::DropAway);
        weak.arrow.ei = super::super::spine::ei_from_spine(spine);
        if let Some(prior) = response_prior_of(&weak, &MODELLED, 1, 40) {
            assert!(prior.start_sd_mm.iter().all(|sd| *sd < WILD_MM), "{spine}");
            assert!(
                prior.gains.iter().all(|gain| gain.sd.is_finite()),
                "{spine}"
            );
        }
    }
}

#[test]
fn print_figures() {
    for spine in [0.25, 0.30, 0.34, 0.40, 0.45, 0.50] {
        let mut c = case(RestKind::DropAway);
        c.arrow.ei = super::super::spine::ei_from_spine(spine);
        let p = response_prior_of(&c, &MODELLED, 1, DRAWS).unwrap();
        let g = p.gain(AdjusterKind::RestSideways).unwrap();
        println!(
            "aid spine {spine} load {:.3} neg {:.3} mean {:.2} sd {:.2} size {:.2} n {}",
            c.load_ratio(),
            g.probability_negative,
            g.mean,
            g.sd,
            g.typical_size,
            p.draws
        );
    }
    for hand in [Hand::Right, Hand::Left] {
        for spine in [0.5, 0.6, 0.7, 0.8, 0.9, 1.0] {
            let mut c = case(RestKind::Plunger);
            c.setup.hand = hand;
            c.arrow.ei = super::super::spine::ei_from_spine(spine);
            let Some(p) = response_prior_of(&c, &MODELLED, 1, DRAWS) else {
                continue;
            };
            let g = p.gain(AdjusterKind::RestSideways).unwrap();
            let t = p.gain(AdjusterKind::PlungerTension).unwrap();
            println!(
                "{hand:?} fingers spine {spine} load {:.3} late {:.2} n {} rest neg {:.3} mean {:.2} sd {:.2} size {:.2} | turn neg {:.3} mean {:.2} sd {:.2} start {:?}",
                c.load_ratio(),
                p.late,
                p.draws,
                g.probability_negative,
                g.mean,
                g.sd,
                g.typical_size,
                t.probability_negative,
                t.mean,
                t.sd,
                p.start_mean_mm
            );
        }
    }
    let c = case(RestKind::Plunger);
    let mut rng = Rng::new(3);
    for late in [true, false] {
        let kinds = [AdjusterKind::RestSideways, AdjusterKind::PlungerTension];
        let bows: Vec<Answers> = draw_unknowns(&c.setup, 1, 384)
            .iter()
            .map(|u| answers(&bows::off_the_card(&c, &mut rng), u, &kinds))
            .filter(|b| b.late == late && b.tame())
            .collect();
        let g = gain(kinds[0], &bows, 0);
        let t = gain(kinds[1], &bows, 1);
        println!("late {late}: n {} rest {g:?}\n turn {t:?}", bows.len());
    }
}
