//! Pages that lead to no shot of their own say the stop all the same: a bow is
//! put back, compared, listed and closed by people who pick it up next.

use crate::Shop;

const STOP: &str = "DO NOT SHOOT";
const HANDS: [&str; 2] = ["right", "left"];

/// A bow for either hand, its range list gone through.
fn shop(hand: &str) -> Shop {
    let shop = Shop::new();
    let card = crate::fixtures::with_hand(crate::CARD, hand);
    assert!(card.contains(&format!("hand = \"{hand}\"")), "{card}");
    shop.write("own.toml", card);
    shop.good(&["new", "bow.toml", "--card", "own.toml", "--no-history"]);
    shop.good(&["new", "other.toml", "--card", "own.toml", "--no-history"]);
    shop.good(&["before", "bow.toml", "range", "ok"]);
    shop.good(&["shot", "bow.toml", "9 left"]);
    shop.good(&["move", "bow.toml", "rest left 1 mm"]);
    shop
}

/// Every page about one bow.
const PAGES: [&[&str]; 8] = [
    &["put-back", "bow.toml"],
    &["put-back", "bow.toml", "--to", "start"],
    &["put-back", "bow.toml", "--to", "2"],
    &["before", "bow.toml", "brace-height"],
    &["before", "bow.toml", "peep"],
    &["compare", "other.toml", "bow.toml"],
    &["compare", "bow.toml", "other.toml"],
    &["report", "bow.toml"],
];

/// Whether the stop stands above everything else of a page, in each format.
fn first_of_every_page(shop: &Shop) -> Vec<bool> {
    let each = |page: &&[&str]| {
        assert!(page.len() > 1);
        let text = shop.good(page);
        for format in ["markdown", "html"] {
            let said = shop.good(&[page, &["--format", format][..]].concat());
            assert_eq!(
                said.contains(STOP),
                text.contains(STOP),
                "{page:?} {format}"
            );
        }
        // The sheet of the customer begins with the bow.
        if page[0] == "report" {
            return text.contains(STOP);
        }
        assert_eq!(
            text.starts_with(STOP),
            text.contains(STOP),
            "{page:?}: {text}"
        );
        text.starts_with(STOP)
    };
    PAGES.iter().map(each).collect()
}

#[test]
fn every_page_about_a_stopped_bow_begins_with_the_stop() {
    for hand in HANDS {
        let shop = shop(hand);
        assert_eq!(first_of_every_page(&shop), [false; 8]);
        let again = || shop.good(&["advise", "bow.toml"]).contains("Shoot again");
        assert!(again());
        shop.good(&["incident", "bow.toml", "dry fire"]);
        assert_eq!(first_of_every_page(&shop), [true; 8]);
        // Nor does a check ask for a shot.
        assert!(!again());
        // The card is for other programs too: the stop stands beside it.
        let card = shop.run(&["card", "bow.toml"]);
        assert!(
            card.err.contains(STOP) && !card.out.contains(STOP),
            "{}",
            card.err
        );
        // Which of two sessions stops it is said.
        let of = |args: &[&str]| shop.good(args).lines().next().unwrap_or("").to_owned();
        let later = of(&["compare", "other.toml", "bow.toml"]);
        assert_eq!(
            later,
            "DO NOT SHOOT. Inspect the bow first. (by the later session)"
        );
        let earlier = of(&["compare", "bow.toml", "other.toml"]);
        assert_eq!(
            earlier,
            "DO NOT SHOOT. Inspect the bow first. (by the earlier session)"
        );
    }
}

/// The verdict of a row of the list, and that row.
fn row(shop: &Shop, file: &str) -> String {
    let list = shop.good(&["list", "."]);
    let found = list.lines().find(|l| l.contains(file));
    found.unwrap_or_else(|| panic!("{list}")).to_owned()
}

#[test]
fn closing_a_job_under_a_stop_repeats_it_and_the_list_says_both() {
    for hand in HANDS {
        let shop = shop(hand);
        let said = shop.run(&["close", "bow.toml"]);
        assert_eq!((said.code, said.err.contains(STOP)), (0, false));
        let closed = row(&shop, "bow.toml");
        assert!(closed.contains("closed: stopped") && !closed.contains(STOP));
        // It is dropped after the job was closed.
        shop.good(&["incident", "bow.toml", "limb struck the floor"]);
        let closed = row(&shop, "bow.toml");
        assert!(
            closed.contains("DO NOT SHOOT (closed: stopped)"),
            "{closed}"
        );
        let json: serde_json::Value =
            serde_json::from_str(&shop.good(&["list", ".", "--json"])).unwrap();
        let bow = json["sessions"].as_array().unwrap().iter();
        let bow = bow.filter(|s| s["file"].as_str().unwrap().ends_with("bow.toml"));
        let stands: Vec<_> = bow.map(|s| (&s["verdict"], &s["closed"])).collect();
        assert_eq!(stands, [(&"stop".into(), &"stopped".into())]);
        // Closed while it is stopped: said again, as every command that records does.
        shop.good(&["shot", "bow.toml", "2 left"]);
        let said = shop.run(&["close", "bow.toml"]);
        assert_eq!(said.code, 0, "{}", said.err);
        assert!(said.err.contains(STOP), "{}", said.err);
        assert!(row(&shop, "bow.toml").contains("DO NOT SHOOT (closed: stopped)"));
    }
}

