//! Arrows, bows and flights the physics checks share, and a plain finite-element beam
//! built on nalgebra, independent of the library's own solver.

// Two test programs share this, and neither needs all of it.
#![allow(dead_code)]

use nalgebra::{DMatrix, Matrix4, Vector4};
use tearbench::physics::flight::Flight;
use tearbench::physics::launch::{FlightModes, Modal};
use tearbench::physics::si::{GRAIN_KG, INCH_M, POUND_N};
use tearbench::physics::spine::ei_from_spine;
use tearbench::physics::{ArrowSpec, BowKind, BowSpec, FreeModes, Hand, Release, RestKind, Setup};

/// Nock 10 gr, vanes 18 gr at 2.5 in unless changed.
pub fn arrow(spine: f64, length_in: f64, grains_per_inch: f64, front_gr: f64) -> ArrowSpec {
    ArrowSpec {
        shaft_length_m: length_in * INCH_M,
        ei: ei_from_spine(spine),
        shaft_mass_per_m: grains_per_inch * GRAIN_KG / INCH_M,
        point_mass_kg: (front_gr - 20.0) * GRAIN_KG,
        insert_mass_kg: 20.0 * GRAIN_KG,
        nock_mass_kg: 10.0 * GRAIN_KG,
        vane_mass_kg: 18.0 * GRAIN_KG,
        vane_position_m: 2.5 * INCH_M,
        diameter_m: 6.5e-3,
        bare: false,
    }
}

/// A plain rod with a point mass `ratio` times its own at one end.
pub fn rod(length_m: f64, ei: f64, mass_per_m: f64, ratio: f64) -> ArrowSpec {
    ArrowSpec {
        shaft_length_m: length_m,
        ei,
        shaft_mass_per_m: mass_per_m,
        point_mass_kg: ratio * mass_per_m * length_m,
        insert_mass_kg: 0.0,
        nock_mass_kg: 0.0,
        vane_mass_kg: 0.0,
        vane_position_m: 0.1 * length_m,
        diameter_m: 6e-3,
        bare: true,
    }
}

pub fn compound(pounds: f64, stroke_in: f64) -> BowSpec {
    BowSpec {
        kind: BowKind::Compound,
        peak_force_n: pounds * POUND_N,
        draw_length_m: (stroke_in + 1.75 + 7.0) * INCH_M,
        brace_height_m: 7.0 * INCH_M,
        let_off: 0.8,
        chronograph_m_s: None,
        rest_ahead_m: 0.0,
    }
}

pub fn recurve(pounds: f64) -> BowSpec {
    BowSpec {
        kind: BowKind::Recurve,
        peak_force_n: pounds * POUND_N,
        draw_length_m: 28.5 * INCH_M,
        brace_height_m: 8.5 * INCH_M,
        let_off: 0.0,
        chronograph_m_s: None,
        rest_ahead_m: 0.0,
    }
}

pub fn aid(rest: RestKind) -> Setup {
    Setup {
        kind: BowKind::Compound,
        release: Release::Aid,
        rest,
        hand: Hand::Right,
    }
}

pub fn fingers() -> Setup {
    Setup {
        kind: BowKind::Recurve,
        release: Release::Fingers,
        rest: RestKind::Plunger,
        hand: Hand::Right,
    }
}

/// Modes of an arrow in flight.
pub const N: usize = 7;

/// Undamped flight of an arrow at a speed in m/s, with the air's drag on a
/// shaft of 550 mm2.
pub fn flight(arrow: &ArrowSpec, speed: f64) -> Flight<N> {
    let modes = FlightModes {
        modes: FreeModes::of(arrow),
        damping: 0.0,
    };
    Flight::new(arrow, &modes, speed, 550e-6)
}

/// Modal numbers of a straight arrow: value at the nock and slope.
pub fn straight(arrow: &ArrowSpec, nock: f64, slope: f64) -> [f64; 2] {
    let modes = FreeModes::of(arrow);
    let (a, b) = (modes.at(0.0), modes.slope_at(0.0));
    let det = a[0] * b[1] - a[1] * b[0];
    [
        (nock * b[1] - slope * a[1]) / det,
        (slope * a[0] - nock * b[0]) / det,
    ]
}

/// Neither place nor rate in any mode.
pub fn still() -> Modal<N> {
    Modal {
        q: [[0.0; 2]; N],
        p: [[0.0; 2]; N],
    }
}

/// Matrices of a Hermite beam of `elements` equal elements along an arrow:
/// mass (without string), bending stiffness, and compression per unit of
/// acceleration.
pub struct Beam {
    pub elements: usize,
    pub length_m: f64,
    pub mass: DMatrix<f64>,
    pub bending: DMatrix<f64>,
    pub compression: DMatrix<f64>,
}

