//! Which values of the card each check rests on, and which of those
//! are defaults that nobody entered or confirmed.

use crate::gear::Unconfirmed;
use crate::session::Timeline;

/// Values behind the safety check: mass, draw weight, reach, kind of bow.
pub(crate) const SAFETY: &[&str] = &[
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
pub(crate) const SPINE: &[&str] = &[
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
pub(crate) const CONSISTENCY: &[&str] = &["bow.release", "paper.tolerance"];

/// Values behind what the adjusters do: which there are, how far they go, and
/// which way is in and out.
pub(crate) const RESPONSE: &[&str] = &["bow.hand", "rest.kind", "rest.travel"];

/// The values behind any of the four checks that nobody confirmed yet:
/// without them nothing is called done.
pub fn open(timeline: &Timeline) -> Vec<Unconfirmed> {
    let keys: Vec<&str> = [SAFETY, SPINE, CONSISTENCY, RESPONSE].concat();
    timeline.card_text.unconfirmed_of(&keys)
}
