//! What every command and screen says before it says what to shoot.

use super::decide;
use super::types::{Reason, Verdict};
use crate::session::Timeline;

/// What forbids the next shot.
#[derive(Debug, Clone, PartialEq)]
pub struct Stop {
    /// One-line headline.
    pub headline: String,
    /// Why, worst first.
    pub reasons: Vec<Reason>,
}

impl Stop {
    /// `DO NOT SHOOT: inspect the bow first`, once.
    pub fn line(&self) -> String {
        let title = crate::words::verdict_title(Verdict::Stop);
        let why = self.headline.split_once(": ");
        let why = why.map_or(self.headline.as_str(), |(_, why)| why);
        format!("{title}: {why}.")
    }

    /// The line, then each reason on its own.
    pub fn lines(&self) -> Vec<String> {
        let mut lines = vec![self.line()];
        let reason = |r: &Reason| format!("- {}", crate::words::capital(&r.text));
        lines.extend(self.reasons.iter().map(reason));
        lines
    }
}

/// What forbids the next shot, whatever was asked; `None` where nothing does.
pub fn stopped(timeline: &Timeline) -> Option<Stop> {
    let outcome = decide::stop(timeline)?;
    Some(Stop {
        headline: outcome.headline,
        reasons: outcome.reasons,
    })
}
