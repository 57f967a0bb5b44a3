//! Every step of a path, described once. Their order is that of
//! [`next_steps`], which the advice names as well.

use super::node::Node;
use super::{Ask, spine};
use crate::cautions::Caution;
use crate::checks::next_steps;
use crate::gear::{AdjusterKind, Release};
use crate::question::{Answer, Contact, Refusal, SetupItem, Test};
use crate::restore::to_the_start;
use crate::session::Timeline;
use crate::setup;
use crate::words;

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

fn node(timeline: &Timeline, refusal: Refusal, test: Test) -> Node {
    match test {
        Test::PutBack => back_to_the_start(timeline),
        Test::Contact => powder(timeline),
        Test::RestMoves => rest_moves(),
        Test::Torque => torque(timeline),
        Test::Timing => timing(timeline),
        Test::WallHold => wall_hold(),
        Test::Lean => lean(timeline),
        Test::OtherArrow => other_arrow(),
        Test::LimbsTrue => limbs_true(),
        Test::RestTiming => rest_timing(timeline),
        Test::Loose => loose(),
        Test::OneSide => one_side(),
        Test::OneArrow => one_arrow(refusal),
        Test::BadShots => bad_shots(),
        Test::Tired => tired(),
        Test::SecondShooter => second_shooter(),
        Test::RightArrow => right_arrow(),
        Test::DrawLength => draw_length(timeline),
        Test::DrawWeight => draw_weight(timeline),
        Test::NockingPoint => nocking_point(timeline),
        Test::CardComplete => card_complete(timeline),
        Test::OtherPoint => other_point(),
        Test::WeightsRight => weights_right(),
        Test::LengthsRight => lengths_right(),
        Test::LimitRight => limit_right(),
        Test::WeighBow => weigh_bow(timeline, refusal),
        Test::ArrowAsCard => spine::arrow_as_card(),
        Test::MakerChart => spine::chart(),
        Test::SpineRemedy => spine::choose(timeline),
        // Asked by the advice itself, in no path.
        Test::Hand | Test::Arrow | Test::Levels => Node::question(test, words::brief(test)),
    }
}

/// Back to the start, with the exact moves.
fn back_to_the_start(timeline: &Timeline) -> Node {
    let mut node = Node::new(
        Test::PutBack,
        Ask::Action,
        "Put everything back to the start: a rest that went far makes up for something else.",
    )
    .next(Answer::Done, "back at the start, recorded as a move");
    node.put_back = Some(to_the_start(timeline));
    node
}

/// A test that stands on the list before paper, described there: how it is
/// done, its caution before it, and what is asked of it here.
fn as_on_the_list(timeline: &Timeline, test: Test, item: SetupItem, asks: &str) -> Node {
    let Some(found) = setup::item(&timeline.card, item) else {
        return Node::test(test, asks);
    };
    let node = Node::test(test, format!("{}: {} {asks}", found.title, found.how));
    match found.caution {
        Some(caution) => node.careful(caution),
        None => node,
    }
}

fn powder(timeline: &Timeline) -> Node {
    let cure = |found| format!("{}; then the powder test again", words::cure(found));
    let node = as_on_the_list(
        timeline,
        Test::Contact,
        SetupItem::Clearance,
        "What was wiped?",
    );
    node.shots(1)
        .next(Answer::None, "nothing but the rest's own track")
        .fix(
            Answer::Rest,
            "the vanes or shaft hit the rest",
            cure(Contact::Rest),
        )
        .fix(
            Answer::Cable,
            "the vanes hit a cable or its guard",
            cure(Contact::Cable),
        )
        .fix(
            Answer::Other,
            "it hits the riser, shelf or clothing",
            cure(Contact::Other),
        )
}

/// The cheapest reason for a rest that does nothing: it does not move.
fn rest_moves() -> Node {
    Node::test(
        Test::RestMoves,
        "Does the rest itself move when its screw is turned, and stay where it was set? Calipers riser to shaft before and after, lock screw tight, then push it by hand; look at the witness marks.",
    )
    .next(Answer::Yes, "it goes as far as it was turned, and stays")
    .fix(
        Answer::Loose,
        "it is loose, slips, or does not follow the screw",
        "tighten its mount and lock screw, put it back on its marks, note it",
    )
}

fn torque(timeline: &Timeline) -> Node {
    let hint = match timeline.card.bow.release {
        Release::Aid => {
            "relaxed open bow hand, no twist in the loop, no face pressure on the string"
        }
        Release::Fingers => "relaxed open bow hand, string hand straight behind, tab clean off",
    };
    Node::test(Test::Torque, format!("Shoot 3 with extra care: {hint}."))
        .shots(3)
        .next(Answer::Same, "the hand is not it")
        .resume(
            Answer::Changes,
            "the hand moves the tear: settle the grip first, the rest was not to blame",
        )
}

fn timing(timeline: &Timeline) -> Node {
    let asks = "Both within 1/16 in?";
    as_on_the_list(timeline, Test::Timing, SetupItem::CamTiming, asks)
        .next(Answer::Together, "timing is not it")
        .fix(
            Answer::Apart,
            "a badly timed bow cannot be papered out",
            "set the timing (press, trained hands), then measure again what press work changes",
        )
}

