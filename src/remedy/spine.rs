//! The path after a refusal for the arrow's spine: is the card right, what
//! does the arrow maker's chart say, and what would bring arrow and bow
//! together.

use super::node::{Node, Path, Then};
use super::offers::{Offer, cut_wants_a_mark, offers_now};
use crate::cautions;
use crate::checks::spine::{assess, stops};
use crate::gear::{CHART_EXAMPLE, Card};
use crate::question::{Answer, Test};
use crate::session::Timeline;

pub(super) fn path(timeline: &Timeline) -> Path {
    let card = &timeline.card;
    let report = assess(timeline);
    let stopped = stops(card);
    let mut weigh = Node::test(
        Test::WeighBow,
        "Before believing this, weigh the bow on a scale at this archer's draw: labels can be out by 7 lb.",
    )
    .careful(cautions::WEIGHING)
    .next(Answer::AsCard, "the card's weight is right; it goes on the card as weighed")
    .fix(Answer::Different, "the match was worked out from a wrong weight", "put the scale's figure on the card: peak weight, and weighed. The match is then worked out again");
    weigh.done = card.bow.weighed && !timeline.weight_unknown();
    let mut nodes = vec![weigh];
    nodes.push(
        Node::test(
            Test::ArrowAsCard,
            "One arrow against the card: nock throat to shaft end, point with insert on a scale, the spine printed on the shaft (and whether its maker means 28 in and 1.94 lb).",
        )
        .next(Answer::Same, "the card's arrow is right")
        .fix(Answer::Different, "the match was worked out from a wrong arrow", "correct the arrow on the card"),
    );
    if stopped {
        nodes.push(chart());
    }
    nodes.push(choose(card, offers_now(timeline), report.weak(), stopped));
    let words = if stopped {
        "stiffer shafts, or another bow. These arrows are not shot on this bow, not even as a test, and the owner is told so. This cannot be waived"
    } else if card.arrow.only_these {
        "with only these arrows: your own moves can be recorded; three good shots in a row within tolerance by the owner lift this, as long as later shots bear it out; or close as best with these arrows, not matched"
    } else {
        "other shafts. Until then no rest move is advised; your own can be recorded"
    };
    Path {
        nodes,
        end: Then::Fix(words.into()),
    }
}

fn chart() -> Node {
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

fn choose(card: &Card, found: Vec<Offer>, weak: bool, stopped: bool) -> Node {
    let side = if weak { "stiffer" } else { "weaker" };
    let wants_mark = if !stopped && cut_wants_a_mark(card) {
        " Cutting is left out: the card holds no full draw mark."
    } else {
        ""
    };
    let asks = if stopped {
        "What cures it without a test shot. Which was done?".to_owned()
    } else {
        format!(
            "What makes the arrow act {side}, cheap and reversible first. Which was done?{wants_mark}"
        )
    };
    let mut node = Node::question(Test::SpineRemedy, asks).next(Answer::None, "none of these");
    for offer in &found {
        let how = match &offer.card {
            Some((key, value)) => format!(
                "{}; then put it on the card: {key} = \"{value}\" (the figure really made). The match is worked out again",
                offer.title
            ),
            None => format!("{}, then shoot 3 and look at the match again", offer.title),
        };
        let reach = match (offer.reaches, offer.with) {
            (Some(true), None) => ": brings it inside",
            (Some(true), Some(_)) => ": both bring it inside",
            (Some(false), _) => ": helps, not enough alone",
            (None, _) => "",
        };
        node = node.fix(offer.id, format!("{}{reach}", offer.title), how);
    }
    node.offers = found;
    node
}
