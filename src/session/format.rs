//! Which format of the file an entry or a card needs. What format 1 knew is
//! written down here as it was and does not change; whatever else is written
//! needs format 2, so that programs which know only format 1 open the file
//! for reading only.
//!
//! The check sum is not among it: format 1 passes over it, and nothing it
//! then writes makes it wrong.

use toml::Value;

/// The page on the format, as `tearbench print format` prints it.
pub(crate) const PAGE: &str = include_str!("format.txt");

use super::entry::{Entry, Event};
use crate::gear::format::{ADJUSTERS, of_field};

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

/// Shooters that format 1 knew.
const SHOOTERS: &[&str] = &["owner", "technician", "machine"];

/// The format an entry needs.
pub(crate) fn of_entry(entry: &Entry) -> u32 {
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
            assert_eq!(
                crate::gear::format::of_card(session.first_card()),
                1,
                "{path:?}"
            );
            for entry in session.entries() {
                assert_eq!(of_entry(entry), 1, "{path:?} {}", entry.number);
            }
        }
    }
}
