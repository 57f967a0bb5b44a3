//! Safety: what forbids the next shot, what it waits for, what is in order.

use super::{capital, caution, trouble, turns_of};
use crate::cautions::Caution;
use crate::checks::Unit;
use crate::checks::safety::{
    ArrowPart, Carried, Danger, LEAST_GPP, LEAST_REACH_IN, MOST_LB_A_TURN, Safety, TRADITIONAL_GPP,
    Waiting, Weighing, Whose, Worst,
};
use crate::gear::Unconfirmed;
use crate::question::SetupItem;
use crate::units::{clean, trim_number};

/// The safety check on a sheet, which says what stood when the shots were made
/// and asks nobody for a list.
pub(crate) fn safety_that_stood(found: &Safety) -> String {
    match found {
        Safety::RangeListFirst(due, then) => format!(
            "{}: {}. {}",
            super::RANGE_TITLE,
            super::range_due_short(*due),
            safety(then)
        ),
        other => safety(other),
    }
}

/// The safety check beside the range safety list, which is said already.
pub(crate) fn safety_beside_the_list(found: &Safety) -> String {
    match found {
        Safety::RangeListFirst(_, then) => safety(then),
        other => safety(other),
    }
}

/// The safety check.
pub fn safety(found: &Safety) -> String {
    match found {
        Safety::Danger(what) => danger(what),
        Safety::Waits(all) => all.iter().map(waiting).collect::<Vec<_>>().join(" "),
        Safety::CardDamaged => {
            "Not known: a limit may have stood on the line of the card that cannot be read.".into()
        }
        Safety::FileHasHoles => {
            "Not known: an entry is lost, and it may have been an incident or a change of the card."
                .into()
        }
        Safety::RangeListFirst(due, then) => format!("{} {}", super::range_due(*due), safety(then)),
        Safety::Overdraw(behind) => overdraw(*behind),
        Safety::Light(bow, gpp) => format!(
            "{gpp:.1} gr/lb is light for a {} (limit {TRADITIONAL_GPP} gr/lb, from memory). Ask its maker.",
            bow.id()
        ),
        Safety::Ok { gpp, reach, bare } => {
            let bare = bare.as_ref().map_or(String::new(), not_bare);
            format!(
                "{gpp:.1} gr/lb (limit {LEAST_GPP} gr/lb), shaft {reach:.1} in past the rest. The bow maker's own limits come first.{bare}"
            )
        }
    }
}

/// That an arrow which may be shot as it is may not be shot bare.
fn not_bare(why: &Danger) -> String {
    let then = match why {
        Danger::TooLight { grains, least, .. } => {
            format!("{grains:.0} gr then (limit {least:.0} gr)")
        }
        Danger::FarTooWeak { ratio, limit, .. } => format!(
            "{} then (limit {}, a rule of thumb, no source)",
            super::spine::load(*ratio, *limit),
            super::spine::percent(limit - 1.0)
        ),
        other => return format!(" Do not shoot it without its fletching. {}", danger(other)),
    };
    format!(" Do not shoot it without its fletching: {then}.")
}

/// That undo or redo lifted a stop.
pub(crate) fn lifted_by_undo(was: &Danger) -> String {
    format!(
        "This lifts DO NOT SHOOT. What is undone counts as never done. If it was done, redo it. Before: {}",
        danger(was)
    )
}

/// That the bow is said to stand at another setting, which lifted a stop.
pub(crate) fn lifted_by_setting(was: &Danger) -> String {
    format!(
        "This lifts DO NOT SHOOT, as the bow is said to stand there now. See that it does. Before: {}",
        danger(was)
    )
}

