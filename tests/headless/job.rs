//! Before paper, after a refusal and after paper, without a screen.

use crate::Shop;

fn bad(shop: &Shop, args: &[&str], names: &str) {
    let before = shop.read("bow.toml");
    let said = shop.run(args);
    assert_eq!(said.code, 2, "{args:?}: {}", said.err);
    assert!(said.err.contains(names), "{args:?}: {}", said.err);
    assert_eq!(shop.read("bow.toml"), before, "{args:?} wrote something");
}

#[test]
fn the_checklist_is_printed_answered_and_judged() {
    let shop = Shop::with_session();
    let list = shop.good(&["before", "bow.toml"]);
    assert!(
        list.contains("range-backstop")
            && list.contains("Safety first, still open: Safety inspection"),
        "{list}"
    );
    let off = shop.good(&["before", "bow.toml", "range-backstop", "1", "m"]);
    assert!(off.contains("OFF") && off.contains("at least"), "{off}");
    let ok = shop.good(&["before", "bow.toml", "range-backstop", "5 ft"]);
    assert!(
        ok.contains("range-backstop ok") && ok.contains("next: range-paper"),
        "{ok}"
    );
    shop.good(&["before", "bow.toml", "cam-lean", "skip"]);
    shop.good(&["before", "bow.toml", "peep", "ok"]);
    let list = shop.good(&["before", "bow.toml"]);
    assert!(
        list.contains("skipped  cam-lean") && list.contains("1 skipped"),
        "{list}"
    );
    let how = shop.good(&["before", "bow.toml", "brace-height"]);
    assert!(how.contains("\nHow ") && how.contains("\nIf off "), "{how}");
}

#[test]
fn what_cannot_be_taken_is_named_and_nothing_is_written() {
    let shop = Shop::with_session();
    for (args, names) in [
        (vec!["before", "bow.toml", "cam-lien", "ok"], "cam-lean"),
        (vec!["before", "bow.toml", "cam-lien"], "cam-lean"),
        (vec!["before", "bow.toml", "brace-height", "7"], "unit"),
        (vec!["before", "bow.toml", "inspection", "skip"], "safety"),
        (
            vec!["before", "bow.toml", "range-clear", "skip"],
            "never skipped",
        ),
        (vec!["before", "bow.toml", "range", "yes"], "range ok"),
        (vec!["before", "bow.toml", "range", "ok", "cat"], "range ok"),
        (vec!["proof", "bow.toml", "walkback"], "walk-back"),
        (vec!["proof", "bow.toml", "bare-shaft", "bare"], "18 m"),
        (
            vec![
                "proof",
                "bow.toml",
                "bare-shaft",
                "broadhead",
                "18 m",
                "spot",
            ],
            "fletched or bare",
        ),
        (
            vec!["proof", "bow.toml", "bare-shaft", "bare", "18", "spot"],
            "unit",
        ),
        (
            vec![
                "proof",
                "bow.toml",
                "bare-shaft",
                "bare",
                "18 m",
                "3 sideways",
            ],
            "sideways",
        ),
        (vec!["next", "bow.toml", "none"], "nothing is asked"),
    ] {
        bad(&shop, &args, names);
    }
}

#[test]
fn after_a_refusal_next_asks_one_thing_at_a_time_until_the_bow_is_shot_again() {
    let shop = Shop::with_session();
    let shoot = shop.good(&["next", "bow.toml"]);
    assert!(shoot.contains("SHOOT\n=====\n"), "{shoot}");
    shop.good(&["incident", "bow.toml", "dry fire"]);
    let asked = shop.good(&["next", "bow.toml"]);
    assert!(
        asked.contains("Step 1 of") && asked.contains("\nsound "),
        "{asked}"
    );
    bad(&shop, &["next", "bow.toml", "perhaps"], "sound");
    let mut steps = 0;
    while shop.good(&["next", "bow.toml"]).contains("\nsound ") {
        shop.good(&["next", "bow.toml", "sound"]);
        steps += 1;
        assert!(steps < 20);
    }
    assert_eq!(steps, 8);
    let end = shop.good(&["next", "bow.toml"]);
    assert!(end.starts_with("Go through the range safety list"), "{end}");
    assert!(end.contains("SHOOT\n=====\n"), "{end}");
}

