//! How a job may be closed as it stands.

use crate::advice::{Analysis, Verdict};
use crate::question::Refusal;
use crate::session::Event;

/// A way to close a job.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Closing {
    /// The verdict is that it is done.
    Done,
    /// Before it was done.
    Stopped,
    /// The arrows do not match and no others are to be had.
    BestWithTheseArrows,
}

impl Closing {
    /// Every way.
    pub(crate) const ALL: [Self; 3] = [Self::Done, Self::Stopped, Self::BestWithTheseArrows];

    /// Its word, as recorded.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Done => "done",
            Self::Stopped => "stopped",
            Self::BestWithTheseArrows => "best-with-these-arrows",
        }
    }

    /// The way with this word.
    pub fn from_id(id: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|c| c.id() == id)
    }

    /// For a list.
    pub(crate) const fn words(self) -> &'static str {
        match self {
            Self::Done => "done",
            Self::Stopped => "stopped before it was done",
            Self::BestWithTheseArrows => "best with these arrows, NOT matched",
        }
    }

    /// The entry that closes the job so.
    pub fn event(self) -> Event {
        Event::Close {
            how: self.id().into(),
        }
    }
}

/// The ways open as the job stands, the plain one first: done only on a
/// verdict that says so, best with these arrows only where the arrows do not
/// match.
pub(crate) fn closings(analysis: &Analysis) -> Vec<Closing> {
    let mut open = vec![match analysis.advice.verdict {
        Verdict::Done => Closing::Done,
        _ => Closing::Stopped,
    }];
    if matches!(
        Refusal::of(analysis),
        Some(Refusal::SpineWeak | Refusal::SpineStiff)
    ) {
        open.push(Closing::BestWithTheseArrows);
    }
    open
}
