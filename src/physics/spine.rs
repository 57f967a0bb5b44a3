//! Static spine, and how an arrow's load compares with what the bow wants.

use super::column::ArrowSpec;
use super::kinds::{BowKind, Release, RestKind};
use super::references::{Reference, reference};
use super::si::{GRAIN_KG, INCH_M, POUND_N};

/// Weight hung at mid-span by ASTM F2031, N (1.94 lb).
const F2031_LOAD_N: f64 = 1.94 * POUND_N;
/// Span of ASTM F2031, m (28 in).
const F2031_SPAN_M: f64 = 28.0 * INCH_M;

/// Bending stiffness EI, N m^2, from the static spine: the sag in inches on
/// a 28 in span under 1.94 lb (ASTM F2031). `EI = F S^3 / 48 d`.
#[must_use]
pub fn ei_from_spine(spine_in: f64) -> f64 {
    F2031_LOAD_N * F2031_SPAN_M.powi(3) / (48.0 * spine_in * INCH_M)
}

/// Static spine (inches, ASTM F2031) of a shaft of stiffness `ei`, N m^2.
#[must_use]
pub fn spine_from_ei(ei: f64) -> f64 {
    F2031_LOAD_N * F2031_SPAN_M.powi(3) / (48.0 * ei * INCH_M)
}

/// Sag on the older test, 26 in span and 2 lb, from the 28 in, 1.94 lb one.
#[must_use]
pub fn spine_26_from_28(spine_28_in: f64) -> f64 {
    spine_28_in * (2.0 / 1.94) * (26.0_f64 / 28.0).powi(3)
}

/// Sag on 28 in, 1.94 lb from that on the older test, 26 in and 2 lb.
#[must_use]
pub fn spine_28_from_26(spine_26_in: f64) -> f64 {
    spine_26_in / spine_26_from_28(1.0)
}

/// The wooden-arrow "pounds" of a shaft: 26 over its 26 in, 2 lb sag.
#[must_use]
pub fn wooden_pounds(spine_28_in: f64) -> f64 {
    26.0 / spine_26_from_28(spine_28_in)
}

/// Where the load ratio falls on the bands of 15 and 25 %.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum SpineGrade {
    /// Within 15 % of the reference.
    Matched,
    /// Weak by 15 to 25 %: go on, warned.
    WeakBorderline,
    /// Weak by more than 25 %: rest moves are refused.
    WeakFail,
    /// Stiff by 15 to 25 %, shot with fingers.
    StiffBorderline,
    /// Stiff by more than 25 %, shot with fingers.
    StiffFail,
    /// Stiff by more than 15 % with a release aid: a warning, never alone a
    /// refusal.
    StiffWarned,
}

/// Half-width of the matched band, as a share of the reference.
pub const MATCHED_BAND: f64 = 0.15;
/// Beyond this share off the reference the match fails.
pub const FAIL_BAND: f64 = 0.25;

/// The bow as far as the spine check needs it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SpineBow {
    /// Kind of bow.
    pub kind: BowKind,
    /// How the string is let go.
    pub release: Release,
    /// Kind of rest.
    pub rest: RestKind,
    /// Peak draw force at this archer's draw, N.
    pub peak_force_n: f64,
}

/// How this arrow's load compares with what this bow wants.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SpineMatch {
    /// `Pi = F L^2 / EI`.
    pub load_number: f64,
    /// Critical value `c` for this build's mass distribution.
    pub critical: f64,
    /// The row of the reference table used.
    pub reference: Reference,
    /// Critical value of the reference build: the same shaft, 100 gr point.
    pub reference_critical: f64,
    /// `(Pi / c) / (Pi_ref / c_ref)`: 1 is as the bow wants it, more is
    /// weaker, less is stiffer.
    pub load_ratio: f64,
    /// Where that falls.
    pub grade: SpineGrade,
}

