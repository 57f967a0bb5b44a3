//! Which format of the file an entry or a card needs. What format 1 knew is
//! written down here as it was and does not change; whatever else is written
//! needs format 2, so that programs which know only format 1 open the file
//! for reading only.
//!
//! The check sum is not among it: format 1 passes over it, and nothing it
//! then writes makes it wrong.

use toml::Value;

/// The page on the format, as `tearbench print format` prints it.
pub const PAGE: &str = include_str!("format.txt");

use super::entry::{Entry, Event};
use crate::gear::CardText;

/// Keys of each kind of entry that format 1 knew.
const KINDS: &[(&str, &[&str])] = &[
    (
        "shot",
        &[
            "right",
            "up",
            "said",
            "distance",
            "bare",
            "arrow",
            "by",
            "called_bad",
            "slit_extra",
            "ragged",
        ],
    ),
    ("move", &["steps", "said", "confirms"]),
    ("pending", &["steps"]),
    ("not-made", &["pending"]),
    ("note", &["text"]),
    ("card", &["set"]),
    ("undo", &["target"]),
    ("redo", &["target"]),
    ("answer", &["test", "result", "detail"]),
    ("incident", &["what"]),
    ("restart", &["setting", "why"]),
    ("prior", &["model", "seed", "draws", "gains"]),
    ("setup", &["item", "value", "result"]),
    ("group", &["proof", "what", "distance", "impacts"]),
    ("close", &["how"]),
];

/// Keys inside lists and tables of an entry that format 1 knew.
const INNER: &[&str] = &[
    "adjuster", "amount", "mean", "sd", "wander", "negative", "right", "up",
];

/// Adjusters that format 1 knew.
const ADJUSTERS: &[&str] = &[
    "rest-sideways",
    "rest-height",
    "nocking-point",
    "plunger-tension",
    "centre-shot",
    "yoke-twist",
    "cam-shim",
    "limb-bolts",
    "brace-height",
];

/// Shooters that format 1 knew.
const SHOOTERS: &[&str] = &["owner", "technician", "machine"];

/// The format an entry needs.
pub fn of_entry(entry: &Entry) -> u32 {
    if entry.together.is_some() {
        return 2;
    }
    of_event(&entry.event)
}

fn of_event(event: &Event) -> u32 {
    let known = KINDS.iter().find(|(kind, _)| *kind == event.kind());
    let Some((_, keys)) = known else {
        return 2;
    };
    if let Event::Card { set, taken } = event {
        if taken.is_some() {
            return 2;
        }
        return set.keys().map(|key| of_field(key)).max().unwrap_or(1);
    }
    let Ok(Value::Table(table)) = Value::try_from(event) else {
        return 2;
    };
    let all = table.iter().filter(|(key, _)| *key != "kind");
    let fits = |(key, value): (&String, &Value)| {
        keys.contains(&key.as_str()) && inside(value) && (key != "by" || one_of(value, SHOOTERS))
    };
    if all.into_iter().all(fits) { 1 } else { 2 }
}

/// Whether format 1 knew what a value is made of.
fn inside(value: &Value) -> bool {
    match value {
        Value::Array(items) => items.iter().all(inside),
        Value::Table(table) => table.iter().all(|(key, value)| {
            INNER.contains(&key.as_str()) && (key != "adjuster" || one_of(value, ADJUSTERS))
        }),
        _ => true,
    }
}

fn one_of(value: &Value, words: &[&str]) -> bool {
    value.as_str().is_some_and(|word| words.contains(&word))
}

/// The format a card needs.
pub fn of_card(card: &CardText) -> u32 {
    let fields = card.fields.keys().map(|key| of_field(key));
    let adjusters = card.adjusters.iter().flat_map(|a| {
        a.iter().map(|(key, entered)| {
            let named = key != "name" || ADJUSTERS.contains(&entered.text.as_str());
            if named { of_adjuster_field(key) } else { 2 }
        })
    });
    // Format 1 knew no list of values that nobody confirmed.
    let listed = if card.any_unconfirmed() { 2 } else { 1 };
    fields.chain(adjusters).max().unwrap_or(1).max(listed)
}

fn of_field(key: &str) -> u32 {
    if let Some((_, inner)) = key
        .strip_prefix("adjuster.")
        .and_then(|rest| rest.rsplit_once('.'))
    {
        return of_adjuster_field(inner);
    }
    if FIELDS.contains(&key) { 1 } else { 2 }
}

fn of_adjuster_field(key: &str) -> u32 {
    if ADJUSTER_FIELDS.contains(&key) { 1 } else { 2 }
}

