//! The verdict, the four checks and their states, in the words of the screen.

use crate::advice::{Advice, MovePurpose, Verdict};
use crate::checks::{CheckKind, Status};

/// The verdict on screen: TEST MOVE for a move that is made to learn, and
/// SHOOT where no shot stands at this setting yet.
pub fn title(advice: &Advice) -> &'static str {
    match (&advice.movement, advice.verdict) {
        (Some(m), _) if m.purpose == MovePurpose::Test => "TEST MOVE",
        (_, Verdict::Shoot) if advice.shots_here == 0 => "SHOOT",
        _ => verdict_title(advice.verdict),
    }
}

/// A verdict alone, without what is advised beside it.
pub const fn verdict_title(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Shoot => "SHOOT AGAIN",
        Verdict::Move => "MOVE",
        Verdict::Probe => "TEST",
        Verdict::Refuse => "LEAVE THE REST ALONE",
        Verdict::Done => "WITHIN TOLERANCE: NOW PROVE IT",
        Verdict::Stop => "DO NOT SHOOT",
    }
}

/// What a check is called on screens and sheets.
pub const fn check_name(check: CheckKind) -> &'static str {
    match check {
        CheckKind::Safety => "safety",
        CheckKind::Spine => "arrow spine",
        CheckKind::Consistency => "scatter",
        CheckKind::Response => "response",
    }
}

/// How a check stands, in one word.
pub const fn status(status: Status) -> &'static str {
    match status {
        Status::Pass => "ok",
        Status::Borderline => "borderline",
        Status::Pending => "not yet",
        Status::Fail => "NOT OK",
    }
}
