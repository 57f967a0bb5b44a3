//! A whole job by keyboard alone at 80x24: the card, before paper, paper,
//! after paper, the sheet; then back to the bench book.

use std::path::Path;

use crate::bow::{answer_the_hand, begin, entries, shows, tear};
use crate::terminal::Console;
use tearbench::session::{Event, Session};
use tearbench::setup::{self, Measure};
use tearbench::words;

/// Types a line and waits until it is taken and on disk.
fn enter(console: &mut Console, path: &Path, line: &str) {
    let before = entries(path);
    console.send(line);
    console.wait("the line echoed", |s| s.contents().contains("= "));
    console.send("\r");
    console.wait("it recorded", |_| entries(path) > before);
}

fn key(console: &mut Console, path: &Path, action: &str) {
    let before = entries(path);
    console.press(action);
    console.wait("it recorded", |_| entries(path) > before);
}

/// The whole list as it comes: a figure where one is wanted, else one key.
fn before_paper(console: &mut Console, path: &Path) -> usize {
    console.press("before");
    console.wait_text("Before the first shot");
    // Keys that come faster than the page is read are a word.
    console.reads();
    let mut items = 0;
    loop {
        let session = Session::open(path).unwrap();
        let list = setup::checklist(session.timeline());
        let Some(next) = setup::next_open(&list) else {
            break;
        };
        let title = words::setup::title(next.item.id);
        console.wait(title, |s| {
            s.contents()
                .lines()
                .any(|l| l.contains('>') && l.contains(title))
        });
        match (next.item.gate, next.item.measure) {
            (true, Measure::Length) => enter(console, path, "1.5 m"),
            _ => key(console, path, "in-order"),
        }
        items += 1;
        assert!(items < 60);
    }
    console.wait_text("now paper");
    console.press("back");
    console.wait_text("Next step");
    items
}

fn paper(console: &mut Console, path: &Path) {
    for shots in 0..30 {
        if shows(console, "WITHIN TOLERANCE") {
            return;
        }
        answer_the_hand(console);
        if shots > 0 && (shows(console, "MOVE") || shows(console, "TEST MOVE")) {
            console.press("take-move");
            console.wait_text("At the bench");
            console.press("as-shown");
            console.wait_text("move recorded");
        }
        enter(console, path, &tear(path, shots));
        console.send("\u{1b}[A");
        console.wait("the key line", |s| s.contents().contains("q quit"));
    }
    panic!("not inside after 30 shots:\n{}", console.contents());
}

fn after_paper(console: &mut Console, path: &Path) {
    console.press("proof");
    console.wait_text("After paper");
    let last = |path: &Path| {
        Session::open(path)
            .unwrap()
            .entries()
            .last()
            .unwrap()
            .event
            .clone()
    };
    // Levels were answered before paper: the sight is next.
    console.send("\r");
    console.wait_text("After paper: Rough sight");
    enter(console, path, "1 left; 1 right; spot");
    console.press("back");
    console.wait_text("Final sight");
    // The cursor is past the creep test, which is optional.
    console.send("\r");
    console.wait_text("After paper: Bare shaft");
    enter(console, path, "1 left; 1 right; 1 high");
    console.wait_text("> bare at 5 m");
    enter(console, path, "1 left; 1 right; spot");
    let Event::Group { what, .. } = last(path) else {
        panic!("{:?}", last(path))
    };
    assert_eq!(what.word(), "bare");
    console.press("back");
    console.wait_text("ok        Bare shaft");
    // The rest is left out knowingly; the cursor goes on by itself.
    for _ in 0..5 {
        key(console, path, "leave-out");
    }
    console.press("back");
    console.wait_text("Next step");
}

#[test]
fn a_whole_job_by_keyboard_from_the_card_to_the_sheet() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("blue.toml");
    let mut console = Console::start(folder.path(), &[], (80, 24));
    begin(&mut console);
    let items = before_paper(&mut console, &path);
    assert!(items > 30, "{items}");
    paper(&mut console, &path);
    after_paper(&mut console, &path);
    console.press("sheet");
    console.wait_text("IN IT SO FAR");
    console.send("\u{1b}[B\r");
    console.wait_text("blue-sheet.html");
    console.send("\r");
    console.wait_text("wrote blue-sheet.html");
    let page = std::fs::read_to_string(folder.path().join("blue-sheet.html")).unwrap();
    for wanted in [
        "Tuning sheet",
        "WITHIN TOLERANCE",
        "Bare shaft",
        "setting 2",
    ] {
        assert!(page.contains(wanted), "{wanted}");
    }
    console.press("back");
    console.wait_text("Next step");
    console.press("files");
    console.wait_text("(open now)");
    console.press("back");
    console.wait_text("Next step");
    console.press("quit");
    assert!(console.end().success());
    console.is_restored();
}