#[test]
fn proof_is_recorded_stage_by_stage_and_says_what_comes_next() {
    let shop = Shop::with_session();
    let list = shop.flat(&["proof", "bow.toml"]);
    assert!(
        list.contains("paper comes first") && list.contains("next: Levels (levels)"),
        "{list}"
    );
    shop.good(&["proof", "bow.toml", "levels", "ok"]);
    let how = shop.good(&["proof", "bow.toml", "bare-shaft"]);
    assert!(how.contains("Bare shafts can plane"), "{how}");
    let hits = "1 l; 1 r 1 h; 1 d";
    shop.good(&["proof", "bow.toml", "bare-shaft", "fletched", "18 m", hits]);
    // Impacts may be given one by one.
    let off = shop.good(&[
        "proof",
        "bow.toml",
        "bare-shaft",
        "bare",
        "18 m",
        "14 l",
        "13 l 1 h",
        "14 l 1 d",
    ]);
    assert!(
        off.contains("OFF") && off.contains("Suggested: rest "),
        "{off}"
    );
    shop.good(&["proof", "bow.toml", "walk-back", "skip"]);
    let list = shop.flat(&["proof", "bow.toml"]);
    assert!(
        list.contains("skipped walk-back") && list.contains("Rough sight (rough-sight)"),
        "{list}"
    );
    assert!(shop.good(&["report", "bow.toml"]).contains("Bare shaft"));
}

#[test]
fn a_job_is_closed_as_its_verdict_allows_and_no_other_way() {
    let shop = Shop::with_session();
    bad(&shop, &["close", "bow.toml", "done"], "stopped");
    bad(
        &shop,
        &["close", "bow.toml", "best-with-these-arrows"],
        "stopped",
    );
    bad(&shop, &["close", "bow.toml", "finished"], "stopped");
    let said = shop.good(&["close", "bow.toml"]);
    assert!(
        said.contains("closed (stopped before it was done)"),
        "{said}"
    );
    shop.write(
        "weak.toml",
        include_str!("../../sample-sessions/arrow-too-weak.toml"),
    );
    let said = shop.good(&["close", "weak.toml", "best-with-these-arrows"]);
    assert!(said.contains("NOT matched"), "{said}");
    let sheet = shop.good(&["report", "weak.toml"]);
    assert!(
        sheet.contains("best with these arrows, NOT matched"),
        "{sheet}"
    );
    shop.write(
        "done.toml",
        include_str!("../../sample-sessions/converges-cleanly.toml"),
    );
    // A stage after paper that is OFF is said where the job is closed.
    let group = ["proof", "done.toml", "levels", "off"];
    shop.good(&group);
    let said = shop.good(&["close", "done.toml"]);
    assert!(said.contains("closed (done)"), "{said}");
    assert!(
        said.contains("After paper: 0 of 8 stages ok, 1 OFF."),
        "{said}"
    );
    let text = shop.read("done.toml");
    assert!(
        shop.good(&["close", "done.toml"])
            .contains("closed already")
    );
    assert_eq!(shop.read("done.toml"), text, "nothing is recorded twice");
    bad(&shop, &["close"], "FILE");
}

#[test]
fn creep_is_shot_as_two_groups_its_work_recorded_and_press_work_asks_again() {
    let shop = Shop::with_session();
    let how = shop.good(&["proof", "bow.toml", "creep"]);
    assert!(how.contains("\nSafety ") && how.contains("hybrid"), "{how}");
    let list = shop.flat(&["proof", "bow.toml"]);
    assert!(list.contains("optional creep") && list.contains("optional torque"));
    shop.good(&["before", "bow.toml", "brace-height", "7 in"]);
    let shot = ["0 left 1 high", "1 left", "1 right", "1 low"].join("; ");
    shop.good(&["proof", "bow.toml", "creep", "normal", "18 m", &shot]);
    let high = ["9 high", "1 left 9 high", "1 right 8 high", "10 high"].join("; ");
    let off = shop.good(&["proof", "bow.toml", "creep", "hard", "18 m", &high]);
    assert!(
        off.contains("OFF: Pulled hard they land 9 cm high"),
        "{off}"
    );
    assert!(off.contains("maker's rule"), "{off}");
    let done = shop.good(&["proof", "bow.toml", "creep", "done"]);
    assert!(done.contains("one fletched shot through paper"), "{done}");
    let list = shop.flat(&["before", "bow.toml"]);
    assert!(list.contains("again brace-height"), "{list}");
    bad(&shop, &["proof", "bow.toml", "walk-back", "done"], "move");
    bad(
        &shop,
        &["before", "bow.toml", "press-work"],
        "press-work done",
    );
    shop.good(&["before", "bow.toml", "brace-height", "7 in"]);
    let said = shop.good(&["before", "bow.toml", "new-string", "done"]);
    assert!(said.contains("due again"), "{said}");
    let list = shop.flat(&["before", "bow.toml"]);
    assert!(list.contains("again brace-height"), "{list}");
}

