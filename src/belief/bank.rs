//! The belief on one axis: one normal belief for each supposed scatter of
//! the shooter in question, weighed by how well it explains the shots.

use super::basis::Basis;
use super::cells::{Cells, Reading};
use super::kernel::Kernel;
use super::obs::{Place, Shooter, same_distance};
use super::prior::Prior;
use super::sites::{Noise, Posterior, Run};
use crate::stats::disk::Piece;
use std::collections::HashMap;

/// Shot-to-shot sds supposed, mm, reading included.
pub(crate) const SCATTERS: [f64; 9] = [1.0, 1.45, 2.1, 3.1, 4.5, 6.5, 9.5, 14.0, 20.0];
/// A kind of response supposed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Class {
    /// Such as earlier bows had, where they taught any.
    pooled: bool,
    /// Times the slope's sd.
    stretch: f64,
    /// Times the walk's rate, as a sd.
    bend: f64,
    /// Probability beforehand.
    share: f64,
    /// Every how many of [`SCATTERS`] are supposed with it.
    stride: usize,
}

/// The kinds of response supposed on the kernel's axis, the plain one first.
/// Where earlier bows taught something, all of [`STRETCHES`] together keep the
/// share of the wide prior, so that the odd bow is found out as fast as ever.
fn classes(kernel: &Kernel) -> Vec<Class> {
    let wide = kernel.prior.wide[kernel.axis].clamp(0.0, 1.0);
    let pooled = (wide < 1.0).then_some(Class {
        pooled: true,
        stretch: 1.0,
        bend: 1.0,
        share: 1.0 - wide,
        stride: 1,
    });
    let usual = STRETCHES.iter().enumerate();
    // Unusual responses get a coarser choice of scatters.
    let usual = usual.map(|(i, (stretch, bend, share))| Class {
        pooled: false,
        stretch: *stretch,
        bend: *bend,
        share: wide * share,
        stride: if i == 0 { 1 } else { 2 },
    });
    let mut all: Vec<Class> = pooled.into_iter().chain(usual).collect();
    if kernel.plain {
        all.truncate(1);
    }
    all
}

/// Responses supposed: the slope's sd and the walk's rate (as a sd) as
/// multiples of the usual, and the share of each. One answers far more than
/// expected, one is bent as well: a
/// bow that answers far more than expected must not look like a bad archer.
pub(crate) const STRETCHES: [(f64, f64, f64); 3] =
    [(1.0, 1.0, 0.86), (4.0, 4.0, 0.09), (3.0, 9.0, 0.05)];
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
pub(crate) struct Member {
    /// Shot-to-shot sd, mm.
    pub scatter: f64,
    /// Probability of the supposition.
    pub weight: f64,
    /// Which of the bases it speaks of.
    pub(crate) base: usize,
    /// Its probability beforehand, from this axis alone.
    prior: f64,
    /// The share of its base beforehand.
    share: f64,
    /// What is believed if it holds.
    pub(crate) posterior: Posterior,
}

/// A member under way.
struct Started<'a> {
    base: usize,
    scatter: f64,
    share: f64,
    prior: f64,
    run: Run<'a>,
}

impl Started<'_> {
    fn finish(self, sweeps: usize) -> Member {
        Member {
            scatter: self.scatter,
            weight: self.prior,
            base: self.base,
            prior: self.prior,
            share: self.share,
            posterior: self.run.finish(sweeps),
        }
    }
}

/// The kernel with responses of this kind.
fn of_class<'a>(kernel: &Kernel<'a>, class: &Class) -> Kernel<'a> {
    Kernel {
        pooled: class.pooled,
        stretch: class.stretch,
        bend: class.bend,
        ..kernel.clone()
    }
}

/// All suppositions on one axis.
#[derive(Debug, Clone)]
pub(crate) struct Bank {
    /// The kinds of response supposed.
    classes: Vec<Class>,
    /// The numbers the members speak of, one set for each of the kinds.
    pub(crate) bases: Vec<Basis>,
    /// The suppositions left.
    pub members: Vec<Member>,
    /// Natural logarithm of the probability of the readings on this axis.
    pub log_evidence: f64,
}

