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
    /// A printed source, named in general terms or by its standard number.
    Source(&'static str),
    /// Printed sources that disagree.
    Disputed(&'static str),
    /// Common practice, no source.
    CommonPractice,
    /// Remembered from printed guides.
    FromMemory,
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
