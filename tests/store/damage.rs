//! Files as editors, disks and thick fingers leave them: what is whole counts,
//! what is not is named, and every verdict says that the file has holes.

use super::{CARD, Shop};
use tearbench::session::Session;

/// Texts of the reasons beside the verdict, by code.
fn reason(shop: &Shop, code: &str) -> Option<String> {
    let advice = shop.advice();
    let reasons = advice["reasons"].as_array().unwrap().clone();
    let found = reasons.into_iter().find(|r| r["code"] == code)?;
    Some(found["text"].as_str().unwrap().to_owned())
}

#[test]
fn what_is_appended_after_the_last_entry_is_set_aside_and_its_number_is_kept() {
    for tail in [
        &[0_u8; 100][..],
        b"bought on a Friday\n",
        b"\xff",
        b"right = 3.0\nend = 5\nsomething old",
    ] {
        let shop = Shop::with_shots(5);
        let mut bytes = shop.bytes("bow.toml");
        bytes.extend(tail);
        shop.write("bow.toml", &bytes);
        let said = shop.run(&["shot", "bow.toml", "9 left"]);
        assert_eq!(said.code, Some(0), "{tail:?}: {}", said.err);
        let journal = shop.journal();
        // The prior of the card is the first entry.
        let numbers: Vec<u32> = journal.entries.iter().map(|e| e.number).collect();
        assert_eq!(numbers, [1, 2, 3, 4, 5, 6, 7], "{tail:?}");
        assert!(journal.damage.is_empty());
        assert_eq!(shop.bytes("bow.toml.torn-1"), tail);
        shop.good(&["check", "bow.toml"]);
    }
}

#[test]
fn one_byte_that_is_no_text_closes_nothing() {
    let shop = Shop::with_shots(5);
    shop.good(&["note", "bow.toml", "Sehne gewächst"]);
    let mut bytes = shop.bytes("bow.toml");
    let at = bytes.iter().position(|b| *b == 0xc3).unwrap();
    bytes[at] = 0xff;
    shop.write("bow.toml", &bytes);
    for args in [
        &["advise", "bow.toml"][..],
        &["report", "bow.toml"],
        &["sheet", "bow.toml"],
        &["shot", "bow.toml", "2 left"],
    ] {
        let said = shop.run(args);
        assert_eq!(said.code, Some(0), "{args:?}: {}", said.err);
        assert!(said.err.contains("UTF-8"), "{args:?}: {}", said.err);
    }
    let check = shop.run(&["check", "bow.toml"]);
    assert_eq!(check.code, Some(1), "{}", check.err);
    assert!(
        check.out.contains("lost: this entry is not UTF-8 text"),
        "{}",
        check.out
    );
    let beside = reason(&shop, "file-has-holes").unwrap();
    assert!(beside.contains("1 entry"), "{beside}");
    let text = shop.good(&["advise", "bow.toml"]);
    assert!(
        text.contains("This rests on what is left of the file"),
        "{text}"
    );
    let report = shop.good(&["report", "bow.toml"]);
    assert!(report.contains("what is left of"), "{report}");
}

#[test]
fn one_wrong_digit_in_an_end_line_changes_no_advice_and_repair_puts_it_right() {
    let shop = Shop::with_shots(12);
    let before = shop.advice();
    shop.spoil("\nend = 7\n", "\nend = 87\n");
    assert_eq!(shop.advice(), before);
    let check = shop.run(&["check", "bow.toml"]);
    assert_eq!(check.code, Some(1));
    assert!(check.out.contains("is entry 7"), "{}", check.out);
    let saved = shop.good(&["check", "bow.toml", "--repair", "new.toml"]);
    assert!(saved.contains("saved 13 entries"), "{saved}");
    assert_eq!(
        shop.good(&["check", "new.toml"]).lines().last(),
        Some("sound")
    );
}

#[test]
fn an_undo_of_a_number_that_two_entries_claim_is_refused() {
    let shop = Shop::with_shots(8);
    shop.spoil("\nend = 4\n", "\nend = 6\n");
    let said = shop.run(&["undo", "bow.toml", "6"]);
    assert_eq!(said.code, Some(2));
    assert!(
        said.err.contains("more than one entry claims number 6"),
        "{}",
        said.err
    );
    shop.good(&["undo", "bow.toml", "5"]);
}

