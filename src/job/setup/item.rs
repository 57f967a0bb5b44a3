//! One item of the checklist: what is written down for it, when it is in
//! order, what it rests on. What it says is made in [`crate::words`].

use crate::cautions::Caution;
use crate::question::SetupItem;

/// Part of the work an item belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// The range, before anything is drawn.
    Range,
    /// The bow itself.
    Bow,
    /// String, nocking point, rest, sight.
    Fit,
    /// The arrows.
    Arrows,
    /// Last, before the first shot.
    Last,
    /// What is seen at the first shot.
    FirstShot,
}

/// What a figure or a habit rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Standing {
    /// A printed source.
    Source(Source),
    /// Printed sources that disagree.
    Disputed(Source),
    /// Common practice, no source.
    CommonPractice,
    /// Remembered from printed guides.
    FromMemory,
}

/// The printed sources of the list; named in [`crate::words`], in general terms
/// or by a standard's number.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Source {
    /// What arrow makers and a national federation say on carbon arrows.
    ArrowSafety,
    /// The least arrow weight for a draw weight; the agreement of the parts has no source.
    LeastWeight,
    /// A coach's article on sets of arrows; what a hunting set may differ by is remembered.
    SetOfArrows,
    /// Two standards for the method; the limit has no source.
    Straightness,
    /// A club's note on the powder test.
    PowderTest,
    /// A club journal on marking sight and rest.
    Marking,
    /// Two guides on what is on the bow while it is tuned.
    AllOn,
    /// A bow maker's sheet for owners.
    OwnerCare,
    /// How many shots a string takes to settle; two figures.
    StringShots,
    /// A standard for the measure, a course for the fit.
    DrawLength,
    /// A bow maker on marked weights; the limit has no source.
    MarkedWeight,
    /// A shop manager's checklist; the limit has no source.
    CompoundTiller,
    /// A magazine and a club on tiller.
    FingerTiller,
    /// A warranty page and a checklist on limb bolts.
    LimbBolts,
    /// A column and a diary on cam timing.
    CamTiming,
    /// When cam lean is looked at; two ways.
    CamLean,
    /// A magazine's course; the figure is worked out.
    Backstop,
    /// How far the paper stands; four figures.
    PaperDistance,
    /// Two articles on the axes of a sight.
    SightAxes,
    /// How tight a nock sits; three ways.
    NockFit,
    /// A forum on nocking points off the shelf.
    ShelfNocking,
    /// An arrow maker's guide on centre shot.
    CentreShot,
    /// A coach's note on plunger tension.
    PlungerTension,
}

/// What is written down for an item.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Measure {
    /// `ok`, or what is wrong in words.
    Look,
    /// A length with its unit.
    Length,
    /// A sideways offset: `2 mm out`, `1 mm in`, `0`.
    OutIn,
    /// A height: `3 mm high`, `1 mm low`, `0`.
    HighLow,
    /// Two lengths, top then bottom: `190 mm / 187 mm`.
    TopBottom,
    /// Turns out from seated, top then bottom: `2 / 2`.
    Turns,
    /// A draw weight.
    Force,
    /// A whole number.
    Count,
    /// One mass.
    Mass,
    /// One mass for each arrow, in order: `412 gr, 411.5, 413 ...`.
    Masses,
    /// A run-out, with its span: `0.003 in over 28 in`.
    RunOut,
    /// Free text to be kept.
    Note,
}

/// When a measured value is in order. Lengths in mm, forces in lb, masses in gr.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Rule {
    /// Judged by eye: `ok` is in order, anything else is not.
    Eye,
    /// Only recorded.
    Record,
    /// Between these, both included.
    Between(f64, f64),
    /// At least this.
    AtLeast(f64),
    /// At most this.
    AtMost(f64),
    /// Within `tolerance` of `target`.
    Near {
        /// Wanted value.
        target: f64,
        /// Half-width of the band.
        tolerance: f64,
    },
    /// Top minus bottom between these.
    TopMinusBottom(f64, f64),
    /// Run-out scaled to the 28 in span at most this, mm (total indicator reading).
    StraightnessAtMost(f64),
    /// Spread of a set at most this.
    SpreadAtMost(f64),
}

/// What makes an item due again once it has been answered.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(crate) struct Again {
    /// Press work, or a new string or cable.
    pub press: bool,
    /// A rest-height move.
    pub(crate) rest_height: bool,
    /// Another arrow on the card.
    pub arrow: bool,
    /// A move of the limb bolts or the brace height.
    pub(crate) limbs: bool,
}

impl Again {
    /// Never due again by itself.
    pub(crate) const NEVER: Self = Self {
        press: false,
        rest_height: false,
        arrow: false,
        limbs: false,
    };
    /// Due again after press work.
    pub(crate) const PRESS: Self = Self {
        press: true,
        ..Self::NEVER
    };
    /// Due again after press work or a change at the limbs.
    pub(crate) const PRESS_OR_LIMBS: Self = Self {
        press: true,
        limbs: true,
        ..Self::NEVER
    };
    /// Due again with other arrows.
    pub(crate) const ARROW: Self = Self {
        arrow: true,
        ..Self::NEVER
    };
}

/// One item of the checklist, fitted to a card.
#[derive(Debug, Clone, PartialEq)]
pub struct Item {
    /// Stable name, as recorded.
    pub id: SetupItem,
    /// Part of the work.
    pub part: Part,
    /// The caution that stands before it.
    pub caution: Option<Caution>,
    /// What its starting value rests on.
    pub standing: Standing,
    /// What is written down.
    pub measure: Measure,
    /// When the value is in order.
    pub(crate) rule: Rule,
    /// What makes it due again.
    pub(crate) again: Again,
    /// Needed before anything is drawn.
    pub gate: bool,
}

impl Item {
    pub(super) fn new(id: SetupItem, part: Part) -> Self {
        Self {
            id,
            part,
            caution: None,
            standing: Standing::CommonPractice,
            measure: Measure::Look,
            rule: Rule::Eye,
            again: Again::NEVER,
            gate: false,
        }
    }
    pub(super) fn careful(mut self, caution: Caution) -> Self {
        self.caution = Some(caution);
        self
    }
    pub(super) fn standing(mut self, standing: Standing) -> Self {
        self.standing = standing;
        self
    }
    pub(super) fn measured(mut self, measure: Measure, rule: Rule) -> Self {
        self.measure = measure;
        self.rule = rule;
        self
    }
    pub(super) fn again(mut self, again: Again) -> Self {
        self.again = again;
        self
    }
    pub(super) fn gate(mut self) -> Self {
        self.gate = true;
        self
    }
}
