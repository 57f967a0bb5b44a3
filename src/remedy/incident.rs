//! The inspection after an incident: every part, one at a time, a slow draw last.

use super::node::{Node, Path, Then};
use crate::gear::{BowKind, Card};
use crate::session::Timeline;

/// One step of the inspection.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Inspect {
    /// The test's name, as recorded.
    pub id: &'static str,
    /// What to look for; its name stands before the colon.
    pub text: &'static str,
    /// Only a compound has it.
    compound: bool,
    /// The answer when it is in order, and when not.
    pub good: &'static str,
    bad: &'static str,
}

const fn part(id: &'static str, compound: bool, text: &'static str) -> Inspect {
    Inspect {
        id,
        text,
        compound,
        good: "sound",
        bad: "damaged",
    }
}

/// The last step: answered clear it ends the incident.
const LAST: Inspect = Inspect {
    id: "inspection",
    text: "Slow draw, last: all parts sound? In doubt a trained person looks. Then draw slowly a little way at the backstop with an arrow nocked, and let down: no creak, no shift.",
    compound: false,
    good: "clear",
    bad: "doubt",
};

/// What is looked at after a dry fire, a derailed string, a struck or broken
/// arrow, a lost nock or a missed backstop, on this bow; the slow draw last.
pub fn inspection(card: &Card) -> Vec<Inspect> {
    let compound = card.bow.kind == BowKind::Compound;
    let fits = |p: &Inspect| compound || !p.compound;
    PARTS.iter().copied().filter(fits).chain([LAST]).collect()
}

const PARTS: &[Inspect] = &[
    part(
        "inspect-string",
        false,
        "String and cables: unload the bow as its maker says, eye protection on. Cut or frayed strands, loops, servings moved, the string back in its tracks.",
    ),
    part(
        "inspect-limbs",
        false,
        "Limbs and pockets: run a cotton ball over both faces and edges; cracks, splinters, lifted layers, twist. Flex nothing by hand.",
    ),
    part(
        "inspect-cams",
        true,
        "Cams, axles, clips, bearings, cable guard: bent, chipped, cracked, a clip gone, a cam that leans as it did not.",
    ),
    part(
        "inspect-riser",
        false,
        "Riser, limb bolts, grip and every screw: cracks at the pockets and holes, loose bolts.",
    ),
    part(
        "inspect-rest",
        false,
        "Rest, plunger, sight: bent, loosened, moved off their witness marks; nocking point and loop still tight.",
    ),
    part(
        "inspect-arrows",
        false,
        "Every arrow that was near it: look, feel, flex away from people, twist, nock, insert. A lost or split nock, a struck shaft: destroy it.",
    ),
    part(
        "inspect-range",
        false,
        "The backstop, and where the arrow went: found, nobody there, backstop whole.",
    ),
];

pub(super) fn path(timeline: &Timeline) -> Path {
    let nodes = inspection(&timeline.card).into_iter().map(node).collect();
    Path {
        nodes,
        end: Then::Next,
    }
}

fn node(step: Inspect) -> Node {
    let node = Node::test(step.id, step.text);
    if step.id == LAST.id {
        return node
            .resume(step.good, "inspected and fit to shoot. First shots close in, with an arrow that was not part of it")
            .fix(step.bad, "do not shoot", "take the bow to its maker or a trained person; the bow maker's own rules come first");
    }
    node.next(step.good, "nothing found, go on")
        .fix(step.bad, "do not draw the bow", "do not draw or shoot it. A cracked limb, bent cam or doubtful part goes to the maker or a trained person; replace it, then look at this part again and answer sound")
}
