//! Flight over the last metres, and the geometry of the cut.

use approx::assert_relative_eq;
use std::f64::consts::TAU;
use tearbench::physics::flight::{Flight, Yaw};
use tearbench::physics::launch::{FlightModes, Modal};
use tearbench::physics::modes::flex_wavelength_m;
use tearbench::physics::paper::{Paper, cut, second_distance_m};
use tearbench::physics::{ArrowSpec, FreeModes};

use crate::physics_support::{arrow, rod};

const N: usize = 7;

fn flight(arrow: &ArrowSpec, speed: f64) -> Flight<N> {
    let modes = FlightModes {
        modes: FreeModes::of(arrow),
        damping: 0.0,
    };
    Flight::new(arrow, &modes, speed, 550e-6)
}

/// Modal numbers of a straight arrow: value at the nock and slope.
fn straight(arrow: &ArrowSpec, nock: f64, slope: f64) -> [f64; 2] {
    let modes = FreeModes::of(arrow);
    let (a, b) = (modes.at(0.0), modes.slope_at(0.0));
    let det = a[0] * b[1] - a[1] * b[0];
    [
        (nock * b[1] - slope * a[1]) / det,
        (slope * a[0] - nock * b[0]) / det,
    ]
}

fn still() -> Modal<N> {
    Modal {
        q: [[0.0; 2]; N],
        p: [[0.0; 2]; N],
    }
}

/// J. Park, *Arrows: dynamic behaviour*: about one flex cycle a metre for a
/// compound; the useful second distance is then half a metre off.
#[test]
fn a_compound_arrow_flexes_about_once_a_metre() {
    let wavelength = flex_wavelength_m(&arrow(0.400, 28.0, 8.0, 120.0), 86.0);
    assert!((0.85..=1.15).contains(&wavelength), "{wavelength}");
    assert_relative_eq!(second_distance_m(2.0, wavelength), 2.5, epsilon = 0.08);
}

/// Small angles: tear = length times angle of attack (28 in at 2.047
/// degrees: one inch); an arrow that drifts along its own axis: none.
#[test]
fn the_tear_is_length_times_angle_of_attack() {
    let bare = ArrowSpec {
        bare: true,
        ..arrow(0.400, 28.0, 8.0, 120.0)
    };
    let flight = flight(&bare, 80.0);
    let angle = 2.047_f64.to_radians();
    let mut turned = still();
    let line = straight(&bare, 0.0, angle);
    turned.q[0][0] = line[0];
    turned.q[1][0] = line[1];
    let paper = Paper::new(&flight, 2.0);
    assert_relative_eq!(paper.tear_mm(&turned)[0], -25.4, max_relative = 0.001);
    // The same, but moving along its own axis at tan(angle) times the speed.
    let drift = straight(&bare, angle * 80.0, 0.0);
    turned.p[0][0] = drift[0];
    turned.p[1][0] = drift[1];
    assert!(
        paper.tear_mm(&turned)[0].abs() < 0.05,
        "{:?}",
        paper.tear_mm(&turned)
    );
}

/// J. Tapley: 80 cm, 55 m/s, 60 Hz is about 0.9 of a cycle in the passage.
#[test]
fn the_shaft_flexes_most_of_a_cycle_while_it_passes() {
    assert_relative_eq!(0.80 / 55.0 * 60.0, 0.87, max_relative = 0.01);
    // A bare rod of that length and frequency, flexing only: its slit is a
    // curve although it flies without yaw.
    let base = rod(0.80, 5.0, 0.02, 0.3);
    let scale = (60.0 / FreeModes::of(&base).frequency_hz(1)).powi(2);
    let base = ArrowSpec {
        ei: 5.0 * scale,
        ..base
    };
    assert_relative_eq!(
        FreeModes::of(&base).frequency_hz(1),
        60.0,
        max_relative = 1e-6
    );
    let flight = flight(&base, 55.0);
    let mut ringing = still();
    ringing.q[2][0] = 0.002;
    let cut = cut(&flight, &ringing, 2.0, None);
    let slit = cut.slit_mm();
    assert_relative_eq!(slit[0][0], 0.0);
    assert_relative_eq!(
        slit.last().expect("points")[0],
        cut.tear_mm()[0],
        max_relative = 1e-12
    );
    let width = slit.iter().map(|p| p[0]).fold(f64::MIN, f64::max)
        - slit.iter().map(|p| p[0]).fold(f64::MAX, f64::min);
    assert!(
        width > 1.5 * cut.tear_mm()[0].abs() || width > 5.0,
        "{width}"
    );
    assert!(cut.vanes_m.is_none() && cut.vane_cuts_mm(10.0, 0.0).is_empty());
}

