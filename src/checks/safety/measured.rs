//! What was measured before paper, where it is worse for safety than the card
//! says: a scale is believed before a label, whoever forgets to copy it.

use super::build::{MOST_LB_A_TURN, build_at_most};
use super::build_dangers;
use super::finding::Danger;
use crate::gear::BowKind;
use crate::question::SetupItem;
use crate::session::Timeline;

/// Draw weight on a scale and on the card agree within this, pounds (common
/// practice, no source).
pub(crate) const WEIGHT_AGREES_LB: f64 = 2.0;
/// Draw length measured and on the card agree within this, inches (common
/// practice, no source).
pub(crate) const DRAW_AGREES_IN: f64 = 0.25;
/// The arrow on a scale and the sum of its parts on the card agree within
/// this, grains (common practice, no source).
pub(crate) const MASS_AGREES_GR: f64 = 5.0;

/// What forbids the shot with the figures that were measured.
pub(super) fn danger(timeline: &Timeline, bare: bool) -> Option<Danger> {
    let a_turn = match timeline.card.bow.kind {
        BowKind::Compound => MOST_LB_A_TURN,
        _ => 0.0,
    };
    let (card, what) = build_at_most(timeline, a_turn)?;
    let then = build_dangers(&card, bare).into_iter().next()?;
    Some(Danger::AsMeasured {
        what,
        then: Box::new(then),
    })
}

/// What was measured and is worse for safety than the card says, by more than
/// two readings of one thing differ.
pub(super) fn differs(timeline: &Timeline) -> Vec<SetupItem> {
    let card = &timeline.card;
    let weight = timeline
        .weight_read()
        .is_some_and(|(f, _)| f.pounds() > card.bow.peak_weight.pounds() + WEIGHT_AGREES_LB + 1e-6);
    let draw = timeline
        .draw_read()
        .is_some_and(|l| l.inches() > card.bow.draw_length.inches() + DRAW_AGREES_IN + 1e-6);
    let mass = timeline
        .arrow_read()
        .is_some_and(|m| m.grains() < card.arrow.total_mass().grains() - MASS_AGREES_GR - 1e-6);
    let all = [
        (SetupItem::DrawWeight, weight),
        (SetupItem::DrawLength, draw),
        (SetupItem::ArrowMass, mass),
    ];
    let differing = all.into_iter().filter(|(_, differs)| *differs);
    differing.map(|(item, _)| item).collect()
}

#[cfg(test)]
mod tests {
    use super::super::tests::{bolts, set, timeline_of};
    use super::super::{Waiting, dangers, waiting};
    use super::*;
    use crate::checks::Unit;
    use crate::session::Event;

    fn measured(item: &str, value: &str, result: &str) -> Event {
        Event::Setup {
            item: item.into(),
            value: Some(value.into()),
            result: result.into(),
        }
    }

    /// 402.5 gr on 60 lb weighed, 29 in of shaft at a 29 in draw, either hand.
    fn after(events: &[Event]) -> Vec<Timeline> {
        let of = |hand| {
            let card = [
                ("bow.hand", hand),
                ("bow.weighed", "true"),
                ("arrow.spine", "0.300"),
            ];
            timeline_of(&card, events.to_vec())
        };
        ["right", "left"].map(of).to_vec()
    }

