//! What the machine or the user does not allow: an error that says so, with
//! the right exit code, and nothing half done.

use super::{Shop, command, said};

#[test]
fn exit_2_is_for_what_typing_something_else_mends_and_1_for_the_machine() {
    let shop = Shop::with_shots(1);
    // No room: the file may not grow.
    let blocks = shop.bytes("bow.toml").len() / 512 + 1;
    let note = "x".repeat(3000);
    let script = format!("ulimit -f {blocks}; \"$0\" note bow.toml {note}");
    let full = shop.shell(&script);
    assert_eq!(full.code, Some(1), "{}", full.err);
    assert!(full.err.contains("bow.toml: not recorded"), "{}", full.err);
    assert!(full.err.contains("may not grow further"), "{}", full.err);
    assert_eq!(shop.journal().entries.len(), 2);
    assert!(shop.journal().damage.is_empty());
    // A sheet that finds no room leaves the old one, and nothing beside it.
    shop.good(&["report", "bow.toml", "-o", "sheet.txt"]);
    let before = (shop.read("sheet.txt"), shop.files());
    let full = shop.shell("ulimit -f 1; \"$0\" report bow.toml --format html -o sheet.txt");
    assert_eq!(full.code, Some(1), "{}", full.err);
    assert_eq!((shop.read("sheet.txt"), shop.files()), before);
    let full = shop.shell("ulimit -f 0; \"$0\" new other.toml --card card.toml");
    assert_eq!(full.code, Some(1), "{}", full.err);
    assert!(!shop.path("other.toml").exists());
    for args in [
        &["advise", "none.toml"][..],
        &["advise", "."],
        &["new", "bow.toml", "--card", "card.toml"],
        &["report", "bow.toml", "-o", "card.toml"],
        &["shot", "bow.toml", "12"],
        &["list", "nowhere"],
    ] {
        assert_eq!(shop.run(args).code, Some(2), "{args:?}");
    }
}

#[test]
fn a_stderr_that_cannot_be_written_decides_nothing() {
    for to in ["2>/dev/full", "2>&-", "2>/dev/full >/dev/full"] {
        let shop = Shop::with_shots(3);
        // A torn file warns on every opening.
        let text = shop.read("bow.toml");
        shop.write("bow.toml", &text[..text.len() - 3]);
        let recorded = shop.shell(&format!("\"$0\" shot bow.toml '300 left' {to}"));
        assert_eq!(recorded.code, Some(0), "{to}");
        assert_eq!(shop.journal().entries.len(), 4, "{to}");
        let refused = shop.shell(&format!("\"$0\" shot bow.toml 'no tear' {to}"));
        assert_eq!(refused.code, Some(2), "{to}");
        let unknown = shop.shell(&format!("\"$0\" --no-such {to}"));
        assert_eq!(unknown.code, Some(2), "{to}");
    }
}

#[test]
fn pipes_devices_and_endless_files_are_refused_at_once_wherever_a_file_is_read() {
    let shop = Shop::with_shots(1);
    let made = std::process::Command::new("mkfifo")
        .arg(shop.path("pipe.toml"))
        .status();
    assert!(made.unwrap().success());
    std::fs::File::create(shop.path("huge.toml"))
        .unwrap()
        .set_len(1 << 40)
        .unwrap();
    for file in ["pipe.toml", "/dev/zero", "/dev/tty", "huge.toml"] {
        for args in [
            &["advise", file][..],
            &["shot", file, "clean"],
            &["check", file],
            &["check", file, "--repair", "new.toml"],
            &["new", "x.toml", "--card", file],
            &["new", "x.toml", "--from", file],
            &["report", "bow.toml", "-o", file],
            &["compare", "bow.toml", file],
        ] {
            let said = shop.run(args);
            assert_eq!(said.code, Some(2), "{args:?}: {}", said.err);
            assert!(said.err.contains(file), "{args:?}: {}", said.err);
        }
    }
    shop.good(&["list", "."]);
    // As settings and as what is remembered, where the console reads them.
    for folder in [".config", ".state"] {
        std::fs::create_dir_all(shop.path(folder).join("tearbench")).unwrap();
    }
    for name in [
        ".config/tearbench/config.toml",
        ".state/tearbench/recent",
        ".state/tearbench/open",
        ".state/tearbench/hints",
    ] {
        let _ = std::fs::remove_file(shop.path(name));
        let made = std::process::Command::new("mkfifo")
            .arg(shop.path(name))
            .status();
        assert!(made.unwrap().success());
        let console = shop.shell("echo clean | timeout 20 \"$0\" --plain bow.toml");
        let settings = name.ends_with("config.toml");
        assert_eq!(
            console.code,
            Some(if settings { 2 } else { 0 }),
            "{name}: {}",
            console.err
        );
        assert_eq!(
            settings,
            console.err.contains("not an ordinary file"),
            "{}",
            console.err
        );
        std::fs::remove_file(shop.path(name)).unwrap();
    }
}

#[test]
fn a_home_that_is_no_folder_is_no_obstacle() {
    let shop = Shop::with_shots(1);
    let out = command(shop.folder())
        .env("HOME", "/dev/null")
        .env_remove("XDG_CONFIG_HOME")
        .env_remove("XDG_STATE_HOME")
        .args(["--plain", "bow.toml"])
        .stdin(std::process::Stdio::null())
        .output()
        .unwrap();
    let said = said(&out);
    assert_eq!(said.code, Some(0), "{}", said.err);
    assert!(said.out.contains("Next step"), "{}", said.out);
}

