//! Static spine, and how an arrow's load compares with what the bow wants.

use super::column::ArrowSpec;
use super::kinds::{BowKind, Release, RestKind};
use super::references::{Bands, Reference, reference, reference_arrow};
use super::si::{INCH_M, POUND_N};

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

/// Where the load ratio falls on the bands of its reference.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum SpineGrade {
    /// As the bow wants it.
    Matched,
    /// A little weak: go on, warned.
    WeakBorderline,
    /// Weak: rest moves are refused.
    WeakFail,
    /// Weak past the stop load: not shot at all.
    FarTooWeak,
    /// A little stiff, shot with fingers.
    StiffBorderline,
    /// Stiff, shot with fingers: rest moves are refused.
    StiffFail,
    /// Stiff with a release aid, however much: a warning, never alone a
    /// refusal. Thirty-four published builds from 0.200 to 0.340 on one 70 lb
    /// bow all came to a clean hole.
    StiffWarned,
}

impl SpineGrade {
    /// Whether it refuses rest moves, or worse.
    #[must_use]
    pub const fn refuses(self) -> bool {
        matches!(self, Self::WeakFail | Self::FarTooWeak | Self::StiffFail)
    }
}

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
    pub(crate) critical: f64,
    /// The row of the reference table used.
    pub reference: Reference,
    /// Critical value of the reference build, the same for every arrow.
    pub(crate) reference_critical: f64,
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
    let reference_critical = reference_arrow().critical_number();
    let load_ratio = (load_number / critical) / (reference.load_number / reference_critical);
    SpineMatch {
        load_number,
        critical,
        reference,
        reference_critical,
        load_ratio,
        grade: grade(load_ratio, &reference.bands, bow.release),
    }
}

/// The grade of a load ratio. An edge belongs to the milder side.
#[must_use]
pub fn grade(load_ratio: f64, bands: &Bands, release: Release) -> SpineGrade {
    if load_ratio > bands.stop {
        SpineGrade::FarTooWeak
    } else if load_ratio > bands.borderline.1 {
        SpineGrade::WeakFail
    } else if load_ratio > bands.matched.1 {
        SpineGrade::WeakBorderline
    } else if load_ratio >= bands.matched.0 {
        SpineGrade::Matched
    } else if release == Release::Aid {
        SpineGrade::StiffWarned
    } else if load_ratio >= bands.borderline.0 {
        SpineGrade::StiffBorderline
    } else {
        SpineGrade::StiffFail
    }
}

#[cfg(test)]
mod tests {
    use super::super::column::tests::common_arrow;
    use super::super::si::GRAIN_KG;
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

    fn fingers(kind: BowKind, rest: RestKind, pounds: f64) -> SpineBow {
        SpineBow {
            kind,
            release: Release::Fingers,
            rest,
            peak_force_n: pounds * POUND_N,
        }
    }

    #[test]
    fn a_usual_pairing_is_matched() {
        // 60 lb, 28 in, 0.400, 100 gr and 12 gr of insert: Pi = 21.2 against 21.5.
        let arrow = ArrowSpec {
            insert_mass_kg: 12.0 * GRAIN_KG,
            ..common_arrow()
        };
        let found = spine_match(&arrow, &bow(60.0));
        assert_eq!(found.grade, SpineGrade::Matched);
        assert_relative_eq!(found.load_ratio, 0.986_4, max_relative = 1e-3);
        // 20 gr of insert: one part in eighty weaker.
        let heavier = spine_match(&common_arrow(), &bow(60.0));
        assert_relative_eq!(heavier.load_ratio, 0.998_0, max_relative = 1e-3);
    }

    /// Every row of the bands, both sides of every edge, written out.
    #[test]
    fn the_bands_of_every_row_on_both_sides_of_every_edge() {
        use SpineGrade::{
            FarTooWeak, Matched, StiffBorderline, StiffFail, StiffWarned, WeakBorderline, WeakFail,
        };
        let drop_away = bow(60.0);
        let plunger = fingers(BowKind::Recurve, RestKind::Plunger, 40.0);
        let compound = fingers(BowKind::Compound, RestKind::Plunger, 50.0);
        let shelf = fingers(BowKind::Recurve, RestKind::Shelf, 50.0);
        let longbow = fingers(BowKind::Longbow, RestKind::Fixed, 50.0);
        let rows: [(&SpineBow, &[(f64, SpineGrade)]); 5] = [
            (
                &drop_away,
                &[
                    (0.30, StiffWarned),
                    (0.849, StiffWarned),
                    (0.851, Matched),
                    (1.149, Matched),
                    (1.151, WeakBorderline),
                    (1.249, WeakBorderline),
                    (1.251, WeakFail),
                    (1.599, WeakFail),
                    (1.601, FarTooWeak),
                ],
            ),
            (
                &plunger,
                &[
                    (0.30, StiffFail),
                    (0.769, StiffFail),
                    (0.771, StiffBorderline),
                    (0.799, StiffBorderline),
                    (0.801, Matched),
                    (1.199, Matched),
                    (1.201, WeakBorderline),
                    (1.299, WeakBorderline),
                    (1.301, WeakFail),
                    (1.699, WeakFail),
                    (1.701, FarTooWeak),
                ],
            ),
            (
                &compound,
                &[
                    (0.30, StiffFail),
                    (0.769, StiffFail),
                    (0.771, StiffBorderline),
                    (0.799, StiffBorderline),
                    (0.801, Matched),
                    (1.199, Matched),
                    (1.201, WeakBorderline),
                    (1.299, WeakBorderline),
                    (1.301, WeakFail),
                    (1.999, WeakFail),
                    (2.001, FarTooWeak),
                ],
            ),
            (
                &shelf,
                &[
                    (0.30, StiffFail),
                    (0.799, StiffFail),
                    (0.801, StiffBorderline),
                    (0.849, StiffBorderline),
                    (0.851, Matched),
                    (1.149, Matched),
                    (1.151, WeakBorderline),
                    (1.249, WeakBorderline),
                    (1.251, WeakFail),
                    (1.599, WeakFail),
                    (1.601, FarTooWeak),
                ],
            ),
            (
                &longbow,
                &[
                    (0.799, StiffFail),
                    (0.801, StiffBorderline),
                    (1.601, FarTooWeak),
                ],
            ),
        ];
        for (bow, edges) in rows {
            for (ratio, wanted) in edges {
                // An arrow with just this load: the ratio goes with 1 / EI.
                let plain = common_arrow();
                let at = spine_match(&plain, bow).load_ratio;
                let arrow = ArrowSpec {
                    ei: plain.ei * at / ratio,
                    ..plain
                };
                let found = spine_match(&arrow, bow);
                assert_relative_eq!(found.load_ratio, *ratio, max_relative = 1e-9);
                assert_eq!(found.grade, *wanted, "{bow:?} {ratio}");
                let refuses = matches!(wanted, WeakFail | FarTooWeak | StiffFail);
                assert_eq!(found.grade.refuses(), refuses);
            }
        }
    }