/// Hermite shape functions at `u` (0 to 1) of an element of length `h`.
pub fn hermite(u: f64, h: f64) -> Vector4<f64> {
    Vector4::new(
        1.0 - 3.0 * u * u + 2.0 * u.powi(3),
        h * u * (1.0 - u).powi(2),
        u * u * (3.0 - 2.0 * u),
        h * u * u * (u - 1.0),
    )
}

/// Their slopes along the beam.
pub fn hermite_slope(u: f64, h: f64) -> Vector4<f64> {
    Vector4::new(
        6.0 * u * (u - 1.0) / h,
        (1.0 - u) * (1.0 - 3.0 * u),
        6.0 * u * (1.0 - u) / h,
        u * (3.0 * u - 2.0),
    )
}

impl Beam {
    pub fn new(arrow: &ArrowSpec, elements: usize) -> Self {
        let length_m = arrow.shaft_length_m;
        let h = length_m / elements as f64;
        let size = 2 * (elements + 1);
        let mut beam = Self {
            elements,
            length_m,
            mass: DMatrix::zeros(size, size),
            bending: DMatrix::zeros(size, size),
            compression: DMatrix::zeros(size, size),
        };
        // Textbook element matrices; the compression by three Gauss points.
        let m = Matrix4::new(
            156.0,
            22.0 * h,
            54.0,
            -13.0 * h, //
            22.0 * h,
            4.0 * h * h,
            13.0 * h,
            -3.0 * h * h, //
            54.0,
            13.0 * h,
            156.0,
            -22.0 * h, //
            -13.0 * h,
            -3.0 * h * h,
            -22.0 * h,
            4.0 * h * h,
        ) * (arrow.shaft_mass_per_m * h / 420.0);
        let k = Matrix4::new(
            12.0,
            6.0 * h,
            -12.0,
            6.0 * h, //
            6.0 * h,
            4.0 * h * h,
            -6.0 * h,
            2.0 * h * h, //
            -12.0,
            -6.0 * h,
            12.0,
            -6.0 * h, //
            6.0 * h,
            2.0 * h * h,
            -6.0 * h,
            4.0 * h * h,
        ) * (arrow.ei / h.powi(3));
        let gauss = [
            (0.5 - 0.15_f64.sqrt(), 5.0 / 18.0),
            (0.5, 8.0 / 18.0),
            (0.5 + 0.15_f64.sqrt(), 5.0 / 18.0),
        ];
        for e in 0..elements {
            let mut g = Matrix4::zeros();
            for (u, weight) in gauss {
                let slope = hermite_slope(u, h);
                g += slope
                    * slope.transpose()
                    * (weight * h * arrow.mass_ahead_kg((e as f64 + u) * h));
            }
            for i in 0..4 {
                for j in 0..4 {
                    beam.mass[(2 * e + i, 2 * e + j)] += m[(i, j)];
                    beam.bending[(2 * e + i, 2 * e + j)] += k[(i, j)];
                    beam.compression[(2 * e + i, 2 * e + j)] += g[(i, j)];
                }
            }
        }
        beam.add_mass(0.0, arrow.nock_mass_kg);
        beam.add_mass(length_m, arrow.front_kg());
        beam.add_mass(arrow.vane_position_m, arrow.vanes_kg());
        beam
    }

    pub fn add_mass(&mut self, x: f64, kg: f64) {
        let (first, shape) = (self.first_at(x), self.shape_at(x));
        for i in 0..4 {
            for j in 0..4 {
                self.mass[(first + i, first + j)] += kg * shape[i] * shape[j];
            }
        }
    }

    /// First degree of freedom of the element at `x`.
    pub fn first_at(&self, x: f64) -> usize {
        2 * ((x / self.length_m * self.elements as f64) as usize).min(self.elements - 1)
    }

    fn local(&self, x: f64) -> (f64, f64) {
        let h = self.length_m / self.elements as f64;
        (x / h - (self.first_at(x) / 2) as f64, h)
    }

    pub fn shape_at(&self, x: f64) -> Vector4<f64> {
        let (u, h) = self.local(x);
        hermite(u, h)
    }

    pub fn slope_at(&self, x: f64) -> Vector4<f64> {
        let (u, h) = self.local(x);
        hermite_slope(u, h)
    }
}

/// Ascending eigenvalues of `a v = lambda b v` by nalgebra.
pub fn eigenvalues(a: &DMatrix<f64>, b: &DMatrix<f64>) -> Vec<f64> {
    let inverse = b
        .clone()
        .cholesky()
        .expect("positive definite")
        .l()
        .try_inverse()
        .expect("regular");
    let symmetric = &inverse * a * inverse.transpose();
    let symmetric = (&symmetric + symmetric.transpose()) * 0.5;
    let mut values: Vec<f64> = symmetric.symmetric_eigenvalues().iter().copied().collect();
    values.sort_by(f64::total_cmp);
    values
}
