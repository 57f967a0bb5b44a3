//! Stops and the range safety list without a screen: nothing talks them round.

use crate::Shop;

const STOP: &str = "DO NOT SHOOT";
const PARTS: [&str; 8] = [
    "inspect-string",
    "inspect-limbs",
    "inspect-cams",
    "inspect-riser",
    "inspect-rest",
    "inspect-arrows",
    "inspect-range",
    "inspect-draw",
];

fn after_a_dry_fire() -> Shop {
    let shop = Shop::with_session();
    shop.good(&["incident", "bow.toml", "dry", "fire"]);
    shop
}

#[test]
fn no_one_word_clears_an_incident_and_what_is_open_is_listed() {
    let shop = after_a_dry_fire();
    for word in ["clear", "passed", "sound", "none", "CLEAR", "ok", "done"] {
        let before = shop.read("bow.toml");
        let said = shop.run(&["answer", "bow.toml", "inspection", word]);
        assert_eq!(said.code, 2, "{word}");
        for part in PARTS {
            assert!(said.err.contains(part), "{word}: {}", said.err);
        }
        assert_eq!(shop.read("bow.toml"), before);
    }
    // Other words for it are no door either.
    for (test, word) in [("inspection ", "clear"), ("inspect-draw", "sound")] {
        let said = shop.run(&["answer", "bow.toml", test, word]);
        assert_eq!(said.code, 2, "{test} {word}: {}", said.err);
    }
    let undo = shop.run(&["undo", "bow.toml", "2"]);
    assert!(undo.err.contains("every part"), "{}", undo.err);
    assert_eq!(shop.advice()["verdict"], "stop");
    let said = shop.good(&["incident", "bow.toml", "again"]);
    assert!(!said.contains("inspection clear"), "{said}");
    // A new session is no way round it either.
    for from in ["--card", "--from"] {
        let said = shop.run(&["new", "second.toml", from, "bow.toml"]);
        assert_eq!(said.code, 2, "{from}: {}", said.err);
        assert!(said.err.contains(STOP), "{from}: {}", said.err);
        assert!(!shop.files().contains(&"second.toml".to_owned()));
    }
    for help in [["answer", "--help"], ["incident", "--help"]] {
        assert!(!shop.good(&help).contains("inspection clear"));
    }
}

#[test]
fn the_parts_clear_it_one_by_one_and_the_range_list_comes_next() {
    let shop = after_a_dry_fire();
    for part in PARTS {
        assert_eq!(shop.advice()["verdict"], "stop", "before {part}");
        shop.good(&["answer", "bow.toml", part, "sound"]);
    }
    let advice = shop.advice();
    assert_eq!(advice["verdict"], "shoot");
    assert_eq!(advice["reasons"][0]["code"], "range-list-open");
    assert_eq!(advice["checks"]["safety"]["status"], "pending");
    shop.good(&["before", "bow.toml", "range", "ok"]);
    assert_eq!(shop.advice()["checks"]["safety"]["status"], "pass");
}

#[test]
fn next_walks_the_parts_and_a_damaged_one_waits_for_its_repair() {
    let shop = after_a_dry_fire();
    let first = shop.good(&["next", "bow.toml"]);
    assert!(first.starts_with(STOP), "{first}");
    assert!(first.contains("Step 1 of 8"), "{first}");
    shop.good(&["next", "bow.toml", "sound"]);
    shop.good(&["next", "bow.toml", "damaged"]);
    let fix = shop.good(&["next", "bow.toml"]);
    assert!(fix.contains("Fix this first"), "{fix}");
    shop.good(&["next", "bow.toml", "done"]);
    let again = shop.good(&["next", "bow.toml"]);
    assert!(
        again.contains("Step 2 of 8") && again.contains("Limbs"),
        "{again}"
    );
    for _ in 2..=8 {
        assert_eq!(shop.advice()["verdict"], "stop");
        shop.good(&["next", "bow.toml", "sound"]);
    }
    assert_eq!(shop.advice()["verdict"], "shoot");
}

/// Every command that says what comes next, with what it must not say.
const SAYS_WHAT_IS_NEXT: [(&[&str], &str); 6] = [
    (&["advise", "bow.toml"], "Line clear?"),
    (&["proof", "bow.toml"], "next:"),
    (&["proof", "bow.toml", "bare-shaft"], "how:"),
    (&["before", "bow.toml"], "(before FILE range)"),
    (&["before", "bow.toml", "range"], "Line clear?"),
    (&["next", "bow.toml"], "SHOOT AGAIN"),
];

