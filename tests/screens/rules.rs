//! What must hold on every screen at every size.

use std::collections::BTreeSet;

use crate::support::{lines, look, look_with, press, sample, text, type_text};
use tearbench::actions::{ACTIONS, Key};
use tearbench::look::Theme;
use tearbench::tui::{App, Look};
use tearbench::units::System;

const SIZES: [(u16, u16); 12] = [
    (40, 12),
    (41, 13),
    (53, 16),
    (54, 18),
    (60, 20),
    (75, 24),
    (76, 24),
    (80, 24),
    (99, 30),
    (100, 30),
    (120, 40),
    (200, 60),
];
pub const SESSIONS: [&str; 8] = [
    "half-way",
    "converges-cleanly",
    "arrow-too-weak",
    "arrow-too-stiff",
    "shots-do-not-repeat",
    "answers-backwards",
    "left-handed-recurve",
    "rest-does-nothing",
];
pub const SCREENS: [&str; 21] = [
    "answer",
    "files",
    "take-move",
    "practice",
    "before",
    "proof",
    "put-back",
    "sheet",
    "",
    "card",
    "log",
    "checks",
    "why",
    "help",
    "next-shots",
    "incident",
    "mark",
    "shot",
    "spine",
    "distances",
    "look",
];

fn opened(session: &str, screen: &str, system: System, theme: Theme) -> App {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/sample-sessions").into();
    let look = Look {
        folder,
        ..look_with(system, theme)
    };
    let mut app = sample(session, look);
    if !screen.is_empty() {
        press(&mut app, screen);
    }
    app
}

fn words(text: &str) -> impl Iterator<Item = String> + '_ {
    text.split(|c: char| !c.is_alphabetic())
        .filter(|w| w.chars().count() > 2)
        .map(str::to_owned)
}

/// Every word a screen may show: what it shows where there is room for all
/// of it, and the words of the table.
fn vocabulary(session: &str, screen: &str, system: System) -> BTreeSet<String> {
    let mut known = BTreeSet::new();
    let mut app = opened(session, screen, system, Theme::plain());
    for turn in 0..5 {
        // So wide that nothing needs to be left out, so high that nothing is below the edge.
        known.extend(words(&text(&app, 300, 120)));
        let down = turn < 3;
        app.press(if down { Key::Down } else { Key::Right });
    }
    let mut app = opened(session, "", system, Theme::plain());
    known.extend(words(&text(&app, 400, 300)));
    // Low enough for an order in letters instead of block figures.
    known.extend(words(&text(&app, 300, 18)));
    app.press(Key::Tab);
    for spec in ACTIONS {
        known.extend(words(spec.doc));
        known.extend(words(spec.label));
    }
    let card = &app.timeline().card;
    known.extend(words(&card.title()));
    let other = "Enter Esc about left right high low arrows write clean Demo not named handed Tab next pane more";
    known.extend(words(other));
    known
}

#[test]
fn no_word_is_cut_and_no_title_is_missing_at_any_size() {
    for system in [System::Mm, System::Inch] {
        for session in SESSIONS {
            for screen in SCREENS {
                let known = vocabulary(session, screen, system);
                let app = opened(session, screen, system, Theme::plain());
                for (width, height) in SIZES {
                    let shown = text(&app, width, height);
                    for word in words(&shown) {
                        assert!(
                            known.contains(&word),
                            "{word:?} is cut ({session}, {screen}, {width}x{height}):\n{shown}"
                        );
                    }
                }
            }
        }
    }
}

#[test]
fn titles_stand_on_the_panes_that_are_shown() {
    for (width, height) in SIZES {
        let app = opened("half-way", "", System::Mm, Theme::coloured());
        let shown = text(&app, width, height);
        let titles = ["Tear ", "Next step ", "Convergence "]
            .iter()
            .filter(|t| shown.contains(&format!(" {t}")))
            .count();
        let wanted = match width {
            76.. => 3,
            54.. => 2,
            _ => 1,
        };
        assert_eq!(titles, wanted, "{width}x{height}\n{shown}");
    }
}

#[test]
fn the_verdict_is_readable_at_every_size_in_both_colours() {
    for theme in [Theme::coloured(), Theme::plain()] {
        for session in SESSIONS {
            let app = opened(session, "", System::Mm, theme);
            for (width, height) in SIZES {
                let shown = text(&app, width, height);
                let verdicts = ["SHOOT", "MOVE", "TEST", "LEAVE", "WITHIN"];
                assert!(
                    verdicts.iter().any(|v| shown.contains(v)),
                    "{session} {width}x{height}\n{shown}"
                );
            }
        }
    }
}

#[test]
fn too_small_a_screen_says_what_is_needed_and_still_quits() {
    let mut app = sample("half-way", look());
    for (width, height) in [(39, 12), (40, 11), (20, 5), (1, 1), (10, 3)] {
        let shown = lines(&app, width, height);
        assert_eq!(shown.len(), usize::from(height));
    }
    assert!(text(&app, 39, 11).contains("needs 40 columns"));
    press(&mut app, "quit");
    assert!(app.wants_to_quit());
}

#[test]
fn without_colour_no_cell_has_a_colour() {
    for screen in SCREENS {
        let app = opened("half-way", screen, System::Mm, Theme::plain());
        let cells = crate::support::cells(&app, 100, 30);
        assert!(
            cells
                .content
                .iter()
                .all(|c| c.fg == ratatui::style::Color::Reset
                    && c.bg == ratatui::style::Color::Reset)
        );
    }
}

#[test]
fn a_name_that_would_break_the_screen_is_shown_safely() {
    let mut app = sample("half-way", look());
    press(&mut app, "note");
    type_text(&mut app, &"w".repeat(300));
    app.press(Key::Enter);
    press(&mut app, "log");
    for (width, height) in SIZES {
        let _ = text(&app, width, height);
    }
}

#[test]
fn nothing_is_left_out_of_a_screen_that_is_as_wide_as_a_bench_has_it() {
    // The status line and the titles may shorten the bow's name.
    let mut found = Vec::new();
    for session in SESSIONS {
        for screen in SCREENS.iter().filter(|s| !s.is_empty()) {
            let app = opened(session, screen, System::Mm, Theme::plain());
            for (width, height) in [(60, 20), (80, 24), (120, 40)] {
                let shown = lines(&app, width, height);
                let left_out = shown[2..].iter().find(|l| l.contains("..."));
                found.extend(
                    left_out.map(|l| format!("{session}, {screen}, {width}x{height}: {l}")),
                );
            }
        }
    }
    assert!(found.is_empty(), "{}", found.join("\n"));
}

/// Whether a screen gives the chance of being within tolerance.
fn chance_now(shown: &str) -> bool {
    let says = |line: &str| line.contains(" now ") && line.contains('%');
    shown.lines().any(says)
}

#[test]
fn no_chance_of_success_stands_beside_a_refusal() {
    for name in ["shots-do-not-repeat", "arrow-too-weak", "rest-does-nothing"] {
        let app = crate::support::sample(name, crate::support::look());
        let shown = crate::support::text(&app, 80, 24);
        assert!(shown.contains("LEAVE THE REST ALONE"), "{name}: {shown}");
        assert!(!chance_now(&shown), "{name}: {shown}");
    }
    let app = crate::support::sample("half-way", crate::support::look());
    assert!(chance_now(&crate::support::text(&app, 80, 24)));
}
