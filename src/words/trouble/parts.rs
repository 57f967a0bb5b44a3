//! The parts looked at after an incident.

use crate::gear::BowKind;
use crate::question::InspectPart;
use crate::session::Timeline;

/// A part's name in a list, on a bow of this kind.
pub const fn part(part: InspectPart, kind: BowKind) -> &'static str {
    let compound = matches!(kind, BowKind::Compound);
    match part {
        InspectPart::String if compound => "string and cables",
        InspectPart::String => "string",
        InspectPart::Limbs if compound => "limbs and pockets",
        InspectPart::Limbs => "limbs",
        InspectPart::Cams => "cams, axles and cable guard",
        InspectPart::Riser => "riser and every screw",
        InspectPart::Rest => "rest and sight",
        InspectPart::Arrows => "arrows",
        InspectPart::Range => "backstop",
        InspectPart::Draw => "slow draw, last",
    }
}

/// A part's heading, and what to look for.
const fn looked_at(part: InspectPart, kind: BowKind) -> (&'static str, &'static str) {
    let compound = matches!(kind, BowKind::Compound);
    match part {
        InspectPart::String if compound => (
            "String and cables",
            "unload the bow as its maker says, eye protection on. Cut or frayed strands, loops, servings moved, the string back in its tracks.",
        ),
        InspectPart::String => (
            "String",
            "unstring the bow with a stringer. Cut or frayed strands, loops and their servings, the centre serving moved, a loop that sits wrong in its groove.",
        ),
        InspectPart::Limbs if compound => (
            "Limbs and pockets",
            "run a cotton ball over both faces and edges; cracks, splinters, lifted layers, twist. Flex nothing by hand.",
        ),
        InspectPart::Limbs => (
            "Limbs",
            "run a cotton ball over both faces, edges and tips; cracks, splinters, lifted layers, a limb that twists off the string's line. Flex nothing by hand.",
        ),
        InspectPart::Cams => (
            "Cams, axles, clips, bearings, cable guard",
            "bent, chipped, cracked, a clip gone, a cam that leans as it did not.",
        ),
        InspectPart::Riser if compound => (
            "Riser, limb bolts, grip and every screw",
            "cracks at the pockets and holes, loose bolts.",
        ),
        InspectPart::Riser if matches!(kind, BowKind::Longbow) => (
            "Handle and grip",
            "cracks, lifted glue lines, the arrow shelf.",
        ),
        InspectPart::Riser => (
            "Riser, limb seats, grip and every screw",
            "cracks at seats and holes, loose bolts, limbs fully seated.",
        ),
        InspectPart::Rest if compound => (
            "Rest and sight",
            "bent, loosened, moved off their witness marks; nocking point and loop still tight.",
        ),
        InspectPart::Rest => (
            "Rest, plunger, sight",
            "bent, loosened, moved off their witness marks; nocking point still tight.",
        ),
        InspectPart::Arrows => (
            "Every arrow that was near it",
            "look, feel, flex away from people, twist, nock, insert. A lost or split nock, a struck shaft: destroy it.",
        ),
        InspectPart::Range => (
            "The backstop, and where the arrow went",
            "found, nobody there, backstop whole.",
        ),
        InspectPart::Draw => (
            "Slow draw, last",
            "in doubt a trained person looks first. Point at the backstop with an undamaged arrow nocked, draw slowly a little way, and let down: no creak, no shift.",
        ),
    }
}

/// A part's heading on a bow of this kind.
pub(crate) const fn part_title(part: InspectPart, kind: BowKind) -> &'static str {
    looked_at(part, kind).0
}

/// A part with what to look for; its heading stands before the colon.
pub(crate) fn part_in_full(part: InspectPart, kind: BowKind) -> String {
    let (title, look) = looked_at(part, kind);
    format!("{title}: {look}")
}

/// The parts still open, in a few words: `limbs; cams, axles and cable guard`.
pub(crate) fn still_open(timeline: &Timeline) -> Option<String> {
    let incident = timeline.open_incident()?;
    let kind = timeline.card.bow.kind;
    let open = timeline.parts_open(incident);
    let names: Vec<&str> = open.iter().map(|p| part(*p, kind)).collect();
    Some(names.join("; "))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_recurve_is_not_asked_about_cams_and_cables() {
        for part in InspectPart::of(BowKind::Recurve) {
            let text = part_in_full(part, BowKind::Recurve).to_lowercase();
            for word in ["cam", "cable", "pocket", "axle", "track", "loop still"] {
                assert!(!text.contains(word), "{word}: {text}");
            }
        }
    }
}
