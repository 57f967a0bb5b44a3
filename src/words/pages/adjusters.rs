//! Adjusters on the card: listing one, taking one off, what a line means.

use super::super::capital;
use crate::gear::{AdjusterKind, AdjusterUnit};
use crate::units::System;

/// Names in one list.
fn names(kinds: &[AdjusterKind]) -> String {
    let names: Vec<String> = kinds.iter().map(|kind| kind.spoken()).collect();
    names.join(", ")
}

/// An adjuster is listed, and those with it that the rest implied until then.
pub(crate) fn added(kind: AdjusterKind, with: &[AdjusterKind]) -> String {
    let with = match with {
        [] => String::new(),
        with => format!(
            " A list is all the bow has, so these are listed with it: {}.",
            names(with)
        ),
    };
    format!(
        "Listed: {}. Its step and travel are the usual ones.{with}",
        kind.spoken()
    )
}

/// An adjuster, by its name, is off the card; with the last one those hold
/// again that the rest implies.
pub(crate) fn taken_off(name: &str, implied: Option<&[AdjusterKind]>) -> String {
    let implied = implied.map_or_else(String::new, |kinds| {
        format!(
            " It was the last one listed. The rest implies: {}.",
            names(kinds)
        )
    });
    format!("Off the card: {name}.{implied}")
}

/// What Enter does on the line that adds one.
pub(crate) const CHOOSE: &str = "Press Enter and choose which.";
/// What Enter does on the line that takes one off.
pub(crate) const TAKE_OFF: &str = "Press Enter if the bow does not have it.";

/// What a line of an adjuster means; `item` is its name in the file.
pub(crate) fn explained(kind: AdjusterKind, item: &str, system: System) -> Option<String> {
    let unit = kind.unit().id();
    let (minus, plus) = kind.directions();
    let (step, travel) = kind.defaults();
    let units = match kind.unit() {
        AdjusterUnit::Turn | AdjusterUnit::Twist if travel > 1.0 => format!("{unit}s"),
        _ => unit.to_owned(),
    };
    Some(match item {
        "step" => format!("One step: a click, a turn or a twist, such as {step} {unit}."),
        "range" => format!("Travel each way from the start position, such as {travel} {units}."),
        "backlash" => format!("Lost motion on a reversal, such as 0.1 {unit}."),
        "clockwise" => {
            format!("Where a clockwise turn of its screw moves it: {minus} or {plus}.")
        }
        "reading" => {
            let reading = match system {
                System::Mm => "20.6 mm",
                System::Inch => "0.81 in",
            };
            format!("The calipers' reading at the start position, such as {reading}.")
        }
        "clicks" => "Whether its steps are felt as clicks: true or false.".into(),
        _ => return None,
    })
}

/// What adding one means, where the rest implies these or a list stands.
pub(crate) fn adding(implied: Option<&[AdjusterKind]>) -> String {
    match implied {
        Some(kinds) => format!(
            "None is listed, so the rest's kind implies them. A list is all the bow has: the first one takes these with it: {}.",
            names(kinds)
        ),
        None => "The adjusters listed above are all the bow has. This lists one more.".into(),
    }
}

/// What taking this one off means; `last` where it is the only one listed.
pub(crate) fn taking_off(name: &str, last: bool) -> String {
    match last {
        true => format!(
            "{} is the only one listed. Without it the rest's kind implies the adjusters again.",
            capital(name)
        ),
        false => format!(
            "This takes the {name} off the card. No move with it is advised any more. What was moved stays moved."
        ),
    }
}

/// Over the list of kinds that can be added; `none` where there is no other.
pub(crate) const fn which(none: bool) -> &'static str {
    match none {
        true => "This bow has every adjuster there is.",
        false => {
            "Which adjuster does this bow have as well? Its step and travel can be changed afterwards."
        }
    }
}
