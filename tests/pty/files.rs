//! Two consoles on one file, and a disk with no room.

use crate::terminal::Console;
use tearbench::session::Session;

const CARD: &str = include_str!("../../sample-sessions/half-way.toml");

#[test]
fn a_second_console_follows_along_without_a_key_and_takes_over_when_the_first_leaves() {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("bow.toml"), CARD).unwrap();
    let mut first = Console::start(folder.path(), &["bow.toml"], (80, 24));
    first.wait_text("q quit");
    let mut second = Console::start(folder.path(), &["bow.toml"], (80, 24));
    second.wait_text("in use by the tearbench console");
    // Silence is what is measured: looking at the file writes nothing.
    std::thread::sleep(std::time::Duration::from_millis(300));
    let before = second.bytes();
    std::thread::sleep(std::time::Duration::from_millis(2500));
    assert_eq!(second.bytes(), before, "an idle console wrote");
    first.send("9l4h\r");
    first.wait_text("recorded: 9 mm left");
    second.wait_text("recorded elsewhere: shot 9 mm left");
    first.send("\u{1b}[A");
    first.press("quit");
    assert!(first.end().success());
    second.send("/reload\r");
    second.wait_text("yours now");
    second.send("1l\r");
    second.wait_text("recorded: 1 mm left");
    second.send("\u{1b}[A");
    second.press("quit");
    assert!(second.end().success());
    second.is_restored();
}

#[test]
fn on_a_full_disk_the_tears_stay_in_the_prompt_and_what_was_recorded_is_sound() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("bow.toml");
    std::fs::write(&path, CARD).unwrap();
    let before = Session::open(&path).unwrap().entries().len();
    // No file may grow past this many blocks of 512 bytes; the signal for it
    // is ignored, so that writing fails as it does on a full disk.
    let blocks = CARD.len() / 512 + 2;
    let script = format!("trap '' XFSZ; ulimit -f {blocks}; exec \"$0\" bow.toml");
    let mut console = Console::start_in_shell(folder.path(), &script, (80, 24));
    console.wait_text("q quit");
    let line = ["9l"; 12].join("; ");
    console.send(&format!("{line}\r"));
    console.wait_text("nothing already recorded");
    // The holes of one sheet are on disk all together or not at all, and what
    // is not on disk is left in the prompt.
    let session = Session::open(&path).unwrap();
    assert_eq!(session.entries().len(), before);
    assert!(session.damage().is_empty());
    let left = console.contents().matches("9l").count();
    assert_eq!(left, 12, "{}", console.contents());
    console.send("\u{1b}");
    console.wait_text("q quit");
    console.press("quit");
    assert!(console.end().success());
    console.is_restored();
}
