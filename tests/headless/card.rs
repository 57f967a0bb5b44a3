//! Values nobody confirmed, limb bolts and bare shafts on the command line.

use super::{CARD, Shop};

/// A session whose card was filled in by the console in every value of these.
fn with_defaults(keys: &[&str]) -> Shop {
    let shop = Shop::new();
    let list: Vec<String> = keys.iter().map(|k| format!("\"{k}\"")).collect();
    let card = format!("format = 2\nunconfirmed = [{}]\n{CARD}", list.join(", "));
    shop.write("bow.toml", card);
    shop.good(&["before", "bow.toml", "range", "ok"]);
    shop
}

/// A session begun from a card, the range safety list gone through.
fn on_the_range() -> Shop {
    let shop = Shop::with_session();
    shop.good(&["before", "bow.toml", "range", "ok"]);
    shop
}

const EVERYTHING: [&str; 6] = [
    "bow.peak_weight",
    "arrow.shaft_length",
    "arrow.spine",
    "arrow.shaft_mass",
    "arrow.point_mass",
    "paper.tolerance",
];

#[test]
fn a_check_that_rests_on_a_default_is_pending_until_it_is_set_to_anything() {
    let shop = with_defaults(&EVERYTHING);
    let advice = shop.advice();
    for check in ["safety", "spine_match", "consistency"] {
        assert_eq!(advice["checks"][check]["status"], "pending", "{check}");
    }
    for check in ["safety", "spine_match"] {
        let text = advice["checks"][check]["text"].as_str().unwrap();
        assert_eq!(text, "Not confirmed: draw weight and arrow.", "{check}");
    }
    assert_eq!(advice["reasons"][0]["code"], "not-confirmed");
    let sheet = shop.good(&["report", "bow.toml"]);
    assert!(
        sheet.contains("Not confirmed: draw weight and arrow"),
        "{sheet}"
    );
    // Confirmed by the same value, or entered anew: the list in the file is of
    // the start, and each change is an entry.
    shop.good(&[
        "card",
        "bow.toml",
        "bow.peak_weight=60 lb",
        "paper.tolerance=7 mm",
    ]);
    let advice = shop.advice();
    assert_eq!(advice["checks"]["safety"]["text"], "Not confirmed: arrow.");
    for key in &EVERYTHING[1..5] {
        let shown = shop.good(&["card", "bow.toml"]);
        let name = key.split_once('.').unwrap().1;
        let line = shown.lines().find(|l| l.starts_with(name)).unwrap();
        let value = line.split_once(" = ").unwrap().1.trim_matches('"');
        shop.good(&["card", "bow.toml", &format!("{key}={value}")]);
    }
    assert_eq!(shop.advice()["checks"]["safety"]["status"], "pass");
    assert!(!shop.good(&["card", "bow.toml"]).contains("unconfirmed"));
    // Undone, it is not confirmed any more.
    shop.good(&["undo", "bow.toml"]);
    assert_eq!(shop.advice()["checks"]["safety"]["status"], "pending");
}

#[test]
fn nothing_is_done_on_a_default_whatever_the_shots_say() {
    for keys in [
        &["bow.peak_weight"][..],
        &["arrow.spine"],
        &["paper.tolerance"],
        &["bow.hand"],
    ] {
        let shop = with_defaults(keys);
        let clean = "0 right 0 high; 1 left; 1 right; 1 high; 1 low; clean";
        shop.good(&["shot", "bow.toml", clean]);
        let advice = shop.advice();
        assert_eq!(advice["verdict"], "shoot", "{keys:?} {advice}");
        assert_eq!(advice["reasons"][0]["code"], "not-confirmed", "{keys:?}");
        let key = keys[0];
        let value = match key {
            "bow.peak_weight" => "60 lb",
            "arrow.spine" => "0.400",
            "paper.tolerance" => "6 mm",
            _ => "right",
        };
        shop.good(&["card", "bow.toml", &format!("{key}={value}")]);
        assert_eq!(shop.advice()["verdict"], "done", "{keys:?}");
    }
}

#[test]
fn a_card_given_to_new_counts_as_entered() {
    let advice = on_the_range().advice();
    assert_eq!(advice["checks"]["safety"]["status"], "pass");
    assert_eq!(advice["checks"]["spine_match"]["status"], "pass");
}

