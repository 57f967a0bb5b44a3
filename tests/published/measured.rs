//! What real arrows were measured to do, one check a measurement: flex and
//! drag. Each says what is not known and,
//! where the model misses, by how much.

use approx::assert_relative_eq;
use tearbench::physics::flight::{DRAG_COEFFICIENT, drag_per_m};
use tearbench::physics::modes::flex_wavelength_m;
use tearbench::physics::si::GRAIN_KG;
use tearbench::physics::spine::spine_28_from_26;
use tearbench::physics::{ArrowSpec, FreeModes};

use crate::physics_support::arrow;

/// Two ordinary builds: a hunting shaft (0.340, 28 in, 125 gr in front) and a
/// target shaft (0.600, 28.5 in, 110 gr in front, small nock and vanes).
fn ordinary() -> [ArrowSpec; 2] {
    let target = ArrowSpec {
        nock_mass_kg: 6.0 * GRAIN_KG,
        vane_mass_kg: 8.0 * GRAIN_KG,
        ..arrow(0.600, 28.5, 6.0, 110.0)
    };
    [arrow(0.340, 28.0, 9.0, 125.0), target]
}

/// First bending mode in flight: 80 to 90 cycles a second, said of target
/// arrows in general; builds unknown, so 75 to 100 Hz.
/// Source: J. L. Park, *Arrows: dynamic behaviour* (magazine article), read.
#[test]
fn the_first_mode_swings_eighty_to_ninety_times_a_second() {
    for build in ordinary() {
        let found = FreeModes::of(&build).frequency_hz(1);
        println!("first mode {found:.1} Hz");
        assert!((75.0..=100.0).contains(&found), "{found}");
    }
}

/// Its rear node: about 150 mm from the nock, so 20 mm either way.
/// Source: J. L. Park, *Arrows: dynamic behaviour* and *Flex in free flight*.
#[test]
fn the_rear_node_is_about_six_inches_from_the_nock() {
    for build in ordinary() {
        let found = 1000.0 * FreeModes::of(&build).nodes_m(1)[0];
        println!("rear node {found:.0} mm");
        assert!((130.0..=170.0).contains(&found), "{found}");
    }
}

/// Its front node: about 50 mm from the point, so 20 mm either way.
/// Source: J. L. Park, *Arrows: dynamic behaviour* (magazine article), read.
#[test]
fn the_front_node_is_about_two_inches_from_the_point() {
    for build in ordinary() {
        let nodes = FreeModes::of(&build).nodes_m(1);
        let found = 1000.0 * (build.shaft_length_m - nodes[1]);
        println!("front node {found:.0} mm");
        assert!((30.0..=70.0).contains(&found), "{found}");
    }
}

/// The second mode is MISSED. Measured 210 to 220 a second, 2.3 to 2.75 times
/// the first; a straight tube with its mass at the tip has 3.1 times the
/// first. Barrelled shafts explain part of it (2.8). The figures below are the
/// model's; a change of them, either way, is to be looked at.
/// Source: J. L. Park, *Arrows: dynamic behaviour* (magazine article), read.
#[test]
fn the_second_mode_comes_out_up_to_thirty_per_cent_too_high() {
    let over = ordinary().map(|build| FreeModes::of(&build).frequency_hz(2) / 215.0);
    println!("second mode over measured: {over:.3?}");
    assert_relative_eq!(over[0], 1.28, epsilon = 0.02);
    assert_relative_eq!(over[1], 1.14, epsilon = 0.02);
    for build in ordinary() {
        let modes = FreeModes::of(&build);
        let ratio = modes.frequency_hz(2) / modes.frequency_hz(1);
        assert!(ratio > 2.75 && ratio < 3.2, "{ratio}");
    }
}

/// One flex about every metre of a compound's flight, at 80 to 95 m/s.
/// Source: J. L. Park, *Arrows: dynamic behaviour* (magazine article), read.
#[test]
fn a_compound_arrow_flexes_once_a_metre() {
    for speed in [80.0, 86.0, 95.0] {
        let found = flex_wavelength_m(&ordinary()[0], speed);
        println!("{speed} m/s: {found:.2} m");
        assert!((0.85..=1.15).contains(&found), "{speed}: {found}");
    }
}

/// 8 % of 56.4 m/s lost in flight, 5.2 mm and 19.5 g. The distance is cut off
/// in the readable part: 70 m is presumed, so a fifth either way.
/// Source: Ortiz et al., Proceedings 49:56, 2020, abstract, read.
#[test]
fn a_target_arrow_loses_eight_per_cent_of_its_speed_over_seventy_metres() {
    let lost = 1.0 - (-70.0 * drag_per_m(DRAG_COEFFICIENT, 5.2e-3, 19.5e-3)).exp();
    println!("lost {:.2} %", 100.0 * lost);
    assert!((0.064..=0.096).contains(&lost), "{lost}");
}

/// The tunnel's drag coefficients, 1.56 with small and 2.05 with large vanes,
/// bracket the loss measured in flight; so does the program's reading of them.
/// Source: Ortiz et al., Proceedings 49:56, 2020, abstract, read.
#[test]
fn tunnel_drag_brackets_the_measured_loss_of_speed() {
    let lost = |cd: f64| 100.0 * (1.0 - (-70.0 * drag_per_m(cd, 5.2e-3, 19.5e-3)).exp());
    assert!(lost(1.56) < 8.0 && 8.0 < lost(2.05));
    assert!((1.56..=2.05).contains(&DRAG_COEFFICIENT));
}

/// Shafts labelled 340 bent 0.272 in over 26 in. Read as a 28 in figure that
/// is 20 % too stiff; converted, it is the label within 4 % (the load hung on
/// it is not stated: 1.94 lb explains 0.272 to a thousandth, 2 lb 0.281).
/// Source: public shooting-machine study of 34 builds, 2026, methods appendix.
#[test]
fn a_spine_measured_on_twenty_six_inches_is_converted() {
    assert_relative_eq!(spine_28_from_26(0.272), 0.340, max_relative = 0.04);
    assert!((0.272_f64 / 0.340 - 0.80).abs() < 0.005);
}
