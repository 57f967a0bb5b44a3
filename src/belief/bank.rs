//! The belief on one axis: one normal belief for each supposed scatter of
//! the shooter in question, weighed by how well it explains the shots.

use super::basis::Basis;
use super::cells::{Cells, Reading};
use super::kernel::Kernel;
use super::obs::{Place, Shooter};
use super::prior::Prior;
use super::sites::{Noise, Posterior, Run};
use crate::stats::disk::Piece;
use std::collections::HashMap;

/// Shot-to-shot sds supposed, mm, reading included.
pub const SCATTERS: [f64; 9] = [1.0, 1.45, 2.1, 3.1, 4.5, 6.5, 9.5, 14.0, 20.0];
/// Suppositions less likely than this are dropped.
const FORGOTTEN: f64 = 2e-4;
/// After two sweeps, suppositions this far behind the best are given up
/// (natural logarithm).
const HOPELESS: f64 = 25.0;
/// Only with more readings than this: a few outliers can mislead the start.
const SEVERAL: usize = 40;
/// Readings above this number are swept less often.
const MANY: usize = 300;
/// Readings without fletching or from another distance scatter more.
const WEAKER: f64 = 1.5;

/// One supposed scatter.
#[derive(Debug, Clone)]
pub struct Member {
    /// Shot-to-shot sd, mm.
    pub scatter: f64,
    /// Probability of the supposition.
    pub weight: f64,
    /// Its probability beforehand, from this axis alone.
    prior: f64,
    /// What is believed if it holds.
    pub posterior: Posterior,
}

/// All suppositions on one axis.
#[derive(Debug, Clone)]
pub struct Bank {
    /// 0 right, 1 up.
    pub axis: usize,
    /// The numbers the members speak of.
    pub basis: Basis,
    /// The suppositions left.
    pub members: Vec<Member>,
    /// Natural logarithm of the probability of the readings on this axis.
    pub log_evidence: f64,
}

/// Prior probability of each supposed scatter: bell-shaped in the logarithm,
/// with a floor so that none is impossible.
pub fn scatter_prior(prior: &Prior, axis: usize) -> [f64; SCATTERS.len()] {
    let mut w = SCATTERS.map(|s| {
        let z = (s / prior.scatter[axis]).ln() / prior.scatter_spread;
        (-0.5 * z * z).exp() + 0.003
    });
    let sum: f64 = w.iter().sum();
    w.iter_mut().for_each(|v| *v /= sum);
    w
}

impl Bank {
    /// Fits one axis. `others` holds the scatter of shooters other than
    /// `judged`; one that is missing gets the prior's median.
    pub fn fit(
        kernel: &Kernel,
        cells: &Cells,
        judged: Shooter,
        others: &HashMap<Shooter, f64>,
    ) -> Self {
        let (prior, axis) = (kernel.prior, kernel.axis);
        let basis = Basis::build(kernel, &cells.cells);
        let readings = &cells.readings[axis];
        let weaker: Vec<f64> = cells
            .cells
            .iter()
            .map(|c| {
                let far = (c.place.distance_m / prior.distance_m).ln().abs() > 0.05;
                if far || c.place.bare { WEAKER } else { 1.0 }
            })
            .collect();
        let sweeps = if readings.len() > MANY { 4 } else { 8 };
        let noise = |scatter: f64| {
            let weaker = &weaker;
            move |r: &Reading| {
                let own = if r.shooter == judged {
                    scatter
                } else {
                    others
                        .get(&r.shooter)
                        .copied()
                        .unwrap_or(prior.scatter[axis])
                };
                Noise {
                    variance: (own * weaker[r.cell]).powi(2),
                    bad: prior.bad_share,
                }
            }
        };
        let mut runs: Vec<(f64, f64, Run)> = SCATTERS
            .into_iter()
            .zip(scatter_prior(prior, axis))
            .map(|(scatter, weight)| {
                (
                    scatter,
                    weight,
                    Run::start(&basis, readings, noise(scatter)),
                )
            })
            .collect();
        if readings.len() > SEVERAL {
            runs.iter_mut().for_each(|r| {
                r.2.sweep();
                r.2.sweep();
            });
            let log = |r: &(f64, f64, Run)| r.1.ln() + r.2.log_evidence();
            let top = runs.iter().map(log).fold(f64::NEG_INFINITY, f64::max);
            runs.retain(|r| log(r) > top - HOPELESS);
        }
        let mut members: Vec<Member> = Vec::with_capacity(runs.len());
        for (scatter, weight, run) in runs {
            let posterior = run.finish(sweeps);
            members.push(Member {
                scatter,
                weight,
                prior: weight,
                posterior,
            });
        }
        let logs: Vec<f64> = members
            .iter()
            .map(|m| m.prior.ln() + m.posterior.log_evidence)
            .collect();
        let log_evidence = normalise(&mut members, &logs);
        Bank {
            axis,
            basis,
            members,
            log_evidence,
        }
    }

