//! The belief held against batch solutions worked out another way.

use nalgebra::{DMatrix, DVector};
use tearbench::belief::basis::Basis;
use tearbench::belief::cells::Cells;
use tearbench::belief::kernel::Kernel;
use tearbench::belief::sites::{Noise, Posterior, Run};
use tearbench::belief::{AdjusterPrior, Axis, Obs, Place, Prior, SlopePrior};

fn close(a: f64, b: f64, tolerance: f64) {
    assert!(
        (a - b).abs() <= tolerance,
        "{a} is not {b} within {tolerance}"
    );
}

fn at(positions: [f64; 2]) -> Place {
    Place {
        positions: positions.to_vec(),
        ..Place::start(2, 2.0)
    }
}

fn shots(list: &[([f64; 2], [f64; 2])]) -> Vec<Obs> {
    list.iter()
        .map(|(x, y)| Obs {
            place: at(*x),
            called_bad: false,
            tear: *y,
        })
        .collect()
}

/// Straight responses N(5, 2^2), cross terms N(0, 0.6^2), start N(0, 16^2)
/// and N(0, 13^2), no bad shots.
fn straight() -> Prior {
    let own = SlopePrior {
        mean: 5.0,
        sd: 2.0,
        walk: 0.0,
    };
    let adjusters = vec![
        AdjusterPrior::new(Axis::Right, own, 0.6),
        AdjusterPrior::new(Axis::Up, own, 0.6),
    ];
    Prior {
        bad_share: 0.0,
        ..Prior::with(adjusters, [16.0, 13.0], [4.0, 4.0])
    }
}

fn solve(kernel: &Kernel, shots: &[Obs], sd: f64) -> (Basis, Posterior) {
    let cells = Cells::build(shots, false);
    let basis = Basis::build(kernel, &cells.cells);
    let noise = |_: &_| Noise {
        variance: sd * sd,
        bad: 0.0,
    };
    let posterior = Run::start(&basis, &cells.readings[kernel.axis], noise).finish(8);
    (basis, posterior)
}

fn mean(kernel: &Kernel, basis: &Basis, posterior: &Posterior, place: &Place) -> (f64, f64) {
    let (loadings, rest) = basis.project(kernel, place);
    posterior.at(&loadings, rest, kernel.mean(place))
}

/// Conjugate normal regression worked by hand with the textbook formulas
/// (posterior mean (L0 + X'X/s^2)^-1 (L0 m0 + X'y/s^2)); the log evidence is
/// the joint multivariate normal density of the eight readings.
/// Source: Gelman et al., *Bayesian Data Analysis*, the normal linear model.
#[test]
fn with_straight_responses_it_is_bayesian_regression() {
    let list = shots(&[
        ([0.0, 0.0], [12.0, -8.0]),
        ([0.0, 0.0], [9.0, -6.0]),
        ([-2.0, 1.5], [1.0, 2.0]),
        ([-1.5, 1.0], [4.0, -1.0]),
    ]);
    let prior = straight();
    let expected = [
        [10.49169073, 4.75960230, 0.01444578],
        [-6.38445045, 5.21938625, -0.02679462],
    ];
    let mut evidence = 0.0;
    for (axis, want) in expected.iter().enumerate() {
        let kernel = Kernel::new(&prior, axis);
        let (basis, posterior) = solve(&kernel, &list, 4.0);
        let value = |x| mean(&kernel, &basis, &posterior, &at(x)).0;
        let start = value([0.0, 0.0]);
        let mut unit = [0.0, 0.0];
        unit[axis] = 1.0;
        close(start, want[0], 2e-4);
        close(value(unit) - start, want[1], 2e-4);
        close(value([unit[1], unit[0]]) - start, want[2], 2e-4);
        evidence += posterior.log_evidence;
    }
    close(evidence, -23.521439100857, 1e-3);
}

/// With one setting and no response the weight of the i-th reading is the
/// extended harmonic gain 1/(i + R/P), here P = 4 and R = 9.
/// Source: Grubbs, J. Quality Technology 15, 1983 (reprint of 1954).
#[test]
fn at_one_setting_the_weights_are_the_harmonic_gains() {
    let prior = Prior {
        mean_sd: [2.0, 2.0],
        ..straight()
    };
    let kernel = Kernel::new(&prior, 0);
    let gains = [0.307692, 0.235294, 0.190476, 0.16, 0.137931];
    let (mut before, mut list) = (0.0, Vec::new());
    for (i, gain) in gains.iter().enumerate() {
        let y = [3.0, -1.0, 6.0, 2.0, 9.0][i];
        list.extend(shots(&[([0.0, 0.0], [y, 0.0])]));
        let (basis, posterior) = solve(&kernel, &list, 3.0);
        let now = mean(&kernel, &basis, &posterior, &at([0.0, 0.0])).0;
        close((now - before) / (y - before), *gain, 1e-6);
        before = now;
    }
}

