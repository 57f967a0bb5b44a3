//! Every step of a path, once: what it asks for, its answers and what each
//! leads to. Their order is that of [`next_steps`], which the advice names as
//! well.

use super::Ask;
use super::node::Node;
use super::offers::{cut_wants_a_mark, offers_now};
use super::says::Asked;
use crate::cautions::Caution;
use crate::checks::next_steps;
use crate::checks::spine::{assess, stops};
use crate::gear::AdjusterKind;
use crate::question::{Answer, Refusal, SetupItem, Test};
use crate::restore::to_the_start;
use crate::session::Timeline;
use crate::setup;

/// The steps of a path, in their order.
pub(super) fn nodes(timeline: &Timeline, refusal: Refusal) -> Vec<Node> {
    let steps = next_steps::steps(timeline, refusal).into_iter();
    steps
        .map(|test| {
            let mut node = node(timeline, refusal, test);
            node.done = next_steps::is_done(timeline, test);
            node
        })
        .collect()
}

fn question(reason: Refusal, test: Test) -> Node {
    Node::new(reason, test, Ask::Question, Asked::Test(test))
}

fn test(reason: Refusal, test: Test) -> Node {
    Node::new(reason, test, Ask::Test, Asked::Test(test))
}

/// A test that stands on the list before paper, and is described there.
fn listed(timeline: &Timeline, reason: Refusal, of: Test, item: SetupItem) -> Node {
    let Some(found) = setup::item(&timeline.card, item) else {
        return test(reason, of);
    };
    Node::new(reason, of, Ask::Test, Asked::OnTheList(of, item)).careful(found.caution)
}

fn node(timeline: &Timeline, refusal: Refusal, of: Test) -> Node {
    use Answer::{
        Apart, AsCard, Better, Cable, Changes, Different, Done, Leans, Loose, More, No, NoScale,
        Nothing, Other, Rest, Right, Same, Some, Steady, Tight, Tighter, Together, True, Twisted,
        Upright, Weighed, Wrong, Yes,
    };
    let on_the_list = |item| listed(timeline, refusal, of, item);
    let (question, test) = (|of| question(refusal, of), |of| test(refusal, of));
    match of {
        Test::PutBack => {
            let mut node = Node::new(refusal, of, Ask::Action, Asked::Test(of)).next(Done);
            node.step.put_back = Option::Some(to_the_start(timeline));
            node
        }
        Test::Contact => on_the_list(SetupItem::Clearance)
            .shots(1)
            .next(Answer::None)
            .fix(Rest)
            .fix(Cable)
            .fix(Other),
        // The cheapest reason for a rest that does nothing: it does not move.
        Test::RestMoves => test(of).next(Yes).fix(Loose),
        Test::Torque => test(of).shots(3).next(Same).resume(Changes),
        Test::Timing => on_the_list(SetupItem::CamTiming).next(Together).fix(Apart),
        Test::WallHold => test(of)
            .careful(Caution::HardWall)
            .shots(4)
            .next(Same)
            .fix(Changes),
        Test::Lean => on_the_list(SetupItem::CamLean).next(Upright).fix(Leans),
        Test::OtherArrow => test(of).shots(3).next(Same).fix(Different),
        Test::LimbsTrue => test(of).next(True).fix(Twisted),
        Test::RestTiming => on_the_list(SetupItem::RestTiming).next(Right).fix(Wrong),
        Test::Loose => test(of).next(Tight).fix(Loose),
        Test::OneSide => question(of).next(Yes).resume(No),
        // What one marked arrow shows depends on what is asked, the test not.
        Test::OneArrow => {
            let found = match refusal {
                Refusal::Jumps => Steady,
                _ => Better,
            };
            test(of).shots(3).next(Same).fix(found)
        }
        Test::BadShots => question(of).next(Answer::None).resume(Some),
        Test::Tired => question(of).shots(3).next(Same).resume(Better),
        Test::SecondShooter => test(of).shots(3).next(Same).resume(Tighter),
        Test::RightArrow => question(of).next(Yes).fix(No),
        Test::DrawLength => on_the_list(SetupItem::DrawLength).next(Right).fix(Wrong),
        Test::DrawWeight => on_the_list(SetupItem::DrawWeight).next(Right).fix(Wrong),
        Test::NockingPoint => on_the_list(SetupItem::NockingPoint).next(Right).fix(Wrong),
        Test::CardComplete => card_complete(timeline, refusal).next(Nothing).fix(More),
        Test::OtherPoint => test(of).shots(3).resume(Better).next(Same),
        Test::WeightsRight => test(of).careful(Caution::Weighing).next(Right).fix(Wrong),
        Test::LengthsRight | Test::LimitRight => test(of).next(Right).fix(Wrong),
        // Before a spine check is believed, and before the bow is shot once
        // its limb bolts were moved.
        Test::WeighBow => {
            let node = on_the_list(SetupItem::DrawWeight);
            match refusal {
                Refusal::WeighFirst => node.next(NoScale).fix(Weighed),
                _ => node.next(AsCard).fix(Different),
            }
        }
        Test::ArrowAsCard => test(of).next(Same).fix(Different),
        // The chart alone lifts the stop of a far too weak arrow.
        Test::MakerChart => test(of).next(No).fix(Yes),
        Test::SpineRemedy => choose(timeline, refusal),
        // Asked by the advice itself, in no path.
        Test::Hand | Test::Arrow | Test::Levels => question(of),
    }
}

fn card_complete(timeline: &Timeline, reason: Refusal) -> Node {
    let card = &timeline.card;
    let asked = Asked::CardComplete {
        has: card.adjusters.iter().map(|a| a.kind).collect(),
        brace: !card.needs_press(AdjusterKind::BraceHeight),
    };
    Node::new(reason, Test::CardComplete, Ask::Question, asked)
}

/// What would bring arrow and bow together, sized: which was done?
fn choose(timeline: &Timeline, reason: Refusal) -> Node {
    let card = &timeline.card;
    let stopped = stops(card);
    let asked = Asked::Offers {
        weak: assess(timeline).weak(),
        stopped,
        wants_mark: !stopped && cut_wants_a_mark(card),
    };
    let found = offers_now(timeline);
    let node = Node::new(reason, Test::SpineRemedy, Ask::Question, asked).next(Answer::None);
    let mut node = found.iter().fold(node, |node, offer| node.fix(offer.id));
    node.step.offers = found;
    node
}
