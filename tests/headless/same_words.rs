//! `advise` for people and `advise --json` say a finding with the same words.

use crate::Shop;

const SAMPLES: [&str; 8] = [
    "half-way",
    "converges-cleanly",
    "arrow-too-weak",
    "arrow-too-stiff",
    "answers-backwards",
    "rest-does-nothing",
    "shots-do-not-repeat",
    "left-handed-recurve",
];

#[test]
fn every_sentence_of_the_json_stands_in_the_lines_for_people() {
    for name in SAMPLES {
        let shop = Shop::new();
        let from = format!("{}/sample-sessions/{name}.toml", env!("CARGO_MANIFEST_DIR"));
        std::fs::copy(from, shop.path("bow.toml")).unwrap();
        let json = shop.advice();
        let text = |value: &serde_json::Value| value.as_str().unwrap_or_default().to_owned();
        let lines = shop.good(&["advise", "bow.toml"]);
        let has = |line: &str| lines.lines().any(|l| l == line);
        assert!(has(&text(&json["headline"])), "{name}: {lines}");
        for reason in json["reasons"].as_array().unwrap() {
            let said = text(&reason["text"]);
            let line = match reason["code"].as_str() {
                // It stands first, with what answers it.
                Some("range-list-open") => format!("{said} (before FILE range)"),
                _ => format!("- {said}"),
            };
            assert!(has(&line), "{name}: {line}: {lines}");
        }
        let checks = json["checks"].as_object().unwrap();
        for (key, called) in [
            ("safety", "safety"),
            ("spine_match", "arrow spine"),
            ("consistency", "scatter"),
            ("response", "response"),
        ] {
            let said = text(&checks[key]["text"]);
            let state = match checks[key]["status"].as_str() {
                Some("pass") => "ok",
                Some("borderline") => "borderline",
                Some("pending") => "not yet",
                other => {
                    assert_eq!(other, Some("fail"), "{name}: {key}");
                    "NOT OK"
                }
            };
            let line = format!("{called:<11} {state:<10} {said}");
            assert!(has(&line), "{name}: {line}: {lines}");
        }
        if let Some(probe) = json["probe"].as_object() {
            assert!(
                has(&format!("  {}", text(&probe["text"]))),
                "{name}: {lines}"
            );
        }
    }
}
