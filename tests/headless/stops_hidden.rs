//! Ways in which a stop could be left behind: another session, a later word, a
//! change of the card, undo, and what of a file cannot be read.

use crate::Shop;

const STOP: &str = "DO NOT SHOOT";

/// A bow at 60 lb whose 337 gr arrow is too light from 67.5 lb, its bolts
/// counted 4 turns out of at most 6.
const AT_THE_EDGE: &str = r#"
[bow]
kind = "compound"
hand = "HAND"
release = "aid"
peak_weight = "60 lb"
draw_length = "29 in"
brace_height = "7 in"
let_off = "75 %"
weighed = true
maker_max_turns = "6 turns"
turns_out = "4 turns"
[rest]
kind = "drop-away"
click = "0.25 mm"
travel = "8 mm"
[arrow]
shaft_length = "29 in"
spine = 0.340
shaft_mass = "8.5 gr/in"
point_mass = "60 gr"
nock_mass = "10 gr"
vane_mass = "21 gr"
[paper]
distance = "2 m"
[[adjuster]]
name = "rest-sideways"
step = "0.25 mm"
range = "8 mm"
[[adjuster]]
name = "limb-bolts"
step = "1/4 turn"
range = "8 turns"
"#;

const RECURVE: &str = r#"
[bow]
kind = "recurve"
hand = "HAND"
release = "fingers"
peak_weight = "40 lb"
draw_length = "28 in"
brace_height = "8.5 in"
[rest]
kind = "plunger"
[arrow]
shaft_length = "29 in"
spine = 0.600
shaft_mass = "7 gr/in"
point_mass = "60 gr"
nock_mass = "8 gr"
vane_mass = "12 gr"
[paper]
distance = "2 m"
[[adjuster]]
name = "limb-bolts"
step = "1/4 turn"
range = "4 turns"
"#;

fn shop(card: &str, hand: &str) -> Shop {
    let shop = Shop::new();
    shop.write("own.toml", card.replace("HAND", hand));
    shop.good(&["new", "bow.toml", "--card", "own.toml", "--no-history"]);
    shop.good(&["before", "bow.toml", "range", "ok"]);
    shop
}

fn both_hands(card: &str) -> [Shop; 2] {
    ["right", "left"].map(|hand| shop(card, hand))
}

/// The verdict and how safety stands.
fn stands(shop: &Shop) -> (String, String) {
    let advice = shop.advice();
    let word = |v: &serde_json::Value| v.as_str().unwrap_or_default().to_owned();
    (
        word(&advice["verdict"]),
        word(&advice["checks"]["safety"]["status"]),
    )
}

fn stopped(shop: &Shop) -> bool {
    stands(shop) == ("stop".into(), "fail".into())
}

/// Appends an entry as a person may write it.
fn by_hand(shop: &Shop, body: &str) {
    let mut text = shop.read("bow.toml");
    let number = text.matches("[[entry]]").count() + 1;
    text.push_str(&format!(
        "\n[[entry]]\nat = \"2026-03-02T10:15:00+00:00\"\n{body}\nend = {number}\n"
    ));
    shop.write("bow.toml", text);
}

fn refused(shop: &Shop, args: &[&str], not_made: &str) -> String {
    let said = shop.run(args);
    assert_eq!(said.code, 2, "{args:?}: {}", said.out);
    assert!(!shop.files().contains(&not_made.to_owned()), "{args:?}");
    said.err
}

#[test]
fn the_head_of_a_session_is_no_card_once_bow_or_arrow_changed() {
    for shop in both_hands(AT_THE_EDGE) {
        // As it began, it may serve as one.
        shop.good(&["new", "same.toml", "--card", "bow.toml", "--no-history"]);
        shop.good(&["move", "bow.toml", "limb bolts in 2 turns"]);
        assert!(stopped(&shop));
        let said = refused(
            &shop,
            &["new", "two.toml", "--card", "bow.toml"],
            "two.toml",
        );
        assert!(said.contains("--from"), "{said}");
        // A bow that was turned out and not weighed is not "60 lb, weighed".
        shop.good(&["undo", "bow.toml"]);
        shop.good(&["move", "bow.toml", "limb bolts out 1 turn"]);
        refused(
            &shop,
            &["new", "two.toml", "--card", "bow.toml"],
            "two.toml",
        );
        // Nor is a maker's limit left behind that was entered later.
        shop.good(&["undo", "bow.toml"]);
        shop.good(&["card", "bow.toml", "bow.maker_min_arrow=400 gr"]);
        assert!(stopped(&shop));
        refused(
            &shop,
            &["new", "two.toml", "--card", "bow.toml"],
            "two.toml",
        );
        shop.good(&["new", "two.toml", "--from", "bow.toml", "--no-history"]);
        let json = shop.good(&["advise", "two.toml", "--json"]);
        assert!(json.contains("\"verdict\": \"stop\""), "{json}");
    }
}

