//! A finding is said with the same words wherever it is shown, and the words
//! are made as it is shown: other units are drawn, not worked out again.

use std::sync::atomic::{AtomicUsize, Ordering};

use tearbench::advice::{Analysis, Memo, analyse, analyse_after};
use tearbench::range::Today;
use tearbench::report::{self, Format};
use tearbench::session::{Session, Timeline};
use tearbench::tui::App;
use tearbench::units::System;
use tearbench::words;

use crate::support::{look, press, sample, text};

const SAMPLES: [&str; 6] = [
    "half-way",
    "converges-cleanly",
    "arrow-too-weak",
    "answers-backwards",
    "shots-do-not-repeat",
    "left-handed-recurve",
];

/// A screen or a text as one run of letters: where it was wrapped, and what
/// frames it, does not count.
fn run_together(text: &str) -> String {
    let frame = |c: char| c.is_whitespace() || ('\u{2500}'..='\u{257f}').contains(&c) || c == '|';
    text.chars().filter(|c| !frame(*c)).collect()
}

fn session(name: &str) -> Session {
    let path = format!("{}/sample-sessions/{name}.toml", env!("CARGO_MANIFEST_DIR"));
    Session::from_text(&std::fs::read_to_string(path).unwrap()).unwrap()
}

#[test]
fn screens_and_sheet_say_a_finding_with_the_words_of_the_json() {
    for name in SAMPLES {
        for system in [System::Mm, System::Inch] {
            let look = tearbench::tui::Look {
                system: Some(system),
                ..look()
            };
            let mut app = sample(name, look);
            let session = session(name);
            let analysis = analyse(session.timeline(), Today::now());
            let said = words::said_here(session.timeline(), &analysis, system);
            press(&mut app, "why");
            let why = run_together(&text(&app, 200, 200));
            for reason in &said.reasons {
                let wanted = run_together(&reason.text);
                assert!(!wanted.is_empty(), "{name}: {}", reason.code);
                assert!(why.contains(&wanted), "{name}: {}: {why}", reason.text);
            }
            assert!(why.contains(&run_together(&said.headline)), "{name}");
            let mut app = sample(
                name,
                tearbench::tui::Look {
                    system: Some(system),
                    ..crate::support::look()
                },
            );
            press(&mut app, "checks");
            let checks = run_together(&text(&app, 200, 200));
            let options = report::Options {
                system,
                ..report::Options::default()
            };
            let sheet = report::render(session.timeline(), &analysis, Format::Text, &options);
            let sheet = run_together(&sheet);
            for (kind, check) in said.checks.each() {
                let wanted = run_together(&check.text);
                assert!(checks.contains(&wanted), "{name}: {}", check.text);
                let state = words::status(check.status);
                let stands = format!("{}: {state}", words::check_name(kind).to_uppercase());
                assert!(checks.contains(&run_together(&stands)), "{name}: {stands}");
                if analysis.range_due.is_none() {
                    assert!(sheet.contains(&wanted), "{name}: {}: {sheet}", check.text);
                }
            }
        }
    }
}

static WORKED_OUT: AtomicUsize = AtomicUsize::new(0);

fn counted(timeline: &Timeline, today: Today, memo: &mut Memo) -> Analysis {
    WORKED_OUT.fetch_add(1, Ordering::Relaxed);
    analyse_after(timeline, today, memo)
}

#[test]
fn other_units_are_drawn_and_nothing_is_worked_out_again() {
    let mut app = App::new(session("half-way"), false, counted, look());
    let before = WORKED_OUT.load(Ordering::Relaxed);
    let metric = text(&app, 160, 50);
    press(&mut app, "units");
    let inches = text(&app, 160, 50);
    assert_eq!(WORKED_OUT.load(Ordering::Relaxed), before);
    // The key line names both.
    let lengths = inches.replace("mm/in", "");
    assert!(metric.contains(" mm"), "{metric}");
    assert!(!lengths.contains(" mm"), "{inches}");
    assert!(inches.contains(" in"), "{inches}");
    press(&mut app, "units");
    assert_eq!(text(&app, 160, 50), metric);
    assert_eq!(WORKED_OUT.load(Ordering::Relaxed), before);
}
