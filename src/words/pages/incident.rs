//! Something happened that stops shooting, and the inspection after it.

use crate::gear::BowKind;
use crate::units::clean;

/// What may have happened to a bow of this kind, as it is recorded.
pub(crate) const fn happened(bow: BowKind) -> [&'static str; 6] {
    let string = match bow {
        BowKind::Compound => "string or cable off its track",
        _ => "string off a limb",
    };
    [
        "dry fire",
        string,
        "arrow struck something on the bow",
        "arrow broken or cracked",
        "lost nock",
        "arrow missed the backstop",
    ]
}

/// The line for anything else.
pub(crate) const SOMETHING_ELSE: &str = "something else: type it";
/// Over the list of what may have happened.
pub(crate) const STOPS: &str =
    "Shooting stops until every part of the bow is looked at. This cannot be undone.";
/// Beside what is typed.
pub(crate) const STOPS_SHORT: &str = "It stops the shooting until every part is looked at.";

/// Once it is recorded; the key opens the inspection.
pub(crate) fn recorded(key: &str) -> String {
    format!("DO NOT SHOOT. Press {key} and look at every part, one at a time.")
}

/// Over the parts: what happened, as it was typed, and its entry.
pub(crate) fn inspect(incident: Option<(&str, u32)>) -> String {
    let what = incident.map_or_else(String::new, |(what, entry)| {
        format!("Entry {entry}: {}. ", clean(what))
    });
    format!("{what}Look at each part, then press Enter if it is undamaged. A slow draw comes last.")
}

/// The line that names damage.
pub(crate) const SOMETHING_DAMAGED: &str = "something is damaged: type what";
/// To a slow draw that comes too early.
pub(crate) const PARTS_FIRST: &str =
    "Look at every part before the slow draw. This one was not looked at yet.";
/// Once damage is recorded.
pub(crate) const DAMAGED: &str =
    "DO NOT SHOOT: damage found. Repair it, then look at every part again.";

/// Once every part was looked at, with what comes before the next shot.
pub(crate) fn cleared(then: &str) -> String {
    format!("Every part was looked at. {then}. Keep the first shots close in.")
}
