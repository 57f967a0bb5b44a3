//! The range safety list before the next shot: said first, changing no verdict.

use super::types::{Advice, ProbeKind, Reason, Verdict};
use crate::checks::Status;
use crate::range::{self, Due, Today};
use crate::session::Timeline;

/// The reason's stable code.
pub const CODE: &str = "range-list-open";

/// Where a shot comes next and the list is due: the reason stands first and
/// safety reads "not yet". The verdict, its move and its test stay as they are.
pub(super) fn say(timeline: &Timeline, advice: &mut Advice, today: Today) -> Option<Due> {
    // A closed job is judged by what stood when its shots were made.
    let today = match &timeline.closed {
        Some(_) => Today::of_last_shot(timeline).unwrap_or(today),
        None => today,
    };
    if !a_shot_comes_next(advice) {
        return None;
    }
    let due = range::due(timeline, today)?;
    let text = due.text();
    let safety = &mut advice.checks.safety;
    // What forbids the shot itself is never softened.
    if safety.status != Status::Fail {
        safety.status = Status::Pending;
        safety.text = format!("{text} {}", crate::words::capital(&safety.text));
    }
    advice.reasons.insert(0, Reason::plain(CODE, text));
    Some(due)
}

/// Whether what is advised is shot: a move is made first, a refusal and a
/// stop shoot nothing, and the bow hand is asked about shots that stand.
fn a_shot_comes_next(advice: &Advice) -> bool {
    match advice.verdict {
        Verdict::Shoot | Verdict::Done => true,
        Verdict::Probe => advice
            .probe
            .as_ref()
            .is_some_and(|p| p.shots > 0 || p.kind == ProbeKind::Contact),
        Verdict::Move | Verdict::Refuse | Verdict::Stop => false,
    }
}
