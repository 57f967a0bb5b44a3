//! The build that is about to be shot, and the limits it is held against.

use crate::gear::{BowKind, Card, RestKind};
use crate::question::{Question, SetupItem, Stage};
use crate::session::Timeline;
use crate::units::LinearMass;

/// Least arrow mass, grains per pound of draw weight: the floor printed in
/// bow makers' warranty terms and tournament rules, and the test mass of
/// ASTM F1544.
pub(crate) const LEAST_GPP: f64 = 5.0;
/// Below this on a traditional bow, ask its bowyer (from memory).
pub(crate) const TRADITIONAL_GPP: f64 = 8.0;
/// Least reach of the shaft past the rest contact at full draw, inches.
pub(crate) const LEAST_REACH_IN: f64 = 0.5;
/// What the trade's draw length has beyond the grip pivot, inches (ASTM F1880).
pub(crate) const DRAW_BEYOND_PIVOT_IN: f64 = 1.75;
/// A hair of rounding in someone's scale is no danger, grains.
pub(super) const SCALE_HAIR_GR: f64 = 0.05;
/// Most pounds that one turn in of a compound's limb bolts adds: 2 to 4 lb a
/// turn is a rule of thumb, no source. A recurve has no such figure.
pub(crate) const MOST_LB_A_TURN: f64 = 4.0;

/// Whose least arrow weight counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Whose {
    /// 5 gr for each pound of draw weight.
    Floor,
    /// The bow maker's own figure.
    Maker,
}

/// A longbow, or a recurve shot off its shelf.
pub(super) fn traditional(card: &Card) -> bool {
    match card.bow.kind {
        BowKind::Longbow => true,
        BowKind::Recurve => card.rest.kind == RestKind::Shelf,
        BowKind::Compound => false,
    }
}

/// Inches the shaft's end stands ahead of the grip pivot at full draw;
/// negative where it stands behind it. By the card's figures or by the mark
/// read at full draw, whichever draws further.
pub fn shaft_end_inches(card: &Card) -> f64 {
    let worked_out = card.bow.draw_length.inches() - DRAW_BEYOND_PIVOT_IN;
    let mark = card.rest.full_draw_mark;
    let read = mark.map_or(worked_out, |m| {
        m.inches() - card.rest.contact_ahead.inches()
    });
    card.arrow.shaft_length.inches() - worked_out.max(read)
}

/// Inches of shaft past the rest contact at full draw.
pub fn reach_inches(card: &Card) -> f64 {
    shaft_end_inches(card) - card.rest.contact_ahead.inches()
}

/// The least arrow this bow may shoot, grains, and whose figure it is.
pub(super) fn least_grains(card: &Card) -> (f64, Whose) {
    let floor = LEAST_GPP * card.bow.peak_weight.pounds();
    match card.bow.maker_min_arrow {
        Some(maker) if maker.grains() > floor => (maker.grains(), Whose::Maker),
        _ => (floor, Whose::Floor),
    }
}

/// Whether the next shots are bare shafts: the console has them set so, or the
/// bare-shaft stage of proof is under way, which it is from its first group
/// until another stage, a shot through paper, or its being left out.
pub fn bare_next(timeline: &Timeline) -> bool {
    timeline.next_bare || bare_stage_under_way(timeline)
}

fn bare_stage_under_way(timeline: &Timeline) -> bool {
    let Some(last) = timeline.groups.last() else {
        return false;
    };
    let left_out = timeline.answer(Question::Stage(Stage::BareShaft));
    last.proof == Stage::BareShaft
        && last.arrow_epoch == timeline.arrow_epoch
        && timeline.shots.last().is_none_or(|s| s.entry < last.entry)
        && left_out.is_none_or(|a| a.entry < last.entry)
}

/// The card with the worse of its own figures and of those that were measured
/// before paper, and which of them are worse; turns in since the bow was last
/// weighed come on top at so many pounds each. `None` where none is worse.
pub(super) fn build_at_most(timeline: &Timeline, a_turn: f64) -> Option<(Card, Vec<SetupItem>)> {
    let mut card = if timeline.weight_unknown() {
        timeline.card_at_worst(a_turn)
    } else {
        timeline.card.clone()
    };
    let mut what = Vec::new();
    if let Some((read, turns_in)) = timeline.weight_read() {
        let pounds = read.pounds() + a_turn * turns_in;
        if pounds > card.bow.peak_weight.pounds() + 1e-6 {
            card = timeline.card_drawing(pounds);
            what.push(SetupItem::DrawWeight);
        }
    }
    if let Some(draw) = timeline.draw_read()
        && draw.inches() > card.bow.draw_length.inches() + 1e-6
    {
        card.bow.draw_length = draw;
        what.push(SetupItem::DrawLength);
    }
    let parts = card.arrow.total_mass().kg();
    if let Some(read) = timeline.arrow_read()
        && read.kg() < parts - 1e-9
    {
        // Whatever part is lighter than entered, the whole is: the shaft is the
        // part that is large enough to be.
        let shaft = card.arrow.shaft().kg() - (parts - read.kg());
        let per_m = shaft.max(0.0) / card.arrow.shaft_length.m();
        card.arrow.shaft_mass = LinearMass::from_kg_per_m(per_m);
        what.push(SetupItem::ArrowMass);
    }
    (!what.is_empty()).then_some((card, what))
}
