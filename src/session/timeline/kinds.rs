//! What a timeline is made of.

use chrono::{DateTime, FixedOffset, NaiveDate};

use crate::gear::{Positions, Step};
use crate::question::{Answer, GroupKind, Question, Said, SetupItem, Stage};
use crate::session::entry::{Impact, RangeSaid, Shot};
use crate::units::Length;

/// One position of all adjusters; shots belong to a setting.
#[derive(Debug, Clone, PartialEq)]
pub struct Setting {
    /// Number, from 1; the first is the start.
    pub number: u32,
    /// Where every adjuster stands.
    pub positions: Positions,
    /// Entry of the move that led here; `None` for the start and restarts.
    pub(crate) by_move: Option<u32>,
    /// Which mean-tear epoch it belongs to: a restart, a changed bow or arrow,
    /// or press work makes the mean tear unknown again.
    pub epoch: u32,
}

/// A shot that counts, with where it was shot.
#[derive(Debug, Clone, PartialEq)]
pub struct ShotAt {
    /// Its entry number.
    pub entry: u32,
    /// When.
    pub at: DateTime<FixedOffset>,
    /// Index into [`super::Timeline::settings`].
    pub setting: usize,
    /// Where every adjuster stood.
    pub positions: Positions,
    /// Mean-tear epoch.
    pub epoch: u32,
    /// Arrow-type epoch: rises when the card's arrow changes.
    pub arrow_epoch: u32,
    /// Rest to paper.
    pub distance: Length,
    /// The shot itself.
    pub shot: Shot,
}

/// A move that counts.
#[derive(Debug, Clone, PartialEq)]
pub struct MoveAt {
    /// Its entry number.
    pub entry: u32,
    /// The number that orders it among the entries: its own, or that of the
    /// shot it was placed before. Other entries stand before it where their
    /// number is smaller, and after it where not.
    pub place: u32,
    /// What moved.
    pub steps: Vec<Step>,
    /// How many shots counted before it.
    pub(crate) shots_before: usize,
    /// Whether it settled a shown move.
    pub(crate) confirms: Option<u32>,
}

/// A move taken to the bench and not yet confirmed.
#[derive(Debug, Clone, PartialEq)]
pub struct Pending {
    /// Its entry number.
    pub entry: u32,
    /// What is to be moved.
    pub steps: Vec<Step>,
}

/// A recorded answer that counts.
#[derive(Debug, Clone, PartialEq)]
pub struct AnswerAt {
    /// Its entry number.
    pub entry: u32,
    /// Which question.
    pub test: Said<Question>,
    /// Its answer.
    pub(crate) result: Said<Answer>,
    /// Anything measured or seen.
    pub(crate) detail: Option<String>,
    /// How many shots counted before it.
    pub(crate) shots_before: usize,
    /// Arrow-type epoch it belongs to.
    pub arrow_epoch: u32,
}

/// A check before paper that counts.
#[derive(Debug, Clone, PartialEq)]
pub struct SetupAt {
    /// Its entry number.
    pub entry: u32,
    /// Which item.
    pub item: Said<SetupItem>,
    /// Measured value with its unit.
    pub(crate) value: Option<String>,
    /// In order, off or skipped.
    pub(crate) result: Said<Answer>,
    /// Where every adjuster stood.
    pub positions: Positions,
    /// Arrow-type epoch it belongs to.
    pub arrow_epoch: u32,
}

/// What was said of the range safety list, and on which day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct RangeAt {
    /// Its entry number.
    pub entry: u32,
    /// The day it was said on, where it was said.
    pub(crate) day: NaiveDate,
    /// What was said.
    pub said: RangeSaid,
}

/// A group on a target face that counts, with where the bow stood.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct GroupAt {
    /// Its entry number.
    pub entry: u32,
    /// Which stage of proof it belongs to.
    pub(crate) proof: Said<Stage>,
    /// What was shot: fletched, bare, broadhead, ...
    pub(crate) what: Said<GroupKind>,
    /// Distance; `None` where the text cannot be read.
    pub distance: Option<Length>,
    /// The impacts, mm from the aiming spot.
    pub(crate) impacts: Vec<Impact>,
    /// Index into [`super::Timeline::settings`].
    pub setting: usize,
    /// Where every adjuster stood.
    pub positions: Positions,
    /// Arrow-type epoch it belongs to.
    pub arrow_epoch: u32,
}

/// An incident; how it stands is [`super::Timeline::clearance`].
#[derive(Debug, Clone, PartialEq)]
pub struct IncidentAt {
    /// Its entry number.
    pub entry: u32,
    /// What happened.
    pub(crate) what: String,
}

/// What of a file is not in the timeline, or not as it was recorded.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(crate) struct Holes {
    /// Entries that cannot be read or are not there.
    pub(crate) lost: usize,
    /// Pieces at the torn end of the file that may have said that the bow must
    /// not be shot; the next entry sets them aside.
    pub(crate) torn: usize,
    /// Of both, those that may have said that the bow must not be shot.
    pub(crate) grave: usize,
    /// Entries that were changed since they were recorded.
    pub(crate) changed: usize,
    /// Lines of the card, or of a change of it, that cannot be read.
    pub card: usize,
}

impl Holes {
    /// Whether there is none.
    pub(crate) const fn is_none(&self) -> bool {
        self.lost == 0 && self.changed == 0 && self.card == 0
    }
}
