//! The log: a forgotten move placed, shots handed to another session.

use crate::support::{look, press, sample, snapshot, styled, text, type_text};
use tearbench::actions::Key;
use tearbench::session::{Event, Session};
use tearbench::tui::{App, Look};

const COMPOUND: &str = include_str!("../scenarios/cards/compound.toml");

/// A console on a session in memory: three shots at one setting.
fn three_shots() -> App {
    let session = Session::from_text(COMPOUND).unwrap();
    let mut app = App::new(session, false, tearbench::advice::analyse_after, look());
    for tear in ["15 left 1 high", "14 left", "4 left 1 high"] {
        type_text(&mut app, tear);
        app.press(Key::Enter);
    }
    assert_eq!(app.timeline().shots.len(), 3);
    app
}

/// A screen without the times of its entries.
fn still(screen: &str) -> String {
    let line = |l: &str| match l.split_once(':') {
        Some((before, after)) if before.starts_with('│') && before.chars().count() < 14 => {
            let head: String = before.chars().take(9).collect();
            let rest: String = after.chars().skip(2).collect();
            format!("{head}--:--{rest}")
        }
        _ => l.to_owned(),
    };
    screen.lines().map(line).collect::<Vec<_>>().join("\n")
}

fn settings(app: &App) -> Vec<usize> {
    app.timeline().shots.iter().map(|s| s.setting).collect()
}

#[test]
fn a_forgotten_move_is_placed_before_the_shot_the_cursor_is_on() {
    let mut app = three_shots();
    press(&mut app, "log");
    press(&mut app, "place-move");
    assert!(app.is_typing());
    type_text(&mut app, "rest out 1.5 mm");
    assert!(text(&app, 80, 24).contains("Rest OUT 1.50 mm"));
    app.press(Key::Enter);
    // What it changes is said first; nothing is recorded yet.
    assert_eq!(settings(&app), [0, 0, 0]);
    snapshot("log-place-move-80x24", &still(&styled(&app, 80, 24)));
    let wide = text(&app, 160, 40);
    assert!(wide.contains("setting 2"), "{wide}");
    assert!(wide.contains("likely tear"), "{wide}");
    app.press(Key::Enter);
    assert_eq!(settings(&app), [0, 0, 1]);
    assert!(matches!(
        app.session().entries().last().unwrap().event,
        Event::PlacedMove { .. }
    ));
    snapshot("log-placed-120x40", &still(&styled(&app, 120, 40)));
    press(&mut app, "back");
    press(&mut app, "undo");
    assert_eq!(settings(&app), [0, 0, 0]);
}

#[test]
fn another_text_is_told_again_before_it_is_placed() {
    let mut app = three_shots();
    press(&mut app, "log");
    press(&mut app, "place-move");
    type_text(&mut app, "rest out 1.5 mm");
    app.press(Key::Enter);
    for _ in 0.."1.5 mm".len() {
        app.press(Key::Backspace);
    }
    type_text(&mut app, "2 mm");
    app.press(Key::Enter);
    assert_eq!(settings(&app), [0, 0, 0]);
    app.press(Key::Esc);
    assert!(!app.is_typing());
    assert_eq!(settings(&app), [0, 0, 0]);
}

#[test]
fn a_forgotten_move_goes_before_the_next_shot_where_the_cursor_is_on_none() {
    let mut app = three_shots();
    press(&mut app, "note");
    type_text(&mut app, "string looked at");
    app.press(Key::Enter);
    press(&mut app, "log");
    press(&mut app, "place-move");
    assert!(!app.is_typing());
    let shown = text(&app, 120, 40);
    assert!(shown.contains("no shot follows this entry"), "{shown}");
    press(&mut app, "hand-over");
    assert!(!app.is_typing());
    press(&mut app, "back");
    type_text(&mut app, "3 left");
    app.press(Key::Enter);
    press(&mut app, "log");
    app.press(Key::Up);
    press(&mut app, "place-move");
    let shot = app.timeline().shots[3].entry;
    assert!(app.is_typing(), "asked of the shot after the note");
    let shown = text(&app, 120, 40);
    assert!(
        shown.contains(&format!("Move made before {shot}")),
        "{shown}"
    );
}

#[test]
fn that_the_bow_was_put_back_is_undone_by_the_key_that_is_named() {
    let mut app = three_shots();
    type_text(&mut app, "orest out 1.5 mm");
    app.press(Key::Enter);
    assert_eq!(app.timeline().setting().number, 2);
    press(&mut app, "log");
    (0..2).for_each(|_| app.press(Key::Up));
    press(&mut app, "restart-at");
    let shown = text(&app, 120, 40);
    assert!(shown.contains("start position"), "{shown}");
    assert!(shown.contains("u undoes it"), "{shown}");
    app.press(Key::Char('u'));
    assert_eq!(app.timeline().setting().number, 2);
    assert!(text(&app, 120, 40).contains("rest 1.50 mm left"));
}

