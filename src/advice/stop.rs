//! What every command and screen says before it says what to shoot.

use super::decide;
use super::finding::{Finding, Headline};
use crate::question::Refusal;
use crate::session::Timeline;

/// What forbids the next shot.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Stop {
    /// What it comes to, in one line.
    pub headline: Headline,
    /// Why, worst first.
    pub findings: Vec<Finding>,
    refusal: Refusal,
}

impl Stop {
    /// What stops, as its word has it.
    pub(crate) const fn refusal(&self) -> Refusal {
        self.refusal
    }
}

/// What forbids the next shot, whatever was asked; `None` where nothing does.
pub(crate) fn stopped(timeline: &Timeline) -> Option<Stop> {
    let outcome = decide::stop(timeline)?;
    Some(Stop {
        refusal: outcome.refusal?,
        headline: outcome.headline,
        findings: outcome.findings,
    })
}
