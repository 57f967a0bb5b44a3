//! A verdict from a file with holes says so beside the verdict, and is not
//! more than it can be without what is missing.

use super::types::{Advice, Reason, Verdict};
use crate::checks::{Check, Status};
use crate::session::Holes;
use crate::words::count;

/// Says what of the file the advice does not rest on. While a line of the card
/// cannot be read, a limit may have stood on it: safety waits, and nothing is done.
pub(super) fn tell(holes: Holes, advice: &mut Advice) {
    if holes.card > 0 {
        let safety = &mut advice.checks.safety;
        if matches!(safety.status, Status::Pass | Status::Borderline) {
            *safety = Check::plain(
                Status::Pending,
                "Not known: a limit may have stood on the line of the card that cannot be read",
            );
        }
        if advice.verdict == Verdict::Done {
            advice.verdict = Verdict::Shoot;
            advice.headline = "Within tolerance; give the card what is missing on it first".into();
        }
        advice.reasons.push(Reason::plain(
            "card-damaged",
            format!(
                "{} of the card cannot be read: tearbench check says which, tearbench card FILE key=value gives it again",
                count(holes.card, "line")
            ),
        ));
    }
    if holes.lost > 0 {
        advice.reasons.push(Reason::plain(
            "file-has-holes",
            format!(
                "This rests on what is left of the file: {} cannot be read or are not there; tearbench check says which",
                entries(holes.lost)
            ),
        ));
    }
    if holes.changed > 0 {
        advice.reasons.push(Reason::plain(
            "file-changed",
            format!(
                "{} changed since being recorded; tearbench check says which",
                entries(holes.changed)
            ),
        ));
    }
}

fn entries(n: usize) -> String {
    if n == 1 {
        "1 entry".into()
    } else {
        format!("{n} entries")
    }
}
