//! The steps after a refusal for the arrow's spine: is the card right, what
//! does the arrow maker's chart say, and what would bring arrow and bow
//! together.

use super::node::Node;
use super::offers::{cut_wants_a_mark, offers_now};
use crate::checks::spine::{assess, stops};
use crate::gear::CHART_EXAMPLE;
use crate::question::{Answer, Test};
use crate::session::Timeline;

/// The arrow that is shot against the card.
pub(super) fn arrow_as_card() -> Node {
    Node::test(
        Test::ArrowAsCard,
        "One arrow against the card: nock throat to shaft end, point with insert on a scale, the spine printed on the shaft (and whether its maker means 28 in and 1.94 lb).",
    )
    .next(Answer::Same, "the card's arrow is right")
    .fix(
        Answer::Different,
        "the spine check was worked out from a wrong arrow",
        "correct the arrow on the card",
    )
}

/// The arrow maker's chart, which alone lifts the stop of a far too weak arrow.
pub(super) fn chart() -> Node {
    Node::test(
        Test::MakerChart,
        "Look up the arrow maker's chart for this draw weight, shaft length and point: does it give this shaft?",
    )
    .next(Answer::No, "the arrow is not shot")
    .fix(
        Answer::Yes,
        "it does",
        format!("put the weakest spine it gives on the card, with what it was read for: arrow.maker_chart = \"{CHART_EXAMPLE}\""),
    )
}

/// What would bring arrow and bow together, sized: which was done?
pub(super) fn choose(timeline: &Timeline) -> Node {
    let card = &timeline.card;
    let (weak, stopped) = (assess(timeline).weak(), stops(card));
    let found = offers_now(timeline);
    let side = if weak { "stiffer" } else { "weaker" };
    let wants_mark = if !stopped && cut_wants_a_mark(card) {
        " Cutting is left out: the card holds no full draw mark."
    } else {
        ""
    };
    let asks = if stopped {
        "These cure it without a test shot. Which was done?".to_owned()
    } else {
        format!(
            "What makes the arrow act {side}, cheap and reversible first. Which was done?{wants_mark}"
        )
    };
    let mut node = Node::question(Test::SpineRemedy, asks).next(Answer::None, "none of these");
    for offer in &found {
        let how = match &offer.card {
            Some((key, value)) => format!(
                "{}; then put it on the card: {key} = \"{value}\" (the figure really made). The spine check is worked out again",
                offer.title
            ),
            None => format!(
                "{}, then shoot 3 and look at the spine check again",
                offer.title
            ),
        };
        let reach = match (offer.reaches, offer.with) {
            (Some(true), None) => ": brings it within the limits",
            (Some(true), Some(_)) => ": both bring it within the limits",
            (Some(false), _) => ": helps, not enough alone",
            (None, _) => "",
        };
        node = node.fix(offer.id, format!("{}{reach}", offer.title), how);
    }
    node.offers = found;
    node
}
