//! Why the advice is what it is, said to teach: the side of the tail, then
//! what the move rests on or why the rest is left alone.

use super::super::count;
use super::super::first::{against, guides_do};
use crate::advice::{Against, FirstMove, Ground};
use crate::gear::Axis;
use crate::practice::tell::{MoveGround, Shows, Tail, Why};
use crate::question::Refusal;

/// Why the advice is what it is, in a few short sentences.
pub fn why(why: &Why) -> String {
    match why {
        Why::Refused(refusal) => refused(*refusal).into(),
        Why::Moves { tail: None, ground } => moved(ground),
        Why::Moves {
            tail: Some(side),
            ground,
        } => format!("{} {}", tail(*side), moved(ground)),
    }
}

fn tail(tail: Tail) -> String {
    let (side, place) = match (tail.vertical, tail.positive) {
        (true, false) => ("low", "below"),
        (true, true) => ("high", "above"),
        (false, false) => ("left", "left of"),
        (false, true) => ("right", "right of"),
    };
    match tail.wanted {
        false => format!("Tail {side}: the nock end came through {place} the point."),
        true => format!("The tail stands {place} the tear that is wanted."),
    }
}

fn moved(ground: &MoveGround) -> String {
    match ground {
        MoveGround::Test(first) => tested(first),
        MoveGround::Shown(shows) => {
            format!("Shown by this bow's own moves: {}.", sends(shows))
        }
        MoveGround::EarlierBows(bows, shows) => format!(
            "Shown by {} of the folder: {}. This bow has not shown it yet.",
            count(*bows as usize, "earlier bow"),
            sends(shows)
        ),
        MoveGround::Learn(kind) => format!(
            "A test move: it shows what the {} does near here.",
            kind.noun()
        ),
        MoveGround::HighStart(_) => {
            "This bow goes against what guides agree on. The nock may bounce off the rest, so it starts high and comes down.".into()
        }
    }
}

/// Which way the tail goes, without a full stop: `rest left sends the tail
/// right`.
fn sends(shows: &Shows) -> String {
    let (minus, plus) = shows.kind.directions();
    let way = if shows.plus { plus } else { minus };
    let side = match (shows.kind.axis(), shows.tail_plus) {
        (Axis::Vertical, false) => "down",
        (Axis::Vertical, true) => "up",
        (_, false) => "left",
        (_, true) => "right",
    };
    format!("{} {way} sends the tail {side}", shows.kind.noun())
}

/// The ground of a test move's way.
fn tested(first: &FirstMove) -> String {
    match &first.ground {
        Ground::Vertical(found) => {
            let (rest, nock) = match found.tail_low {
                true => ("high", "low"),
                false => ("low", "high"),
            };
            let rule = format!("A rule of the trade: rest too {rest} or nocking point too {nock}.");
            format!("{rule} {}", follows(first, found.against))
        }
        Ground::Aid(_) => format!(
            "With a release aid guides contradict each other on which way the {} goes. This bow has not shown it{} yet, so the move is a test.",
            first.kind.noun(),
            if first.tried { " for sure" } else { "" }
        ),
        Ground::Fingers(by) => {
            let rule = format!("A rule of the trade for fingers: {}.", guides_do(by));
            format!("{rule} {}", follows(first, by.against))
        }
    }
}

/// Whether the move goes the way of the rule, or why not, and what this bow
/// has shown of it.
fn follows(first: &FirstMove, other: Option<Against>) -> String {
    let unseen = match first.tried {
        true => "This bow has not shown it for sure yet.",
        false => "This bow has not shown it yet.",
    };
    match other {
        None => format!("The move goes that way. {unseen}"),
        // That says itself what this bow has shown.
        Some(why @ Against::OwnMoves) => {
            format!("The move goes the other way. {}", against(why, first.kind))
        }
        Some(why) => format!(
            "The move goes the other way. {} {unseen}",
            against(why, first.kind)
        ),
    }
}

/// Why the rest is left alone, or the bow not shot.
const fn refused(refusal: Refusal) -> &'static str {
    match refusal {
        Refusal::Incident => {
            "Something happened that may have hurt the bow. Every part is looked at before the next shot."
        }
        Refusal::PastLimit => {
            "The bow is past a limit of its maker. Bring it back within the limit before the next shot."
        }
        Refusal::WeighFirst => {
            "The limb bolts were moved, so the draw weight is not known. Weigh the bow before the next shot."
        }
        Refusal::TooLight => {
            "The arrow is too light for this draw weight. That is a danger, not a matter of the rest."
        }
        Refusal::TooShort => {
            "The arrow is too short for this draw. That is a danger, not a matter of the rest."
        }
        Refusal::FarTooWeak => {
            "The arrow is far too weak for this bow by its load. It is not shot at all."
        }
        Refusal::SpineWeak => {
            "The arrow is too weak for this bow by its load. No rest position fixes that."
        }
        Refusal::SpineStiff => {
            "The arrow is too stiff for this bow by its load. No rest position fixes that."
        }
        Refusal::Scatter => {
            "Shots at one setting differ by more than the limit. No move can be judged by them."
        }
        Refusal::Contact => "Something touches the arrow. Its holes say nothing of the rest.",
        Refusal::NoResponse => {
            "The tear does not respond to what was moved. Put it back and look elsewhere."
        }
        Refusal::Jumps => {
            "The tear jumps from move to move, more than any move explains. A loose part or contact does that, not the rest."
        }
        Refusal::TravelLimit => {
            "No place within the travel is likely to bring the tear within tolerance. Put it back and look elsewhere."
        }
        Refusal::HugeTear => {
            "The tear is so long that no likely response brings it in within the travel. Look at arrow, draw length, draw weight and nocking point first."
        }
        Refusal::NoAdjuster => {
            "The tear goes a way that no adjuster of this bow moves. Something else has to change it."
        }
    }
}
