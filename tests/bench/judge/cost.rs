//! What one decision costs, from a few shots to ten thousand.

use super::rng::Rng;
use tearbench::belief::{Axis, Belief, OWNER, Obs, Place, Prior};
use tearbench::tuner::{Range, Task, Track, choose, gates};

/// A long practice: shots at `settings` places in turn, three a visit.
fn practice(shots: usize, settings: usize, arrows: u32) -> Vec<Obs> {
    let mut rng = Rng::new(7);
    (0..shots)
        .map(|i| {
            let s = (i / 3) % settings;
            let mut place = Place::start(2, 2.0);
            place.positions = vec![
                0.25 * ((s % 33) as f64 - 16.0),
                0.25 * ((s / 33) as f64 - 8.0),
            ];
            place.arrow = (arrows > 0).then_some(i as u32 % arrows.max(1));
            let [x, y] = [place.positions[0], place.positions[1]];
            let tear = [
                -8.0 - 2.5 * x + 3.0 * rng.normal(),
                5.0 - 2.0 * y + 2.0 * rng.normal(),
            ];
            Obs {
                place,
                called_bad: false,
                tear: tear.map(f64::round),
            }
        })
        .collect()
}

/// Prints the milliseconds of one full decision.
pub fn print() {
    let range = |axis| Range {
        axis,
        step: 0.25,
        low: -8.0,
        high: 8.0,
        usable: true,
    };
    let task = Task::new(vec![range(Axis::Right), range(Axis::Up)], 6.0);
    let prior = Prior::aid();
    println!("\none decision (belief, choice, other stories), ms");
    let cases = [
        (10, 3, 0),
        (20, 6, 0),
        (60, 12, 0),
        (60, 12, 6),
        (10_000, 40, 0),
        (10_000, 400, 6),
    ];
    for (shots, settings, arrows) in cases {
        let list = practice(shots, settings, arrows);
        let rounds = (2000 / shots).max(1);
        let clock = std::time::Instant::now();
        for _ in 0..rounds {
            let belief = Belief::fit(&prior, &list, OWNER);
            let track = Track::count(&list, &list[shots - 1].place, OWNER);
            let decision = choose(&belief, &task, &track);
            let evidence = gates::evidence(&belief, &task, &list, &track);
            std::hint::black_box((decision, evidence));
        }
        let ms = 1e3 * clock.elapsed().as_secs_f64() / rounds as f64;
        println!("  {shots:>6} shots, {settings:>3} settings, {arrows} numbered arrows: {ms:.2}");
    }
}
