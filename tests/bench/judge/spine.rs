//! Mis-spined arrows, decided from a card that is not quite right.

use super::mechanics;
use super::rng::Rng;
use super::world::Kind;
use tearbench::physics::{SpineBow, spine_match};

/// Errors of a card: weight off the label, length, spine (sds, shares).
const ERRORS: [f64; 3] = [0.03, 0.01, 0.03];

/// Share refused of arrows whose true load ratio lies in a range.
fn refused(kind: Kind, ratio: [f64; 2], first: u64, bows: u64) -> f64 {
    let mut count = 0;
    for seed in first..first + bows {
        let mut rng = Rng::new(seed);
        let setup = mechanics::setup(kind, &mut rng);
        let ratio = rng.uniform(ratio[0], ratio[1]);
        let (mut arrow, bow) = mechanics::build(&setup, ratio, &mut rng);
        let off = ERRORS.map(|sd| 1.0 + sd * rng.normal());
        arrow.shaft_length_m *= off[1];
        arrow.ei *= off[2];
        let card = SpineBow {
            kind: setup.kind,
            release: setup.release,
            rest: setup.rest,
            peak_force_n: bow.peak_force_n * off[0],
        };
        let grade = spine_match(&arrow, &card).grade;
        count += u64::from(grade.refuses());
    }
    100.0 * count as f64 / bows as f64
}

/// Prints the table.
pub fn print(first: u64, bows: u64) {
    println!(
        "\nmis-spined, decided from the card (errors 3 % weight, 1 % length, 3 % spine); the bands \
         define the classes, so this shows what card errors cost and nothing about real bows"
    );
    for (name, kind) in [
        ("compound, aid", Kind::Aid),
        ("recurve, fingers", Kind::Fingers),
    ] {
        let share = |low, high| refused(kind, [low, high], first, bows);
        println!(
            "  {name}: refused of matched (0.85 to 1.15) {:.1} %, of weak (1.35 to 1.8) {:.1} %, \
             of weak just past the band (1.25 to 1.35) {:.1} %, of stiff (0.5 to 0.65) {:.1} %",
            share(0.85, 1.15),
            share(1.35, 1.8),
            share(1.25, 1.35),
            share(0.5, 0.65)
        );
    }
}