#[test]
fn a_recurve_whose_bolts_were_turned_in_is_weighed_before_another_session() {
    for shop in both_hands(RECURVE) {
        // 283 gr on 40 lb is 7.1 gr/lb.
        shop.good(&["move", "bow.toml", "limb bolts in 1/2 turn"]);
        assert!(stopped(&shop));
        for from in ["--from", "--card"] {
            let said = refused(&shop, &["new", "two.toml", from, "bow.toml"], "two.toml");
            assert!(said.contains(STOP), "{said}");
        }
        shop.good(&[
            "card",
            "bow.toml",
            "bow.peak_weight=42 lb",
            "bow.weighed=true",
        ]);
        shop.good(&["new", "two.toml", "--from", "bow.toml", "--no-history"]);
    }
}

#[test]
fn the_later_word_on_the_turns_counts_and_not_the_smaller_one() {
    for shop in both_hands(AT_THE_EDGE) {
        shop.good(&["before", "bow.toml", "limb-bolts", "2 / 2"]);
        assert!(!stopped(&shop));
        shop.good(&["card", "bow.toml", "bow.turns_out=7 turns"]);
        assert!(stopped(&shop));
        shop.good(&["before", "bow.toml", "limb-bolts", "6 / 6"]);
        assert!(!stopped(&shop));
    }
}

/// What lifts a stop of the bolts is said at once, and stands on the sheet.
fn says_that_it_lifts(shop: &Shop, change: &[&str]) {
    assert!(stopped(shop), "{change:?}");
    let said = shop.good(&[&["card", "bow.toml"], change].concat());
    assert!(!stopped(shop), "{change:?}");
    assert!(said.contains("lifts a stop"), "{change:?}: {said}");
    let sheet = shop.flat(&["report", "bow.toml"]);
    assert!(sheet.contains("lifted DO NOT SHOOT"), "{change:?}: {sheet}");
}

#[test]
fn a_card_that_lifts_a_stop_of_the_bolts_is_said_and_stands_on_the_sheet() {
    for shop in both_hands(AT_THE_EDGE) {
        shop.good(&["move", "bow.toml", "limb bolts out 3 turns"]);
        says_that_it_lifts(&shop, &["bow.maker_max_turns=9 turns"]);
    }
    for shop in both_hands(AT_THE_EDGE) {
        shop.good(&["move", "bow.toml", "limb bolts in 2 turns"]);
        let sheet = |shop: &Shop| shop.flat(&["report", "bow.toml"]);
        assert!(!sheet(&shop).contains("recorded while"));
        shop.good(&["shot", "bow.toml", "3 left"]);
        assert!(sheet(&shop).contains("1 shot recorded while DO NOT SHOOT stood: entry 4."));
        says_that_it_lifts(&shop, &["bow.peak_weight=64 lb", "bow.weighed=true"]);
        shop.good(&["shot", "bow.toml", "3 left"]);
        assert!(sheet(&shop).contains("1 shot recorded while DO NOT SHOOT stood: entry 4."));
    }
    for shop in both_hands(AT_THE_EDGE) {
        shop.good(&["move", "bow.toml", "limb bolts in 2 turns"]);
        says_that_it_lifts(&shop, &["arrow.point_mass=125 gr"]);
    }
}

/// A bow said to be of another kind has fewer parts: that is a change of the
/// card that lifts a stop, too.
#[test]
fn another_kind_of_bow_with_fewer_parts_is_said_to_lift_the_stop() {
    let shop = Shop::with_session();
    shop.good(&["incident", "bow.toml", "dry", "fire"]);
    for part in ["string", "limbs", "riser", "rest", "arrows", "range"] {
        shop.good(&["answer", "bow.toml", &format!("inspect-{part}"), "sound"]);
    }
    // The program takes no slow draw before the cams; a hand may write one.
    let draw = "kind = \"answer\"\ntest = \"inspect-draw\"\nresult = \"sound\"";
    by_hand(&shop, draw);
    says_that_it_lifts(
        &shop,
        &[
            "bow.kind=recurve",
            "rest.kind=plunger",
            "bow.release=fingers",
        ],
    );
}

