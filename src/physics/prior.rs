//! What response to expect of a bow before its first shot: a Monte Carlo over
//! everything nobody publishes.
//!
//! The result is as wide as the ignorance behind it. For one bow the sideways
//! sign hangs on how stiffly its string holds the nock, so a release-aid bow
//! may well come out near even chances.

use super::bow::BowSpec;
use super::column::ArrowSpec;
use super::kinds::{RestKind, Setup};
use super::launch::STEP_S;
use super::modes::FreeModes;
use super::rng::Rng;
use super::unknowns::{Unknowns, ranges};
use super::virtual_bow::{Disturbance, Settings, Steadiness, VirtualBow};
use crate::gear::{AdjusterKind, Axis, Card};
use serde::{Deserialize, Serialize};

/// Changes whenever the same seed would give other numbers.
pub const MODEL_VERSION: u32 = 1;
/// Virtual bows drawn in everyday work.
pub const DRAWS: usize = 128;
/// Shortest power stroke the launch is reckoned for, m.
pub const SHORTEST_STROKE_M: f64 = 0.1;
/// Positions each adjuster is tried at, in its unit, from the start.
const PLACES: [f64; 5] = [-3.0, -1.5, 0.0, 1.5, 3.0];
/// Turns of a button for each unit place.
const TURNS: f64 = 0.5;

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

/// Settings with one adjuster moved to a place, in its own unit.
fn settings_at(adjuster: AdjusterKind, place: f64) -> Settings {
    let mut settings = Settings::default();
    match adjuster {
        AdjusterKind::RestHeight => settings.rest_up_mm = place,
        AdjusterKind::NockingPoint => settings.nock_up_mm = place,
        AdjusterKind::PlungerTension => settings.plunger_turns = place,
        _ => settings.rest_side_mm = place,
    }
    settings
}

/// The axis it answers on: 0 sideways, 1 up and down.
fn axis_of(adjuster: AdjusterKind) -> usize {
    usize::from(adjuster.axis() == Axis::Vertical)
}

/// Size in the adjuster's unit of one of [`PLACES`].
fn unit_of(adjuster: AdjusterKind) -> f64 {
    if adjuster == AdjusterKind::PlungerTension {
        TURNS
    } else {
        1.0
    }
}

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
    /// Bows drawn.
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

/// The prior for a card, with the adjusters it has and the model knows.
///
/// `None` when the card describes no launch: a power stroke of less than
/// [`SHORTEST_STROKE_M`].
#[must_use]
pub fn response_prior(card: &Card, seed: u64) -> Option<ResponsePrior> {
    let kinds: Vec<AdjusterKind> = card.adjusters.iter().map(|a| a.kind).collect();
    let case = super::card::case(card);
    (case.bow.stroke_m() >= SHORTEST_STROKE_M)
        .then(|| response_prior_of(&case, &kinds, seed, DRAWS))
}

/// The prior for a case from a given number of virtual bows; adjusters the
/// model does not know are left out.
///
/// The draws fill every range evenly (Latin hypercube), and the highest and
/// lowest fiftieth of each figure are drawn in to the value at their edge, so
/// that a few wild bows do not decide a mean.
///
/// # Panics
/// If `draws` is zero.
#[must_use]
pub fn response_prior_of(
    case: &Case,
    adjusters: &[AdjusterKind],
    seed: u64,
    draws: usize,
) -> ResponsePrior {
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
        .collect();
    let gains = adjusters
        .iter()
        .enumerate()
        .map(|(k, a)| gain(*a, &bows, k))
        .collect();
    let axis = |f: &dyn Fn(&Answers) -> [f64; 2], i: usize| {
        bows.iter().map(|b| f(b)[i]).collect::<Vec<_>>()
    };
    let start: [Spread; 2] = std::array::from_fn(|i| Spread::of(axis(&|b| b.start, i)));
    ResponsePrior {
        model_version: MODEL_VERSION,
        seed,
        draws,
        gains,
        start_mean_mm: start.map(|s| s.mean),
        start_sd_mm: start.map(|s| s.sd),
        scatter_mm: std::array::from_fn(|i| middle(axis(&|b| b.scatter, i))),
    }
}

/// What one virtual bow does.
struct Answers {
    start: [f64; 2],
    scatter: [f64; 2],
    /// For each adjuster, slopes over the four intervals between places.
    slopes: Vec<[f64; 4]>,
}

