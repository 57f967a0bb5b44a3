//! Links planted everywhere a file is made: nothing is created, emptied or
//! written through one, and nothing is removed that is not ours.

use std::os::unix::fs::symlink;

use tearbench::session::lock::Lock;

use super::Shop;
use super::writers::PATIENCE;

const PRECIOUS: &str = "written by somebody else\n";

#[test]
fn a_lock_that_is_a_link_or_not_ours_is_named_and_left_alone() {
    type Plant = fn(&Shop);
    let plants: [(&str, Plant); 6] = [
        ("a link to a file", |s| {
            symlink("precious", s.path(".bow.toml.lock")).unwrap();
        }),
        ("a link to nothing", |s| {
            symlink("absent", s.path(".bow.toml.lock")).unwrap();
        }),
        ("a hard link", |s| {
            std::fs::hard_link(s.path("precious"), s.path(".bow.toml.lock")).unwrap();
        }),
        ("a file", |s| s.write(".bow.toml.lock", PRECIOUS)),
        ("a folder", |s| {
            std::fs::create_dir(s.path(".bow.toml.lock")).unwrap();
        }),
        ("a pipe", |s| {
            let made = std::process::Command::new("mkfifo")
                .arg(s.path(".bow.toml.lock"))
                .status();
            assert!(made.unwrap().success());
        }),
    ];
    for (what, plant) in plants {
        let shop = Shop::with_shots(1);
        shop.write("precious", PRECIOUS);
        plant(&shop);
        let before = (shop.read("bow.toml"), shop.files());
        for script in [
            "\"$0\" shot bow.toml clean",
            "echo clean | \"$0\" --plain bow.toml",
        ] {
            let said = shop.shell(script);
            let all = format!("{}{}", said.out, said.err);
            assert!(all.contains(".bow.toml.lock"), "{what}: {all}");
            assert!(all.contains("remove it"), "{what}: {all}");
            assert_eq!(shop.read("precious"), PRECIOUS, "{what}");
            assert_eq!(
                (shop.read("bow.toml"), shop.files()),
                before.clone(),
                "{what}"
            );
        }
        assert_eq!(
            shop.run(&["shot", "bow.toml", "clean"]).code,
            Some(1),
            "{what}"
        );
        // Reading needs no lock.
        shop.good(&["advise", "bow.toml"]);
    }
}

#[test]
fn a_note_left_behind_by_a_killed_program_is_no_obstacle_and_goes() {
    let shop = Shop::with_shots(1);
    for whole in [
        "the tearbench console, process 4711\n",
        "tearbench (a command), process 4711\n",
    ] {
        // Killed while it wrote the note, or the power went.
        for kept in 0..=whole.len() {
            for lost in ["", "\0\0\0"] {
                let note = format!("{}{lost}", &whole[..kept]);
                shop.write(".bow.toml.lock", &note);
                let held = Lock::take(&shop.path("bow.toml"), "a test", PATIENCE);
                held.unwrap_or_else(|e| panic!("{note:?}: {e}"));
                assert!(!shop.path(".bow.toml.lock").exists(), "{note:?}");
            }
        }
        shop.write(".bow.toml.lock", whole);
        shop.good(&["shot", "bow.toml", "clean"]);
        assert!(!shop.path(".bow.toml.lock").exists());
    }
    for other in ["tearbench notes", "the tearbench console is open", "t\n\nx"] {
        shop.write(".bow.toml.lock", other);
        let refused = Lock::take(&shop.path("bow.toml"), "a test", PATIENCE);
        assert!(refused.unwrap_err().to_string().contains("remove it"));
        assert_eq!(shop.read(".bow.toml.lock"), other);
    }
}

#[test]
fn nothing_is_written_through_a_link_where_a_file_is_made() {
    let shop = Shop::with_shots(1);
    shop.write("precious", PRECIOUS);
    for name in [
        "new.toml",
        "r.toml",
        "bow.toml.torn-1",
        "sheet.txt",
        "s.toml.lost",
    ] {
        symlink("precious", shop.path(name)).unwrap();
    }
    symlink("absent", shop.path("dangling")).unwrap();
    let text = shop.read("bow.toml");
    shop.write("bow.toml", format!("{text}torn"));
    for args in [
        &["new", "new.toml", "--card", "card.toml"][..],
        &["new", "dangling", "--card", "card.toml"],
        &["check", "bow.toml", "--repair", "r.toml"],
        &["report", "bow.toml", "-o", "sheet.txt"],
        &["report", "bow.toml", "-o", "dangling"],
    ] {
        let said = shop.run(args);
        assert_eq!(said.code, Some(2), "{args:?}: {}", said.err);
    }
    shop.run(&["check", "bow.toml", "--repair", "s.toml"]);
    shop.good(&["shot", "bow.toml", "clean"]);
    assert_eq!(shop.read("bow.toml.torn-2"), "torn");
    assert_eq!(shop.read("precious"), PRECIOUS);
    assert!(!shop.path("absent").exists());
}

#[test]
fn a_sheet_replaces_a_sheet_and_nothing_else() {
    let shop = Shop::with_shots(1);
    let bare = shop
        .read("bow.toml")
        .split("\n[[entry]]")
        .next()
        .unwrap()
        .to_owned();
    shop.write("begun.toml", &bare);
    let bytes = [shop.bytes("bow.toml"), b"\0\0[[en".to_vec()].concat();
    shop.write("damaged.toml", bytes);
    let indented: String = shop
        .read("bow.toml")
        .lines()
        .map(|l| format!("  {l}\n"))
        .collect();
    shop.write("indented.toml", indented);
    for name in [
        "bow.toml",
        "card.toml",
        "begun.toml",
        "damaged.toml",
        "indented.toml",
    ] {
        let before = shop.bytes(name);
        let said = shop.run(&["report", "bow.toml", "-o", name]);
        assert_eq!(said.code, Some(2), "{name}");
        assert!(said.err.contains("is not replaced"), "{name}: {}", said.err);
        assert_eq!(shop.bytes(name), before, "{name}");
    }
    for format in ["text", "markdown", "html", "json"] {
        for _ in 0..2 {
            shop.good(&["report", "bow.toml", "--format", format, "-o", "sheet"]);
        }
        assert_eq!(
            shop.good(&["report", "bow.toml", "--format", format]),
            shop.read("sheet")
        );
    }
    assert_eq!(
        shop.good(&["report", "bow.toml", "-o", "-"]),
        shop.good(&["report", "bow.toml"])
    );
    assert!(!shop.path("-").exists());
}