#[test]
fn limb_bolts_turned_in_stop_or_wait_until_the_bow_is_weighed() {
    let shop = on_the_range();
    // 402.5 gr on 60 lb: 5 gr/lb at 80.5 lb.
    let said = shop.good(&["move", "bow.toml", "limb bolts in 5 turns"]);
    assert!(said.contains("Turn both limb bolts the same"), "{said}");
    assert!(
        said.contains("weigh the bow before the next shot"),
        "{said}"
    );
    let advice = shop.advice();
    assert_eq!(advice["checks"]["safety"]["status"], "pending");
    // The arrow would be too weak at 80 lb: the rest is not moved on a guess.
    assert_eq!(advice["verdict"], "refuse");
    assert_eq!(advice["headline"], "Weigh the bow first");
    shop.good(&["move", "bow.toml", "limb in 1/4 turn"]);
    let advice = shop.advice();
    assert_eq!(advice["verdict"], "stop");
    assert_eq!(advice["reasons"][0]["code"], "weigh-first");
    let back = shop.good(&["sheet", "bow.toml", "--to", "start"]);
    assert!(back.contains("Turn both limb bolts the same"), "{back}");
    // Undone, it was never turned that far.
    shop.good(&["undo", "bow.toml"]);
    assert_ne!(shop.advice()["verdict"], "stop");
    shop.good(&[
        "card",
        "bow.toml",
        "bow.peak_weight=62 lb",
        "bow.weighed=true",
    ]);
    assert_eq!(shop.advice()["checks"]["safety"]["status"], "pass");
}

#[test]
fn a_new_session_of_a_bow_that_was_not_weighed_starts_with_the_worst_case() {
    let shop = on_the_range();
    shop.good(&["move", "bow.toml", "limb in 5 1/4 turns"]);
    let said = shop.good(&["new", "again.toml", "--from", "bow.toml"]);
    assert!(said.contains("weigh the bow"), "{said}");
    let json = shop.good(&["advise", "again.toml", "--json"]);
    let advice: serde_json::Value = serde_json::from_str(&json).unwrap();
    assert_eq!(advice["verdict"], "stop");
    assert!(shop.read("again.toml").contains("peak_weight = \"81 lb\""));
}

#[test]
fn past_the_makers_turns_is_recorded_and_stops_in_the_next_session_too() {
    let shop = on_the_range();
    shop.good(&[
        "card",
        "bow.toml",
        "bow.maker_max_turns=6 turns",
        "bow.turns_out=5 turns",
    ]);
    shop.good(&["move", "bow.toml", "limb out 1 turn"]);
    assert_ne!(shop.advice()["verdict"], "stop");
    shop.good(&["move", "bow.toml", "limb out 1/2 turn"]);
    let advice = shop.advice();
    assert_eq!(advice["reasons"][0]["code"], "past-maker-limit");
    assert_eq!(advice["reasons"][0]["value"], 6.5);
    shop.good(&["new", "again.toml", "--from", "bow.toml"]);
    let json = shop.good(&["advise", "again.toml", "--json"]);
    assert!(json.contains("past-maker-limit"), "{json}");
    shop.good(&["move", "bow.toml", "limb in 1/2 turn"]);
    assert_ne!(shop.advice()["verdict"], "stop");
}

#[test]
fn a_bare_shaft_that_is_too_light_is_recorded_and_said() {
    let shop = on_the_range();
    // 363 gr fletched, 342 bare, limit 350.
    shop.good(&[
        "card",
        "bow.toml",
        "bow.peak_weight=70 lb",
        "arrow.point_mass=85.5 gr",
        "arrow.spine=0.34",
    ]);
    let fletched = shop.run(&["shot", "bow.toml", "4 left"]);
    assert_eq!((fletched.code, fletched.err.as_str()), (0, ""));
    assert_ne!(shop.advice()["verdict"], "stop");
    let bare = shop.run(&["shot", "bow.toml", "4 left", "--bare"]);
    assert_eq!(bare.code, 0);
    assert!(
        bare.err.contains("DO NOT SHOOT") && bare.err.contains("342 gr"),
        "{}",
        bare.err
    );
    let stage = shop.good(&["proof", "bow.toml", "bare-shaft"]);
    assert!(stage.contains("OFF") && stage.contains("342 gr"), "{stage}");
    shop.good(&["proof", "bow.toml", "bare-shaft", "skip"]);
    assert!(
        shop.good(&["proof", "bow.toml", "bare-shaft"])
            .contains("skipped")
    );
}

