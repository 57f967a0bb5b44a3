//! A verdict from a file with holes says so beside the verdict, and is not
//! more than it can be without what is missing.

use super::finding::{Finding, Headline};
use super::types::{Advice, Verdict};
use crate::checks::Status;
use crate::checks::safety::Safety;
use crate::session::Holes;

/// Says what of the file the advice does not rest on. While a line of the card
/// cannot be read, a limit may have stood on it, and an entry that is lost may
/// have been an incident: safety waits, and nothing is done.
pub(super) fn tell(holes: Holes, advice: &mut Advice) {
    let waits = match (holes.card, holes.grave) {
        (0, 0) => None,
        (0, _) => Some((Safety::FileHasHoles, Headline::FileHasHoles)),
        _ => Some((Safety::CardDamaged, Headline::CardDamaged)),
    };
    if let Some((waits, headline)) = waits {
        let safety = &mut advice.checks.safety;
        if matches!(safety.status(), Status::Pass | Status::Borderline) {
            *safety = waits;
        }
        if advice.verdict == Verdict::Done {
            advice.verdict = Verdict::Shoot;
            advice.headline = headline;
        }
    }
    let lost = holes.lost + holes.torn;
    let found = [
        (holes.card > 0).then_some(Finding::CardDamaged(holes.card)),
        (lost > 0).then_some(Finding::FileHasHoles(lost)),
        (holes.changed > 0).then_some(Finding::FileChanged(holes.changed)),
    ];
    advice.findings.extend(found.into_iter().flatten());
}