#[test]
fn an_entry_changed_behind_the_programs_back_is_said_and_not_refused() {
    let shop = Shop::with_shots(4);
    shop.spoil("right = -2.0", "right = -7.0");
    let check = shop.run(&["check", "bow.toml"]);
    assert_eq!(check.code, Some(1));
    assert!(
        check
            .out
            .contains("entry 3 was changed since it was recorded"),
        "{}",
        check.out
    );
    assert!(reason(&shop, "file-changed").unwrap().contains("1 entry"));
    shop.good(&["shot", "bow.toml", "1 left"]);
    // A person who mends a figure takes the sum off.
    let text = shop.read("bow.toml");
    let at = text.find("right = -7.0").unwrap();
    let sum = at + text[at..].find("sum = ").unwrap();
    let line = text[sum..].find('\n').unwrap() + 1;
    shop.write(
        "bow.toml",
        format!("{}{}", &text[..sum], &text[sum + line..]),
    );
    assert_eq!(
        shop.good(&["check", "bow.toml"]).lines().last(),
        Some("sound")
    );
}

#[test]
fn a_damaged_card_is_read_as_far_as_it_goes_and_mended_by_the_card_command() {
    let shop = Shop::with_shots(3);
    shop.spoil("peak_weight = \"60 lb\"", "peak_w\u{1}ight = \"60 lb\"");
    shop.spoil("[rest]\n", "[rest]\nkind = = \"blade\"\n");
    let said = shop.run(&["advise", "bow.toml"]);
    assert_eq!(said.code, Some(2));
    assert!(said.err.contains("bow.peak_weight"), "{}", said.err);
    assert!(
        said.err
            .contains("tearbench card FILE bow.peak_weight=\"60 lb\""),
        "{}",
        said.err
    );
    let check = shop.run(&["check", "bow.toml"]);
    assert_eq!(check.code, Some(1));
    assert!(check.out.contains("4 entries"), "{}", check.out);
    let shown = shop.run(&["card", "bow.toml"]);
    assert!(shown.out.contains("draw_length"), "{}", shown.out);
    assert!(
        !shown.out.contains("peak_weight"),
        "nothing is put in its place: {}",
        shown.out
    );
    assert!(shown.err.contains("bow.peak_weight"), "{}", shown.err);
    shop.good(&["card", "bow.toml", "bow.peak_weight=58 lb"]);
    let shown = shop.good(&["card", "bow.toml"]);
    assert!(shown.contains("58 lb"), "{shown}");
    // The line that cannot be read stays in the file: a limit may have stood on it.
    let advice = shop.advice();
    assert_eq!(advice["checks"]["safety"]["status"], "pending");
    assert!(reason(&shop, "card-damaged").is_some());
    shop.run(&["check", "bow.toml", "--repair", "new.toml"]);
    assert!(shop.read("new.toml.lost").contains("peak_w\u{1}ight"));
    assert!(shop.read("new.toml.lost").contains("kind = = \"blade\""));
    let repaired = Session::open(&shop.path("new.toml")).unwrap();
    assert!(repaired.lost_card_lines().is_empty());
    assert_eq!(repaired.timeline().shots.len(), 3);
    assert_eq!(
        repaired.timeline().card.bow.peak_weight.pounds().round(),
        58.0
    );
}

#[test]
fn a_line_of_the_card_that_is_given_again_by_its_key_is_mended() {
    let shop = Shop::with_shots(3);
    shop.spoil("[paper]\n", "[paper]\ntolerance = \"6 m\n");
    shop.spoil("tolerance = \"6 mm\"\n", "");
    let open = || Session::open(&shop.path("bow.toml")).unwrap();
    assert_eq!(open().lost_card_lines().len(), 1);
    shop.good(&["card", "bow.toml", "paper.tolerance=8 mm"]);
    assert!(open().lost_card_lines().is_empty());
    assert!(reason(&shop, "card-damaged").is_none());
}

#[test]
fn a_value_that_cannot_be_right_is_no_limit_and_safety_waits() {
    let shop = Shop::with_shots(3);
    assert!(reason(&shop, "card-damaged").is_none());
    shop.spoil("[bow]\n", "[bow]\nmaker_min_arrow = \"5 gr#lb\"\n");
    let advice = shop.advice();
    assert_eq!(advice["checks"]["safety"]["status"], "pending");
    assert_ne!(advice["verdict"], "done");
    assert!(reason(&shop, "card-damaged").is_some());
}