#[test]
fn a_broadhead_stage_waits_for_the_risers_front_and_fails_where_it_does_not_clear() {
    let shop = on_the_range();
    let stage = || shop.flat(&["proof", "bow.toml", "broadhead"]);
    assert!(
        stage().contains("not yet: Measure from the rest contact"),
        "{}",
        stage()
    );
    shop.good(&["card", "bow.toml", "rest.riser_front=1.7 in"]);
    assert!(
        !stage().contains("not yet") && !stage().contains("OFF"),
        "{}",
        stage()
    );
    shop.good(&["card", "bow.toml", "rest.riser_front=1.8 in"]);
    assert!(
        stage().contains("OFF") && stage().contains("behind the riser's front"),
        "{}",
        stage()
    );
}

#[test]
fn brace_height_on_a_compound_is_press_work_and_old_cards_that_list_it_load() {
    let shop = Shop::new();
    shop.write(
        "card.toml",
        format!(
            "{CARD}[[adjuster]]\nname = \"rest-sideways\"\n[[adjuster]]\nname = \"brace-height\"\n"
        ),
    );
    shop.good(&["new", "bow.toml", "--card", "card.toml"]);
    shop.good(&["before", "bow.toml", "cam-timing", "0 mm"]);
    let said = shop.good(&["move", "bow.toml", "brace up 4 mm"]);
    assert!(said.contains("Bow press: trained hands"), "{said}");
    let back = shop.good(&["sheet", "bow.toml", "--to", "start"]);
    assert!(
        back.contains("Bow press") && back.contains("After press work"),
        "{back}"
    );
    assert!(
        shop.good(&["before", "bow.toml"])
            .contains("press work since")
    );
    let item = shop.flat(&["before", "bow.toml", "brace-height"]);
    assert!(item.contains("press work (trained hands)"), "{item}");
}

#[test]
fn a_typo_corrected_and_an_arrow_changed_are_told_apart() {
    let shop = on_the_range();
    shop.good(&["card", "bow.toml", "arrow.point_mass=110 gr"]);
    for _ in 0..2 {
        shop.good(&["shot", "bow.toml", "12 left 4 high"]);
    }
    let known = |shop: &Shop| !shop.advice()["estimate"]["tear_mm"].is_null();
    // Corrected: the tear stays known, and the file says why.
    let point = ["card", "bow.toml", "arrow.point_mass=125 gr"];
    let said = shop.good(&[&point[..], &["--corrected"]].concat());
    assert!(
        said.contains("Taken for a correction: what was shot still counts."),
        "{said}"
    );
    assert!(known(&shop));
    let file = shop.read("bow.toml");
    assert!(file.contains("taken = \"corrected\"") && file.starts_with("format = 2\n"));
    // With neither word another point is another arrow, and the line says so.
    let said = shop.good(&["card", "bow.toml", "arrow.point_mass=100 gr"]);
    assert!(
        said.contains("Taken for a change: the likely tear is unknown again.")
            && said.contains("--corrected"),
        "{said}"
    );
    assert!(!known(&shop));
    shop.good(&["undo", "bow.toml"]);
    assert!(known(&shop));
    // A weight is taken for a correction unless it is said to be changed.
    let weight = ["card", "bow.toml", "bow.peak_weight=59 lb"];
    let said = shop.good(&weight);
    assert!(said.contains("Taken for a correction"), "{said}");
    assert!(known(&shop));
    shop.good(&["undo", "bow.toml"]);
    let said = shop.good(&[&weight[..], &["--changed"]].concat());
    assert!(said.contains("Taken for a change") && !said.contains("--corrected"));
    assert!(!known(&shop));
    let said = shop.good(&["card", "bow.toml", "bow.name=blue", "--changed"]);
    assert!(said.contains("what was shot still counts"), "{said}");
    let both = shop.run(&[&weight[..], &["--changed", "--corrected"]].concat());
    assert_eq!(both.code, 2);
}