/// Every command that records something, the stop repeated on stderr.
const RECORDS: [&[&str]; 8] = [
    &["shot", "bow.toml", "3 left"],
    &["move", "bow.toml", "rest left 1 mm"],
    &["note", "bow.toml", "looked at it"],
    &["answer", "bow.toml", "contact", "none"],
    &["before", "bow.toml", "peep", "ok"],
    &["before", "bow.toml", "range", "ok"],
    &["proof", "bow.toml", "levels", "ok"],
    &["card", "bow.toml", "job.owner=Ann"],
];

fn says_the_stop_first(shop: &Shop) {
    for (args, not) in SAYS_WHAT_IS_NEXT {
        let out = shop.good(args);
        assert!(out.starts_with(STOP), "{args:?}: {out}");
        assert!(!out.contains(not), "{args:?}: {out}");
    }
    for args in RECORDS {
        let said = shop.run(args);
        assert_eq!(said.code, 0, "{args:?}: {}", said.err);
        assert!(
            said.out.contains("recorded") || said.out.contains("changed"),
            "{}",
            said.out
        );
        assert!(said.err.contains(STOP), "{args:?}: {}", said.err);
    }
}

#[test]
fn every_command_says_do_not_shoot_first_after_an_incident() {
    says_the_stop_first(&after_a_dry_fire());
}

#[test]
fn every_command_says_do_not_shoot_first_with_too_light_an_arrow() {
    let shop = Shop::with_session();
    let said = shop.run(&["card", "bow.toml", "arrow.point_mass=20 gr"]);
    assert_eq!(said.code, 0);
    assert!(said.err.contains(STOP), "{}", said.err);
    says_the_stop_first(&shop);
}

#[test]
fn a_stop_that_the_card_lifts_is_said_and_stands_on_the_sheet() {
    let shop = Shop::with_session();
    shop.good(&["card", "bow.toml", "arrow.point_mass=20 gr"]);
    shop.good(&["shot", "bow.toml", "3 left"]);
    let said = shop.run(&["card", "bow.toml", "arrow.point_mass=125 gr"]);
    shop.good(&["shot", "bow.toml", "3 left"]);
    assert!(said.out.contains("lifts a stop"), "{}", said.out);
    assert!(!said.err.contains(STOP), "{}", said.err);
    let sheet = shop.good(&["report", "bow.toml", "--format", "markdown"]);
    assert!(sheet.contains("lifted DO NOT SHOOT"), "{sheet}");
    assert!(
        sheet.contains("1 shot recorded while DO NOT SHOOT stood: entry 4."),
        "{sheet}"
    );
    // A change that lifts nothing says nothing.
    let said = shop.good(&["card", "bow.toml", "job.owner=Ann"]);
    assert!(!said.contains("lifts"), "{said}");
}

#[test]
fn an_old_one_word_clearance_holds_only_where_shots_follow_it() {
    let old = |shots: &str| {
        let shop = Shop::with_session();
        let entry = |n: u32, body: &str| {
            format!("\n[[entry]]\nat = \"2026-03-02T10:15:00+00:00\"\n{body}end = {n}\n")
        };
        let mut text = shop.read("bow.toml");
        let first = text.matches("[[entry]]").count() as u32;
        text.push_str(&entry(
            first + 1,
            "kind = \"incident\"\nwhat = \"dry fire\"\n",
        ));
        text.push_str(&entry(
            first + 2,
            "kind = \"answer\"\ntest = \"inspection\"\nresult = \"clear\"\n",
        ));
        if !shots.is_empty() {
            text.push_str(&entry(first + 3, shots));
        }
        shop.write("bow.toml", text);
        shop
    };
    let shop = old("kind = \"shot\"\nright = 3.0\nup = 0.0\n");
    assert_ne!(shop.advice()["verdict"], "stop");
    let sheet = shop.good(&["report", "bow.toml", "--format", "markdown"]);
    assert!(sheet.contains("Cleared in one word"), "{sheet}");
    let shop = old("");
    assert_eq!(shop.advice()["verdict"], "stop");
    // Shooting on under the stop bears nothing out.
    shop.good(&["shot", "bow.toml", "3 left"]);
    assert_eq!(shop.advice()["verdict"], "stop");
    let sheet = shop.good(&["report", "bow.toml", "--format", "markdown"]);
    assert!(
        sheet.contains("recorded while DO NOT SHOOT stood"),
        "{sheet}"
    );
    for part in PARTS {
        shop.good(&["answer", "bow.toml", part, "sound"]);
    }
    assert_ne!(shop.advice()["verdict"], "stop");
}

