//! The stages of proof: what they are called, and how each is shot safely.

use super::super::caution;
use crate::cautions::Caution;
use crate::gear::{Card, Release};
use crate::proof::{GroupKind, Stage};
use crate::units::System;

/// What a stage is called.
pub const fn title(stage: Stage) -> &'static str {
    match stage {
        Stage::Levels => "Levels",
        Stage::RoughSight => "Rough sight",
        Stage::Creep => "Creep",
        Stage::BareShaft => "Bare shaft",
        Stage::WalkBack => "Walk-back",
        Stage::NearFar => "Near and far line",
        Stage::Broadhead => "Broadhead",
        Stage::Groups => "Groups",
        Stage::Torque => "Torque",
        Stage::FinalSight => "Final sight",
    }
}

/// A kind of arrow or of shot in a sentence: `turned left`.
pub const fn kind(kind: GroupKind) -> &'static str {
    match kind {
        GroupKind::Fletched => "fletched",
        GroupKind::Bare => "bare",
        GroupKind::Field => "field",
        GroupKind::Broadhead => "broadhead",
        GroupKind::Normal => "normal",
        GroupKind::Hard => "hard",
        GroupKind::TurnedLeft => "turned left",
        GroupKind::TurnedRight => "turned right",
    }
}

/// How a stage is shot.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Instructions {
    /// What to shoot.
    pub how: String,
    /// Safety of it.
    pub safety: String,
    /// What is excluded first.
    pub(crate) confound: &'static str,
    /// What its tolerance rests on.
    pub standing: &'static str,
}

const RANGE: &str = "Backstop larger than the worst miss, nobody beyond the bow, range commands.";

/// How a stage is shot on this bow.
pub(crate) fn instructions(stage: Stage, card: &Card, system: System) -> Instructions {
    let fingers = card.bow.release == Release::Fingers;
    let of = |how: &str, safety: &str, confound, standing| Instructions {
        how: how.into(),
        safety: safety.into(),
        confound,
        standing,
    };
    let at = |m: f64| system.paced(m);
    match stage {
        Stage::Levels => of(
            "Bow upright by the string, arrow level, sight bar square, second axis, then third axis by tilting the bow up and down. Answer levels ok.",
            "No arrow on the string.",
            "nothing; every later stage rests on it",
            "two magazine articles on sight axes",
        ),
        Stage::RoughSight => of(
            &format!(
                "3 fletched arrows from about {} at one spot; move the sight toward the miss.",
                at(5.0)
            ),
            RANGE,
            "a canted bow",
            "from memory",
        ),
        Stage::Creep => creep(system),
        Stage::Torque => of(
            "3 or 4 arrows with the bow hand turned a little left (the front of the bow points left), then 3 or 4 turned a little right, same aim. Only left or right counts.",
            "A little only: a bow turned far can throw the string off a cam or onto the arm. Arm guard on, backstop wider than the worst miss, range commands.",
            "turning more one way than the other; cant: watch the level",
            "from memory; the limit is common practice, no source",
        ),
        Stage::BareShaft => of(
            &format!(
                "3 fletched and 2 or 3 bare shafts, same aim, sight untouched; first from {}, then from {} to {}. Within about {} at {} is good.",
                at(5.0),
                system.paced_number(14.0),
                at(18.0),
                together(fingers, system),
                at(18.0)
            ),
            "Bare shafts can plane and miss the butt: start close, step back only while they hit it. The bare shaft must stay over the safety floor in weight.",
            "contact: a shaft that strikes the riser kicks and fakes a stiffness (powder test first)",
            "from memory; skilled traditional archers to 30 yd, a forum",
        ),
        Stage::WalkBack => walk_back(fingers, system),
        Stage::NearFar => of(
            &format!(
                "A vertical line: from {} set the SIGHT so that 3 arrows hit it; from {} to {} shoot 3 or more at the same line. The far ones move with the REST.",
                at(3.0),
                system.paced_number(30.0),
                at(60.0)
            ),
            RANGE,
            "levels, as for walk-back",
            "from memory",
        ),
        Stage::Broadhead => of(
            &format!(
                "3 field points and 3 broadheads of the same weight, heads spun true, one aim, {}, later {} to {}.",
                at(18.0),
                system.paced_number(27.0),
                at(36.0)
            ),
            "At full draw the head stays ahead of hand and riser. Dedicated broadhead target, nobody near; wrench, not fingers; one at a time; count them back. Never flex a shaft with a broadhead on.",
            "heads of another weight or out of true; vanes touching",
            "from memory; some re-sight when only about 2 in apart and grouping",
        ),
        Stage::Groups => of(
            "6 to 8 arrows at a line or spot, here and at the setting before: the narrower wins.",
            RANGE,
            "a tired archer; the better day",
            "an arrow maker's tuning guide",
        ),
        Stage::FinalSight => of(
            "6 arrows at each distance wanted, nearest first; move the pin toward the miss, mark it.",
            RANGE,
            "light and wind",
            "similar triangles, worked by hand",
        ),
    }
}

/// How near bare shafts and fletched land where that is good.
const fn together(fingers: bool, system: System) -> &'static str {
    match (fingers, system) {
        (true, System::Mm) => "10 cm",
        (false, System::Mm) => "5 cm",
        (true, System::Inch) => "4 in",
        (false, System::Inch) => "2 in",
    }
}

fn creep(system: System) -> Instructions {
    Instructions {
        how: format!(
            "A horizontal tape, sighted in at about {}: 3 or 4 arrows held at the wall as always, then 3 or 4 pulled hard into it, same aim. Only high or low counts. Later again from {} to {}.",
            system.paced(18.0),
            system.paced_number(27.0),
            system.paced(36.0)
        ),
        safety: format!(
            "{} Never ease forward out of the valley on purpose: the bow can run away with the arrow. Backstop larger than the worst miss, range commands.",
            caution(Caution::HardWall)
        ),
        confound: "draw length and draw stops loose; a different anchor when pulling hard",
        standing: "a forum thread on creep tuning (hybrid cams); the limit is common practice, no source",
    }
}

fn walk_back(fingers: bool, system: System) -> Instructions {
    let [near, second, third] = [18.0, 27.0, 32.0].map(|m| system.paced_number(m));
    Instructions {
        how: format!(
            "A plumb line with a spot at its top, one sight setting (the nearest): 2 or 3 arrows at the spot from {near}, {second}, {third} and {}, in calm air. The column runs down: does it slant{}?",
            system.paced(36.0),
            if fingers { ", does it curve" } else { "" }
        ),
        safety: "Arrows drop with distance: backstop down to the ground, solid bank behind.".into(),
        confound: "sight second and third axis, canted bow: the most frequent cause of a diagonal. Wind bends and slants a line too.",
        standing: if fingers {
            "slant: centre shot, curve: plunger tension (common practice, no source); a forum thread on walk-back; levels: a shop manager's article"
        } else {
            "a forum thread on walk-back; levels: a shop manager's article"
        },
    }
}
