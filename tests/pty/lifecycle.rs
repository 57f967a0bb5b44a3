//! Start, quit, signals, sizes.

use crate::terminal::Console;

fn started(folder: &std::path::Path) -> (Console, String) {
    let console = Console::start(folder, &[], (80, 24));
    console.wait_text("DEMO: NOT KEPT");
    let modes = console.modes();
    (console, modes)
}

#[test]
fn it_starts_on_the_demo_and_quits_with_the_terminal_as_it_was() {
    let folder = tempfile::tempdir().unwrap();
    let (mut console, raw) = started(folder.path());
    console.press("quit");
    assert!(console.end().success());
    console.is_restored();
    // The control: the modes while it ran were not those it left.
    assert_ne!(console.modes(), raw);
    assert_eq!(
        std::fs::read_dir(folder.path()).unwrap().count(),
        0,
        "the demo left a file"
    );
}

#[test]
fn signals_give_the_terminal_back() {
    for name in ["TERM", "HUP", "INT", "QUIT", "USR1", "USR2", "ALRM", "ABRT"] {
        let folder = tempfile::tempdir().unwrap();
        let (mut console, raw) = started(folder.path());
        console.signal(name);
        assert!(!console.end().success(), "{name} is no success");
        console.is_restored();
        assert_ne!(console.modes(), raw, "{name}");
    }
}

#[test]
fn a_signal_ends_it_though_nobody_reads_its_output() {
    for name in ["TERM", "HUP", "INT"] {
        let folder = tempfile::tempdir().unwrap();
        let (mut console, _) = started(folder.path());
        assert!(console.ends_unread(name), "{name} did nothing");
    }
}

#[test]
fn killed_outright_it_cannot_give_the_terminal_back() {
    // The control of the test above: what it checks can fail.
    let folder = tempfile::tempdir().unwrap();
    let (mut console, raw) = started(folder.path());
    console.signal("KILL");
    console.end();
    assert_eq!(console.modes(), raw);
    console.wait("the alternate screen", vt100::Screen::alternate_screen);
}

#[test]
fn stopped_and_continued_it_gives_the_terminal_back_and_takes_it_again() {
    let folder = tempfile::tempdir().unwrap();
    let (mut console, raw) = started(folder.path());
    console.signal("TSTP");
    console.is_restored();
    console.wait_modes_other_than(&raw);
    console.signal("CONT");
    console.wait("the alternate screen", vt100::Screen::alternate_screen);
    console.wait_text("DEMO: NOT KEPT");
    console.press("quit");
    assert!(console.end().success());
    console.is_restored();
}

#[test]
fn it_follows_every_size_and_says_when_one_is_too_small() {
    let folder = tempfile::tempdir().unwrap();
    let (mut console, _) = started(folder.path());
    console.resize(120, 40);
    console.wait("three panes at 120 columns", |s| {
        s.contents()
            .lines()
            .nth(1)
            .is_some_and(|l| l.chars().count() == 120)
    });
    console.resize(60, 20);
    // Drawn anew, not only cut off: the key line stands in the last row. A key
    // that comes in together with a change of size may wait for the next one.
    console.wait("two panes over their key line", |s| {
        let contents = s.contents();
        let last = contents.lines().last().map(str::to_owned);
        !contents.contains("Convergence") && last.is_some_and(|l| l.contains("space more"))
    });
    console.resize(30, 8);
    console.wait("the whole of what is said at 30 columns", |s| {
        let contents = s.contents();
        contents.contains("needs 40") && contents.contains("quits.")
    });
    console.press("quit");
    assert!(console.end().success());
}

#[test]
fn an_idle_console_writes_nothing_and_a_key_little() {
    let folder = tempfile::tempdir().unwrap();
    let (mut console, _) = started(folder.path());
    console.send("2");
    console.wait_text("Tear> 2");
    let before = console.bytes();
    console.send("l");
    console.wait_text("= 2 mm left");
    // Time passes here because silence is what is measured; the first pause
    // lets the end of the frame come in.
    std::thread::sleep(std::time::Duration::from_millis(300));
    let key = console.bytes() - before;
    assert!(key < 400, "a typed letter cost {key} bytes");
    std::thread::sleep(std::time::Duration::from_millis(1500));
    assert_eq!(console.bytes() - before, key, "an idle console wrote");
    console.send("\u{1b}");
    console.wait("the key line", |s| s.contents().contains("q quit"));
    console.press("quit");
    assert!(console.end().success());
}

#[test]
fn without_a_terminal_it_names_the_commands_that_need_none() {
    let mut command = std::process::Command::new(env!("CARGO_BIN_EXE_tearbench"));
    let out = command.stdin(std::process::Stdio::null()).output().unwrap();
    assert!(!out.status.success());
    let said = String::from_utf8_lossy(&out.stderr);
    assert!(said.contains("tearbench advise"), "{said}");
}
