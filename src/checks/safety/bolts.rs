//! Limb bolts: how far out they may stand, and what the bow may draw once
//! they were moved.

use super::{Danger, TRADITIONAL_GPP, build_dangers};
use crate::gear::{BowKind, Card, grains_per_pound};
use crate::question::Refusal;
use crate::session::Timeline;
use crate::units::trim_number;
use crate::words;

/// Most pounds that one turn in of a compound's limb bolts adds: 2 to 4 lb a
/// turn is a rule of thumb, no source. A recurve has no such figure.
pub const MOST_LB_A_TURN: f64 = 4.0;

/// The limb bolts stand further out than their maker allows.
pub(super) fn past_the_makers_turns(timeline: &Timeline) -> Option<Danger> {
    let most = timeline.card.bow.maker_max_turns?;
    let (out, counted) = timeline.turns_out();
    if out <= most + 1e-9 {
        return None;
    }
    let stand = if counted { "" } else { "at least " };
    Some(Danger {
        refusal: Refusal::PastLimit,
        text: format!(
            "turn the limb bolts back in before anything is drawn: they stand {stand}{} out, past the bow maker's {}. A limb can come out of its pocket",
            words::turns_of(out),
            words::turns_of(most)
        ),
        figure: Some((out, most, "turn")),
    })
}

/// The draw weight is over its maker's greatest.
pub(super) fn over_the_makers_weight(card: &Card) -> Option<Danger> {
    let (weight, most) = (card.bow.peak_weight, card.bow.maker_max_weight?);
    let (weight, most) = (weight.pounds(), most.pounds());
    (weight > most + 1e-9).then(|| Danger {
        refusal: Refusal::PastLimit,
        text: format!(
            "turn the limb bolts out before anything is drawn: {} lb is over the bow maker's greatest weight of {} lb",
            trim_number(weight, 1),
            trim_number(most, 1)
        ),
        figure: Some((weight, most, "lb")),
    })
}

/// What forbids the next shot while the draw weight is unknown: what the last
/// known weight forbids already, and else what the worst case does.
pub(super) fn unweighed(timeline: &Timeline, bare: bool) -> Vec<Danger> {
    let known = build_dangers(&timeline.card_at_worst(0.0), bare);
    if !known.is_empty() {
        return known;
    }
    let turns = timeline.turns_in_since_weighed();
    if turns <= 0.0 {
        return Vec::new();
    }
    let since = format!(
        "weigh the bow first: its limb bolts stand {} further in than when its weight was known",
        words::turns_of(turns)
    );
    let found = if timeline.card.bow.kind == BowKind::Compound {
        at_worst(timeline, bare, &since)
    } else {
        without_a_figure(timeline, bare, &since)
    };
    found.into_iter().collect()
}

/// A compound: the rule of thumb at its greatest.
fn at_worst(timeline: &Timeline, bare: bool, since: &str) -> Option<Danger> {
    let worst = timeline.card_at_worst(MOST_LB_A_TURN);
    let danger = build_dangers(&worst, bare).into_iter().next()?;
    Some(Danger {
        refusal: Refusal::WeighFirst,
        text: format!(
            "{since}. At {MOST_LB_A_TURN} lb a turn (rule of thumb) it draws {} lb, and then: {}",
            trim_number(worst.bow.peak_weight.pounds(), 1),
            danger.text
        ),
        figure: danger.figure,
    })
}

/// A bow whose bolts have no figure of pounds a turn. Nothing bounds the
/// weight, but bolts that span a tenth of it or so (from memory) do not take
/// an arrow of 8 gr/lb under 5; under 8 gr/lb nothing rules it out.
fn without_a_figure(timeline: &Timeline, bare: bool, since: &str) -> Option<Danger> {
    let mass = timeline.card.arrow.next_mass(bare);
    let gpp = grains_per_pound(mass, timeline.weight_before_turns());
    (gpp < TRADITIONAL_GPP - 1e-9).then(|| Danger {
        refusal: Refusal::WeighFirst,
        text: format!(
            "{since}. No figure of pounds a turn is known for a {}, and {gpp:.1} gr/lb was light already",
            timeline.card.bow.kind.id()
        ),
        figure: Some((gpp, TRADITIONAL_GPP, "gr/lb")),
    })
}
