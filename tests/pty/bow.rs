//! A whole bow tuned by keyboard alone, at 80x24, from the first start to
//! "inside tolerance" and back again after leaving.

use std::path::Path;

use crate::terminal::Console;
use tearbench::gear::AdjusterKind;
use tearbench::session::Session;

/// A made-up bow: the mean tear at the start, and what a millimetre of each
/// rest adjuster does to it. Sideways it answers the other way than the usual
/// guide has it.
const START: (f64, f64) = (-15.0, 9.0);
const SIDEWAYS: f64 = 2.4;
const HEIGHT: f64 = -1.6;
/// Scatter of the shots, mm, over and over.
const SCATTER: [(f64, f64); 5] = [
    (1.0, -1.0),
    (-2.0, 0.0),
    (0.0, 2.0),
    (2.0, -1.0),
    (-1.0, 0.0),
];

/// The tear the bow would shoot where it stands now, as a person reads it.
pub fn tear(path: &Path, shots: usize) -> String {
    let session = Session::open(path).unwrap();
    let now = &session.timeline().now;
    let scatter = SCATTER[shots % SCATTER.len()];
    let right = START.0 + SIDEWAYS * now.get(AdjusterKind::RestSideways) + scatter.0;
    let up = START.1 + HEIGHT * now.get(AdjusterKind::RestHeight) + scatter.1;
    let way = |v: f64, minus: &str, plus: &str| {
        format!("{:.0}{}", v.abs(), if v < 0.0 { minus } else { plus })
    };
    format!("{}{}", way(right, "l", "r"), way(up, "d", "h"))
}

pub fn entries(path: &Path) -> usize {
    Session::open(path).map_or(0, |s| s.entries().len())
}

/// The verdict in the middle pane.
pub fn shows(console: &Console, verdict: &str) -> bool {
    console.contents().lines().any(|l| {
        l.split('│')
            .nth(2)
            .is_some_and(|pane| pane.trim().starts_with(verdict))
    })
}

/// The question about the bow hand, if it is asked: it was relaxed.
pub fn answer_the_hand(console: &mut Console) {
    if shows(console, "TEST") && !shows(console, "TEST MOVE") {
        console.press("answer");
        console.wait_text("The bow hand");
        console.send("\r");
        console.wait_text("recorded: the bow hand: relaxed");
    }
}

pub fn begin(console: &mut Console) {
    console.wait_text("DEMO: NOT KEPT");
    console.press("new");
    console.wait_text("New session>");
    console.send("blue");
    console.wait_text("blue.toml");
    console.send("\r");
    console.wait_text("Card of the new session");
    // Nothing is done on values that nobody confirmed: section by section.
    for section in ["BOW: ", "REST: ", "ARROW: ", "PAPER: "] {
        console.press("confirm-section");
        console.wait_text(section);
    }
    console.press("start");
    console.wait_text("is started");
}

#[test]
fn a_whole_bow_is_tuned_by_keyboard_alone_at_80_columns() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("blue.toml");
    let mut console = Console::start(folder.path(), &[], (80, 24));
    begin(&mut console);
    let (mut shots, mut moves) = (0, 0);
    while !shows(&console, "WITHIN TOLERANCE") {
        assert!(
            shots < 30,
            "not inside after {shots} shots and {moves} moves:\n{}",
            console.contents()
        );
        answer_the_hand(&mut console);
        if shots > 0 && (shows(&console, "MOVE") || shows(&console, "TEST MOVE")) {
            console.press("take-move");
            console.wait_text("At the bench");
            console.press("as-shown");
            console.wait_text("move recorded");
            moves += 1;
        }
        let before = entries(&path);
        let text = tear(&path, shots);
        console.send(&text);
        console.wait("the tear echoed", |s| s.contents().contains("= "));
        console.send("\r");
        console.wait("the tear recorded", |s| s.contents().contains("recorded: "));
        // It says recorded only once it is on disk.
        assert_eq!(entries(&path), before + 1);
        shots += 1;
        console.send("\u{1b}[A");
        console.wait("the key line", |s| s.contents().contains("q quit"));
    }
    assert!(
        moves >= 2,
        "a bow that far out takes more than {moves} moves"
    );
    console.press("quit");
    assert!(console.end().success());
    console.is_restored();
    let mut again = Console::start(folder.path(), &["blue.toml"], (80, 24));
    again.wait_text("WITHIN TOLERANCE");
    again.press("quit");
    assert!(again.end().success());
}
