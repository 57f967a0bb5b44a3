//! How a tear seen at one distance is likely to look at others: the flex
//! turns over about once a metre, the yaw of the tail swings over many.

use super::Losses;
use super::launch::STEP_S;
use super::modes::{FreeModes, flex_wavelength_m};
use super::paper::second_distance_m;
use super::prior::{Case, draw_unknowns};
use super::rng::Rng;
use super::virtual_bow::{Settings, Steadiness, VirtualBow};

/// Paper distances people use, m; the last two show the tail swing.
const USUAL: [f64; 6] = [1.5, 2.0, 2.5, 3.0, 4.0, 5.0];
/// Bows drawn for the relation between distances.
const DRAWS: usize = 64;
/// Nearer to the second distance, or to the case's own, m, a usual one is left out.
const NEAR_SECOND: f64 = 0.15;
const NEAR_OWN: f64 = 0.05;

/// What a tear at the card's distance says of the tear at another.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AtDistance {
    /// The other distance, rest to paper, m.
    pub distance_m: f64,
    /// Expected tear there for 1 mm here, sideways and up and down.
    pub slope: [f64; 2],
    /// What remains unknown about it, standard deviation, mm.
    pub sd_mm: [f64; 2],
}

impl AtDistance {
    /// The likely tear there, mm, and its standard deviation an axis, for a
    /// likely tear here and its own.
    #[must_use]
    pub fn there(&self, here_mm: [f64; 2], sd_mm: f64) -> ([f64; 2], f64) {
        let likely = [0, 1].map(|axis| self.slope[axis] * here_mm[axis]);
        let sd = [0, 1].map(|axis| self.sd_mm[axis].hypot(self.slope[axis] * sd_mm));
        (likely, ((sd[0].powi(2) + sd[1].powi(2)) / 2.0).sqrt())
    }
}

/// A case at the distances people use, and where a second sheet tells most.
#[derive(Debug, Clone, PartialEq)]
pub struct Distances {
    /// The case's own distance, rest to paper, m.
    pub(crate) here_m: f64,
    /// The distance half a flex further on, m.
    pub(crate) second_m: f64,
    /// How far the arrow flies in one flex, m.
    pub wave_m: f64,
    /// The other distances, near to far; none where the case describes no launch.
    pub(crate) others: Vec<AtDistance>,
}

impl Distances {
    /// Of a case; draws virtual bows.
    #[must_use]
    pub fn of(case: &Case) -> Self {
        let here_m = case.paper_m;
        if !case.describes_a_launch() {
            return Self {
                here_m,
                second_m: here_m,
                wave_m: 0.0,
                others: Vec::new(),
            };
        }
        let mass = case.arrow.mass_kg();
        let losses = Losses::middling(case.bow.kind, mass);
        let wave_m = flex_wavelength_m(&case.arrow, case.bow.speed_m_s(mass, &losses));
        let second_m = second_distance_m(here_m, wave_m);
        let mut distances: Vec<f64> = USUAL
            .into_iter()
            .filter(|d| (d - second_m).abs() > NEAR_SECOND && (d - here_m).abs() > NEAR_OWN)
            .filter(|d| *d > case.arrow.shaft_length_m)
            .collect();
        distances.push(second_m);
        distances.sort_by(f64::total_cmp);
        Self {
            here_m,
            second_m,
            wave_m,
            others: at_distances(case, &distances, 1, DRAWS),
        }
    }
}

