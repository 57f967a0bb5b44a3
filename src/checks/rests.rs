//! Which values of the card each check rests on, and what a check says while
//! one of them is a default that nobody entered or confirmed.

use super::{Check, Status};
use crate::session::Timeline;

/// Values behind the safety check: mass, draw weight, reach, kind of bow.
pub const SAFETY: &[&str] = &[
    "bow.kind",
    "bow.peak_weight",
    "bow.draw_length",
    "rest.kind",
    "arrow.shaft_length",
    "arrow.shaft_mass",
    "arrow.point_mass",
    "arrow.nock_mass",
    "arrow.vane_mass",
];

/// Values behind the arrow's match.
pub const SPINE: &[&str] = &[
    "bow.kind",
    "bow.release",
    "bow.peak_weight",
    "bow.draw_length",
    "rest.kind",
    "arrow.shaft_length",
    "arrow.spine",
    "arrow.shaft_mass",
    "arrow.point_mass",
    "arrow.nock_mass",
    "arrow.vane_mass",
];

/// Values behind how well shots are to repeat: the tolerance, and what is
/// usual for the release.
pub const CONSISTENCY: &[&str] = &["bow.release", "paper.tolerance"];

/// Values behind what the adjusters do: which there are, how far they go, and
/// which way is in and out.
pub const RESPONSE: &[&str] = &["bow.hand", "rest.kind", "rest.travel"];

/// What keeps a check from being ok because these values are defaults:
/// `draw weight and arrow not confirmed`.
pub fn not_confirmed(timeline: &Timeline, keys: &[&str]) -> Option<String> {
    let what = timeline.card_text.unconfirmed_of(keys)?;
    Some(format!("{what} not confirmed"))
}

/// The values behind any of the four checks that nobody confirmed yet:
/// without them nothing is called done.
pub fn open(timeline: &Timeline) -> Option<String> {
    let keys: Vec<&str> = [SAFETY, SPINE, CONSISTENCY, RESPONSE].concat();
    timeline.card_text.unconfirmed_of(&keys)
}

/// A check that would be ok or borderline is not known yet while it rests on
/// a default; one that fails stays as it is.
pub fn held(timeline: &Timeline, keys: &[&str], check: Check) -> Check {
    if !matches!(check.status, Status::Pass | Status::Borderline) {
        return check;
    }
    match not_confirmed(timeline, keys) {
        Some(text) => Check::plain(Status::Pending, text),
        None => check,
    }
}
