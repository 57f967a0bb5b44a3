//! Limb bolts: how far out they may stand, and what the bow may draw once
//! they were moved.

use super::build::{MOST_LB_A_TURN, TRADITIONAL_GPP};
use super::build_dangers;
use super::finding::{Danger, Worst};
use crate::gear::{BowKind, Card, grains_per_pound};
use crate::session::Timeline;

/// The limb bolts stand further out than their maker allows.
pub(super) fn past_the_makers_turns(timeline: &Timeline) -> Option<Danger> {
    let most = timeline.card.bow.maker_max_turns?;
    let (out, counted) = timeline.turns_out();
    if out <= most + 1e-9 {
        return None;
    }
    Some(Danger::PastTurns { out, most, counted })
}

/// The draw weight is over its maker's greatest.
pub(super) fn over_the_makers_weight(card: &Card) -> Option<Danger> {
    let (weight, most) = (card.bow.peak_weight, card.bow.maker_max_weight?);
    let (pounds, most) = (weight.pounds(), most.pounds());
    (pounds > most + 1e-9).then_some(Danger::OverWeight { pounds, most })
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
    let worst = if timeline.card.bow.kind == BowKind::Compound {
        at_worst(timeline, bare)
    } else {
        without_a_figure(timeline, bare)
    };
    let weigh_first = |worst| Danger::WeighFirst { turns, worst };
    worst.map(weigh_first).into_iter().collect()
}

/// A compound: the rule of thumb at its greatest.
fn at_worst(timeline: &Timeline, bare: bool) -> Option<Worst> {
    let worst = timeline.card_at_worst(MOST_LB_A_TURN);
    let danger = build_dangers(&worst, bare).into_iter().next()?;
    let pounds = worst.bow.peak_weight.pounds();
    Some(Worst::Draws(pounds, Box::new(danger)))
}

/// A bow whose bolts have no figure of pounds a turn. Nothing bounds the
/// weight, but bolts that span a tenth of it or so (from memory) do not take
/// an arrow of 8 gr/lb under 5; under 8 gr/lb nothing rules it out.
fn without_a_figure(timeline: &Timeline, bare: bool) -> Option<Worst> {
    let mass = timeline.card.arrow.next_mass(bare);
    let gpp = grains_per_pound(mass, timeline.weight_before_turns());
    let kind = timeline.card.bow.kind;
    (gpp < TRADITIONAL_GPP - 1e-9).then_some(Worst::NoFigure(kind, gpp))
}
