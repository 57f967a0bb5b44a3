//! The four checks: safety, arrow spine, consistency, response. Each gives a
//! finding with its figures; what it says stands in [`crate::words`].

pub mod consistency;
mod figure;
pub mod next_steps;
pub(crate) mod response;
pub(crate) mod rests;
pub mod safety;
pub mod spine;
mod status;

pub use figure::{Figure, Unit};
pub use status::Status;

use consistency::Repeats;
use response::Response;
use safety::Safety;
use spine::SpineReport;

use crate::question::{Answer, Question, Refusal};

/// Good shots that are waited for after a path was walked to its end, before
/// the same refusal may be said again.
pub(crate) const RESUME_SHOTS: usize = 3;

/// Whether the path after this refusal was walked to its end and
/// the shots it asked for are not shot yet: until then the refusal waits.
/// Never asked of safety or of the computed spine match, which only the card
/// or an inspection can lift.
pub(crate) fn resumed(timeline: &crate::session::Timeline, refusal: Refusal) -> bool {
    let path = Question::Path(refusal);
    timeline
        .answers
        .iter()
        .rev()
        .find(|a| a.test == path && a.result == Answer::Resume)
        .is_some_and(|a| {
            let since = timeline.shots.iter().skip(a.shots_before);
            since.filter(|s| !s.shot.called_bad && !s.shot.bare).count() < RESUME_SHOTS
        })
}

/// Which of the four checks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CheckKind {
    /// Whether anything forbids shooting.
    Safety,
    /// Whether the arrow's spine suits the bow.
    Spine,
    /// Whether repeat shots agree.
    Consistency,
    /// Whether the adjusters do what is believed of them.
    Response,
}

impl CheckKind {
    /// All four, in the order they count.
    pub(crate) const ALL: [Self; 4] =
        [Self::Safety, Self::Spine, Self::Consistency, Self::Response];
}

/// What the four checks found.
#[derive(Debug, Clone, PartialEq)]
pub struct Checks {
    /// Whether anything forbids shooting.
    pub safety: Safety,
    /// Whether the arrow suits the bow.
    pub(crate) spine: SpineReport,
    /// Whether repeat shots agree.
    pub consistency: Repeats,
    /// Whether the adjusters do what is believed of them.
    pub response: Response,
}

impl Checks {
    /// How one of them stands.
    pub fn status(&self, check: CheckKind) -> Status {
        match check {
            CheckKind::Safety => self.safety.status(),
            CheckKind::Spine => self.spine.status,
            CheckKind::Consistency => self.consistency.status(),
            CheckKind::Response => self.response.status(),
        }
    }

    /// The figure of one of them, where there is one.
    pub fn figure(&self, check: CheckKind) -> Option<Figure> {
        match check {
            CheckKind::Safety => self.safety.figure(),
            CheckKind::Spine => self.spine.figure(),
            CheckKind::Consistency => self.consistency.figure(),
            CheckKind::Response => self.response.figure(),
        }
    }

    /// Each with how it stands, in order.
    pub fn each(&self) -> [(CheckKind, Status); 4] {
        CheckKind::ALL.map(|check| (check, self.status(check)))
    }
}
