//! What a stage of proof found, with its figures. What a finding says is made
//! in [`crate::words`].

use super::compare::Difference;
use super::drift::Drift;
use super::one_axis::Along;
use super::sight::SightMove;
use crate::checks::safety::{Carried, Danger};
use crate::session::Impact;
use crate::step::State;
use crate::units::Length;

/// Shots beyond which no forecast is given.
pub(super) const MOST_MORE: u32 = 12;

/// What a stage found. Right and up are positive, lengths in mm.
#[derive(Debug, Clone, PartialEq)]
pub enum Found {
    /// The stage was left out knowingly.
    LeftOut,
    /// How levels stand on the list before paper.
    Levels(State),
    /// Levels are not answered, and they come first.
    LevelsFirst,
    /// Nothing is shot where the bow stands.
    NotShot,
    /// A bare shaft of this arrow is too light or too weak to be shot.
    NotBare(Danger),
    /// A broadhead would stand over hand or riser at full draw.
    Strikes(Carried),
    /// Nobody measured where the riser's front is.
    RiserFrontUnknown,
    /// One of two kinds is shot.
    OneKind,
    /// Two kinds of arrow at one distance.
    Pair(PairFound),
    /// Two ways of shooting one arrow, on one axis.
    Along(AlongFound),
    /// Too little of a line is shot to fit it.
    FewDistances(Distances),
    /// A line down the face.
    Line(LineFound),
    /// Groups at one setting: scatter of single arrows.
    OneSetting {
        /// Distance it was shot at.
        distance: Length,
        /// Standard deviation of a single arrow each way.
        sd: f64,
    },
    /// Groups at two settings.
    TwoSettings {
        /// Distance they were shot at.
        distance: Length,
        /// Standard deviation of a single arrow each way, here.
        here: f64,
        /// The same at the other setting.
        there: f64,
        /// Number of the other setting.
        setting: u32,
        /// Chance that here is the narrower.
        odds: f64,
    },
    /// A group against the spot.
    Aim(AimFound),
}

/// Two kinds of arrow at one distance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PairFound {
    /// Distance judged at.
    pub distance: Length,
    /// Second kind less first.
    pub(crate) difference: Difference,
    /// How far apart they may land.
    pub(crate) limit: f64,
    /// Chance that they truly land within the limit.
    pub odds: f64,
    /// Whether the powder test comes first.
    pub(crate) powder_first: bool,
    /// How the arrow acts by where it landed, with fingers.
    pub acts: Option<Acts>,
}

/// How an arrow acts by where its bare shaft lands, with fingers.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Acts {
    /// Too weak for the bow.
    Weak,
    /// Too stiff for the bow.
    Stiff,
}

/// Two ways of shooting one arrow, on one axis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AlongFound {
    /// Distance judged at.
    pub distance: Length,
    /// Both axes of the difference.
    pub(crate) difference: Difference,
    /// The axis that is judged.
    pub(crate) along: Along,
    /// How far apart they may land.
    pub(crate) limit: f64,
    /// Chance that they truly land within the limit.
    pub odds: f64,
}

/// How many distances of a line are shot.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Distances {
    /// Shot, with two arrows or more at each.
    pub shot: usize,
    /// Asked for.
    pub asked: usize,
}

/// A line down the face.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LineFound {
    /// Its slant, and how it is bent where that is judged.
    pub drift: Drift,
    /// How far it may lean or bend.
    pub(crate) limit: f64,
    /// Chance that it leans less than that.
    pub(crate) leans_within: f64,
    /// Chance that it bends less than that, where that is judged.
    pub(crate) bends_within: Option<f64>,
    /// What it is read as; `None` while it is straight or not settled.
    pub read: Option<Read>,
    /// What it waits for, where not all of it is shot.
    pub waits: Option<Distances>,
}

impl LineFound {
    /// Chance that it is straight: the lower of both.
    pub fn odds(&self) -> f64 {
        let bends = self.bends_within.unwrap_or(1.0);
        self.leans_within.min(bends)
    }
}

/// What a line that is not straight is read as.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Read {
    /// A slant, with a release aid: the rest or a level.
    Slant,
    /// A slant, with fingers: centre shot.
    CentreShot,
    /// A slant and a curve, with fingers: centre shot first.
    Both,
    /// A curve, with fingers: plunger tension.
    Curve,
}

/// A group against the spot.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AimFound {
    /// Distance judged at.
    pub distance: Length,
    /// The group's centre from the spot.
    pub(crate) centre: Impact,
    /// How far off it may be.
    pub(crate) limit: f64,
    /// Chance that it truly lies within the limit, where arrows are enough.
    pub odds: Option<f64>,
    /// How far the pin goes, where it is to be moved and eye to pin is known.
    pub sight: Option<SightMove>,
}
