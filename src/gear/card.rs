//! The card as plain quantities.

use super::adjuster::{Adjuster, AdjusterKind};
use super::chart::MakerChart;
use crate::units::{
    Force, GRAVITY, KG_PER_GRAIN, Length, LinearMass, Mass, Share, Speed, Spine, System,
};

macro_rules! word_enum {
    ($(#[$doc:meta])* $name:ident { $($(#[$vdoc:meta])* $variant:ident = $word:literal),+ $(,)? }) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
        pub enum $name { $($(#[$vdoc])* $variant),+ }
        impl $name {
            /// The word used on cards.
            pub const fn id(self) -> &'static str {
                match self { $(Self::$variant => $word),+ }
            }
            /// The variant with this word.
            pub fn from_id(word: &str) -> Option<Self> {
                match word { $($word => Some(Self::$variant),)+ _ => None }
            }
        }
    };
}

word_enum!(
    /// Bow kinds.
    BowKind {
        /// Cams and cables.
        Compound = "compound",
        /// Recurved limbs.
        Recurve = "recurve",
        /// Longbow.
        Longbow = "longbow",
    }
);
word_enum!(
    /// Which hand the archer shoots with.
    Hand {
        /// Bow in the left hand, string in the right.
        Right = "right",
        /// Bow in the right hand, string in the left.
        Left = "left",
    }
);
word_enum!(
    /// How the string is let go.
    Release {
        /// Mechanical release aid.
        Aid = "aid",
        /// Fingers, tab or glove.
        Fingers = "fingers",
    }
);
word_enum!(
    /// Rest kinds.
    RestKind {
        /// Falls out of the way during the shot.
        DropAway = "drop-away",
        /// Springy blade or prongs.
        Blade = "blade",
        /// Surrounds the arrow.
        Capture = "capture",
        /// Flipper with a spring plunger.
        Plunger = "plunger",
        /// Stick-on or other rest without adjustment.
        Fixed = "fixed",
        /// The shelf of the bow itself.
        Shelf = "shelf",
    }
);

impl Hand {
    /// The sign of "in, toward the riser" as the shooter sees it: the riser
    /// is right of the arrow on a right-handed bow.
    pub(crate) const fn in_sign(self) -> f64 {
        match self {
            Self::Right => 1.0,
            Self::Left => -1.0,
        }
    }
}

/// The bow.
#[derive(Debug, Clone, PartialEq)]
pub struct Bow {
    /// Compound, recurve or longbow.
    pub kind: BowKind,
    /// The archer's hand.
    pub hand: Hand,
    /// Aid or fingers.
    pub release: Release,
    /// Peak weight, or scale weight at this archer's draw.
    pub peak_weight: Force,
    /// The trade's draw length: pivot point plus 1 3/4 in (ASTM F1880).
    pub(crate) draw_length: Length,
    /// String to grip pivot, undrawn.
    pub(crate) brace_height: Length,
    /// Drop from peak to holding weight; zero without cams.
    pub let_off: Share,
    /// Whether the weight was read off a scale.
    pub weighed: bool,
    /// Chronograph speed, where taken.
    pub(crate) speed: Option<Speed>,
    /// The bow maker's least arrow mass, where known.
    pub(crate) maker_min_arrow: Option<Mass>,
    /// The least weight the bow maker's limb-bolt turns allow, where known.
    pub(crate) maker_min_weight: Option<Force>,
    /// Turns out of the limb bolts from fully seated at the start, where counted.
    pub turns_out: Option<f64>,
    /// The bow maker's greatest turns out of a limb bolt, from fully seated, where known.
    pub(crate) maker_max_turns: Option<f64>,
    /// The greatest draw weight the bow maker allows, where known.
    pub(crate) maker_max_weight: Option<Force>,
    /// Axle to axle, where given.
    pub(crate) axle_to_axle: Option<Length>,
    /// What the bow is called.
    pub(crate) name: Option<String>,
}

/// The rest.
#[derive(Debug, Clone, PartialEq)]
pub struct Rest {
    /// Which kind.
    pub kind: RestKind,
    /// Rest contact ahead of the grip pivot; negative behind it.
    pub(crate) contact_ahead: Length,
    /// Nock throat to rest contact, read off a marked shaft at this archer's
    /// full draw; never a label's figure or a default.
    pub(crate) full_draw_mark: Option<Length>,
    /// The riser's front past the rest contact, where it was measured.
    pub(crate) riser_front: Option<Length>,
}

impl Rest {
    /// Whether a mark read at full draw lies more than 1/2 in from where draw
    /// length (pivot plus 1 3/4 in, ASTM F1880) and contact ahead of the pivot
    /// put the rest.
    pub(crate) fn mark_disagrees(&self, bow: &Bow) -> bool {
        let worked_out = bow.draw_length.inches() - 1.75 + self.contact_ahead.inches();
        self.full_draw_mark
            .is_some_and(|mark| (mark.inches() - worked_out).abs() > 0.5 + 1e-9)
    }
}

/// The arrow, as shot.
#[derive(Debug, Clone, PartialEq)]
pub struct Arrow {
    /// Nock throat to shaft end.
    pub(crate) shaft_length: Length,
    /// Static spine.
    pub(crate) spine: Spine,
    /// Mass per length of the bare shaft.
    pub(crate) shaft_mass: LinearMass,
    /// Point with insert.
    pub(crate) point_mass: Mass,
    /// Nock with pin or bushing.
    pub(crate) nock_mass: Mass,
    /// All vanes and wraps.
    pub(crate) vane_mass: Mass,
    /// Outside diameter.
    pub(crate) diameter: Length,
    /// A trial point about to be shot.
    pub(crate) trial_point: Option<Mass>,
    /// What the arrow maker's chart says, where it was read.
    pub(crate) maker_chart: Option<MakerChart>,
    /// No other arrows to hand.
    pub(crate) only_these: bool,
    /// Arrows in the set, where given.
    pub count: Option<u32>,
    /// What the set is called.
    pub(crate) name: Option<String>,
}

impl Arrow {
    /// Shaft mass.
    pub(crate) fn shaft(&self) -> Mass {
        Mass::from_kg(self.shaft_mass.kg_per_m() * self.shaft_length.m())
    }
    /// The point of the next shots, with its insert: the trial point where one
    /// is named.
    pub(crate) fn next_point(&self) -> Mass {
        self.trial_point.unwrap_or(self.point_mass)
    }
    /// Mass as shot.
    pub fn total_mass(&self) -> Mass {
        Mass::from_kg(self.bare_mass().kg() + self.vane_mass.kg())
    }
    /// Mass without vanes.
    pub fn bare_mass(&self) -> Mass {
        Mass::from_kg(self.shaft().kg() + self.point_mass.kg() + self.nock_mass.kg())
    }
    /// Mass of the next arrow, with the point of the next shots; without its
    /// vanes where the next shots are set to bare shafts.
    pub(crate) fn next_mass(&self, bare: bool) -> Mass {
        let vanes = if bare { 0.0 } else { self.vane_mass.kg() };
        Mass::from_kg(self.shaft().kg() + self.next_point().kg() + self.nock_mass.kg() + vanes)
    }
}

/// Grains of arrow per pound of draw weight.
pub fn grains_per_pound(mass: Mass, weight: Force) -> f64 {
    mass.grains() / weight.pounds()
}

/// A minimum written in grains per pound, as a mass for this weight.
pub(super) fn minimum_from_gpp(gpp: f64, weight: Force) -> Mass {
    Mass::from_kg(gpp * KG_PER_GRAIN * (weight.newtons() / (crate::units::KG_PER_LB * GRAVITY)))
}

/// Who shoots the bow.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct Archer {
    /// Name, where given.
    pub(crate) name: Option<String>,
    /// A junior: shorter sittings.
    pub(crate) junior: bool,
    /// Aiming eye, where given.
    pub(crate) eye: Option<String>,
}

/// The paper and what is wanted of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Paper {
    /// Rest to paper.
    pub distance: Length,
    /// Longest true mean tear, off the aim, that will do; mm.
    pub(crate) tolerance: f64,
    /// Wanted tear, mm (right, up).
    pub aim: (f64, f64),
    /// How sure before `done`, 0..1.
    pub(crate) sureness: f64,
    /// Fewest shots at the last setting before `done`, where the owner says.
    pub least_shots: Option<u32>,
    /// Display system the card was written in.
    pub system: System,
}

/// The job in the shop's own words. Never sent anywhere; the contact stays out of reports.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Job {
    /// Whose bow it is.
    pub(crate) owner: Option<String>,
    /// How to reach the owner.
    pub contact: Option<String>,
    /// Job number.
    pub number: Option<String>,
    /// Date in.
    pub(crate) received: Option<String>,
    /// Date promised.
    pub(crate) promised: Option<String>,
    /// Why the bow is here.
    pub(crate) reason: Option<String>,
    /// Condition on arrival.
    pub(crate) condition: Option<String>,
    /// Who does the work.
    pub(crate) technician: Option<String>,
    /// Owner agrees to press work.
    pub(crate) press_consent: bool,
}

