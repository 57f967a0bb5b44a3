//! The JSON of every kind of verdict, held to its schema.

use super::fixtures::RECURVE;
use super::{CARD, Shop};

fn validator() -> jsonschema::Validator {
    let shop = Shop::new();
    let schema: serde_json::Value = serde_json::from_str(&shop.good(&["print", "schema"])).unwrap();
    jsonschema::validator_for(&schema).unwrap()
}

#[test]
fn the_json_of_every_verdict_fits_its_schema() {
    let validator = validator();
    let mut seen = std::collections::BTreeSet::new();
    let stories: [(&str, &[&str]); 8] = [
        ("", &[]),
        ("", &["14 left; 13 left; 15 left"]),
        ("", &["14 left 12 high; 13 left 11 high; 15 left 13 high"]),
        ("", &["clean; 1 left; clean; 1 right; clean"]),
        ("", &["9 left ragged; 8 left ragged"]),
        ("", &["60 left; 64 left 3 high; 61 left"]),
        ("spine = 0.600", &["20 left"]),
        ("point_mass = \"20 gr\"", &[]),
    ];
    for (change, shots) in stories {
        let shop = Shop::new();
        let key = change.split(" =").next().unwrap_or_default();
        let card: Vec<&str> = CARD
            .lines()
            .map(|l| {
                if !key.is_empty() && l.starts_with(key) {
                    change
                } else {
                    l
                }
            })
            .collect();
        shop.write("card.toml", card.join("\n") + "\n");
        shop.good(&["new", "bow.toml", "--card", "card.toml"]);
        for shot in shots {
            shop.good(&["shot", "bow.toml", shot]);
        }
        let advice = shop.advice();
        let errors: Vec<String> = validator
            .iter_errors(&advice)
            .map(|e| format!("{e} at {}", e.instance_path()))
            .collect();
        assert!(errors.is_empty(), "{errors:?}\n{advice:#}");
        seen.insert(advice["verdict"].as_str().unwrap().to_owned());
    }
    let all: Vec<&str> = seen.iter().map(String::as_str).collect();
    assert_eq!(all, ["done", "move", "probe", "refuse", "shoot", "stop"]);
}

#[test]
fn the_schema_refuses_what_is_not_advice() {
    let validator = validator();
    let shop = Shop::with_session();
    let mut advice = shop.advice();
    assert!(validator.is_valid(&advice));
    advice["verdict"] = "perhaps".into();
    assert!(!validator.is_valid(&advice));
}

#[test]
fn the_test_with_other_arrows_fits_the_schema_too() {
    let shop = Shop::with_session();
    let shoot = |tears: &[&str]| {
        for tear in tears {
            shop.good(&["shot", "bow.toml", tear, "--arrow", "1"]);
        }
    };
    shoot(&["17 left 3 high", "16 left 3 high"]);
    shop.good(&["move", "bow.toml", "rest left 4 mm"]);
    shoot(&["18 left 2 high", "17 left 2 high"]);
    shop.good(&["move", "bow.toml", "rest right 12 mm"]);
    shoot(&["15 left 3 high", "14 left 1 high", "17 left 1 high"]);
    let advice = shop.advice();
    assert!(validator().is_valid(&advice), "{advice:#}");
    assert_eq!(advice["probe"]["kind"], "arrow");
    assert_eq!(advice["probe"]["answers"][0], "same");
    shop.good(&["answer", "bow.toml", "arrow", "same"]);
    assert_eq!(shop.advice()["verdict"], "refuse");
}

#[test]
fn the_questions_before_the_first_sideways_move_fit_the_schema_and_take_their_own_answers() {
    let fits = validator();
    let aid = Shop::with_session();
    aid.good(&["shot", "bow.toml", "15 left; 14 left"]);
    let advice = aid.advice();
    assert!(fits.is_valid(&advice), "{advice:#}");
    assert_eq!(advice["probe"]["kind"], "hand");
    assert_eq!(
        advice["probe"]["answers"],
        serde_json::json!(["relaxed", "not", "not-looked"])
    );
    let said = aid.run(&["answer", "bow.toml", "hand", "loose"]);
    assert_eq!(said.code, 2);
    assert!(
        said.err.contains("relaxed, not, not-looked"),
        "{}",
        said.err
    );
    aid.good(&["answer", "bow.toml", "hand", "relaxed"]);
    let advice = aid.advice();
    assert_eq!(advice["verdict"], "move");
    assert_eq!(advice["move"]["steps"][0]["adjuster"], "rest-sideways");

    let fingers = Shop::new();
    fingers.write("card.toml", RECURVE);
    fingers.good(&["new", "bow.toml", "--card", "card.toml"]);
    fingers.good(&["shot", "bow.toml", "26 left; 25 left"]);
    let advice = fingers.advice();
    assert!(fits.is_valid(&advice), "{advice:#}");
    assert_eq!(advice["probe"]["kind"], "contact");
    assert_eq!(advice["probe"]["answers"][1], "button");
    let said = fingers.run(&["answer", "bow.toml", "contact", "powder"]);
    assert_eq!(said.code, 2);
    fingers.good(&["answer", "bow.toml", "contact", "not-looked"]);
    let advice = fingers.advice();
    assert_eq!(advice["verdict"], "move");
    // Out from the riser: left for the right hand.
    assert!(advice["move"]["steps"][0]["amount"].as_f64().unwrap() < 0.0);
}
