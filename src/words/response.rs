//! Response: what an adjuster does to the tear, and what stands in its way.

use super::percent;
use super::safety::not_confirmed;
use crate::checks::response::{Instead, Known, Obstacle, OutOfReach, Response, Reversal};
use crate::gear::{AdjusterKind, AdjusterUnit, Axis};
use crate::units::{MM_PER_INCH, System, clean};

/// The response check.
pub fn response(found: &Response, system: System) -> String {
    match found {
        Response::Obstacle(what) => obstacle(what, system),
        Response::NothingMoved => {
            "Nothing is moved yet. The first move will show the response.".into()
        }
        Response::NotShot => {
            "Moved, and not shot since. The next shot will show the response.".into()
        }
        Response::NotConfirmed(open) => not_confirmed(open),
        Response::Known(all, far) => {
            let known: Vec<String> = all
                .iter()
                .map(|known| format!("{}.", known_sentence(known, system)))
                .collect();
            let far = far.map(|share| {
                format!(
                    "The rest stands at {:.0} % of its travel from the start. Check whether it makes up for something else.",
                    100.0 * share
                )
            });
            let parts: Vec<String> = far.into_iter().chain(known).collect();
            parts.join(" ")
        }
    }
}

/// What stands in the way of a move, with what to do.
pub(crate) fn obstacle(found: &Obstacle, system: System) -> String {
    const BACK: &str = "Put it back to the start and look elsewhere.";
    match found {
        Obstacle::HugeTear(off, longest) => format!(
            "The tear is {} out one way (limit {}: no likely response brings in more within the travel). Check arrow, draw length, draw weight and nocking point first.",
            system.tear(*off),
            system.tear(*longest)
        ),
        Obstacle::Weak(tear) => out_of_reach(tear, false, system),
        Obstacle::Short(tear) => out_of_reach(tear, true, system),
        Obstacle::NoResponse(kind, chance) => format!(
            "The tear does not respond to the {} (chance {}). {BACK}",
            name(*kind),
            percent(chance.is)
        ),
        Obstacle::Silent(kind, moves, power) => format!(
            "{moves} moves of the {} would have shown a usual response (chance {}), and none showed. {BACK}",
            name(*kind),
            percent(*power)
        ),
        Obstacle::Jumps(_) => "The tear jumps whenever something is moved, more than any move explains. Look for a loose part or something touching the arrow.".into(),
        Obstacle::Travel(best) => format!(
            "No place within the rest's travel is likely to bring the tear within tolerance (best chance {}). {BACK}",
            percent(*best)
        ),
        Obstacle::NoAdjuster(instead) => no_adjuster(instead),
        Obstacle::Contact(what) => format!(
            "The powder test found contact ({}). Fix that first, then test again.",
            clean(&what.word())
        ),
    }
}

/// What an adjuster is called where the rest has two of them.
pub(super) fn name(kind: AdjusterKind) -> &'static str {
    match kind {
        AdjusterKind::RestSideways => "rest sideways",
        AdjusterKind::RestHeight => "rest height",
        other => other.noun(),
    }
}

/// A tear that the adjuster which was moved does not bring inside; `short`
/// where it moves the tear.
fn out_of_reach(tear: &OutOfReach, short: bool, system: System) -> String {
    let (name, off) = (name(tear.kind), system.tear(tear.off));
    let most = system.tear(tear.longest);
    let found = if short {
        format!(
            "The {name} moves the tear on this bow, and no place within its travel is likely to bring it within tolerance: it is {off} out that way, and the travel brings in about {most} at most."
        )
    } else if tear.off <= tear.longest {
        format!(
            "The {name} hardly moves the tear on this bow. It is {off} out that way, and many shots at several places do not show it coming in."
        )
    } else {
        format!(
            "The {name} hardly moves the tear on this bow. It is {off} out that way, and the whole travel brings in about {most} at most."
        )
    };
    let instead = in_its_place(tear, short);
    format!("{found} Put it back to the start. Instead: {instead}.")
}

/// What else moves the arrow the way an adjuster did not bring it far enough;
/// `short` where it moves the tear, so that more of it would do.
fn in_its_place(tear: &OutOfReach, short: bool) -> String {
    use AdjusterKind::{NockingPoint, RestHeight, RestSideways};
    let (has, strings) = (&tear.instead.has, tear.instead.strings);
    let vertical = tear.instead.axis == Axis::Vertical;
    let rest = matches!(tear.kind, RestHeight | RestSideways);
    let all = [
        (!vertical, "another arrow spine (point, draw weight)"),
        (strings, "brace height"),
        (
            vertical && !has.contains(&NockingPoint) && tear.kind != NockingPoint,
            "the nocking point once it is on the card",
        ),
        (
            vertical && !has.contains(&RestHeight) && !rest,
            "a rest whose height can be set",
        ),
        (short && rest, "a rest with more travel"),
    ];
    let mut all: Vec<&str> = all
        .iter()
        .filter(|(is, _)| *is)
        .map(|(_, what)| *what)
        .collect();
    let last = all.pop().unwrap_or("the set-up list once more");
    match all.is_empty() {
        true => last.to_owned(),
        false => format!("{}, or {last}", all.join(", ")),
    }
}

