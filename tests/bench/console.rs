//! What the console costs, beside a general-purpose peer in the same run.
//!
//! ```sh
//! cargo bench --bench console                            # tearbench alone
//! TEARBENCH_PEER=/path/to/program cargo bench --bench console
//! ```
//!
//! `TEARBENCH_PEER_KEYS` is what is typed at the peer as a cursor move (Tab
//! where it is not set). Every figure is the median of several runs in a
//! pseudo-terminal that answers nothing.

#[path = "console/pty.rs"]
mod pty;

use std::io::Write as _;
use std::time::{Duration, Instant};

use pty::{Burst, Watched};

/// Starts a figure is the median of.
const STARTS: usize = 9;
/// Keys a figure is the median of.
const KEYS: usize = 15;
/// How long silence is listened to.
const IDLE: Duration = Duration::from_secs(10);
const SIZES: [(u16, u16); 2] = [(120, 40), (80, 24)];
const CURSOR: &str = "\u{1b}[D";

/// A program to measure.
struct Program {
    name: &'static str,
    path: String,
    /// A key that moves a cursor, and what to type before the first.
    cursor: (String, &'static str),
    quit: &'static str,
}

fn median(mut values: Vec<f64>) -> f64 {
    values.sort_by(f64::total_cmp);
    values[values.len() / 2]
}

fn main() {
    let mut programs = vec![Program {
        name: "tearbench",
        path: env!("CARGO_BIN_EXE_tearbench").into(),
        cursor: (CURSOR.into(), "g"),
        quit: "\u{1b}[Aq",
    }];
    if let Ok(path) = std::env::var("TEARBENCH_PEER") {
        let keys = std::env::var("TEARBENCH_PEER_KEYS").unwrap_or_else(|_| "\t".into());
        programs.push(Program {
            name: "peer",
            path,
            cursor: (keys, ""),
            quit: "q",
        });
    }
    println!(
        "| | size | first frame ms | of it bytes | idle bytes in 10 s | cursor key bytes | cursor key ms to first / last byte | RSS MiB |"
    );
    println!("|---|---|---|---|---|---|---|---|");
    for program in &programs {
        for size in SIZES {
            row(program, size);
        }
    }
    let floor = median(
        (0..STARTS)
            .map(|_| {
                let mut echo = Watched::start("/bin/echo", &["x"], (80, 24));
                ms(echo.burst().last)
            })
            .collect(),
    );
    println!("| process floor (`/bin/echo`) | | {floor:.1} | | | | | |\n");
    keys();
}

fn ms(time: Duration) -> f64 {
    time.as_secs_f64() * 1e3
}

fn row(program: &Program, size: (u16, u16)) {
    let (mut first, mut bytes) = (Vec::new(), Vec::new());
    for _ in 0..STARTS {
        let mut run = Watched::start(&program.path, &[], size);
        let burst = run.burst();
        first.push(ms(burst.last));
        bytes.push(burst.bytes as f64);
        run.end(program.quit);
    }
    let mut run = Watched::start(&program.path, &[], size);
    run.burst();
    let idle = run.bytes_in(IDLE);
    let memory = run.rss_mib();
    run.send(program.cursor.1);
    let moves = bursts(&mut run, &program.cursor.0);
    run.end("\u{1b}");
    println!(
        "| {} | {}x{} | {:.1} | {:.0} | {idle} | {} | {memory:.1} |",
        program.name,
        size.0,
        size.1,
        median(first),
        median(bytes),
        told(&moves, " | ")
    );
}

fn bursts(run: &mut Watched, keys: &str) -> Vec<Burst> {
    (0..KEYS).map(|_| run.send(keys)).collect()
}

fn told(all: &[Burst], between: &str) -> String {
    let of = |pick: fn(&Burst) -> f64| median(all.iter().map(pick).collect());
    format!(
        "{:.0}{between}{:.2} / {:.2}",
        of(|b| b.bytes as f64),
        of(|b| ms(b.first)),
        of(|b| ms(b.last))
    )
}

/// Shots recorded one after another.
fn shots(mut run: Watched) -> Vec<Burst> {
    let all = (0..KEYS)
        .map(|n| {
            run.send(&format!("{}l4h", 9 + n % 3));
            run.send("\r")
        })
        .collect();
    run.end("\u{1b}[Aq");
    all
}

/// What the disk itself takes to keep an entry, ms.
fn synced(path: &std::path::Path) -> f64 {
    let mut file = std::fs::File::create(path).unwrap();
    let times = (0..KEYS).map(|_| {
        let begun = Instant::now();
        file.write_all(&[b'x'; 160]).unwrap();
        file.sync_all().unwrap();
        ms(begun.elapsed())
    });
    median(times.collect())
}

/// What each kind of key costs on the console.
fn keys() {
    println!("| tearbench, a key | 120x40: bytes, ms to first / last byte | 80x24: the same |");
    println!("|---|---|---|");
    let mut table: Vec<(&str, Vec<String>)> = Vec::new();
    let mut add = |name: &'static str, all: &[Burst]| {
        let cell = told(all, ", ");
        match table.iter_mut().find(|(n, _)| *n == name) {
            Some((_, cells)) => cells.push(cell),
            None => table.push((name, vec![cell])),
        }
    };
    for size in SIZES {
        let mut run = Watched::start(env!("CARGO_BIN_EXE_tearbench"), &[], size);
        run.burst();
        let kinds: [(&'static str, &str, &str); 4] = [
            ("a digit that begins a tear", "1", "\u{1b}"),
            ("an arrow in the tear", CURSOR, ""),
            ("help opened", "?", "\u{1b}"),
            ("a line in the log", "\u{1b}[A", ""),
        ];
        for (name, key, after) in kinds {
            match name {
                "an arrow in the tear" => {
                    run.send("1");
                }
                "a line in the log" => {
                    run.send("l");
                }
                _ => {}
            }
            let mut all = Vec::new();
            for _ in 0..KEYS {
                all.push(run.send(key));
                if !after.is_empty() {
                    run.send(after);
                }
            }
            run.send("\u{1b}");
            add(name, &all);
        }
        add("Enter: a shot worked out and shown", &shots(run));
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("bow.toml");
        std::fs::write(&file, include_str!("../../sample-sessions/half-way.toml")).unwrap();
        let mut run = Watched::start(
            env!("CARGO_BIN_EXE_tearbench"),
            &[file.to_str().unwrap()],
            size,
        );
        run.burst();
        add("Enter: the same, kept on disk first", &shots(run));
    }
    for (name, cells) in table {
        println!("| {name} | {} |", cells.join(" | "));
    }
    let folder = tempfile::tempdir().unwrap();
    println!(
        "\nThe disk alone, 160 bytes appended and synced: {:.2} ms",
        synced(&folder.path().join("probe"))
    );
}
