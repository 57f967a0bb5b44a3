//! The session file at 5,000 and 100,000 entries: reading it, adding to it,
//! advising and reporting on it, repairing it.
//!
//! `STORE_ENTRIES=5000` tries that one size. Figures as measured stand in
//! `store/RESULTS.md`.

use std::time::{Duration, Instant};

use tearbench::advice;
use tearbench::gear::CardText;
use tearbench::range::Today;
use tearbench::report::{self, Format, Options};
use tearbench::session::{Entry, Event, Session, Shot, repair};

const CARD: &str = include_str!("../scenarios/cards/compound.toml");

/// A session of so many shots with a move after every fiftieth.
fn written(entries: u32) -> String {
    let card = CardText::from_toml(CARD).expect("a sound card");
    let mut text = format!("{}\n# end of card\n", card.to_toml());
    for number in 1..=entries {
        let event = if number % 50 == 0 {
            let steps = vec![tearbench::gear::Step {
                adjuster: tearbench::gear::AdjusterKind::RestSideways,
                amount: if number % 100 == 0 { 0.5 } else { -0.5 },
            }];
            Event::Move {
                steps,
                said: None,
                confirms: None,
            }
        } else {
            Event::Shot(Shot {
                right: f64::from(number % 7) - 3.0,
                up: f64::from(number % 5) - 2.0,
                said: Some("3 left 2 high".into()),
                ..Shot::default()
            })
        };
        text.push_str(&Entry::now(number, event).to_toml());
    }
    text
}

/// The median of a few runs.
fn median(runs: usize, mut work: impl FnMut()) -> Duration {
    let mut all: Vec<Duration> = (0..runs)
        .map(|_| {
            let began = Instant::now();
            work();
            began.elapsed()
        })
        .collect();
    all.sort();
    all[runs / 2]
}

fn row(what: &str, took: Duration) {
    println!("| {what} | {:.1} |", took.as_secs_f64() * 1000.0);
}

fn main() {
    let sizes = std::env::var("STORE_ENTRIES").map_or_else(
        |_| vec![5_000, 100_000],
        |n| vec![n.parse().expect("a number")],
    );
    let folder = tempfile::tempdir().expect("a folder");
    for entries in sizes {
        let path = folder.path().join(format!("{entries}.toml"));
        let text = written(entries);
        std::fs::write(&path, &text).expect("written");
        println!(
            "\n| {entries} entries, {:.1} MB | ms |\n|---|---|",
            text.len() as f64 / 1e6
        );
        row(
            "open",
            median(5, || drop(Session::open(&path).expect("it opens"))),
        );
        let mut session =
            Session::open_for_writing(&path, "a bench", Duration::ZERO).expect("it is free");
        row(
            "record one shot, synced",
            median(9, || {
                session
                    .record(Event::Shot(Shot::default()))
                    .expect("recorded");
            }),
        );
        row(
            "record three holes together, synced",
            median(9, || {
                let shots = vec![Event::Shot(Shot::default()); 3];
                session.record_all(shots).expect("recorded");
            }),
        );
        row(
            "repair",
            median(3, || drop(repair::repair(text.as_bytes()))),
        );
        let today = Today::now();
        let began = Instant::now();
        let analysis = advice::analyse(session.timeline(), today);
        row("advise", began.elapsed());
        for format in Format::ALL {
            let options = Options::default();
            let took = median(3, || {
                drop(report::render(
                    session.timeline(),
                    &analysis,
                    format,
                    &options,
                ));
            });
            row(&format!("sheet as {}, after advise", format.id()), took);
        }
    }
}
