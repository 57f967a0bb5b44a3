//! Adjusters listed and taken off on the card, by real keys.

use crate::support::{look, name_new, press, sample, snapshot, styled, text, type_text};
use tearbench::actions::Key;
use tearbench::gear::{AdjusterKind, CardText};
use tearbench::session::Session;
use tearbench::tui::{App, Look};

fn card() -> App {
    let mut app = sample("half-way", look());
    press(&mut app, "card");
    to_the_end(&mut app);
    app
}

/// What the screen says, however its lines are broken.
fn said(app: &App) -> String {
    let shown = text(app, 80, 24);
    shown.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn to_the_end(app: &mut App) {
    (0..15).for_each(|_| app.press(Key::PageDown));
}

fn kinds(app: &App) -> Vec<&'static str> {
    let adjusters = app.timeline().card.adjusters.iter();
    adjusters.map(|a| a.kind.id()).collect()
}

fn list(app: &mut App, kind: &str) {
    app.press(Key::Enter);
    for _ in 0..9 {
        let shown = text(app, 100, 40);
        let here = shown
            .lines()
            .find(|l| l.contains('>') && l.contains("each way"));
        if here.is_some_and(|l| l.contains(&kind.replace('-', " "))) {
            break;
        }
        app.press(Key::Down);
    }
    app.press(Key::Enter);
}

#[test]
fn the_first_one_listed_takes_the_implied_ones_with_it_and_says_so() {
    let mut app = card();
    let implied = kinds(&app);
    let before = app.timeline().card.adjusters.clone();
    snapshot("card-adjusters-implied-80x24", &styled(&app, 80, 24));
    app.press(Key::Enter);
    snapshot("card-adjuster-add-80x24", &styled(&app, 80, 24));
    app.press(Key::Esc);
    assert_eq!(app.screen_title(), "Card", "Esc leaves the list only");
    list(&mut app, "yoke-twist");
    let mut with = implied.clone();
    with.push("yoke-twist");
    assert_eq!(kinds(&app), with);
    // Those that were implied stand as they stood, step for step.
    for adjuster in &before {
        assert_eq!(app.timeline().card.adjuster(adjuster.kind), Some(adjuster));
    }
    let said = said(&app);
    assert!(said.contains("A list is all the bow has"), "{said}");
    assert!(
        said.contains(&implied.join(", ").replace('-', " ")),
        "{said}"
    );
    app.press(Key::Up);
    snapshot("card-adjuster-listed-80x24", &styled(&app, 80, 24));
    // One entry, one undo.
    app.press(Key::Esc);
    press(&mut app, "undo");
    assert_eq!(kinds(&app), implied);
    assert!(app.timeline().card_text.adjusters.is_empty());
}

#[test]
fn its_step_is_changed_emptied_and_a_wrong_one_is_named_as_it_is_typed() {
    let mut app = card();
    list(&mut app, "yoke-twist");
    let step = |app: &App| {
        let yoke = app.timeline().card.adjuster(AdjusterKind::YokeTwist);
        yoke.map(|a| a.step)
    };
    assert_eq!(step(&app), Some(0.5));
    app.press(Key::Enter);
    type_text(&mut app, "many");
    let shown = text(&app, 80, 24);
    assert!(!shown.contains("is understood"), "{shown}");
    let entries = app.session().entries().len();
    app.press(Key::Enter);
    assert!(app.is_typing(), "what cannot be read is not taken");
    app.press(Key::Esc);
    assert_eq!(app.session().entries().len(), entries);
    app.press(Key::Enter);
    type_text(&mut app, "1/4 twist");
    assert!(said(&app).contains("is understood"), "{}", said(&app));
    app.press(Key::Enter);
    assert_eq!(step(&app), Some(0.25));
    // Emptied, the usual one holds again.
    app.press(Key::Enter);
    (0..9).for_each(|_| app.press(Key::Backspace));
    app.press(Key::Enter);
    assert_eq!(step(&app), Some(0.5));
}

#[test]
fn one_is_taken_off_and_with_the_last_the_implied_ones_hold_again() {
    let mut app = card();
    let implied = kinds(&app);
    list(&mut app, "limb-bolts");
    while !kinds(&app).is_empty() && !app.timeline().card_text.adjusters.is_empty() {
        let before = app.timeline().card_text.adjusters.len();
        to_the_end(&mut app);
        app.press(Key::Up);
        let shown = text(&app, 80, 24);
        assert!(shown.contains("the bow does not have it"), "{shown}");
        app.press(Key::Enter);
        let after = app.timeline().card_text.adjusters.len();
        assert_eq!(after + 1, before, "{}", text(&app, 80, 24));
    }
    assert!(said(&app).contains("the last one listed"), "{}", said(&app));
    assert_eq!(kinds(&app), implied);
}

#[test]
fn on_a_new_card_nothing_is_written_until_it_starts() {
    let folder = tempfile::tempdir().unwrap();
    let mut app = sample(
        "half-way",
        Look {
            folder: folder.path().into(),
            ..look()
        },
    );
    name_new(&mut app, "blue");
    to_the_end(&mut app);
    // The last line of a new card starts the session; over it stands whether
    // earlier bows teach, and over that the line that lists one more.
    app.press(Key::Up);
    app.press(Key::Up);
    list(&mut app, "limb-bolts");
    assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 0);
    // Once to be told what nobody looked at, once to start.
    press(&mut app, "start");
    press(&mut app, "start");
    let session = Session::open(&folder.path().join("blue.toml")).unwrap();
    let card: &CardText = session.first_card();
    let names: Vec<&str> = card
        .adjusters
        .iter()
        .map(|a| a["name"].text.as_str())
        .collect();
    assert_eq!(
        names,
        [
            "rest-sideways",
            "rest-height",
            "nocking-point",
            "limb-bolts"
        ]
    );
}