fn wall_hold() -> Node {
    Node::test(
        Test::WallHold,
        "Shoot 2 held at the wall as always and 2 pulled hard into it, same aim. Does the tail go high or low with it?",
    )
    .careful(Caution::HardWall)
    .shots(4)
    .next(Answer::Same, "how hard the wall is held is not it")
    .fix(
        Answer::Changes,
        "the tear comes and goes with the hold: cam timing or a draw stop",
        "draw board: both cams to their stops together (press, trained hands), then measure again what press work changes. The creep stage after paper shows it at distance",
    )
}

fn lean(timeline: &Timeline) -> Node {
    let asks = "Upright? And the cable guard's load as its maker has it?";
    as_on_the_list(timeline, Test::Lean, SetupItem::CamLean, asks)
        .next(Answer::Upright, "lean is not it")
        .fix(Answer::Leans, "the string's plane is off the arrow's", "yoke: add twists to one leg and take out the same on the other; or shims (press, trained hands). On many newer bows this cures what the rest cannot")
}

fn other_arrow() -> Node {
    Node::test(
        Test::OtherArrow,
        "Shoot 3 with another arrow known to suit this bow, or one a shaft group stiffer or weaker.",
    )
    .shots(3)
    .next(Answer::Same, "the arrow is not it")
    .fix(
        Answer::Different,
        "the arrow is the cause",
        "weigh the bow, look at the arrow's spine; put the other arrow on the card",
    )
}

fn limbs_true() -> Node {
    Node::test(
        Test::LimbsTrue,
        "Sight along the string from behind: does it split both limbs and the riser? Limbs untwisted, seated, tiller as it should be?",
    )
    .next(Answer::True, "the bow stands straight")
    .fix(
        Answer::Twisted,
        "a limb or its seat is out of line",
        "align the limb pockets, or back to the maker for a twisted limb",
    )
}

fn rest_timing(timeline: &Timeline) -> Node {
    let asks = "Is it so?";
    as_on_the_list(timeline, Test::RestTiming, SetupItem::RestTiming, asks)
        .next(Answer::Right, "the rest works as it should")
        .fix(
            Answer::Wrong,
            "late or early, it touches the vanes or lets the arrow sag",
            "move the cord, then the powder test",
        )
}

fn loose() -> Node {
    Node::test(
        Test::Loose,
        "Try by hand: limb bolts, rest and its screws, sight, stabiliser, loop and nocking point, nocks in the shafts, inserts, points.",
    )
    .next(Answer::Tight, "nothing moves")
    .fix(
        Answer::Loose,
        "a part moves from shot to shot",
        "tighten it, put the rest back on its marks, note it",
    )
}

fn one_side() -> Node {
    Node::question(
        Test::OneSide,
        "Was each setting approached from the same side, with the play in the screw taken up, and the lock screw tightened after?",
    )
    .next(Answer::Yes, "play is not it")
    .resume(
        Answer::No,
        "set it again from one side and lock it; enter a calipers reading as the move (rest at 20.6 mm)",
    )
}

/// One marked arrow: what it shows depends on what is asked, the test not.
fn one_arrow(refusal: Refusal) -> Node {
    let (same, found) = match refusal {
        Refusal::Jumps => ("one arrow jumps as well", Answer::Steady),
        _ => ("one arrow scatters as much", Answer::Better),
    };
    Node::test(
        Test::OneArrow,
        "Shoot one marked arrow 3 times, at the same setting, and record it with its number.",
    )
    .shots(3)
    .next(Answer::Same, same)
    .fix(
        found,
        "the arrows differ among themselves",
        "sort them: weigh, spin, flex, nock fit, turn the nocks; set the odd one aside and tune with arrows that agree",
    )
}

fn bad_shots() -> Node {
    Node::question(
        Test::BadShots,
        "Were any of these shots bad ones, felt before looking at the hole (grip, release, a punch)? Judge the shot before walking to the paper.",
    )
    .next(Answer::None, "all as usual")
    .resume(
        Answer::Some,
        "undo those entries and record them as called bad; then shoot on",
    )
}

fn tired() -> Node {
    Node::question(
        Test::Tired,
        "Is the archer tired, cold or rushed? Put the bow down for ten minutes, then shoot 3.",
    )
    .shots(3)
    .next(Answer::Same, "the scatter stays")
    .resume(
        Answer::Better,
        "it was the archer's day: go on, with a rest after 30 shots at most (juniors 15)",
    )
}

fn second_shooter() -> Node {
    Node::test(
        Test::SecondShooter,
        "Let the technician (same hand, about the same draw) or a machine shoot 3, recorded as theirs. Tune for the owner's hand, not theirs.",
    )
    .shots(3)
    .next(Answer::Same, "the bow scatters whoever shoots: equipment")
    .resume(Answer::Tighter, "the bow is sound; the owner's grip or face pressure moves the tear. Relaxed open hand, then more shots; or a tolerance this archer can show")
}

