//! The virtual bows a prior is drawn from, and what each does.

use super::super::kinds::Setup;
use super::super::launch::STEP_S;
use super::super::modes::FreeModes;
use super::super::rng::Rng;
use super::super::unknowns::{Unknowns, ranges};
use super::super::virtual_bow::{Disturbance, Settings, Steadiness, VirtualBow};
use super::{Case, WILD_MM};
use crate::gear::{AdjusterKind, Axis};

/// Positions each adjuster is tried at, in its unit, from the start.
pub(super) const PLACES: [f64; 5] = [-3.0, -1.5, 0.0, 1.5, 3.0];
/// Turns of a button for each unit place.
const TURNS: f64 = 0.5;

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
pub(super) fn unit_of(adjuster: AdjusterKind) -> f64 {
    if adjuster == AdjusterKind::PlungerTension {
        TURNS
    } else {
        1.0
    }
}

/// What one virtual bow does.
pub(super) struct Answers {
    pub(super) start: [f64; 2],
    pub(super) scatter: [f64; 2],
    /// For each adjuster, slopes over the four intervals between places.
    pub(super) slopes: Vec<[f64; 4]>,
    /// Whether the rear of the shaft touched a one-sided rest late.
    pub(super) late: bool,
}

impl Answers {
    /// Whether the tear is one that paper can show.
    pub(super) fn tame(&self) -> bool {
        self.start[0].hypot(self.start[1]) < WILD_MM
    }
}

/// What a card is usually out by, as standard deviations of shares: a scale
/// reads to 1 %, a label can be out by 7 lb (a bow maker's note), length and
/// static spine are good to 1 and 3 % (no source).
const WEIGHED: f64 = 0.01;
const LABEL: f64 = 0.05;
const LENGTH: f64 = 0.01;
const SPINE: f64 = 0.03;

/// The card as it may truly be: its weight, and its arrow's load, a little out.
pub(super) fn off_the_card(case: &Case, rng: &mut Rng) -> Case {
    let weight = if case.weighed { WEIGHED } else { LABEL };
    let mut share = |sd: f64| 1.0 + (sd * rng.normal()).clamp(-3.0 * sd, 3.0 * sd);
    let mut out = *case;
    out.bow.peak_force_n *= share(weight);
    // Length counts twice in the load, and is carried here by the stiffness.
    out.arrow.ei *= share(SPINE) / share(LENGTH).powi(2);
    out
}

/// Shoots one virtual bow at every place of every adjuster.
pub(super) fn answers(case: &Case, unknowns: &Unknowns, adjusters: &[AdjusterKind]) -> Answers {
    let modes = FreeModes::of(&case.arrow);
    let bow: VirtualBow = VirtualBow::with_modes(
        &case.arrow,
        &case.bow,
        &case.setup,
        unknowns,
        STEP_S,
        &modes,
    );
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
    let late = case.one_sided() && {
        let input = bow.input(&Settings::default(), &still);
        bow.launch().touches(&input).late()
    };
    Answers {
        start,
        scatter,
        slopes,
        late,
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
