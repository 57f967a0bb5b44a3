//! Group scatter of real archers as a ceiling: it holds aim and launch, so
//! what a virtual archer's launch adds to the direction of the path must stay
//! under it. The scatter of tears, mm on paper, has no published value.

use tearbench::physics::rng::Rng;
use tearbench::physics::unknowns::Unknowns;
use tearbench::physics::virtual_bow::{Settings, Steadiness, VirtualBow};
use tearbench::physics::{ArrowSpec, BowKind, BowSpec, RestKind, Setup};

use crate::physics_support::{aid, arrow, compound, fingers, recurve};

fn sd(all: &[f64]) -> f64 {
    let n = all.len() as f64;
    let mean = all.iter().sum::<f64>() / n;
    (all.iter().map(|x| (x - mean).powi(2)).sum::<f64>() / (n - 1.0)).sqrt()
}

/// What an average archer's launches add, middle of 40 drawn bows, each with
/// 100 shots: direction of the path sideways and up, mrad, and tear sideways
/// at 2 m, mm.
fn added(setup: &Setup, bow: &BowSpec, arrow: &ArrowSpec) -> [f64; 3] {
    let mut rng = Rng::new(5);
    let steady = Steadiness::average(setup.release);
    let mut found: [Vec<f64>; 3] = Default::default();
    for _ in 0..40 {
        let unknowns = Unknowns::draw(setup, &mut rng);
        let bow = VirtualBow::new(arrow, bow, setup, &unknowns);
        let paper = bow.paper(2.0);
        // Far on, where the yaw has died down, over 100 m of path.
        let [near, far] = [100.0, 200.0].map(|path| bow.flight().row(arrow.balance_m(), path));
        let mut shots: [Vec<f64>; 3] = Default::default();
        for _ in 0..100 {
            let state = bow.state(&Settings::default(), &steady.draw(&mut rng));
            let (a, b) = (near.place(&state), far.place(&state));
            shots[0].push(10.0 * (b[0] - a[0]));
            shots[1].push(10.0 * (b[1] - a[1]));
            shots[2].push(paper.tear_mm(&state)[0]);
        }
        for (all, shots) in found.iter_mut().zip(&shots) {
            all.push(sd(shots));
        }
    }
    found.map(|mut all| {
        all.sort_by(f64::total_cmp);
        all[all.len() / 2]
    })
}

fn hunting() -> (Setup, BowSpec, ArrowSpec) {
    (
        aid(RestKind::DropAway),
        compound(60.0, 19.25),
        arrow(0.400, 28.0, 8.5, 120.0),
    )
}

/// Whether the added direction is a fair share of the classes' scatter: no
/// more than the worse class has in all, no less than 0.3 of the better (the
/// 0.3 is a judgement). `reads` is what the model adds today, sideways and up:
/// a change of more than a twentieth is to be looked at.
fn fair(added: [f64; 3], better_mrad: f64, worse_mrad: f64, reads: [f64; 2]) {
    println!(
        "direction {:.2} and {:.2} mrad, tear {:.2} mm",
        added[0], added[1], added[2]
    );
    for mrad in &added[..2] {
        assert!(
            (0.3 * better_mrad..=worse_mrad).contains(mrad),
            "{mrad} mrad, classes {better_mrad} to {worse_mrad}"
        );
    }
    for (mrad, reads) in added.iter().zip(reads) {
        assert!((mrad / reads - 1.0).abs() < 0.05, "{mrad}, was {reads}");
    }
}

/// Compound, second to fourth club class at 18 m: 1.17 to 1.78 mrad.
/// Source: Atkinson 2023, handicap scheme in the author's public scoring code,
/// read, handicaps 27 to 39; over the root of two for one axis.
#[test]
fn an_average_compound_archers_launch_stays_under_the_scatter_of_club_classes() {
    let (setup, bow, arrow) = hunting();
    fair(added(&setup, &bow, &arrow), 1.17, 1.78, [1.63, 1.19]);
}

/// Recurve, first to third club class at 18 m: 1.66 to 2.68 mrad.
/// Source: Atkinson 2023, handicap scheme in the author's public scoring code,
/// read, handicaps 37 to 51; over the root of two for one axis.
#[test]
fn an_average_recurve_archers_launch_stays_under_the_scatter_of_club_classes() {
    let (bow, arrow) = (recurve(40.0), arrow(0.600, 28.0, 6.5, 100.0));
    fair(added(&fingers(), &bow, &arrow), 1.66, 2.68, [1.79, 1.28]);
}

/// Longbow, first to third club class at 18 m: 5.34 to 8.07 mrad.
/// Source: Atkinson 2023, handicap scheme in the author's public scoring code,
/// read, handicaps 71 to 83; over the root of two for one axis.
#[test]
fn an_average_longbow_archers_launch_stays_under_the_scatter_of_club_classes() {
    let setup = Setup {
        kind: BowKind::Longbow,
        rest: RestKind::Shelf,
        ..fingers()
    };
    let bow = BowSpec {
        kind: BowKind::Longbow,
        ..recurve(45.0)
    };
    fair(
        added(&setup, &bow, &arrow(0.700, 28.0, 11.0, 120.0)),
        5.34,
        8.07,
        [2.64, 1.96],
    );
}

/// Scatter of tears and of direction come from the same shots: with an aid
/// each mm of tear at 2 m brings about 1 mrad. An archer of 5 mm, whom the
/// judging bench calls average, then adds 3 to 5 mrad, and one of 9 mm 6 to 9:
/// MORE than the worst compound class scores with (2.68). Practice archers of
/// 1.5 mm (a quarter of 6 mm) are inside it, those of 3.9 mm at it or past it.
/// So either tears of compound archers scatter less than is assumed there, or
/// the model turns too much of a poor loose into direction; nothing in print
/// says which. A change of the ratio is to be looked at.
/// Source: Atkinson 2023, handicap scheme in the author's public scoring code,
/// read, handicap 51 for the worst class.
#[test]
fn a_tear_scatter_of_five_millimetres_is_more_direction_than_compound_archers_show() {
    let (setup, bow, arrow) = hunting();
    let [side, _, tear] = added(&setup, &bow, &arrow);
    let each = side / tear;
    println!("{each:.3} mrad for each mm");
    assert!((0.99..1.09).contains(&each), "{each}");
    assert!(5.0 * each > 2.68 && 1.5 * each < 2.68, "{each}");
}