    fn codes(events: &[Event]) -> Vec<&'static str> {
        let both: Vec<Vec<&str>> = after(events)
            .iter()
            .map(|t| dangers(t).iter().map(|d| d.refusal().code()).collect())
            .collect();
        assert_eq!(both[0], both[1]);
        both[0].clone()
    }

    fn waits(events: &[Event]) -> bool {
        let waits = |t: &Timeline| {
            waiting(t)
                .iter()
                .any(|w| matches!(w, Waiting::CardDiffers(_)))
        };
        let both: Vec<bool> = after(events).iter().map(waits).collect();
        assert_eq!(both[0], both[1]);
        both[0]
    }

    /// 402.5 gr are 5 gr/lb at 80.5 lb.
    #[test]
    fn a_scale_that_reads_more_than_the_card_is_believed() {
        let read = |pounds: &str| measured("draw-weight", pounds, "off");
        assert_eq!(codes(&[read("80.5 lb")]), [] as [&str; 0]);
        assert_eq!(codes(&[read("80.6 lb")]), ["arrow-too-light"]);
        let t = &after(&[read("90 lb")])[0];
        let figure = dangers(t)[0].figure().unwrap();
        assert!((figure.value - 402.5).abs() < 1e-6 && (figure.limit - 450.0).abs() < 1e-3);
        assert_eq!(figure.unit, Unit::Gr);
        // Less than the card says lets nothing lighter be shot.
        assert_eq!(
            codes(&[read("40 lb"), set(&[("arrow.point_mass", "20 gr")])]),
            ["arrow-too-light"]
        );
        // Within 2 lb is one weight; more waits for the card.
        assert!(!waits(&[read("62 lb")]) && waits(&[read("62.1 lb")]));
        // What is entered on the card later is the later word, and so is another reading.
        assert_eq!(codes(&[read("90 lb"), read("61 lb")]), [] as [&str; 0]);
        let entered = set(&[("bow.peak_weight", "66 lb"), ("bow.weighed", "true")]);
        assert_eq!(codes(&[read("90 lb"), entered.clone()]), [] as [&str; 0]);
        assert_eq!(codes(&[entered, read("90 lb")]), ["arrow-too-light"]);
        let undone = Event::Undo { target: 1 };
        assert_eq!(codes(&[read("90 lb"), undone]), [] as [&str; 0]);
        // Said to be off, without a figure: nothing is known to be worse.
        let off = Event::Setup {
            item: "draw-weight".into(),
            value: None,
            result: "off".into(),
        };
        let off = [off];
        assert!(codes(&off).is_empty() && !waits(&off));
    }

    /// 76.4 lb and a turn in are 80.4 lb at most, 76.6 lb are 80.6.
    #[test]
    fn turns_in_come_on_top_of_what_the_scale_read() {
        let read = |pounds: &str| measured("draw-weight", pounds, "off");
        assert_eq!(codes(&[read("76.4 lb"), bolts(1.0)]), [] as [&str; 0]);
        assert_eq!(codes(&[read("76.6 lb"), bolts(1.0)]), ["arrow-too-light"]);
        // Read after the turn, it has the turn in it; a turn out is no drop.
        assert_eq!(codes(&[bolts(1.0), read("76.6 lb")]), [] as [&str; 0]);
        assert_eq!(codes(&[read("80.6 lb"), bolts(-2.0)]), ["arrow-too-light"]);
    }

    /// The shaft of 29 in reaches 0.5 in past the rest at a draw of 30.25 in.
    #[test]
    fn a_longer_draw_than_the_cards_is_believed() {
        let read = |inches: &str| measured("draw-length", inches, "off");
        assert_eq!(codes(&[read("30.25 in")]), [] as [&str; 0]);
        assert_eq!(codes(&[read("30.26 in")]), ["arrow-too-short"]);
        assert!(!waits(&[read("29.25 in")]) && waits(&[read("29.26 in")]));
        let shorter = [read("26 in"), set(&[("arrow.shaft_length", "27.7 in")])];
        assert_eq!(codes(&shorter), ["arrow-too-short"]);
        let entered = set(&[("bow.draw_length", "29 in")]);
        assert_eq!(codes(&[read("31 in"), entered]), [] as [&str; 0]);
    }

    /// Its parts are 402.5 gr; 300 gr is what 60 lb ask for.
    #[test]
    fn a_lighter_arrow_than_the_sum_of_its_parts_is_believed() {
        let read = |grains: &str| measured("arrow-mass", grains, "off");
        assert_eq!(codes(&[read("300 gr")]), [] as [&str; 0]);
        assert_eq!(codes(&[read("299.9 gr")]), ["arrow-too-light"]);
        assert!(!waits(&[read("397.5 gr")]) && waits(&[read("397.4 gr")]));
        // 105 gr less than its parts, with a heavier point on trial, is 297.5.
        let other = set(&[("arrow.point_mass", "120 gr")]);
        assert!(codes(&[read("299 gr"), other]).is_empty(), "another arrow");
        // Far more is missing than its point weighs: 402.5 gr with 125 of point,
        // 340 gr with a point of 62.5 entered, 270 gr on the scale.
        let light_point = set(&[("arrow.point_mass", "62.5 gr")]);
        let t = &after(&[light_point, read("270 gr")])[0];
        assert!((dangers(t)[0].figure().unwrap().value - 270.0).abs() < 1e-6);
        // A card corrected does not make the arrow on the scale heavier.
        let corrected = Event::Card {
            set: std::collections::BTreeMap::from([("arrow.point_mass".into(), "130 gr".into())]),
            taken: Some(crate::question::Taken::Corrected.into()),
        };
        assert_eq!(codes(&[read("299 gr"), corrected]), ["arrow-too-light"]);
    }
}