#[test]
fn the_range_list_is_read_answered_and_said_first() {
    let shop = Shop::with_session();
    let advise = shop.good(&["advise", "bow.toml"]);
    assert!(
        advise.starts_with("Go through the range safety list first"),
        "{advise}"
    );
    assert!(
        advise.contains("Line clear? Arrow looked at and flexed?"),
        "{advise}"
    );
    let proof = shop.good(&["proof", "bow.toml"]);
    assert!(
        proof.contains("Go through the range safety list first"),
        "{proof}"
    );
    let one = shop.good(&["before", "bow.toml", "range-clear"]);
    let list = shop.good(&["before", "bow.toml", "range"]);
    assert_eq!(one, list, "one item shows the list it stands on");
    for wanted in [
        "range-backstop",
        "range-size",
        "range-clear",
        "range-eyes",
        "range-law",
        "range-paper",
        "range-arrows",
        "range-bow",
    ] {
        assert!(list.contains(wanted), "{wanted}: {list}");
    }
    // It blocks no recording.
    shop.good(&["shot", "bow.toml", "3 left"]);
    shop.good(&["before", "bow.toml", "range", "ok"]);
    let advise = shop.good(&["advise", "bow.toml"]);
    assert!(!advise.contains("range safety list"), "{advise}");
    shop.good(&["before", "bow.toml", "range-clear", "off"]);
    let advise = shop.good(&["advise", "bow.toml"]);
    assert!(advise.starts_with("Put the range right first"), "{advise}");
    let said = shop.run(&["before", "bow.toml", "range", "ok"]);
    assert_eq!(said.code, 2);
    assert!(said.err.contains("range-clear ok"), "{}", said.err);
    shop.good(&["before", "bow.toml", "range-clear", "ok"]);
    assert_eq!(shop.advice()["checks"]["safety"]["status"], "pass");
    shop.good(&["before", "bow.toml", "range", "other-place"]);
    assert_eq!(shop.advice()["reasons"][0]["code"], "range-list-open");
    let sheet = shop.good(&["report", "bow.toml", "--format", "markdown"]);
    assert!(sheet.contains("not gone through on this day"), "{sheet}");
}

/// What is finished on paper is said first; the list comes before proof.
#[test]
fn a_finished_tune_is_said_before_the_list_that_is_due() {
    let shop = Shop::new();
    let from = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/sample-sessions/converges-cleanly.toml"
    );
    std::fs::copy(from, shop.path("bow.toml")).unwrap();
    let advise = shop.good(&["advise", "bow.toml"]);
    let lines: Vec<&str> = advise.lines().take(3).collect();
    assert_eq!(
        lines,
        [
            "WITHIN TOLERANCE: NOW PROVE IT",
            "Levels come next",
            "Go through the range safety list first: it was not gone through today. (before FILE range)",
        ]
    );
    let json = shop.advice();
    assert_eq!(json["verdict"], "done");
    assert_eq!(json["headline"], "Levels come next");
    assert_eq!(json["reasons"][0]["code"], "range-list-open");
    assert_eq!(json["checks"]["safety"]["status"], "pending");
}

/// Verdict, the step that comes next, the sheet and the list of stages name
/// the same stage, whatever of it is settled.
#[test]
fn what_comes_after_paper_is_one_stage_wherever_it_is_said() {
    let shop = Shop::new();
    for name in ["converges-cleanly", "left-handed-recurve"] {
        let from = format!("{}/sample-sessions/{name}.toml", env!("CARGO_MANIFEST_DIR"));
        let file = format!("{name}.toml");
        std::fs::copy(from, shop.path(&file)).unwrap();
        for (stage, next) in [
            ("", "Levels come next"),
            ("levels", "Rough sight comes next"),
            ("rough-sight", "Bare shaft comes next"),
            ("bare-shaft", "Walk-back comes next"),
        ] {
            if !stage.is_empty() {
                shop.good(&["proof", &file, stage, "skip"]);
            }
            let second = |text: &str| text.lines().nth(1).unwrap_or_default().to_owned();
            assert_eq!(second(&shop.good(&["advise", &file])), next);
            for args in [["next", &file].as_slice(), &["report", &file]] {
                let text = shop.good(args);
                assert!(text.contains(next), "{args:?}: {next}: {text}");
            }
            let json: serde_json::Value =
                serde_json::from_str(&shop.good(&["report", &file, "--format", "json"])).unwrap();
            assert_eq!(json["advice"]["headline"], next);
            let optional = |s: &serde_json::Value| s["stage"] == "creep" || s["stage"] == "torque";
            let open = |s: &&serde_json::Value| s["status"] != "skipped" && !optional(s);
            let stages = json["proof"].as_array().unwrap();
            let open = stages.iter().find(open).unwrap()["stage"].as_str().unwrap();
            let open = open.replace('-', " ").to_lowercase();
            assert!(
                next.replace('-', " ").to_lowercase().starts_with(&open),
                "{open}: {next}"
            );
        }
    }
}
