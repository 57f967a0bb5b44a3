//! Straightness span, front of centre, grains per pound: by their standards.

use approx::assert_relative_eq;
use tearbench::setup::compute::{STANDARD_SPAN_MM, foc_percent, straightness_28};
use tearbench::units::{Length, MM_PER_INCH};

/// Total indicator reading at mid-span between supports 28.0 in (+-1/8 in)
/// apart.
/// Source: ASTM F1889-05 (2014), Straightness Measurement; ATA/ARR-203-2008.
#[test]
fn straightness_is_the_full_reading_over_twenty_eight_inches() {
    assert_relative_eq!(STANDARD_SPAN_MM, 711.2);
    for span in [27.875, 28.0, 28.125] {
        assert_eq!(straightness_28(0.003, span * MM_PER_INCH), 0.003);
    }
    assert_ne!(straightness_28(0.003, 27.8 * MM_PER_INCH), 0.003);
}

/// Shafts of 29 in or shorter are read over 25 in and scaled to 28. The factor
/// of an evenly bent shaft, worked by hand: the sagitta of an arc is s^2 / 8R,
/// so (28 / 25)^2 = 1.2544.
/// Source: ATA/ARR-203-2008, Measurement of Round Arrow Shaft Straightness.
#[test]
fn a_reading_over_twenty_five_inches_grows_by_a_quarter() {
    let scaled = straightness_28(0.004, 25.0 * MM_PER_INCH);
    assert_relative_eq!(scaled, 0.004 * 1.2544, max_relative = 1e-12);
    // And as an arc, without the formula: radius from three points on a circle.
    let (radius, half): (f64, f64) = (80_000.0, 12.5 * MM_PER_INCH);
    let rise = |h: f64| radius - (radius * radius - h * h).sqrt();
    let long = rise(14.0 * MM_PER_INCH);
    assert_relative_eq!(
        straightness_28(rise(half), 2.0 * half),
        long,
        max_relative = 1e-4
    );
}

/// Arrow length runs from the nock throat to the end of the shaft; front of
/// centre is the distance of the balance point ahead of mid-length over that
/// length. Rows worked by hand.
/// Source: AMO Standards, Field Publication FP-3, 2000.
#[test]
fn front_of_centre_is_counted_on_the_shaft_without_the_point() {
    for (balance, length, percent) in [
        (14.5, 29.0, 0.0),
        (17.4, 29.0, 10.0),
        (16.8, 28.0, 10.0),
        (19.5, 30.0, 15.0),
    ] {
        let found = foc_percent(Length::from_inches(balance), Length::from_inches(length));
        assert_relative_eq!(found, percent, epsilon = 1e-9);
    }
}
