//! An entry as a block of TOML: written and read.

use std::fmt::Write as _;

use chrono::{DateTime, FixedOffset, Local, SubsecRound};
use serde::Deserialize;

use super::{Event, Shot};

/// The group mark: what one action recorded in several entries. It counts and
/// is undone as a whole.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Together {
    /// Number of its first entry, from 1.
    pub first: u32,
    /// How many entries it has, at least 2.
    pub members: u32,
}

impl Together {
    /// Number of its last entry.
    pub(crate) const fn last(self) -> u32 {
        self.first.saturating_add(self.members).saturating_sub(1)
    }
    /// Whether the entry of this number is one of its members.
    pub(crate) const fn holds(self, number: u32) -> bool {
        number >= self.first && number <= self.last()
    }
}

/// One entry: its number, when it was made, what it records.
#[derive(Debug, Clone, PartialEq)]
pub struct Entry {
    /// Number, from 1.
    pub number: u32,
    /// When it was recorded.
    pub at: DateTime<FixedOffset>,
    /// The group it was recorded in, where one action recorded several.
    pub together: Option<Together>,
    /// What it records.
    pub event: Event,
}

/// Why a closed piece is no entry of ours.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Unread {
    /// It is whole, and of a kind this program does not know.
    Newer { kind: String, number: u32 },
    /// It cannot be read.
    Bad {
        /// Line within the piece, from 1.
        line: usize,
        problem: String,
    },
}

#[derive(Deserialize)]
struct Wire {
    at: String,
    end: u32,
    #[serde(default)]
    together: Option<[u32; 2]>,
    #[serde(flatten)]
    event: Event,
}

impl Entry {
    /// An entry made now.
    pub fn now(number: u32, event: Event) -> Self {
        let at = Local::now().fixed_offset().trunc_subsecs(0);
        Self {
            number,
            at,
            together: None,
            event,
        }
    }

    /// The entry as a block of TOML: `[[entry]]` first, `end = N` last.
    pub fn to_toml(&self) -> String {
        let mut out = format!(
            "[[entry]]\nkind = \"{}\"\nat = \"{}\"\n",
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
        if let Some(mark) = self.together {
            let _ = writeln!(out, "together = [{}, {}]", mark.first, mark.members);
        }
        let sum = sum_of(&out, self.number);
        let _ = writeln!(out, "sum = \"{sum:08x}\"\nend = {}", self.number);
        out.insert(0, '\n');
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
        let named = |name: &str| {
            let own = |l: &str| l.split_once('=').is_some_and(|(key, _)| key.trim() == name);
            block.lines().position(own).map_or(1, |i| i + 1)
        };
        let at = DateTime::parse_from_rfc3339(&wire.at).map_err(|_| {
            (
                named("at"),
                format!(
                    "at = '{}' is no time; write 2026-03-02T10:15:00+00:00",
                    crate::units::clean(&wire.at)
                ),
            )
        })?;
        let together = match wire.together {
            Some([first, members]) if first == 0 || members < 2 => {
                return Err((
                    named("together"),
                    "together is the number of the first entry and how many there are, 2 or more"
                        .into(),
                ));
            }
            mark => mark.map(|[first, members]| Together { first, members }),
        };
        let entry = Self {
            number: wire.end,
            at,
            together,
            event: wire.event,
        };
        entry.finite().map_err(|problem| (1, problem))?;
        Ok(entry)
    }

    /// Reads one whole block; tells what a newer program wrote from what is
    /// damaged.
    ///
    /// # Errors
    /// Where it is neither whole nor known; which of the two.
    pub fn read(block: &str) -> Result<Self, Unread> {
        Self::from_toml(block)
            .map_err(|(line, problem)| newer(block).unwrap_or(Unread::Bad { line, problem }))
    }

    /// Whether the check sum of a block is that of its content as the entry
    /// of this number; `None` where it has none.
    pub(crate) fn sum_fits(block: &str, number: u32) -> Option<bool> {
        let found = block.lines().rev().find_map(|line| value_of(line, "sum"))?;
        let found = found.trim().trim_matches('"');
        Some(u32::from_str_radix(found, 16).ok() == Some(sum_of(block, number)))
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
            Event::Move { steps, .. }
            | Event::PlacedMove { steps, .. }
            | Event::Pending { steps }
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
            Event::Prior(p) if p.learned.as_ref().is_some_and(|l| !l.is_sound()) => Err(
                "what earlier bows taught needs a spread above zero and shares from 0 to 1".into(),
            ),
            _ => Ok(()),
        }
    }
}

/// What stands after `key =` on a line.
fn value_of<'a>(line: &'a str, key: &str) -> Option<&'a str> {
    let (name, value) = line.split_once('=')?;
    (name.trim() == key).then_some(value)
}

