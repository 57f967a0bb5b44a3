//! Adjusters: whatever can be moved, recorded, learned, undone and put back.

use super::card::{BowKind, Hand};

/// The part of the tear an adjuster is there for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Axis {
    /// Left and right.
    Sideways,
    /// Up and down.
    Vertical,
    /// The bow as a whole (draw weight, brace height).
    Whole,
}

/// The unit an adjuster's position is counted in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum AdjusterUnit {
    /// Millimetres.
    Mm,
    /// Turns of a screw.
    Turn,
    /// Twists of a cable leg.
    Twist,
}

impl AdjusterUnit {
    /// The unit as written in the session file and in JSON.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Mm => "mm",
            Self::Turn => "turn",
            Self::Twist => "twist",
        }
    }
}

/// The kinds of adjuster, each with one sign convention seen by the shooter.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, serde::Serialize, serde::Deserialize,
)]
#[serde(rename_all = "kebab-case")]
pub enum AdjusterKind {
    /// The rest, right positive.
    RestSideways,
    /// The rest, up positive.
    RestHeight,
    /// The nocking point on the string, up positive.
    NockingPoint,
    /// Spring tension of the plunger, firmer positive.
    PlungerTension,
    /// Where the plunger's tip stands, right positive.
    CentreShot,
    /// Twists added to the left yoke leg and taken out of the right one.
    YokeTwist,
    /// The cam along its axle, right positive.
    CamShim,
    /// Limb bolts, both the same, in (more weight) positive.
    LimbBolts,
    /// Brace height, higher positive.
    BraceHeight,
}

use AdjusterKind::{
    BraceHeight, CamShim, CentreShot, LimbBolts, NockingPoint, PlungerTension, RestHeight,
    RestSideways, YokeTwist,
};

impl AdjusterKind {
    /// Every kind, in index order.
    pub const ALL: [Self; 9] = [
        RestSideways,
        RestHeight,
        NockingPoint,
        PlungerTension,
        CentreShot,
        YokeTwist,
        CamShim,
        LimbBolts,
        BraceHeight,
    ];

    /// Its place in [`Self::ALL`].
    pub(crate) const fn index(self) -> usize {
        self as usize
    }

    /// The name used on cards, in files and in JSON.
    pub const fn id(self) -> &'static str {
        match self {
            RestSideways => "rest-sideways",
            RestHeight => "rest-height",
            NockingPoint => "nocking-point",
            PlungerTension => "plunger-tension",
            CentreShot => "centre-shot",
            YokeTwist => "yoke-twist",
            CamShim => "cam-shim",
            LimbBolts => "limb-bolts",
            BraceHeight => "brace-height",
        }
    }

    /// The kind with this name.
    pub fn from_id(id: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| kind.id() == id)
    }

    /// Its name as people say it, unlike any other's: `rest sideways`.
    pub(crate) fn spoken(self) -> String {
        self.id().replace('-', " ")
    }

    /// What it is called in a sentence.
    pub(crate) const fn noun(self) -> &'static str {
        match self {
            RestSideways | RestHeight => "rest",
            NockingPoint => "nocking point",
            PlungerTension => "plunger",
            CentreShot => "plunger tip",
            YokeTwist => "yoke",
            CamShim => "cam",
            LimbBolts => "limb bolts",
            BraceHeight => "brace height",
        }
    }

    /// The part of the tear it is there for.
    pub const fn axis(self) -> Axis {
        match self {
            RestSideways | PlungerTension | CentreShot | YokeTwist | CamShim => Axis::Sideways,
            RestHeight | NockingPoint => Axis::Vertical,
            LimbBolts | BraceHeight => Axis::Whole,
        }
    }

    /// The unit its position is counted in.
    pub const fn unit(self) -> AdjusterUnit {
        match self {
            PlungerTension | LimbBolts => AdjusterUnit::Turn,
            YokeTwist => AdjusterUnit::Twist,
            _ => AdjusterUnit::Mm,
        }
    }

    /// The words for a negative and a positive amount.
    pub(crate) const fn directions(self) -> (&'static str, &'static str) {
        match self {
            RestSideways | CentreShot | CamShim => ("left", "right"),
            RestHeight | NockingPoint | BraceHeight => ("down", "up"),
            PlungerTension => ("softer", "firmer"),
            YokeTwist => ("right", "left"),
            LimbBolts => ("out", "in"),
        }
    }

    /// Whether moving it takes a bow press, and so trained hands. On a
    /// compound brace height is a check of string and cables; elsewhere it is
    /// a matter of string twists.
    pub(crate) const fn needs_press(self, bow: BowKind) -> bool {
        match self {
            YokeTwist | CamShim => true,
            BraceHeight => matches!(bow, BowKind::Compound),
            _ => false,
        }
    }

    /// Step and range each way where the card is silent (common practice, no source).
    pub(crate) const fn defaults(self) -> (f64, f64) {
        match self {
            RestSideways | RestHeight => (0.5, 8.0),
            NockingPoint => (0.5, 8.0),
            PlungerTension => (0.125, 2.0),
            CentreShot => (0.5, 5.0),
            YokeTwist => (0.5, 3.0),
            CamShim => (0.5, 2.0),
            LimbBolts => (0.25, 2.0),
            BraceHeight => (2.0, 10.0),
        }
    }

    /// The sign of a direction word for this adjuster, hand taken into account
    /// for in and out.
    pub(crate) fn sign_of(self, word: &str, hand: Hand) -> Option<f64> {
        let (minus, plus) = self.directions();
        if word == minus {
            return Some(-1.0);
        }
        if word == plus {
            return Some(1.0);
        }
        match (self, word) {
            (RestSideways | CentreShot, "in") => Some(hand.in_sign()),
            (RestSideways | CentreShot, "out") => Some(-hand.in_sign()),
            (PlungerTension, "stiffer" | "harder") => Some(1.0),
            (PlungerTension, "weaker" | "lighter") => Some(-1.0),
            (RestHeight | NockingPoint, "raise") => Some(1.0),
            (BraceHeight | RestHeight | NockingPoint, "higher") => Some(1.0),
            (BraceHeight | RestHeight | NockingPoint, "lower") => Some(-1.0),
            _ => None,
        }
    }
}

