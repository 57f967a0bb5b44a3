//! Folders: twelve similar bows tuned one after another, each session told
//! what those before it taught, and then one of the other sign.
//!
//! Similar are bows of one world: compounds of usual signs (the sideways slope
//! from -0.5 to -4 mm per mm, the vertical's as usual), each with its own owner
//! or all with one; or finger bows whose button is cleared, or slapped.

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

/// The nth bow of a folder, and who owns it.
#[derive(Clone, Copy)]
struct Who {
    n: u64,
    owners: Owners,
}

/// The card of a bow of a folder: a name of its own, and its owner's.
fn card(bench: &Bench, world: &World, who: Who) -> String {
    let text = ours::card(bench, world.kind, USUAL.level);
    let mut text = CardText::from_toml(&text).expect("a card");
    let owner = match who.owners {
        Owners::Each => who.n,
        Owners::One => 0,
    };
    for (key, what) in [
        ("bow.name", format!("bow {}", who.n)),
        ("job.owner", format!("owner {owner}")),
    ] {
        text.set(key, &what).expect("a field of the card");
    }
    text.to_toml()
}

/// The same bow with its sideways travel turned round.
fn turned(bow: &Bow) -> Bow {
    let shape = match &bow.shape[0] {
        Shape::Line(s) => Shape::Line(-s),
        Shape::Bend(s, c) => Shape::Bend(-s, *c),
        Shape::Kink { at, below, above } => Shape::Kink {
            at: -at,
            below: -above,
            above: -below,
        },
        other @ Shape::Contact { .. } => other.clone(),
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

fn tune(world: &World, bow: &Bow, seed: u64, who: Who, learned: Option<LearnedRecord>) -> Tuned {
    let mut bench = Bench::new(bow, seed);
    let text = card(&bench, world, who);
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
    Run {
        end,
        ran,
        shots: bench.shots,
        moves: bench.moves,
        truth: bench.truth(),
        class: bow.class,
        kind: world.kind,
        inside: bench.share_inside(tolerance(world.kind)),
    }
}

/// What a folder of sessions teaches the bow of a card.
fn taught(sessions: &[Session], bench: &Bench, world: &World, who: Who) -> Option<LearnedRecord> {
    let text = CardText::from_toml(&card(bench, world, who)).expect("a card");
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
    fn add(
        &mut self,
        world: &World,
        bow: &Bow,
        seed: u64,
        who: Who,
        sessions: &[Session],
    ) -> Tuned {
        let learned = taught(sessions, &Bench::new(bow, seed), world, who);
        let tuned = tune(world, bow, seed, who, learned);
        self.learned.add(&tuned.run);
        self.alone.add(&tune(world, bow, seed, who, None).run);
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

/// The kinds of folder: the world, and whether one owner shoots all bows.
const FOLDERS: [(&str, &str, Owners); 4] = [
    ("folder", "compound, usual signs", Owners::Each),
    ("folder, one owner", "compound, usual signs", Owners::One),
    (
        "folder, fingers, cleared",
        "recurve, fingers, button cleared (against the rest)",
        Owners::Each,
    ),
    (
        "folder, fingers, slapped",
        "recurve, fingers, button slapped (with the rest)",
        Owners::Each,
    ),
];

/// Who shoots the bows of a folder.
#[derive(Clone, Copy, PartialEq)]
enum Owners {
    /// Each bow its own owner, with a scatter of his own.
    Each,
    /// One owner, whose scatter the folder comes to know.
    One,
}

/// Plays the kinds of folder that are asked for and prints their rows.
pub fn print(first: u64, folders: u64, only: &str) {
    for (name, world, owners) in FOLDERS {
        if only.is_empty() || only == name {
            let world = WORLDS.iter().find(|w| w.name == world);
            play(name, world.expect("a world"), owners, first, folders);
        }
    }
}

/// A bow of the folder; with one owner it is shot as the first one is.
fn drawn(world: &World, owners: Owners, seed: u64, first: u64) -> Bow {
    let bow = out_of_tolerance(world, seed);
    if owners == Owners::Each {
        return bow;
    }
    let own = out_of_tolerance(world, first);
    Bow {
        sd: own.sd,
        class: own.class,
        ..bow
    }
}

fn play(name: &str, world: &World, owners: Owners, first: u64, folders: u64) {
    let (mut last, mut other) = (Rows::default(), Rows::default());
    for folder in 0..folders {
        let seed = |n: u64| first + (BOWS + 1) * folder + n;
        let bow = |n: u64| drawn(world, owners, seed(n), seed(0));
        let mut sessions: Vec<Session> = Vec::new();
        for n in 0..BOWS {
            let (bow, who) = (bow(n), Who { n, owners });
            let tuned = if n + COUNTED < BOWS {
                let learned = taught(&sessions, &Bench::new(&bow, seed(n)), world, who);
                tune(world, &bow, seed(n), who, learned)
            } else {
                last.add(world, &bow, seed(n), who, &sessions)
            };
            sessions.push(tuned.session);
        }
        let who = Who { n: BOWS, owners };
        other.add(world, &turned(&bow(BOWS)), seed(BOWS), who, &sessions);
    }
    println!("\n{name}: the last {COUNTED} of {BOWS} similar bows ({folders} folders)\n");
    last.print();
    println!("{name}: a bow of the other sign after them\n");
    other.print();
}
