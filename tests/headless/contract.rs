//! The promises of the headless commands: names, exit codes, JSON, the file.

use super::{Shop, command};
use serde_json::Value;

#[test]
fn a_session_is_made_once_and_never_replaced() {
    let shop = Shop::with_session();
    let before = shop.read("bow.toml");
    let said = shop.run(&["new", "bow.toml", "--card", "card.toml"]);
    assert_eq!(said.code, 2);
    assert!(said.err.contains("never replaced"), "{}", said.err);
    assert_eq!(shop.read("bow.toml"), before);
}

#[test]
fn the_json_has_every_key_even_before_the_first_shot() {
    let shop = Shop::with_session();
    let advice = shop.advice();
    for key in [
        "schema",
        "verdict",
        "headline",
        "reasons",
        "move",
        "probe",
        "shots_wanted",
        "checks",
        "estimate",
    ] {
        assert!(advice.get(key).is_some(), "{key}");
    }
    assert_eq!(advice["schema"], 1);
    assert_eq!(advice["verdict"], "shoot");
    assert!(advice["move"].is_null() && advice["probe"].is_null());
    assert!(advice["estimate"]["tear_mm"].is_null());
    for check in ["safety", "spine_match", "consistency", "response"] {
        for key in ["status", "text", "value", "limit", "unit"] {
            assert!(advice["checks"][check].get(key).is_some(), "{check}.{key}");
        }
    }
    for key in ["mean", "sd", "probability_negative"] {
        assert!(
            advice["estimate"]["gain"]["rest-sideways"][key].is_number(),
            "{key}"
        );
    }
}

#[test]
fn an_advised_move_reads_back_as_a_move() {
    let shop = Shop::with_session();
    shop.good(&["shot", "bow.toml", "14 left; 13 left; 15 left"]);
    shop.good(&["answer", "bow.toml", "hand", "relaxed"]);
    let advice = shop.advice();
    assert_eq!(advice["verdict"], "move", "{advice}");
    let step = &advice["move"]["steps"][0];
    let amount = step["amount"].as_f64().unwrap();
    assert_eq!(step["adjuster"], "rest-sideways");
    assert_eq!(step["clicks"].as_f64().unwrap() * 0.25, amount);
    assert!(advice["move"]["expected_tear_mm"]["sd"].as_f64().unwrap() > 0.0);
    let way = if amount < 0.0 { "left" } else { "right" };
    shop.good(&[
        "move",
        "bow.toml",
        &format!("rest {way} {} mm", amount.abs()),
    ]);
    assert_eq!(shop.advice()["verdict"], "shoot");
}

#[test]
fn every_kind_of_mark_on_a_shot_is_kept() {
    let shop = Shop::with_session();
    shop.good(&[
        "shot",
        "bow.toml",
        "12 left 4 high",
        "--distance",
        "2.5 m",
        "--bare",
        "--called-bad",
        "--by",
        "technician",
        "--arrow",
        "3",
        "--slit-extra",
        "--ragged",
    ]);
    let file = shop.read("bow.toml");
    for line in [
        "right = -12.0",
        "up = 4.0",
        "distance = \"2.5 m\"",
        "bare = true",
        "called_bad = true",
        "by = \"technician\"",
        "arrow = \"3\"",
        "slit_extra = true",
        "ragged = true",
        "end = 2",
    ] {
        assert!(file.contains(&format!("\n{line}\n")), "{line} in:\n{file}");
    }
}

#[test]
fn a_wrong_entry_is_put_right_and_nothing_is_deleted() {
    let shop = Shop::with_session();
    shop.good(&["shot", "bow.toml", "12 left"]);
    shop.good(&["shot", "bow.toml", "99 left"]);
    shop.good(&["undo", "bow.toml"]);
    let with_one = shop.advice();
    shop.good(&["redo", "bow.toml"]);
    assert_ne!(shop.advice(), with_one);
    shop.good(&["undo", "bow.toml", "3"]);
    assert_eq!(shop.advice(), with_one);
    shop.good(&[
        "card",
        "bow.toml",
        "bow.peak_weight=62 lb",
        "bow.weighed=true",
    ]);
    assert!(
        shop.good(&["card", "bow.toml"])
            .contains("peak_weight = \"62 lb\"")
    );
    let file = shop.read("bow.toml");
    assert!(file.contains("right = -99.0"));
    assert_eq!(file.matches("[[entry]]").count(), 8);
}

#[test]
fn a_verdict_never_blocks_recording() {
    let shop = Shop::with_session();
    shop.good(&["incident", "bow.toml", "dry", "fire"]);
    assert_eq!(shop.advice()["verdict"], "stop");
    shop.good(&["shot", "bow.toml", "3 left"]);
    shop.good(&["move", "bow.toml", "rest left 1 mm, rest up 2 clicks"]);
    for _ in 0..8 {
        assert_eq!(shop.advice()["verdict"], "stop");
        shop.good(&[
            "next", "bow.toml", "sound", "limbs", "and", "string", "sound",
        ]);
    }
    shop.good(&["restart", "bow.toml", "1", "--why", "after inspection"]);
    assert_ne!(shop.advice()["verdict"], "stop");
}

