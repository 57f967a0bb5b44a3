//! What can be wrong with a practice bow, and how it shows itself.

use crate::practice::Fault;

/// How a fault shows itself before anybody is told: what to look for next
/// time.
pub(crate) const fn tell_tale(fault: Fault) -> &'static str {
    match fault {
        Fault::OffCentre => "Shots agree, all to one side. A move of the rest moves them all.",
        Fault::Height => "Shots agree, all high or all low. A move of the height moves them all.",
        Fault::Backwards => "The first move makes the tear longer, or sends it the other way.",
        Fault::Weak => {
            "The spine check fails before any shot, and the scale bears the draw weight out."
        }
        Fault::Stiff => "The spine check fails before any shot, with fingers on the string.",
        Fault::PoorArcher => {
            "Shots at one setting disagree, to no side in particular. Another shooter's are tighter."
        }
        Fault::Contact => {
            "Holes are ragged, tears jump from shot to shot, and the powder shows marks."
        }
        Fault::Label => "The spine check fails, and the scale shows less than the card.",
    }
}