/// One adjuster as this bow has it.
#[derive(Debug, Clone, PartialEq)]
pub struct Adjuster {
    /// Which kind.
    pub kind: AdjusterKind,
    /// Smallest sensible step, in its unit; one click where it clicks.
    pub step: f64,
    /// Whether it clicks: steps can be counted without calipers.
    pub clicks: bool,
    /// Farthest it goes each way from the start, in its unit.
    pub(crate) range: f64,
    /// Play on a reversal, in its unit.
    pub(crate) backlash: f64,
    /// Sign of a clockwise turn, where known.
    pub(crate) clockwise: Option<f64>,
    /// Calipers reading at the start, mm, where taken.
    pub(crate) reading: Option<f64>,
}

/// An amount within this share of a click is that many clicks.
const NEAR_A_CLICK: f64 = 0.02;

impl Adjuster {
    /// This adjuster as the kind's defaults have it.
    pub(crate) fn standard(kind: AdjusterKind) -> Self {
        let (step, range) = kind.defaults();
        Self {
            kind,
            step,
            clicks: false,
            range,
            backlash: 0.0,
            clockwise: None,
            reading: None,
        }
    }

    /// The nearest whole number of steps to an amount.
    pub(crate) fn steps_in(&self, amount: f64) -> i64 {
        (amount / self.step).round() as i64
    }

    /// The same as whole clicks, where it clicks and the amount is so many.
    pub(crate) fn whole_clicks(&self, amount: f64) -> Option<i64> {
        let clicks = self.steps_in(amount);
        let off = (self.step * clicks as f64 - amount).abs();
        (self.clicks && off < self.step * NEAR_A_CLICK).then_some(clicks)
    }

    /// The amount rounded to whole steps.
    pub(crate) fn rounded(&self, amount: f64) -> f64 {
        // Division by the reciprocal keeps 0.1-like steps from printing as 0.30000000000000004.
        let steps = (amount / self.step).round();
        (steps * self.step * 1e9).round() / 1e9
    }

    /// The calipers reading at a position, where the start was read. A
    /// sideways reading is riser to shaft, so it grows outward.
    pub(crate) fn reading_at(&self, position: f64, hand: Hand) -> Option<f64> {
        Some(self.reading? + self.reading_sign(hand) * position)
    }