fn answers(
    case: &Case,
    modes: &FreeModes,
    unknowns: &Unknowns,
    adjusters: &[AdjusterKind],
) -> Answers {
    let bow: VirtualBow =
        VirtualBow::with_modes(&case.arrow, &case.bow, &case.setup, unknowns, STEP_S, modes);
    let paper = bow.paper(case.paper_m);
    let still = Disturbance::default();
    let start = bow.tear_mm(&Settings::default(), &still, &paper);
    let slopes = adjusters
        .iter()
        .map(|adjuster| {
            let tears = PLACES.map(|place| {
                if place == 0.0 {
                    start[axis_of(*adjuster)]
                } else {
                    bow.tear_mm(
                        &settings_at(*adjuster, unit_of(*adjuster) * place),
                        &still,
                        &paper,
                    )[axis_of(*adjuster)]
                }
            });
            std::array::from_fn(|i| {
                (tears[i + 1] - tears[i]) / ((PLACES[i + 1] - PLACES[i]) * unit_of(*adjuster))
            })
        })
        .collect();
    let steady = Steadiness::average(case.setup.release);
    let release = Disturbance {
        release_ns: steady.release_ns,
        ..still
    };
    let drift = Disturbance {
        drift_m: steady.drift_m,
        ..still
    };
    let by: [[f64; 2]; 2] =
        [release, drift].map(|shot| bow.tear_mm(&Settings::default(), &shot, &paper));
    let scatter = std::array::from_fn(|i| (by[0][i] - start[i]).hypot(by[1][i] - start[i]));
    Answers {
        start,
        scatter,
        slopes,
    }
}

fn gain(adjuster: AdjusterKind, bows: &[Answers], k: usize) -> Gain {
    let width = (PLACES[1] - PLACES[0]) * unit_of(adjuster);
    let each =
        |f: &dyn Fn(&[f64; 4]) -> f64| bows.iter().map(|b| f(&b.slopes[k])).collect::<Vec<_>>();
    let mean_slope = |s: &[f64; 4]| s.iter().sum::<f64>() / 4.0;
    // A slope that walks with variance q per mm differs between neighbouring
    // intervals of width h, each averaged, by a variance of 2 q h / 3.
    let walk = |s: &[f64; 4]| {
        let squares: f64 = s.windows(2).map(|w| (w[1] - w[0]).powi(2)).sum();
        squares / 3.0 * 1.5 / width
    };
    let kink = |s: &[f64; 4]| {
        let (a, b) = (0.5 * (s[0] + s[1]), 0.5 * (s[2] + s[3]));
        (a - b).abs() / (a.abs() + b.abs()).max(1e-9)
    };
    let slopes = each(&mean_slope);
    let negative = slopes.iter().filter(|s| **s < 0.0).count() as f64 / slopes.len() as f64;
    let spread = Spread::of(slopes.clone());
    Gain {
        adjuster,
        mean: spread.mean,
        sd: spread.sd,
        typical_size: middle(slopes.iter().map(|s| s.abs()).collect()),
        probability_negative: negative,
        slope_walk: middle(each(&walk)),
        slope_walk_mean: Spread::of(each(&walk)).mean,
        kink: middle(each(&kink)),
    }
}

/// Latin hypercube over all ranges.
pub(crate) fn draw_unknowns(setup: &Setup, seed: u64, draws: usize) -> Vec<Unknowns> {
    assert!(draws > 0, "no bows to draw");
    let mut rng = Rng::new(seed);
    let ranges = ranges(setup);
    let columns: Vec<Vec<f64>> = ranges
        .list()
        .iter()
        .map(|_| {
            let mut column: Vec<f64> = (0..draws)
                .map(|i| (i as f64 + rng.share()) / draws as f64)
                .collect();
            for i in (1..draws).rev() {
                column.swap(i, rng.below(i + 1));
            }
            column
        })
        .collect();
    (0..draws)
        .map(|draw| {
            let mut column = columns.iter();
            ranges.choose(|range| range.at(column.next().map_or(0.5, |c| c[draw])))
        })
        .collect()
}

#[derive(Clone, Copy)]
struct Spread {
    mean: f64,
    sd: f64,
}

impl Spread {
    /// Mean and standard deviation with the outer fiftieths drawn in.
    fn of(mut values: Vec<f64>) -> Self {
        values.sort_by(f64::total_cmp);
        let n = values.len();
        let edge = n / 50;
        let (low, high) = (values[edge], values[n - 1 - edge]);
        let count = n as f64;
        let mean = values.iter().map(|v| v.clamp(low, high)).sum::<f64>() / count;
        let square = values
            .iter()
            .map(|v| (v.clamp(low, high) - mean).powi(2))
            .sum::<f64>();
        Self {
            mean,
            sd: (square / (count - 1.0).max(1.0)).sqrt(),
        }
    }
}

fn middle(mut values: Vec<f64>) -> f64 {
    values.sort_by(f64::total_cmp);
    let n = values.len();
    0.5 * (values[(n - 1) / 2] + values[n / 2])
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
        response_prior_of(&case(rest), &MODELLED, seed, DRAWS)
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
        let left = response_prior_of(&case, &MODELLED, 3, DRAWS);
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
        let prior = response_prior_of(&case(RestKind::Blade), &kinds, 1, 10);
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
}