    #[test]
    fn an_edge_belongs_to_the_milder_side() {
        let bands = crate::physics::references::SHELF.bands;
        let of = |ratio| grade(ratio, &bands, Release::Fingers);
        assert_eq!(of(0.8), SpineGrade::StiffBorderline);
        assert_eq!(of(0.85), SpineGrade::Matched);
        assert_eq!(of(1.15), SpineGrade::Matched);
        assert_eq!(of(1.25), SpineGrade::WeakBorderline);
        assert_eq!(of(1.6), SpineGrade::WeakFail);
    }

    /// Load numbers the four sorts of bow want, by hand: the same arrow at the
    /// same weight reads 21.5 / 18.5 = 1.162 and 21.5 / 27.8 = 0.773 times
    /// what it reads on a compound with an aid.
    #[test]
    fn the_same_arrow_reads_by_its_bow() {
        let of = |bow: &SpineBow| spine_match(&common_arrow(), bow).load_ratio;
        let aid = of(&bow(60.0));
        let plunger = of(&fingers(BowKind::Recurve, RestKind::Plunger, 60.0));
        let compound = of(&fingers(BowKind::Compound, RestKind::DropAway, 60.0));
        let shelf = of(&fingers(BowKind::Recurve, RestKind::Shelf, 60.0));
        assert_relative_eq!(plunger / aid, 1.0, max_relative = 1e-9);
        assert_relative_eq!(compound / aid, 1.162_16, max_relative = 1e-5);
        assert_relative_eq!(shelf / aid, 0.773_38, max_relative = 1e-5);
    }

    /// Twenty grains more at the nock take load off: 372 gr of arrow become
    /// 392 gr and nothing is added ahead of any place on the shaft, so the
    /// load falls to 372 / 392 = 0.949. That is 3.1 lb of 60 and 2.6 lb of
    /// 50; the trade says about 2 to 3 lb (from memory).
    #[test]
    fn rear_weight_makes_the_arrow_act_stiffer() {
        let heavy = ArrowSpec {
            nock_mass_kg: 30.0 * GRAIN_KG,
            ..common_arrow()
        };
        let share = spine_match(&heavy, &bow(60.0)).load_ratio
            / spine_match(&common_arrow(), &bow(60.0)).load_ratio;
        assert_relative_eq!(share, 0.948_98, max_relative = 1e-5);
        for (pounds, stiffer) in [(50.0, 2.55), (60.0, 3.06)] {
            assert_relative_eq!(pounds * (1.0 - share), stiffer, max_relative = 1e-3);
        }
        // The same on the vanes, which lie a little ahead: stiffer, by less.
        let wrapped = ArrowSpec {
            vane_mass_kg: 38.0 * GRAIN_KG,
            ..common_arrow()
        };
        let ratio = |arrow: &ArrowSpec| spine_match(arrow, &bow(60.0)).load_ratio;
        assert!(ratio(&wrapped) < ratio(&common_arrow()) && ratio(&wrapped) > ratio(&heavy));
    }

    /// Builds of a shooting-machine study: labels 340 to 200, 125 to 350 gr in
    /// front, one 70 lb compound at 28 in, every one brought to a clean hole.
    /// Its list of shafts is not to hand: 9 gr/in for the 340 and up to 13 for
    /// the 200, 28 in long (from memory).
    #[test]
    fn none_of_thirty_four_builds_that_cleaned_up_is_refused() {
        let ratio = |spine: f64, grains_per_inch: f64, front: f64| {
            let arrow = ArrowSpec {
                ei: ei_from_spine(spine),
                shaft_mass_per_m: grains_per_inch * GRAIN_KG / INCH_M,
                point_mass_kg: front * GRAIN_KG,
                insert_mass_kg: 0.0,
                ..common_arrow()
            };
            spine_match(&arrow, &bow(70.0))
        };
        for (spine, grains_per_inch) in [
            (0.340, 8.5),
            (0.340, 9.0),
            (0.300, 9.5),
            (0.250, 10.5),
            (0.200, 13.0),
        ] {
            for front in [125.0, 150.0, 200.0, 250.0, 300.0, 350.0] {
                let found = ratio(spine, grains_per_inch, front);
                assert!(!found.grade.refuses(), "{spine} {front}: {found:?}");
            }
        }
        assert_relative_eq!(
            ratio(0.340, 9.0, 350.0).load_ratio,
            1.17,
            max_relative = 0.01
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
