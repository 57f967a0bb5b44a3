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
#[cfg(test)]
pub(crate) use drift::Bend;
pub use drift::Drift;
pub use found::{Acts, AimFound, AlongFound, Distances, Found, LineFound, PairFound, Read};
pub(crate) use impacts::MOST;
pub use impacts::{FaceUnit, ImpactError, WrongImpact, read_impacts};
pub(crate) use judge::More;
pub use judge::{StageVerdict, assess};
pub use one_axis::Along;
pub(crate) use rule::Rule;
pub(crate) use shot::{arrows, hits, next_distance};
pub(crate) use stage::GroupKind;
pub use stage::Stage;
pub(crate) use state::{AsksForAMove, DISTANCES_M, comes_next, record_done, record_marks};
pub use state::{
    GroupRefused, StageState, next_stage, paper_check_due, ready, record_group, skip, stages,
};
pub(crate) use suggest::{By, Rests};
pub use suggest::{NoMove, Suggestion};

use crate::step::State;

/// How far the proof went.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Summary {
    /// Stages in order.
    pub ok: usize,
    /// Stages that are usual for this bow.
    pub usual: usize,
    /// Stages not in order.
    pub(crate) off: usize,
    /// Stages left out knowingly.
    pub(crate) left_out: usize,
}

/// How far the proof went.
pub(crate) fn summary(stages: &[StageState]) -> Summary {
    let n = |status: State| stages.iter().filter(|s| s.verdict.status == status).count();
    Summary {
        ok: n(State::Ok),
        usual: stages.iter().filter(|s| s.usual).count(),
        off: n(State::Off),
        left_out: n(State::Skipped),
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
