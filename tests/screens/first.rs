//! The questions before the first sideways move, on the console and in lines.

use tearbench::session::{Event, Session};
use tearbench::tui::App;

use crate::support::{look, press, snapshot, styled, text, type_text};
use tearbench::actions::Key;

const COMPOUND: &str = include_str!("../scenarios/cards/compound.toml");
const RECURVE: &str = include_str!("../scenarios/cards/recurve.toml");

fn console(card: &str, tears: &str) -> App {
    let session = Session::from_text(card).unwrap();
    let mut app = App::new(session, false, tearbench::advice::analyse_after, look());
    type_text(&mut app, tears);
    app.press(Key::Enter);
    app
}

fn last_answer(app: &App) -> (String, String) {
    match &app.session().entries().last().unwrap().event {
        Event::Answer { test, result, .. } => (test.word(), result.word()),
        other => panic!("{other:?}"),
    }
}

#[test]
fn the_hand_is_one_key_and_enter_where_it_was_relaxed() {
    let mut app = console(COMPOUND, "15 left 1 high; 14 left");
    assert!(text(&app, 80, 24).contains("TEST"));
    press(&mut app, "answer");
    snapshot("question-hand-80x24", &styled(&app, 80, 24));
    app.press(Key::Enter);
    assert_eq!(last_answer(&app), ("hand".into(), "relaxed".into()));
    assert!(text(&app, 80, 24).contains("MOVE"));
}

#[test]
fn powder_is_asked_of_fingers_and_a_slap_offers_one_round_of_clearing() {
    let mut app = console(RECURVE, "26 left 1 high; 25 left 2 high");
    // A shot comes next, so the range safety list is read first.
    press(&mut app, "answer");
    app.press(Key::Enter);
    if app.screen_title() == "panes" {
        press(&mut app, "answer");
    }
    let asked = text(&app, 80, 24);
    assert!(
        asked.contains("Powder test") && asked.contains("not-looked: nobody looked"),
        "{asked}"
    );
    app.press(Key::Down);
    app.press(Key::Enter);
    assert_eq!(last_answer(&app), ("contact".into(), "button".into()));
    assert!(text(&app, 80, 24).contains("slap"));
    press(&mut app, "answer");
    app.press(Key::Down);
    app.press(Key::Enter);
    assert!(text(&app, 80, 24).contains("Rest IN"));
}