/// The whole card.
#[derive(Debug, Clone, PartialEq)]
pub struct Card {
    /// The bow.
    pub bow: Bow,
    /// The rest.
    pub rest: Rest,
    /// The arrow.
    pub arrow: Arrow,
    /// The archer.
    pub(crate) archer: Archer,
    /// The paper.
    pub paper: Paper,
    /// The job.
    pub(crate) job: Job,
    /// The adjusters this bow has, at most one of a kind.
    pub adjusters: Vec<Adjuster>,
}

impl Card {
    /// The adjuster of this kind, if the bow has it.
    pub fn adjuster(&self, kind: AdjusterKind) -> Option<&Adjuster> {
        self.adjusters.iter().find(|a| a.kind == kind)
    }

    /// Whether moving this adjuster of this bow takes a bow press.
    pub(crate) const fn needs_press(&self, kind: AdjusterKind) -> bool {
        kind.needs_press(self.bow.kind)
    }

    /// The adjuster advice uses for the vertical: rest height where the bow
    /// has it, else the nocking point; never both.
    pub fn vertical(&self) -> Option<&Adjuster> {
        self.adjuster(AdjusterKind::RestHeight)
            .or_else(|| self.adjuster(AdjusterKind::NockingPoint))
    }

    /// The adjuster advice uses sideways: the rest, else the plunger's tip,
    /// else the plunger's tension.
    pub fn sideways(&self) -> Option<&Adjuster> {
        [
            AdjusterKind::RestSideways,
            AdjusterKind::CentreShot,
            AdjusterKind::PlungerTension,
        ]
        .into_iter()
        .find_map(|kind| self.adjuster(kind))
    }