/// What forbids the next shot, with what to do.
pub(crate) fn danger(found: &Danger) -> String {
    match found {
        Danger::Incident {
            what,
            entry,
            open,
            bow,
        } => {
            let open: Vec<&str> = open.iter().map(|part| trouble::part(*part, *bow)).collect();
            format!(
                "{} (entry {entry}). Look at every part before anything is drawn; where in doubt, a trained person does. Still open: {}.",
                capital(&clean(what)),
                open.join("; ")
            )
        }
        Danger::PastTurns { out, most, counted } => format!(
            "Turn the limb bolts back in before anything is drawn. They stand {}{} out (limit {}, the bow maker's). A limb can come out of its pocket.",
            if *counted { "" } else { "at least " },
            turns_of(*out),
            turns_of(*most)
        ),
        Danger::OverWeight { pounds, most } => format!(
            "Turn the limb bolts out before anything is drawn. The bow draws {} lb (limit {} lb, the bow maker's).",
            trim_number(*pounds, 1),
            trim_number(*most, 1)
        ),
        Danger::TooLight { .. } => too_light(found),
        Danger::TooShort(reach) => format!(
            "At full draw the shaft reaches {reach:.2} in past the rest contact (limit {LEAST_REACH_IN} in). It can fall behind the rest. Use longer arrows, or check the draw length and the rest contact on the card."
        ),
        Danger::FarTooWeak {
            ratio,
            limit,
            weighed,
            bare,
        } => format!(
            "{} far too weak: {} (limit {}, a rule of thumb, no source). It may break as it is shot. {}Use stiffer shafts. Only the arrow maker's chart allows it: read it for this draw weight, length and point, and enter it on the card (maker chart). The limit is a margin: {}.",
            if *bare {
                "This arrow without its fletching is"
            } else {
                "The arrow is"
            },
            super::spine::load(*ratio, *limit),
            super::spine::percent(limit - 1.0),
            super::spine::weigh(*weighed),
            super::STOP_LOAD_IS
        ),
        Danger::WeighFirst { turns, worst } => format!(
            "Its limb bolts stand {} further in than when its weight was known. {} Weigh the bow first. {}",
            turns_of(*turns),
            caution(Caution::Weighing),
            worst_case(worst)
        ),
        Danger::AsMeasured { what, then } => format!(
            "Measured before paper and not as on the card: {}. {} Put the true figure on the card, or measure it again.",
            measured(what),
            danger(then)
        ),
    }
}

/// `draw weight and arrow weight`.
fn measured(what: &[SetupItem]) -> String {
    let names: Vec<&str> = what.iter().map(|item| measured_name(*item)).collect();
    listed(&names)
}

const fn measured_name(item: SetupItem) -> &'static str {
    match item {
        SetupItem::DrawWeight => "draw weight",
        SetupItem::DrawLength => "draw length",
        _ => "arrow weight",
    }
}

fn too_light(danger: &Danger) -> String {
    let Danger::TooLight {
        grains,
        least,
        whose,
        pounds,
        bare,
        trial,
    } = danger
    else {
        return String::new();
    };
    let which = match (bare, trial) {
        (true, false) => "This arrow without its fletching",
        (true, true) => "This arrow without its fletching, with the trial point,",
        (false, true) => "This arrow with the trial point",
        (false, false) => "This arrow",
    };
    let whose = match whose {
        Whose::Floor => "5 gr/lb",
        Whose::Maker => "the bow maker's minimum",
    };
    format!(
        "{which} weighs {grains:.0} gr on {pounds:.0} lb (limit {least:.0} gr, {whose}). A light arrow loads the bow like a dry fire. Use a heavier point or shaft."
    )
}

fn with_unit(value: f64, unit: Unit) -> String {
    format!("{} {}", trim_number(value, 1), unit.id())
}

fn worst_case(worst: &Worst) -> String {
    match worst {
        Worst::Draws(pounds, then) => format!(
            "At {MOST_LB_A_TURN} lb a turn (rule of thumb) it draws {} lb. Then: {}",
            trim_number(*pounds, 1),
            danger(then)
        ),
        Worst::NoFigure(bow, gpp) => format!(
            "No figure of pounds a turn is known for a {}, and {gpp:.1} gr/lb was light already (limit {TRADITIONAL_GPP} gr/lb).",
            bow.id()
        ),
        Worst::MakersLimit(bow, now) => format!(
            "No figure of pounds a turn is known for a {}. Its maker's limit may be passed: {} before the turns (limit {}).",
            bow.id(),
            with_unit(now.value, now.unit),
            with_unit(now.limit, now.unit)
        ),
    }
}