/// Characters that a terminal acts on, reorders by, or does not show.
const MARKS: &str = "\u{1b}\u{7}\u{9b}\u{ad}\u{61c}\u{180e}\u{200b}\u{200e}\u{2028}\u{2029}\u{202e}\u{2066}\u{feff}\u{fff9}\u{fffb}\u{e0041}\u{e007f}";

#[test]
fn what_a_terminal_acts_on_is_never_printed_json_and_argument_errors_included() {
    let shop = Shop::with_shots(1);
    let owner = format!("Ann{MARKS}b");
    shop.good(&["card", "bow.toml", &format!("job.owner={owner}")]);
    shop.good(&["answer", "bow.toml", "arrow", "same", &owner]);
    shop.good(&["note", "bow.toml", &owner]);
    let marked = format!("--x{MARKS}");
    for args in [
        &["report", "bow.toml"][..],
        &["report", "bow.toml", "--format", "json"],
        &["report", "bow.toml", "--format", "markdown"],
        &["report", "bow.toml", "--format", "html"],
        &["advise", "bow.toml", "--json"],
        &["card", "bow.toml"],
        &["list", "."],
        &["shot", "bow.toml", &owner],
        &["move", "bow.toml", &owner],
        &["advise", &owner],
        &[&marked],
        &["report", "bow.toml", &marked],
        &["close", "bow.toml", &owner],
    ] {
        let said = shop.run(args);
        let all = format!("{}{}", said.out, said.err);
        let bad: Vec<char> = all.chars().filter(|c| MARKS.contains(*c)).collect();
        assert!(bad.is_empty(), "{args:?}: {bad:?}");
        assert!(!all.is_empty(), "{args:?}");
    }
    // JSON keeps what it does not show.
    let json = shop.good(&["report", "bow.toml", "--format", "json"]);
    let value: serde_json::Value = serde_json::from_str(&json).unwrap();
    let detail = value["answers"][0]["detail"].as_str().unwrap();
    assert!(
        detail.contains('\u{2028}') && detail.contains('\u{e0041}'),
        "{detail:?}"
    );
}

#[test]
fn texts_have_a_length_and_long_ones_are_not_said_again() {
    let shop = Shop::with_shots(1);
    let before = shop.read("bow.toml");
    let long = "ä".repeat(401);
    for args in [
        &["incident", "bow.toml", &long][..],
        &["answer", "bow.toml", "arrow", "same", &long],
        &["restart", "bow.toml", "--why", &long],
        &["card", "bow.toml", &format!("job.owner={long}")],
        &["note", "bow.toml", &"n".repeat(4001)],
        &["shot", "bow.toml", "clean", "--arrow", &long],
    ] {
        let said = shop.run(args);
        assert_eq!(said.code, Some(2), "{args:?}: {}", said.err);
        assert!(said.err.contains("at most 400"), "{}", said.err);
        assert_eq!(shop.read("bow.toml"), before);
    }
    shop.good(&["note", "bow.toml", &"ä".repeat(4000)]);
    shop.good(&["answer", "bow.toml", "arrow", "same", &"ä".repeat(400)]);
    for args in [
        &["shot", "bow.toml", &"12 lift ".repeat(500)][..],
        &["move", "bow.toml", &"rest sidewards ".repeat(500)],
        &["before", "bow.toml", &"y".repeat(5000)],
        &["proof", "bow.toml", &"z".repeat(5000)],
        &["undo", "bow.toml", &"1".repeat(3000)],
    ] {
        let said = shop.run(args);
        assert_eq!(said.code, Some(2), "{args:?}");
        let typed: String = args[2].chars().take(260).collect();
        assert!(!said.err.contains(&typed), "{}: {}", args[0], said.err);
    }
}

#[test]
fn what_could_not_be_read_again_is_refused_with_its_reason() {
    let shop = Shop::with_shots(1);
    // The numbers are used up: the next one would begin again at 0.
    shop.spoil("\nend = 2\n", "\nend = 4294967295\n");
    let said = shop.run(&["shot", "bow.toml", "clean"]);
    assert_eq!(said.code, Some(1), "{}", said.err);
    assert!(
        said.err.contains("numbers of this file are used up"),
        "{}",
        said.err
    );
    assert_eq!(shop.journal().entries.len(), 2);
    // Told before it comes to that.
    shop.spoil("\nend = 4294967295\n", "\nend = 4294900000\n");
    let said = shop.run(&["shot", "bow.toml", "clean"]);
    assert_eq!(said.code, Some(0), "{}", said.err);
    assert!(said.err.contains("entry numbers are left"), "{}", said.err);
}

#[test]
fn the_file_stops_growing_before_it_could_not_be_read_and_says_so_long_before() {
    let shop = Shop::with_shots(1);
    let text = shop.read("bow.toml");
    let limit = 32 * 1024 * 1024;
    // Remarks are no damage, and cost nothing to read.
    let filled = |len: usize| {
        let line = format!("# {}\n", "-".repeat(997));
        let mut full = text.clone();
        while full.len() + line.len() <= len {
            full.push_str(&line);
        }
        shop.write("bow.toml", &full);
    };
    filled(limit / 4 * 3 + 2000);
    let said = shop.run(&["shot", "bow.toml", "clean"]);
    assert_eq!(said.code, Some(0), "{}", said.err);
    assert!(
        said.err.contains("of at most 33; begin a new one soon"),
        "{}",
        said.err
    );
    filled(limit - 10);
    let full = shop.bytes("bow.toml").len();
    let said = shop.run(&["note", "bow.toml", &"x".repeat(3000)]);
    assert_eq!(said.code, Some(1), "{}", said.err);
    assert!(said.err.contains("may not grow further"), "{}", said.err);
    assert_eq!(shop.bytes("bow.toml").len(), full);
    shop.good(&["advise", "bow.toml"]);
}
