//! What keys do, by action name.

use crate::support::{demo, look, name_new, new_card, press, sample, text, type_text};
use tearbench::actions::Key;
use tearbench::session::{Event, Session};
use tearbench::tui::{App, Look};

fn last(app: &App) -> &Event {
    &app.session().entries().last().unwrap().event
}

#[test]
fn a_tear_takes_its_own_text_and_one_more_key() {
    let mut app = demo(look());
    let before = app.session().entries().len();
    for key in [
        Key::Char('1'),
        Key::Char('2'),
        Key::Left,
        Key::Char('4'),
        Key::Up,
        Key::Enter,
    ] {
        app.press(key);
    }
    assert_eq!(app.session().entries().len(), before + 1);
    let Event::Shot(shot) = last(&app) else {
        panic!("{:?}", last(&app))
    };
    assert_eq!((shot.right, shot.up), (-12.0, 4.0));
    assert!(text(&app, 80, 24).contains("recorded: 12 mm left, 4 mm high"));
}

#[test]
fn what_one_arrow_wrote_one_press_takes_back() {
    let mut app = demo(look());
    for key in [
        Key::Char('1'),
        Key::Char('2'),
        Key::Left,
        Key::Backspace,
        Key::Right,
        Key::Enter,
    ] {
        app.press(key);
    }
    let Event::Shot(shot) = last(&app) else {
        panic!()
    };
    assert_eq!(shot.right, 12.0);
}

#[test]
fn several_holes_are_several_entries() {
    let mut app = demo(look());
    let before = app.session().entries().len();
    press(&mut app, "shot");
    type_text(&mut app, "12l4h; 9l3h #3; clean");
    app.press(Key::Enter);
    assert_eq!(app.session().entries().len(), before + 3);
}

#[test]
fn a_tear_over_75_mm_is_asked_about_and_a_wrong_word_is_pointed_at() {
    let mut app = demo(look());
    let before = app.session().entries().len();
    press(&mut app, "shot");
    type_text(&mut app, "82 left");
    app.press(Key::Enter);
    assert_eq!(app.session().entries().len(), before);
    assert!(text(&app, 80, 24).contains("is that right?"));
    app.press(Key::Enter);
    assert_eq!(app.session().entries().len(), before + 1);
    press(&mut app, "shot");
    type_text(&mut app, "12 lift");
    app.press(Key::Enter);
    assert!(app.is_typing());
    assert!(text(&app, 80, 24).contains("'lift'"));
    app.press(Key::Esc);
    assert!(!app.is_typing());
}

#[test]
fn two_marks_on_the_grid_are_a_tear() {
    let mut app = demo(look());
    press(&mut app, "mark");
    press(&mut app, "mark-here");
    type_text(&mut app, "12");
    press(&mut app, "left");
    type_text(&mut app, "4");
    press(&mut app, "up");
    press(&mut app, "mark-here");
    let Event::Shot(shot) = last(&app) else {
        panic!("{:?}", last(&app))
    };
    assert_eq!((shot.right, shot.up), (-12.0, 4.0));
}

#[test]
fn the_advised_move_is_pending_until_it_is_confirmed() {
    let mut app = sample("half-way", look());
    press(&mut app, "take-move");
    assert_eq!(app.screen_title(), "At the bench");
    assert!(app.timeline().pending.is_some());
    press(&mut app, "back");
    assert!(text(&app, 80, 24).contains("PENDING MOVE"));
    press(&mut app, "as-shown");
    assert!(app.timeline().pending.is_none());
    let Event::Move { confirms, .. } = last(&app) else {
        panic!()
    };
    assert!(confirms.is_some());
}

#[test]
fn another_move_settles_the_pending_one_and_not_made_takes_it_off() {
    let mut app = sample("half-way", look());
    press(&mut app, "take-move");
    press(&mut app, "own-move");
    type_text(&mut app, "rest left 1.5 mm");
    app.press(Key::Enter);
    let Event::Move {
        steps, confirms, ..
    } = last(&app)
    else {
        panic!()
    };
    assert_eq!((steps[0].amount, confirms.is_some()), (-1.5, true));
    let mut app = sample("half-way", look());
    press(&mut app, "take-move");
    press(&mut app, "not-made");
    assert!(matches!(last(&app), Event::NotMade { .. }));
    assert_eq!(app.screen_title(), "panes");
}

#[test]
fn undo_then_redo_changes_nothing_that_counts() {
    let mut app = sample("half-way", look());
    let before = app.timeline().shots.clone();
    press(&mut app, "undo");
    assert_ne!(app.timeline().shots, before);
    press(&mut app, "redo");
    assert_eq!(app.timeline().shots, before);
}

