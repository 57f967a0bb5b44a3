//! Flight over the last metres, and the geometry of the cut.

use approx::assert_relative_eq;
use std::f64::consts::TAU;
use tearbench::physics::flight::{Flight, Yaw};
use tearbench::physics::modes::flex_wavelength_m;
use tearbench::physics::paper::{Paper, cut, second_distance_m};
use tearbench::physics::{ArrowSpec, FreeModes};

use crate::physics_support::{N, arrow, flight, rod, still, straight};

/// About one flex cycle a metre for a compound; the useful second distance is
/// then half a metre off.
/// Source: J. L. Park, *Arrows: dynamic behaviour* (magazine article), read.
#[test]
fn a_compound_arrow_flexes_about_once_a_metre() {
    let wavelength = flex_wavelength_m(&arrow(0.400, 28.0, 8.0, 120.0), 86.0);
    assert!((0.85..=1.15).contains(&wavelength), "{wavelength}");
    assert_relative_eq!(second_distance_m(2.0, wavelength), 2.5, epsilon = 0.08);
}

/// Small angles: tear = length times angle of attack (28 in at 2.047
/// degrees: one inch); an arrow that drifts along its own axis: none.
/// Source: plane geometry, worked by hand: 711.2 mm x tan 2.047 deg = 25.42 mm.
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

/// A bare rod of 80 cm that rings at 60 Hz, at 55 m/s.
fn sixty_hertz() -> (ArrowSpec, Flight<N>) {
    let base = rod(0.80, 5.0, 0.02, 0.3);
    let scale = (60.0 / FreeModes::of(&base).frequency_hz(1)).powi(2);
    let base = ArrowSpec {
        ei: 5.0 * scale,
        ..base
    };
    let flight = flight(&base, 55.0);
    (base, flight)
}

/// 80 cm long, 55 m/s and 60 Hz: 0.9 of a cycle in the passage (0.87 before
/// rounding). The time is the program's, from the point to the nock.
/// Source: J. Tapley, *Arrow vibration* (web notes), read.
#[test]
fn the_shaft_flexes_nine_tenths_of_a_cycle_while_it_passes() {
    let (base, flight) = sixty_hertz();
    let passing = flight.time_s(2.0) - flight.time_s(2.0 - base.shaft_length_m);
    let cycles = passing * FreeModes::of(&base).frequency_hz(1);
    assert!((0.85..0.95).contains(&cycles), "{cycles}");
}

/// The same rod, flexing only: its slit is a curve although it flies without
/// yaw, since the flex turns over while it passes.
/// Source: J. Tapley, *Arrow vibration* (web notes), read.
#[test]
fn a_flexing_arrow_cuts_a_bowed_slit_without_any_yaw() {
    let (_, flight) = sixty_hertz();
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

/// `a(x) = exp(-z k x) [a0 cos k x + (a0'/k + z a0) sin k x]`.
/// Source: Thomson, *Theory of Vibration with Applications*, damped vibration.
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

/// Bigger vanes, larger restoring moment.
/// Source: J. C. Ortiz Enriquez, thesis, University of Electro-Communications,
/// 2021, abstract, read.
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
