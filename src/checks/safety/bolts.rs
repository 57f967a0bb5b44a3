//! Limb bolts: how far out they may stand, and what the bow may draw once
//! they were moved.

use super::build::{LEAST_GPP, MOST_LB_A_TURN, TRADITIONAL_GPP, Whose};
use super::build_dangers;
use super::finding::{Danger, Worst};
use crate::checks::{Figure, Unit};
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
/// an arrow of 8 gr/lb under 5; under 8 gr/lb nothing rules it out. Its maker's
/// own limits need the same room.
fn without_a_figure(timeline: &Timeline, bare: bool) -> Option<Worst> {
    let (card, before) = (&timeline.card, timeline.weight_before_turns());
    let mass = card.arrow.next_mass(bare);
    let gpp = grains_per_pound(mass, before);
    if gpp < TRADITIONAL_GPP - 1e-9 {
        return Some(Worst::NoFigure(card.bow.kind, gpp));
    }
    let far_over = timeline.card_drawing(before.pounds() * TRADITIONAL_GPP / LEAST_GPP);
    let passed = build_dangers(&far_over, bare);
    passed.iter().find_map(|danger| {
        let now = match danger {
            Danger::OverWeight { most, .. } => Figure::new(before.pounds(), *most, Unit::Lb),
            Danger::TooLight {
                whose: Whose::Maker,
                ..
            } => {
                let least = timeline.card_at_worst(0.0).bow.maker_min_arrow?;
                Figure::new(mass.grains(), least.grains(), Unit::Gr)
            }
            _ => return None,
        };
        Some(Worst::MakersLimit(card.bow.kind, now))
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::safety::dangers;
    use crate::checks::safety::tests::{bolts, timeline_of};

    /// 402.5 gr on 40 lb is 10 gr/lb: the floor has room, the maker's limit may not.
    #[test]
    fn a_recurves_own_limits_need_the_same_room_until_it_is_weighed() {
        let recurve = |maker: (&str, &str), turns: f64| {
            dangers(&timeline_of(
                &[
                    ("bow.kind", "recurve"),
                    ("bow.release", "fingers"),
                    ("rest.kind", "plunger"),
                    ("bow.let_off", ""),
                    ("bow.peak_weight", "40 lb"),
                    maker,
                ],
                vec![bolts(turns)],
            ))
        };
        let figure = |found: Vec<Danger>| {
            assert_eq!(found[0].refusal().code(), "weigh-first");
            found[0].figure().unwrap()
        };
        // 40 lb times 8/5 is 64 lb.
        let near = ("bow.maker_max_weight", "63.9 lb");
        let at = figure(recurve(near, 0.5));
        assert_eq!((at.value.round(), at.unit), (40.0, Unit::Lb));
        assert!((at.limit - 63.9).abs() < 1e-6);
        assert!(recurve(near, -0.5).is_empty());
        assert!(recurve(("bow.maker_max_weight", "64.1 lb"), 0.5).is_empty());
        // 402.5 gr over 64 lb is 6.29 gr/lb.
        let near = ("bow.maker_min_arrow", "6.3 gr/lb");
        let at = figure(recurve(near, 0.5));
        assert_eq!((at.limit.round(), at.unit), (252.0, Unit::Gr));
        assert!(recurve(near, -0.5).is_empty());
        assert!(recurve(("bow.maker_min_arrow", "6.28 gr/lb"), 0.5).is_empty());
        // One in grains does not grow with the weight.
        assert!(recurve(("bow.maker_min_arrow", "400 gr"), 0.5).is_empty());
    }
}
