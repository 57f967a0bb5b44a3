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
    // Which part is lighter than entered nobody knows: the load is that of the
    // parts on the card.
    let mut as_entered = card.clone();
    as_entered.arrow = timeline.card.arrow.clone();
    let weak = |d: &Danger| matches!(d, Danger::FarTooWeak { .. });
    let mut found = build_dangers(&card, bare).into_iter();
    let then = found
        .find(|d| !weak(d))
        .or_else(|| crate::checks::spine::danger(&as_entered, bare))?;
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
    let differing = all
        .into_iter()
        .filter(|(item, differs)| *differs || timeline.said_off(*item));
    differing.map(|(item, _)| item).collect()
}

#[cfg(test)]
mod tests {
    use super::super::tests::{bolts, set, timeline_of};
    use super::super::{Waiting, dangers, waiting};
    use super::*;
    use crate::checks::Unit;
    use crate::gear::Unconfirmed;
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
        // Said to be off, without a figure: the card's is not it, and no more
        // is known.
        let off = Event::Setup {
            item: "draw-weight".into(),
            value: None,
            result: "off".into(),
        };
        let off = [off];
        assert!(codes(&off).is_empty() && waits(&off));
        let entered = set(&[("bow.peak_weight", "60 lb")]);
        assert!(!waits(&[off[0].clone(), entered]));
        assert!(!waits(&[off[0].clone(), read("60 lb")]));
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
        // Of the load a scale says nothing: matched to a hair's breadth of the
        // stop load (1.5985 by its parts), it stays there.
        let card = [("arrow.spine", "0.6029"), ("bow.weighed", "true")];
        let t = timeline_of(&card, vec![read("320 gr")]);
        assert!(dangers(&t).is_empty(), "{:?}", dangers(&t));
        // A card corrected does not make the arrow on the scale heavier.
        let corrected = Event::Card {
            set: std::collections::BTreeMap::from([("arrow.point_mass".into(), "130 gr".into())]),
            taken: Some(crate::question::Taken::Corrected.into()),
        };
        assert_eq!(codes(&[read("299 gr"), corrected]), ["arrow-too-light"]);
    }

    /// A recurve's weight is the scale's at this archer's draw.
    #[test]
    fn a_longer_draw_on_the_card_asks_for_the_weight_of_a_bow_without_a_wall() {
        let recurve = [
            ("bow.kind", "recurve"),
            ("bow.release", "fingers"),
            ("rest.kind", "plunger"),
            ("bow.let_off", ""),
            ("bow.peak_weight", "40 lb"),
            ("bow.draw_length", "28 in"),
        ];
        let compound = [("bow.peak_weight", "60 lb"), ("bow.draw_length", "28 in")];
        let asks = |card: &[(&str, &str)], change: Event| {
            let both = ["right", "left"].map(|hand| {
                let card = [card, &[("bow.hand", hand)]].concat();
                let t = timeline_of(&card, vec![change.clone()]);
                let weight = |w: &Waiting| {
                    matches!(w, Waiting::Unconfirmed(all) if all == &[Unconfirmed::DrawWeight])
                };
                waiting(&t).iter().any(weight)
            });
            assert_eq!(both[0], both[1]);
            both[0]
        };
        let draw = |inches: &str| set(&[("bow.draw_length", inches)]);
        assert!(!asks(&recurve, draw("28.25 in")) && asks(&recurve, draw("28.26 in")));
        assert!(!asks(&recurve, draw("27 in")) && !asks(&compound, draw("30 in")));
        let both = set(&[("bow.draw_length", "29 in"), ("bow.peak_weight", "43 lb")]);
        assert!(!asks(&recurve, both));
        let corrected = Event::Card {
            set: std::collections::BTreeMap::from([("bow.draw_length".into(), "29 in".into())]),
            taken: Some(crate::question::Taken::Corrected.into()),
        };
        assert!(!asks(&recurve, corrected));
        let card = [&recurve[..], &[("bow.hand", "left")]].concat();
        let weighed = set(&[("bow.peak_weight", "43 lb")]);
        assert!(waiting(&timeline_of(&card, vec![draw("29 in"), weighed])).is_empty());
    }
}
