//! What must hold of the flight: flex turns over half a wavelength and yaw
//! does not; ringing without damping keeps its energy.

use approx::assert_relative_eq;
use tearbench::physics::launch::Modal;
use tearbench::physics::modes::flex_wavelength_m;
use tearbench::physics::paper::{Paper, second_distance_m};
use tearbench::physics::{ArrowSpec, FreeModes};

use crate::support::{N, arrow, flight, still, straight};

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
