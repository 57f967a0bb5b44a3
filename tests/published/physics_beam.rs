//! Static spine, free-free vibration and buckling of the arrow.

use approx::assert_relative_eq;
use nalgebra::DMatrix;
use std::f64::consts::{PI, TAU};
use tearbench::physics::spine::{ei_from_spine, spine_26_from_28, wooden_pounds};
use tearbench::physics::{ArrowSpec, FreeModes};

use crate::physics_support::{Beam, arrow, eigenvalues, rod};

/// `EI = F S^3 / 48 d` for 28 in and 1.94 lb, and the older 26 in and 2 lb;
/// rows computed by hand.
/// Source: ASTM F2031-05; Rheingans in *Archery: the Technical Side*, 1947.
#[test]
fn stiffness_and_both_spine_conventions_agree_with_the_standard() {
    let rows = [
        (0.200, 12.731, 0.1651, 157.5),
        (0.250, 10.185, 0.2064, 126.0),
        (0.300, 8.487, 0.2476, 105.0),
        (0.340, 7.489, 0.2806, 92.6),
        (0.400, 6.3654, 0.3302, 78.7),
        (0.500, 5.092, 0.4127, 63.0),
        (0.600, 4.244, 0.4953, 52.5),
        (0.800, 3.183, 0.6603, 39.4),
        (1.000, 2.546, 0.8254, 31.5),
    ];
    for (spine, ei, older, pounds) in rows {
        assert_relative_eq!(ei_from_spine(spine), ei, max_relative = 1e-3);
        assert_relative_eq!(spine_26_from_28(spine), older, max_relative = 1e-3);
        assert_relative_eq!(wooden_pounds(spine), pounds, max_relative = 1e-3);
    }
}

/// `z = beta L` of a bending mode.
fn wave_number(modes: &FreeModes, rod: &ArrowSpec, n: usize) -> f64 {
    let omega = TAU * modes.frequency_hz(n);
    (omega * (rod.shaft_mass_per_m * rod.shaft_length_m.powi(4) / rod.ei).sqrt()).sqrt()
}

/// Free-free uniform beam: `beta L`, ratios of frequencies, nodes.
/// Source: Thomson, *Theory of Vibration with Applications*, appendix D.
#[test]
fn a_free_uniform_beam_has_the_handbook_frequencies_and_nodes() {
    let rod = rod(0.75, 6.0, 0.02, 0.0);
    let modes = FreeModes::of(&rod);
    for (n, z) in [(1, 4.7300), (2, 7.8532), (3, 10.9956), (4, 14.1372)] {
        assert_relative_eq!(wave_number(&modes, &rod, n), z, max_relative = 1e-4);
    }
    assert_relative_eq!(
        modes.frequency_hz(2) / modes.frequency_hz(1),
        2.7565,
        max_relative = 1e-4
    );
    assert_relative_eq!(
        modes.frequency_hz(3) / modes.frequency_hz(1),
        5.4039,
        max_relative = 1e-4
    );
    let nodes = |n| {
        modes
            .nodes_m(n)
            .iter()
            .map(|x| x / 0.75)
            .collect::<Vec<_>>()
    };
    for (found, book) in nodes(1).iter().zip([0.2242, 0.7758]) {
        assert_relative_eq!(*found, book, epsilon = 1e-4);
    }
    for (found, book) in nodes(2).iter().zip([0.1321, 0.5, 0.8679]) {
        assert_relative_eq!(*found, book, epsilon = 1e-4);
    }
}

