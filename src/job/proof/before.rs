//! Stages that are not shot with this arrow: settled from the card, before
//! anybody draws.

use super::found::Found;
use super::judge::StageVerdict;
use super::stage::Stage;
use crate::checks::safety::{self, Carried};
use crate::session::Timeline;
use crate::step::State;

/// The verdict of a stage that this arrow does not allow, or whose safety
/// nobody can tell yet; `None` where it may be shot.
pub(super) fn shot(timeline: &Timeline, stage: Stage) -> Option<StageVerdict> {
    match stage {
        Stage::BareShaft => {
            let danger = safety::bare_forbidden(timeline)?;
            Some(StageVerdict::new(stage, State::Off, Found::NotBare(danger)))
        }
        Stage::Broadhead => {
            match safety::broadhead(&timeline.card) {
                Carried::Clear => None,
                strikes @ (Carried::OverHand(_) | Carried::BehindRiser(_)) => Some(
                    StageVerdict::new(stage, State::Off, Found::Strikes(strikes)),
                ),
                // What was shot already is judged all the same.
                Carried::NotMeasured if begun(timeline, stage) => None,
                Carried::NotMeasured => Some(StageVerdict::new(
                    stage,
                    State::NotYet,
                    Found::RiserFrontUnknown,
                )),
            }
        }
        _ => None,
    }
}

/// Whether a group of this stage was shot with these arrows.
fn begun(timeline: &Timeline, stage: Stage) -> bool {
    let mut groups = timeline.groups.iter();
    groups.any(|g| g.proof == stage && g.arrow_epoch == timeline.arrow_epoch)
}
