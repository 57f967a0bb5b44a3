//! The card's optional lines folded, its drawings, its choices, its marks.

use crate::support::{look, new_card, press, sample, snapshot, styled, text, type_text};
use tearbench::actions::Key;
use tearbench::tui::App;

/// A screen without the place of the new session, which is another each time.
fn still(screen: &str) -> String {
    let line = |l: &str| match l.find("Card of the new session") {
        Some(at) => format!("{}Card of the new session", &l[..at]),
        None => l.to_owned(),
    };
    screen.lines().map(line).collect::<Vec<_>>().join("\n")
}

/// Puts the cursor on the line with these words.
fn to(app: &mut App, words: &str) {
    app.press(Key::Home);
    for _ in 0..90 {
        let screen = text(app, 80, 24);
        if screen
            .lines()
            .any(|l| l.contains("> ") && l.contains(words))
        {
            return;
        }
        app.press(Key::Down);
    }
    panic!("no line {words}:\n{}", text(app, 80, 60));
}

#[test]
fn optional_lines_are_folded_and_one_key_shows_them() {
    let folder = tempfile::tempdir().unwrap();
    let mut app = new_card(folder.path(), "blue");
    snapshot("card-folded-80x60", &still(&styled(&app, 80, 60)));
    let folded = text(&app, 80, 60);
    for line in ["maker's min arrow   ", "arrow speed   ", "promised    "] {
        assert!(!folded.contains(line), "{line}:\n{folded}");
    }
    // The whole card is on one page of that height, its last line too.
    assert!(folded.contains("start the session"), "{folded}");
    to(&mut app, "8 optional");
    app.press(Key::Enter);
    let open = text(&app, 80, 60);
    assert!(open.contains("> weight off a scale"), "{open}");
    assert!(open.contains("maker's min arrow   not given"), "{open}");
    to(&mut app, "optional lines");
    app.press(Key::Left);
    assert_eq!(
        text(&app, 80, 60)
            .matches("maker's min arrow   not")
            .count(),
        0
    );
    // The cursor stays where it was folded.
    assert!(text(&app, 80, 24).contains("> 8 optional"));
}

#[test]
fn a_line_that_holds_something_is_never_folded() {
    let folder = tempfile::tempdir().unwrap();
    let mut app = new_card(folder.path(), "blue");
    to(&mut app, "8 optional");
    app.press(Key::Enter);
    to(&mut app, "arrow speed");
    type_text(&mut app, "280 ft/s");
    app.press(Key::Enter);
    to(&mut app, "optional lines");
    app.press(Key::Enter);
    let shown = text(&app, 80, 60);
    assert!(
        shown.contains("280 ft/s") && shown.contains("7 optional"),
        "{shown}"
    );
}

#[test]
fn going_through_a_card_by_enter_never_stops_at_what_is_folded() {
    let folder = tempfile::tempdir().unwrap();
    let mut app = new_card(folder.path(), "blue");
    // Kept line by line to the last: Enter, and Enter again where it is typed.
    for _ in 0..120 {
        let screen = text(&app, 80, 24);
        if screen.contains("> add one") {
            return;
        }
        assert!(!screen.contains("> optional lines"), "{screen}");
        if screen
            .lines()
            .any(|l| l.contains("> ") && l.contains(" optional "))
        {
            app.press(Key::Down);
            continue;
        }
        app.press(Key::Enter);
        if !app.is_typing() && app.screen_title() == "panes" {
            panic!("it was left");
        }
    }
    panic!("no end:\n{}", text(&app, 80, 24));
}

#[test]
fn each_length_shows_where_it_is_measured() {
    let folder = tempfile::tempdir().unwrap();
    let mut app = new_card(folder.path(), "blue");
    for (line, drawn, name) in [
        ("brace height", "string, undrawn", "brace"),
        ("draw length", "pivot + 1 3/4in", "draw"),
        ("shaft length", "the point is not counted", "shaft"),
        ("rest to paper", "rest contact      paper", "paper"),
    ] {
        to(&mut app, line);
        let shown = text(&app, 80, 24);
        assert!(shown.contains(drawn), "{shown}");
        snapshot(&format!("card-drawing-{name}-80x24"), &still(&shown));
        // Where there is no room the words stay and the drawing goes.
        assert!(!text(&app, 60, 24).contains(drawn));
    }
    to(&mut app, "peak weight");
    assert!(!text(&app, 80, 24).contains("undrawn    grip"));
}

#[test]
fn only_what_the_bow_can_have_is_offered() {
    let folder = tempfile::tempdir().unwrap();
    let mut app = new_card(folder.path(), "blue");
    let words = |app: &mut App, line: &str| {
        to(app, line);
        let mut all = Vec::new();
        for _ in 0..8 {
            let screen = text(app, 80, 24);
            let shown = screen
                .lines()
                .find(|l| l.contains("> ") && l.contains(line));
            let word = shown.unwrap().split_whitespace();
            let word = word.skip_while(|w| *w != "rest").nth(1).unwrap().to_owned();
            if all.contains(&word) {
                break;
            }
            all.push(word);
            app.press(Key::Right);
        }
        all
    };
    let compound = words(&mut app, "kind of rest");
    assert_eq!(
        compound,
        ["drop-away", "blade", "capture", "plunger", "fixed"]
    );
    to(&mut app, "kind of bow");
    app.press(Key::Right);
    let recurve = words(&mut app, "kind of rest");
    // What was entered stands until it is changed, and is then offered no more.
    assert_eq!(
        recurve,
        ["drop-away", "plunger", "fixed", "capture", "shelf"]
    );
    assert!(!words(&mut app, "kind of rest").contains(&"drop-away".to_owned()));
}

#[test]
fn every_unusual_value_is_marked_not_only_the_first() {
    let mut app = sample("half-way", look());
    press(&mut app, "card");
    for (line, value) in [("draw length", "36 in"), ("brace height", "12 in")] {
        to(&mut app, line);
        let digit = value.chars().next().unwrap();
        app.press(Key::Char(digit));
        type_text(&mut app, &value[1..]);
        app.press(Key::Enter);
        if text(&app, 80, 24).contains("1: typo") {
            app.press(Key::Char('1'));
        }
    }
    let shown = text(&app, 80, 60);
    assert!(shown.matches(" unusual").count() >= 2, "{shown}");
    snapshot("card-unusual-80x24", &styled(&app, 80, 24));
}