/// The side an axis is named by, and what moves the arrow there otherwise.
const fn otherwise(instead: &Instead) -> (&'static str, &'static str) {
    match (instead.axis, instead.strings) {
        (Axis::Vertical, true) => (
            "up and down",
            "brace height, or the nocking point once it is on the card",
        ),
        (Axis::Vertical, false) => (
            "up and down",
            "the nocking point once it is on the card, or a rest that can be moved",
        ),
        (_, true) => (
            "sideways",
            "another arrow spine (point, draw weight), brace height, or a rest that can be moved",
        ),
        (_, false) => (
            "sideways",
            "another arrow spine (point, draw weight), or a rest that can be moved",
        ),
    }
}

fn no_adjuster(instead: &Instead) -> String {
    let (side, otherwise) = otherwise(instead);
    if instead.has.is_empty() {
        return format!("Nothing on this bow's card moves the arrow {side}. Instead: {otherwise}.");
    }
    let has: Vec<String> = instead.has.iter().map(|kind| kind.spoken()).collect();
    format!(
        "This bow has no screw that moves the arrow {side}. Instead: {}.",
        has.join(", ")
    )
}

/// Why a vertical that acts the wrong way round is not believed yet.
pub(super) fn reversal(kind: AdjusterKind, step: Reversal) -> String {
    let seen = match kind {
        AdjusterKind::NockingPoint => "The nocking point up lowers the tail",
        _ => "The rest up raises the tail",
    };
    let then = match step {
        Reversal::Powder => "Look for contact first.",
        Reversal::HighStart => {
            "No contact was found. A nock set too low bounces off the rest and shows high: start from high and come down (common practice)."
        }
    };
    format!("{seen} on this bow. Guides agree on the opposite. {then}")
}

/// What an adjuster does to the tear, without a full stop: `1 mm of rest
/// sideways moves the tear about 3 mm the same way`. The words hold for either
/// hand: only a plunger, which has no side of its own, names left or right.
pub(crate) fn known_sentence(known: &Known, system: System) -> String {
    let kind = known.kind;
    let (unit, factor) = match (kind.unit(), system) {
        (AdjusterUnit::Mm, System::Mm) => ("1 mm of", 1.0),
        (AdjusterUnit::Mm, System::Inch) => ("1/16 in of", MM_PER_INCH / 16.0),
        (AdjusterUnit::Turn, _) => ("1 turn firmer of", 1.0),
        (AdjusterUnit::Twist, _) => ("1 twist of", 1.0),
    };
    let what = format!("{unit} {}", name(kind));
    if known.is_unsure() {
        return format!("The response to {what} is not known yet");
    }
    let mean = known.gain.mean * factor;
    let size = match mean.abs() {
        size if size < 1.0 && system == System::Mm => "less than 1 mm".to_owned(),
        size if system.tear_number(size) == "0" => "less than 1/16 in".to_owned(),
        size => format!("about {}", system.tear(size)),
    };
    let guess = match known.gain.sd * factor > mean.abs() / 2.0 {
        true => " (a guess)",
        false => "",
    };
    format!("{what} moves the tear {size} {}{guess}", way(known))
}

/// Which way the tear goes with an adjuster's positive way.
fn way(known: &Known) -> &'static str {
    match (known.kind, known.gain.mean < 0.0) {
        (AdjusterKind::PlungerTension, false) => "to the right",
        (AdjusterKind::PlungerTension, true) => "to the left",
        (_, false) => "the same way",
        (_, true) => "the other way",
    }
}

/// The chance of the likelier way: `chance that it goes the same way: 70 %`.
pub(super) fn likelier_way(known: &Known) -> String {
    let negative = known.gain.probability_negative;
    format!(
        "chance that it goes {}: {}",
        way(known),
        percent(negative.max(1.0 - negative))
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::belief::Gain;

    fn said(kind: AdjusterKind, mean: f64, negative: f64) -> String {
        let gain = Gain {
            mean,
            sd: 0.2,
            probability_negative: negative,
        };
        known_sentence(&Known { kind, gain }, System::Mm)
    }

    #[test]
    fn what_an_adjuster_does_is_said_with_its_side_only_where_that_is_known() {
        use AdjusterKind::{PlungerTension, RestSideways};
        assert_eq!(
            said(RestSideways, -3.1, 0.99),
            "1 mm of rest sideways moves the tear about 3 mm the other way"
        );
        assert_eq!(
            said(RestSideways, 3.1, 0.01),
            "1 mm of rest sideways moves the tear about 3 mm the same way"
        );
        assert_eq!(
            said(RestSideways, 0.5, 0.43),
            "The response to 1 mm of rest sideways is not known yet"
        );
        assert_eq!(
            said(PlungerTension, 4.0, 0.02),
            "1 turn firmer of plunger moves the tear about 4 mm to the right"
        );
        assert_eq!(
            said(PlungerTension, -4.0, 0.98),
            "1 turn firmer of plunger moves the tear about 4 mm to the left"
        );
    }
}