#[test]
fn opening_a_torn_file_succeeds_with_a_warning_and_writes_nothing() {
    let shop = Shop::with_session();
    shop.good(&["shot", "bow.toml", "12 left; 9 left"]);
    let whole = shop.read("bow.toml");
    let torn = &whole[..whole.len() - 4];
    shop.write("bow.toml", torn);
    let said = shop.run(&["advise", "bow.toml", "--json"]);
    assert_eq!(said.code, 0);
    assert!(
        said.err.contains("warning") && said.err.contains("end = N"),
        "{}",
        said.err
    );
    assert_eq!(shop.read("bow.toml"), torn);
    let check = shop.run(&["check", "bow.toml"]);
    assert_eq!(check.code, 1);
    assert!(check.out.contains("lost"), "{}", check.out);
    shop.good(&["shot", "bow.toml", "8 left"]);
    assert_eq!(shop.run(&["check", "bow.toml"]).code, 0);
    assert!(shop.read("bow.toml.torn-1").contains("right = -9.0"));
}

#[test]
fn a_session_held_by_another_program_is_read_but_not_written() {
    let shop = Shop::with_session();
    let held = tearbench::session::lock::Lock::take(
        &shop.path("bow.toml"),
        "the console",
        std::time::Duration::ZERO,
    )
    .unwrap();
    let said = shop.run(&["shot", "bow.toml", "12 left"]);
    assert_eq!(said.code, 1);
    assert!(said.err.contains("the console"), "{}", said.err);
    shop.good(&["advise", "bow.toml"]);
    drop(held);
    shop.good(&["shot", "bow.toml", "12 left"]);
}

#[test]
fn without_a_terminal_the_console_names_the_commands() {
    let shop = Shop::new();
    let output = command(&shop.path("."))
        .stdin(std::process::Stdio::null())
        .output()
        .unwrap();
    assert!(!output.status.success());
    let err = String::from_utf8_lossy(&output.stderr);
    assert!(err.contains("advise"), "{err}");
}

#[test]
fn a_closed_pipe_is_no_failure() {
    let shop = Shop::with_session();
    let mut child = command(&shop.path("."))
        .args(["advise", "bow.toml"])
        .stdout(std::process::Stdio::piped())
        .spawn()
        .unwrap();
    drop(child.stdout.take());
    assert!(child.wait().unwrap().success());
}

#[test]
fn mirror_image_bows_get_mirror_image_advice() {
    let (one, two) = (Shop::with_session(), Shop::with_session());
    for (a, b) in [
        ("14 left 2 high", "14 right 2 high"),
        ("13 left 3 high", "13 right 3 high"),
        ("15 left 2 high", "15 right 2 high"),
    ] {
        one.good(&["shot", "bow.toml", a]);
        two.good(&["shot", "bow.toml", b]);
        let (x, y) = (one.advice(), two.advice());
        assert_eq!(x["verdict"], y["verdict"]);
        let amount = |v: &Value| v["move"]["steps"][0]["amount"].as_f64();
        assert_eq!(amount(&x), amount(&y).map(|v| -v));
    }
}

#[test]
fn the_advised_move_is_recorded_by_its_name_alone() {
    let shop = Shop::with_session();
    let refused = shop.run(&["move", "bow.toml", "advised"]);
    assert_eq!(refused.code, 1);
    assert!(
        refused.err.contains("no move is advised: SHOOT"),
        "{}",
        refused.err
    );
    assert!(!shop.read("bow.toml").contains("kind = \"move\""));
    // Up and down comes first, and needs no question.
    shop.good(&["shot", "bow.toml", "14 high; 13 high"]);
    let advice = shop.advice();
    let step = &advice["move"]["steps"][0];
    let say = step["say"].as_str().unwrap().to_owned();
    shop.good(&["move", "bow.toml", "advised"]);
    let file = shop.read("bow.toml");
    assert!(file.contains(&format!("said = \"{say}\"")), "{say}: {file}");
    assert_eq!(shop.advice()["verdict"], "shoot");
}

#[test]
fn the_exit_code_is_the_verdict_where_that_is_asked_for() {
    let shop = Shop::with_session();
    let code = |shop: &Shop| shop.run(&["advise", "bow.toml", "--exit-code"]).code;
    assert_eq!(code(&shop), 10);
    shop.good(&["shot", "bow.toml", "14 high; 13 high"]);
    assert_eq!(code(&shop), 11);
    shop.good(&["incident", "bow.toml", "dry fire"]);
    assert_eq!(code(&shop), 14);
    assert_eq!(shop.run(&["advise", "bow.toml"]).code, 0);
}

#[test]
fn an_answer_is_one_that_is_asked_for_and_a_marker_is_none() {
    let shop = Shop::with_session();
    for (test, result, says) in [
        (
            "zebra",
            "purple",
            "there is no test zebra; known are hand, contact, arrow",
        ),
        ("contcat", "none", "there is no test contcat"),
        ("contact", "bananas", "contact is answered none"),
        (
            "remedy-no-response",
            "resume",
            "there is no test remedy-no-response",
        ),
        (
            "remedy-scatter",
            "resume",
            "there is no test remedy-scatter",
        ),
    ] {
        let said = shop.run(&["answer", "bow.toml", test, result]);
        assert_eq!(said.code, 2, "{test} {result}");
        assert!(said.err.contains(says), "{test}: {}", said.err);
    }
    assert!(!shop.read("bow.toml").contains("kind = \"answer\""));
    shop.good(&["answer", "bow.toml", "arrow", "same"]);
}
