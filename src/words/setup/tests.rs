//! Everything that is said before paper, on one page that is read when it
//! changes.

use super::*;
use crate::setup::tests::{COMPOUND, RECURVE, timeline};
use crate::setup::{items, judge};
use crate::units::System;

fn page(card: &str, system: System) -> String {
    let card = timeline(card, vec![]).card;
    let mut lines = Vec::new();
    for item in items(&card) {
        let told = told(item.id, &card, system);
        let careful = item.caution.map_or(String::new(), |c| {
            format!("\n  careful: {}", crate::words::caution(c))
        });
        let computed = told
            .computed
            .map_or(String::new(), |c| format!("\n  worked out: {c}"));
        lines.push(format!(
            "{} ({}, {}){careful}\n  how: {}\n  wanted: {} ({}){computed}\n  if off: {}",
            title(item.id),
            item.id,
            part(item.part),
            told.how,
            told.start,
            standing(item.standing),
            told.if_off
        ));
    }
    lines.join("\n")
}

/// Values as they are typed, and what is said of them.
fn values(system: System) -> String {
    let mut lines = Vec::new();
    for (card, item, text) in [
        (COMPOUND, "range-backstop", "1.2 m"),
        (COMPOUND, "range-backstop", "5 ft"),
        (COMPOUND, "brace-height", "185 mm"),
        (COMPOUND, "brace-height", "7 in"),
        (COMPOUND, "draw-weight", "67 lb"),
        (COMPOUND, "nocking-point", "1 mm low"),
        (COMPOUND, "nocking-point", "1202 mm / 1198 mm"),
        (COMPOUND, "cam-timing", "1/8 in"),
        (COMPOUND, "inspection", "crack in the lower limb"),
        (COMPOUND, "inspection", "ok"),
        (COMPOUND, "centre-shot", "0 at 100 mm / 2 mm out at 600 mm"),
        (RECURVE, "centre-shot", "0"),
        (RECURVE, "tiller", "187 mm / 190 mm"),
        (COMPOUND, "arrow-straightness", "0.004 in over 25 in"),
        (COMPOUND, "arrow-straightness", "0.007 in"),
        (COMPOUND, "arrow-balance", "17.4 in"),
        (COMPOUND, "peep", "140 mm"),
        (COMPOUND, "as-found", "rest 20.6 mm"),
        (COMPOUND, "arrow-match", "412 gr, 411, 413"),
        (
            COMPOUND,
            "arrow-match",
            "412 gr, 411.5, 412.5, 412, 411, 412, 418.5, 412.5, 411.5, 412, 412, 411.5",
        ),
    ] {
        let t = timeline(card, vec![]);
        let found = judge(&t, item, text).unwrap_or_else(|e| panic!("{e}"));
        let ok = if found.ok { "ok" } else { "OFF" };
        lines.push(format!(
            "{item} {text}: {ok}: {}",
            judged(&found, &t.card, system)
        ));
    }
    lines.join("\n")
}

#[test]
fn everything_said_before_paper_is_on_one_page() {
    insta::with_settings!({snapshot_path => "../../../snapshots", prepend_module_to_snapshot => false}, {
        insta::assert_snapshot!("words-before-compound", page(COMPOUND, System::Mm));
        insta::assert_snapshot!("words-before-recurve", page(RECURVE, System::Mm));
        insta::assert_snapshot!("words-before-values", values(System::Mm));
        insta::assert_snapshot!("words-before-compound-inch", page(COMPOUND, System::Inch));
        insta::assert_snapshot!("words-before-recurve-inch", page(RECURVE, System::Inch));
        insta::assert_snapshot!("words-before-values-inch", values(System::Inch));
    });
}

#[test]
fn each_item_says_how_what_is_wanted_and_what_follows() {
    for card in [COMPOUND, RECURVE] {
        let card = timeline(card, vec![]).card;
        for item in items(&card) {
            let told = told(item.id, &card, System::Mm);
            let said = [&told.how, &told.start, told.if_off];
            assert!(said.iter().all(|text| !text.is_empty()), "{}", item.id);
            assert!(told.how.ends_with('.'), "{}", item.id);
            assert!(told.if_off.ends_with('.'), "{}", item.id);
        }
    }
}

#[test]
fn what_follows_where_an_item_is_off_is_said_once_and_its_caution_first() {
    let labels = |events: Vec<crate::session::Event>, item: SetupItem| {
        let t = timeline(COMPOUND, events);
        let list = crate::setup::checklist(&t);
        let found = list.iter().find(|s| s.item.id == item).unwrap();
        let told = [
            stands(found, &t.card, System::Mm),
            how(found, &t.card, System::Mm),
        ]
        .concat();
        told.into_iter().map(|f| f.label).collect::<Vec<_>>()
    };
    let brace = SetupItem::BraceHeight;
    assert_eq!(
        labels(vec![], brace),
        ["How", "Wanted", "If off", "Standing"]
    );
    let record = |value| crate::setup::record(&timeline(COMPOUND, vec![]), brace, value).unwrap();
    let (ok, off) = (record("7 in"), record("185 mm"));
    let press = crate::setup::work_done(crate::question::Work::PressWork);
    assert_eq!(
        labels(vec![off], brace),
        ["Found", "How", "Wanted", "Standing"]
    );
    let again = [vec![ok], press].concat();
    assert_eq!(
        labels(again, brace),
        ["Due again", "Found", "How", "Wanted", "If off", "Standing"]
    );
    assert_eq!(labels(vec![], SetupItem::DrawLength)[0], "Careful");
}