fn right_arrow() -> Node {
    Node::question(
        Test::RightArrow,
        "Is this the arrow that is on the card: shaft, length, point, nock seated?",
    )
    .next(Answer::Yes, "the right arrow")
    .fix(
        Answer::No,
        "another arrow was shot",
        "shoot the arrow on the card, or put the one shot on the card",
    )
}

fn draw_length(timeline: &Timeline) -> Node {
    let asks = "As on the card, within 1/4 in?";
    as_on_the_list(timeline, Test::DrawLength, SetupItem::DrawLength, asks)
        .next(Answer::Right, "draw length is not it")
        .fix(
            Answer::Wrong,
            "draw length is off",
            "set it, or put the true figure on the card",
        )
}

/// The bow on a scale, for whatever reason: labels can be out by 7 lb.
fn weighed(timeline: &Timeline, test: Test, asks: &str) -> Node {
    let asks = format!("Labels can be out by 7 lb. {asks}");
    as_on_the_list(timeline, test, SetupItem::DrawWeight, &asks)
}

fn draw_weight(timeline: &Timeline) -> Node {
    weighed(timeline, Test::DrawWeight, "As on the card, within 2 lb?")
        .next(Answer::Right, "draw weight is not it")
        .fix(
            Answer::Wrong,
            "the arrow's spine was worked out from a wrong weight",
            "put the scale's figure on the card: peak weight, and that it was weighed",
        )
}

/// Before a spine check is believed, and before the bow is shot once its limb
/// bolts were moved.
fn weigh_bow(timeline: &Timeline, refusal: Refusal) -> Node {
    if refusal == Refusal::WeighFirst {
        return weighed(timeline, Test::WeighBow, "What is there?")
            .next(Answer::NoScale, "there is no scale here")
            .fix(
                Answer::Weighed,
                "it was weighed",
                "put its weight on the card: peak weight, and that it was read off a scale",
            );
    }
    weighed(timeline, Test::WeighBow, "Do this before believing the spine check.")
        .next(
            Answer::AsCard,
            "the card's weight is right; it goes on the card as weighed",
        )
        .fix(
            Answer::Different,
            "the spine check was worked out from a wrong weight",
            "put the scale's figure on the card: peak weight, and weighed. The spine check is then worked out again",
        )
}

fn nocking_point(timeline: &Timeline) -> Node {
    let asks = "In its starting band, and does the nock let go of the string at a tap?";
    as_on_the_list(timeline, Test::NockingPoint, SetupItem::NockingPoint, asks)
        .next(Answer::Right, "where it should be, nock lets go at a tap")
        .fix(
            Answer::Wrong,
            "the nocking point or nock is off",
            "set it in its starting band, fit other nocks, then shoot again",
        )
}

fn card_complete(timeline: &Timeline) -> Node {
    let card = &timeline.card;
    let has: Vec<String> = card.adjusters.iter().map(|a| a.kind.spoken()).collect();
    let such_as = if card.needs_press(AdjusterKind::BraceHeight) {
        "rest, nocking point, plunger"
    } else {
        "rest, nocking point, plunger, brace height"
    };
    let has = if has.is_empty() {
        "nothing".into()
    } else {
        has.join(", ")
    };
    Node::question(
        Test::CardComplete,
        format!("The card says this bow has: {has}. Is there anything else that can be moved and measured ({such_as})?"),
    )
    .next(Answer::Nothing, "the card is complete")
    .fix(
        Answer::More,
        "there is",
        "put it on the card, at its end under the adjusters, then go on",
    )
}

fn other_point() -> Node {
    Node::test(
        Test::OtherPoint,
        "What such a bow has instead is the arrow: shoot 3 with a point 25 gr lighter or heavier, above the safety floor.",
    )
    .shots(3)
    .resume(Answer::Better, "put that point on the card and go on")
    .next(Answer::Same, "the point is not it")
}

fn weights_right() -> Node {
    Node::test(
        Test::WeightsRight,
        "Weigh the bow and one finished arrow: are both as on the card?",
    )
    .careful(Caution::Weighing)
    .next(Answer::Right, "the card is right")
    .fix(
        Answer::Wrong,
        "the card is wrong",
        "put the scales' figures on the card",
    )
}

fn lengths_right() -> Node {
    Node::test(
        Test::LengthsRight,
        "Shaft length (nock throat to shaft end), draw length, and where the rest stands: as on the card?",
    )
    .next(Answer::Right, "the card is right")
    .fix(
        Answer::Wrong,
        "the card is wrong",
        "correct shaft length, draw length or rest contact ahead on the card",
    )
}

fn limit_right() -> Node {
    Node::test(
        Test::LimitRight,
        "Turns out from fully seated, and the maker's greatest turns and weight: as on the card and the list?",
    )
    .next(Answer::Right, "they are right")
    .fix(
        Answer::Wrong,
        "a figure is wrong",
        "correct it: the maker's figures on the card, the turns on the list before paper",
    )
}
