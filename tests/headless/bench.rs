//! A whole bow tuned without a screen, by following the advice.

use super::Shop;

/// An invented bow: sideways it answers `gain` mm per mm, vertically -2.
fn tune(gain: f64, start: (f64, f64)) -> (String, usize) {
    let shop = Shop::with_session();
    let (mut side, mut height, mut shots) = (0.0, 0.0, 0);
    // A small fixed scatter, so that the story is the same every time.
    let scatter = [
        (0.6, -0.8),
        (-1.1, 0.5),
        (0.9, 1.2),
        (-0.4, -1.3),
        (1.3, 0.2),
        (-1.2, 0.4),
    ];
    for _ in 0..60 {
        let advice = shop.advice();
        match advice["verdict"].as_str().unwrap() {
            "shoot" => {
                let (a, b): (f64, f64) = scatter[shots % scatter.len()];
                let right = (start.0 + gain * side + a).round();
                let up = (start.1 - 2.0 * height + b).round();
                let said = format!(
                    "{} {} {} {}",
                    right.abs(),
                    if right < 0.0 { "left" } else { "right" },
                    up.abs(),
                    if up < 0.0 { "low" } else { "high" }
                );
                shop.good(&["shot", "bow.toml", &said]);
                shots += 1;
            }
            "move" => {
                for step in advice["move"]["steps"].as_array().unwrap() {
                    let amount = step["amount"].as_f64().unwrap();
                    let word = match (step["adjuster"].as_str().unwrap(), amount < 0.0) {
                        ("rest-sideways", true) => "rest left",
                        ("rest-sideways", false) => "rest right",
                        ("rest-height", true) => "rest down",
                        ("rest-height", false) => "rest up",
                        (other, _) => panic!("{other}"),
                    };
                    shop.good(&["move", "bow.toml", &format!("{word} {} mm", amount.abs())]);
                    if word.ends_with("left") || word.ends_with("right") {
                        side += amount;
                    } else {
                        height += amount;
                    }
                }
            }
            // The hand was open and relaxed: the harmless answer.
            "probe" if advice["probe"]["kind"] == "hand" => {
                shop.good(&["answer", "bow.toml", "hand", "relaxed"]);
            }
            end => return (end.to_owned(), shots),
        }
    }
    panic!("no end");
}

#[test]
fn a_bow_is_tuned_whichever_way_it_answers() {
    for gain in [-3.0, -1.5, 3.0, 1.5] {
        let (end, shots) = tune(gain, (-14.0, 9.0));
        assert_eq!(end, "done", "gain {gain}");
        assert!(shots <= 20, "gain {gain}: {shots} shots");
    }
}
#[test]
fn a_rest_that_does_nothing_is_found_out() {
    let (end, _) = tune(0.0, (-14.0, 1.0));
    assert_eq!(end, "refuse");
}