fn kinked() -> Prior {
    let own = SlopePrior {
        mean: 6.0,
        sd: 6.0,
        walk: 2.0,
    };
    let adjusters = vec![
        AdjusterPrior::new(Axis::Right, own, 0.35),
        AdjusterPrior::new(Axis::Up, own, 0.35),
    ];
    Prior::with(adjusters, [25.0, 16.0], [4.0, 2.0])
}

/// A dense Gaussian process with the broad line and the integrated Wiener
/// covariance, readings one by one.
/// Source: Rasmussen and Williams, *Gaussian Processes for Machine Learning*,
/// 2006, equations 2.25, 2.26 and 6.28.
#[test]
fn it_equals_a_dense_gaussian_process() {
    let prior = kinked();
    let kernel = Kernel::new(&prior, 0);
    let list = shots(&[
        ([0.0, 0.0], [-20.0, 0.0]),
        ([2.0, 0.0], [-3.0, 0.0]),
        ([2.0, 0.0], [1.0, 0.0]),
        ([3.5, 0.0], [4.0, 0.0]),
        ([-1.0, 0.5], [-22.0, 0.0]),
        ([2.5, 0.5], [2.0, 0.0]),
        ([0.0, 0.0], [-17.0, 0.0]),
    ]);
    let sd = 3.0;
    let wiener = |x: f64, z: f64| {
        let (s, l) = (x.abs().min(z.abs()), x.abs().max(z.abs()));
        if x * z > 0.0 {
            s * s * l / 2.0 - s.powi(3) / 6.0
        } else {
            0.0
        }
    };
    let k = |a: &[f64], b: &[f64]| {
        625.0 + 36.0 * a[0] * b[0] + 2.0 * wiener(a[0], b[0]) + 0.35 * 0.35 * a[1] * b[1]
    };
    let x: Vec<Vec<f64>> = list.iter().map(|o| o.place.positions.clone()).collect();
    let n = x.len();
    let covariance = DMatrix::from_fn(n, n, |i, j| {
        k(&x[i], &x[j]) + if i == j { sd * sd } else { 0.0 }
    });
    let residual = DVector::from_fn(n, |i, _| list[i].tear[0] - 6.0 * x[i][0]);
    let factor = covariance.cholesky().unwrap();
    let (basis, posterior) = solve(&kernel, &list, sd);
    for place in [[0.0, 0.0], [1.0, 0.0], [3.0, -1.0], [6.0, 0.0], [-4.0, 2.0]] {
        let cross = DVector::from_fn(n, |i, _| k(&x[i], &place));
        let want = 6.0 * place[0] + cross.dot(&factor.solve(&residual));
        let variance = k(&place, &place) - cross.dot(&factor.solve(&cross));
        let (got, spread) = mean(&kernel, &basis, &posterior, &at(place));
        close(got, want, 0.02);
        close(spread.sqrt(), variance.sqrt(), 0.02);
    }
}

/// The two-number filter (tear here and slope; the slope walks with the
/// distance moved) is the same Gaussian process, one shot at a time.
/// Source: Wecker and Ansley, J. American Statistical Association 78, 1983
/// (state-space form of the smoothing spline), from memory.
#[test]
fn it_equals_a_filter_that_walks_outward() {
    let prior = kinked();
    let kernel = Kernel::new(&prior, 0);
    let walk = [
        (0.0, -20.0),
        (0.0, -17.0),
        (1.5, -6.0),
        (1.5, -9.0),
        (4.0, 3.0),
        (4.5, 1.0),
    ];
    let (mut f, mut g) = (0.0, 6.0);
    let (mut pff, mut pfg, mut pgg) = (625.0, 0.0, 36.0);
    let (mut x, r) = (0.0, 9.0);
    for (to, y) in walk {
        let d: f64 = to - x;
        x = to;
        f += d * g;
        pff += 2.0 * d * pfg + d * d * pgg + 2.0 * d.powi(3) / 3.0;
        pfg += d * pgg + 2.0 * d * d / 2.0;
        pgg += 2.0 * d;
        let (s, v) = (pff + r, y - f);
        f += pff / s * v;
        g += pfg / s * v;
        pgg -= pfg * pfg / s;
        pfg -= pff * pfg / s;
        pff -= pff * pff / s;
    }
    let list: Vec<_> = walk.iter().map(|(x, y)| ([*x, 0.0], [*y, 0.0])).collect();
    let (basis, posterior) = solve(&kernel, &shots(&list), 3.0);
    let (got, variance) = mean(&kernel, &basis, &posterior, &at([4.5, 0.0]));
    close(got, f, 0.01);
    close(variance, pff, 0.02);
    let further = mean(&kernel, &basis, &posterior, &at([4.51, 0.0])).0;
    close((further - got) / 0.01, g, 0.05);
}
