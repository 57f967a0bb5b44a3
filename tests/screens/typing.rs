//! What is typed straight onto the panes does what was meant.

use crate::support::{demo, look, new_card, press, sample, text, type_text};
use tearbench::actions::Key;
use tearbench::session::Event;
use tearbench::tui::App;

fn last(app: &App) -> &Event {
    &app.session().entries().last().unwrap().event
}

/// Types a line onto the panes and presses Enter; the tears it recorded.
fn recorded(line: &str) -> Vec<(f64, f64)> {
    let mut app = demo(look());
    let before = app.session().entries().len();
    let card = app.timeline().card_text.clone();
    type_text(&mut app, line);
    app.press(Key::Enter);
    assert_eq!(app.timeline().card_text, card, "{line}");
    assert!(!app.is_typing(), "{line}: {}", text(&app, 80, 24));
    assert_eq!(app.screen_title(), "panes", "{line}");
    let new = &app.session().entries()[before..];
    new.iter()
        .filter_map(|e| match &e.event {
            Event::Shot(shot) => Some((shot.right, shot.up)),
            _ => None,
        })
        .collect()
}

#[test]
fn whatever_begins_a_tear_is_a_tear() {
    for (line, wanted) in [
        ("clean", (0.0, 0.0)),
        ("bullet", (0.0, 0.0)),
        ("bh", (0.0, 0.0)),
        ("left 12", (-12.0, 0.0)),
        ("right 12", (12.0, 0.0)),
        ("high 4", (0.0, 4.0)),
        ("low 4", (0.0, -4.0)),
        ("down 4", (0.0, -4.0)),
        ("l12 h4", (-12.0, 4.0)),
        ("r12", (12.0, 0.0)),
        ("h4 l12", (-12.0, 4.0)),
        ("tail left 8", (-8.0, 0.0)),
        ("nock right 3", (3.0, 0.0)),
        ("L12 H4", (-12.0, 4.0)),
        ("12 left 4 high", (-12.0, 4.0)),
    ] {
        assert_eq!(recorded(line), [wanted], "{line}");
    }
    assert_eq!(recorded("l12 h4; clean").len(), 2);
}

#[test]
fn a_key_that_turns_out_to_begin_a_tear_leaves_nothing_behind() {
    // Undo acts at once; "up 4" brings back what it undid.
    let mut app = sample("half-way", look());
    let shots = app.timeline().shots.len();
    type_text(&mut app, "up 4");
    app.press(Key::Enter);
    assert_eq!(app.timeline().shots.len(), shots + 1);
    let Event::Shot(shot) = last(&app) else {
        panic!("{:?}", last(&app))
    };
    assert_eq!((shot.right, shot.up), (0.0, 4.0));
}

#[test]
fn a_digit_after_undo_begins_the_tear_that_replaces_what_was_undone() {
    let mut app = demo(look());
    type_text(&mut app, "11 left 50 high");
    app.press(Key::Enter);
    let shots = app.timeline().shots.len();
    press(&mut app, "undo");
    type_text(&mut app, "11 left 5 high");
    app.press(Key::Enter);
    assert!(!app.is_typing(), "{}", text(&app, 80, 24));
    assert_eq!(app.timeline().shots.len(), shots);
    let Event::Shot(shot) = last(&app) else {
        panic!("{:?}", last(&app))
    };
    assert_eq!((shot.right, shot.up), (-11.0, 5.0));
}

#[test]
fn the_keys_that_share_a_letter_with_a_tear_still_work() {
    for (key, title) in [('c', "Card"), ('l', "Log")] {
        let mut app = demo(look());
        app.press(Key::Char(key));
        assert!(app.screen_title().starts_with(title), "{key}");
        app.press(Key::Down);
        assert!(app.screen_title().starts_with(title), "{key}");
        assert!(!app.is_typing());
    }
}

#[test]
fn a_pasted_line_break_is_another_hole() {
    let mut app = demo(look());
    let before = app.session().entries().len();
    app.paste("12 left 4 high\r\n9l3h\nclean\n");
    app.press(Key::Enter);
    assert_eq!(app.session().entries().len(), before + 3);
}

#[test]
fn a_space_lists_every_other_action_by_its_letter() {
    let mut app = demo(look());
    press(&mut app, "more");
    let shown = text(&app, 80, 24);
    for words in ["before paper", "after paper", "put back", "redo"] {
        assert!(shown.contains(words), "{words}: {shown}");
    }
    crate::support::snapshot("screen-more-80x24", &crate::support::styled(&app, 80, 24));
    app.press(Key::Char('b'));
    assert!(
        app.screen_title().starts_with("Before"),
        "{}",
        app.screen_title()
    );
    press(&mut app, "back");
    assert_eq!(app.screen_title(), "panes");
}

/// The move that a line typed at the bench records, after Enter once.
fn at_the_bench(line: &str) -> (App, Option<f64>) {
    let mut app = sample("half-way", look());
    press(&mut app, "take-move");
    press(&mut app, "own-move");
    type_text(&mut app, line);
    app.press(Key::Enter);
    let amount = match last(&app) {
        Event::Move { steps, .. } => Some(steps[0].amount),
        _ => None,
    };
    (app, amount)
}