#[test]
fn handing_shots_over_repeats_the_stop_of_either_bow() {
    for hand in HANDS {
        let to = |from: &str, to: &str| -> [String; 3] {
            ["hand-over".into(), from.into(), format!("--to={to}")]
        };
        for stopped in ["bow.toml", "other.toml"] {
            let shop = shop(hand);
            shop.good(&["incident", stopped, "lost nock"]);
            let args = to("bow.toml", "other.toml");
            let mut args: Vec<&str> = args.iter().map(String::as_str).collect();
            args.push("--entries=3");
            let said = shop.run(&args);
            assert_eq!(said.code, 0, "{}", said.err);
            assert!(said.err.contains(STOP), "{stopped}: {}", said.err);
            // Of the one they left it is said which that is.
            let named = format!("bow.toml: {STOP}");
            assert_eq!(
                said.err.contains(&named),
                stopped == "bow.toml",
                "{}",
                said.err
            );
        }
    }
}

#[test]
fn a_card_that_forbids_the_first_shot_is_listed_so() {
    for hand in HANDS {
        let shop = Shop::new();
        let card = crate::fixtures::with_hand(crate::CARD, hand);
        shop.write("plain.toml", &card);
        shop.write(
            "light.toml",
            format!("{card}\n").replace("\"60 lb\"", "\"90 lb\""),
        );
        assert!(row(&shop, "plain.toml").contains("only a card so far"));
        let light = row(&shop, "light.toml");
        assert!(light.contains(STOP), "{light}");
    }
}

#[test]
fn starting_over_at_a_setting_says_which_stop_that_lifts() {
    for hand in HANDS {
        let shop = shop(hand);
        let limits = ["bow.maker_max_turns=6 turns", "bow.turns_out=4 turns"];
        shop.good(&["card", "bow.toml", limits[0], limits[1]]);
        let out = shop.run(&["move", "bow.toml", "limb bolts out 3 turns"]);
        assert!(out.err.contains("They stand 7 turns out"), "{}", out.err);
        // The setting it stands at: nothing is lifted.
        let here = shop.run(&["restart", "bow.toml"]);
        assert!(here.err.contains(STOP) && !here.out.contains("lifts"));
        let back = shop.run(&["restart", "bow.toml", "1"]);
        assert!(!back.err.contains(STOP), "{}", back.err);
        let says = "This lifts DO NOT SHOOT, as the bow is said to stand there now.";
        assert!(
            back.out.contains(says) && back.out.contains("7 turns"),
            "{}",
            back.out
        );
        assert_eq!(shop.advice()["checks"]["safety"]["status"], "pending");
    }
}

/// Verdict, status of safety, and the first line of `advise`.
fn stands(shop: &Shop) -> (String, String, String) {
    let advice = shop.advice();
    let word = |v: &serde_json::Value| v.as_str().unwrap_or_default().to_owned();
    let said = shop.run(&["advise", "bow.toml"]).out;
    (
        word(&advice["verdict"]),
        word(&advice["checks"]["safety"]["status"]),
        said.lines().next().unwrap_or_default().to_owned(),
    )
}

/// 402.5 gr are under 5 gr/lb from 80.5 lb on.
#[test]
fn what_a_scale_or_a_tape_said_before_paper_stops_the_bow_that_the_card_lets_shoot() {
    for hand in HANDS {
        for (item, value) in [
            ("draw-weight", "90 lb"),
            ("draw-length", "34 in"),
            ("arrow-mass", "250 gr"),
        ] {
            let shop = shop(hand);
            assert_eq!(stands(&shop).1, "pass");
            let said = shop.run(&["before", "bow.toml", item, value]);
            assert_eq!(said.code, 0, "{}", said.err);
            assert!(said.err.contains(STOP), "{item}: {}", said.err);
            let why = "Measured before paper and not as on the card: ";
            assert!(said.err.contains(why), "{item}: {}", said.err);
            let (verdict, safety, first) = stands(&shop);
            assert_eq!(
                (verdict.as_str(), safety.as_str()),
                ("stop", "fail"),
                "{item}"
            );
            assert_eq!(first, STOP, "{item}");
            // No new session leaves it behind.
            let new = shop.run(&["new", "two.toml", "--from", "bow.toml"]);
            assert_eq!(new.code, 2, "{item}: {}", new.out);
            // Undone, it was never measured, and that is said.
            let undone = shop.good(&["undo", "bow.toml"]);
            assert!(undone.contains("This lifts DO NOT SHOOT"), "{undone}");
            assert_eq!(stands(&shop).1, "pass");
        }
        // Over what two readings differ by, and within the limits: not yet.
        let shop = shop(hand);
        shop.good(&["before", "bow.toml", "draw-weight", "65 lb"]);
        let (verdict, safety, _) = stands(&shop);
        assert_eq!((verdict.as_str(), safety.as_str()), ("shoot", "pending"));
        let scale = ["bow.peak_weight=65 lb", "bow.weighed=true"];
        shop.good(&["card", "bow.toml", scale[0], scale[1]]);
        assert_eq!(stands(&shop).1, "pass");
    }
}

#[test]
fn a_crack_found_before_paper_is_the_first_thing_said_until_it_is_looked_at_again() {
    for hand in HANDS {
        for (item, good) in [("inspection", "range-bow"), ("arrow-flex", "range-arrows")] {
            let shop = shop(hand);
            shop.good(&["before", "bow.toml", item, "off"]);
            let (_, safety, first) = stands(&shop);
            assert_eq!(safety, "pending", "{item}");
            assert!(
                first.contains("is OFF. Do not shoot before that."),
                "{item}: {first}"
            );
            let all = shop.run(&["before", "bow.toml", "range", "ok"]);
            assert_eq!(all.code, 2, "{item}: {}", all.out);
            shop.good(&["before", "bow.toml", good, "ok"]);
            assert_eq!(stands(&shop).1, "pass", "{item}");
        }
    }
}
