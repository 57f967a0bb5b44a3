//! What a shot says, as plain numbers.

/// One of the two directions of a tear.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Axis {
    /// Right is positive.
    Right,
    /// Up is positive.
    Up,
}

impl Axis {
    /// Both, right first: the order of every pair in this module.
    pub const BOTH: [Axis; 2] = [Axis::Right, Axis::Up];

    /// 0 for right, 1 for up.
    pub(crate) fn index(self) -> usize {
        self as usize
    }
}

/// Distances to the paper this near to each other, as a logarithm, are one.
const NEARLY: f64 = 0.05;

/// Whether shots from two distances, m, are shots from one: within 5 %.
pub(crate) fn same_distance(a: f64, b: f64) -> bool {
    (a / b).ln().abs() < NEARLY
}

/// Who shot. The owner is [`OWNER`]; the others are numbered as they come.
pub type Shooter = u32;

/// The owner's number.
pub const OWNER: Shooter = 0;

/// Where the adjusters are, and who shoots what from how far.
#[derive(Debug, Clone, PartialEq)]
pub struct Place {
    /// Position of each adjuster relative to the start, each in its own unit.
    pub positions: Vec<f64>,
    /// Counts what makes the tear unknown again (press work, a new arrow type).
    pub epoch: u32,
    /// Counts what changes the response too (a new arrow type).
    pub response_epoch: u32,
    /// Who shoots.
    pub shooter: Shooter,
    /// The arrow's number, when it is known.
    pub arrow: Option<u32>,
    /// Without fletching.
    pub bare: bool,
    /// Rest to paper, m.
    pub distance_m: f64,
}

impl Place {
    /// The start: all adjusters at zero, the owner, a fletched arrow.
    pub fn start(adjusters: usize, distance_m: f64) -> Self {
        Place {
            positions: vec![0.0; adjusters],
            epoch: 0,
            response_epoch: 0,
            shooter: OWNER,
            arrow: None,
            bare: false,
            distance_m,
        }
    }

    /// The same with one adjuster moved by `amount`.
    pub fn moved(&self, adjuster: usize, amount: f64) -> Self {
        let mut place = self.clone();
        place.positions[adjuster] += amount;
        place
    }

    /// The same place without a numbered arrow: what an average arrow does.
    pub(crate) fn any_arrow(&self) -> Self {
        Place {
            arrow: None,
            ..self.clone()
        }
    }

    /// Whether the adjusters stand as they do in `other`, nothing redone between.
    pub fn same_setting(&self, other: &Place) -> bool {
        self.epoch == other.epoch
            && self.response_epoch == other.response_epoch
            && self.positions.len() == other.positions.len()
            && self
                .positions
                .iter()
                .zip(&other.positions)
                .all(|(a, b)| (a - b).abs() < 1e-6)
    }
}

/// One shot through the paper.
#[derive(Debug, Clone, PartialEq)]
pub struct Obs {
    /// Where the adjusters were, who shot, which arrow, from where.
    pub place: Place,
    /// Called bad by the shooter before looking: counted, never used.
    pub called_bad: bool,
    /// The tear, nock less point, right and up, mm.
    pub tear: [f64; 2],
}