#[test]
fn an_entry_of_a_newer_program_is_kept_and_the_file_is_only_read() {
    let shop = Shop::with_shots(3);
    let newer = "\n[[entry]]\nkind = \"hologram\"\nat = \"2026-03-02T10:15:00+00:00\"\ndepth = \"3 mm\"\nend = 5\n";
    shop.write("bow.toml", format!("{}{newer}", shop.read("bow.toml")));
    let before = shop.read("bow.toml");
    let said = shop.run(&["shot", "bow.toml", "clean"]);
    assert_eq!(said.code, Some(2));
    assert!(said.err.contains("from a newer program"), "{}", said.err);
    assert_eq!(shop.read("bow.toml"), before);
    let check = shop.good(&["check", "bow.toml"]);
    assert!(
        !check.contains("lost") && check.contains("newer program"),
        "{check}"
    );
    shop.good(&["check", "bow.toml", "--repair", "new.toml"]);
    assert!(shop.read("new.toml").ends_with(newer), "kept as it stood");
}

#[test]
fn what_one_command_records_is_undone_as_one_and_raises_the_format_once() {
    let shop = Shop::with_shots(2);
    assert!(shop.read("bow.toml").starts_with("format = 1\n"));
    let said = shop.good(&["shot", "bow.toml", "5l; 6l; 7l"]);
    assert!(said.contains("recorded shot 5 (entry 6)"), "{said}");
    let text = shop.read("bow.toml");
    assert!(text.starts_with("format = 2\n"));
    assert_eq!(text.matches("together = [4, 3]").count(), 3);
    let undone = shop.good(&["undo", "bow.toml"]);
    assert!(
        undone.contains("entries 4, 5, 6 no longer count"),
        "{undone}"
    );
    let shots = || {
        Session::open(&shop.path("bow.toml"))
            .unwrap()
            .timeline()
            .shots
            .len()
    };
    assert_eq!(shots(), 2);
    // Whoever reads entry by entry finds every one of them undone.
    let text = shop.read("bow.toml");
    for n in 4..=6 {
        assert_eq!(text.matches(&format!("target = {n}\n")).count(), 1);
    }
    let redone = shop.good(&["redo", "bow.toml"]);
    assert!(redone.contains("4, 5, 6 count again"), "{redone}");
    assert_eq!(shots(), 5);
    shop.good(&["undo", "bow.toml", "5"]);
    assert_eq!(shots(), 2, "any of them takes all of them");
    shop.good(&["check", "bow.toml"]);
    assert_eq!(
        shop.files().iter().filter(|f| f.starts_with('.')).count(),
        0,
        "{:?}",
        shop.files()
    );
}

#[test]
fn a_file_of_format_1_stays_one_until_something_needs_more() {
    let shop = Shop::with_shots(2);
    for args in [
        &["shot", "bow.toml", "5l"][..],
        &["note", "bow.toml", "x"],
        &["move", "bow.toml", "rest left 1 mm"],
        &["undo", "bow.toml"],
        &["card", "bow.toml", "bow.peak_weight=61 lb"],
        &["incident", "bow.toml", "dry fire"],
    ] {
        shop.good(args);
        assert!(
            shop.read("bow.toml").starts_with("format = 1\n"),
            "{args:?}"
        );
    }
    // Without the line it had, it has one.
    let text = shop.read("bow.toml");
    shop.write("bow.toml", text.strip_prefix("format = 1\n").unwrap());
    shop.good(&["shot", "bow.toml", "5l; 6l"]);
    assert!(shop.read("bow.toml").starts_with("format = 2\n"));
}

#[test]
fn warnings_are_three_and_a_count() {
    let shop = Shop::with_shots(12);
    let text = shop.read("bow.toml").replace("right = -", "right = minus ");
    shop.write("bow.toml", text);
    let said = shop.run(&["advise", "bow.toml"]);
    assert_eq!(said.code, Some(0), "{}", said.err);
    assert_eq!(said.err.lines().count(), 4, "{}", said.err);
    assert!(
        said.err.contains("and 9 more; tearbench check lists them"),
        "{}",
        said.err
    );
    let check = shop.run(&["check", "bow.toml"]);
    assert_eq!(check.out.matches("lost:").count(), 12);
}

#[test]
fn the_first_line_of_a_file_may_be_wrong_and_the_rest_is_read() {
    let shop = Shop::with_shots(2);
    let text = shop.read("bow.toml");
    assert!(text.contains("# end of card\n"), "{text}");
    let spoiled = text.replacen("format = 1", "f\u{1}rmat = 1", 1);
    shop.write("bow.toml", &spoiled);
    let said = shop.run(&["shot", "bow.toml", "clean"]);
    assert_eq!(said.code, Some(0), "{}", said.err);
    assert!(CARD.contains("[bow]"));
}
