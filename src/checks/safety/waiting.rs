//! What the safety check waits for: values nobody confirmed, a weighing, a
//! weight that was never entered, a count of turns.

use super::bolts::MOST_LB_A_TURN;
use super::{SCALE_HAIR_GR, bare_next, least_grains};
use crate::checks::rests;
use crate::gear::{AdjusterKind, BowKind, grains_per_pound};
use crate::session::Timeline;
use crate::units::trim_number;
use crate::words;

/// One thing without which the bow is not called safe, though nothing that is
/// known forbids the shot.
#[derive(Debug, Clone, PartialEq)]
pub enum Waiting {
    /// Values that nobody entered or confirmed, as a sentence names them.
    Unconfirmed(String),
    /// The limb bolts were moved and the bow was not weighed since.
    Unweighed,
    /// The arrow is heavy enough only with a part whose weight nobody entered.
    PartNotGiven(&'static str),
    /// The limb bolts were turned out, and nobody counted from fully seated.
    TurnsNotCounted,
}

impl Waiting {
    /// In words, with what to do.
    pub fn text(&self, timeline: &Timeline) -> String {
        match self {
            Self::Unconfirmed(what) => format!("{what} not confirmed"),
            Self::Unweighed => unweighed(timeline),
            Self::PartNotGiven(part) => {
                format!("{part} weight not on the card, and the arrow is heavy enough only with it")
            }
            Self::TurnsNotCounted => format!(
                "count the limb bolts' turns out from fully seated: they were turned out, and the bow maker allows {}",
                words::turns_of(timeline.card.bow.maker_max_turns.unwrap_or_default())
            ),
        }
    }
}

fn unweighed(timeline: &Timeline) -> String {
    let turns = timeline.turns_in_since_weighed();
    let worst = if turns > 0.0 && timeline.card.bow.kind == BowKind::Compound {
        let worst = timeline.card_at_worst(MOST_LB_A_TURN);
        let mass = worst.arrow.next_mass(bare_next(timeline));
        format!(
            " (at {MOST_LB_A_TURN} lb a turn, a rule of thumb, at most {} lb: {:.1} gr/lb)",
            trim_number(worst.bow.peak_weight.pounds(), 1),
            grains_per_pound(mass, worst.bow.peak_weight)
        )
    } else {
        String::new()
    };
    format!(
        "draw weight not known since the limb bolts were moved{worst}: weigh the bow, then put its weight on the card as weighed"
    )
}

/// Everything the safety check waits for.
pub fn waiting(timeline: &Timeline) -> Vec<Waiting> {
    let mut found = Vec::new();
    if let Some(what) = timeline.card_text.unconfirmed_of(rests::SAFETY) {
        found.push(Waiting::Unconfirmed(what));
    }
    if timeline.weight_unknown() {
        found.push(Waiting::Unweighed);
    }
    found.extend(part_not_given(timeline).map(Waiting::PartNotGiven));
    let out =
        timeline.now.get(AdjusterKind::LimbBolts) < 0.0 || timeline.card.bow.turns_out.is_some();
    if out && timeline.card.bow.maker_max_turns.is_some() && !timeline.turns_out().1 {
        found.push(Waiting::TurnsNotCounted);
    }
    found
}

/// The part whose usual weight stands in for one that nobody entered, where
/// the arrow would be under the floor without it.
fn part_not_given(timeline: &Timeline) -> Option<&'static str> {
    let card = &timeline.card;
    let given = |key: &str| timeline.card_text.get(key).is_some();
    let bare = bare_next(timeline);
    let (least, _) = least_grains(card);
    let mut mass = card.arrow.next_mass(bare).grains();
    for (part, counts, grains, key) in [
        ("nock", true, card.arrow.nock_mass, "arrow.nock_mass"),
        ("vane", !bare, card.arrow.vane_mass, "arrow.vane_mass"),
    ] {
        if counts && !given(key) {
            mass -= grains.grains();
            if mass < least - SCALE_HAIR_GR {
                return Some(part);
            }
        }
    }
    None
}