#[test]
fn a_shot_is_called_bad_before_looking_and_only_that_one() {
    let mut app = demo(look());
    press(&mut app, "call-bad");
    assert!(text(&app, 80, 24).contains("CALLED BAD"));
    type_text(&mut app, "9r");
    app.press(Key::Enter);
    type_text(&mut app, "2r");
    app.press(Key::Enter);
    let called: Vec<bool> = app
        .timeline()
        .shots
        .iter()
        .rev()
        .take(2)
        .map(|s| s.shot.called_bad)
        .collect();
    assert_eq!(called, [false, true]);
}

#[test]
fn who_shoots_and_how_far_stay_until_changed_and_show_on_the_status_line() {
    let mut app = demo(look());
    press(&mut app, "next-shots");
    press(&mut app, "choose");
    press(&mut app, "down");
    press(&mut app, "down");
    press(&mut app, "choose");
    type_text(&mut app, "2.5 m");
    app.press(Key::Enter);
    press(&mut app, "back");
    let status = crate::support::lines(&app, 100, 24)[0].clone();
    assert!(status.contains("technician shoots, at 2.5 m"), "{status}");
    type_text(&mut app, "3l");
    app.press(Key::Enter);
    let Event::Shot(shot) = last(&app) else {
        panic!()
    };
    assert_eq!(
        (shot.by.id(), shot.distance.as_deref()),
        ("technician", Some("2.5 m"))
    );
}

#[test]
fn a_card_change_is_recorded_at_once_and_a_wrong_one_never() {
    let mut app = demo(look());
    let before = app.session().entries().len();
    press(&mut app, "card");
    for _ in 0..3 {
        press(&mut app, "down");
    }
    press(&mut app, "choose");
    type_text(&mut app, " stone");
    app.press(Key::Enter);
    assert_eq!(app.session().entries().len(), before);
    for _ in 0.." stone".len() {
        app.press(Key::Backspace);
    }
    for _ in 0.."60 lb".len() {
        app.press(Key::Backspace);
    }
    type_text(&mut app, "62 lb");
    app.press(Key::Enter);
    let after: Vec<&str> = app.session().entries()[before..]
        .iter()
        .map(|e| e.event.kind())
        .collect();
    // What to expect of the changed bow is worked out anew beside it.
    assert_eq!(after, ["card", "prior"]);
    assert_eq!(
        app.timeline().card_text.get("bow.peak_weight"),
        Some("62 lb")
    );
}

#[test]
fn an_incident_stops_the_shooting_until_every_item_is_found_sound() {
    let mut app = demo(look());
    press(&mut app, "incident");
    press(&mut app, "choose");
    assert!(text(&app, 80, 24).contains("DO NOT SHOOT"));
    press(&mut app, "undo");
    assert!(app.timeline().open_incident().is_some());
    press(&mut app, "answer");
    // Seven parts of a compound; the slow draw comes last.
    for _ in 0..7 {
        press(&mut app, "choose");
        assert!(app.timeline().open_incident().is_some());
    }
    // What was found sound is on the record, whoever comes back to it.
    press(&mut app, "back");
    press(&mut app, "answer");
    press(&mut app, "choose");
    assert!(app.timeline().open_incident().is_none());
}

#[test]
fn a_session_of_ones_own_is_one_key_from_the_demo() {
    let folder = tempfile::tempdir().unwrap();
    let mut app = demo(Look {
        folder: folder.path().into(),
        ..look()
    });
    assert!(text(&app, 80, 24).contains("DEMO: NOT KEPT"));
    name_new(&mut app, "blue");
    assert!(app.screen_title().starts_with("Card of the new session"));
    // Usual values nobody looked at are said once, and then taken.
    press(&mut app, "start");
    assert!(text(&app, 80, 24).contains("still unchecked"));
    press(&mut app, "start");
    assert_eq!(app.screen_title(), "panes");
    assert!(!text(&app, 80, 24).contains("DEMO"));
    type_text(&mut app, "9l");
    app.press(Key::Enter);
    let path = folder.path().join("blue.toml");
    assert_eq!(
        Session::open(&path).unwrap().entries(),
        app.session().entries()
    );
    // A second console on the same file reads only, and says why.
    let (_, why) = App::open_session(&path).unwrap();
    assert!(why.unwrap().contains("in use by"));
}