/// Regresses the tear at each distance on the tear at the case's own, over
/// `draws` virtual bows with their rest somewhere within 2 mm of the start.
///
/// # Panics
/// If `draws` is zero.
#[must_use]
pub fn at_distances(case: &Case, distances_m: &[f64], seed: u64, draws: usize) -> Vec<AtDistance> {
    let mut rng = Rng::new(seed ^ 0x5eed);
    let modes = FreeModes::of(&case.arrow);
    let mut here = Vec::with_capacity(draws);
    let mut there = vec![Vec::with_capacity(draws); distances_m.len()];
    for unknowns in draw_unknowns(&case.setup, seed, draws) {
        let bow: VirtualBow = VirtualBow::with_modes(
            &case.arrow,
            &case.bow,
            &case.setup,
            &unknowns,
            STEP_S,
            &modes,
        );
        let settings = Settings {
            rest_side_mm: rng.between(-2.0, 2.0),
            rest_up_mm: rng.between(-2.0, 2.0),
            ..Settings::default()
        };
        let state = bow.state(
            &settings,
            &Steadiness::average(case.setup.release).draw(&mut rng),
        );
        here.push(bow.paper(case.paper_m).tear_mm(&state));
        for (tears, distance) in there.iter_mut().zip(distances_m) {
            tears.push(bow.paper(*distance).tear_mm(&state));
        }
    }
    distances_m
        .iter()
        .zip(&there)
        .map(|(distance, tears)| {
            let fit: [(f64, f64); 2] = std::array::from_fn(|axis| through_zero(&here, tears, axis));
            AtDistance {
                distance_m: *distance,
                slope: fit.map(|f| f.0),
                sd_mm: fit.map(|f| f.1),
            }
        })
        .collect()
}

/// Slope through zero and the standard deviation left.
fn through_zero(x: &[[f64; 2]], y: &[[f64; 2]], axis: usize) -> (f64, f64) {
    let (mut xx, mut xy, mut yy) = (0.0, 0.0, 0.0);
    for (a, b) in x.iter().zip(y) {
        xx += a[axis] * a[axis];
        xy += a[axis] * b[axis];
        yy += b[axis] * b[axis];
    }
    let slope = xy / xx.max(1e-12);
    let left = (yy - slope * xy).max(0.0) / (x.len() as f64 - 1.0).max(1.0);
    (slope, left.sqrt())
}

#[cfg(test)]
mod tests {
    use super::super::bow::tests::compound;
    use super::super::column::tests::common_arrow;
    use super::super::kinds::{BowKind, Hand, Release, RestKind, Setup};
    use super::*;
    use approx::assert_relative_eq;

    fn case() -> Case {
        Case {
            arrow: common_arrow(),
            bow: compound(60.0, 19.25),
            setup: Setup {
                kind: BowKind::Compound,
                release: Release::Aid,
                rest: RestKind::DropAway,
                hand: Hand::Right,
            },
            paper_m: 2.0,
            weighed: true,
        }
    }

    #[test]
    fn a_tear_half_as_large_elsewhere_is_as_unsure_as_both_its_sources() {
        let at = AtDistance {
            distance_m: 2.5,
            slope: [-0.5, 2.0],
            sd_mm: [3.0, 0.0],
        };
        // 3 and 4 sideways make 5; up and down twice 8 are 16.
        let (likely, sd) = at.there([-12.0, 4.0], 8.0);
        assert_eq!(likely, [6.0, 8.0]);
        assert_relative_eq!(sd, ((25.0f64 + 256.0) / 2.0).sqrt(), max_relative = 1e-12);
    }

    #[test]
    fn the_usual_distances_stand_near_to_far_without_the_own_one() {
        let found = Distances::of(&case());
        assert_eq!(found.here_m, 2.0);
        let at: Vec<f64> = found.others.iter().map(|d| d.distance_m).collect();
        assert!(at.is_sorted(), "{at:?}");
        assert!(at.iter().all(|d| (d - 2.0).abs() > 0.05), "{at:?}");
        assert!(at.contains(&found.second_m) && at.contains(&4.0), "{at:?}");
    }

    #[test]
    fn the_same_distance_shows_the_same_tear() {
        let case = case();
        let found = at_distances(&case, &[2.0, 2.5], 1, 40);
        for axis in 0..2 {
            assert_relative_eq!(found[0].slope[axis], 1.0, max_relative = 1e-9);
            assert!(found[0].sd_mm[axis] < 1e-5);
            assert!(
                found[1].sd_mm[axis] > 0.3,
                "half a metre on, flex has turned over"
            );
        }
    }
}