/// Two sessions in one folder, the first of them open with three shots.
fn two(folder: &std::path::Path) -> App {
    for name in ["green", "blue"] {
        let path = folder.join(format!("{name}.toml"));
        let card = tearbench::gear::CardText::from_toml(COMPOUND).unwrap();
        Session::create(&path, &card).unwrap();
    }
    let path = folder.join("green.toml");
    let patience = std::time::Duration::ZERO;
    let session = Session::open_for_writing(&path, "test", patience).unwrap();
    let look = Look {
        folder: folder.into(),
        ..look()
    };
    let mut app = App::new(session, false, tearbench::advice::analyse_after, look);
    for tear in ["15 left 1 high", "14 left", "4 left 1 high"] {
        type_text(&mut app, tear);
        app.press(Key::Enter);
    }
    app
}

#[test]
fn shots_of_another_bow_go_to_its_session() {
    let folder = tempfile::tempdir().unwrap();
    let mut app = two(folder.path());
    press(&mut app, "log");
    app.press(Key::Up);
    press(&mut app, "hand-over");
    for (name, problem) in [("nobody", "there is no session"), ("green", "this session")] {
        type_text(&mut app, name);
        app.press(Key::Enter);
        let shown = text(&app, 160, 40);
        assert!(shown.contains(problem), "{shown}");
        for _ in 0..name.len() {
            app.press(Key::Backspace);
        }
    }
    type_text(&mut app, "blue");
    app.press(Key::Enter);
    assert_eq!(app.timeline().shots.len(), 3);
    let shown = text(&app, 160, 40);
    assert!(shown.contains("no longer count"), "{shown}");
    app.press(Key::Enter);
    assert!(!app.is_typing(), "{}", text(&app, 160, 40));
    assert_eq!(app.timeline().shots.len(), 1);
    let blue = Session::open(&folder.path().join("blue.toml")).unwrap();
    let tears: Vec<f64> = blue.timeline().shots.iter().map(|s| s.shot.right).collect();
    assert_eq!(tears, [-14.0, -4.0]);
    assert!(blue.all_warnings().is_empty());
}

#[test]
fn a_session_somebody_else_holds_takes_no_shots() {
    let folder = tempfile::tempdir().unwrap();
    let mut app = two(folder.path());
    let blue = folder.path().join("blue.toml");
    let held = Session::open_for_writing(&blue, "another", std::time::Duration::ZERO);
    assert!(held.is_ok());
    press(&mut app, "log");
    press(&mut app, "hand-over");
    type_text(&mut app, "blue");
    app.press(Key::Enter);
    app.press(Key::Enter);
    assert!(
        text(&app, 160, 40).contains("another"),
        "{}",
        text(&app, 160, 40)
    );
    assert_eq!(app.timeline().shots.len(), 3);
    assert!(
        app.session()
            .entries()
            .iter()
            .all(|e| matches!(e.event, Event::Shot(_)))
    );
}

#[test]
fn the_log_names_its_two_keys() {
    let mut app = sample("half-way", look());
    press(&mut app, "log");
    let shown = text(&app, 120, 24);
    assert!(shown.contains("a move was made here"), "{shown}");
}

#[test]
fn an_undo_is_not_undone_itself_and_no_incident_is_spoken_of() {
    let mut app = three_shots();
    press(&mut app, "undo");
    press(&mut app, "log");
    app.press(Key::End);
    press(&mut app, "undo-entry");
    let shown = text(&app, 120, 40);
    assert!(shown.contains("is no entry to undo"), "{shown}");
    assert!(!shown.contains("incident"), "{shown}");
}

#[test]
fn an_entry_whose_undoing_lifts_a_stop_says_so_in_the_log() {
    let mut session = Session::from_text(COMPOUND).unwrap();
    let turns = |amount| Event::Move {
        steps: vec![tearbench::gear::Step {
            adjuster: tearbench::gear::AdjusterKind::LimbBolts,
            amount,
        }],
        said: None,
        confirms: None,
    };
    // In by eight turns of 4 lb: the arrow may be under 5 gr/lb.
    session.record(turns(8.0)).unwrap();
    let mut app = App::new(session, false, tearbench::advice::analyse_after, look());
    assert!(text(&app, 80, 24).contains("DO NOT SHOOT"));
    press(&mut app, "log");
    for lifts in [true, false, true] {
        press(&mut app, "undo-entry");
        let shown = text(&app, 160, 40);
        assert_eq!(shown.contains("This lifts DO NOT SHOOT"), lifts, "{shown}");
    }
}
