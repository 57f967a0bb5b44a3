//! Bad input, each kind tried: a clear error that names file, line and field
//! and says what would be right, exit code 2, nothing lost.

use super::{CARD, Shop};

/// The card spoiled in one way is refused, naming each of `parts`.
fn card_refused(spoil: impl Fn(&str) -> String, parts: &[&str]) {
    let shop = Shop::new();
    shop.write("bad.toml", spoil(CARD));
    let said = shop.run(&["new", "bow.toml", "--card", "bad.toml"]);
    assert_eq!(said.code, 2, "{}", said.err);
    for part in parts {
        assert!(said.err.contains(part), "no '{part}' in: {}", said.err);
    }
    assert!(!shop.path("bow.toml").exists());
}

#[test]
fn a_missing_field_is_named_with_an_example() {
    card_refused(
        |c| c.replace("spine = 0.400\n", ""),
        &["bad.toml", "arrow.spine", "0.400"],
    );
}

#[test]
fn an_unknown_field_is_named_by_line_with_the_nearest_known() {
    card_refused(
        |c| c.replace("peak_weight", "peak_wight"),
        &[
            "bad.toml:5",
            "bow.peak_wight",
            "did you mean bow.peak_weight?",
        ],
    );
}

#[test]
fn a_wrong_unit_is_named_with_what_would_be_right() {
    card_refused(
        |c| c.replace("60 lb", "60 in"),
        &["bad.toml:5", "bow.peak_weight", "60 lb"],
    );
    card_refused(
        |c| c.replace("\"60 lb\"", "60"),
        &["bad.toml:5", "the unit is missing"],
    );
}

#[test]
fn an_impossible_value_is_refused_and_an_unusual_one_kept() {
    card_refused(
        |c| c.replace("60 lb", "-60 lb"),
        &["bow.peak_weight", "usual is 15 to 80 lb"],
    );
    card_refused(|c| c.replace("60 lb", "0 lb"), &["cannot be right"]);
    card_refused(|c| c.replace("60 lb", "9000 lb"), &["cannot be right"]);
    let shop = Shop::new();
    shop.write(
        "odd.toml",
        CARD.replace("60 lb", "90 lb").replace("125 gr", "200 gr"),
    );
    let said = shop.run(&["new", "bow.toml", "--card", "odd.toml"]);
    assert_eq!(said.code, 0);
    assert!(
        said.err.contains("warning") && said.err.contains("unusual"),
        "{}",
        said.err
    );
}

#[test]
fn a_syntax_error_is_named_by_line() {
    card_refused(
        |c| c.replace("hand = \"right\"", "hand = = right"),
        &["bad.toml:3", "TOML"],
    );
}

#[test]
fn an_unknown_adjuster_lists_the_known_ones() {
    card_refused(
        |c| format!("{c}[[adjuster]]\nname = \"flux\"\n"),
        &["adjuster.name", "rest-sideways"],
    );
}

#[test]
fn an_empty_file_a_folder_and_a_missing_file_are_told_apart() {
    let shop = Shop::new();
    shop.write("empty.toml", "");
    std::fs::create_dir(shop.path("folder")).unwrap();
    for (file, part) in [
        ("empty.toml", "is empty"),
        ("folder", "is a folder"),
        ("nothing.toml", "no such file"),
    ] {
        for args in [
            vec!["advise", file],
            vec!["new", "x.toml", "--card", file],
            vec!["shot", file, "clean"],
            vec!["check", file],
        ] {
            let said = shop.run(&args);
            assert_eq!(said.code, 2, "{args:?}: {}", said.err);
            assert!(
                said.err.contains(part) && said.err.contains(file),
                "{args:?}: {}",
                said.err
            );
        }
    }
    assert_eq!(
        shop.files(),
        ["card.toml", "empty.toml", "folder"],
        "nothing was made, no lock left"
    );
}

#[test]
fn a_file_that_is_not_text_is_named_by_line() {
    let shop = Shop::new();
    shop.write("latin.toml", b"[bow]\nkind = \"comp\xf6und\"\n");
    let said = shop.run(&["advise", "latin.toml"]);
    assert_eq!(said.code, 2);
    assert!(
        said.err.contains("latin.toml:2:") && said.err.contains("UTF-8"),
        "{}",
        said.err
    );
}

#[test]
fn a_hundred_megabyte_file_is_refused_at_once() {
    let shop = Shop::new();
    let file = std::fs::File::create(shop.path("big.toml")).unwrap();
    file.set_len(100 * 1024 * 1024).unwrap();
    let said = shop.run(&["advise", "big.toml"]);
    assert_eq!(said.code, 2);
    assert!(said.err.contains("104 MB"), "{}", said.err);
}

