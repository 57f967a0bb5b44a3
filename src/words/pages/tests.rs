//! What the pages say, on one page that is read when it changes.

use std::time::Duration;

use super::super::tests::keeps_to_the_guide;
use super::*;
use crate::checks::spine::{arrow_spec, bow_spec, of_card};
use crate::fixtures::{COMPOUND, RECURVE};
use crate::gear::{AdjusterKind, BowKind, Card, CardText};
use crate::physics::bending::Bending;
use crate::tear::Tear;
use crate::units::System;

const SYSTEMS: [System; 2] = [System::Mm, System::Inch];

fn card(text: &str) -> Card {
    Card::read(&CardText::from_toml(text).unwrap()).unwrap().0
}

fn column_page() -> Vec<String> {
    let mut all = Vec::new();
    for text in [COMPOUND, RECURVE] {
        let card = card(text);
        let arrow = arrow_spec(&card);
        let bending = Bending::of(&arrow, &bow_spec(&card));
        let found = of_card(&card);
        all.push(column::weights(&arrow, card.bow.peak_weight.newtons()));
        all.extend(SYSTEMS.map(|system| column::swing(&arrow, &bending, system)));
        all.push(column::band(&found, card.bow.release));
        all.push(column::standing(&found.reference));
    }
    all.extend([false, true].map(column::sizes));
    all.extend([column::NOTHING_TO_CHANGE, column::NOT_CUT].map(str::to_owned));
    all
}

fn distances_page() -> Vec<String> {
    let mut all = vec![distances::NO_LAUNCH.to_owned()];
    for system in SYSTEMS {
        all.push(distances::here(2.0, Tear::new(-12.0, 3.0), system));
        all.push(distances::nothing_known(2.0, true, system));
        all.push(distances::second_sheet(1.02, 2.53, system));
        all.push(distances::widest_swing(system));
    }
    all
}

fn adjusters_page() -> Vec<String> {
    use AdjusterKind::{LimbBolts, NockingPoint, RestHeight, RestSideways, YokeTwist};
    let implied = [RestSideways, RestHeight, NockingPoint];
    let mut all = vec![
        adjusters::added(YokeTwist, &implied),
        adjusters::added(LimbBolts, &[]),
        adjusters::taken_off("yoke twist", None),
        adjusters::taken_off("yoke twist", Some(&implied)),
        adjusters::CHOOSE.to_owned(),
        adjusters::TAKE_OFF.to_owned(),
        adjusters::adding(Some(&implied)),
        adjusters::adding(None),
    ];
    all.extend([false, true].map(|last| adjusters::taking_off("yoke twist", last)));
    all.extend([false, true].map(|none| adjusters::which(none).to_owned()));
    let items = [
        "step",
        "range",
        "backlash",
        "clockwise",
        "reading",
        "clicks",
    ];
    for kind in [RestSideways, LimbBolts] {
        all.extend(items.map(|item| adjusters::explained(kind, item, System::Mm).unwrap()));
    }
    assert_eq!(adjusters::explained(RestSideways, "name", System::Mm), None);
    all
}

fn others() -> Vec<String> {
    let mut all = vec![
        taught::NOTHING.to_owned(),
        taught::legend((4, 4)),
        taught::legend((40, 90)),
        go_on::left("f"),
        incident::STOPS.to_owned(),
        incident::STOPS_SHORT.to_owned(),
        incident::recorded("a"),
        incident::inspect(None),
        incident::inspect(Some(("dry fire", 7))),
        incident::PARTS_FIRST.to_owned(),
        incident::DAMAGED.to_owned(),
        incident::cleared("Shoot, and enter the tear"),
    ];
    all.extend([0, 1, 2].map(|dropped| go_on::head(dropped).to_owned()));
    all
}

/// Lines of lists, which are no sentences.
fn labels() -> Vec<String> {
    let mut all: Vec<String> = distances::COLUMNS.map(str::to_owned).into();
    all.push(distances::SECOND.to_owned());
    all.extend([1, 2].map(|offered| go_on::leave(offered).to_owned()));
    all.extend(incident::happened(BowKind::Compound).map(str::to_owned));
    all.extend(incident::happened(BowKind::Recurve).map(str::to_owned));
    all.extend([incident::SOMETHING_ELSE, incident::SOMETHING_DAMAGED].map(str::to_owned));
    all.push(go_on::stands(14, None));
    all
}

#[test]
fn what_the_pages_say_keeps_to_the_guide_and_is_as_it_was() {
    let parts = [column_page(), distances_page(), adjusters_page(), others()];
    let sentences = parts.concat();
    for line in &sentences {
        keeps_to_the_guide("a page", line);
    }
    let page = [sentences, labels()].concat().join("\n");
    insta::with_settings!({snapshot_path => "../../../snapshots", prepend_module_to_snapshot => false}, {
        insta::assert_snapshot!("words-pages", page);
    });
}

#[test]
fn how_long_ago_is_counted_in_the_largest_unit_that_fits() {
    for (past, said) in [
        (30, "1 shot, last written less than a minute ago"),
        (60, "1 shot, last written 1 minute ago"),
        (12 * 60 + 5, "1 shot, last written 12 minutes ago"),
        (3599, "1 shot, last written 59 minutes ago"),
        (3600, "1 shot, last written 1 hour ago"),
        (24 * 3600 - 1, "1 shot, last written 23 hours ago"),
        (24 * 3600, "1 shot, last written 1 day ago"),
        (50 * 3600, "1 shot, last written 2 days ago"),
    ] {
        assert_eq!(go_on::stands(1, Some(Duration::from_secs(past))), said);
    }
}

/// A text that somebody typed is shown without what a terminal would obey.
#[test]
fn what_happened_is_shown_clean() {
    let shown = incident::inspect(Some(("dry \u{1b}[31mfire", 7)));
    assert!(!shown.contains('\u{1b}'), "{shown}");
}