#[test]
fn a_bare_number_at_the_bench_is_a_reading_where_it_is_near_the_one_expected() {
    // The start reads 20.5 mm, riser to shaft, and the bow is right-handed:
    // 23.25 mm is 2.75 mm out, which is left.
    let (_, amount) = at_the_bench("23.25");
    assert_eq!(amount, Some(-2.75));
    let (_, amount) = at_the_bench("1.5");
    assert_eq!(amount.map(f64::abs), Some(1.5));
}

#[test]
fn a_move_past_the_travel_is_asked_about_first() {
    let (mut app, amount) = at_the_bench("rest left 12 mm");
    assert_eq!(amount, None);
    let shown = text(&app, 80, 24);
    assert!(shown.contains("past the travel on the card"), "{shown}");
    app.press(Key::Enter);
    assert!(matches!(last(&app), Event::Move { .. }));
}

#[test]
fn the_place_of_a_new_session_is_checked_when_it_is_named() {
    let folder = tempfile::tempdir().unwrap();
    let mut app = new_card(folder.path(), "customers/blue");
    assert!(text(&app, 80, 24).contains("there is no folder"));
    assert!(!folder.path().join("customers").exists());
    app.press(Key::Enter);
    assert!(folder.path().join("customers").is_dir());
    assert!(app.screen_title().starts_with("Card of the new session"));
}

#[test]
fn letters_on_a_line_of_the_card_are_text_and_start_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let mut app = new_card(folder.path(), "blue");
    let owner = |app: &App| text(app, 80, 24).contains("> owner ");
    for _ in 0..100 {
        if !owner(&app) {
            app.press(Key::Down);
        }
    }
    assert!(owner(&app), "{}", text(&app, 80, 24));
    type_text(&mut app, "sue smith yq?i");
    app.press(Key::Enter);
    let shown = text(&app, 80, 24);
    assert!(
        shown.contains("owner               sue smith yq?i"),
        "{shown}"
    );
    assert!(!folder.path().join("blue.toml").exists());
    assert!(app.screen_title().starts_with("Card of the new session"));
    press(&mut app, "start");
    press(&mut app, "start");
    assert!(folder.path().join("blue.toml").exists());
}

#[test]
fn a_value_that_makes_the_tear_unknown_again_asks_first() {
    let mut app = sample("half-way", look());
    let (entries, epoch) = (app.session().entries().len(), app.timeline().epoch);
    press(&mut app, "card");
    app.press(Key::Down);
    app.press(Key::Right);
    let shown = text(&app, 80, 24);
    assert!(
        shown.contains("1: typo, shots count on. 2: changed, the likely tear is unknown again"),
        "{shown}"
    );
    assert_eq!(app.session().entries().len(), entries);
    // Left goes back to what stood, and nothing is asked.
    app.press(Key::Left);
    assert_eq!(
        (app.session().entries().len(), app.timeline().epoch),
        (entries, epoch)
    );
    app.press(Key::Right);
    app.press(Key::Enter);
    assert_eq!(app.timeline().epoch, epoch + 1);
    assert_eq!(app.timeline().card_text.get("bow.hand"), Some("left"));
}

#[test]
fn a_typo_on_the_card_is_corrected_with_one_key_and_the_tear_stays_known() {
    let change = |digit: char| {
        let mut app = sample("half-way", look());
        let before = (app.timeline().epoch, app.timeline().arrow_epoch);
        press(&mut app, "card");
        app.press(Key::Down);
        app.press(Key::Right);
        app.press(Key::Char('9'));
        assert_eq!(app.timeline().card_text.get("bow.hand"), Some("right"));
        app.press(Key::Char(digit));
        assert_eq!(app.timeline().card_text.get("bow.hand"), Some("left"));
        let after = (app.timeline().epoch, app.timeline().arrow_epoch);
        (before, after)
    };
    let (before, after) = change('1');
    assert_eq!(before, after);
    let (before, after) = change('2');
    assert_eq!(after.0, before.0 + 1);
}

#[test]
fn a_tear_that_names_another_arrow_than_the_next_shots_is_not_taken() {
    let mut app = demo(look());
    press(&mut app, "next-shots");
    app.press(Key::Down);
    app.press(Key::Enter);
    type_text(&mut app, "3");
    app.press(Key::Enter);
    press(&mut app, "back");
    let entries = app.session().entries().len();
    type_text(&mut app, "12l4h #5");
    let both = "arrow 5 stands in the tear and arrow 3 was given beside it";
    assert!(
        text(&app, 120, 40).contains(both),
        "{}",
        text(&app, 120, 40)
    );
    app.press(Key::Enter);
    assert_eq!(app.session().entries().len(), entries);
    assert!(
        app.is_typing(),
        "what cannot be taken stays to be put right"
    );
    app.press(Key::Backspace);
    type_text(&mut app, "3");
    app.press(Key::Enter);
    let last = app.timeline().shots.last().unwrap();
    assert_eq!(last.shot.arrow.as_deref(), Some("3"));
}
