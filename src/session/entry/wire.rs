//! An entry as a block of TOML: written and read.

use std::fmt::Write as _;

use chrono::{DateTime, FixedOffset, Local, SubsecRound};
use serde::Deserialize;

use super::{Event, Shot};

/// One entry: its number, when it was made, what it records.
#[derive(Debug, Clone, PartialEq)]
pub struct Entry {
    /// Number, from 1.
    pub number: u32,
    /// When it was recorded.
    pub at: DateTime<FixedOffset>,
    /// What it records.
    pub event: Event,
}

#[derive(Deserialize)]
struct Wire {
    at: String,
    end: u32,
    #[serde(flatten)]
    event: Event,
}

impl Entry {
    /// An entry made now.
    pub fn now(number: u32, event: Event) -> Self {
        let at = Local::now().fixed_offset().trunc_subsecs(0);
        Self { number, at, event }
    }

    /// The entry as a block of TOML: `[[entry]]` first, `end = N` last.
    pub fn to_toml(&self) -> String {
        let mut out = format!(
            "\n[[entry]]\nkind = \"{}\"\nat = \"{}\"\n",
            self.event.kind(),
            self.at.to_rfc3339()
        );
        let body = match toml::Value::try_from(&self.event) {
            Ok(toml::Value::Table(table)) => table,
            // Events hold only texts, numbers, flags and lists, all of which TOML can write.
            _ => toml::Table::new(),
        };
        for (key, value) in body.iter().filter(|(key, _)| *key != "kind") {
            let _ = writeln!(out, "{key} = {}", inline(value));
        }
        let _ = writeln!(out, "end = {}", self.number);
        out
    }

    /// Reads one whole block.
    ///
    /// # Errors
    /// The line within the block, from 1, and what is wrong.
    pub fn from_toml(block: &str) -> Result<Self, (usize, String)> {
        let wire: Wire = toml::from_str(block_body(block)).map_err(|error| {
            let line = error.span().map_or(1, |span| {
                crate::gear::line_of(block_body(block), span.start) + 1
            });
            (
                line,
                crate::units::clean(error.message().lines().next().unwrap_or("cannot be read")),
            )
        })?;
        let at = DateTime::parse_from_rfc3339(&wire.at).map_err(|_| {
            let named = |l: &str| l.split_once('=').is_some_and(|(key, _)| key.trim() == "at");
            let own = block.lines().position(named);
            (
                own.map_or(1, |i| i + 1),
                format!(
                    "at = '{}' is no time; write 2026-03-02T10:15:00+00:00",
                    crate::units::clean(&wire.at)
                ),
            )
        })?;
        let entry = Self {
            number: wire.end,
            at,
            event: wire.event,
        };
        entry.finite().map_err(|problem| (1, problem))?;
        Ok(entry)
    }

    fn finite(&self) -> Result<(), String> {
        let bad = |v: f64, most: f64| !v.is_finite() || v.abs() > most;
        match &self.event {
            Event::Shot(shot) if bad(shot.right, 1000.0) || bad(shot.up, 1000.0) => {
                Err("right and up are millimetres of a tear, at most 1000".into())
            }
            Event::Shot(Shot {
                distance: Some(text),
                ..
            }) => crate::tear::read_distance(text).map(|_| ()),
            Event::Move { steps, .. } | Event::Pending { steps }
                if steps.iter().any(|s| bad(s.amount, 1000.0)) =>
            {
                Err("amount must be a finite number, at most 1000".into())
            }
            Event::Group { impacts, .. }
                if impacts.iter().any(|i| bad(i.right, 1e5) || bad(i.up, 1e5)) =>
            {
                Err("impacts are millimetres from the spot, at most 100 000".into())
            }
            Event::Prior(p)
                if p.gains.iter().any(|g| {
                    bad(g.mean, 1e4) || bad(g.sd, 1e4) || bad(g.wander, 1e6) || bad(g.negative, 1.0)
                }) =>
            {
                Err("the gains of a prior must be finite".into())
            }
            _ => Ok(()),
        }
    }
}

/// The block without its heading line, so that it reads as one table.
fn block_body(block: &str) -> &str {
    block
        .trim_start()
        .strip_prefix("[[entry]]")
        .map_or(block, |rest| rest.strip_prefix('\n').unwrap_or(rest))
}

