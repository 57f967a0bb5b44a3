//! The verdict, the four checks and their states, in the words of the screen.

use super::moves::bench_headline;
use super::{capital, count};
use crate::advice::{Advice, Analysis, Behind, Headline, MovePurpose, Stop, Verdict, Weighed};
use crate::checks::response::Obstacle;
use crate::checks::safety::Safety;
use crate::checks::{CheckKind, Checks, Status};
use crate::question::Refusal;
use crate::session::Timeline;
use crate::units::{System, clean};

/// The verdict on screen: TEST MOVE for a move that is made to learn, and
/// SHOOT where no shot stands at this setting yet.
pub fn title(advice: &Advice) -> &'static str {
    match (&advice.movement, advice.verdict) {
        (Some(m), _) if m.purpose == MovePurpose::Test => "TEST MOVE",
        (_, Verdict::Shoot) if advice.shots_here > 0 => "SHOOT AGAIN",
        _ => verdict_title(advice.verdict),
    }
}

/// A verdict alone, without what is advised beside it.
pub(crate) const fn verdict_title(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Shoot => "SHOOT",
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

/// The same in one word, for a row of two.
pub(crate) const fn check_word(check: CheckKind) -> &'static str {
    match check {
        CheckKind::Spine => "spine",
        other => check_name(other),
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

/// What a check found, in a sentence or a few.
pub(crate) fn check(checks: &Checks, which: CheckKind, system: System) -> String {
    match which {
        CheckKind::Safety => super::safety(&checks.safety),
        CheckKind::Spine => super::spine(&checks.spine),
        CheckKind::Consistency if matches!(checks.safety, Safety::Danger(_)) => {
            super::scatter::scatter_under_a_stop(&checks.consistency, system)
        }
        CheckKind::Consistency => super::scatter(&checks.consistency, system),
        CheckKind::Response => super::response(&checks.response, system),
    }
}

/// The verdict in one line, what its title does not say; the move where one
/// is advised.
pub fn headline(advice: &Advice, system: System) -> String {
    match (&advice.headline, &advice.movement) {
        (Headline::Move, Some(advised)) => {
            let steps = advised.steps.iter();
            let steps: Vec<String> = steps.map(|s| bench_headline(&s.bench, system)).collect();
            steps.join("; ")
        }
        (other, _) => line(other, system),
    }
}

/// The same on its session: a finished paper tune names the stage of proof
/// that comes next, as the list of stages has it.
pub fn headline_here(timeline: &Timeline, analysis: &Analysis, system: System) -> String {
    match analysis.advice.headline {
        Headline::Done => super::proof::comes_next(timeline, analysis),
        _ => headline(&analysis.advice, system),
    }
}

/// A headline that is no move.
fn line(headline: &Headline, system: System) -> String {
    match headline {
        Headline::Stop(refusal) => stop_headline(*refusal).into(),
        Headline::Spine(_, Weighed::Unknown) => "Weigh the bow first".into(),
        Headline::Spine(Refusal::SpineStiff, _) => "The arrow is too stiff for this bow".into(),
        Headline::Spine(..) => "The arrow is too weak for this bow".into(),
        Headline::Scatter => "Repeat shots do not agree".into(),
        Headline::Obstacle(found) => obstacle_headline(found).into(),
        // Said with its steps.
        Headline::Move => String::new(),
        Headline::OtherArrows(mark) => format!(
            "Two other arrows first: every shot was arrow {}",
            clean(mark)
        ),
        Headline::Powder => "The powder test first".into(),
        Headline::PowderReversed => "Powder test before a reversed response is believed".into(),
        Headline::PowderFirst => "Before the first sideways move: the powder test".into(),
        Headline::PowderBeforeBoth => "Before both axes are moved at once: the powder test".into(),
        Headline::ClearSlap => "Clear the slap once, then powder again".into(),
        Headline::Hand => "Before the first sideways move: the bow hand".into(),
        Headline::OpenHand(shots) => {
            format!("Shoot {} with an open, relaxed hand", count(*shots, "shot"))
        }
        Headline::RepeatFirst => "The shots must repeat before anything is moved".into(),
        Headline::OwnerMustShoot(who) => format!(
            "Within tolerance for the {}: let the owner shoot 3",
            who.id()
        ),
        Headline::NotCertain => {
            "Within tolerance, not done: the bow or arrow on the card is not certain".into()
        }
        Headline::CardDamaged => {
            "Within tolerance. Give the card what is missing on it first".into()
        }
        Headline::FileHasHoles => "Within tolerance. Look at what of the file is lost first".into(),
        Headline::Done => "Proof at distance comes next".into(),
        Headline::FirstShots => "The first shots at this setting".into(),
        Headline::NoneCounts => "The shots so far no longer count".into(),
        Headline::NewSetting => "No shot at this setting yet".into(),
        Headline::SinceTheMove => "Nothing was shot since the last move".into(),
        Headline::BentOrScatter => "Two more here: a bent response, or shots that scatter?".into(),
        Headline::ContactFirst(behind) => contact_headline(*behind).into(),
        Headline::StillWithin(..) | Headline::MoreWithin(..) => with_tolerance(headline, system),
        Headline::MoreWhere(shots) => {
            format!("{} will show better where the tear is", more(*shots))
        }
    }
}

/// A headline that names the tolerance.
fn with_tolerance(headline: &Headline, system: System) -> String {
    match headline {
        Headline::StillWithin(tolerance, shots) => format!(
            "Still within {} after the move made in proof? {} through paper will tell",
            system.tear(*tolerance),
            count(*shots as usize, "shot")
        ),
        Headline::MoreWithin(shots, tolerance) => format!(
            "{} should show whether it is within {}",
            more(*shots),
            system.tear(*tolerance)
        ),
        _ => String::new(),
    }
}

/// `1 more shot`, `3 more shots`.
fn more(shots: u32) -> String {
    count(shots as usize, "more shot")
}

const fn contact_headline(behind: Behind) -> &'static str {
    match behind {
        Behind::Scatter => "Powder test before the shots are blamed",
        Behind::Jumps => "Powder test: the tear jumps between moves",
        Behind::Reversed => "Powder test before a reversed response is believed",
    }
}

const fn stop_headline(refusal: Refusal) -> &'static str {
    match refusal {
        Refusal::Incident => "Inspect the bow first",
        Refusal::TooLight => "The arrow is too light for this bow",
        Refusal::FarTooWeak => "The arrow is far too weak for this bow",
        Refusal::WeighFirst => "Weigh the bow first",
        Refusal::PastLimit => "Past the bow maker's limit",
        _ => "The arrow is too short for this draw",
    }
}

