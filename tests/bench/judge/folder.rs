//! Folders: twelve similar bows tuned one after another, each session told
//! what those before it taught, and then one of the other sign.
//!
//! Similar are bows of the world of usual signs: the sideways slope from -0.5
//! to -4 mm per mm, the vertical's as usual, each with its own owner.

use super::bow::{Bench, Bow, Shape};
use super::ours::{self, Ran, USUAL};
use super::out_of_tolerance;
use super::policy::{self, End, tolerance};
use super::table::{HEADING, Run, Tally};
use super::world::{WORLDS, World};
use tearbench::book::Lessons;
use tearbench::gear::{Card, CardText};
use tearbench::session::{LearnedRecord, Session};

/// Bows of a folder, and those at its end that are counted.
const BOWS: u64 = 12;
const COUNTED: u64 = 3;

/// The card of the nth bow of a folder: a name and an owner of its own.
fn card(bench: &Bench, world: &World, n: u64) -> String {
    let text = ours::card(bench, world.kind, USUAL.level);
    let mut text = CardText::from_toml(&text).expect("a card");
    for (key, what) in [("bow.name", "bow"), ("job.owner", "owner")] {
        text.set(key, &format!("{what} {n}"))
            .expect("a field of the card");
    }
    text.to_toml()
}

/// The same bow with its sideways travel turned round.
fn turned(bow: &Bow) -> Bow {
    let shape = match &bow.shape[0] {
        Shape::Line(s) => Shape::Line(-s),
        Shape::Bend(s, c) => Shape::Bend(-s, *c),
        other => other.clone(),
    };
    Bow {
        shape: [shape, bow.shape[1].clone()],
        cross: [bow.cross[0], -bow.cross[1]],
        ..bow.clone()
    }
}

/// One bow of a folder, as it was tuned.
struct Tuned {
    run: Run,
    session: Session,
}

fn tune(world: &World, bow: &Bow, seed: u64, n: u64, learned: Option<LearnedRecord>) -> Tuned {
    let mut bench = Bench::new(bow, seed);
    let text = card(&bench, world, n);
    let (end, ran, session) = ours::run_on(&mut bench, world.kind, USUAL, seed, &text, learned);
    if std::env::var("JUDGE_TRACE").is_ok() {
        eprintln!(
            "bow {seed} {bow:?}\n   end {end:?} {ran:?} truth {:.1?}",
            bench.truth()
        );
    }
    Tuned {
        run: counted(world, bow, &bench, end, ran),
        session,
    }
}

fn counted(world: &World, bow: &Bow, bench: &Bench, end: End, ran: Ran) -> Run {
    let reach = |(_, m): &([f64; 2], [f64; 2])| m[0].hypot(m[1]) <= tolerance(world.kind);
    Run {
        end,
        ran,
        shots: bench.shots,
        moves: bench.moves,
        truth: bench.truth(),
        class: bow.class,
        kind: world.kind,
        curable: bench.grid().iter().any(reach),
    }
}

/// What a folder of sessions teaches the bow of a card.
fn taught(sessions: &[Session], bench: &Bench, world: &World, n: u64) -> Option<LearnedRecord> {
    let text = CardText::from_toml(&card(bench, world, n)).expect("a card");
    let card = Card::read(&text).expect("a card").0;
    Lessons::of_sessions(sessions.iter().rev()).for_card(&card)
}

/// Rows of one kind of bow: alone, with the folder, the response known.
#[derive(Default)]
struct Rows {
    alone: Tally,
    learned: Tally,
    known: Tally,
}

impl Rows {
    fn add(&mut self, world: &World, bow: &Bow, seed: u64, n: u64, sessions: &[Session]) -> Tuned {
        let learned = taught(sessions, &Bench::new(bow, seed), world, n);
        let tuned = tune(world, bow, seed, n, learned);
        self.learned.add(&tuned.run);
        self.alone.add(&tune(world, bow, seed, n, None).run);
        let mut bench = Bench::new(bow, seed);
        let end = policy::oracle(&mut bench, world.kind);
        self.known
            .add(&counted(world, bow, &bench, end, Ran::default()));
        tuned
    }

    fn print(&self) {
        println!("{HEADING}");
        for (name, tally) in [
            ("nothing learned", &self.alone),
            ("told by the folder", &self.learned),
            ("response known (harmonic oracle)", &self.known),
        ] {
            println!(
                "{}",
                tally.line(&format!("{name}, mean {:.2} shots", tally.mean_shots()))
            );
        }
        println!("\n{}\n", self.learned.promises());
    }
}

/// Plays the folders and prints the rows.
pub fn print(first: u64, folders: u64) {
    let usual = |w: &&World| w.name == "compound, usual signs";
    let world = WORLDS.iter().find(usual).expect("the world of usual signs");
    let (mut last, mut other) = (Rows::default(), Rows::default());
    for folder in 0..folders {
        let seed = |n: u64| first + (BOWS + 1) * folder + n;
        let mut sessions: Vec<Session> = Vec::new();
        for n in 0..BOWS {
            let bow = out_of_tolerance(world, seed(n));
            let tuned = if n + COUNTED < BOWS {
                let learned = taught(&sessions, &Bench::new(&bow, seed(n)), world, n);
                tune(world, &bow, seed(n), n, learned)
            } else {
                last.add(world, &bow, seed(n), n, &sessions)
            };
            sessions.push(tuned.session);
        }
        let bow = turned(&out_of_tolerance(world, seed(BOWS)));
        other.add(world, &bow, seed(BOWS), BOWS, &sessions);
    }
    println!("\nfolders: the last {COUNTED} of {BOWS} similar bows ({folders} folders)\n");
    last.print();
    println!("folders: a bow of the other sign after them\n");
    other.print();
}
