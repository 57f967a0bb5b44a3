//! Energy, speed and time on the string; drag.

use approx::assert_relative_eq;
use tearbench::physics::bow::{BowSpec, Losses, PowerStroke};
use tearbench::physics::flight::drag_per_m;
use tearbench::physics::si::{FOOT_PER_SECOND, GRAIN_KG, GRAVITY, POUND_N};

use crate::physics_support::{compound, recurve};

/// Worked from `W = (m + m_v) v^2 / 2` (virtual mass after Klopsteg) and a
/// trapezoidal force-draw curve; 70 lb, 30 in and 350 gr are the rating of
/// ASTM F1544.
#[test]
fn speed_time_and_energy_of_the_worked_bows() {
    let rows = [
        (70.0, 21.25, 350.0, 60.0, 13.7, 101.9, 137.8),
        (70.0, 21.25, 350.0, 90.0, 14.2, 98.3, 137.8),
        (70.0, 19.25, 350.0, 75.0, 13.3, 95.2, 124.8),
        (60.0, 19.25, 372.0, 75.0, 14.7, 86.0, 107.0),
        (50.0, 18.25, 350.0, 75.0, 15.3, 78.4, 84.5),
    ];
    for (pounds, stroke, grains, virtual_grains, milliseconds, speed, energy) in rows {
        let bow = compound(pounds, stroke);
        let mass = grains * GRAIN_KG;
        let losses = Losses {
            virtual_mass_kg: virtual_grains * GRAIN_KG,
            hysteresis: 0.0,
        };
        assert_relative_eq!(bow.energy_j(1.0), energy, max_relative = 0.005);
        assert_relative_eq!(bow.speed_m_s(mass, &losses), speed, max_relative = 0.005);
        let run = PowerStroke::new(&bow, mass, &losses);
        assert_relative_eq!(1000.0 * run.duration_s(), milliseconds, max_relative = 0.01);
        assert_relative_eq!(run.exit_speed_m_s(), speed, max_relative = 0.005);
    }
    assert_relative_eq!(101.9 / FOOT_PER_SECOND, 334.0, epsilon = 0.5);
}

/// J. Park, *Flex in free flight*: about 1000 g in the power stroke.
#[test]
fn a_fast_compound_pushes_its_arrow_at_about_a_thousand_g() {
    let losses = Losses {
        virtual_mass_kg: 60.0 * GRAIN_KG,
        hysteresis: 0.0,
    };
    let run = PowerStroke::new(&compound(70.0, 21.25), 350.0 * GRAIN_KG, &losses);
    let steps = 2000;
    let peak = (0..steps)
        .map(|i| {
            run.at(run.duration_s() * f64::from(i) / f64::from(steps))
                .acceleration
        })
        .fold(0.0, f64::max)
        / GRAVITY;
    assert!((900.0..=1200.0).contains(&peak), "{peak}");
}

/// Energy along the stroke: what the arrow and the virtual mass have is what
/// the force curve has given, at every moment.
#[test]
fn no_energy_is_lost_along_the_stroke() {
    for bow in [compound(60.0, 19.25), recurve(40.0)] {
        let (mass, losses) = (
            0.024,
            Losses {
                virtual_mass_kg: 5e-3,
                hysteresis: 0.1,
            },
        );
        let run = PowerStroke::new(&bow, mass, &losses);
        for i in 1..=50 {
            let state = run.at(run.duration_s() * f64::from(i) / 50.0);
            let drawn = 1.0 - state.travel_m / bow.stroke_m();
            let given = 0.9 * (bow.energy_j(1.0) - bow.energy_j(drawn));
            let kinetic = 0.5 * (mass + 5e-3) * state.speed_m_s.powi(2);
            assert_relative_eq!(kinetic, given, max_relative = 1e-9);
        }
    }
}

/// B. Olsen's measured recurve: 35 lb, 0.48 m of draw, 43.0 J stored.
#[test]
fn a_measured_recurve_stores_what_the_curve_says() {
    let bow = BowSpec {
        peak_force_n: 35.0 * POUND_N,
        ..recurve(35.0)
    };
    assert_relative_eq!(
        bow.energy_j(1.0) * 0.48 / bow.stroke_m(),
        43.0,
        max_relative = 0.01
    );
    let losses = Losses::middling(bow.kind, 0.020);
    assert_relative_eq!(losses.virtual_mass_kg, 6.936e-3, max_relative = 1e-3);
}

/// Ortiz et al. 2020: drag coefficients 1.56 and 2.05 in the tunnel, about
/// 8 % of speed lost from 56.4 m/s (over 70 m, presumably), 5.2 mm shaft.
#[test]
fn tunnel_drag_brackets_the_measured_loss_of_speed() {
    let loss = |cd: f64| 100.0 * (1.0 - (-70.0 * drag_per_m(cd, 5.2e-3, 19.5e-3)).exp());
    assert_relative_eq!(loss(1.56), 6.9, epsilon = 0.3);
    assert_relative_eq!(loss(2.05), 9.0, epsilon = 0.3);
    assert!(loss(1.56) < 8.0 && 8.0 < loss(2.05));
}
