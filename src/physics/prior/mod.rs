//! What response to expect of a bow before its first shot: a Monte Carlo over
//! everything nobody publishes.
//!
//! The result is as wide as the ignorance behind it. For one bow the sideways
//! sign hangs on how stiffly its string holds the nock, so a release-aid bow
//! may well come out near even chances.

mod bows;
mod summary;

pub(crate) use bows::draw_unknowns;

use super::bow::{BowSpec, Losses};
use super::column::ArrowSpec;
use super::kinds::{RestKind, Setup};
use super::modes::FreeModes;
use crate::gear::{AdjusterKind, Card};
use bows::{Answers, answers};
use serde::{Deserialize, Serialize};
use summary::{Spread, gain, middle};

/// Changes whenever the same seed would give other numbers.
pub const MODEL_VERSION: u32 = 1;
/// Virtual bows drawn in everyday work.
pub const DRAWS: usize = 128;
/// A tear no paper shows: bows that throw the arrow further are left out, mm.
pub const WILD_MM: f64 = 1000.0;
/// Adjusters the model can move. The plunger's tip moves like the rest
/// sideways, and a plunger's tension counts only on a plunger; yoke, cams,
/// limb bolts and brace height it cannot move.
pub const MODELLED: [AdjusterKind; 5] = [
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
    pub typical_size: f64,
    /// Chance that it is negative.
    pub probability_negative: f64,
    /// How much the slope wanders: variance of the slope's change per mm (or
    /// turn) moved, middle value over the bows drawn.
    pub slope_walk: f64,
    /// The same, mean over the bows: larger where some bows have sharp kinks.
    pub slope_walk_mean: f64,
    /// Difference of the slopes either side of the start over their sum in
    /// size, middle value: 0 straight, 1 a corner.
    pub kink: f64,
}

/// What to expect of one bow before its first shot.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ResponsePrior {
    /// Version of the model that made it.
    pub model_version: u32,
    /// Seed it was made with.
    pub seed: u64,
    /// Bows drawn and not left out as wild.
    pub draws: usize,
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
}

impl Case {
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
pub fn response_prior(card: &Card, seed: u64) -> Option<ResponsePrior> {
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
    let modes = FreeModes::of(&case.arrow);
    let bows: Vec<Answers> = draw_unknowns(&case.setup, seed, draws)
        .iter()
        .map(|u| answers(case, &modes, u, &adjusters))
        .filter(Answers::tame)
        .collect();
    if 2 * bows.len() <= draws {
        return None;
    }
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
        gains,
        start_mean_mm: start.map(|s| s.mean),
        start_sd_mm: start.map(|s| s.sd),
        scatter_mm: std::array::from_fn(|i| middle(axis(&|b| b.scatter, i))),
    })
}

#[cfg(test)]
mod tests {
    use super::super::column::tests::common_arrow;
    use super::super::kinds::{BowKind, Hand, Release};
    use super::*;

    fn case(rest: RestKind) -> Case {
        let fingers = rest == RestKind::Plunger;
        let bow = super::super::bow::tests::compound(if fingers { 40.0 } else { 60.0 }, 19.25);
        let (kind, release) = if fingers {
            (BowKind::Recurve, Release::Fingers)
        } else {
            (BowKind::Compound, Release::Aid)
        };
        let mut arrow = common_arrow();
        if fingers {
            arrow.ei = super::super::spine::ei_from_spine(0.600);
        }
        Case {
            arrow,
            bow: BowSpec { kind, ..bow },
            setup: Setup {
                kind,
                release,
                rest,
                hand: Hand::Right,
            },
            paper_m: 2.0,
        }
    }

    fn prior(rest: RestKind, seed: u64) -> ResponsePrior {
        response_prior_of(&case(rest), &MODELLED, seed, DRAWS).expect("a launch")
    }