/// A block that reads as TOML with a kind, a time and a number, of a kind
/// that is not ours or whose sum says that it is as it was written: a newer
/// program wrote it.
fn newer(block: &str) -> Option<Unread> {
    let table: toml::Table = toml::from_str(block_body(block)).ok()?;
    let kind = table.get("kind")?.as_str()?.to_owned();
    let number = u32::try_from(table.get("end")?.as_integer()?).ok()?;
    DateTime::parse_from_rfc3339(table.get("at")?.as_str()?).ok()?;
    let own = Event::KINDS.contains(&kind.as_str());
    match Entry::sum_fits(block, number) {
        Some(false) => None,
        Some(true) => Some(Unread::Newer { kind, number }),
        None => (!own).then_some(Unread::Newer { kind, number }),
    }
}

/// The check sum of a block: CRC-32 over its lines, each with one newline,
/// but for the `sum` line and with the number on the `end` line.
fn sum_of(block: &str, number: u32) -> u32 {
    let kept = block
        .trim_start()
        .lines()
        .filter(|l| value_of(l, "sum").is_none() && value_of(l, "end").is_none());
    let mut crc = u32::MAX;
    for line in kept {
        crc = crc32(crc, line.as_bytes());
        crc = crc32(crc, b"\n");
    }
    !crc32(crc, format!("end = {number}\n").as_bytes())
}

/// Goes on with a CRC-32 (the reflected polynomial 0xEDB88320 of ITU-T V.42,
/// 8.1.1.6.2), not yet inverted.
fn crc32(crc: u32, bytes: &[u8]) -> u32 {
    bytes.iter().fold(crc, |crc, byte| {
        (crc >> 8) ^ CRC_TABLE[((crc ^ u32::from(*byte)) & 0xff) as usize]
    })
}

const CRC_TABLE: [u32; 256] = {
    let mut table = [0; 256];
    let mut i = 0;
    while i < 256 {
        let mut crc = i as u32;
        let mut bit = 0;
        while bit < 8 {
            crc = if crc & 1 == 1 {
                (crc >> 1) ^ 0xEDB8_8320
            } else {
                crc >> 1
            };
            bit += 1;
        }
        table[i] = crc;
        i += 1;
    }
    table
};

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
    use crate::session::entry::{
        Impact, LearnedGain, LearnedRecord, LearnedScatter, PriorGain, PriorRecord, Shooter,
    };
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
        round_trip(Event::card(BTreeMap::from([(
            "bow.peak_weight".into(),
            "62 lb".into(),
        )])));
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
            learned: None,
        }));
        round_trip(Event::Prior(PriorRecord {
            model: 2,
            seed: 1,
            draws: 0,
            gains: vec![],
            learned: Some(LearnedRecord {
                bows: 11,
                sessions: 14,
                own: 2,
                read: Some([400, 1000]),
                gains: vec![LearnedGain {
                    adjuster: AdjusterKind::RestSideways,
                    powder: Some("none".into()),
                    bows: 9,
                    mean: -2.25,
                    sd: 1.1,
                    wide: 0.08,
                    dead: 0.02,
                }],
                scatter: Some(LearnedScatter {
                    right: 2.5,
                    up: 1.5,
                    spread: 0.3,
                    repeats: 18,
                }),
            }),
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
    fn the_check_sum_is_the_published_one_and_tells_a_change_from_a_copy() {
        // The check value of CRC-32/ISO-HDLC in the catalogue of parametrised CRCs.
        assert_eq!(!crc32(u32::MAX, b"123456789"), 0xcbf4_3926);
        let block = Entry::now(
            12,
            Event::Note {
                text: "end = 3, sum = 4".into(),
            },
        )
        .to_toml();
        assert_eq!(Entry::sum_fits(&block, 12), Some(true), "{block}");
        assert_eq!(Entry::sum_fits(&block, 13), Some(false));
        // An editor's line ends change nothing; a digit does.
        assert_eq!(
            Entry::sum_fits(&block.replace('\n', "\r\n"), 12),
            Some(true)
        );
        let changed = block.replace("end = 3", "end = 4");
        assert_eq!(Entry::sum_fits(&changed, 12), Some(false));
        let by_hand: String = block
            .split_inclusive('\n')
            .filter(|l| !l.starts_with("sum"))
            .collect();
        assert_eq!(Entry::sum_fits(&by_hand, 12), None);
        assert!(Entry::from_toml(&by_hand).is_ok());
    }

    #[test]
    fn what_a_newer_program_wrote_is_told_from_what_is_damaged() {
        let block = Entry::now(5, Event::Incident { what: "x".into() }).to_toml();
        let newer = |text: &str| match Entry::read(text) {
            Err(Unread::Newer { kind, number }) => Some((kind, number)),
            _ => None,
        };
        let other = block.replace("\"incident\"", "\"hologram\"");
        // Its sum says that it was not written so.
        assert_eq!(newer(&other), None);
        let no_sum: String = other
            .split_inclusive('\n')
            .filter(|l| !l.starts_with("sum"))
            .collect();
        assert_eq!(newer(&no_sum), Some(("hologram".into(), 5)));
        let sum = sum_of(&other, 5);
        let own = value_of(block.lines().rev().nth(1).unwrap(), "sum").unwrap();
        let signed = other.replace(own, &format!(" \"{sum:08x}\""));
        assert_eq!(newer(&signed), Some(("hologram".into(), 5)));
        assert_eq!(newer(&no_sum.replace("at = \"", "at = \"x")), None);
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
