//! A forgotten move placed, and shots handed to another session, without a
//! screen.

use std::time::Duration;

use super::Shop;
use tearbench::session::Session;

/// A session with three shots, as entries of these numbers.
fn three(shop: &Shop, file: &str) -> Vec<u32> {
    for tear in ["15 left 1 high", "14 left", "4 left 1 high"] {
        shop.good(&["shot", file, tear]);
    }
    let session = Session::open(&shop.path(file)).unwrap();
    session.timeline().shots.iter().map(|s| s.entry).collect()
}

fn settings(shop: &Shop, file: &str) -> Vec<usize> {
    let session = Session::open(&shop.path(file)).unwrap();
    session.timeline().shots.iter().map(|s| s.setting).collect()
}

#[test]
fn a_move_is_placed_before_a_shot_and_what_it_changes_is_printed() {
    let shop = Shop::with_session();
    let shots = three(&shop, "bow.toml");
    let before = shots[2].to_string();
    let said = shop.good(&["move", "bow.toml", "rest left 1.5 mm", "--before", &before]);
    for told in [
        "Rest OUT 1.50 mm".to_owned(),
        format!("made before entry {before}"),
        format!("The shot of entry {before} belongs to setting 2 then"),
        "The bow then stands: rest 1.50 mm left (was: start position)".to_owned(),
        "likely tear".to_owned(),
    ] {
        assert!(said.contains(&told), "{told}:\n{said}");
    }
    assert_eq!(settings(&shop, "bow.toml"), [0, 0, 1]);
    // The advice is what it would have been, had it been recorded in time.
    let late = shop.advice();
    let in_time = Shop::with_session();
    in_time.good(&["shot", "bow.toml", "15 left 1 high"]);
    in_time.good(&["shot", "bow.toml", "14 left"]);
    in_time.good(&["move", "bow.toml", "rest left 1.5 mm"]);
    in_time.good(&["shot", "bow.toml", "4 left 1 high"]);
    assert_eq!(late, in_time.advice());
    // One undo takes it back.
    shop.good(&["undo", "bow.toml"]);
    assert_eq!(settings(&shop, "bow.toml"), [0, 0, 0]);
}

/// The reflected session, with the reflected move placed, is the reflection.
#[test]
fn a_placed_move_of_a_left_handed_bow_is_the_mirror() {
    let mirrored = |hand: &str, way: &str| {
        let shop = Shop::new();
        let card = super::fixtures::with_hand(super::CARD, hand);
        shop.write("card.toml", card);
        shop.good(&["new", "bow.toml", "--card", "card.toml"]);
        for tear in [
            format!("15 {way} 1 high"),
            format!("14 {way}"),
            format!("4 {way} 1 high"),
        ] {
            shop.good(&["shot", "bow.toml", &tear]);
        }
        let session = Session::open(&shop.path("bow.toml")).unwrap();
        let last = session.timeline().shots[2].entry.to_string();
        let made = format!("rest {way} 1.5 mm");
        let said = shop.good(&["move", "bow.toml", &made, "--before", &last]);
        let tear = shop.advice()["estimate"]["tear_mm"].clone();
        (
            said,
            tear["right"].as_f64().unwrap(),
            tear["up"].as_f64().unwrap(),
        )
    };
    let (right, left) = (mirrored("right", "left"), mirrored("left", "right"));
    // Out from the riser for both; the side is the other one.
    assert!(right.0.contains("Rest OUT 1.50 mm") && left.0.contains("Rest OUT 1.50 mm"));
    assert!(right.0.contains("rest 1.50 mm left") && left.0.contains("rest 1.50 mm right"));
    assert!((right.1 + left.1).abs() < 1e-9, "{} {}", right.1, left.1);
    assert!((right.2 - left.2).abs() < 1e-9);
}

#[test]
fn an_entry_that_is_no_shot_is_bad_input_with_those_that_are() {
    let shop = Shop::with_session();
    let shots = three(&shop, "bow.toml");
    shop.good(&["note", "bow.toml", "looked at the string"]);
    let note = (shots[2] + 1).to_string();
    for (number, wanted) in [
        (note.as_str(), "is no shot (note); the shots are entries"),
        ("99", "there is no entry 99; the shots are entries"),
    ] {
        let said = shop.run(&["move", "bow.toml", "rest left 1 mm", "--before", number]);
        assert_eq!(said.code, 2, "{}", said.err);
        assert!(said.err.contains(wanted), "{}", said.err);
    }
    assert_eq!(settings(&shop, "bow.toml"), [0, 0, 0]);
}

/// Two sessions, three shots in the first.
fn two() -> (Shop, Vec<u32>) {
    let shop = Shop::with_session();
    shop.good(&["new", "blue.toml", "--card", "card.toml"]);
    let shots = three(&shop, "bow.toml");
    (shop, shots)
}

#[test]
fn shots_are_handed_to_the_session_of_their_bow() {
    let (shop, shots) = two();
    let range = format!("{}-{}", shots[1], shots[2]);
    let said = shop.good(&[
        "hand-over",
        "bow.toml",
        "--to",
        "blue.toml",
        "--entries",
        &range,
    ]);
    assert!(said.contains("handed to blue.toml: 2 shots"), "{said}");
    assert_eq!(settings(&shop, "bow.toml").len(), 1);
    assert_eq!(settings(&shop, "blue.toml").len(), 2);
    for file in ["bow.toml", "blue.toml"] {
        let said = shop.run(&["check", file]);
        assert_eq!((said.code, said.err.as_str()), (0, ""), "{}", said.out);
    }
}

#[test]
fn what_cannot_be_handed_over_is_bad_input() {
    let (shop, shots) = two();
    let first = shots[0].to_string();
    for (to, entries, wanted) in [
        ("bow.toml", first.as_str(), "both names lead to one file"),
        ("blue.toml", "five", "'five' is no entry or range"),
        (
            "blue.toml",
            "90-99",
            "no shot that counts stands in 90 to 99",
        ),
        ("blue.toml", "99", "there is no entry 99"),
    ] {
        let args = ["hand-over", "bow.toml", "--to", to, "--entries", entries];
        let said = shop.run(&args);
        assert_eq!(said.code, 2, "{to} {entries}: {}", said.err);
        assert!(said.err.contains(wanted), "{}", said.err);
    }
    assert_eq!(settings(&shop, "bow.toml").len(), 3);
}

#[test]
fn a_session_another_program_holds_takes_no_shots_and_nothing_is_noted() {
    let (shop, shots) = two();
    let held = Session::open_for_writing(&shop.path("blue.toml"), "another", Duration::ZERO);
    assert!(held.is_ok());
    let before = shop.read("bow.toml");
    let first = shots[0].to_string();
    let args = [
        "hand-over",
        "bow.toml",
        "--to",
        "blue.toml",
        "--entries",
        &first,
    ];
    let said = shop.run(&args);
    assert_eq!(said.code, 1, "{}", said.err);
    assert!(said.err.contains("in use by another"), "{}", said.err);
    assert_eq!(shop.read("bow.toml"), before);
}