    #[test]
    fn the_same_seed_gives_the_same_prior_and_another_nearly_the_same() {
        let (one, other) = (prior(RestKind::DropAway, 1), prior(RestKind::DropAway, 2));
        assert_eq!(one, prior(RestKind::DropAway, 1));
        assert_ne!(one.gains, other.gains);
        for (a, b) in one.gains.iter().zip(&other.gains) {
            assert!((a.mean - b.mean).abs() < 0.4 * a.sd, "{a:?} {b:?}");
        }
    }

    #[test]
    fn a_release_aid_leaves_the_sideways_sign_of_a_drop_away_open() {
        let prior = prior(RestKind::DropAway, 1);
        let gain = prior.gain(AdjusterKind::RestSideways).expect("modelled");
        assert!((0.25..0.9).contains(&gain.probability_negative), "{gain:?}");
        assert!((1.0..5.0).contains(&gain.typical_size), "{gain:?}");
    }

    #[test]
    fn fingers_on_a_button_answer_more_and_with_a_kink() {
        let aid = *prior(RestKind::DropAway, 1)
            .gain(AdjusterKind::RestSideways)
            .expect("modelled");
        let button = *prior(RestKind::Plunger, 1)
            .gain(AdjusterKind::RestSideways)
            .expect("modelled");
        assert!(
            button.typical_size > 1.5 * aid.typical_size,
            "{button:?} {aid:?}"
        );
        assert!(button.kink > 0.1 && aid.kink < 0.05, "{button:?} {aid:?}");
        assert!(
            button.slope_walk > 1.0 && aid.slope_walk < 0.1,
            "{button:?} {aid:?}"
        );
    }

    #[test]
    fn a_left_handed_bow_has_the_same_gains_and_the_mirrored_start() {
        let right = prior(RestKind::Plunger, 3);
        let mut case = case(RestKind::Plunger);
        case.setup.hand = Hand::Left;
        let left = response_prior_of(&case, &MODELLED, 3, DRAWS).expect("a launch");
        let apart = |a: f64, b: f64| (a - b).abs() > 1e-9 * (1.0 + a.abs());
        for (a, b) in right.gains.iter().zip(&left.gains) {
            // A button's tension has no side of its own: its answer mirrors.
            let way = if a.adjuster == AdjusterKind::PlungerTension {
                -1.0
            } else {
                1.0
            };
            assert!(!apart(a.mean, way * b.mean), "{a:?} {b:?}");
        }
        assert!(!apart(right.start_mean_mm[0], -left.start_mean_mm[0]));
        assert!(!apart(right.start_mean_mm[1], left.start_mean_mm[1]));
    }

    #[test]
    fn what_the_model_cannot_move_is_left_out() {
        let kinds = [AdjusterKind::YokeTwist, AdjusterKind::RestHeight];
        let prior = response_prior_of(&case(RestKind::Blade), &kinds, 1, 10).expect("a launch");
        assert_eq!(prior.gains.len(), 1);
        assert!(prior.gain(AdjusterKind::YokeTwist).is_none());
    }

    #[test]
    fn a_prior_survives_being_written_down() {
        let prior = prior(RestKind::Capture, 1);
        let text = toml::to_string(&prior).expect("plain numbers");
        assert_eq!(
            toml::from_str::<ResponsePrior>(&text).expect("its own text"),
            prior
        );
    }

    #[test]
    fn a_bow_that_cannot_launch_gives_no_prior_and_a_hopeless_arrow_no_nonsense() {
        let mut none = case(RestKind::Blade);
        none.bow.brace_height_m = none.bow.draw_length_m;
        assert!(response_prior_of(&none, &MODELLED, 1, 10).is_none());
        for spine in [0.02, 0.8, 1.5, 3.0, 20.0] {
            let mut weak = case(RestKind::DropAway);
            weak.arrow.ei = super::super::spine::ei_from_spine(spine);
            if let Some(prior) = response_prior_of(&weak, &MODELLED, 1, 40) {
                assert!(prior.start_sd_mm.iter().all(|sd| *sd < WILD_MM), "{spine}");
                assert!(
                    prior.gains.iter().all(|gain| gain.sd.is_finite()),
                    "{spine}"
                );
            }
        }
    }
}