/// `1 - cos z cosh z + r z (sin z cosh z - cos z sinh z) = 0`, rows solved by
/// hand and by a separate finite-element beam.
/// Source: closed form of the free-free beam with a mass at one end.
#[test]
fn a_mass_at_the_point_lowers_the_frequencies_as_the_closed_form_says() {
    let rows = [
        (0.05, 4.5462, 7.5849, 10.6610, 0.2332, 0.8087),
        (0.10, 4.4303, 7.4499, 10.5218, 0.2389, 0.8332),
        (0.20, 4.2929, 7.3175, 10.4016, 0.2458, 0.8668),
        (0.25, 4.2490, 7.2804, 10.3705, 0.2480, 0.8790),
        (0.30, 4.2144, 7.2529, 10.3480, 0.2497, 0.8890),
        (0.40, 4.1637, 7.2149, 10.3178, 0.2523, 0.9048),
        (0.50, 4.1281, 7.1898, 10.2985, 0.2541, 0.9165),
        (0.75, 4.0732, 7.1534, 10.2711, 0.2569, 0.9362),
        (1.00, 4.0418, 7.1338, 10.2566, 0.2585, 0.9483),
    ];
    for (ratio, z1, z2, z3, rear, front) in rows {
        let rod = rod(0.71, 6.0, 0.02, ratio);
        let modes = FreeModes::of(&rod);
        for (n, table) in [(1, z1), (2, z2), (3, z3)] {
            let z = wave_number(&modes, &rod, n);
            assert_relative_eq!(z, table, max_relative = 2e-4);
            let closed = (1.0 - z.cos() * z.cosh()) / z.cosh()
                + ratio * z * (z.sin() * z.cosh() - z.cos() * z.sinh()) / z.cosh();
            assert!(closed.abs() < 1e-3, "r {ratio}, mode {n}: {closed}");
        }
        let nodes = modes.nodes_m(1);
        assert_relative_eq!(nodes[0] / 0.71, rear, epsilon = 2e-4);
        assert_relative_eq!(nodes[1] / 0.71, front, epsilon = 2e-4);
    }
}

/// pi^2 with the load at the end, 18.57 under the rod's own inertia; between
/// them computed beforehand.
/// Source: Timoshenko and Gere, *Theory of Elastic Stability*, chapter 2.
#[test]
fn the_accelerated_column_buckles_at_the_textbook_loads() {
    assert_relative_eq!(
        rod(0.7, 6.0, 0.02, 0.0).critical_number(),
        18.569,
        max_relative = 2e-4
    );
    assert_relative_eq!(
        rod(0.7, 6.0, 0.02, 1e9).critical_number(),
        PI * PI,
        max_relative = 2e-4
    );
    for (share, critical) in [
        (0.1, 17.20),
        (0.2, 15.98),
        (0.3, 14.898),
        (0.4, 13.93),
        (0.5, 13.06),
    ] {
        let rod = rod(0.7, 6.0, 0.02, share / (1.0 - share));
        assert_relative_eq!(rod.critical_number(), critical, max_relative = 1e-3);
    }
}

/// A free rod under a thrust that turns with its end flutters at 109.9
/// `EI/L^2` (computed beforehand to lie between 109.5 and 110.0). Tests the
/// compression matrix against a load that is not conservative.
/// Source: Beal, AIAA Journal 3, 1965, from memory; eigenvalues by nalgebra.
#[test]
fn a_following_thrust_makes_a_free_rod_flutter_where_it_should() {
    let rod = rod(1.0, 1.0, 1.0, 0.0);
    let modes = FreeModes::of(&rod);
    let (value, slope) = (modes.at(0.0), modes.slope_at(0.0));
    let softening = modes.compression(&rod);
    let size = 10;
    let flutters = |thrust: f64| {
        let matrix = DMatrix::from_fn(size, size, |i, j| {
            let spring = if i == j {
                modes.omega()[i].powi(2)
            } else {
                0.0
            };
            spring - thrust * softening[i][j] - thrust * value[i] * slope[j]
        });
        matrix
            .complex_eigenvalues()
            .iter()
            .any(|z| z.im.abs() > 1.0)
    };
    assert!(!flutters(108.8), "steady below");
    assert!(flutters(111.0), "flutter above");
}

/// Frequencies and critical loads of three arrows on textbook Hermite
/// elements, solved by a general library.
/// Source: nalgebra's eigen-solver on the beam of `physics_support`.
#[test]
fn frequencies_and_critical_loads_agree_with_an_independent_solver() {
    for (spine, length, gpi, front) in [
        (0.400, 28.0, 8.0, 120.0),
        (0.300, 30.0, 9.8, 200.0),
        (0.600, 29.0, 6.5, 100.0),
    ] {
        let arrow = arrow(spine, length, gpi, front);
        let beam = Beam::new(&arrow, 40);
        let squares = eigenvalues(&beam.bending, &beam.mass);
        let modes = FreeModes::of(&arrow);
        for n in 1..=5 {
            assert_relative_eq!(
                modes.frequency_hz(n),
                squares[n + 1].sqrt() / TAU,
                max_relative = 1e-3
            );
        }
        // Pinned at both ends: strike out the two end displacements.
        let keep: Vec<usize> = (1..beam.mass.nrows())
            .filter(|i| *i != beam.mass.nrows() - 2)
            .collect();
        let pick = |m: &DMatrix<f64>| {
            DMatrix::from_fn(keep.len(), keep.len(), |i, j| m[(keep[i], keep[j])])
        };
        let inverse = eigenvalues(&pick(&beam.compression), &pick(&beam.bending));
        let acceleration = 1.0 / inverse.last().expect("not empty");
        let number = acceleration * arrow.mass_kg() * arrow.shaft_length_m.powi(2) / arrow.ei;
        assert_relative_eq!(arrow.critical_number(), number, max_relative = 1e-3);
    }
}