#[test]
fn levels_are_one_fact_on_list_sheet_proof_and_json_and_the_later_word_counts() {
    let shop = Shop::with_session();
    let states = |shop: &Shop| {
        let list = shop.good(&["before", "bow.toml"]);
        let listed = list.lines().find(|l| l.contains(" levels ")).unwrap();
        let proof = shop.good(&["proof", "bow.toml"]);
        let stage = proof.lines().find(|l| l.contains(" levels ")).unwrap();
        let json = shop.good(&["report", "bow.toml", "--format", "json"]);
        let json: serde_json::Value = serde_json::from_str(&json).unwrap();
        let named = |list: &str, key: &str| {
            let all = json[list].as_array().unwrap();
            let own = all.iter().find(|s| s[key] == "levels").unwrap();
            own.to_string()
        };
        let word = |line: &str| line.split_whitespace().next().unwrap().to_owned();
        let sheet = shop.good(&["report", "bow.toml", "--format", "text"]);
        (
            [word(listed), word(stage)],
            [named("setup", "item"), named("proof", "stage")],
            sheet,
        )
    };
    shop.good(&["proof", "bow.toml", "levels", "ok"]);
    let (words, _, sheet) = states(&shop);
    assert_eq!(words, ["ok", "ok"]);
    assert!(!sheet.contains("levels ok"), "said twice: {sheet}");
    shop.good(&["before", "bow.toml", "levels", "off"]);
    let (words, json, sheet) = states(&shop);
    assert_eq!(words, ["OFF", "OFF"]);
    for state in json {
        assert!(state.contains("OFF"), "{state}");
    }
    assert!(!sheet.contains("levels ok"), "{sheet}");
    shop.good(&["proof", "bow.toml", "levels", "ok"]);
    assert_eq!(states(&shop).0, ["ok", "ok"]);
}

#[test]
fn lists_are_pages_too_and_a_stop_stands_above_their_title() {
    let shop = Shop::with_session();
    for page in ["before", "proof", "next", "put-back"] {
        let html = shop.good(&[page, "bow.toml", "--format", "html"]);
        assert!(
            html.starts_with("<!doctype html>") && html.contains("<h1>"),
            "{page}"
        );
        let markdown = shop.good(&[page, "bow.toml", "--format", "markdown"]);
        assert!(markdown.contains("# "), "{page}: {markdown}");
        bad(
            &shop,
            &[page, "bow.toml", "--format", "json"],
            "text, markdown or html",
        );
    }
    shop.good(&["incident", "bow.toml", "dry fire"]);
    for page in ["before", "proof", "next"] {
        let markdown = shop.good(&[page, "bow.toml", "--format", "markdown"]);
        assert!(markdown.starts_with("**DO NOT SHOOT"), "{page}: {markdown}");
        let html = shop.good(&[page, "bow.toml", "--format", "html"]);
        let (stop, title) = (html.find("DO NOT SHOOT"), html.find("<h1>"));
        assert!(stop.is_some() && stop < title, "{page}");
    }
}

#[test]
fn within_tolerance_stands_before_the_range_list_that_is_due_for_what_is_shot_next() {
    let shop = Shop::with_session();
    shop.good(&["shot", "bow.toml", "clean; 1l; 1h; clean; 1r"]);
    for command in ["next", "advise"] {
        let said = shop.good(&[command, "bow.toml"]);
        assert!(said.starts_with("WITHIN TOLERANCE"), "{said}");
        assert!(said.contains("Go through the range safety list"), "{said}");
    }
}