/// Compares the arrow with what the bow wants. About 2 us.
#[must_use]
pub fn spine_match(arrow: &ArrowSpec, bow: &SpineBow) -> SpineMatch {
    let reference = reference(bow.kind, bow.release, bow.rest);
    let load_number = arrow.load_number(bow.peak_force_n);
    let critical = arrow.critical_number();
    let plain = ArrowSpec {
        point_mass_kg: 100.0 * GRAIN_KG,
        ..*arrow
    };
    let reference_critical = plain.critical_number();
    let load_ratio = (load_number / critical) / (reference.load_number / reference_critical);
    SpineMatch {
        load_number,
        critical,
        reference,
        reference_critical,
        load_ratio,
        grade: grade(load_ratio, bow.release),
    }
}

/// The grade of a load ratio.
#[must_use]
pub fn grade(load_ratio: f64, release: Release) -> SpineGrade {
    let off = load_ratio - 1.0;
    match release {
        _ if off.abs() <= MATCHED_BAND => SpineGrade::Matched,
        _ if off > FAIL_BAND => SpineGrade::WeakFail,
        _ if off > 0.0 => SpineGrade::WeakBorderline,
        Release::Aid => SpineGrade::StiffWarned,
        Release::Fingers if off < -FAIL_BAND => SpineGrade::StiffFail,
        Release::Fingers => SpineGrade::StiffBorderline,
    }
}

#[cfg(test)]
mod tests {
    use super::super::column::tests::common_arrow;
    use super::*;
    use approx::assert_relative_eq;

    fn bow(pounds: f64) -> SpineBow {
        SpineBow {
            kind: BowKind::Compound,
            release: Release::Aid,
            rest: RestKind::DropAway,
            peak_force_n: pounds * POUND_N,
        }
    }

    #[test]
    fn spine_and_stiffness_convert_both_ways() {
        assert_relative_eq!(ei_from_spine(0.400), 6.3654, max_relative = 1e-4);
        assert_relative_eq!(
            spine_from_ei(ei_from_spine(0.340)),
            0.340,
            max_relative = 1e-12
        );
        assert_relative_eq!(spine_28_from_26(0.4127), 0.500, max_relative = 1e-3);
    }

    #[test]
    fn a_usual_pairing_is_matched() {
        // 60 lb, 28 in, 0.400, 100 gr: the remembered row of the trade.
        let found = spine_match(&common_arrow(), &bow(60.0));
        assert_eq!(found.grade, SpineGrade::Matched);
        assert_relative_eq!(found.load_ratio, 21.2 / 21.5, max_relative = 0.005);
    }

    #[test]
    fn more_draw_weight_makes_the_same_arrow_weak() {
        assert_eq!(
            spine_match(&common_arrow(), &bow(72.0)).grade,
            SpineGrade::WeakBorderline
        );
        assert_eq!(
            spine_match(&common_arrow(), &bow(78.0)).grade,
            SpineGrade::WeakFail
        );
    }

    #[test]
    fn a_stiff_arrow_is_only_warned_with_an_aid_but_fails_with_fingers() {
        assert_eq!(
            spine_match(&common_arrow(), &bow(40.0)).grade,
            SpineGrade::StiffWarned
        );
        let fingers = SpineBow {
            kind: BowKind::Recurve,
            release: Release::Fingers,
            rest: RestKind::Plunger,
            ..bow(40.0)
        };
        assert_eq!(
            spine_match(&common_arrow(), &fingers).grade,
            SpineGrade::StiffFail
        );
    }

    #[test]
    fn a_heavier_point_raises_the_load_ratio() {
        let heavy = ArrowSpec {
            point_mass_kg: 175.0 * GRAIN_KG,
            ..common_arrow()
        };
        assert!(
            spine_match(&heavy, &bow(60.0)).load_ratio
                > spine_match(&common_arrow(), &bow(60.0)).load_ratio
        );
    }
}
