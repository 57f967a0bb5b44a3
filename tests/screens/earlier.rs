//! What the other sessions of a folder teach, on screen: the chart of the
//! bench book, and the line on the card with its one key.

use crate::support::{look, name_new, pinned, press, snapshot, styled, text};
use std::path::Path;
use std::time::Duration;
use tearbench::actions::Key;
use tearbench::gear::{AdjusterKind, CardText, Step};
use tearbench::look::GlyphChoice;
use tearbench::session::{Event, Session, Shot};
use tearbench::tui::{App, Look};

const COMPOUND: &str = include_str!("../scenarios/cards/compound.toml");

/// Writes a session of a bow whose rest moves the tear by so much a mm
/// sideways, and up.
fn tuned(folder: &Path, n: usize, slopes: [f64; 2]) {
    let mut card = CardText::from_toml(COMPOUND).unwrap();
    card.set("bow.name", &format!("bow number {n}")).unwrap();
    let path = folder.join(format!("earlier-{n}.toml"));
    Session::create(&path, &card).unwrap();
    let mut session = Session::open_for_writing(&path, "test", Duration::ZERO).unwrap();
    let mut at = [0.0; 2];
    for (axis, step) in [(0, 0.0), (1, 2.0), (0, -2.0), (0, 3.0)] {
        let adjuster = [AdjusterKind::RestSideways, AdjusterKind::RestHeight][axis];
        if step != 0.0 {
            at[axis] += step;
            let steps = vec![Step {
                adjuster,
                amount: step,
            }];
            let made = Event::Move {
                steps,
                said: None,
                confirms: None,
            };
            session.record(made).unwrap();
        }
        for noise in [0.7, -0.6] {
            let shot = Shot {
                right: 9.0 + slopes[0] * at[0] + noise,
                up: 5.0 + slopes[1] * at[1] - noise,
                ..Shot::default()
            };
            session.record(Event::Shot(shot)).unwrap();
        }
    }
    drop(session);
    // The newest is read first: the files must not be of one moment.
    let then = std::time::SystemTime::UNIX_EPOCH + Duration::from_secs(1_000_000 + n as u64);
    let file = std::fs::File::options().write(true).open(&path).unwrap();
    file.set_modified(then).unwrap();
}

fn folder() -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    let slopes = [[-2.0, -1.8], [-2.6, -3.0], [-1.7, -2.2], [3.1, -1.5]];
    for (n, slopes) in slopes.into_iter().enumerate() {
        tuned(folder.path(), n, slopes);
    }
    folder
}

fn look_in(folder: &Path) -> Look {
    Look {
        folder: folder.into(),
        ..look()
    }
}

#[test]
fn the_book_shows_what_the_folder_has_taught_a_line_a_bow() {
    let folder = folder();
    for (name, glyphs) in [("", GlyphChoice::Unicode), ("-ascii", GlyphChoice::Ascii)] {
        let mut app = pinned(Look {
            glyphs: glyphs.set(),
            ..look_in(folder.path())
        });
        press(&mut app, "files");
        app.press(Key::End);
        app.press(Key::Enter);
        assert_eq!(app.screen_title(), "What this folder teaches");
        let shown = text(&app, 80, 24);
        assert!(
            shown.contains("COMPOUND, AID, DROP-AWAY") && shown.contains("n 4"),
            "{shown}"
        );
        assert!(!shown.contains("bow number"), "{shown}");
        snapshot(&format!("screen-taught-80x24{name}"), &styled(&app, 80, 24));
        let chart = shown
            .lines()
            .filter(|l| l.contains("bow 1") || l.contains("bow 4"));
        let inside = |l: &str| l.chars().skip(1).take(77).collect::<String>();
        let plain = chart.map(inside).all(|l| l.is_ascii());
        assert_eq!(plain, !name.is_empty(), "{shown}");
        for figures in ["bow 1", "bow 4"] {
            assert_eq!(shown.matches(figures).count(), 2, "{shown}");
        }
    }
    let empty = tempfile::tempdir().unwrap();
    let mut app = pinned(look_in(empty.path()));
    press(&mut app, "files");
    app.press(Key::End);
    app.press(Key::Enter);
    assert!(text(&app, 80, 24).contains("Nothing yet. A bow teaches"));
}

#[test]
fn a_session_begun_in_the_console_is_told_and_one_key_on_its_card_leaves_it_out() {
    let folder = folder();
    let mut app = pinned(look_in(folder.path()));
    name_new(&mut app, "mine");
    app.press(Key::End);
    app.press(Key::Up);
    let card = text(&app, 80, 24);
    assert!(
        card.contains("> earlier bows") && card.contains("is used"),
        "{card}"
    );
    // Left out and taken up again before it is begun.
    app.press(Key::Enter);
    assert!(text(&app, 80, 24).contains("left out"));
    app.press(Key::Enter);
    press(&mut app, "start");
    press(&mut app, "start");
    let bows = |app: &App| app.timeline().learned.as_ref().map(|l| l.bows);
    assert_eq!(bows(&app), Some(4));
    press(&mut app, "card");
    app.press(Key::End);
    let card = text(&app, 80, 24);
    assert!(
        card.contains("4 bows of this kind, release and rest"),
        "{card}"
    );
    app.press(Key::Enter);
    assert_eq!(bows(&app), None);
    assert!(text(&app, 80, 24).contains("left out"));
    app.press(Key::Enter);
    assert_eq!(bows(&app), Some(4));
}
