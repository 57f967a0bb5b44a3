//! After paper: proof at distance, in order, and the sight that must follow.
//!
//! [`stages`] tells how each proof stands by the groups and answers recorded;
//! [`assess`] gives one stage's verdict: what it found, with its figures
//! ([`Found`]), and the move it suggests with what that rests on. A move made
//! in proof asks for one paper check ([`paper_check_due`]). What all this says
//! is made in [`crate::words::proof`].

mod along;
mod before;
mod compare;
mod drift;
mod found;
mod impacts;
mod judge;
mod line;
mod one_axis;
mod pair;
mod rule;
mod shape;
mod shot;
pub mod sight;
mod stage;
mod state;
mod suggest;

pub use compare::{Difference, Spot, compare, ellipse_of_mean, odds_within, spot};
pub use drift::{Bend, Drift, distances, drift};
pub use found::{Acts, AimFound, AlongFound, Distances, Found, LineFound, PairFound, Read};
pub use impacts::{FaceUnit, ImpactError, MOST, read_impacts};
pub use judge::{More, Status, Verdict, assess};
pub use one_axis::Along;
pub use rule::Rule;
pub use shot::{arrows, hits, next_distance};
pub use stage::{GroupKind, Stage};
pub use state::{
    StageState, next_stage, paper_check_due, ready, record_done, record_group, record_marks, skip,
    stages,
};
pub use suggest::{By, NoMove, Rests, Suggestion};

/// How far the proof went.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Summary {
    /// Stages in order.
    pub ok: usize,
    /// Stages that are usual for this bow.
    pub usual: usize,
    /// Stages not in order.
    pub off: usize,
    /// Stages left out knowingly.
    pub left_out: usize,
}

/// How far the proof went.
pub fn summary(stages: &[StageState]) -> Summary {
    let n = |status: Status| stages.iter().filter(|s| s.verdict.status == status).count();
    Summary {
        ok: n(Status::Passed),
        usual: stages.iter().filter(|s| s.usual).count(),
        off: n(Status::Off),
        left_out: n(Status::Skipped),
    }
}

#[cfg(test)]
pub(crate) mod tests {
    use super::Suggestion;
    use crate::session::{Event, Impact};
    use crate::words;

    /// The move as `tearbench move` takes it.
    pub(crate) fn command(found: &Suggestion) -> String {
        words::step_command(&found.step())
    }

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
