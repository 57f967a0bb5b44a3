//! A figure held against its limit.

/// What a figure of a check or a reason is counted in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unit {
    /// Millimetres on the paper.
    Mm,
    /// Grains.
    Gr,
    /// Pounds of draw weight.
    Lb,
    /// Grains of arrow for each pound of draw weight.
    GrPerLb,
    /// Inches.
    Inch,
    /// Turns of a limb bolt.
    Turn,
    /// Times a reference figure.
    Times,
    /// A probability, 0 to 1.
    Chance,
    /// A share of an adjuster's travel, 0 to 1.
    Travel,
    /// A number of shots.
    Shots,
}

impl Unit {
    /// The unit in JSON.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Mm => "mm",
            Self::Gr => "gr",
            Self::Lb => "lb",
            Self::GrPerLb => "gr/lb",
            Self::Inch => "in",
            Self::Turn => "turn",
            Self::Times => "x",
            Self::Chance => "chance",
            Self::Travel => "travel",
            Self::Shots => "shots",
        }
    }
}

/// A figure, its limit, and the unit of both.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Figure {
    /// The figure.
    pub(crate) value: f64,
    /// What it is held against.
    pub(crate) limit: f64,
    /// The unit of both.
    pub unit: Unit,
}

impl Figure {
    /// A figure held against a limit.
    pub const fn new(value: f64, limit: f64, unit: Unit) -> Self {
        Self { value, limit, unit }
    }
}
