//! The inspection after an incident: every part, one at a time.

use super::node::{Node, Path, Then};
use crate::gear::BowKind;
use crate::session::Timeline;

/// Parts looked at after a dry fire, a derailed string, a struck or broken
/// arrow, a lost nock or a missed backstop: name, what to look for, compound only.
pub const INSPECTION: &[(&str, &str, bool)] = &[
    (
        "inspect-string",
        "String and cables: unload the bow as its maker says, eye protection on. Cut or frayed strands, loops, servings moved, the string back in its tracks.",
        false,
    ),
    (
        "inspect-limbs",
        "Limbs and pockets: run a cotton ball over both faces and edges; cracks, splinters, lifted layers, twist. Flex nothing by hand.",
        false,
    ),
    (
        "inspect-cams",
        "Cams, axles, clips, bearings, cable guard: bent, chipped, cracked, a clip gone, a cam that leans as it did not.",
        true,
    ),
    (
        "inspect-riser",
        "Riser, limb bolts, grip and every screw: cracks at the pockets and holes, loose bolts.",
        false,
    ),
    (
        "inspect-rest",
        "Rest, plunger, sight: bent, loosened, moved off their witness marks; nocking point and loop still tight.",
        false,
    ),
    (
        "inspect-arrows",
        "Every arrow that was near it: look, feel, flex away from people, twist, nock, insert. A lost or split nock, a struck shaft: destroy it.",
        false,
    ),
    (
        "inspect-range",
        "The backstop, and where the arrow went: found, nobody there, backstop whole.",
        false,
    ),
];

pub(super) fn path(timeline: &Timeline) -> Path {
    let compound = timeline.card.bow.kind == BowKind::Compound;
    let mut nodes: Vec<Node> = INSPECTION
        .iter()
        .filter(|(.., only_compound)| compound || !only_compound)
        .map(|(id, text, _)| {
            Node::test(id, *text)
                .next("sound", "nothing found, go on")
                .fix("damaged", "do not draw the bow", "do not draw or shoot it. A cracked limb, bent cam or doubtful part goes to the maker or a trained person; replace it, then look at this part again and answer sound")
        })
        .collect();
    nodes.push(
        Node::test(
            "inspection",
            "All parts sound? In doubt a trained person looks. Then draw slowly a little way at the backstop with an arrow nocked, and let down: no creak, no shift.",
        )
        .resume("clear", "inspected and fit to shoot. First shots close in, with an arrow that was not part of it")
        .fix("doubt", "do not shoot", "take the bow to its maker or a trained person; the bow maker's own rules come first"),
    );
    Path {
        nodes,
        end: Then::Next,
    }
}
