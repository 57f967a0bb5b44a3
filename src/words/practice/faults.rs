//! What can be wrong with a practice bow, how it shows itself, and what each
//! level holds.

use crate::practice::{Fault, Struck, WasWrong};
use crate::units::System;

/// What a level holds, as the line of a list.
pub(crate) const fn level(level: u8) -> &'static str {
    match level {
        0 | 1 => "one thing to move, a steady archer",
        2 => "either way or both, and bows whose response is reversed",
        3 => "fingers too, contact, and archers who do not repeat",
        4 => "it may not be the rest at all: weak and stiff arrows",
        _ => "two troubles at once",
    }
}

/// What was wrong with the bow.
pub(crate) fn was_wrong(found: &WasWrong, system: System) -> String {
    let way = |mm: f64, minus, plus| if mm < 0.0 { minus } else { plus };
    match found {
        WasWrong::OffCentre(mm) => format!(
            "The rest stood {} too far {}.",
            length(*mm, system),
            way(*mm, "right", "left")
        ),
        WasWrong::Height(kind, mm) => format!(
            "The {} stood {} too {}.",
            kind.noun(),
            length(*mm, system),
            way(*mm, "high", "low")
        ),
        WasWrong::Backwards => {
            "The response is reversed: the tail goes the same way as the rest.".into()
        }
        WasWrong::Weak => "The arrows were too weak for this bow.".into(),
        WasWrong::Stiff => "The arrows were too stiff for this bow and a finger release.".into(),
        WasWrong::PoorArcher => {
            "The archer's scatter was too wide for any tear to mean much.".into()
        }
        WasWrong::Contact(struck) => format!(
            "The vanes struck {} on most shots.",
            match struck {
                Struck::Rest => "the rest",
                Struck::Cable => "a cable",
                Struck::Other => "the riser",
            }
        ),
        WasWrong::Label(pounds) => format!(
            "The label showed about {pounds:.0} lb too much. The arrow suited the bow from the start."
        ),
    }
}

/// Tenths of a millimetre or hundredths of an inch, without a sign.
fn length(mm: f64, system: System) -> String {
    match system {
        System::Mm => format!("{:.1} mm", mm.abs()),
        System::Inch => format!("{:.2} in", mm.abs() / System::Inch.mm_per_unit()),
    }
}

/// How a fault shows itself before anybody is told: what to look for next
/// time.
pub(crate) const fn tell_tale(fault: Fault) -> &'static str {
    match fault {
        Fault::OffCentre => {
            "Tell-tale: shots agree, all to one side. A move of the rest moves them all."
        }
        Fault::Height => {
            "Tell-tale: shots agree, all high or all low. A move of the height moves them all."
        }
        Fault::Backwards => {
            "Tell-tale: the first move makes the tear longer, or sends it the other way."
        }
        Fault::Weak => {
            "Tell-tale: the spine check fails before any shot, and the scale agrees with the card."
        }
        Fault::Stiff => {
            "Tell-tale: the spine check fails before any shot, with fingers on the string."
        }
        Fault::PoorArcher => {
            "Tell-tale: shots at one setting disagree, to no side in particular. Another shooter's are tighter."
        }
        Fault::Contact => {
            "Tell-tale: holes are ragged, tears jump from shot to shot, the powder shows marks."
        }
        Fault::Label => "Tell-tale: the spine check fails, and the scale shows less than the card.",
    }
}
