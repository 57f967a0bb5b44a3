//! What the paper shows: point hole, nock hole, and the slit between them.

use super::flight::{Flight, Row};
use super::launch::Modal;

/// Points of the shaft followed through the paper for the slit.
const SLIT_POINTS: usize = 33;

/// The cut one arrow makes. Places are m right and up of the rest's line.
#[derive(Debug, Clone, PartialEq)]
pub struct Cut {
    /// Where the point went through.
    pub point_m: [f64; 2],
    /// Where the nock went through.
    pub nock_m: [f64; 2],
    /// Where the shaft crossed the paper on the way, point to nock.
    pub(crate) slit_m: Vec<[f64; 2]>,
    /// Where the middle of the vanes went through; none on a bare shaft.
    pub vanes_m: Option<[f64; 2]>,
}

impl Cut {
    /// The tear: nock hole less point hole, mm right and up.
    #[must_use]
    pub fn tear_mm(&self) -> [f64; 2] {
        std::array::from_fn(|i| 1000.0 * (self.nock_m[i] - self.point_m[i]))
    }

    /// The slit seen from the point hole, mm right and up.
    #[must_use]
    pub fn slit_mm(&self) -> Vec<[f64; 2]> {
        self.slit_m
            .iter()
            .map(|place| std::array::from_fn(|i| 1000.0 * (place[i] - self.point_m[i])))
            .collect()
    }

    /// Cuts of three vanes, each from shaft to tip, mm from the point hole,
    /// for vanes `height_mm` high with the first at `turn` radians from
    /// straight up, clockwise. Empty on a bare shaft.
    #[must_use]
    pub fn vane_cuts_mm(&self, height_mm: f64, turn: f64) -> Vec<[[f64; 2]; 2]> {
        let Some(centre) = self.vanes_m else {
            return Vec::new();
        };
        let from: [f64; 2] = std::array::from_fn(|i| 1000.0 * (centre[i] - self.point_m[i]));
        (0..3)
            .map(|k| {
                let angle = turn + f64::from(k) * std::f64::consts::TAU / 3.0;
                [
                    from,
                    [
                        from[0] + height_mm * angle.sin(),
                        from[1] + height_mm * angle.cos(),
                    ],
                ]
            })
            .collect()
    }
}

/// One paper distance made ready: turns a state at the rest into a tear.
#[derive(Debug, Clone)]
pub struct Paper<const N: usize> {
    point: Row<N>,
    nock: Row<N>,
}

impl<const N: usize> Paper<N> {
    /// Paper `distance_m` in front of the rest.
    #[must_use]
    pub fn new(flight: &Flight<N>, distance_m: f64) -> Self {
        Self {
            point: crossing(flight, flight.length_m(), distance_m),
            nock: crossing(flight, 0.0, distance_m),
        }
    }

    /// The tear, mm right and up.
    #[must_use]
    #[inline]
    pub fn tear_mm(&self, state: &Modal<N>) -> [f64; 2] {
        let (point, nock) = (self.point.place(state), self.nock.place(state));
        std::array::from_fn(|i| 1000.0 * (nock[i] - point[i]))
    }
}

/// The row for the point `x_m` of the arrow as it crosses the paper.
fn crossing<const N: usize>(flight: &Flight<N>, x_m: f64, distance_m: f64) -> Row<N> {
    flight.row(x_m, (distance_m - x_m).max(0.0))
}

/// The whole cut at `distance_m` from the rest; `vanes_at_m` is the middle
/// of the vanes from the nock, if there are any.
#[must_use]
pub fn cut<const N: usize>(
    flight: &Flight<N>,
    state: &Modal<N>,
    distance_m: f64,
    vanes_at_m: Option<f64>,
) -> Cut {
    let at = |x: f64| crossing(flight, x, distance_m).place(state);
    let length = flight.length_m();
    let slit_m: Vec<[f64; 2]> = (0..SLIT_POINTS)
        .map(|k| at(length * (1.0 - k as f64 / (SLIT_POINTS - 1) as f64)))
        .collect();
    Cut {
        point_m: slit_m[0],
        nock_m: slit_m[SLIT_POINTS - 1],
        vanes_m: vanes_at_m.map(at),
        slit_m,
    }
}

/// The useful second paper distance, m: half a flex wavelength further
/// (`v / 2 f1`), where the flex shows reversed and the yaw does not.
#[must_use]
pub fn second_distance_m(distance_m: f64, flex_wavelength_m: f64) -> f64 {
    distance_m + 0.5 * flex_wavelength_m
}
