//! What response to expect of a bow before its first shot: a Monte Carlo over
//! everything nobody publishes.
//!
//! The result is as wide as the ignorance behind it. With a release aid the
//! sideways sign goes with the arrow's load: a weak arrow's tear goes with the
//! rest, a stiff one's against it, and near a matched one chances are even.
//! With fingers it hangs on whether the rear of the shaft slaps the button.

mod bows;
mod summary;

pub(crate) use bows::draw_unknowns;

use super::bow::{BowSpec, Losses};
use super::column::ArrowSpec;
use super::kinds::{Release, RestKind, Setup};
use super::rng::Rng;
use super::spine::{SpineBow, spine_match};
use crate::gear::{AdjusterKind, Card};
use bows::{Answers, answers};
use serde::{Deserialize, Serialize};
use summary::{Spread, gain, middle};

/// Changes whenever the same seed would give other numbers.
///
/// 1: string held up to six times as stiffly as geometry has it, late touches
/// of a button counted like others. 2: neither.
pub const MODEL_VERSION: u32 = 2;
/// Virtual bows drawn in everyday work.
pub const DRAWS: usize = 128;
/// Times as many are drawn with fingers, of which most slap the button.
const FINGER_DRAWS: usize = 2;
/// Largest share of bows that slap the button, for an arrow no weaker than
/// [`SLAP_COUNTS`]: the launch model has 57 to 65 % of them, while film has
/// the arrow leave the button before the string (Kooi, Bow-arrow interaction
/// in archery, 1998; Pekalski 1990), one archer and one machine.
const SLAP_SHARE: f64 = 0.15;
/// Load ratio above which nothing is known against a slap.
const SLAP_COUNTS: f64 = 1.2;
/// A tear no paper shows: bows that throw the arrow further are left out, mm.
pub(crate) const WILD_MM: f64 = 1000.0;
/// Adjusters the model can move. The plunger's tip moves like the rest
/// sideways, and a plunger's tension counts only on a plunger; yoke, cams,
/// limb bolts and brace height it cannot move.
pub(crate) const MODELLED: [AdjusterKind; 5] = [
    AdjusterKind::RestSideways,
    AdjusterKind::RestHeight,
    AdjusterKind::NockingPoint,
    AdjusterKind::PlungerTension,
    AdjusterKind::CentreShot,
];

/// What one adjuster can be expected to do.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Gain {
    /// The adjuster.
    pub adjuster: AdjusterKind,
    /// Mean, mm of tear per mm (or per turn) on its own axis.
    pub mean: f64,
    /// Standard deviation over the bows drawn.
    pub sd: f64,
    /// Middle size whatever the sign.
    pub(crate) typical_size: f64,
    /// Chance that it is negative.
    pub probability_negative: f64,
    /// How much the slope wanders: variance of the slope's change per mm (or
    /// turn) moved, middle value over the bows drawn.
    pub(crate) slope_walk: f64,
    /// The same, mean over the bows: larger where some bows have sharp kinks.
    pub(crate) slope_walk_mean: f64,
    /// Difference of the slopes either side of the start over their sum in
    /// size, middle value: 0 straight, 1 a corner.
    pub(crate) kink: f64,
}

/// What to expect of one bow before its first shot.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ResponsePrior {
    /// Version of the model that made it.
    pub(crate) model_version: u32,
    /// Seed it was made with.
    pub seed: u64,
    /// Bows drawn and not left out, as wild or as too many that slap.
    pub draws: usize,
    /// Share of them whose shaft slaps the button late; 0 for other rests.
    #[serde(default)]
    pub late: f64,
    /// One for each adjuster the bow has.
    pub gains: Vec<Gain>,
    /// Mean of the tear at the start, mm right and up.
    pub start_mean_mm: [f64; 2],
    /// Spread of the tear at the start, mm right and up.
    pub start_sd_mm: [f64; 2],
    /// Scatter of shots by an average archer, middle value, mm right and up.
    pub scatter_mm: [f64; 2],
}

impl ResponsePrior {
    /// The gain of one adjuster, if the bow has it.
    #[must_use]
    pub fn gain(&self, adjuster: AdjusterKind) -> Option<&Gain> {
        self.gains.iter().find(|gain| gain.adjuster == adjuster)
    }
}

/// One card in SI units.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Case {
    /// The arrow.
    pub arrow: ArrowSpec,
    /// The bow.
    pub bow: BowSpec,
    /// Kinds and hand.
    pub setup: Setup,
    /// Rest to paper, m.
    pub paper_m: f64,
    /// Whether the draw weight was read off a scale, not a label.
    pub weighed: bool,
}

impl Case {
    /// Whether fingers push the shaft against a rest that it can leave and
    /// come back to.
    #[must_use]
    pub fn one_sided(&self) -> bool {
        let held = [RestKind::DropAway, RestKind::Blade, RestKind::Capture];
        self.setup.release == Release::Fingers && !held.contains(&self.setup.rest)
    }