/// A value on one line.
fn inline(value: &toml::Value) -> String {
    match value {
        toml::Value::String(text) => crate::gear::quote(text),
        toml::Value::Array(items) => {
            let items: Vec<String> = items.iter().map(inline).collect();
            format!("[{}]", items.join(", "))
        }
        toml::Value::Table(table) => {
            let items: Vec<String> = table
                .iter()
                .map(|(key, value)| format!("{} = {}", bare_or_quoted(key), inline(value)))
                .collect();
            format!("{{ {} }}", items.join(", "))
        }
        other => other.to_string(),
    }
}

fn bare_or_quoted(key: &str) -> String {
    let bare = !key.is_empty()
        && key
            .bytes()
            .all(|b| b.is_ascii_alphanumeric() || b == b'_' || b == b'-');
    if bare {
        key.to_owned()
    } else {
        crate::gear::quote(key)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::gear::{AdjusterKind, Step};
    use crate::session::entry::{Impact, PriorGain, PriorRecord, Shooter};
    use std::collections::BTreeMap;

    fn round_trip(event: Event) {
        let entry = Entry::now(7, event);
        let block = entry.to_toml();
        assert!(
            block.starts_with("\n[[entry]]\n") && block.ends_with("\nend = 7\n"),
            "{block}"
        );
        assert_eq!(Entry::from_toml(&block).unwrap(), entry, "{block}");
    }

    #[test]
    fn every_kind_of_entry_survives_writing_and_reading() {
        round_trip(Event::Shot(Shot {
            right: -12.0,
            up: 4.5,
            said: Some("12l 4.5h \u{1b}[31m".into()),
            distance: Some("2.5 m".into()),
            bare: true,
            arrow: Some("3".into()),
            by: Shooter::Technician,
            called_bad: true,
            slit_extra: true,
            ragged: true,
            under_stop: true,
        }));
        let steps = vec![Step {
            adjuster: AdjusterKind::RestSideways,
            amount: -1.5,
        }];
        round_trip(Event::Move {
            steps: steps.clone(),
            said: Some("rest \"left\" 1.5".into()),
            confirms: Some(6),
        });
        round_trip(Event::Pending { steps });
        round_trip(Event::NotMade { pending: 6 });
        round_trip(Event::Note {
            text: "two\nlines\tand \\ a backslash".into(),
        });
        round_trip(Event::Card {
            set: BTreeMap::from([("bow.peak_weight".into(), "62 lb".into())]),
        });
        round_trip(Event::Undo { target: 3 });
        round_trip(Event::Redo { target: 3 });
        round_trip(Event::Answer {
            test: "contact".into(),
            result: "none".into(),
            detail: None,
        });
        round_trip(Event::Incident {
            what: "dry fire".into(),
        });
        round_trip(Event::Restart {
            setting: Some(2),
            why: None,
        });
        round_trip(Event::Prior(PriorRecord {
            model: 1,
            seed: 7,
            draws: 100,
            gains: vec![PriorGain {
                adjuster: AdjusterKind::RestHeight,
                mean: -3.0,
                sd: 1.5,
                wander: 0.2,
                negative: 0.97,
            }],
        }));
        round_trip(Event::Setup {
            item: "brace-height".into(),
            value: Some("7 in".into()),
            result: "ok".into(),
        });
        round_trip(Event::Group {
            proof: "bare-shaft".into(),
            what: "bare".into(),
            distance: "18 m".into(),
            impacts: vec![Impact {
                right: 1.0,
                up: -2.0,
            }],
        });
        round_trip(Event::Close { how: "done".into() });
    }

    #[test]
    fn a_block_that_cannot_be_right_names_its_line() {
        let block = Entry::now(1, Event::Shot(Shot::default())).to_toml();
        assert!(Entry::from_toml(&block.replace("right = 0.0", "right = nan")).is_err());
        assert!(Entry::from_toml(&block.replace("right = 0.0", "right = -12")).is_ok());
        let (line, message) =
            Entry::from_toml(&block.replace("up = 0.0", "up = high")).unwrap_err();
        assert!(line > 1, "{line} {message}");
        assert!(
            Entry::from_toml(&block.replace("\"shot\"", "\"shoot\""))
                .unwrap_err()
                .1
                .contains("shoot")
        );
    }
}
