//! What a step says, as types with figures. Its sentences are made in
//! [`crate::words`].

use super::Offer;
use crate::gear::{AdjusterKind, BoltsLimit};
use crate::question::{Answer, InspectPart, SetupItem, Test};

/// What a step says.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Says {
    /// What is to be answered.
    Asks(Asked),
    /// The end of the path: go on with paper.
    Resume(Resumed),
    /// The end of the path: this is fixed first.
    Fix {
        /// What is fixed.
        what: Fix,
        /// Whether the card has the last word: no answer lifts it.
        by_card: bool,
    },
}

/// What is to be answered.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Asked {
    /// A test or a question with its own words.
    Test(Test),
    /// A test that is described on the list before paper, under this item.
    OnTheList(Test, SetupItem),
    /// Whether there is more to move than the card says.
    CardComplete {
        /// What the card says.
        has: Vec<AdjusterKind>,
        /// Whether brace height may be among the rest.
        brace: bool,
    },
    /// Which of the offers for a weak or stiff arrow was done.
    Offers {
        /// The arrow is weak, not stiff.
        weak: bool,
        /// It may not be shot at all.
        stopped: bool,
        /// Cutting is left out for want of a full draw mark.
        wants_mark: bool,
    },
    /// A part of the inspection after an incident.
    Part(InspectPart),
}

/// Why paper goes on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Resumed {
    /// By the answer to a test.
    Answered(Test, Answer),
    /// Nothing was found that makes the tear jump.
    NothingFound,
    /// The powder test is clean.
    PowderClean,
    /// What was found is fixed.
    Fixed,
}

/// What is fixed first.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Fix {
    /// What an answer to a test found.
    Answered(Test, Answer),
    /// One of the offers for a weak or stiff arrow.
    Offered(Box<Offer>),
    /// A damaged part, after an incident.
    Part,
    /// What is left when every step was harmless.
    End(End),
}

/// What is left when every step of a path was harmless.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum End {
    /// Go on with paper.
    Resume(Resumed),
    /// No arrow at hand suits the bow.
    NoSuchArrow(NoSuchArrow),
    /// Nothing cheap explains the scatter: fresh shots that would show it is
    /// under its limit, where it is really six and eight tenths of it.
    Scatter(u32, u32),
    /// Nothing explains a rest that does nothing.
    NoResponse,
    /// Nothing explains a rest that does not reach.
    Travel,
    /// Nothing explains a huge tear.
    HugeTear,
    /// Nothing can be moved that way; brace height may be on a bow with a
    /// string to twist.
    NothingToMove {
        /// Whether the card has brace height as an adjuster.
        brace: bool,
    },
    /// The arrow is too light.
    TooLight {
        /// Least arrow weight, grains.
        least: f64,
        /// Draw weight, pounds.
        pounds: f64,
    },
    /// The arrow is too short.
    TooShort,
    /// The bow has to be weighed.
    WeighFirst,
    /// The limb bolts are past the maker's limit.
    PastLimit(BoltsLimit),
}

/// What is left of an arrow that does not suit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum NoSuchArrow {
    /// It is not shot on this bow.
    Stopped,
    /// There are only these.
    OnlyThese,
    /// Other shafts.
    Others,
}
