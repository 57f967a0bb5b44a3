//! The judging bench: virtual bows, the program followed to the letter, and
//! the habits it replaces.
//!
//! `cargo bench --bench judge` prints one table. Settings in the environment:
//! `JUDGE_BOWS` (bows a world, default 500), `JUDGE_SEED` (first seed, default
//! the reported series), `JUDGE_WORLD` (only worlds whose name contains it),
//! `JUDGE_ONLY` (ours alone), `JUDGE_KNOWN` (ours and a policy that knows the
//! response), `JUDGE_FAILURES` (runs that did not end well, to stderr),
//! `JUDGE_TRACE` (every shot to stderr).
//! Seeds below 100000 were used for tuning; the reported series starts at
//! 700000.

#[path = "judge/bow.rs"]
mod bow;
#[path = "judge/cost.rs"]
mod cost;
#[path = "judge/failures.rs"]
mod failures;
#[path = "judge/folder.rs"]
mod folder;
#[path = "judge/hard.rs"]
mod hard;
#[path = "judge/mechanics.rs"]
mod mechanics;
#[path = "judge/ours.rs"]
mod ours;
#[path = "judge/policy.rs"]
mod policy;
#[path = "judge/rng.rs"]
mod rng;
#[path = "judge/spine.rs"]
mod spine;
#[path = "judge/table.rs"]
mod table;
#[path = "judge/world.rs"]
mod world;

use bow::Bench;
use ours::{Ran, Style, USUAL};
use policy::{End, tolerance};
use rng::Rng;
use table::{Run, Tally};
use world::World;

fn number(name: &str, default: u64) -> u64 {
    std::env::var(name)
        .ok()
        .and_then(|v| v.parse().ok())
        .unwrap_or(default)
}

fn judge(
    world: &World,
    seeds: std::ops::Range<u64>,
    mut play: impl FnMut(&mut Bench, u64) -> (End, Ran),
) -> Tally {
    let trace = std::env::var("JUDGE_TRACE").is_ok();
    let mut tally = Tally::default();
    for seed in seeds {
        let bow = out_of_tolerance(world, seed);
        let mut bench = Bench::new(&bow, seed);
        if trace {
            eprintln!("bow {seed} {bow:?}");
        }
        let (end, ran) = play(&mut bench, seed);
        if trace {
            let (truth, shots) = (bench.truth(), bench.shots);
            eprintln!("   end {end:?} {ran:?} truth {truth:.1?} shots {shots}");
        }
        tally.add(&Run {
            end,
            ran,
            shots: bench.shots,
            moves: bench.moves,
            truth: bench.truth(),
            class: bow.class,
            kind: world.kind,
            inside: bench.share_inside(tolerance(world.kind)),
        });
    }
    tally
}

/// A bow of this world that is worth tuning: drawn again where it starts
/// within the tolerance of its release.
fn out_of_tolerance(world: &World, seed: u64) -> bow::Bow {
    let mut rng = Rng::new(seed);
    loop {
        let bow = (world.make)(&mut rng);
        if bow.start[0].hypot(bow.start[1]) > tolerance(world.kind) {
            return bow;
        }
    }
}

/// A policy that knows each bow's response exactly: no reach above it.
fn known(w: &World, seeds: &std::ops::Range<u64>) {
    let t = judge(w, seeds.clone(), |b, _| {
        (policy::oracle(b, w.kind), Ran::default())
    });
    println!("{}", t.line("response known"));
}

/// The habits the program is judged against.
fn habits(w: &World, seeds: &std::ops::Range<u64>) {
    type Habit = fn(&mut Bench, world::Kind) -> End;
    let all: [(&str, Habit); 4] = [
        ("rule of thumb", policy::thumb),
        ("reversing when worse", policy::thumb_reversing),
        ("three-shot groups, regression", policy::groups),
        ("response known (harmonic oracle)", policy::oracle),
    ];
    for (name, habit) in all {
        let t = judge(w, seeds.clone(), |b, _| (habit(b, w.kind), Ran::default()));
        println!("{}", t.line(name));
    }
    for first in 1..=3 {
        let style = Style {
            first_shots: Some(first),
            ..USUAL
        };
        let t = judge(w, seeds.clone(), |b, seed| {
            ours::run(b, w.kind, style, seed)
        });
        println!(
            "{}",
            t.line(&format!("the tuner alone, {first} shots first"))
        );
    }
}