    /// Drops the suppositions that are not worth carrying.
    pub fn prune(&mut self) {
        self.members.retain(|m| m.weight > FORGOTTEN);
        let kept: f64 = self.members.iter().map(|m| m.weight).sum();
        self.members.iter_mut().for_each(|m| m.weight /= kept);
    }

    /// The mean tear at a place: a mixture over the suppositions.
    pub fn pieces(&self, kernel: &Kernel, at: &Place) -> Vec<Piece> {
        let (loadings, rest) = self.basis.project(kernel, at);
        let prior_mean = kernel.mean(at);
        self.members
            .iter()
            .map(|m| {
                let (mean, variance) = m.posterior.at(&loadings, rest, prior_mean);
                Piece {
                    weight: m.weight,
                    mean,
                    sd: variance.max(1e-4).sqrt(),
                }
            })
            .collect()
    }

    /// The slope between two places, for each unit of `span`: a mixture.
    pub fn slope(&self, kernel: &Kernel, low: &Place, high: &Place, span: f64) -> Vec<Piece> {
        let ((a, _), (b, _)) = (
            self.basis.project(kernel, low),
            self.basis.project(kernel, high),
        );
        let diff: Vec<f64> = b.iter().zip(&a).map(|(x, y)| x - y).collect();
        let prior =
            kernel.between(high, high) + kernel.between(low, low) - 2.0 * kernel.between(low, high);
        let rest = (prior - diff.iter().map(|v| v * v).sum::<f64>()).max(0.0);
        let step = kernel.mean(high) - kernel.mean(low);
        self.members
            .iter()
            .map(|m| {
                let (mean, variance) = m.posterior.at(&diff, rest, step);
                Piece {
                    weight: m.weight,
                    mean: mean / span,
                    sd: variance.max(1e-12).sqrt() / span,
                }
            })
            .collect()
    }

    /// Chance of a reading to come from a bad shot.
    pub fn bad(&self, reading: usize) -> f64 {
        self.members
            .iter()
            .map(|m| m.weight * m.posterior.bad[reading])
            .sum()
    }
}

/// Sets the weights from their logarithms; returns the logarithm of the sum.
fn normalise(members: &mut [Member], logs: &[f64]) -> f64 {
    let top = logs.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let total: f64 = logs.iter().map(|l| (l - top).exp()).sum();
    for (m, l) in members.iter_mut().zip(logs) {
        m.weight = (l - top).exp() / total;
    }
    top + total.ln()
}

/// How far the two axes' scatters go together (correlation of logarithms):
/// who is unsteady sideways is unsteady upright too.
const TOGETHER: f64 = 0.6;

/// Lets each axis learn of the scatter from the other: the two sets of
/// weights become the margins of a joint belief with correlated logarithms.
pub fn couple(prior: &Prior, banks: &mut [Bank; 2]) {
    let rho = TOGETHER;
    let z = [0, 1].map(|a| {
        let of = |m: &Member| (m.scatter / prior.scatter[a]).ln() / prior.scatter_spread;
        banks[a].members.iter().map(of).collect::<Vec<f64>>()
    });
    let seen = [0, 1].map(|a| {
        banks[a]
            .members
            .iter()
            .map(|m| m.weight / m.prior)
            .collect::<Vec<f64>>()
    });
    let mut margin = [vec![0.0; z[0].len()], vec![0.0; z[1].len()]];
    for (j, r) in z[0].iter().enumerate() {
        for (k, u) in z[1].iter().enumerate() {
            let form = (r * r - 2.0 * rho * r * u + u * u) / (1.0 - rho * rho);
            let floor = 0.003 * (-0.5 * (r - u) * (r - u)).exp();
            let w = ((-0.5 * form).exp() + floor) * seen[0][j] * seen[1][k];
            margin[0][j] += w;
            margin[1][k] += w;
        }
    }
    for (bank, w) in banks.iter_mut().zip(&margin) {
        let total: f64 = w.iter().sum();
        bank.members
            .iter_mut()
            .zip(w)
            .for_each(|(m, w)| m.weight = w / total);
        bank.prune();
    }
}

/// Mean and sd of a mixture.
pub fn moments(pieces: &[Piece]) -> (f64, f64) {
    let mean: f64 = pieces.iter().map(|p| p.weight * p.mean).sum();
    let square: f64 = pieces
        .iter()
        .map(|p| p.weight * (p.sd * p.sd + (p.mean - mean).powi(2)))
        .sum();
    (mean, square.sqrt())
}