const fn obstacle_headline(found: &Obstacle) -> &'static str {
    match found {
        Obstacle::HugeTear(..) => "The tear is too large for the rest",
        Obstacle::Weak(_) => "The rest hardly moves the tear",
        Obstacle::NoResponse(..) | Obstacle::Silent(..) => "The tear does not respond",
        Obstacle::Jumps(_) => "The tear jumps between moves",
        Obstacle::Travel(_) | Obstacle::Short(_) => "The rest's travel does not reach",
        Obstacle::NoAdjuster(_) => "Nothing on this bow moves the arrow that way",
        Obstacle::Contact(_) => "Something touches the arrow",
    }
}

/// `DO NOT SHOOT. Inspect the bow first.`
pub(crate) fn stop_line(stop: &Stop) -> String {
    // What stops names no length on the paper: any system says it.
    let why = line(&stop.headline, System::Mm);
    format!("{}. {why}.", verdict_title(Verdict::Stop))
}

/// What stops the bow in one of two sessions that are compared, and in which.
pub(crate) fn compared_stop(stop: &Stop, earlier: bool, system: System) -> Vec<String> {
    let mut lines = stop_lines(stop, system);
    let which = if earlier { "earlier" } else { "later" };
    if let Some(first) = lines.first_mut() {
        first.push_str(&format!(" (by the {which} session)"));
    }
    lines
}

/// That line, then each reason on its own.
pub(crate) fn stop_lines(stop: &Stop, system: System) -> Vec<String> {
    let why = stop.findings.iter();
    let why = why.map(|found| format!("- {}", capital(&super::say(found, system))));
    std::iter::once(stop_line(stop)).chain(why).collect()
}
