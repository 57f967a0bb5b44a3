//! NIST Statistical Reference Datasets (StRD), itl.nist.gov/div898/strd:
//! linear regression and univariate summaries, certified values.

use tearbench::stats::{regression, sample};

/// Reads a CSV with a heading line; returns its columns.
fn columns(text: &str) -> Vec<Vec<f64>> {
    let rows: Vec<Vec<f64>> = text
        .lines()
        .skip(1)
        .map(|l| l.split(',').map(|v| v.trim().parse().unwrap()).collect())
        .collect();
    (0..rows[0].len())
        .map(|c| rows.iter().map(|r| r[c]).collect())
        .collect()
}

/// Agreement to a number of significant digits.
fn digits(got: f64, certified: f64, n: i32) {
    let error = ((got - certified) / certified).abs();
    assert!(
        error < 10f64.powi(-n),
        "{got} agrees with {certified} to {error:e}, wanted {n} digits"
    );
}

/// Source: NIST StRD, linear regression, Norris, certified values.
#[test]
fn norris_line() {
    let c = columns(include_str!("nist/norris.csv"));
    let f = regression::line(&c[1], &c[0]).unwrap();
    digits(f.coefficients[0], -0.262323073774029, 11);
    digits(f.coefficients[1], 1.00211681802045, 12);
    digits(f.sds[0], 0.232818234301152, 11);
    digits(f.sds[1], 0.429796848199937e-3, 11);
    digits(f.residual_sd, 0.884796396144373, 11);
    digits(f.r_squared, 0.999993745883712, 12);
    digits(f.rss, 26.6173985294224, 11);
}

/// Source: NIST StRD, linear regression, NoInt1 and NoInt2, certified values.
#[test]
fn no_intercept_lines() {
    let c = columns(include_str!("nist/noint1.csv"));
    let f = regression::least_squares(&c[1..], &c[0]).unwrap();
    digits(f.coefficients[0], 2.07438016528926, 13);
    digits(f.sds[0], 0.165289256198347e-1, 12);
    digits(f.residual_sd, 3.56753034006338, 12);
    digits(f.r_squared, 0.999365492298663, 12);
    let c = columns(include_str!("nist/noint2.csv"));
    let f = regression::least_squares(&c[1..], &c[0]).unwrap();
    digits(f.coefficients[0], 0.727272727272727, 13);
    digits(f.sds[0], 0.0420827318078432, 12);
    digits(f.residual_sd, 0.369274472937998, 12);
    digits(f.rss, 0.272727272727273, 12);
}

/// Source: NIST StRD, linear regression, Pontius, certified values.
#[test]
fn pontius_quadratic() {
    let c = columns(include_str!("nist/pontius.csv"));
    let design = [
        vec![1.0; c[0].len()],
        c[1].clone(),
        c[1].iter().map(|x| x * x).collect::<Vec<_>>(),
    ];
    let f = regression::least_squares(&design, &c[0]).unwrap();
    digits(f.coefficients[0], 0.673565789473684e-3, 8);
    digits(f.coefficients[1], 0.732059160401003e-6, 11);
    digits(f.coefficients[2], -0.316081871345029e-14, 8);
    digits(f.residual_sd, 0.205177424076185e-3, 9);
    digits(f.sds[2], 0.486652849992036e-16, 9);
}

/// Source: NIST StRD, linear regression, Longley, certified values.
#[test]
fn longley_plane() {
    let c = columns(include_str!("nist/longley.csv"));
    let mut design = vec![vec![1.0; c[0].len()]];
    design.extend(c[1..].iter().cloned());
    let f = regression::least_squares(&design, &c[0]).unwrap();
    let certified = [
        -3482258.63459582,
        15.0618722713733,
        -0.0358191792925910,
        -2.02022980381683,
        -1.03322686717359,
        -0.0511041056535807,
        1829.15146461355,
    ];
    for (got, want) in f.coefficients.iter().zip(certified) {
        digits(*got, want, 8);
    }
    digits(f.residual_sd, 304.854073561965, 9);
    digits(f.r_squared, 0.995479004577296, 10);
}

/// NumAcc1 to NumAcc4, generated as the datasets define them.
/// Source: NIST StRD, univariate summary statistics, certified values.
#[test]
fn numerical_accuracy_summaries() {
    let alternating = |middle: f64, step: f64| -> Vec<f64> {
        let mut v = vec![middle];
        for _ in 0..500 {
            v.extend([middle - step, middle + step]);
        }
        v
    };
    let sets = [
        (
            vec![10000001.0, 10000003.0, 10000002.0],
            10000002.0,
            1.0,
            -0.5,
            15,
        ),
        (alternating(1.2, 0.1), 1.2, 0.1, -0.999, 12),
        (alternating(1000000.2, 0.1), 1000000.2, 0.1, -0.999, 9),
        (alternating(10000000.2, 0.1), 10000000.2, 0.1, -0.999, 8),
    ];
    for (x, mean, sd, lag, n) in sets {
        digits(sample::mean(&x).unwrap(), mean, 14);
        digits(sample::sd(&x).unwrap(), sd, n);
        digits(sample::lag1(&x).unwrap(), lag, n.min(8));
    }
}

/// Lew, Lottery, Mavro and Michelso, whole.
/// Source: NIST StRD, univariate summary statistics, certified values.
#[test]
fn univariate_summaries() {
    let sets = [
        (
            include_str!("nist/lew.csv"),
            200,
            -177.435,
            277.332168044316,
            -0.307304800605679,
        ),
        (
            include_str!("nist/lottery.csv"),
            218,
            518.958715596330,
            291.699727470969,
            -0.120948622967393,
        ),
        (
            include_str!("nist/mavro.csv"),
            50,
            2.001856,
            0.000429123454003053,
            0.937989183438248,
        ),
        (
            include_str!("nist/michelso.csv"),
            100,
            299.8524,
            0.0790105478190518,
            0.535199668621283,
        ),
    ];
    for (text, n, mean, sd, lag) in sets {
        let y = &columns(text)[0];
        assert_eq!(y.len(), n);
        digits(sample::mean(y).unwrap(), mean, 14);
        digits(sample::sd(y).unwrap(), sd, 12);
        digits(sample::lag1(y).unwrap(), lag, 12);
    }
}
