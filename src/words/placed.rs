//! What placing a forgotten move changes, and handing shots over, in words.

use super::{count, standing, steps, tear};
use crate::advice::Advice;
use crate::gear::{AdjusterKind, Step};
use crate::session::Timeline;
use crate::tear::Tear;
use crate::units::System;

/// Entries as they are named: `5`, `5 and 6`, `5, 6 and 8`.
#[must_use]
pub fn entries(all: &[u32]) -> String {
    let mut words: Vec<String> = all.iter().map(ToString::to_string).collect();
    match words.pop() {
        None => "none".into(),
        Some(last) if words.is_empty() => last,
        Some(last) => format!("{} and {last}", words.join(", ")),
    }
}

/// What a move placed before a shot changes, one sentence each: which shots
/// then belong to which setting, where the bow stands, how the likely tear
/// changes. `after` is the session with the move.
#[must_use]
pub(crate) fn placed(
    made: &[Step],
    before: u32,
    (now, advice): (&Timeline, &Advice),
    (after, then): (&Timeline, &Advice),
    system: System,
) -> Vec<String> {
    let card = &after.card;
    let mut lines = vec![format!(
        "{}, made before entry {before}",
        steps(made, card, system)
    )];
    if let Some(i) = after.shots.iter().position(|s| s.entry == before) {
        let setting = after.shots[i].setting;
        let own = after.shots.iter().filter(|s| s.setting == setting);
        let own: Vec<u32> = own.map(|s| s.entry).collect();
        let shots = if own.len() == 1 {
            format!("The shot of entry {} belongs", entries(&own))
        } else {
            format!("The shots of entries {} belong", entries(&own))
        };
        let number = after.settings[setting].number;
        lines.push(format!("{shots} to setting {number} then"));
        let others = after.shots.len() - i - own.len();
        if others > 0 {
            let shots = count(others, "later shot");
            lines.push(format!("{shots} stand as much further along"));
        }
    }
    lines.push(format!(
        "The bow then stands: {} (was: {})",
        standing(after, system),
        standing(now, system)
    ));
    let likely = |advice: &Advice| {
        let known = advice.estimate.tear_mm;
        known.map_or_else(
            || "not known yet".to_owned(),
            |t| tear(Tear::new(t.right, t.up), system),
        )
    };
    let (was, is) = (likely(advice), likely(then));
    if was == is {
        lines.push(format!("The likely tear stays: {is}"));
    } else {
        lines.push(format!("The likely tear was {was}; it is then {is}"));
    }
    lines.extend(beyond(after, system));
    lines
}

/// That an adjuster stands past its travel, where one does.
fn beyond(after: &Timeline, system: System) -> Option<String> {
    let past = |kind: &AdjusterKind| {
        let adjuster = after.card.adjuster(*kind);
        adjuster.is_some_and(|a| after.now.get(*kind).abs() > a.range + 1e-9)
    };
    let kind = AdjusterKind::ALL.into_iter().find(past)?;
    let range = after.card.adjuster(kind)?.range;
    Some(format!(
        "The {} stands past its travel of {} then: look whether that can be",
        kind.noun(),
        super::amount(kind, range, system)
    ))
}
