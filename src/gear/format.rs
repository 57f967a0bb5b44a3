//! Which format of the file a card needs. What format 1 knew is written down
//! here as it was and does not change.

use super::CardText;

/// The format a card needs.
pub(crate) fn of_card(card: &CardText) -> u32 {
    let fields = card.fields.keys().map(|key| of_field(key));
    let adjusters = card.adjusters.iter().flat_map(|a| {
        a.iter().map(|(key, entered)| {
            let named = key != "name" || ADJUSTERS.contains(&entered.text.as_str());
            if named { of_adjuster_field(key) } else { 2 }
        })
    });
    // Format 1 knew no list of values that nobody confirmed.
    let listed = if card.any_unconfirmed() { 2 } else { 1 };
    fields.chain(adjusters).max().unwrap_or(1).max(listed)
}

pub(crate) fn of_field(key: &str) -> u32 {
    if let Some((_, inner)) = key
        .strip_prefix("adjuster.")
        .and_then(|rest| rest.rsplit_once('.'))
    {
        return of_adjuster_field(inner);
    }
    if FIELDS.contains(&key) { 1 } else { 2 }
}

fn of_adjuster_field(key: &str) -> u32 {
    if ADJUSTER_FIELDS.contains(&key) { 1 } else { 2 }
}

/// Adjusters that format 1 knew.
pub(crate) const ADJUSTERS: &[&str] = &[
    "rest-sideways",
    "rest-height",
    "nocking-point",
    "plunger-tension",
    "centre-shot",
    "yoke-twist",
    "cam-shim",
    "limb-bolts",
    "brace-height",
];

/// Fields of the card that format 1 knew.
const FIELDS: &[&str] = &[
    "bow.kind",
    "bow.hand",
    "bow.release",
    "bow.peak_weight",
    "bow.draw_length",
    "bow.brace_height",
    "bow.let_off",
    "bow.weighed",
    "bow.speed",
    "bow.maker_min_arrow",
    "bow.maker_min_weight",
    "bow.axle_to_axle",
    "bow.name",
    "rest.kind",
    "rest.click",
    "rest.travel",
    "rest.backlash",
    "rest.clockwise",
    "rest.clockwise_height",
    "rest.reading",
    "rest.height_reading",
    "rest.contact_ahead",
    "arrow.shaft_length",
    "arrow.spine",
    "arrow.shaft_mass",
    "arrow.point_mass",
    "arrow.nock_mass",
    "arrow.vane_mass",
    "arrow.diameter",
    "arrow.trial_point",
    "arrow.only_these",
    "arrow.count",
    "arrow.name",
    "archer.name",
    "archer.junior",
    "archer.eye",
    "paper.distance",
    "paper.tolerance",
    "paper.aim_right",
    "paper.aim_up",
    "paper.sureness",
    "job.owner",
    "job.contact",
    "job.number",
    "job.received",
    "job.promised",
    "job.reason",
    "job.condition",
    "job.technician",
    "job.press_consent",
];

/// Keys of an adjuster on the card that format 1 knew.
const ADJUSTER_FIELDS: &[&str] = &[
    "name",
    "step",
    "range",
    "backlash",
    "clockwise",
    "reading",
    "clicks",
];
