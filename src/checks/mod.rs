//! The four checks: safety, spine match, consistency, response.

pub mod consistency;
pub mod next_steps;
pub mod response;
pub mod rests;
pub mod safety;
pub mod spine;

use serde::Serialize;

use crate::question::{Answer, Question, Refusal};

/// Good shots that are waited for after a path was walked to its end, before
/// the same refusal may be said again.
pub const RESUME_SHOTS: usize = 3;

/// Whether the path after this refusal was walked to its end and
/// the shots it asked for are not shot yet: until then the refusal waits.
/// Never asked of safety or of the computed spine match, which only the card
/// or an inspection can lift.
pub fn resumed(timeline: &crate::session::Timeline, refusal: Refusal) -> bool {
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

/// How a check stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Status {
    /// In order.
    Pass,
    /// Go on, warned.
    Borderline,
    /// Not known yet.
    Pending,
    /// Not in order.
    Fail,
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

/// One check: status, figure, limit and the reason in words.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Check {
    /// How it stands.
    pub status: Status,
    /// In words.
    pub text: String,
    /// The figure, where there is one.
    pub value: Option<f64>,
    /// Its limit, where there is one.
    pub limit: Option<f64>,
    /// The unit of both.
    pub unit: Option<&'static str>,
}

impl Check {
    /// A check without a figure.
    pub fn plain(status: Status, text: impl Into<String>) -> Self {
        Self {
            status,
            text: text.into(),
            value: None,
            limit: None,
            unit: None,
        }
    }
    /// A check with a figure held against a limit.
    pub fn measured(
        status: Status,
        text: impl Into<String>,
        value: f64,
        limit: f64,
        unit: &'static str,
    ) -> Self {
        Self {
            status,
            text: text.into(),
            value: Some(value),
            limit: Some(limit),
            unit: Some(unit),
        }
    }
}

/// The four checks, in their order.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Checks {
    /// Whether anything forbids shooting.
    pub safety: Check,
    /// Whether the arrow suits the bow.
    pub spine_match: Check,
    /// Whether repeat shots agree.
    pub consistency: Check,
    /// Whether the tear answers to the adjusters.
    pub response: Check,
}

impl Checks {
    /// Each with which it is, in order.
    pub const fn each(&self) -> [(CheckKind, &Check); 4] {
        [
            (CheckKind::Safety, &self.safety),
            (CheckKind::Spine, &self.spine_match),
            (CheckKind::Consistency, &self.consistency),
            (CheckKind::Response, &self.response),
        ]
    }
}
