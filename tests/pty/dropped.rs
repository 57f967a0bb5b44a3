//! A dropped line: everything is on disk, and the next start goes on.

use crate::terminal::Console;
use tearbench::session::Session;

const CARD: &str = include_str!("../../sample-sessions/half-way.toml");

fn begun(folder: &std::path::Path) -> Console {
    std::fs::write(folder.join("bow.toml"), CARD).unwrap();
    let mut console = Console::start(folder, &["bow.toml"], (80, 24));
    console.wait_text("q quit");
    console.send("11l4h\r");
    console.wait_text("recorded: 11 mm left");
    console
}

#[test]
fn after_a_dropped_line_the_next_start_offers_to_go_on_and_shows_the_shot() {
    for signal in ["HUP", "TERM", "KILL"] {
        let folder = tempfile::tempdir().unwrap();
        let mut console = begun(folder.path());
        console.signal(signal);
        console.end();
        let entries = Session::open(&folder.path().join("bow.toml"))
            .unwrap()
            .entries()
            .len();
        let mut again = Console::start(folder.path(), &[], (80, 24));
        again.wait_text("Go on where it stopped?");
        again.wait_text("last entry: shot 11 mm left");
        again.send("\r");
        again.wait("the session, not the demo", |s| {
            s.contents().contains("Last: ") && !s.contents().contains("DEMO")
        });
        again.press("log");
        again.wait_text("shot 11 mm left");
        again.send("\u{1b}");
        again.wait_text("q quit");
        // It is held for writing again, and goes on with the next number.
        again.send("3l\r");
        again.wait_text("recorded: 3 mm left");
        let session = Session::open(&folder.path().join("bow.toml")).unwrap();
        assert_eq!(session.entries().len(), entries + 1);
        again.send("\u{1b}[A");
        again.press("quit");
        assert!(again.end().success());
    }
}

#[test]
fn what_was_left_properly_or_declined_or_is_held_is_not_offered() {
    let folder = tempfile::tempdir().unwrap();
    let demo = |folder: &std::path::Path| {
        let mut demo = Console::start(folder, &[], (80, 24));
        demo.wait_text("DEMO: NOT KEPT");
        demo.wait_text("q quit");
        assert!(
            !demo.contents().contains("Go on where"),
            "{}",
            demo.contents()
        );
        demo.press("quit");
        assert!(demo.end().success());
    };
    let mut console = begun(folder.path());
    // Held by a console that is still there.
    demo(folder.path());
    console.send("\u{1b}[A");
    console.press("quit");
    assert!(console.end().success());
    demo(folder.path());
    // Dropped, and left where it is at the next start.
    let mut console = begun(folder.path());
    console.signal("HUP");
    console.end();
    let mut again = Console::start(folder.path(), &[], (80, 24));
    again.wait_text("Go on where it stopped?");
    again.send("\u{1b}");
    again.wait_text("Nothing is lost");
    again.send("\u{1b}[A");
    again.press("quit");
    assert!(again.end().success());
    demo(folder.path());
}

#[test]
fn a_state_folder_that_cannot_be_used_or_holds_rubbish_never_stops_a_start() {
    let folder = tempfile::tempdir().unwrap();
    let state = folder.path().join("state");
    let start = |args: &[&str], text: &str| {
        let mut console = Console::start(folder.path(), args, (80, 24));
        console.wait_text(text);
        console.wait_text("q quit");
        console.press("quit");
        assert!(console.end().success());
    };
    std::fs::write(folder.path().join("bow.toml"), CARD).unwrap();
    // A file where the folder should be.
    std::fs::write(&state, "").unwrap();
    start(&["bow.toml"], "q quit");
    start(&[], "DEMO: NOT KEPT");
    std::fs::remove_file(&state).unwrap();
    // Lists that are no lists.
    std::fs::create_dir_all(state.join("tearbench")).unwrap();
    for rubbish in ["\0\u{1b}[31m\n\n/nowhere\n", "/\n.\n..\n"] {
        std::fs::write(state.join("tearbench/open"), rubbish).unwrap();
        std::fs::write(state.join("tearbench/recent"), rubbish).unwrap();
        start(&[], "DEMO: NOT KEPT");
    }
    std::fs::remove_file(state.join("tearbench/open")).unwrap();
    std::fs::create_dir(state.join("tearbench/open")).unwrap();
    start(&["bow.toml"], "q quit");
    start(&[], "DEMO: NOT KEPT");
}
