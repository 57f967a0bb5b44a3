//! Two-sample test and confidence ellipses against scipy 1.17.1 with numpy
//! 2.4.6 (F quantiles and tails of `scipy.stats.f`, eigenvectors of
//! `numpy.linalg.eigh`), and the sight's similar triangles by hand.

use approx::assert_relative_eq;
use tearbench::gear::Axis;
use tearbench::proof::sight::pin_move;
use tearbench::proof::{Along, compare, ellipse_of_mean};
use tearbench::session::Impact;
use tearbench::stats::quantile;
use tearbench::trouble::shots_to_convince;
use tearbench::units::{Length, MM_PER_INCH};

fn hits(all: &[(f64, f64)]) -> Vec<Impact> {
    all.iter()
        .map(|(right, up)| Impact {
            right: *right,
            up: *up,
        })
        .collect()
}

fn fletched() -> Vec<Impact> {
    hits(&[
        (0.0, 8.0),
        (-9.0, -5.0),
        (9.0, -3.0),
        (4.0, 1.0),
        (-2.0, 6.0),
    ])
}

fn bare() -> Vec<Impact> {
    hits(&[(-31.0, 12.0), (-22.0, 3.0), (-40.0, 9.0)])
}

/// Source: scipy 1.17.1 `stats.f` and numpy 2.4.6, run on the same hits.
#[test]
fn the_two_sample_test_gives_scipys_statistic_and_chance() {
    let found = compare(&bare(), &fletched()).unwrap();
    assert_relative_eq!(found.right, -31.4, max_relative = 1e-12);
    assert_relative_eq!(found.up, 6.6, max_relative = 1e-12);
    assert_relative_eq!(
        found.covariance.0,
        30.506_666_666_666_67,
        max_relative = 1e-12
    );
    assert_relative_eq!(found.covariance.1, -4.16, max_relative = 1e-12);
    assert_relative_eq!(
        found.covariance.2,
        14.862_222_222_222_22,
        max_relative = 1e-12
    );
    assert_relative_eq!(
        found.t2.unwrap(),
        32.695_427_664_477_97,
        max_relative = 1e-12
    );
    assert_relative_eq!(
        found.chance.unwrap(),
        0.009_467_362_335_323_654,
        max_relative = 1e-10
    );
    assert_relative_eq!(
        found.round_chance(),
        8.362_270_394_530_508e-5,
        max_relative = 1e-10
    );
}

/// Source: scipy 1.17.1 `stats.f` and numpy 2.4.6 `linalg.eigh`, same hits.
#[test]
fn the_ellipse_of_a_difference_has_scipys_axes() {
    let found = compare(&bare(), &fletched()).unwrap();
    for (level, major, minor) in [
        (0.5, 7.776_339_581_959_32, 5.148_092_474_296_818),
        (0.9, 16.915_856_581_237_15, 11.198_635_687_693_255),
        (0.95, 20.929_492_037_487_7, 13.855_742_706_891_638),
    ] {
        let e = found.ellipse(level).unwrap();
        assert_relative_eq!(e.major, major, max_relative = 1e-10);
        assert_relative_eq!(e.minor, minor, max_relative = 1e-10);
        let turn = (e.angle.to_degrees() - 165.997_571_305_978_17).rem_euclid(180.0);
        assert!(!(1e-6..=180.0 - 1e-6).contains(&turn), "{turn}");
    }
}

/// Source: scipy 1.17.1 `stats.f` and numpy 2.4.6 `linalg.eigh`, same hits.
#[test]
fn the_ellipse_of_one_group_has_scipys_axes() {
    for (level, major, minor) in [
        (0.9, 11.516_709_696_584_236, 9.514_302_995_406_114),
        (0.95, 15.229_534_913_476_49, 12.581_580_456_864_955),
    ] {
        let e = ellipse_of_mean(&fletched(), level).unwrap();
        assert_relative_eq!(e.major, major, max_relative = 1e-10);
        assert_relative_eq!(e.minor, minor, max_relative = 1e-10);
        let turn = (e.angle.to_degrees() + 172.789_613_436_244_5).rem_euclid(180.0);
        assert!(!(1e-6..=180.0 - 1e-6).contains(&turn), "{turn}");
    }
}

/// Student's sleep data, two samples with pooled variance: t = -1.8608 with 18
/// degrees, p = 0.07919 (`scipy.stats.ttest_ind` 1.17.1: -1.860813, 0.079187).
/// Source: Cushny and Peebles 1905, in Student, Biometrika 6, 1908.
#[test]
fn one_axis_alone_has_students_two_sample_test() {
    let up = |all: &[f64]| hits(&all.iter().map(|u| (0.0, *u)).collect::<Vec<_>>());
    let first = up(&[0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0]);
    let second = up(&[1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4]);
    let one = Along::of(&compare(&first, &second).unwrap(), Axis::Vertical);
    assert_eq!(one.df, 18.0);
    assert!((one.mm / one.se + 1.8608).abs() < 5e-5, "{one:?}");
    assert!((one.chance() - 0.07919).abs() < 5e-6, "{}", one.chance());
    assert!(!one.is_real());
    // Within 1.58 either way half of the odds lie beyond, give or take the other side.
    assert_relative_eq!(one.odds_within(1.58), 0.5, epsilon = 1e-3);
}

/// Source: scipy 1.17.1, `stats.f.cdf` and `stats.chi2.ppf`.
#[test]
fn group_sizes_are_compared_by_scipys_f_and_scatter_by_its_chi_squared() {
    assert_relative_eq!(
        quantile::f_ratio_below(2.5, 10.0, 8.0),
        0.896_405_834_174_834_5,
        max_relative = 1e-9
    );
    // Upper 90 % factor of a pooled sd: 1.650 at 4 shots, 1.514 at 5, 1.341 at 8.
    assert_eq!(shots_to_convince(1.0 / 1.66), 4);
    assert_eq!(shots_to_convince(1.0 / 1.52), 5);
    assert_eq!(shots_to_convince(1.0 / 1.345), 8);
}

/// Eye to pin 33 in, target at 20 yd (720 in), 2 in off: 2 x 33 / 720 =
/// 0.0917 in, about 3/32 in or 2.3 mm, toward the miss (the diary needed two
/// sixteenths for the same miss).
/// Source: similar triangles, worked by hand; a technician's diary of 2010.
#[test]
fn a_two_inch_miss_at_twenty_yards_moves_the_pin_three_thirty_seconds() {
    let miss = -Length::from_inches(2.0).mm();
    let eye = Length::from_inches(33.0).mm();
    let found = pin_move(miss, eye, Length::parse("20 yd").unwrap().mm(), None).unwrap();
    assert_relative_eq!(
        found.mm / MM_PER_INCH,
        -2.0 * 33.0 / 720.0,
        max_relative = 1e-12
    );
    assert!((found.mm.abs() - 2.328).abs() < 0.001);
    assert!((found.mm.abs() / MM_PER_INCH - 3.0 / 32.0).abs() < 1.0 / 128.0);
}
