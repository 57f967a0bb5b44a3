//! Stages that are not shot with this arrow: settled from the card, before
//! anybody draws.

use super::judge::{Status, Verdict};
use super::stage::Stage;
use crate::checks::safety::{self, Carried};
use crate::session::Timeline;
use crate::words;

/// The verdict of a stage that this arrow does not allow, or whose safety
/// nobody can tell yet; `None` where it may be shot.
pub(super) fn shot(timeline: &Timeline, stage: Stage) -> Option<Verdict> {
    match stage {
        Stage::BareShaft => {
            let danger = safety::bare_too_light(&timeline.card)?;
            let text = format!(
                "Do not shoot it. {} Or leave the stage out.",
                words::danger(&danger)
            );
            Some(Verdict::new(stage, Status::Off, text))
        }
        Stage::Broadhead => match safety::broadhead(&timeline.card) {
            Carried::Clear => None,
            strikes @ (Carried::OverHand(_) | Carried::BehindRiser(_)) => {
                let why = words::broadhead(strikes).unwrap_or_default();
                let text = format!("Do not shoot it. {why}");
                Some(Verdict::new(stage, Status::Off, text))
            }
            // What was shot already is judged all the same.
            Carried::NotMeasured if begun(timeline, stage) => None,
            Carried::NotMeasured => Some(Verdict::new(
                stage,
                Status::NotYet,
                "measure from the rest contact to the riser's front and put it on the card (riser front): a broadhead must stay ahead of hand and riser at full draw",
            )),
        },
        _ => None,
    }
}

/// Whether a group of this stage was shot with these arrows.
fn begun(timeline: &Timeline, stage: Stage) -> bool {
    let mut groups = timeline.groups.iter();
    groups.any(|g| g.proof == stage && g.arrow_epoch == timeline.arrow_epoch)
}
