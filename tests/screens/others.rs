//! The other screens at 80x24, pinned.

use crate::support::{look, pinned, press, snapshot, styled, text, type_text};
use tearbench::actions::Key;
use tearbench::session::Event;
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
    assert!(text(&app, 80, 24).contains("Look at every part before the slow draw"));
    let parts = tearbench::trouble::inspected(app.timeline());
    assert_eq!(parts.len(), 8);
    for _ in 1..parts.len() {
        assert!(app.timeline().open_incident().is_some());
        app.press(Key::Enter);
    }
    assert!(app.timeline().open_incident().is_none());
    assert_eq!(app.screen_title(), "panes");
}

#[test]
fn a_damaged_part_is_off_until_it_is_put_right_and_looked_at_again() {
    let text_of = include_str!("../../sample-sessions/half-way.toml");
    let mut session = tearbench::session::Session::from_text(text_of).unwrap();
    let what = "dry fire".into();
    session.record(Event::Incident { what }).unwrap();
    let said = |part: &str, result: &str| Event::answer(part, result);
    session.record(said("inspect-string", "sound")).unwrap();
    session.record(said("inspect-limbs", "damaged")).unwrap();
    let mut app = App::new(session, false, tearbench::advice::analyse_after, look());
    press(&mut app, "answer");
    let limbs = |app: &App, state: &str| {
        let screen = text(app, 80, 24);
        let line = format!("{state:<10}Limbs and pockets");
        assert!(screen.contains(&line), "{screen}");
        screen
    };
    assert!(limbs(&app, "OFF").contains("Fix this first: do not draw or shoot"));
    // One key never makes a damaged part good.
    app.press(Key::Enter);
    limbs(&app, "to do");
    app.press(Key::Enter);
    limbs(&app, "ok");
    assert!(app.timeline().open_incident().is_some());
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

/// A console on the bow of the half-way sample with nothing shot yet.
fn fresh() -> App {
    let text = include_str!("../../sample-sessions/half-way.toml");
    let card = tearbench::session::Session::from_text(text).unwrap();
    let card = card.first_card().to_toml();
    let session = tearbench::session::Session::from_text(&card).unwrap();
    App::new(session, false, tearbench::advice::analyse_after, look())
}

#[test]
fn the_range_safety_list_comes_first_and_one_key_answers_it() {
    let mut app = fresh();
    let panes = text(&app, 80, 24);
    assert!(panes.contains("RANGE SAFETY LIST FIRST"), "{panes}");
    assert!(panes.contains(".. safety"), "{panes}");
    shown("range-first", &app);
    press(&mut app, "letters");
    shown("range-first-letters", &app);
    app.press(Key::Esc);
    press(&mut app, "answer");
    assert_eq!(app.screen_title(), "Range safety list");
    let list = text(&app, 80, 24);
    // All eight stand on one screen, and what answers them.
    for item in tearbench::question::RangeItem::ALL {
        assert!(list.contains(tearbench::words::range_item(item)), "{list}");
    }
    assert!(list.contains("ALL IN ORDER"), "{list}");
    shown("range-list", &app);
    app.press(Key::Enter);
    assert_eq!(app.screen_title(), "panes");
    let panes = text(&app, 80, 24);
    assert!(!panes.contains("RANGE SAFETY LIST"), "{panes}");
    assert!(panes.contains("ok safety"), "{panes}");
    assert!(panes.contains("Line clear?"), "{panes}");
    press(&mut app, "letters");
    assert!(text(&app, 80, 24).contains("Line clear? Arrow looked at and flexed?"));
    app.press(Key::Esc);
    // With another shooter it is due again.
    press(&mut app, "next-shots");
    app.press(Key::Right);
    app.press(Key::Esc);
    let panes = text(&app, 80, 24);
    assert!(panes.contains("RANGE SAFETY LIST FIRST"), "{panes}");
}

#[test]
fn an_item_that_is_off_is_put_right_by_itself() {
    let mut app = fresh();
    press(&mut app, "answer");
    for _ in 0..6 {
        app.press(Key::Up);
    }
    // The third item: nobody beside or past the sheet.
    app.press(Key::Enter);
    assert!(text(&app, 80, 24).contains("OFF Nobody beside"));
    shown("range-list-off", &app);
    app.press(Key::Enter);
    assert!(text(&app, 80, 24).contains("this item is OFF"));
    app.press(Key::Enter);
    assert!(!text(&app, 80, 24).contains("OFF Nobody"));
    app.press(Key::Enter);
    assert_eq!(app.screen_title(), "panes");
}

#[test]
fn every_screen_that_says_what_is_next_says_do_not_shoot_first() {
    let mut app = fresh();
    press(&mut app, "incident");
    app.press(Key::Enter);
    for action in ["proof", "before", "range", "put-back", "letters"] {
        press(&mut app, action);
        let screen = text(&app, 80, 24);
        let stop = if action == "letters" {
            ""
        } else {
            "DO NOT SHOOT"
        };
        assert!(screen.contains(stop), "{action}: {screen}");
        shown(&format!("stopped-{action}"), &app);
        if action == "proof" {
            app.press(Key::Down);
            app.press(Key::Enter);
            let stage = text(&app, 80, 24);
            assert!(stage.contains("DO NOT SHOOT"), "{stage}");
            assert!(!stage.contains("How: "), "{stage}");
            app.press(Key::Esc);
        }
        app.press(Key::Esc);
    }
    // A shot is recorded, and the stop is said again before it.
    type_text(&mut app, "3l");
    app.press(Key::Enter);
    let said = text(&app, 80, 24);
    assert!(
        said.contains("DO NOT SHOOT. Inspect the bow first."),
        "{said}"
    );
    assert_eq!(app.timeline().shots.len(), 1);
}

#[test]
fn practice_has_the_range_list_on_one_key_and_says_that_it_is_virtual() {
    let mut app = tearbench::tui::practise(7, 1, look());
    assert!(text(&app, 80, 24).contains("RANGE SAFETY LIST FIRST"));
    press(&mut app, "answer");
    assert!(text(&app, 80, 24).contains("This bow is virtual"));
    app.press(Key::Enter);
    assert!(!text(&app, 80, 24).contains("RANGE SAFETY LIST FIRST"));
}

/// A move that waits at the bench stays pending under a stop; nothing beside it
/// says what the next shot will be, and the first key is the one that lifts it.
#[test]
fn a_move_at_the_bench_stands_under_the_stop_and_expects_no_shot() {
    let mut app = pinned(look());
    press(&mut app, "take-move");
    let bench = text(&app, 80, 24);
    assert!(bench.contains("Next shot to expect"), "{bench}");
    assert!(!bench.contains("DO NOT SHOOT"), "{bench}");
    app.press(Key::Esc);
    press(&mut app, "incident");
    app.press(Key::Enter);
    let panes = text(&app, 80, 24);
    let keys = panes.trim_end().lines().last().unwrap_or_default();
    assert!(keys.starts_with("a "), "{panes}");
    press(&mut app, "take-move");
    let bench = text(&app, 80, 24);
    assert!(bench.contains("DO NOT SHOOT"), "{bench}");
    assert!(bench.contains("made as shown"), "{bench}");
    assert!(!bench.contains("Next shot to expect"), "{bench}");
}
