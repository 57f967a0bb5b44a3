//! Small-sample factors, outlier tables and disk probabilities
//! against published tables and closed forms.

use tearbench::stats::{adjust, disk, outliers, quantile, sample};

fn close(a: f64, b: f64, tolerance: f64) {
    assert!(
        (a - b).abs() <= tolerance,
        "{a} is not {b} within {tolerance}"
    );
}

/// c4, n = 2 to 6.
/// Source: Montgomery, *Statistical Quality Control*, appendix VI, from memory.
#[test]
fn c4_is_the_control_chart_factor() {
    for (n, value) in [
        (2, 0.797885),
        (3, 0.886227),
        (4, 0.921318),
        (5, 0.939986),
        (6, 0.951533),
    ] {
        close(sample::c4(n), value, 6e-7);
    }
}

/// Chi-squared quantiles at df 4.
/// Source: NIST/SEMATECH e-Handbook, 1.3.6.7.4, chi-squared.
#[test]
fn chi_squared_quantiles_match_the_table() {
    close(quantile::chi_squared(0.05, 4.0), 0.710723, 1e-6);
    close(quantile::chi_squared(0.95, 4.0), 9.487729, 1e-6);
}

/// Grubbs' critical values, two-sided n = 3 to 7 (the table's misprint at
/// n = 7 corrected) and the one-sided column.
/// Source: LibreTexts, *Analytical Chemistry 2.1*, appendix 7, read.
#[test]
fn grubbs_critical_values_match_the_table() {
    let two = [
        (3, 1.1543, 1.1547),
        (4, 1.4813, 1.4962),
        (5, 1.7150, 1.7637),
        (6, 1.8871, 1.9728),
        (7, 2.0200, 2.1391),
    ];
    for (n, five, one) in two {
        close(outliers::grubbs_critical(n, 0.05, true), five, 1e-3);
        close(outliers::grubbs_critical(n, 0.01, true), one, 1e-3);
    }
    for (n, five) in [(3, 1.1531), (4, 1.4625), (5, 1.6714), (6, 1.8221)] {
        close(outliers::grubbs_critical(n, 0.05, false), five, 1e-3);
    }
}

/// Eight uranium isotope readings, one odd; G recomputed outside.
/// Source: NIST/SEMATECH e-Handbook, 1.3.5.17.1, data from memory.
#[test]
fn grubbs_finds_the_odd_isotope_reading() {
    let x = [
        199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57,
    ];
    close(outliers::grubbs(&x).unwrap(), 2.468765, 1e-6);
    close(outliers::grubbs_critical(8, 0.05, false), 2.031652, 1e-5);
}

/// Dixon's r10, two-sided, and the nitrate example.
/// Source: Rorabacher, Analytical Chemistry 63, 1991; Dean and Dixon 1951.
#[test]
fn dixon_critical_values_are_the_published_ones() {
    assert_eq!(outliers::dixon_critical(3, 0.05), Some(0.970));
    assert_eq!(outliers::dixon_critical(6, 0.01), Some(0.740));
    // The nitrate example of Dixon and Dean: 0.167 the odd low one, r10 0.455 (n = 10).
    let x = [
        0.189, 0.167, 0.187, 0.183, 0.186, 0.182, 0.181, 0.184, 0.181, 0.177,
    ];
    close(outliers::dixon_r10(&x).unwrap(), 0.4545, 1e-3);
}

/// Flat prior 1/i; the extended rule with prior 4 and noise 9.
/// Source: Grubbs, J. Quality Technology 15, 1983 (reprint of 1954).
#[test]
fn harmonic_gains_are_those_of_grubbs() {
    for (i, gain) in [
        (1, 0.307692),
        (2, 0.235294),
        (3, 0.190476),
        (4, 0.16),
        (5, 0.137931),
    ] {
        close(adjust::harmonic_gain(i, 4.0, 9.0), gain, 1e-6);
        close(
            adjust::harmonic_gain(i, f64::INFINITY, 9.0),
            1.0 / i as f64,
            1e-15,
        );
    }
}

/// Closed form 1 - exp(-R^2/2s^2) when centred; noncentral chi-squared with
/// two degrees otherwise; the last by four million random draws.
/// Source: scipy, `stats.ncx2`, and numpy's random numbers.
#[test]
fn disk_probabilities_match_chi_squared() {
    close(
        disk::probability(6.0, (0.0, 0.0), (3.0, 3.0)),
        0.864664717,
        5e-5,
    );
    close(
        disk::probability(6.0, (3.0, 4.0), (2.0, 2.0)),
        0.623010143,
        5e-5,
    );
    close(
        disk::probability(6.0, (1.0, 2.0), (1.5, 1.5)),
        0.989484824,
        5e-5,
    );
    close(
        disk::probability(6.0, (2.0, -1.0), (3.0, 1.5)),
        0.88355,
        3e-4,
    );
}

/// Half the shots lie within sigma sqrt(ln 4) of the middle.
/// Source: circular error probable of the Rayleigh distribution, any text.
#[test]
fn half_the_shots_lie_within_the_circular_error_probable() {
    close(
        disk::probability(3.0 * 4.0_f64.ln().sqrt(), (0.0, 0.0), (3.0, 3.0)),
        0.5,
        5e-5,
    );
}