    /// What to call this bow on the status line.
    pub fn title(&self) -> String {
        let name = self
            .bow
            .name
            .clone()
            .unwrap_or_else(|| self.bow.kind.id().to_owned());
        match &self.job.owner {
            Some(owner) => format!("{owner}: {name}"),
            None => name,
        }
    }
}

/// The adjusters a rest kind implies when the card lists none. Brace height
/// is one only where it is a matter of string twists, not of a press.
pub(super) fn implied(kind: RestKind, bow: BowKind) -> &'static [AdjusterKind] {
    use AdjusterKind::{BraceHeight, NockingPoint, PlungerTension, RestHeight, RestSideways};
    match kind {
        RestKind::DropAway | RestKind::Blade | RestKind::Capture => {
            &[RestSideways, RestHeight, NockingPoint]
        }
        RestKind::Plunger => &[RestSideways, NockingPoint, PlungerTension],
        RestKind::Fixed => &[NockingPoint],
        RestKind::Shelf if matches!(bow, BowKind::Compound) => &[NockingPoint],
        RestKind::Shelf => &[NockingPoint, BraceHeight],
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Brace height is press work on a compound, and no adjuster there.
    #[test]
    fn a_rest_implies_its_adjusters_and_brace_height_only_without_a_press() {
        use AdjusterKind::{BraceHeight, NockingPoint, PlungerTension, RestHeight, RestSideways};
        let both = [RestSideways, RestHeight, NockingPoint];
        for bow in [BowKind::Compound, BowKind::Recurve, BowKind::Longbow] {
            for kind in [RestKind::DropAway, RestKind::Blade, RestKind::Capture] {
                assert_eq!(implied(kind, bow), both);
            }
            let button = [RestSideways, NockingPoint, PlungerTension];
            assert_eq!(implied(RestKind::Plunger, bow), button);
            assert_eq!(implied(RestKind::Fixed, bow), [NockingPoint]);
        }
        assert_eq!(implied(RestKind::Shelf, BowKind::Compound), [NockingPoint]);
        for bow in [BowKind::Recurve, BowKind::Longbow] {
            assert_eq!(implied(RestKind::Shelf, bow), [NockingPoint, BraceHeight]);
        }
    }
}