/// On a card line a digit begins a new value; with Enter the old one stands
/// and is written over, or changed after a cursor key.
#[test]
fn a_card_value_is_written_over_or_changed() {
    let mut app = sample("half-way", look());
    press(&mut app, "card");
    for _ in 0..3 {
        app.press(Key::Down);
    }
    let weight = app.timeline().card_text.get("bow.peak_weight").unwrap();
    let stood = format!("peak weight> {weight}");
    app.press(Key::Char('7'));
    assert!(text(&app, 80, 24).contains("peak weight> 7"));
    app.press(Key::Esc);
    app.press(Key::Enter);
    assert!(text(&app, 80, 24).contains(&stood));
    type_text(&mut app, "65 lb");
    assert!(text(&app, 80, 24).contains("peak weight> 65 lb"));
    app.press(Key::Esc);
    app.press(Key::Enter);
    app.press(Key::End);
    type_text(&mut app, "s");
    assert!(text(&app, 80, 24).contains(&format!("{stood}s")));
}

#[test]
fn a_fresh_card_of_another_kind_of_bow_still_reads() {
    let folder = tempfile::tempdir().unwrap();
    for turns in 0..3 {
        let mut app = new_card(folder.path(), &format!("bow{turns}"));
        for _ in 0..turns {
            press(&mut app, "right");
        }
        press(&mut app, "start");
        press(&mut app, "start");
        assert_eq!(app.screen_title(), "panes", "{}", text(&app, 100, 30));
    }
}

#[test]
fn the_log_undoes_any_entry_and_brings_it_back() {
    let mut app = sample("half-way", look());
    let shots = app.timeline().shots.len();
    press(&mut app, "log");
    press(&mut app, "undo-entry");
    assert_eq!(app.timeline().shots.len(), shots - 1);
    assert!(text(&app, 80, 24).contains("(undone)"));
    press(&mut app, "undo-entry");
    assert_eq!(app.timeline().shots.len(), shots);
}

#[test]
fn what_a_terminal_would_act_on_never_reaches_it() {
    let mut app = demo(look());
    press(&mut app, "note");
    type_text(&mut app, "red");
    app.paste("\u{1b}[31m\u{7}\u{202e}danger\r\n");
    app.press(Key::Enter);
    press(&mut app, "log");
    let screen = text(&app, 80, 24);
    assert!(screen.contains("danger"));
    assert!(!screen.chars().any(|c| c.is_control() && c != '\n'));
    assert!(!screen.contains('\u{202e}'));
}

#[test]
fn units_change_what_is_shown_and_never_what_is_stored() {
    let mut app = demo(look());
    let before = app.session().entries().to_vec();
    press(&mut app, "units");
    assert!(text(&app, 80, 24).contains("13/16 left"));
    assert_eq!(app.session().entries(), before);
}

#[test]
fn a_shot_before_the_move_is_confirmed_is_recorded_and_asked_about() {
    let mut app = sample("half-way", look());
    press(&mut app, "take-move");
    press(&mut app, "back");
    type_text(&mut app, "9l");
    app.press(Key::Enter);
    assert!(matches!(last(&app), Event::Shot(_)));
    assert!(text(&app, 80, 24).contains("Was the move"));
    press(&mut app, "undo");
    press(&mut app, "as-shown");
    assert!(app.timeline().pending.is_none());
}

#[test]
fn a_new_card_is_gone_through_with_enter_and_a_bare_number_takes_the_unit_that_stands() {
    let folder = tempfile::tempdir().unwrap();
    let mut app = new_card(folder.path(), "green");
    // Kind, hand and release: Enter keeps what stands, and goes on.
    for _ in 0..3 {
        app.press(Key::Enter);
    }
    let shown = text(&app, 80, 24);
    assert!(shown.contains("release             aid  "), "{shown}");
    assert!(shown.contains("> peak weight"), "{shown}");
    // The question is asked again after more was looked at.
    press(&mut app, "start");
    assert!(text(&app, 80, 24).contains("still unchecked"));
    app.press(Key::Enter);
    type_text(&mut app, "61.5");
    assert!(text(&app, 80, 24).contains("= 61.5 lb"));
    app.press(Key::Enter);
    press(&mut app, "start");
    assert!(text(&app, 80, 24).contains("still unchecked"));
    press(&mut app, "start");
    assert_eq!(
        app.timeline().card_text.get("bow.peak_weight"),
        Some("61.5 lb")
    );
}

#[test]
fn the_bench_page_is_the_same_when_it_is_opened_again_and_follows_the_units() {
    let mut app = sample("half-way", look());
    press(&mut app, "take-move");
    let first = text(&app, 80, 24);
    assert!(first.contains("Next shot to expect"), "{first}");
    press(&mut app, "back");
    press(&mut app, "take-move");
    assert_eq!(text(&app, 80, 24), first);
    press(&mut app, "units");
    let inches = text(&app, 80, 24);
    assert!(inches.contains("OUT from the riser 0.118 in"), "{inches}");
    assert!(
        inches.contains("Next shot to expect: 11/16 in left"),
        "{inches}"
    );
}
