//! What the safety check finds: a danger, something that is waited for, or
//! that all is in order, each with its figures.

use super::build::{LEAST_GPP, LEAST_REACH_IN, TRADITIONAL_GPP, Whose};
use super::waiting::Waiting;
use crate::checks::{Figure, Status, Unit};
use crate::gear::BowKind;
use crate::question::{InspectPart, Refusal, SetupItem};
use crate::range::Due;

/// What forbids the next shot, with its figures.
#[derive(Debug, Clone, PartialEq)]
pub enum Danger {
    /// An incident with parts that nobody looked at since.
    Incident {
        /// What happened, as it was entered.
        what: String,
        /// Its entry.
        entry: u32,
        /// The parts that still wait to be looked at.
        open: Vec<InspectPart>,
        /// What kind of bow they are of.
        bow: BowKind,
    },
    /// The limb bolts stand further out than their maker allows.
    PastTurns {
        /// Turns out from fully seated.
        out: f64,
        /// Most turns out, by the bow maker.
        most: f64,
        /// Whether they were counted from fully seated; at least so many where not.
        counted: bool,
    },
    /// The draw weight is over the bow maker's greatest, pounds.
    OverWeight {
        /// What it draws.
        pounds: f64,
        /// The greatest.
        most: f64,
    },
    /// The arrow is too light for the bow.
    TooLight {
        /// What it weighs, grains.
        grains: f64,
        /// The least it may weigh, grains.
        least: f64,
        /// Whose figure that is.
        whose: Whose,
        /// The draw weight, pounds.
        pounds: f64,
        /// Without its fletching.
        bare: bool,
        /// With a trial point.
        trial: bool,
    },
    /// The shaft reaches too little past the rest contact at full draw, inches.
    TooShort(f64),
    /// The arrow is too weak to be shot at all.
    FarTooWeak {
        /// The load ratio.
        ratio: f64,
        /// The load ratio past which it is not shot.
        limit: f64,
        /// Whether the bow was weighed.
        weighed: bool,
        /// Without its fletching.
        bare: bool,
    },
    /// The limb bolts stand further in than when the draw weight was known.
    WeighFirst {
        /// So many turns further in.
        turns: f64,
        /// What the bow may draw then.
        worst: Worst,
    },
    /// Forbidden by what was measured before paper, and not by the card.
    AsMeasured {
        /// What was measured.
        what: Vec<SetupItem>,
        /// What forbids the shot with those figures.
        then: Box<Danger>,
    },
}

/// What a bow may draw whose bolts were turned in.
#[derive(Debug, Clone, PartialEq)]
pub enum Worst {
    /// So many pounds by the rule of thumb, and what would forbid the shot then.
    Draws(f64, Box<Danger>),
    /// No figure of pounds a turn is known for this kind of bow, and the
    /// arrow was light already, gr/lb.
    NoFigure(BowKind, f64),
    /// No figure of pounds a turn is known for this kind of bow, and its maker's
    /// own limit is near: how it stood before the turns.
    MakersLimit(BowKind, Figure),
}

impl Danger {
    /// The stop it is.
    pub fn refusal(&self) -> Refusal {
        match self {
            Self::Incident { .. } => Refusal::Incident,
            Self::PastTurns { .. } | Self::OverWeight { .. } => Refusal::PastLimit,
            Self::TooLight { .. } => Refusal::TooLight,
            Self::TooShort(_) => Refusal::TooShort,
            Self::FarTooWeak { .. } => Refusal::FarTooWeak,
            Self::WeighFirst { .. } => Refusal::WeighFirst,
            Self::AsMeasured { then, .. } => then.refusal(),
        }
    }

    /// What forbids the shot, whichever figures it was worked out from.
    pub(crate) fn itself(&self) -> &Self {
        match self {
            Self::AsMeasured { then, .. } => then.itself(),
            other => other,
        }
    }

    /// Whether both forbid the shot for the same reason, whatever their figures.
    pub(crate) fn is_like(&self, other: &Self) -> bool {
        std::mem::discriminant(self.itself()) == std::mem::discriminant(other.itself())
    }

    /// Its figure, where it has one.
    pub fn figure(&self) -> Option<Figure> {
        Some(match self {
            Self::Incident { .. } => return None,
            Self::PastTurns { out, most, .. } => Figure::new(*out, *most, Unit::Turn),
            Self::OverWeight { pounds, most } => Figure::new(*pounds, *most, Unit::Lb),
            Self::TooLight { grains, least, .. } => Figure::new(*grains, *least, Unit::Gr),
            Self::TooShort(reach) => Figure::new(*reach, LEAST_REACH_IN, Unit::Inch),
            Self::FarTooWeak { ratio, limit, .. } => Figure::new(*ratio, *limit, Unit::Times),
            Self::AsMeasured { then, .. } => return then.figure(),
            Self::WeighFirst { worst, .. } => match worst {
                Worst::Draws(_, danger) => return danger.figure(),
                Worst::NoFigure(_, gpp) => Figure::new(*gpp, TRADITIONAL_GPP, Unit::GrPerLb),
                Worst::MakersLimit(_, now) => *now,
            },
        })
    }
}

/// What the safety check found.
#[derive(Debug, Clone, PartialEq)]
pub enum Safety {
    /// The next shot is forbidden.
    Danger(Danger),
    /// Nothing that is known forbids it, and something is not known.
    Waits(Vec<Waiting>),
    /// A line of the card cannot be read, and a limit may have stood on it.
    CardDamaged,
    /// An entry of the file is lost, and it may have been an incident or a
    /// change of the card.
    FileHasHoles,
    /// The range safety list comes before the shot; what else there is to say
    /// of it follows.
    RangeListFirst(Due, Box<Safety>),
    /// The shaft's end stands behind the grip pivot at full draw, inches.
    Overdraw(f64),
    /// Light for a bow of this kind, gr/lb: a question for its maker.
    Light(BowKind, f64),
    /// In order.
    Ok {
        /// Grains for each pound.
        gpp: f64,
        /// Inches of shaft past the rest contact at full draw.
        reach: f64,
        /// What forbids shooting it without its fletching.
        bare: Option<Danger>,
    },
}

impl Safety {
    /// How the check stands.
    pub const fn status(&self) -> Status {
        match self {
            Self::Danger(_) => Status::Fail,
            Self::Waits(_) | Self::CardDamaged | Self::FileHasHoles | Self::RangeListFirst(..) => {
                Status::Pending
            }
            Self::Overdraw(_) | Self::Light(..) => Status::Borderline,
            Self::Ok { .. } => Status::Pass,
        }
    }

    /// Its figure, where it has one.
    pub fn figure(&self) -> Option<Figure> {
        match self {
            Self::Danger(danger) => danger.figure(),
            Self::Waits(_) | Self::CardDamaged | Self::FileHasHoles => None,
            Self::RangeListFirst(_, then) => then.figure(),
            Self::Overdraw(behind) => Some(Figure::new(-behind, 0.0, Unit::Inch)),
            Self::Light(_, gpp) => Some(Figure::new(*gpp, TRADITIONAL_GPP, Unit::GrPerLb)),
            Self::Ok { gpp, .. } => Some(Figure::new(*gpp, LEAST_GPP, Unit::GrPerLb)),
        }
    }
}
