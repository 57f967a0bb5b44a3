//! After paper: proof at distance, in order, and the sight that must follow.
//!
//! [`stages`] says how each proof stands by the groups and answers recorded;
//! [`assess`] gives one stage's verdict with its figures, the move it
//! suggests with its odds, and the confound it excludes first. A move made
//! in proof asks for one paper check ([`paper_check_due`]).

mod along;
mod before;
mod compare;
mod drift;
mod impacts;
mod judge;
mod line;
mod pair;
mod rule;
mod shape;
pub mod sight;
mod stage;
mod state;
mod suggest;

pub use along::Along;
pub use compare::{Difference, Spot, compare, ellipse_of_mean, odds_within, spot};
pub use drift::{Bend, Drift, distances, drift};
pub use impacts::{FaceUnit, ImpactError, MOST, impact_words, read_impacts};
pub use judge::{Status, Verdict, assess};
pub use stage::{Instructions, Stage};
pub use state::{
    StageState, next_stage, paper_check_due, ready, record_done, record_group, record_marks, skip,
    stages,
};
pub use suggest::Suggestion;

/// How far the proof went, in one line: `2 of 8 stages ok, 1 left out`.
pub fn summary(stages: &[StageState]) -> String {
    let n = |status: Status| stages.iter().filter(|s| s.verdict.status == status).count();
    let wanted = stages.iter().filter(|s| s.usual).count();
    let mut text = format!("{} of {wanted} stages ok", n(Status::Passed));
    for (count, word) in [(n(Status::Off), "OFF"), (n(Status::Skipped), "left out")] {
        if count > 0 {
            text.push_str(&format!(", {count} {word}"));
        }
    }
    text
}

#[cfg(test)]
pub(crate) mod tests {
    use crate::session::{Event, Impact};

    pub(crate) fn group(proof: &str, what: &str, distance: &str, hits: &[(f64, f64)]) -> Event {
        Event::Group {
            proof: proof.into(),
            what: what.into(),
            distance: distance.into(),
            impacts: hits
                .iter()
                .map(|(right, up)| Impact {
                    right: *right,
                    up: *up,
                })
                .collect(),
        }
    }
}
