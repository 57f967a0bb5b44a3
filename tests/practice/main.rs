//! Practice bows and the program's own advice on them.

use tearbench::practice::{Conclusion, Fault, Job, LEVELS, Practice, play};

/// Bows of each level.
const SEEDS: std::ops::Range<u64> = 100..108;

#[test]
fn the_programs_own_advice_solves_every_level() {
    let mut table = String::new();
    let mut right = 0;
    for level in LEVELS {
        let mut here = 0;
        for seed in SEEDS {
            let mut practice = Practice::new(seed, level);
            let mut session = practice.session();
            let played = play(&mut practice, &mut session);
            here += usize::from(played.right);
            table.push_str(&format!(
                "level {level} seed {seed} {:?}: {:?} after {} shots, {} moves, {}\n",
                practice.faults(),
                played.end,
                played.shots,
                played.moves,
                if played.right { "right" } else { "WRONG" }
            ));
        }
        right += here;
        table.push_str(&format!("level {level}: {here} of {}\n", SEEDS.count()));
    }
    println!("{table}");
    assert!(right >= 36, "{table}");
}