/// Eight arrows worked beforehand on a separate 56-element beam.
/// Source: computed with a Hermite finite-element beam outside this program.
#[test]
fn eight_worked_arrows_have_the_modes_of_a_separate_beam() {
    let rows = [
        (0.400, 28.0, 8.0, 100.0, 86.4, 269.0, 145.0, 69.0, 10.7),
        (0.400, 28.0, 8.0, 120.0, 85.1, 268.0, 146.0, 61.0, 12.8),
        (0.400, 28.0, 8.0, 170.0, 83.1, 266.0, 148.0, 49.0, 17.2),
        (0.400, 30.0, 8.0, 120.0, 74.9, 235.0, 158.0, 68.0, 12.2),
        (0.500, 28.0, 7.3, 120.0, 78.7, 249.0, 144.0, 58.0, 13.5),
        (0.340, 28.0, 9.0, 120.0, 88.6, 276.0, 148.0, 66.0, 11.9),
        (0.300, 28.0, 9.8, 120.0, 91.5, 284.0, 150.0, 69.0, 11.3),
        (0.600, 29.0, 6.5, 100.0, 71.1, 225.0, 146.0, 65.0, 11.9),
    ];
    for (spine, length, gpi, front, f1, f2, rear, fore, foc) in rows {
        let arrow = arrow(spine, length, gpi, front);
        let modes = FreeModes::of(&arrow);
        assert_relative_eq!(modes.frequency_hz(1), f1, max_relative = 0.01);
        assert_relative_eq!(modes.frequency_hz(2), f2, max_relative = 0.01);
        let nodes = modes.nodes_m(1);
        assert_relative_eq!(1000.0 * nodes[0], rear, epsilon = 1.5);
        assert_relative_eq!(
            1000.0 * (arrow.shaft_length_m - nodes[1]),
            fore,
            epsilon = 1.5
        );
        assert_relative_eq!(arrow.foc_percent(), foc, epsilon = 0.1);
    }
}

/// Rigid rod pushed at the nock, nock in the plane, no rest: the angle grows
/// by `cosh(sqrt(3 s / L))` whatever the acceleration. Tests the compression
/// term of the launch; the steps in time are the test's.
/// Source: closed form of theta'' = (3a / 2L) theta, worked by hand.
#[test]
fn a_rigid_rod_turns_away_as_the_closed_form_says() {
    let (length, travel) = (0.75_f64, 0.50_f64);
    let rod = rod(length, 1e6, 0.03, 0.0);
    let modes = FreeModes::of(&rod);
    // The rod turned by 1 rad about its nock, in the two rigid shapes.
    let (a, b) = (modes.at(0.0), modes.slope_at(0.0));
    let det = a[0] * b[1] - a[1] * b[0];
    let line = [-a[1] / det, a[0] / det];
    let softening = modes.compression(&rod);
    let form = |m: &dyn Fn(usize, usize) -> f64| -> f64 {
        (0..2)
            .map(|i| (0..2).map(|j| line[i] * m(i, j) * line[j]).sum::<f64>())
            .sum()
    };
    let inertia = form(&|i, j| f64::from(u8::from(i == j)));
    let rate = form(&|i, j| softening[i][j]) / inertia;
    for acceleration in [2_000.0_f64, 9_000.0] {
        let time = (2.0 * travel / acceleration).sqrt();
        let steps = 20_000;
        let h = time / f64::from(steps);
        let (mut angle, mut turning) = (1.0, 0.0);
        for _ in 0..steps {
            turning += h * acceleration * rate * angle;
            angle += h * turning;
        }
        assert_relative_eq!(angle, 2.178, max_relative = 0.005);
    }
}