    /// Load ratio of the arrow, 1 for one that suits.
    #[must_use]
    pub fn load_ratio(&self) -> f64 {
        let bow = SpineBow {
            kind: self.setup.kind,
            release: self.setup.release,
            rest: self.setup.rest,
            peak_force_n: self.bow.peak_force_n,
        };
        spine_match(&self.arrow, &bow).load_ratio
    }

    /// Whether this is a launch the model can say anything about: a stroke
    /// of 0.1 to 1.2 m, an arrow of 0.3 m or more faster than 15 m/s, and
    /// paper beyond the arrow's own length.
    #[must_use]
    pub fn describes_a_launch(&self) -> bool {
        let mass = self.arrow.mass_kg();
        let speed = self
            .bow
            .speed_m_s(mass, &Losses::middling(self.bow.kind, mass));
        (0.1..=1.2).contains(&self.bow.stroke_m())
            && self.arrow.shaft_length_m >= 0.3
            && speed >= 15.0
            && self.paper_m >= self.arrow.shaft_length_m
    }
}

/// The prior for a card, with the adjusters it has and the model knows.
///
/// `None` when the card describes no launch (see
/// [`Case::describes_a_launch`]), or an arrow so weak that most of the drawn
/// bows throw it more than [`WILD_MM`] out of line.
#[must_use]
pub(crate) fn response_prior(card: &Card, seed: u64) -> Option<ResponsePrior> {
    let kinds: Vec<AdjusterKind> = card.adjusters.iter().map(|a| a.kind).collect();
    response_prior_of(&super::card::case(card), &kinds, seed, DRAWS)
}

/// The prior for a case from a given number of virtual bows; adjusters the
/// model does not know, and wild bows, are left out. `None` as for
/// [`response_prior`].
///
/// The draws fill every range evenly (Latin hypercube), and the highest and
/// lowest fiftieth of each figure are drawn in to the value at their edge, so
/// that a few odd bows do not decide a mean.
///
/// # Panics
/// If `draws` is zero.
#[must_use]
pub fn response_prior_of(
    case: &Case,
    adjusters: &[AdjusterKind],
    seed: u64,
    draws: usize,
) -> Option<ResponsePrior> {
    if !case.describes_a_launch() {
        return None;
    }
    let adjusters: Vec<AdjusterKind> = adjusters
        .iter()
        .copied()
        .filter(|kind| MODELLED.contains(kind))
        .filter(|kind| {
            *kind != AdjusterKind::PlungerTension || case.setup.rest == RestKind::Plunger
        })
        .collect();
    let draws = draws * if case.one_sided() { FINGER_DRAWS } else { 1 };
    let mut rng = Rng::new(seed ^ 0xCA4D);
    let bows: Vec<Answers> = draw_unknowns(&case.setup, seed, draws)
        .iter()
        .map(|u| answers(&bows::off_the_card(case, &mut rng), u, &adjusters))
        .filter(Answers::tame)
        .collect();
    if 2 * bows.len() <= draws {
        return None;
    }
    let bows = if case.one_sided() && case.load_ratio() <= SLAP_COUNTS {
        few_late(bows)
    } else {
        bows
    };
    let late = bows.iter().filter(|b| b.late).count() as f64 / bows.len() as f64;
    let gains = adjusters
        .iter()
        .enumerate()
        .map(|(k, a)| gain(*a, &bows, k))
        .collect();
    let axis = |f: &dyn Fn(&Answers) -> [f64; 2], i: usize| {
        bows.iter().map(|b| f(b)[i]).collect::<Vec<_>>()
    };
    let start: [Spread; 2] = std::array::from_fn(|i| Spread::of(axis(&|b| b.start, i)));
    Some(ResponsePrior {
        model_version: MODEL_VERSION,
        seed,
        draws: bows.len(),
        late,
        gains,
        start_mean_mm: start.map(|s| s.mean),
        start_sd_mm: start.map(|s| s.sd),
        scatter_mm: std::array::from_fn(|i| middle(axis(&|b| b.scatter, i))),
    })
}

/// Leaves out late ones, evenly over the draw, until they are no more than
/// [`SLAP_SHARE`]; all stay where there is no other.
fn few_late(bows: Vec<Answers>) -> Vec<Answers> {
    let late = bows.iter().filter(|b| b.late).count();
    let clean = bows.len() - late;
    let most = (SLAP_SHARE / (1.0 - SLAP_SHARE) * clean as f64) as usize;
    if clean == 0 || late <= most {
        return bows;
    }
    let mut seen = 0;
    bows.into_iter()
        .filter(|bow| {
            if bow.late {
                seen += 1;
            }
            // Each keeps its turn in `most` of them.
            !bow.late || (seen * most) / late > ((seen - 1) * most) / late
        })
        .collect()
}

#[cfg(test)]
mod tests;
