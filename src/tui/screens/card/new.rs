//! What a card starts with: usual values, each to be checked.

use crate::gear::CardText;
use crate::gear::field::FIELDS;

/// Fields a fresh card starts with beside the required ones.
const FRESH: &[&str] = &[
    "bow.let_off",
    "rest.travel",
    "arrow.nock_mass",
    "arrow.vane_mass",
    "arrow.diameter",
    "paper.tolerance",
];

/// What goes with a kind of bow on a fresh card (common practice, no source).
const WITH_KIND: &[(&str, &[(&str, &str)])] = &[
    (
        "compound",
        &[
            ("bow.release", "aid"),
            ("bow.peak_weight", "60 lb"),
            ("bow.brace_height", "7 in"),
            ("bow.let_off", "75 %"),
            ("rest.kind", "drop-away"),
            ("rest.travel", "8 mm"),
            ("arrow.spine", "0.400"),
            ("paper.tolerance", "6 mm"),
        ],
    ),
    (
        "recurve",
        &[
            ("bow.release", "fingers"),
            ("bow.peak_weight", "38 lb"),
            ("bow.brace_height", "8 3/4 in"),
            ("bow.let_off", ""),
            ("rest.kind", "plunger"),
            ("rest.travel", ""),
            ("arrow.spine", "0.600"),
            ("paper.tolerance", "12 mm"),
        ],
    ),
    (
        "longbow",
        &[
            ("bow.release", "fingers"),
            ("bow.peak_weight", "45 lb"),
            ("bow.brace_height", "7 in"),
            ("bow.let_off", ""),
            ("rest.kind", "shelf"),
            ("rest.travel", ""),
            ("arrow.spine", "0.600"),
            ("paper.tolerance", "12 mm"),
        ],
    ),
];

/// The card of a new session, before anything is entered.
pub fn text() -> CardText {
    let mut base = CardText::default();
    for field in FIELDS
        .iter()
        .filter(|f| f.required || FRESH.contains(&f.key))
    {
        // Keys of the table are known to the card.
        let _ = base.fill(field.key, field.example);
    }
    base
}

/// Puts on it what goes with a kind of bow. What was entered or confirmed
/// stays, but is to be confirmed again: it was said of another kind. What
/// this kind has not comes off.
pub(crate) fn dress(base: &mut CardText, kind: &str) {
    let with = WITH_KIND.iter().find(|(k, _)| *k == kind);
    for (key, value) in with.map_or(&[][..], |(_, set)| set) {
        let entered = base.get(key).filter(|_| !base.is_unconfirmed(key));
        let value = match entered {
            Some(stands) if !value.is_empty() => stands.to_owned(),
            _ => (*value).to_owned(),
        };
        let _ = base.fill(key, &value);
    }
}
