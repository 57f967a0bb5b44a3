//! Starting values before paper, each against what the trade prints, both
//! sides of every limit written out: a value, and whether it is in order.

use tearbench::gear::{Card, CardText};
use tearbench::question::SetupItem;
use tearbench::session::Session;
use tearbench::setup::{self, Part};
use tearbench::units::System;
use tearbench::words;

use crate::fixtures::{COMPOUND, RECURVE, with_hand};

fn longbow() -> String {
    RECURVE
        .replace("kind = \"recurve\"", "kind = \"longbow\"")
        .replace("kind = \"plunger\"", "kind = \"shelf\"")
}

fn judged(card: &str, item: &str, rows: &[(&str, bool)]) {
    let session = Session::from_text(card).unwrap();
    for (value, ok) in rows {
        let found = setup::judge(session.timeline(), item, value).unwrap();
        assert_eq!(found.ok, *ok, "{item} {value}: {:?}", found.found);
    }
}

fn items(card: &str) -> Vec<setup::Item> {
    setup::items(&read(card))
}

fn read(card: &str) -> Card {
    Card::read(&CardText::from_toml(card).unwrap()).unwrap().0
}

fn left_handed(card: &str) -> String {
    with_hand(card, "left")
}

/// Compound: equal (a shop manager's tuning checklist), within 1/16 in (common
/// practice). Recurve with fingers: top larger by 0 to 6 mm (a magazine on
/// tiller).
///
/// Source: a shop manager's tuning checklist for the compound; a magazine on tiller for the recurve.
#[test]
fn tiller() {
    judged(
        COMPOUND,
        "tiller",
        &[
            ("200 mm / 200 mm", true),
            ("201.5 mm / 200 mm", true),
            ("200 mm / 201.5 mm", true),
            ("201.7 mm / 200 mm", false),
            ("200 mm / 201.7 mm", false),
        ],
    );
    judged(
        RECURVE,
        "tiller",
        &[
            ("200 mm / 200 mm", true),
            ("206 mm / 200 mm", true),
            ("206.2 mm / 200 mm", false),
            ("200 mm / 200.2 mm", false),
        ],
    );
}

/// Even bolts are the compound's cure; a recurve's bolts set its tiller, and
/// need not be alike; a longbow has none.
///
/// Source: common practice, no source.
#[test]
fn the_cure_of_the_tiller_fits_the_bow() {
    let cure = |card: &str| words::setup::told(SetupItem::Tiller, &read(card), System::Mm).if_off;
    assert!(cure(COMPOUND).contains("Even the limb bolts"));
    assert!(!cure(RECURVE).contains("Even"), "{}", cure(RECURVE));
    assert!(cure(RECURVE).contains("One limb bolt a quarter turn"));
    assert!(cure(RECURVE).contains("never past the maker's turns"));
    assert!(cure(&longbow()).contains("ask the maker"));
    judged(
        COMPOUND,
        "limb-bolts",
        &[("2 / 2", true), ("2 / 2 1/4", true), ("2 / 2 1/2", false)],
    );
    judged(
        RECURVE,
        "limb-bolts",
        &[("2 / 2", true), ("2 / 3 1/2", true)],
    );
    assert!(items(&longbow()).iter().all(|i| i.id.id() != "limb-bolts"));
}

/// Bottom of the nock above square. Release aid: 0 to 1/4 in (from memory).
/// Fingers: about 1/2 in, the side of the nock not said (from memory): 12 mm
/// at its bottom and 12 mm at its top, a nock of 6 mm, are both in order.
/// Off the shelf: 3/4 in and come down (a forum of traditional archers).
///
/// Source: a forum of traditional archers for the shelf; the rest from memory.
#[test]
fn nocking_point() {
    judged(
        COMPOUND,
        "nocking-point",
        &[
            ("0", true),
            ("1/4 in high", true),
            ("6.5 mm high", false),
            ("0.2 mm low", false),
        ],
    );
    judged(
        RECURVE,
        "nocking-point",
        &[
            ("4 mm high", true),
            ("6 mm high", true),
            ("12 mm high", true),
            ("14 mm high", true),
            ("3.8 mm high", false),
            ("14.2 mm high", false),
        ],
    );
    judged(
        &longbow(),
        "nocking-point",
        &[
            ("1/4 in high", true),
            ("3/4 in high", true),
            ("6 mm high", false),
            ("19.3 mm high", false),
        ],
    );
    for card in [COMPOUND, RECURVE, &longbow()] {
        let told = words::setup::told(SetupItem::NockingPoint, &read(card), System::Mm);
        assert!(told.how.contains("bottom of the nock"), "{}", told.how);
        assert!(told.start.contains("bottom of the nock"), "{}", told.start);
    }
}

