//! The stages of proof, in order, and how each is shot safely.

use crate::gear::{BowKind, Card, Release};
pub use crate::question::Stage;

/// How a stage is shot.
#[derive(Debug, Clone, PartialEq)]
pub struct Instructions {
    /// What to shoot.
    pub how: String,
    /// Safety of it.
    pub safety: &'static str,
    /// What is excluded first.
    pub confound: &'static str,
    /// What its tolerance rests on.
    pub standing: &'static str,
}

const RANGE: &str = "Backstop larger than the worst miss, nobody beyond the bow, range commands.";

impl Stage {
    /// What it is called.
    pub const fn title(self) -> &'static str {
        match self {
            Self::Levels => "Levels",
            Self::RoughSight => "Rough sight",
            Self::Creep => "Creep",
            Self::BareShaft => "Bare shaft",
            Self::WalkBack => "Walk-back",
            Self::NearFar => "Near and far line",
            Self::Broadhead => "Broadhead",
            Self::Groups => "Groups",
            Self::Torque => "Torque",
            Self::FinalSight => "Final sight",
        }
    }

    /// What is shot at it, as recorded with a group; empty for levels.
    pub const fn whats(self) -> &'static [&'static str] {
        match self {
            Self::Levels => &[],
            Self::Creep => &["normal", "hard"],
            Self::Torque => &["turned-left", "turned-right"],
            Self::BareShaft => &["fletched", "bare"],
            Self::Broadhead => &["field", "broadhead"],
            _ => &["fletched"],
        }
    }

    /// Distance to begin with, m.
    pub fn distance_m(self, card: &Card) -> f64 {
        match self {
            Self::Levels => 0.0,
            Self::RoughSight => 5.0,
            Self::BareShaft
            | Self::Broadhead
            | Self::FinalSight
            | Self::WalkBack
            | Self::Creep
            | Self::Torque => 18.0,
            Self::NearFar => 3.0,
            Self::Groups if card.bow.kind == BowKind::Compound => 18.0,
            Self::Groups => 30.0,
        }
    }

    /// Distances in the order they are shot, m: what a line shows is said, and
    /// a move suggested, once all of them are shot.
    pub fn distances_m(self, card: &Card) -> Vec<f64> {
        match self {
            Self::BareShaft => vec![5.0, 18.0],
            Self::WalkBack => vec![18.0, 27.0, 32.0, 36.0],
            Self::NearFar => vec![3.0, 30.0],
            _ => vec![self.distance_m(card)],
        }
    }

    /// How far apart the two groups may land, or the group from the spot, mm, at a distance.
    pub fn tolerance_mm(self, card: &Card, distance_m: f64) -> f64 {
        let at_18 = match (self, card.bow.release) {
            (Self::BareShaft, Release::Fingers) => 100.0,
            (Self::RoughSight, _) => 150.0,
            // Half of what bare shafts are allowed: common practice, no source.
            (Self::FinalSight | Self::Creep, _) => 25.0,
            _ => 50.0,
        };
        at_18 * (distance_m / 18.0).max(0.2)
    }

    /// Usual for this bow: broadheads are not asked of a recurve or longbow,
    /// and nobody is asked for what is optional.
    pub fn usual(self, card: &Card) -> bool {
        match self {
            Self::Broadhead => card.bow.kind == BowKind::Compound,
            Self::Creep | Self::Torque => false,
            _ => true,
        }
    }

    /// Optional for this bow: there is a wall to hold against, a rest to move
    /// fore and aft.
    pub fn optional(self, card: &Card) -> bool {
        matches!(self, Self::Creep | Self::Torque) && card.bow.kind == BowKind::Compound
    }

    /// A kind of arrow or of shot in a sentence: `turned left`.
    pub fn spoken(what: &str) -> String {
        what.replace('-', " ")
    }

    /// How it is shot.
    pub fn instructions(self, card: &Card) -> Instructions {
        let fingers = card.bow.release == Release::Fingers;
        match self {
            Self::Levels => Instructions {
                how: "Bow upright by the string, arrow level, sight bar square, second axis, then third axis by tilting the bow up and down. Answer levels ok.".into(),
                safety: "No arrow on the string.",
                confound: "nothing: it is the confound of all that follow",
                standing: "two magazine articles on sight axes",
            },
            Self::RoughSight => Instructions {
                how: "3 fletched arrows from about 5 m at one spot; move the sight toward the miss.".into(),
                safety: RANGE,
                confound: "a canted bow",
                standing: "from memory",
            },
            Self::Creep => Instructions {
                how: "A horizontal tape, sighted in at about 18 m: 3 or 4 arrows held at the wall as always, then 3 or 4 pulled hard into it, same aim. Only high or low counts. Later again from 27 to 36 m.".into(),
                safety: "Point at the backstop, arrow on the string, finger off the trigger until aimed. Pull straight back and smoothly; stop where an arm shakes, and let down slowly. Never ease forward out of the valley on purpose: the bow can run away with the arrow. Backstop larger than the worst miss, range commands.",
                confound: "draw length and draw stops loose; a different anchor when pulling hard",
                standing: "a forum thread on creep tuning (hybrid cams); the limit is common practice, no source",
            },
            Self::Torque => Instructions {
                how: "3 or 4 arrows with the bow hand turned a little left (the front of the bow points left), then 3 or 4 turned a little right, same aim. Only left or right counts.".into(),
                safety: "A little only: a bow turned far can throw the string off a cam or onto the arm. Arm guard on, backstop wider than the worst miss, range commands.",
                confound: "turning more one way than the other; cant: watch the level",
                standing: "from memory; the limit is common practice, no source",
            },
            Self::BareShaft => Instructions {
                how: format!(
                    "3 fletched and 2 or 3 bare shafts, same aim, sight untouched; first from 5 m, then 15 to 20 yd. {}",
                    if fingers { "Within about 10 cm at 18 m is good" } else { "Within about 5 cm at 18 m is good" }
                ),
                safety: "Bare shafts can plane and miss the butt: start close, step back only while they land inside. The bare shaft must stay over the safety floor in weight.",
                confound: "contact: a shaft that strikes the riser kicks and fakes a stiffness (powder test first)",
                standing: "from memory; skilled traditional archers to 30 yd, a forum",
            },
            Self::WalkBack => Instructions {
                how: format!(
                    "A plumb line with a spot at its top, one sight setting (the nearest): 2 or 3 arrows at the spot from 18, 27, 32 and 36 m, in calm air. The column runs down: does it slant{}?",
                    if fingers { ", does it curve" } else { "" }
                ),
                safety: "Arrows drop with distance: backstop down to the ground, solid bank behind.",
                confound: "sight second and third axis, canted bow: the most frequent cause of a diagonal. Wind bends and slants a line too",
                standing: if fingers {
                    "slant: centre shot, curve: plunger tension (common practice, no source); a forum thread on walk-back; levels: a shop manager's article"
                } else {
                    "a forum thread on walk-back; levels: a shop manager's article"
                },
            },
            Self::NearFar => Instructions {
                how: "A vertical line: from 3 m set the SIGHT so that 3 arrows hit it; from 30 to 60 m shoot 3 or more at the same line. The far ones move with the REST.".into(),
                safety: RANGE,
                confound: "levels, as for walk-back",
                standing: "from memory",
            },
            Self::Broadhead => Instructions {
                how: "3 field points and 3 broadheads of the same weight, heads spun true, one aim, 18 m, later 27 to 36 m.".into(),
                safety: "At full draw the head stays ahead of hand and riser. Dedicated broadhead target, nobody near; wrench, not fingers; one at a time; count them back. Never flex a shaft with a broadhead on.",
                confound: "heads of another weight or out of true; vanes touching",
                standing: "from memory; some re-sight when only about 2 in apart and grouping",
            },
            Self::Groups => Instructions {
                how: "6 to 8 arrows at a line or spot, here and at the setting before: the narrower wins.".into(),
                safety: RANGE,
                confound: "a tired archer; the better day",
                standing: "an arrow maker's tuning guide",
            },
            Self::FinalSight => Instructions {
                how: "6 arrows at each distance wanted, nearest first; move the pin toward the miss, mark it.".into(),
                safety: RANGE,
                confound: "light and wind",
                standing: "similar triangles, worked by hand",
            },
        }
    }
}