#[test]
fn undo_that_lifts_a_stop_says_so() {
    for shop in both_hands(AT_THE_EDGE) {
        shop.good(&["move", "bow.toml", "limb bolts in 2 turns"]);
        let said = shop.good(&["undo", "bow.toml"]);
        assert!(said.contains("lifts DO NOT SHOOT"), "{said}");
        let said = shop.run(&["redo", "bow.toml"]);
        assert!(!said.out.contains("lifts"), "{}", said.out);
        assert!(said.err.contains(STOP), "{}", said.err);
        let said = shop.good(&["undo", "bow.toml"]);
        assert!(said.contains("lifts DO NOT SHOOT"), "{said}");
        shop.good(&["move", "bow.toml", "rest left 1 mm"]);
        let said = shop.good(&["undo", "bow.toml"]);
        assert!(!said.contains("lifts"), "{said}");
    }
}

#[test]
fn a_change_of_the_card_that_cannot_be_read_leaves_safety_open() {
    for set in [
        "\"bow.peak_weight\" = \"75 pounds heavy\"",
        "\"bow.peak_weight\" = \"7500 lb\"",
        "\"bow.maker_min_arow\" = \"400 gr\"",
        "\"bow.maker_max_weight\" = \"abc\", \"bow.name\" = \"blue\"",
        "\"bow.draw_length\" = \"8 in\"",
    ] {
        for shop in both_hands(AT_THE_EDGE) {
            assert_eq!(stands(&shop).1, "pass");
            by_hand(&shop, &format!("kind = \"card\"\nset = {{ {set} }}"));
            assert_eq!(stands(&shop), ("shoot".into(), "pending".into()), "{set}");
            let check = shop.run(&["check", "bow.toml"]);
            assert_eq!(check.code, 1, "{set}: {}", check.out);
            assert!(!check.out.contains("sound"), "{set}: {}", check.out);
        }
    }
    // What can be read of it counts, and giving the rest again puts it right.
    let shop = shop(AT_THE_EDGE, "right");
    by_hand(
        &shop,
        "kind = \"card\"\nset = { \"bow.maker_max_weight\" = \"abc\", \"bow.peak_weight\" = \"72 lb\" }",
    );
    assert!(stopped(&shop));
    shop.good(&["card", "bow.toml", "bow.peak_weight=60 lb"]);
    assert_eq!(stands(&shop).1, "pending");
    shop.good(&["card", "bow.toml", "bow.maker_max_weight=70 lb"]);
    assert_eq!(stands(&shop).1, "pass");
}

#[test]
fn a_lost_entry_that_may_have_stopped_it_leaves_safety_open() {
    for (lost, safety) in [
        ("kind = \"incident\"\nwhat = oops", "pending"),
        (
            "kind = \"card\"\nset = { \"bow.peak_weight\" = 72 }",
            "pending",
        ),
        ("kind = \"undo\"\ntarget = \"two\"", "pending"),
        ("kind = \"shot\"\nright = oops", "pass"),
    ] {
        for shop in both_hands(AT_THE_EDGE) {
            by_hand(&shop, lost);
            assert_eq!(stands(&shop), ("shoot".into(), safety.into()), "{lost}");
            shop.good(&["shot", "bow.toml", "clean; clean; clean; clean; clean"]);
            let verdict = if safety == "pass" { "done" } else { "shoot" };
            assert_eq!(stands(&shop).0, verdict, "{lost}");
            // Nor does a new session of this bow forget it.
            let said = shop.good(&["new", "two.toml", "--from", "bow.toml", "--no-history"]);
            assert_eq!(said.contains("lost"), safety == "pending", "{lost}: {said}");
        }
    }
    // An entry that is not there at all, and one that was being written.
    let shop = shop(AT_THE_EDGE, "right");
    by_hand(&shop, "kind = \"note\"\ntext = \"x\"");
    let text = shop.read("bow.toml");
    shop.write("bow.toml", text.replace("\nend = 3\n", "\nend = 4\n"));
    assert_eq!(stands(&shop).1, "pending");
    shop.write(
        "bow.toml",
        format!("{text}\n[[entry]]\nkind = \"incident\"\nwh"),
    );
    assert_eq!(stands(&shop).1, "pending");
    shop.write(
        "bow.toml",
        format!("{text}\n[[entry]]\nkind = \"shot\"\nri"),
    );
    assert_eq!(stands(&shop).1, "pass");
}

#[test]
fn the_put_back_sheet_begins_with_the_stop() {
    for shop in both_hands(AT_THE_EDGE) {
        let sheet = shop.good(&["put-back", "bow.toml"]);
        assert!(!sheet.contains(STOP), "{sheet}");
        shop.good(&["incident", "bow.toml", "dry", "fire"]);
        for format in ["text", "markdown"] {
            let sheet = shop.good(&["put-back", "bow.toml", "--format", format]);
            let first = sheet.trim_start_matches(['*', '>', ' ']);
            assert!(first.starts_with(STOP), "{sheet}");
        }
    }
}