/// What the safety check waits for, with what to do.
pub fn waiting(waiting: &Waiting) -> String {
    match waiting {
        Waiting::Unconfirmed(open) => not_confirmed(open),
        Waiting::Unweighed(worst) => {
            let worst = match worst {
                Weighing::Open => String::new(),
                Weighing::AtMost(pounds, gpp) => format!(
                    " It draws at most {} lb, {gpp:.1} gr/lb (at {MOST_LB_A_TURN} lb a turn, a rule of thumb).",
                    trim_number(*pounds, 1)
                ),
            };
            format!(
                "The draw weight is not known since the limb bolts were moved.{worst} {} Weigh the bow, then put its weight on the card as weighed.",
                caution(Caution::Weighing)
            )
        }
        Waiting::PartNotGiven(part) => {
            let part = match part {
                ArrowPart::Nock => "nock",
                ArrowPart::Vanes => "vane",
            };
            format!(
                "The {part} weight is not on the card, and the arrow is heavy enough only with it. Weigh it and enter it."
            )
        }
        Waiting::CardDiffers(what) => format!(
            "Measured before paper and not as on the card: {}. Put the true figure on the card, or measure it again. Safety and arrow spine are worked out from the card.",
            measured(what)
        ),
        Waiting::UnusualWeight(lb, (low, high)) => format!(
            "The draw weight on the card is {} lb; {} to {} lb is usual. How heavy the arrow must be rests on it. Weigh the bow, then put its weight on the card as weighed.",
            trim_number(*lb, 1),
            trim_number(*low, 0),
            trim_number(*high, 0)
        ),
        Waiting::TurnsNotCounted(most) => format!(
            "The limb bolts were turned out, and nobody counted from fully seated. Count their turns out (limit {}, the bow maker's).",
            turns_of(*most)
        ),
    }
}

/// Values that nobody confirmed, in a sentence.
pub(super) fn not_confirmed(open: &[Unconfirmed]) -> String {
    format!("Not confirmed: {}.", unconfirmed(open))
}

/// Values that nobody confirmed, by name: `draw weight and arrow`.
pub(crate) fn unconfirmed(open: &[Unconfirmed]) -> String {
    let name = |value: &Unconfirmed| match value {
        Unconfirmed::DrawWeight => "draw weight",
        Unconfirmed::DrawLength => "draw length",
        Unconfirmed::BowKind => "kind of bow",
        Unconfirmed::Hand => "hand",
        Unconfirmed::Release => "release",
        Unconfirmed::Rest => "rest",
        Unconfirmed::RestTravel => "travel of the rest",
        Unconfirmed::Tolerance => "tolerance",
        Unconfirmed::Arrow => "arrow",
    };
    let names: Vec<&str> = open.iter().map(name).collect();
    listed(&names)
}

/// `one, another and a third`.
fn listed(names: &[&str]) -> String {
    match names.split_last() {
        None => String::new(),
        Some((only, [])) => (*only).to_owned(),
        Some((last, others)) => format!("{} and {last}", others.join(", ")),
    }
}

/// A shaft whose end stands behind the grip pivot at full draw.
pub(crate) fn overdraw(behind: f64) -> String {
    format!(
        "Keep the hand below the arrow. At full draw the shaft's end stands {behind:.2} in behind the grip pivot, over the hand. Shoot field points only, or use longer arrows."
    )
}

/// Why a broadhead is not shot on this shaft; nothing where it may be, or
/// where nobody can tell.
pub fn broadhead(carried: Carried) -> Option<String> {
    let place = match carried {
        Carried::OverHand(behind) => {
            format!("over the bow hand, {behind:.2} in behind the grip pivot")
        }
        Carried::BehindRiser(behind) => format!("{behind:.2} in behind the riser's front"),
        Carried::Clear | Carried::NotMeasured => return None,
    };
    Some(format!(
        "At full draw the head would stand {place}. Use longer shafts; shoot no broadhead on these."
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn values_nobody_confirmed_are_named_in_one_list() {
        use Unconfirmed::{Arrow, DrawLength, DrawWeight};
        assert_eq!(unconfirmed(&[Arrow]), "arrow");
        assert_eq!(unconfirmed(&[DrawWeight, Arrow]), "draw weight and arrow");
        assert_eq!(
            unconfirmed(&[DrawWeight, DrawLength, Arrow]),
            "draw weight, draw length and arrow"
        );
    }
}
