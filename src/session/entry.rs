//! The entries of a session, and how each is written.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use chrono::{DateTime, FixedOffset, Local, SubsecRound};
use serde::{Deserialize, Serialize};

use crate::gear::Step;
use crate::tear::{Hole, Tear};
use crate::units::Length;

/// Who shot.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Default, Serialize, Deserialize,
)]
#[serde(rename_all = "lowercase")]
pub enum Shooter {
    /// The bow's owner: only these shots make `done`.
    #[default]
    Owner,
    /// The technician.
    Technician,
    /// A shooting machine.
    Machine,
}

impl Shooter {
    /// Every shooter.
    pub const ALL: [Self; 3] = [Self::Owner, Self::Technician, Self::Machine];
    /// The word used in files and on the command line.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Owner => "owner",
            Self::Technician => "technician",
            Self::Machine => "machine",
        }
    }
    /// The shooter with this word.
    pub fn from_id(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|s| s.id() == word)
    }
}

fn is_false(flag: &bool) -> bool {
    !*flag
}

/// One shot through paper.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
pub struct Shot {
    /// Tear, right positive, mm.
    pub right: f64,
    /// Tear, up positive, mm.
    pub up: f64,
    /// As it was typed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub said: Option<String>,
    /// Rest to paper, as text with a unit; the card's distance where absent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub distance: Option<String>,
    /// Shot without fletching.
    #[serde(default, skip_serializing_if = "is_false")]
    pub bare: bool,
    /// Arrow number or mark.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub arrow: Option<String>,
    /// Who shot.
    #[serde(default)]
    pub by: Shooter,
    /// Called bad before looking.
    #[serde(default, skip_serializing_if = "is_false")]
    pub called_bad: bool,
    /// Extra slit beyond the line from point to nock.
    #[serde(default, skip_serializing_if = "is_false")]
    pub slit_extra: bool,
    /// Ragged or smeared.
    #[serde(default, skip_serializing_if = "is_false")]
    pub ragged: bool,
}

impl Shot {
    /// A shot from a hole as read, shot by the owner at the card's distance.
    pub fn from_hole(hole: &Hole, said: &str) -> Self {
        Self {
            right: hole.tear.right,
            up: hole.tear.up,
            said: (!said.is_empty()).then(|| said.chars().take(80).collect()),
            bare: hole.bare,
            arrow: hole.arrow.clone(),
            called_bad: hole.called_bad,
            slit_extra: hole.slit_extra,
            ragged: hole.ragged,
            ..Self::default()
        }
    }
    /// The tear.
    pub const fn tear(&self) -> Tear {
        Tear::new(self.right, self.up)
    }
    /// The distance, where the shot names a readable one.
    pub fn distance(&self) -> Option<Length> {
        self.distance
            .as_deref()
            .and_then(|text| Length::parse(text).ok())
    }
}

/// One impact on a target face, mm from the aiming spot.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Impact {
    /// Right positive, mm.
    pub right: f64,
    /// Up positive, mm.
    pub up: f64,
}

/// The response prior computed from the card, stored so that opening and
/// advising only read it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct PriorRecord {
    /// Version of the model that computed it.
    pub model: u32,
    /// Seed of the draw.
    pub seed: u64,
    /// Number of virtual bows drawn.
    pub draws: u32,
    /// Per adjuster: mean slope, its spread, and how fast the slope wanders,
    /// on the adjuster's own axis; and the share of negative slopes.
    pub gains: Vec<PriorGain>,
}

/// Prior knowledge of one adjuster's response on its own axis.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct PriorGain {
    /// Adjuster name.
    pub adjuster: crate::gear::AdjusterKind,
    /// Mean slope, mm of tear per unit.
    pub mean: f64,
    /// Standard deviation of the slope.
    pub sd: f64,
    /// Slope wander, (mm per unit)^2 per unit.
    pub wander: f64,
    /// Share of negative slopes, 0..1.
    pub negative: f64,
}

/// What an entry records.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub enum Event {
    /// A shot.
    Shot(Shot),
    /// A move that was made.
    Move {
        /// What moved.
        steps: Vec<Step>,
        /// As it was typed.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        said: Option<String>,
        /// The pending move this settles.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        confirms: Option<u32>,
    },
    /// A move shown and taken to the bench, not yet confirmed.
    Pending {
        /// What is to be moved.
        steps: Vec<Step>,
    },
    /// A pending move that was not made after all.
    NotMade {
        /// The pending move's entry.
        pending: u32,
    },
    /// A note.
    Note {
        /// Its text.
        text: String,
    },
    /// A change of the card.
    Card {
        /// New values by key, as text; empty takes the field off.
        set: BTreeMap<String, String>,
    },
    /// An earlier entry no longer counts.
    Undo {
        /// Which entry.
        target: u32,
    },
    /// An undone entry counts again.
    Redo {
        /// Which entry.
        target: u32,
    },
    /// The result of a test that is not a tear.
    Answer {
        /// Which test: contact, arrow, inspection, ...
        test: String,
        /// Its result in one word.
        result: String,
        /// Anything measured or seen.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        detail: Option<String>,
    },
    /// Something that stops shooting until the bow is inspected.
    Incident {
        /// What happened.
        what: String,
    },
    /// A fresh start: the mean tear is unknown again, the response is kept.
    Restart {
        /// The setting whose positions hold again; the present one where absent.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        setting: Option<u32>,
        /// Why.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        why: Option<String>,
    },
    /// The response prior of the card as it stands.
    Prior(PriorRecord),
    /// A check before paper.
    Setup {
        /// Which item.
        item: String,
        /// Measured value with its unit.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        value: Option<String>,
        /// `ok`, `off` or `skipped`.
        result: String,
    },
    /// A group on a target face after paper.
    Group {
        /// Which proof it belongs to.
        proof: String,
        /// What was shot: fletched, bare, broadhead, ...
        what: String,
        /// Distance, as text with a unit.
        distance: String,
        /// The impacts.
        impacts: Vec<Impact>,
    },
    /// The sitting is over.
    Close {
        /// How: `done`, `best-with-these-arrows`, `stopped`.
        how: String,
    },
}

impl Event {
    /// The word for this kind of entry.
    pub const fn kind(&self) -> &'static str {
        match self {
            Self::Shot(_) => "shot",
            Self::Move { .. } => "move",
            Self::Pending { .. } => "pending",
            Self::NotMade { .. } => "not-made",
            Self::Note { .. } => "note",
            Self::Card { .. } => "card",
            Self::Undo { .. } => "undo",
            Self::Redo { .. } => "redo",
            Self::Answer { .. } => "answer",
            Self::Incident { .. } => "incident",
            Self::Restart { .. } => "restart",
            Self::Prior(_) => "prior",
            Self::Setup { .. } => "setup",
            Self::Group { .. } => "group",
            Self::Close { .. } => "close",
        }
    }

    /// Whether undo may take it back. An incident is answered by an
    /// inspection, never undone: safety cannot be waived.
    pub const fn can_be_undone(&self) -> bool {
        !matches!(
            self,
            Self::Undo { .. } | Self::Redo { .. } | Self::Incident { .. } | Self::Prior(_)
        )
    }
}

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
            (
                2,
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
    use crate::gear::AdjusterKind;

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
