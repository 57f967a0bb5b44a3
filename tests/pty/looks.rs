//! What reaches the terminal: whole frames, colours where they are wanted,
//! and a word where it cannot be used.

use crate::terminal::Console;

/// Begin and end of a frame (DEC private mode 2026).
const FRAME: [&str; 2] = ["\u{1b}[?2026h", "\u{1b}[?2026l"];

fn quit(mut console: Console) {
    console.press("quit");
    assert!(console.end().success());
    console.is_restored();
}

#[test]
fn every_frame_goes_out_whole_in_synchronized_output() {
    let folder = tempfile::tempdir().unwrap();
    let mut console = Console::start(folder.path(), &[], (80, 24));
    console.wait_text("DEMO: NOT KEPT");
    console.press("log");
    // The key line is the last of a frame: half a frame still has the old one.
    console.wait("the log", |s| {
        s.contents().contains("Log") && !s.contents().contains("q quit")
    });
    console.send("\u{1b}");
    console.wait_text("q quit");
    let begun = console.times(FRAME[0]);
    assert!(begun >= 3, "{begun} begun");
    console.wait_times(FRAME[1], begun);
    quit(console);
}

#[test]
fn colours_come_only_where_they_are_wanted() {
    for (script, colour) in [
        ("exec \"$0\"", true),
        ("NO_COLOR=1 exec \"$0\"", false),
        ("NO_COLOR= exec \"$0\"", true),
        ("NO_COLOR=1 exec \"$0\" --color always", true),
        ("exec \"$0\" --color never", false),
        ("TERM=vt220 exec \"$0\"", false),
    ] {
        let folder = tempfile::tempdir().unwrap();
        let console = Console::start_in_shell(folder.path(), script, (80, 24));
        console.wait_text("DEMO: NOT KEPT");
        console.wait_text("q quit");
        assert_eq!(console.has_colour(), colour, "{script}");
        quit(console);
    }
}

#[test]
fn plain_letters_draw_it_where_the_locale_knows_no_others() {
    for (script, ascii) in [
        ("LANG=C exec \"$0\"", true),
        ("LANG=C exec \"$0\" --draw unicode", false),
        ("exec \"$0\" --draw ascii", true),
        ("exec \"$0\"", false),
    ] {
        let folder = tempfile::tempdir().unwrap();
        let console = Console::start_in_shell(folder.path(), script, (80, 24));
        console.wait_text("DEMO: NOT KEPT");
        console.wait_text("q quit");
        assert_eq!(console.contents().is_ascii(), ascii, "{script}");
        quit(console);
    }
}

#[test]
fn a_dumb_terminal_is_told_what_to_use_instead() {
    let folder = tempfile::tempdir().unwrap();
    let script = "TERM=dumb exec \"$0\"";
    let mut console = Console::start_in_shell(folder.path(), script, (200, 24));
    console.wait_text("tearbench advise, shot, move");
    assert_eq!(console.end().exit_code(), 1);
    assert_eq!(console.times("\u{1b}"), 0, "nothing it could not place");
    // As lines it works there.
    let script = "TERM=dumb exec \"$0\" --plain";
    let mut console = Console::start_in_shell(folder.path(), script, (200, 24));
    console.wait_text("Next step: ");
    console.send("quit\r");
    assert!(console.end().success());
    assert_eq!(console.times("\u{1b}"), 0);
}

#[test]
fn on_a_slow_line_keys_share_a_frame() {
    let folder = tempfile::tempdir().unwrap();
    let mut console = Console::start(folder.path(), &["--thin"], (80, 24));
    console.wait_text("q quit");
    let before = console.times(FRAME[0]);
    let typed = "12 left 4 high";
    for letter in typed.chars() {
        console.send(&letter.to_string());
    }
    console.wait_text("= 12 mm left, 4 mm high");
    let frames = console.times(FRAME[0]) - before;
    assert!(frames < typed.len() / 2, "{frames} frames");
    console.send("\u{1b}");
    console.wait_text("q quit");
    quit(console);
}