/// Point outside the string: 1/16 to 1/8 in with fingers, on the string's line
/// with an aid (an arrow maker's tuning guide). In and out are said from the
/// riser, so both hands read alike.
///
/// Source: an arrow maker's tuning and maintenance guide, late 1990s, page 3.
#[test]
fn centre_shot() {
    for card in [RECURVE.to_owned(), left_handed(RECURVE)] {
        judged(
            &card,
            "centre-shot",
            &[
                ("1.6 mm out", true),
                ("3.2 mm out", true),
                ("1.4 mm out", false),
                ("3.4 mm out", false),
                ("2 mm in", false),
                ("0", false),
            ],
        );
    }
    for card in [COMPOUND.to_owned(), left_handed(COMPOUND)] {
        judged(
            &card,
            "centre-shot",
            &[
                ("0", true),
                ("1 mm out", true),
                ("1 mm in", true),
                ("1.1 mm out", false),
                ("1.1 mm in", false),
            ],
        );
    }
}

/// Rest through the middle of the plunger hole or just above (common
/// practice); cams together within 1/16 in (a technician's diary, 2010); brace
/// height within 1/8 in of the card (from memory).
///
/// Source: a technician's diary, 2010, for the cams; the rest from memory.
#[test]
fn rest_height_cams_and_brace_height() {
    for card in [COMPOUND, RECURVE] {
        judged(
            card,
            "rest-height",
            &[
                ("0", true),
                ("3 mm high", true),
                ("1 mm low", false),
                ("4 mm high", false),
            ],
        );
    }
    judged(
        COMPOUND,
        "cam-timing",
        &[("1.5 mm", true), ("1/16 in", true), ("1.7 mm", false)],
    );
    judged(
        COMPOUND,
        "brace-height",
        &[
            ("7 1/8 in", true),
            ("6 7/8 in", true),
            ("7 3/16 in", false),
            ("6 13/16 in", false),
        ],
    );
}

/// Cams, cables and presses are a compound's; marks stand before the one item
/// that shoots an arrow (a club journal on marking sight and rest).
///
/// Source: a club journal on marking sight and rest, 2014.
#[test]
fn the_list_speaks_of_the_bow_it_is_for() {
    for card in [RECURVE.to_owned(), longbow()] {
        for item in items(&card) {
            let told = words::setup::told(item.id, &read(&card), System::Mm);
            let title = words::setup::title(item.id);
            let all = format!("{title} {} {} {}", told.how, told.start, told.if_off).to_lowercase();
            for never in ["cams", " cam ", "cable", "axle", "peep"] {
                assert!(!all.contains(never), "{}: {never}: {all}", item.id);
            }
        }
    }
    for card in [COMPOUND.to_owned(), RECURVE.to_owned(), longbow()] {
        let all = items(&card);
        let marks = all
            .iter()
            .position(|i| i.id.id() == "witness-marks")
            .unwrap();
        let shot = all.iter().position(|i| i.part == Part::FirstShot).unwrap();
        assert!(marks < shot && all[shot].id.id() == "clearance");
        let shoots = |item: &setup::Item| {
            let told = words::setup::told(item.id, &read(&card), System::Mm);
            told.how.contains("Shoot, and look")
        };
        assert!(!all[..marks].iter().any(shoots));
        assert!(all[marks..].iter().any(shoots));
    }
}