/// Half a flex wavelength further on, the flex shows reversed and the yaw
/// as before.
#[test]
fn half_a_flex_wavelength_turns_the_flex_but_not_the_yaw() {
    let bare = ArrowSpec {
        bare: true,
        ..arrow(0.400, 28.0, 8.0, 120.0)
    };
    let flight = flight(&bare, 86.0);
    let far = second_distance_m(2.0, flex_wavelength_m(&bare, 86.0));
    let (here, there) = (Paper::new(&flight, 2.0), Paper::new(&flight, far));
    let mut ringing = still();
    ringing.q[2][0] = 0.002;
    ringing.p[2][0] = 0.7;
    assert_relative_eq!(
        here.tear_mm(&ringing)[0],
        -there.tear_mm(&ringing)[0],
        max_relative = 0.02
    );
    let mut yawed = still();
    let line = straight(&bare, 0.0, 0.02);
    yawed.q[0][0] = line[0];
    yawed.q[1][0] = line[1];
    assert_relative_eq!(
        here.tear_mm(&yawed)[0],
        there.tear_mm(&yawed)[0],
        max_relative = 0.001
    );
}

/// Without damping, a ringing arrow keeps its energy in flight: the place of
/// its nock comes back after each whole cycle.
#[test]
fn undamped_ringing_keeps_its_energy() {
    let bare = ArrowSpec {
        bare: true,
        ..arrow(0.400, 28.0, 8.0, 120.0)
    };
    let flight = flight(&bare, 86.0);
    let omega = FreeModes::of(&bare).omega()[2];
    let energy = |path: f64| {
        let mut q = still();
        q.q[2][0] = 0.002;
        let mut p = still();
        p.p[2][0] = 0.7;
        let at = |m: &Modal<N>, s: f64| flight.row(0.0, s).place(m)[0];
        // Displacement, and its rate from the row's own time step.
        let h = 1e-5;
        let place = at(&q, path) + at(&p, path);
        let step = flight.time_s(path + h) - flight.time_s(path - h);
        let rate =
            (at(&q, path + h) + at(&p, path + h) - at(&q, path - h) - at(&p, path - h)) / step;
        0.5 * rate * rate + 0.5 * omega * omega * place * place
    };
    for path in [0.3, 1.1, 2.7] {
        assert_relative_eq!(energy(path), energy(0.01), max_relative = 1e-5);
    }
}

/// `a(x) = exp(-z k x) [a0 cos k x + (a0'/k + z a0) sin k x]`, textbook.
#[test]
fn yaw_follows_the_damped_swing() {
    let (wavelength, ratio) = (15.0, 0.09);
    let yaw = Yaw::of_wavelength(wavelength, ratio);
    let k = TAU / wavelength;
    let (start, slope) = (0.03, 0.004);
    for x in [0.5, 2.0, 5.0, 15.0] {
        let damped = k * (1.0 - ratio * ratio).sqrt();
        let book = (-ratio * k * x).exp()
            * (start * (damped * x).cos()
                + (slope + ratio * k * start) / damped * (damped * x).sin());
        assert_relative_eq!(
            yaw.after(x, start, slope, 0.0).attack,
            book,
            max_relative = 1e-9
        );
    }
    // After 2 m fletching has taken off only part of the yaw.
    let left = yaw.after(2.0, 0.03, 0.0, 0.0).attack / 0.03;
    assert!((0.6..0.85).contains(&left), "{left}");
}

/// Ortiz Enriquez 2021: bigger vanes, larger restoring moment.
#[test]
fn bigger_vanes_swing_faster() {
    let arrow = arrow(0.400, 28.0, 8.0, 120.0);
    assert!(Yaw::new(&arrow, 800e-6).wavelength_m() < Yaw::new(&arrow, 400e-6).wavelength_m());
    let bare = ArrowSpec {
        bare: true,
        ..arrow
    };
    assert!(Yaw::new(&bare, 800e-6).wavelength_m().is_infinite());
}
