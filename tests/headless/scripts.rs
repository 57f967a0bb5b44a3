//! What scripts rely on: JSON of every command, standard input, words without
//! quotes, the contract, slips of a command's name.

use std::io::Write as _;
use std::process::Stdio;

use serde_json::Value;

use super::{CARD, Said, Shop, command, said};

fn contract(shop: &Shop) -> Value {
    serde_json::from_str(&shop.good(&["print", "contract"])).unwrap()
}

fn fits(schema: &Value, found: &Value) {
    let validator = jsonschema::validator_for(schema).unwrap();
    let errors: Vec<String> = validator
        .iter_errors(found)
        .map(|e| format!("{e} at {}", e.instance_path()))
        .collect();
    assert!(errors.is_empty(), "{errors:?}\n{found:#}");
}

/// Runs with something on standard input.
fn fed(shop: &Shop, args: &[&str], input: &str) -> Said {
    let mut child = command(&shop.path(""))
        .args(args)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    // A command that refuses does not read what it is given.
    let _ = child.stdin.take().unwrap().write_all(input.as_bytes());
    said(&child.wait_with_output().unwrap())
}

#[test]
fn the_json_of_every_command_fits_the_contract() {
    let shop = Shop::with_session();
    let outputs = contract(&shop)["outputs"].clone();
    let commands: [(&str, &[&str]); 6] = [
        (
            "shot --json",
            &["shot", "bow.toml", "14 left; 13 left #3", "--json"],
        ),
        ("list --json", &["list", "--json"]),
        ("before --json", &["before", "bow.toml", "--json"]),
        ("proof --json", &["proof", "bow.toml", "--json"]),
        ("advise --json", &["advise", "bow.toml", "--json"]),
        (
            "report --format json",
            &["report", "bow.toml", "--format", "json"],
        ),
    ];
    let named: Vec<&str> = outputs
        .as_object()
        .unwrap()
        .keys()
        .map(String::as_str)
        .collect();
    let mut all: Vec<&str> = commands.iter().map(|(name, _)| *name).collect();
    all.sort_unstable();
    assert_eq!(named, all);
    for round in 0..2 {
        for (name, args) in commands {
            let found: Value = serde_json::from_str(&shop.good(args)).unwrap();
            fits(&outputs[name], &found);
            if round == 1 && ["shot --json", "before --json", "proof --json"].contains(&name) {
                let stop = found["stop"].as_array().unwrap();
                assert!(stop[0].as_str().unwrap().starts_with("DO NOT SHOOT"));
            }
        }
        // The second round is under a stop, with a group recorded.
        shop.good(&[
            "proof",
            "bow.toml",
            "bare-shaft",
            "bare",
            "18 m",
            "3 left; spot",
        ]);
        shop.good(&["incident", "bow.toml", "dry fire"]);
    }
}

#[test]
fn shots_as_json_name_their_entries() {
    let shop = Shop::with_session();
    let told = shop.good(&["shot", "bow.toml", "12 left 4 high; clean", "--json"]);
    let found: Value = serde_json::from_str(&told).unwrap();
    let shots = found["recorded"].as_array().unwrap();
    assert_eq!(shots.len(), 2);
    assert_eq!(
        (&shots[0]["right"], &shots[0]["up"]),
        (&(-12.0).into(), &4.0.into())
    );
    assert_eq!(shots[1]["shot"], 2);
    assert!(found["stop"].is_null());
    let list: Value = serde_json::from_str(&shop.good(&["list", "--json"])).unwrap();
    assert_eq!(list["sessions"][0]["shots"], 2);
}

#[test]
fn the_contract_names_what_the_program_takes() {
    let shop = Shop::with_session();
    let contract = contract(&shop);
    let names = |key: &str| -> Vec<String> {
        let all = contract[key].as_array().unwrap().iter();
        all.map(|v| v.as_str().unwrap().to_owned()).collect()
    };
    for stage in names("stages_of_proof") {
        shop.good(&["proof", "bow.toml", &stage]);
    }
    for item in names("range_items") {
        shop.good(&["before", "bow.toml", &item]);
    }
    for who in names("shooters") {
        shop.good(&["shot", "bow.toml", "clean", "--by", &who]);
    }
    assert_eq!(
        contract["exit_codes_of_advise_with_exit_code"]["14"],
        "stop"
    );
    let schema: Value = serde_json::from_str(&shop.good(&["print", "schema"])).unwrap();
    assert_eq!(contract["outputs"]["advise --json"], schema);
    assert_eq!(
        contract["verdicts"],
        schema["properties"]["verdict"]["enum"]
    );
}

