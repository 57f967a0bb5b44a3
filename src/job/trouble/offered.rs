//! A remedy that is offered for a weak or stiff arrow: what is done, with its
//! figures. Its sentences are made in [`crate::words`].

use crate::physics::remedies::{Effects, RemedyKind};
use crate::question::Answer;

/// One remedy, sized, with its side effects.
#[derive(Debug, Clone, PartialEq)]
pub struct Offer {
    /// The answer that says it was done: plunger, point, weight, shafts or cut.
    pub id: Answer,
    /// What is done, with its figures.
    pub kind: OfferKind,
    /// Whether it brings the arrow inside the band, with the one it goes with
    /// if there is one; `None` where it is not computed.
    pub reaches: Option<bool>,
    /// The offer before it that it goes with, by its id: neither does alone.
    pub with: Option<Answer>,
    /// The card change it amounts to, as key and value.
    pub card: Option<(&'static str, String)>,
}

impl Offer {
    /// Load ratio afterwards, 1 as the bow wants it, where computed.
    pub const fn load_ratio(&self) -> Option<f64> {
        match &self.kind {
            OfferKind::Plunger { .. } => None,
            OfferKind::Sized(size) => Some(size.after.load_ratio),
        }
    }

    /// Whether it can be undone.
    pub fn reversible(&self) -> bool {
        self.id != Answer::Cut
    }
}

/// What is done.
#[derive(Debug, Clone, PartialEq)]
pub enum OfferKind {
    /// The plunger by an eighth to a quarter turn. Firmer makes the arrow act
    /// stiffer (direction printed), whatever the hand.
    Plunger {
        /// Firmer, not softer.
        firmer: bool,
    },
    /// Something of a size.
    Sized(Box<Offered>),
}

/// A remedy of a size: masses in kg, forces in N, lengths in m, static spine
/// in inches.
#[derive(Debug, Clone, PartialEq)]
pub struct Offered {
    /// What is changed.
    pub remedy: RemedyKind,
    /// From.
    pub(crate) from: f64,
    /// To.
    pub(crate) to: f64,
    /// What it goes with, and to which size.
    pub with: Option<(RemedyKind, f64)>,
    /// The build as it is.
    pub now: Effects,
    /// The build afterwards.
    pub after: Effects,
    /// How it is done, and within what.
    pub(crate) taken: Taken,
}

/// How a remedy is done, and within what.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Taken {
    /// Another point.
    Point,
    /// Both limb bolts turned.
    Bolts {
        /// In, for more weight.
        up: bool,
        /// Turns for the change: least and most.
        turns: (f64, f64),
        /// Most turns out, by the bow maker.
        most_out: Option<f64>,
        /// The maker's least weight where it goes down, the greatest where it
        /// goes up, pounds.
        edge: Option<f64>,
    },
    /// Other shafts.
    Shafts,
    /// The arrow is cut.
    Cut {
        /// Inches that stay past the rest contact at least.
        leaves: f64,
        /// Why so many.
        why: Leaves,
    },
}

/// Why so much of a shaft stays past the rest contact.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Leaves {
    /// The archer is a junior.
    Junior,
    /// The draw ends at a wall.
    Wall,
    /// Nothing ends the draw.
    NoClicker,
}