#[cfg(unix)]
#[test]
fn a_file_without_permission_is_said_in_words() {
    use std::os::unix::fs::PermissionsExt as _;
    let shop = Shop::with_session();
    std::fs::set_permissions(
        shop.path("bow.toml"),
        std::fs::Permissions::from_mode(0o000),
    )
    .unwrap();
    // Whoever may read anything (root) sees no difference, and there is nothing to test.
    if std::fs::read(shop.path("bow.toml")).is_ok() {
        return;
    }
    let said = shop.run(&["advise", "bow.toml"]);
    assert_eq!(said.code, 2);
    assert!(said.err.contains("permission denied"), "{}", said.err);
}

#[test]
fn control_characters_never_reach_the_terminal() {
    let shop = Shop::new();
    shop.write(
        "card.toml",
        format!(
            "{}[job]\nowner = \"mal\\u001b[2Jlory\\u0007 \\u202egnp\"\n",
            CARD.replace("let_off", "name = \"red\\u001b]0;x\\u0007\"\nlet_off")
        ),
    );
    shop.good(&["new", "bow.toml", "--card", "card.toml"]);
    shop.good(&["note", "bow.toml", "look\u{1b}[31m here\u{9b}31m"]);
    shop.good(&["incident", "bow.toml", "dry\u{1b}[2J fire"]);
    let shown = [
        shop.run(&["advise", "bow.toml"]),
        shop.run(&["advise", "bow.toml", "--json"]),
        shop.run(&["card", "bow.toml"]),
        shop.run(&["check", "bow.toml"]),
        shop.run(&["shot", "bow.toml", "12 \u{1b}[31mleft"]),
    ];
    for said in shown {
        let all = format!("{}{}", said.out, said.err);
        assert!(
            all.chars()
                .all(|c| c == '\n' || (!c.is_control() && c != '\u{202e}')),
            "{all:?}"
        );
    }
    assert!(
        shop.read("bow.toml")
            .chars()
            .all(|c| c == '\n' || !c.is_control()),
        "control characters are escaped in the file"
    );
}

#[test]
fn a_wrong_tear_or_move_records_nothing_and_points_at_the_word() {
    let shop = Shop::with_session();
    let before = shop.read("bow.toml");
    for (args, part) in [
        (vec!["shot", "bow.toml", "12 lift"], "'lift'"),
        (vec!["shot", "bow.toml", "clean; 12"], "which way?"),
        (
            vec!["shot", "bow.toml", "12 left", "--distance", "2"],
            "unit is missing",
        ),
        (
            vec!["shot", "bow.toml", "12 left", "--by", "neighbour"],
            "owner, technician or machine",
        ),
        (
            vec!["move", "bow.toml", "rest backwards 1 mm"],
            "'backwards'",
        ),
        (
            vec!["move", "bow.toml", "plunger firmer 1/8 turn"],
            "no plunger-tension",
        ),
        (
            vec!["move", "bow.toml", "rest at 19 mm"],
            "reading at the start",
        ),
        (vec!["card", "bow.toml", "bow.hand=both"], "bow.hand"),
        (vec!["card", "bow.toml", "bow.hand"], "key=value"),
        (vec!["undo", "bow.toml"], "nothing to undo"),
        (vec!["redo", "bow.toml"], "nothing to redo"),
        (vec!["restart", "bow.toml", "7"], "no setting 7"),
        (vec!["note", "bow.toml", " "], "empty"),
    ] {
        let said = shop.run(&args);
        assert_eq!(said.code, 2, "{args:?}: {}", said.err);
        assert!(said.err.contains(part), "{args:?}: {}", said.err);
        assert_eq!(shop.read("bow.toml"), before, "{args:?}");
    }
}

#[test]
fn two_arrows_for_one_shot_are_both_named_and_nothing_is_written() {
    let shop = Shop::with_session();
    let before = shop.read("bow.toml");
    let said = shop.run(&["shot", "bow.toml", "12l4h #5", "--arrow", "3"]);
    assert_eq!(said.code, 2);
    assert!(
        said.err
            .contains("arrow 5 stands in the tear and arrow 3 was given beside it"),
        "{}",
        said.err
    );
    assert_eq!(shop.read("bow.toml"), before);
    shop.good(&["shot", "bow.toml", "12l4h #5; 9l", "--arrow", "#5"]);
    assert_eq!(shop.read("bow.toml").matches("arrow = \"5\"").count(), 2);
}