    /// Reading gained per unit of positive movement.
    pub(crate) fn reading_sign(&self, hand: Hand) -> f64 {
        match self.kind {
            RestSideways | CentreShot => -hand.in_sign(),
            _ => 1.0,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_and_indices_agree() {
        for (i, kind) in AdjusterKind::ALL.into_iter().enumerate() {
            assert_eq!(kind.index(), i);
            assert_eq!(AdjusterKind::from_id(kind.id()), Some(kind));
        }
    }

    #[test]
    fn brace_height_is_press_work_on_a_compound_and_string_twists_elsewhere() {
        assert!(BraceHeight.needs_press(BowKind::Compound));
        assert!(!BraceHeight.needs_press(BowKind::Recurve));
        assert!(!BraceHeight.needs_press(BowKind::Longbow));
        for bow in [BowKind::Compound, BowKind::Recurve] {
            assert!(YokeTwist.needs_press(bow) && CamShim.needs_press(bow));
            assert!(!LimbBolts.needs_press(bow) && !RestSideways.needs_press(bow));
        }
    }

    #[test]
    fn out_is_left_for_a_right_hander_and_right_for_a_left_hander() {
        assert_eq!(RestSideways.sign_of("out", Hand::Right), Some(-1.0));
        assert_eq!(RestSideways.sign_of("out", Hand::Left), Some(1.0));
        assert_eq!(PlungerTension.sign_of("out", Hand::Right), None);
    }

    #[test]
    fn a_reading_from_the_riser_grows_outward() {
        let rest = Adjuster {
            reading: Some(20.6),
            ..Adjuster::standard(RestSideways)
        };
        assert_eq!(rest.reading_at(-1.5, Hand::Right), Some(22.1));
        assert_eq!(rest.reading_at(1.5, Hand::Left), Some(22.1));
    }

    /// Every word of direction, for both hands, written out: minus, plus.
    #[test]
    fn each_word_of_direction_has_its_sign_for_both_hands() {
        let table: [(AdjusterKind, &str, Option<f64>, Option<f64>); 32] = [
            (RestSideways, "left", Some(-1.0), Some(-1.0)),
            (RestSideways, "right", Some(1.0), Some(1.0)),
            (RestSideways, "in", Some(1.0), Some(-1.0)),
            (RestSideways, "out", Some(-1.0), Some(1.0)),
            (CentreShot, "left", Some(-1.0), Some(-1.0)),
            (CentreShot, "right", Some(1.0), Some(1.0)),
            (CentreShot, "in", Some(1.0), Some(-1.0)),
            (CentreShot, "out", Some(-1.0), Some(1.0)),
            (RestHeight, "down", Some(-1.0), Some(-1.0)),
            (RestHeight, "up", Some(1.0), Some(1.0)),
            (RestHeight, "higher", Some(1.0), Some(1.0)),
            (RestHeight, "raise", Some(1.0), Some(1.0)),
            (RestHeight, "lower", Some(-1.0), Some(-1.0)),
            (NockingPoint, "down", Some(-1.0), Some(-1.0)),
            (NockingPoint, "up", Some(1.0), Some(1.0)),
            (NockingPoint, "higher", Some(1.0), Some(1.0)),
            (NockingPoint, "lower", Some(-1.0), Some(-1.0)),
            (PlungerTension, "softer", Some(-1.0), Some(-1.0)),
            (PlungerTension, "firmer", Some(1.0), Some(1.0)),
            (PlungerTension, "stiffer", Some(1.0), Some(1.0)),
            (PlungerTension, "harder", Some(1.0), Some(1.0)),
            (PlungerTension, "weaker", Some(-1.0), Some(-1.0)),
            (PlungerTension, "lighter", Some(-1.0), Some(-1.0)),
            (YokeTwist, "left", Some(1.0), Some(1.0)),
            (YokeTwist, "right", Some(-1.0), Some(-1.0)),
            (CamShim, "left", Some(-1.0), Some(-1.0)),
            (CamShim, "right", Some(1.0), Some(1.0)),
            (LimbBolts, "in", Some(1.0), Some(1.0)),
            (LimbBolts, "out", Some(-1.0), Some(-1.0)),
            (BraceHeight, "higher", Some(1.0), Some(1.0)),
            (BraceHeight, "lower", Some(-1.0), Some(-1.0)),
            (RestHeight, "out", None, None),
        ];
        for (kind, word, right, left) in table {
            assert_eq!(kind.sign_of(word, Hand::Right), right, "{kind:?} {word}");
            assert_eq!(kind.sign_of(word, Hand::Left), left, "{kind:?} {word}");
        }
    }

    /// Calipers read riser to shaft: only what moves at the riser has a hand.
    #[test]
    fn a_reading_grows_outward_at_the_riser_and_with_the_adjuster_elsewhere() {
        for kind in AdjusterKind::ALL {
            let there = Adjuster {
                reading: Some(20.0),
                ..Adjuster::standard(kind)
            };
            let (right, left) = match kind {
                RestSideways | CentreShot => (18.0, 22.0),
                _ => (22.0, 22.0),
            };
            assert_eq!(there.reading_at(2.0, Hand::Right), Some(right), "{kind:?}");
            assert_eq!(there.reading_at(2.0, Hand::Left), Some(left), "{kind:?}");
        }
    }

    #[test]
    fn yoke_and_shim_alone_need_a_press() {
        for kind in AdjusterKind::ALL {
            let wanted = matches!(kind, YokeTwist | CamShim);
            assert_eq!(kind.needs_press(BowKind::Recurve), wanted, "{kind:?}");
        }
    }

    #[test]
    fn where_the_card_is_silent_steps_and_travel_are_these() {
        let table = [
            (RestSideways, (0.5, 8.0)),
            (RestHeight, (0.5, 8.0)),
            (NockingPoint, (0.5, 8.0)),
            (PlungerTension, (0.125, 2.0)),
            (CentreShot, (0.5, 5.0)),
            (YokeTwist, (0.5, 3.0)),
            (CamShim, (0.5, 2.0)),
            (LimbBolts, (0.25, 2.0)),
            (BraceHeight, (2.0, 10.0)),
        ];
        for (kind, wanted) in table {
            assert_eq!(kind.defaults(), wanted, "{kind:?}");
        }
    }
}
