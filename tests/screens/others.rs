//! The other screens at 80x24, pinned.

use crate::support::{look, pinned, press, snapshot, styled, text, type_text};
use tearbench::actions::Key;
use tearbench::tui::{App, Look};

fn shown(name: &str, app: &App) {
    snapshot(&format!("screen-{name}-80x24"), &styled(app, 80, 24));
}

#[test]
fn screens_one_key_away() {
    for action in [
        "card",
        "log",
        "checks",
        "why",
        "letters",
        "help",
        "next-shots",
        "incident",
        "take-move",
        "mark",
    ] {
        let mut app = pinned(look());
        press(&mut app, action);
        shown(action, &app);
    }
}

#[test]
fn files_here_and_elsewhere() {
    let folder = tempfile::tempdir().unwrap();
    let app = pinned(Look {
        folder: folder.path().into(),
        ..look()
    });
    let mut app = app;
    press(&mut app, "files");
    shown("files", &app);
}

#[test]
fn an_action_is_found_by_a_few_letters() {
    let mut app = pinned(look());
    press(&mut app, "palette");
    type_text(&mut app, "und");
    shown("palette", &app);
}

#[test]
fn an_incident_and_its_inspection() {
    let mut app = pinned(look());
    press(&mut app, "incident");
    app.press(Key::Enter);
    shown("after-an-incident", &app);
    press(&mut app, "answer");
    app.press(Key::Enter);
    shown("inspection", &app);
    // The slow draw comes last, and not before every part was looked at.
    for _ in 0..20 {
        app.press(Key::Down);
    }
    app.press(Key::Up);
    app.press(Key::Enter);
    assert!(text(&app, 80, 24).contains("first every part"));
    let parts = tearbench::remedy::inspection(&app.timeline().card);
    for _ in 1..parts.len() {
        assert!(app.timeline().open_incident().is_some());
        app.press(Key::Enter);
    }
    assert!(app.timeline().open_incident().is_none());
    assert_eq!(app.screen_title(), "panes");
}

#[test]
fn a_card_field_being_typed_wrongly() {
    let mut app = pinned(look());
    press(&mut app, "card");
    for _ in 0..3 {
        app.press(Key::Down);
    }
    app.press(Key::Enter);
    type_text(&mut app, " stone");
    shown("card-wrong-value", &app);
}
