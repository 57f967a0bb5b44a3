//! What the program works out so that nobody has to: straightness on the
//! standard span, front of centre, mass, centre shot, nocking height.

use crate::checks::spine::arrow_spec;
use crate::gear::Card;
use crate::units::{Length, MM_PER_INCH};

/// Span of ASTM F1889, mm: 28 in between supports.
pub const STANDARD_SPAN_MM: f64 = 28.0 * MM_PER_INCH;
/// Tolerance of that span, mm: 1/8 in either way (ATA/ARR-203).
pub(crate) const SPAN_TOLERANCE_MM: f64 = MM_PER_INCH / 8.0;

/// A run-out read over `span_mm`, scaled to the 28 in span (ASTM F1889).
///
/// An evenly bent shaft is an arc, whose rise at mid-span grows with the
/// square of the span: TIR28 = TIR (28 / span)^2. That the scaling of the
/// 25 in span for short shafts (ATA/ARR-203) is this square is worked out
/// here; the guideline's own factor was not seen. Both in mm.
pub fn straightness_28(runout_mm: f64, span_mm: f64) -> f64 {
    if (span_mm - STANDARD_SPAN_MM).abs() <= SPAN_TOLERANCE_MM + 1e-6 {
        return runout_mm;
    }
    runout_mm * (STANDARD_SPAN_MM / span_mm).powi(2)
}

/// Front of centre, percent: how far the balance point lies ahead of
/// mid-length, over the length (AMO Standards FP-3: length from the nock
/// throat to the end of the shaft, point left out).
pub fn foc_percent(balance_from_nock: Length, length: Length) -> f64 {
    100.0 * (balance_from_nock.mm() - 0.5 * length.mm()) / length.mm()
}

/// Front of centre by the card's parts, percent.
pub(crate) fn card_foc_percent(card: &Card) -> f64 {
    arrow_spec(card).foc_percent()
}

/// Where the shaft points sideways, from calipers riser to shaft.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct CentreShot {
    /// How far the point stands outside the string's line, mm; in is negative.
    pub(crate) out_mm: f64,
    /// Angle of the shaft to the string's line, radians, point outward positive.
    pub angle: f64,
}

/// Centre shot from two sideways distances of the shaft's axis to the string's
/// line, outward positive, taken `near_mm` and `far_mm` ahead of the nock, and
/// the arrow's length. Similar triangles; `None` when the two places coincide.
pub(crate) fn centre_shot(near: (f64, f64), far: (f64, f64), length_mm: f64) -> Option<CentreShot> {
    let ((at_near, out_near), (at_far, out_far)) = (near, far);
    if (at_far - at_near).abs() < 1.0 {
        return None;
    }
    let slope = (out_far - out_near) / (at_far - at_near);
    Some(CentreShot {
        out_mm: out_near + slope * (length_mm - at_near),
        angle: slope.atan(),
    })
}

/// Height of the bottom of the nock above square, mm, from heights above a
/// level table or floor with the string upright: the shaft's underside at the
/// nock and at the rest, when rest and nock touch the same side of a straight
/// shaft.
pub(crate) fn nocking_height(nock_bottom_mm: f64, shaft_bottom_at_rest_mm: f64) -> f64 {
    nock_bottom_mm - shaft_bottom_at_rest_mm
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    #[test]
    fn a_short_span_is_scaled_by_the_square_of_the_span() {
        // An arc of radius R rises s^2 / 8R at mid-span.
        let (radius, short): (f64, f64) = (90_000.0, 25.0 * MM_PER_INCH);
        let rise = |span: f64| span * span / (8.0 * radius);
        assert_relative_eq!(
            straightness_28(rise(short), short),
            rise(STANDARD_SPAN_MM),
            max_relative = 1e-12
        );
        assert_eq!(straightness_28(0.1, STANDARD_SPAN_MM + 3.0), 0.1);
    }

    #[test]
    fn a_shaft_pointing_straight_has_no_offset_anywhere() {
        let on = centre_shot((100.0, 0.0), (600.0, 0.0), 737.0).unwrap();
        assert_eq!((on.out_mm, on.angle), (0.0, 0.0));
        let out = centre_shot((0.0, 0.0), (500.0, 2.0), 750.0).unwrap();
        assert_relative_eq!(out.out_mm, 3.0);
        assert!(centre_shot((10.0, 0.0), (10.0, 1.0), 700.0).is_none());
    }

    #[test]
    fn a_balance_point_at_mid_length_is_no_percent() {
        let length = Length::from_inches(29.0);
        assert_relative_eq!(foc_percent(Length::from_inches(14.5), length), 0.0);
        assert_relative_eq!(
            foc_percent(Length::from_inches(17.4), length),
            10.0,
            epsilon = 1e-9
        );
    }

    #[test]
    fn two_calipers_readings_say_how_far_outside_the_point_stands() {
        // 1 mm out at 100 mm, 3 mm out at 600: 0.4 in a hundred, 3.6 at 750.
        let out = centre_shot((100.0, 1.0), (600.0, 3.0), 750.0).unwrap();
        assert_relative_eq!(out.out_mm, 3.6, max_relative = 1e-12);
        assert_relative_eq!(out.angle, 0.003_999_978_7, max_relative = 1e-6);
        // The same on the riser's side: inside is negative.
        let inside = centre_shot((100.0, -1.0), (600.0, -3.0), 750.0).unwrap();
        assert_relative_eq!(inside.out_mm, -3.6, max_relative = 1e-12);
        // Places a millimetre apart are two places.
        assert!(centre_shot((10.0, 0.0), (11.0, 1.0), 700.0).is_some());
        assert!(centre_shot((10.0, 0.0), (10.9, 1.0), 700.0).is_none());
        assert!(centre_shot((600.0, 3.0), (100.0, 1.0), 750.0).is_some());
    }

    #[test]
    fn a_nock_above_the_shaft_at_the_rest_is_high() {
        assert_relative_eq!(nocking_height(1003.0, 1000.0), 3.0);
        assert_relative_eq!(nocking_height(998.0, 1000.0), -2.0);
    }
}
