//! What the safety check waits for: values nobody confirmed, a weighing, a
//! weight that was never entered, a count of turns.

use super::build::{MOST_LB_A_TURN, SCALE_HAIR_GR, bare_next, least_grains};
use crate::checks::rests;
use crate::gear::{AdjusterKind, BowKind, Unconfirmed, grains_per_pound, usual_weights};
use crate::question::{Code, Note, Refusal, SetupItem};
use crate::session::Timeline;

/// One thing without which the bow is not called safe, though nothing that is
/// known forbids the shot.
#[derive(Debug, Clone, PartialEq)]
pub enum Waiting {
    /// Values that nobody entered or confirmed.
    Unconfirmed(Vec<Unconfirmed>),
    /// The limb bolts were moved and the bow was not weighed since.
    Unweighed(Weighing),
    /// The arrow is heavy enough only with a part whose weight nobody entered.
    PartNotGiven(ArrowPart),
    /// What was measured before paper is worse than the card says.
    CardDiffers(Vec<SetupItem>),
    /// The limb bolts were turned out, and nobody counted from fully seated;
    /// their maker allows so many turns.
    TurnsNotCounted(f64),
    /// The draw weight on the card, lb, is under what is usual, lb, and the bow
    /// was not weighed: one digit less makes every arrow heavy enough.
    UnusualWeight(f64, (f64, f64)),
}

/// What the bow draws at most until it is weighed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Weighing {
    /// Nothing is known of it.
    Open,
    /// By the rule of thumb so many pounds, and so many grains for each.
    AtMost(f64, f64),
}

/// A part of the arrow whose weight may be missing on the card.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ArrowPart {
    /// The nock.
    Nock,
    /// The vanes.
    Vanes,
}

impl Waiting {
    /// Stable code of the reason it gives.
    pub const fn code(&self) -> Code {
        match self {
            Self::Unconfirmed(_) | Self::CardDiffers(_) => Code::Note(Note::NotConfirmed),
            Self::Unweighed(_) | Self::UnusualWeight(..) => Code::Refusal(Refusal::WeighFirst),
            Self::PartNotGiven(_) => Code::Note(Note::WeightNotGiven),
            Self::TurnsNotCounted(_) => Code::Note(Note::CountTurns),
        }
    }
}

fn unweighed(timeline: &Timeline) -> Weighing {
    let turns = timeline.turns_in_since_weighed();
    if turns <= 0.0 || timeline.card.bow.kind != BowKind::Compound {
        return Weighing::Open;
    }
    let worst = timeline.card_at_worst(MOST_LB_A_TURN);
    let (mass, weight) = (
        worst.arrow.next_mass(bare_next(timeline)),
        worst.bow.peak_weight,
    );
    Weighing::AtMost(weight.pounds(), grains_per_pound(mass, weight))
}

/// Everything the safety check waits for.
pub fn waiting(timeline: &Timeline) -> Vec<Waiting> {
    let mut found = Vec::new();
    let open = timeline.card_text.unconfirmed_of(rests::SAFETY);
    if !open.is_empty() {
        found.push(Waiting::Unconfirmed(open));
    }
    if timeline.weight_unknown() {
        found.push(Waiting::Unweighed(unweighed(timeline)));
    }
    let differs = super::measured::differs(timeline);
    if !differs.is_empty() {
        found.push(Waiting::CardDiffers(differs));
    }
    found.extend(unusual_weight(timeline));
    found.extend(part_not_given(timeline).map(Waiting::PartNotGiven));
    let out =
        timeline.now.get(AdjusterKind::LimbBolts) < 0.0 || timeline.card.bow.turns_out.is_some();
    let most = timeline.card.bow.maker_max_turns;
    if let Some(most) = most.filter(|_| out && !timeline.turns_out().1) {
        found.push(Waiting::TurnsNotCounted(most));
    }
    found
}

/// A draw weight under what is usual that no scale has shown. One over it
/// asks for a heavier arrow, which is the safe side.
fn unusual_weight(timeline: &Timeline) -> Option<Waiting> {
    let (bow, usual) = (&timeline.card.bow, usual_weights());
    let lb = bow.peak_weight.pounds();
    (lb < usual.0 && !bow.weighed && !timeline.weight_unknown())
        .then_some(Waiting::UnusualWeight(lb, usual))
}

/// The part whose usual weight stands in for one that nobody entered, where
/// the arrow would be under the floor without it.
fn part_not_given(timeline: &Timeline) -> Option<ArrowPart> {
    let card = &timeline.card;
    let given = |key: &str| timeline.card_text.get(key).is_some();
    let bare = bare_next(timeline);
    let (least, _) = least_grains(card);
    let mut mass = card.arrow.next_mass(bare).grains();
    for (part, counts, grains, key) in [
        (
            ArrowPart::Nock,
            true,
            card.arrow.nock_mass,
            "arrow.nock_mass",
        ),
        (
            ArrowPart::Vanes,
            !bare,
            card.arrow.vane_mass,
            "arrow.vane_mass",
        ),
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