/// Fields of the card that format 1 knew.
const FIELDS: &[&str] = &[
    "bow.kind",
    "bow.hand",
    "bow.release",
    "bow.peak_weight",
    "bow.draw_length",
    "bow.brace_height",
    "bow.let_off",
    "bow.weighed",
    "bow.speed",
    "bow.maker_min_arrow",
    "bow.maker_min_weight",
    "bow.axle_to_axle",
    "bow.name",
    "rest.kind",
    "rest.click",
    "rest.travel",
    "rest.backlash",
    "rest.clockwise",
    "rest.clockwise_height",
    "rest.reading",
    "rest.height_reading",
    "rest.contact_ahead",
    "arrow.shaft_length",
    "arrow.spine",
    "arrow.shaft_mass",
    "arrow.point_mass",
    "arrow.nock_mass",
    "arrow.vane_mass",
    "arrow.diameter",
    "arrow.trial_point",
    "arrow.only_these",
    "arrow.count",
    "arrow.name",
    "archer.name",
    "archer.junior",
    "archer.eye",
    "paper.distance",
    "paper.tolerance",
    "paper.aim_right",
    "paper.aim_up",
    "paper.sureness",
    "job.owner",
    "job.contact",
    "job.number",
    "job.received",
    "job.promised",
    "job.reason",
    "job.condition",
    "job.technician",
    "job.press_consent",
];

/// Keys of an adjuster on the card that format 1 knew.
const ADJUSTER_FIELDS: &[&str] = &[
    "name",
    "step",
    "range",
    "backlash",
    "clockwise",
    "reading",
    "clicks",
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::gear::{AdjusterKind, Step};
    use crate::session::{Shot, Together};
    use std::collections::BTreeMap;

    #[test]
    fn what_format_1_knew_needs_format_1_and_the_rest_needs_2() {
        let shot = Event::Shot(Shot {
            distance: Some("2.5 m".into()),
            bare: true,
            ..Shot::default()
        });
        assert_eq!(of_event(&shot), 1);
        let steps = vec![Step {
            adjuster: AdjusterKind::RestSideways,
            amount: -1.5,
        }];
        assert_eq!(of_event(&Event::Pending { steps }), 1);
        let set = |key: &str| Event::card(BTreeMap::from([(key.to_owned(), "1".to_owned())]));
        assert_eq!(of_event(&set("bow.peak_weight")), 1);
        assert_eq!(of_event(&set("adjuster.rest-sideways.range")), 1);
        assert_eq!(of_event(&set("bow.colour_of_the_moon")), 2);
        let mut entry = Entry::now(3, shot);
        assert_eq!(of_entry(&entry), 1, "a check sum needs nothing");
        entry.together = Some(Together {
            first: 3,
            members: 2,
        });
        assert_eq!(of_entry(&entry), 2);
    }

    #[test]
    fn the_page_shows_an_entry_that_reads_with_its_sum_and_names_what_the_code_knows() {
        let from = PAGE.find("    [[entry]]").unwrap();
        let until = from + PAGE[from..].find("end = 7\n").unwrap() + 8;
        let block: String = PAGE[from..until]
            .lines()
            .map(|l| format!("{}\n", l.trim_start()))
            .collect();
        let entry = Entry::from_toml(&block).unwrap();
        assert_eq!(entry.number, 7);
        // Worked out by another program (zlib).
        assert!(block.contains("sum = \"c65fff34\""), "{block}");
        assert_eq!(Entry::sum_fits(&block, 7), Some(true));
        let words: String = PAGE.split_whitespace().collect::<Vec<_>>().join(" ");
        for (kind, _) in KINDS {
            assert!(words.contains(&format!("{kind},")), "{kind}");
        }
        assert!(words.contains(crate::session::journal::grammar::CARD_END));
        assert!(words.contains("at most 33,554,432 bytes"));
        assert_eq!(crate::session::journal::LARGEST_FILE, 33_554_432);
        assert!(PAGE.lines().all(|l| l.chars().count() <= 84));
    }

    #[test]
    fn every_sample_session_is_of_format_1() {
        let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/sample-sessions");
        for file in std::fs::read_dir(folder).unwrap() {
            let path = file.unwrap().path();
            let text = std::fs::read_to_string(&path).unwrap();
            let session = crate::session::Session::from_text(&text).unwrap();
            assert_eq!(of_card(session.first_card()), 1, "{path:?}");
            for entry in session.entries() {
                assert_eq!(of_entry(entry), 1, "{path:?} {}", entry.number);
            }
        }
    }
}