fn main() {
    let (bows, first) = (number("JUDGE_BOWS", 500), number("JUDGE_SEED", 700_000));
    let only = std::env::var("JUDGE_WORLD").unwrap_or_default();
    let alone = std::env::var("JUDGE_ONLY").is_ok();
    println!(
        "{bows} bows a world, seeds from {first}; shots and moves median/90th, the rest % of runs"
    );
    let mut stated: Vec<(f64, bool)> = Vec::new();
    for w in world::WORLDS.iter().filter(|w| w.name.contains(&only)) {
        let seeds = first..first + bows;
        println!("\n{}\n\n{}", w.name, table::HEADING);
        if std::env::var("JUDGE_KNOWN").is_ok() {
            known(w, &seeds);
        } else if !alone {
            habits(w, &seeds);
        }
        let clock = std::time::Instant::now();
        let t = judge(w, seeds.clone(), |b, seed| {
            ours::run(b, w.kind, USUAL, seed)
        });
        println!("{}\n\n{}", t.line("the program, followed"), t.promises());
        for (name, c) in ["good", "average", "poor"].iter().zip(t.classes) {
            if c[0] > 0 {
                let p = |n: usize| 100.0 * n as f64 / c[0] as f64;
                println!(
                    "    {name}: success {:.1}, wrong {:.1}, refused for scatter {:.1} (of {})",
                    p(c[1]),
                    p(c[2]),
                    p(c[3]),
                    c[0]
                );
            }
        }
        eprintln!("    ({:.1} s)", clock.elapsed().as_secs_f64());
        if w.tunable {
            stated.extend(t.stated);
        }
    }
    if only.is_empty() {
        spine::print(first, bows);
        calibration(first, bows);
        binned(&stated);
    }
    if only.is_empty() || only.starts_with("folder") {
        folder::print(first, bows, &only);
    }
    if only.is_empty() || only == "cost" {
        cost::print();
    }
}

/// How often each level asked for keeps its promise, and what it costs.
fn calibration(first: u64, bows: u64) {
    println!("\nthe level asked for, over the worlds that can be tuned without the launch model");
    for level in [0.90, 0.95, 0.99] {
        let (mut all, mut inside, mut runs, mut shots) = (0usize, 0usize, 0usize, Vec::new());
        for w in world::WORLDS
            .iter()
            .filter(|w| w.tunable && !w.name.starts_with("launch"))
        {
            let style = Style { level, ..USUAL };
            let t = judge(w, first..first + bows / 4, |b, seed| {
                ours::run(b, w.kind, style, seed)
            });
            all += t.stated.len();
            inside += t.stated.iter().filter(|s| s.1).count();
            runs += t.runs();
            shots.extend_from_slice(t.shots());
        }
        shots.sort_unstable();
        println!(
            "  {:.0} %: done in {:.1} % of {runs} runs, truly inside {:.1} % of those, shots {}/{}",
            100.0 * level,
            100.0 * all as f64 / runs.max(1) as f64,
            100.0 * inside as f64 / all.max(1) as f64,
            shots[shots.len() / 2],
            shots[shots.len() * 9 / 10]
        );
    }
}

fn binned(stated: &[(f64, bool)]) {
    println!(
        "\nruns that ended as done at 95 %, by the chance stated (all worlds that can be tuned)"
    );
    for (low, high) in [
        (0.95, 0.96),
        (0.96, 0.97),
        (0.97, 0.98),
        (0.98, 0.99),
        (0.99, 1.01),
    ] {
        let here: Vec<&(f64, bool)> = stated.iter().filter(|s| s.0 >= low && s.0 < high).collect();
        let n = here.len().max(1) as f64;
        let inside = here.iter().filter(|s| s.1).count() as f64 / n;
        let mean = here.iter().map(|s| s.0).sum::<f64>() / n;
        println!(
            "  {} runs: stated {mean:.3}, truly inside {inside:.3}",
            here.len()
        );
    }
}
