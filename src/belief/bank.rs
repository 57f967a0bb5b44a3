//! The belief on one axis: one normal belief for each supposed scatter of
//! the shooter in question, weighed by how well it explains the shots.

use super::basis::Basis;
use super::cells::{Cells, Reading};
use super::kernel::Kernel;
use super::obs::{Place, Shooter};
use super::prior::Prior;
use super::sites::{self, Noise, Posterior};
use crate::stats::disk::Piece;
use std::collections::HashMap;

/// Shot-to-shot sds supposed, mm, reading included.
pub const SCATTERS: [f64; 9] = [1.0, 1.45, 2.1, 3.1, 4.5, 6.5, 9.5, 14.0, 20.0];
/// Suppositions less likely than this are dropped.
const FORGOTTEN: f64 = 2e-4;
/// Readings without fletching or from another distance scatter more.
const WEAKER: f64 = 1.5;

/// One supposed scatter.
#[derive(Debug, Clone)]
pub struct Member {
    /// Shot-to-shot sd, mm.
    pub scatter: f64,
    /// Probability of the supposition.
    pub weight: f64,
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
        let sweeps = if readings.len() > 300 { 4 } else { 8 };
        let prior_weights = scatter_prior(prior, axis);
        let mut members: Vec<Member> = Vec::with_capacity(SCATTERS.len());
        let mut logs: Vec<f64> = Vec::with_capacity(SCATTERS.len());
        for (scatter, weight) in SCATTERS.into_iter().zip(prior_weights) {
            let noise = |r: &Reading| {
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
            };
            let posterior = sites::solve(&basis, readings, noise, sweeps);
            logs.push(weight.ln() + posterior.log_evidence);
            members.push(Member {
                scatter,
                weight,
                posterior,
            });
        }
        let top = logs.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let total: f64 = logs.iter().map(|l| (l - top).exp()).sum();
        for (m, l) in members.iter_mut().zip(&logs) {
            m.weight = (l - top).exp() / total;
        }
        members.retain(|m| m.weight > FORGOTTEN);
        let kept: f64 = members.iter().map(|m| m.weight).sum();
        members.iter_mut().for_each(|m| m.weight /= kept);
        Bank {
            axis,
            basis,
            members,
            log_evidence: top + total.ln(),
        }
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

/// Mean and sd of a mixture.
pub fn moments(pieces: &[Piece]) -> (f64, f64) {
    let mean: f64 = pieces.iter().map(|p| p.weight * p.mean).sum();
    let square: f64 = pieces
        .iter()
        .map(|p| p.weight * (p.sd * p.sd + (p.mean - mean).powi(2)))
        .sum();
    (mean, square.sqrt())
}