#[test]
fn a_session_and_tears_are_read_from_standard_input() {
    let shop = Shop::with_session();
    shop.good(&["shot", "bow.toml", "14 left; 13 left"]);
    let session = shop.read("bow.toml");
    for args in [
        &["advise", "-", "--json"][..],
        &["report", "-"],
        &["put-back", "-"],
        &["proof", "-"],
        &["before", "-"],
    ] {
        let piped = fed(&shop, args, &session);
        assert_eq!(piped.code, 0, "{args:?}: {}", piped.err);
        let own: Vec<&str> = args
            .iter()
            .map(|a| if *a == "-" { "bow.toml" } else { *a })
            .collect();
        assert_eq!(piped.out, shop.good(&own), "{args:?}");
    }
    let shots = fed(&shop, &["shot", "bow.toml", "-"], "12 left 4 high\nl9 h3\n");
    assert_eq!(shots.code, 0, "{}", shots.err);
    assert!(shots.out.contains("shot 4"), "{}", shots.out);
    assert_eq!(fed(&shop, &["advise", "-"], "").code, 2);
    let nowhere = fed(&shop, &["note", "-", "text"], &session);
    assert_eq!(nowhere.code, 2);
    assert!(
        nowhere.err.contains("name the session's file"),
        "{}",
        nowhere.err
    );
}

#[test]
fn a_tear_and_a_move_need_no_quotes() {
    let shop = Shop::with_session();
    shop.good(&[
        "shot", "bow.toml", "12", "left", "4", "high", "--arrow", "3",
    ]);
    let advice = shop.advice();
    assert_eq!(
        advice["estimate"]["tear_mm"]["right"]
            .as_f64()
            .map(f64::signum),
        Some(-1.0)
    );
    let made = shop.good(&["move", "bow.toml", "rest", "left", "1.5", "mm"]);
    assert!(made.contains("now at setting 2"), "{made}");
    shop.good(&["note", "bow.toml", "new", "string"]);
    assert!(shop.read("bow.toml").contains("text = \"new string\""));
}

#[test]
fn an_empty_card_is_printed_and_new_says_how_to_begin() {
    let shop = Shop::new();
    let card = shop.good(&["print", "card"]);
    assert!(
        card.contains("[bow]") && card.contains("kind = \"\""),
        "{card}"
    );
    shop.write("blank.toml", &card);
    let refused = shop.run(&["new", "bow.toml", "--card", "blank.toml"]);
    assert_eq!(refused.code, 2);
    assert!(refused.err.contains("bow.peak_weight"), "{}", refused.err);
    let asked = shop.run(&["new", "bow.toml"]);
    assert_eq!(asked.code, 2);
    assert!(asked.err.contains("tearbench print card"), "{}", asked.err);
    assert!(!shop.files().contains(&"bow.toml".to_owned()));
}

#[test]
fn a_slip_of_a_command_makes_no_file_and_opens_no_console() {
    let shop = Shop::new();
    shop.write("card.toml", CARD);
    for args in [
        &["advice"][..],
        &["advice", "bow.toml"],
        &["reprot", "bow.toml"],
    ] {
        let said = shop.run(args);
        assert_eq!(said.code, 2, "{args:?}");
        assert!(said.err.contains("did you mean: tearbench"), "{}", said.err);
    }
    assert_eq!(shop.files(), ["card.toml"]);
}

#[test]
fn the_old_word_sheet_still_prints_the_put_back_sheet() {
    let shop = Shop::with_session();
    shop.good(&["move", "bow.toml", "rest left 1.5 mm"]);
    let old = shop.good(&["sheet", "bow.toml", "--to", "start"]);
    assert_eq!(old, shop.good(&["put-back", "bow.toml", "--to", "start"]));
}

#[test]
fn a_second_writer_waits_with_a_word() {
    let shop = Shop::with_session();
    let path = shop.path("bow.toml");
    let held =
        tearbench::session::lock::Lock::take(&path, "the console", std::time::Duration::ZERO);
    let said = shop.run(&["shot", "bow.toml", "clean"]);
    assert_eq!(said.code, 1);
    assert!(
        said.err.contains("in use by the console, process"),
        "{}",
        said.err
    );
    assert!(said.err.contains("waiting up to 2 s"), "{}", said.err);
    assert!(said.err.contains("not recorded"), "{}", said.err);
    drop(held);
    let said = shop.run(&["shot", "bow.toml", "clean"]);
    assert_eq!((said.code, said.err.as_str()), (0, ""));
}

#[test]
fn doctor_answers_in_ten_lines_and_leaves_nothing_behind() {
    let shop = Shop::with_session();
    let before = shop.files();
    let told = shop.good(&["doctor", "bow.toml"]);
    let names: Vec<&str> = told
        .lines()
        .map(|l| l.split_whitespace().next().unwrap_or_default())
        .collect();
    assert_eq!(
        names,
        [
            "tearbench",
            "terminal",
            "colours",
            "characters",
            "locale",
            "settings",
            "state",
            "clock",
            "folder",
            "lock"
        ]
    );
    assert!(
        told.contains("writable") && told.contains("a second writer is kept out"),
        "{told}"
    );
    assert_eq!(shop.files(), before);
}