/// Prior probability of each supposed scatter: bell-shaped in the logarithm,
/// with a floor so that none is impossible.
pub(crate) fn scatter_prior(prior: &Prior, axis: usize) -> [f64; SCATTERS.len()] {
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
        let classes = classes(kernel);
        let bases: Vec<Basis> = classes
            .iter()
            .map(|class| Basis::build(&of_class(kernel, class), &cells.cells))
            .collect();
        let readings = &cells.readings[axis];
        let weaker: Vec<f64> = cells
            .cells
            .iter()
            .map(|c| {
                let far = !same_distance(c.place.distance_m, prior.distance_m);
                if far || c.place.bare { WEAKER } else { 1.0 }
            })
            .collect();
        let sweeps = if readings.len() > MANY { 4 } else { 8 };
        let noise = |scatter: f64| {
            let weaker = &weaker;
            move |r: &Reading| {
                let (own, bad) = if r.shooter == judged {
                    (scatter, kernel.bad_share)
                } else {
                    let own = others.get(&r.shooter).copied();
                    (own.unwrap_or(prior.scatter[axis]), prior.bad_share)
                };
                Noise {
                    variance: (own * weaker[r.cell]).powi(2),
                    bad,
                }
            }
        };
        let mut runs: Vec<Started> = Vec::new();
        for (base, (basis, class)) in bases.iter().zip(&classes).enumerate() {
            let Class { share, stride, .. } = *class;
            let weights = scatter_prior(prior, axis);
            let some = SCATTERS.into_iter().zip(weights).step_by(stride);
            let all: f64 = some.clone().map(|s| s.1).sum();
            for (scatter, weight) in some.map(|(s, w)| (s, w / all)) {
                let run = Run::start(basis, readings, noise(scatter));
                runs.push(Started {
                    base,
                    scatter,
                    share: share / all,
                    prior: weight * share,
                    run,
                });
            }
        }
        if readings.len() > SEVERAL {
            for r in &mut runs {
                r.run.sweep();
                r.run.sweep();
            }
            let log = |r: &Started| r.prior.ln() + r.run.log_evidence();
            let top = runs.iter().map(log).fold(f64::NEG_INFINITY, f64::max);
            runs.retain(|r| log(r) > top - HOPELESS);
        }
        let mut members: Vec<Member> = runs.into_iter().map(|r| r.finish(sweeps)).collect();
        let logs: Vec<f64> = members
            .iter()
            .map(|m| m.prior.ln() + m.posterior.log_evidence)
            .collect();
        let log_evidence = normalise(&mut members, &logs);
        Bank {
            classes,
            bases,
            members,
            log_evidence,
        }
    }

    /// Drops the suppositions that are not worth carrying.
    pub(crate) fn prune(&mut self) {
        self.members.retain(|m| m.weight > FORGOTTEN);
        let kept: f64 = self.members.iter().map(|m| m.weight).sum();
        self.members.iter_mut().for_each(|m| m.weight /= kept);
    }

    /// The mean tear at a place: a mixture over the suppositions.
    pub(crate) fn pieces(&self, kernel: &Kernel, at: &Place) -> Vec<Piece> {
        let views = self.views(kernel, |basis, k| {
            let (loadings, rest) = basis.project(k, at);
            (loadings, rest, k.mean(at))
        });
        self.mixture(&views, 1.0)
    }

    /// The slope between two places, for each unit of `span`: a mixture.
    pub fn slope(&self, kernel: &Kernel, low: &Place, high: &Place, span: f64) -> Vec<Piece> {
        let views = self.views(kernel, |basis, k| {
            let ((a, _), (b, _)) = (basis.project(k, low), basis.project(k, high));
            let diff: Vec<f64> = b.iter().zip(&a).map(|(x, y)| x - y).collect();
            let prior = k.between(high, high) + k.between(low, low) - 2.0 * k.between(low, high);
            let rest = (prior - diff.iter().map(|v| v * v).sum::<f64>()).max(0.0);
            (diff, rest, k.mean(high) - k.mean(low))
        });
        self.mixture(&views, span)
    }

    /// One view of a place for each base that still has members.
    fn views(&self, kernel: &Kernel, look: impl Fn(&Basis, &Kernel) -> View) -> Vec<View> {
        self.bases
            .iter()
            .zip(&self.classes)
            .enumerate()
            .map(|(i, (basis, class))| {
                if self.members.iter().any(|m| m.base == i) {
                    look(basis, &of_class(kernel, class))
                } else {
                    View::default()
                }
            })
            .collect()
    }

    fn mixture(&self, views: &[View], span: f64) -> Vec<Piece> {
        let piece = |m: &Member| {
            let (loadings, rest, prior_mean) = &views[m.base];
            let (mean, variance) = m.posterior.at(loadings, *rest, *prior_mean);
            Piece {
                weight: m.weight,
                mean: mean / span,
                sd: variance.max(1e-4).sqrt() / span,
            }
        };
        self.members.iter().map(piece).collect()
    }

    /// Chance of a reading to come from a bad shot.
    pub fn bad(&self, reading: usize) -> f64 {
        self.members
            .iter()
            .map(|m| m.weight * m.posterior.bad[reading])
            .sum()
    }
}

/// Loadings of a place, what they leave, and its prior mean.
type View = (Vec<f64>, f64, f64);

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
pub(crate) fn couple(prior: &Prior, banks: &mut [Bank; 2]) {
    let rho = TOGETHER;
    let z = [0, 1].map(|a| {
        let of = |m: &Member| (m.scatter / prior.scatter[a]).ln() / prior.scatter_spread;
        banks[a].members.iter().map(of).collect::<Vec<f64>>()
    });
    let seen = [0, 1].map(|a| {
        banks[a]
            .members
            .iter()
            .map(|m| m.share * m.weight / m.prior)
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
pub(crate) fn moments(pieces: &[Piece]) -> (f64, f64) {
    let mean: f64 = pieces.iter().map(|p| p.weight * p.mean).sum();
    let square: f64 = pieces
        .iter()
        .map(|p| p.weight * (p.sd * p.sd + (p.mean - mean).powi(2)))
        .sum();
    (mean, square.sqrt())
}
