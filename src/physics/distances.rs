//! How a tear seen at one distance is likely to look at others: the flex
//! turns over about once a metre, the yaw of the tail swings over many.

use super::launch::STEP_S;
use super::modes::FreeModes;
use super::prior::{Case, draw_unknowns};
use super::rng::Rng;
use super::virtual_bow::{Settings, Steadiness, VirtualBow};

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

    #[test]
    fn the_same_distance_shows_the_same_tear() {
        let case = Case {
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
        };
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
