//! The kinds of bow, release and rest, as far as the mechanics tells them
//! apart.

/// Kind of bow: decides the shape of the force-draw curve.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum BowKind {
    /// With cams and let-off.
    Compound,
    /// With curved limb tips.
    Recurve,
    /// Straight limbs.
    Longbow,
}

/// How the string is let go.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Release {
    /// A mechanical release aid.
    Aid,
    /// Fingers, tab or glove.
    Fingers,
}

/// Kind of rest: decides the contact on the way out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum RestKind {
    /// Holds both ways sideways, from below upwards, and drops away.
    DropAway,
    /// A springy blade or prong: both ways sideways, one way upwards.
    Blade,
    /// Surrounds the shaft: both ways in both planes.
    Capture,
    /// A sprung button on the riser's side and a flipper below.
    Plunger,
    /// A plain rest with a hard side plate.
    Fixed,
    /// The shaft lies on the bow's shelf against the side plate.
    Shelf,
}

/// Hand of the archer: a right-handed archer holds the bow in the left hand,
/// and the riser is to the right of the arrow.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Hand {
    /// Draws with the right hand.
    Right,
    /// Draws with the left hand.
    Left,
}

impl Hand {
    /// +1 for right, -1 for left: the side on which the riser stands.
    #[must_use]
    pub fn riser_side(self) -> f64 {
        match self {
            Self::Right => 1.0,
            Self::Left => -1.0,
        }
    }
}

/// What the launch depends on besides numbers.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Setup {
    /// Kind of bow.
    pub kind: BowKind,
    /// How the string is let go.
    pub release: Release,
    /// Kind of rest.
    pub rest: RestKind,
    /// Hand of the archer.
    pub hand: Hand,
}
