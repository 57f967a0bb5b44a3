//! The entries of a session, and how each is written.

mod given;
mod learned;
mod range;
mod wire;

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use crate::gear::Step;
use crate::question::{Answer, GroupKind, Question, Said, SetupItem, Stage, Taken};
use crate::tear::Tear;
use crate::units::Length;
pub use given::{Given, TwoArrows};
pub use learned::{LearnedGain, LearnedRecord, LearnedScatter};
pub use range::RangeSaid;
pub use wire::{Entry, Together, Unread};

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
    pub(crate) const ALL: [Self; 3] = [Self::Owner, Self::Technician, Self::Machine];
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
    /// Recorded while an incident stopped shooting.
    #[serde(default, skip_serializing_if = "is_false")]
    pub under_stop: bool,
}

impl Shot {
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
    /// What earlier bows of the same folder taught, where it is used.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub learned: Option<LearnedRecord>,
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

/// A step of handing shots over, in the order they are recorded.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum HandStage {
    /// In the file they leave: they are about to be copied.
    Begun,
    /// In the file they go to, with the copies.
    Copied,
    /// In the file they leave, with the undoing of what was copied.
    Undone,
    /// In the file they go to: the other file has let go of them.
    Settled,
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
    /// A move that was made before a shot that is recorded already, and was
    /// not recorded then: it counts before that shot.
    PlacedMove {
        /// The shot's entry.
        before: u32,
        /// What moved.
        steps: Vec<Step>,
        /// As it was typed.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        said: Option<String>,
        /// The pending move it was, if it was one.
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
        /// Whether a typo was corrected or the bow or arrow changed, where
        /// that was said.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        taken: Option<Said<Taken>>,
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
        /// Which question: a test, a part of the inspection, work, ...
        test: Said<Question>,
        /// Its answer in one word.
        result: Said<Answer>,
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
        item: Said<SetupItem>,
        /// Measured value with its unit.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        value: Option<String>,
        /// In order, off or skipped.
        result: Said<Answer>,
    },
    /// A group on a target face after paper.
    Group {
        /// Which stage of proof it belongs to.
        proof: Said<Stage>,
        /// What was shot: fletched, bare, broadhead, ...
        what: Said<GroupKind>,
        /// Distance, as text with a unit.
        distance: String,
        /// The impacts.
        impacts: Vec<Impact>,
    },
    /// A step of handing shots from one session to another.
    HandOver {
        /// What both files know this handing over by.
        mark: String,
        /// Which step.
        stage: HandStage,
        /// The name of the other file.
        file: String,
        /// The shots' entries in the file they leave.
        entries: Vec<u32>,
    },
    /// The job is closed.
    Close {
        /// How: `done`, `best-with-these-arrows`, `stopped`.
        how: String,
    },
}

impl Event {
    /// A test answered in one word.
    pub fn answer(test: impl Into<Said<Question>>, result: impl Into<Said<Answer>>) -> Self {
        Self::Answer {
            test: test.into(),
            result: result.into(),
            detail: None,
        }
    }

    /// A change of the card, where nobody said whether a typo was corrected.
    pub const fn card(set: BTreeMap<String, String>) -> Self {
        Self::Card { set, taken: None }
    }

    /// Every word for a kind of entry.
    pub(crate) const KINDS: &[&str] = &[
        "shot",
        "move",
        "pending",
        "not-made",
        "note",
        "card",
        "undo",
        "redo",
        "answer",
        "incident",
        "restart",
        "prior",
        "setup",
        "group",
        "close",
        "placed-move",
        "hand-over",
    ];

    /// The word for this kind of entry.
    pub const fn kind(&self) -> &'static str {
        match self {
            Self::Shot(_) => "shot",
            Self::Move { .. } => "move",
            Self::PlacedMove { .. } => "placed-move",
            Self::HandOver { .. } => "hand-over",
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
    pub(crate) const fn can_be_undone(&self) -> bool {
        !matches!(
            self,
            Self::Undo { .. }
                | Self::Redo { .. }
                | Self::Incident { .. }
                | Self::Prior(_)
                | Self::HandOver { .. }
        )
    }
}
