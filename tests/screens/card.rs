//! A session begun in the console on values that nobody entered.

use super::support::*;
use tearbench::actions::Key;
use tearbench::checks::Status;
use tearbench::session::Session;
use tearbench::tui::App;

/// A session begun with every value as the console filled it in.
fn begun(folder: &std::path::Path) -> App {
    let mut app = new_card(folder, "blue");
    press(&mut app, "start");
    press(&mut app, "start");
    app
}

fn safety(app: &App) -> (Status, String) {
    let safety = tearbench::checks::safety::check(app.timeline());
    (safety.status(), tearbench::words::safety(&safety))
}

#[test]
fn a_session_begun_on_usual_values_is_not_safe_until_they_are_confirmed() {
    let folder = tempfile::tempdir().unwrap();
    let mut app = begun(folder.path());
    assert_eq!(safety(&app).0, Status::Pending);
    let wide = text(&app, 160, 50);
    assert!(wide.contains(".. safety: "), "{wide}");
    // The mark stands in the file, in words.
    let path = folder.path().join("blue.toml");
    let file = std::fs::read_to_string(&path).unwrap();
    assert!(
        file.starts_with("format = 2\nunconfirmed = [\n    \"bow.kind\",\n"),
        "{file}"
    );
    // Section by section, one key each.
    press(&mut app, "card");
    let shown = text(&app, 80, 24);
    assert!(shown.contains("60 lb         check it"), "{shown}");
    snapshot("screen-card-unconfirmed-80x24", &shown);
    press(&mut app, "back");
    let narrow = text(&app, 80, 24);
    assert!(narrow.contains(".. safety"), "{narrow}");
    snapshot("panes-unconfirmed-80x24", &narrow);
    press(&mut app, "card");
    press(&mut app, "confirm-section");
    let shown = text(&app, 80, 24);
    assert!(shown.contains("BOW: 7 lines confirmed"), "{shown}");
    assert!(!shown.contains("60 lb         check it"), "{shown}");
    assert!(
        safety(&app).1.starts_with("Not confirmed: ") && safety(&app).1.contains("arrow"),
        "{}",
        safety(&app).1
    );
    for _ in 0..3 {
        press(&mut app, "confirm-section");
    }
    assert_eq!(safety(&app).0, Status::Pass);
    press(&mut app, "confirm-section");
    assert!(text(&app, 80, 24).contains("nothing under"));
    // It is as the file has it, and undo takes a confirmation back.
    let again = Session::open(&path).unwrap();
    assert!(
        again
            .timeline()
            .card_text
            .to_toml()
            .starts_with("format = 1")
    );
    press(&mut app, "back");
    press(&mut app, "undo");
    press(&mut app, "undo");
    assert_eq!(safety(&app).0, Status::Pending);
}

#[test]
fn a_line_is_confirmed_by_enter_and_by_a_new_value() {
    let folder = tempfile::tempdir().unwrap();
    let mut app = begun(folder.path());
    let open = |app: &App, key: &str| app.timeline().card_text.is_unconfirmed(key);
    press(&mut app, "card");
    // Kind of bow is a choice: Enter keeps it.
    assert!(open(&app, "bow.kind"));
    app.press(Key::Enter);
    assert!(!open(&app, "bow.kind"));
    app.press(Key::Down);
    app.press(Key::Down);
    // The draw weight: Enter twice keeps it.
    assert!(open(&app, "bow.peak_weight"));
    app.press(Key::Enter);
    assert!(open(&app, "bow.peak_weight"));
    app.press(Key::Enter);
    assert!(!open(&app, "bow.peak_weight"));
    app.press(Key::Down);
    type_text(&mut app, "28");
    app.press(Key::Enter);
    assert!(!open(&app, "bow.draw_length"));
    assert!(open(&app, "bow.brace_height"));
}

#[test]
fn another_kind_of_bow_keeps_what_was_entered_and_asks_for_it_again() {
    let folder = tempfile::tempdir().unwrap();
    let mut app = new_card(folder.path(), "red");
    for _ in 0..3 {
        app.press(Key::Down);
    }
    type_text(&mut app, "41");
    app.press(Key::Enter);
    for _ in 0..4 {
        app.press(Key::Up);
    }
    app.press(Key::Right);
    let shown = text(&app, 80, 24);
    assert!(shown.contains("recurve"), "{shown}");
    assert!(shown.contains("41 lb         check it"), "{shown}");
    assert!(shown.contains("fingers       check it"), "{shown}");
}

#[test]
fn moved_limb_bolts_stand_on_the_card_as_to_be_weighed() {
    let mut app = sample("half-way", look());
    press(&mut app, "own-move");
    type_text(&mut app, "limb out 1 turn");
    app.press(Key::Enter);
    assert_eq!(safety(&app).0, Status::Pending);
    let shown = text(&app, 160, 50);
    assert!(shown.contains("limb bolts 1 turn out"), "{shown}");
    press(&mut app, "card");
    let shown = text(&app, 80, 24);
    assert!(shown.contains("weigh it"), "{shown}");
    assert!(!shown.contains("check it"), "{shown}");
}

#[test]
fn next_shots_set_to_bare_shafts_stop_where_these_are_too_light() {
    let mut app = sample("half-way", look());
    let card = &app.timeline().card;
    let bare = card.arrow.bare_mass().grains();
    let least = 5.0 * card.bow.peak_weight.pounds();
    assert!(bare > least, "the sample is heavy enough: {bare} {least}");
    // As heavy a bow as the fletched arrow just allows.
    let pounds = (card.arrow.total_mass().grains() - 1.0) / 5.0;
    press(&mut app, "card");
    for _ in 0..3 {
        app.press(Key::Down);
    }
    type_text(&mut app, &format!("{pounds:.2} lb"));
    app.press(Key::Enter);
    press(&mut app, "back");
    assert_ne!(safety(&app).0, Status::Fail);
    press(&mut app, "next-shots");
    for _ in 0..3 {
        app.press(Key::Down);
    }
    app.press(Key::Right);
    press(&mut app, "back");
    assert_eq!(safety(&app).0, Status::Fail);
    assert!(text(&app, 80, 24).contains("DO NOT SHOOT"));
    press(&mut app, "next-shots");
    for _ in 0..3 {
        app.press(Key::Down);
    }
    app.press(Key::Right);
    press(&mut app, "back");
    assert!(!text(&app, 80, 24).contains("DO NOT SHOOT"));
}

#[test]
fn once_every_section_is_confirmed_the_cursor_is_on_the_line_that_starts() {
    let folder = tempfile::tempdir().unwrap();
    let mut app = new_card(folder.path(), "green");
    for section in ["BOW", "REST", "ARROW"] {
        press(&mut app, "confirm-section");
        let shown = text(&app, 80, 24);
        assert!(shown.contains(&format!("{section}: ")), "{shown}");
        assert!(!shown.contains("Enter starts the session"), "{shown}");
    }
    press(&mut app, "confirm-section");
    let shown = text(&app, 80, 24);
    assert!(shown.contains("> start the session"), "{shown}");
    assert!(
        shown.contains("PAPER: 2 lines confirmed. Enter starts the session"),
        "{shown}"
    );
    app.press(Key::Enter);
    assert_eq!(app.screen_title(), "panes");
    assert!(folder.path().join("green.toml").is_file());
    assert_eq!(safety(&app).0, Status::Pass);
}
