//! Paths for a rest that does nothing, jumps, went far, and their kin, in
//! the order shops clear them (trade notes: put back first, then contact,
//! torque, timing, lean, spine).

use super::Ask;
use super::node::{Node, Path, Then};
use crate::cautions;
use crate::checks::safety;
use crate::gear::{AdjusterKind, BowKind, Release, RestKind};
use crate::question::{Answer, Test};
use crate::restore::{Target, put_back};
use crate::session::Timeline;
use crate::units::System;

fn compound(timeline: &Timeline) -> bool {
    timeline.card.bow.kind == BowKind::Compound
}

/// Back to the start, with the exact moves; done when the bow stands there.
fn put_back_node(timeline: &Timeline) -> Node {
    let back = put_back(timeline, Target::Start, System::Mm).ok();
    let done = back.as_ref().is_none_or(|b| b.steps.is_empty());
    let mut node = Node::new(
        Test::PutBack,
        Ask::Action,
        "Put everything back to the start: a rest that went far makes up for something else.",
    )
    .next(Answer::Done, "back at the start, recorded as a move");
    node.put_back = back;
    node.done = done;
    node
}

pub(super) fn contact_node(timeline: &Timeline) -> Node {
    let where_ = if compound(timeline) {
        "vanes, rest, cables and riser"
    } else {
        "vanes, rest and riser"
    };
    Node::test(
        Test::Contact,
        format!("Dust test: powder the rear third of the shaft, {where_}; shoot once; look for wiped paths. A second person watches for marks made while drawing."),
    )
    .careful(cautions::HELPER)
    .shots(1)
    .next(Answer::None, "nothing but the rest's own track")
    .fix(Answer::Rest, "the vanes or shaft hit the rest", "turn the nock a little, drop-away timing, blade, lower vanes; then the dust test again")
    .fix(Answer::Cable, "the vanes hit a cable or its guard", "turn the nock, move the guard within its maker's limits, lower vanes; then again")
    .fix(Answer::Other, "it hits the riser, shelf or clothing", "find and clear it; then again")
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

fn timing() -> Node {
    Node::test(
        Test::Timing,
        "On the draw board: do both cams reach their stops together, within 1/16 in?",
    )
    .careful(cautions::CAMS)
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
    .careful(cautions::HARD_WALL)
    .shots(4)
    .next(Answer::Same, "how hard the wall is held is not it")
    .fix(
        Answer::Changes,
        "the tear comes and goes with the hold: cam timing or a draw stop",
        "draw board: both cams to their stops together (press, trained hands), then measure again what press work changes. The creep stage after paper shows it at distance",
    )
}

fn lean() -> Node {
    Node::test(
        Test::Lean,
        "An arrow along the cam's face, put there with the bow at rest, seen from behind on the draw board: upright? And the cable guard's load as its maker has it?",
    )
    .careful(cautions::CAMS)
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
    .fix(Answer::Different, "the arrow is the cause", "weigh the bow, look at the arrow match; put the other arrow on the card")
}

fn twisted() -> Node {
    Node::test(
        Test::LimbsTrue,
        "Sight along the string from behind: does it split both limbs and the riser? Limbs untwisted, seated, tiller as it should be?",
    )
    .next(Answer::True, "the bow stands straight")
    .fix(Answer::Twisted, "a limb or its seat is out of line", "align the limb pockets, or back to the maker for a twisted limb")
}

fn rest_timing() -> Node {
    Node::test(
        Test::RestTiming,
        "Drop-away: up early in the draw, down before the vanes arrive, cord snug?",
    )
    .next(Answer::Right, "the rest works as it should")
    .fix(
        Answer::Wrong,
        "late or early, it touches the vanes or lets the arrow sag",
        "move the cord, then the dust test",
    )
}

pub(super) fn no_response(timeline: &Timeline) -> Path {
    let mut nodes = vec![
        put_back_node(timeline),
        rest_moves(),
        contact_node(timeline),
        torque(timeline),
    ];
    if compound(timeline) {
        nodes.extend([timing(), lean()]);
    }
    nodes.extend([twisted(), other_arrow()]);
    Path {
        nodes,
        end: Then::Fix(
            "nothing on the bench explains it. Ask the bow's maker or a second technician".into(),
        ),
    }
}

pub(super) fn jumps(timeline: &Timeline) -> Path {
    let mut nodes = vec![
        Node::test(
            Test::Loose,
            "Try by hand: rest and its screws, limb bolts, nocking point and loop, sight, nocks, points.",
        )
        .next(Answer::Tight, "nothing moves")
        .fix(Answer::Loose, "a part moves from shot to shot", "tighten it, put it back on its marks, note it"),
        Node::question(
            Test::OneSide,
            "Was each setting approached from the same side, with the play in the screw taken up, and the lock screw tightened after?",
        )
        .next(Answer::Yes, "play is not it")
        .resume(Answer::No, "set it again from one side and lock it; enter a calipers reading as the move (rest at 20.6 mm)"),
        contact_node(timeline),
    ];
    if timeline.card.rest.kind == RestKind::DropAway {
        nodes.push(rest_timing());
    }
    nodes.extend([
        Node::test(
            Test::OneArrow,
            "Shoot one marked arrow 3 times and record it with its number.",
        )
        .shots(3)
        .next(Answer::Same, "one arrow jumps as well")
        .fix(
            Answer::Steady,
            "the arrows differ among themselves",
            "sort them: weigh, spin, flex, nocks; bench the odd one",
        ),
        torque(timeline),
    ]);
    if compound(timeline) {
        nodes.push(wall_hold());
    }
    Path {
        nodes,
        end: Then::Resume(
            "nothing found. Shoot 3 here without moving anything; if they agree, go on".into(),
        ),
    }
}

pub(super) fn travel(timeline: &Timeline) -> Path {
    let mut nodes = vec![
        put_back_node(timeline),
        contact_node(timeline),
        torque(timeline),
    ];
    if compound(timeline) {
        nodes.extend([timing(), lean()]);
    }
    nodes.push(twisted());
    nodes.push(other_arrow());
    Path {
        nodes,
        end: Then::Fix("the rest cannot reach and nothing on the bench explains it. If the card's travel is less than the rest really has, correct the travel on the card; otherwise ask the bow's maker".into()),
    }
}

pub(super) fn huge(timeline: &Timeline) -> Path {
    let mut nodes = vec![
        Node::question(
            Test::RightArrow,
            "Is this the arrow that is on the card: shaft, length, point, nock seated?",
        )
        .next(Answer::Yes, "the right arrow")
        .fix(
            Answer::No,
            "another arrow was shot",
            "shoot the arrow on the card, or put the one shot on the card",
        ),
        Node::test(
            Test::DrawLength,
            "Draw length at this archer's anchor against the card.",
        )
        .careful(cautions::HELPER)
        .next(Answer::Right, "draw length is not it")
        .fix(
            Answer::Wrong,
            "draw length is off",
            "set it, or put the true figure on the card",
        ),
        Node::test(
            Test::DrawWeight,
            "Draw weight on a scale, not the label (labels can be out by 7 lb).",
        )
        .careful(cautions::WEIGHING)
        .next(Answer::Right, "draw weight is not it")
        .fix(
            Answer::Wrong,
            "the arrow match was worked out from a wrong weight",
            "put the scale's figure on the card: peak weight, and that it was weighed",
        ),
        Node::test(
            Test::NockingPoint,
            "Nocking point with the bow square; nock fit on the string.",
        )
        .next(Answer::Right, "where it should be, nock lets go at a tap")
        .fix(
            Answer::Wrong,
            "the nocking point or nock is off",
            "set it in its starting band, fit other nocks, then shoot again",
        ),
        contact_node(timeline),
    ];
    if compound(timeline) {
        nodes.push(timing());
    }
    Path {
        nodes,
        end: Then::Fix("basics look right and the tear is still huge: try an arrow of another stiffness, and let a second person shoot the bow".into()),
    }
}

pub(super) fn no_adjuster(timeline: &Timeline) -> Path {
    let has: Vec<String> = timeline
        .card
        .adjusters
        .iter()
        .map(|a| a.kind.spoken())
        .collect();
    let card = &timeline.card;
    let strings = !card.needs_press(AdjusterKind::BraceHeight);
    let twists = strings && card.adjuster(AdjusterKind::BraceHeight).is_some();
    let such_as = if strings {
        "rest, nocking point, plunger, brace height"
    } else {
        "rest, nocking point, plunger"
    };
    let has = if has.is_empty() {
        "nothing".into()
    } else {
        has.join(", ")
    };
    let nodes = vec![
        Node::question(
            Test::CardComplete,
            format!("The card says this bow has: {has}. Is there anything else that can be moved and measured ({such_as})?"),
        )
        .next(Answer::Nothing, "the card is complete")
        .fix(Answer::More, "there is", "put it on the card, at its end under the adjusters, then go on"),
        Node::test(
            Test::OtherPoint,
            "What such a bow has instead is the arrow: shoot 3 with a point 25 gr lighter or heavier, above the safety floor.",
        )
        .shots(3)
        .resume(Answer::Better, "put that point on the card and go on")
        .next(Answer::Same, "the point is not it"),
    ];
    Path {
        nodes,
        end: Then::Fix(if twists {
            "brace height in half twists of the string, within its maker's band; or a rest that can be moved".into()
        } else {
            "other shafts, or a rest that can be moved. Or close as best with these arrows".into()
        }),
    }
}

pub(super) fn contact(timeline: &Timeline) -> Path {
    Path {
        nodes: vec![contact_node(timeline)],
        end: Then::Resume("the dust test is clean".into()),
    }
}

pub(super) fn too_light(timeline: &Timeline) -> Path {
    let weight = timeline.card.bow.peak_weight.pounds();
    Path {
        nodes: vec![
            Node::test(
                Test::WeightsRight,
                "Weigh the bow and one finished arrow: are both as on the card?",
            )
            .careful(cautions::WEIGHING)
            .next(Answer::Right, "the card is right")
            .fix(
                Answer::Wrong,
                "the card is wrong",
                "put the scales' figures on the card",
            ),
        ],
        end: Then::Fix(format!(
            "heavier point or shaft, or less draw weight: at least {:.0} gr for {weight:.0} lb, with the point that is shot, or the bow maker's own figure. This cannot be waived",
            (safety::LEAST_GPP * weight).max(
                timeline
                    .card
                    .bow
                    .maker_min_arrow
                    .map_or(0.0, crate::units::Mass::grains)
            )
        )),
    }
}

/// The draw weight is not known since the limb bolts were moved.
pub(super) fn weigh_first() -> Path {
    Path {
        nodes: vec![
            Node::test(
                Test::WeighBow,
                format!(
                    "{} Then weigh the bow on a scale, at this archer's draw.",
                    crate::cautions::WEIGHING
                ),
            )
            .next(Answer::NoScale, "there is no scale here")
            .fix(Answer::Weighed, "it was weighed", "put its weight on the card: peak weight, and that it was read off a scale"),
        ],
        end: Then::Fix("turn the limb bolts back to where the bow was weighed and record that, then weigh it. This cannot be waived".into()),
    }
}

/// Limb bolts or draw weight past the maker's limit.
pub(super) fn past_limit(timeline: &Timeline) -> Path {
    let caution = crate::words::bolts_caution(&timeline.card);
    Path {
        nodes: vec![
            Node::test(
                Test::LimitRight,
                "Turns out from fully seated, and the maker's greatest turns and weight: as on the card and the list?",
            )
            .next(Answer::Right, "they are right")
            .fix(Answer::Wrong, "a figure is wrong", "correct it: the maker's figures on the card, the turns on the list before paper"),
        ],
        end: Then::Fix(format!(
            "{caution}. Draw nothing before they are back inside the limit, and record the move. This cannot be waived"
        )),
    }
}

pub(super) fn too_short(_: &Timeline) -> Path {
    Path {
        nodes: vec![
            Node::test(Test::LengthsRight, "Shaft length (nock throat to shaft end), draw length, and where the rest stands: as on the card?")
                .next(Answer::Right, "the card is right")
                .fix(Answer::Wrong, "the card is wrong", "correct shaft length, draw length or rest contact ahead on the card"),
        ],
        end: Then::Fix("longer arrows: the shaft must reach at least half an inch past the rest at full draw, or it can fall behind the rest and into the hand. This cannot be waived".into()),
    }
}
