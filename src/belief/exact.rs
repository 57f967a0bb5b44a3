//! The belief held against the same suppositions summed out in full: every
//! kind of response, every scatter, and every way in which each of the shots
//! may have been a bad one, each a dense normal belief of its own (Rasmussen
//! and Williams, Gaussian Processes for Machine Learning, 2006, equations
//! 2.23 and 2.24). The belief itself takes the bad shots into account by
//! expectation propagation; how far that is off is what is tolerated here.

mod cases;

use nalgebra::{Cholesky, DMatrix, DVector, Dyn};

use super::bank::{SCATTERS, STRETCHES};
use super::{OWNER, Obs, Place, Prior, Shooter, SlopePrior};

/// How steady somebody is beforehand: a bell in the logarithm about the
/// prior's median, and none impossible.
fn scatter_weights(prior: &Prior, axis: usize) -> Vec<f64> {
    let bell = |s: &f64| {
        let z = (s / prior.scatter[axis]).ln() / prior.scatter_spread;
        (-z * z / 2.0).exp() + 0.003
    };
    let all: Vec<f64> = SCATTERS.iter().map(bell).collect();
    let sum: f64 = all.iter().sum();
    all.iter().map(|w| w / sum).collect()
}

/// One supposition: a kind of response and a scatter.
#[derive(Clone, Copy)]
struct Supposed {
    /// A response such as earlier bows had.
    pooled: bool,
    stretch: f64,
    bend: f64,
    scatter: f64,
    /// The share of its kind beforehand, over the sum of the scatters used.
    share: f64,
}

fn supposed(prior: &Prior, axis: usize) -> Vec<Supposed> {
    let weights = scatter_weights(prior, axis);
    let mut all = Vec::new();
    let wide = prior.wide[axis];
    let usual = STRETCHES.map(|(stretch, bend, share)| (false, stretch, bend, wide * share));
    let pooled = (wide < 1.0).then_some((true, 1.0, 1.0, 1.0 - wide));
    let kinds = pooled.into_iter().chain(usual);
    for (pooled, stretch, bend, share) in kinds {
        // Unusual responses get every other scatter.
        let every = if bend > 1.0 { 2 } else { 1 };
        let used: Vec<usize> = (0..SCATTERS.len()).step_by(every).collect();
        let sum: f64 = used.iter().map(|j| weights[*j]).sum();
        all.extend(used.iter().map(|j| Supposed {
            pooled,
            stretch,
            bend,
            scatter: SCATTERS[*j],
            share: share / sum,
        }));
    }
    all
}

/// An integrated Wiener process from the start outward: the integral of
/// (x - u)(z - u) up to the nearer of both, by Simpson's rule, which is exact.
fn walked(x: f64, z: f64) -> f64 {
    if x * z <= 0.0 {
        return 0.0;
    }
    let (x, z) = (x.abs(), z.abs());
    let end = x.min(z);
    let at = |u: f64| (x - u) * (z - u);
    end / 6.0 * (at(0.0) + 4.0 * at(end / 2.0) + at(end))
}

fn covariance(prior: &Prior, axis: usize, s: &Supposed, a: &Place, b: &Place) -> f64 {
    let mut sum = match a.epoch == b.epoch {
        true => prior.mean_sd[axis].powi(2),
        false => 0.0,
    };
    let apart = f64::from(a.response_epoch.abs_diff(b.response_epoch));
    let kept = prior.response_kept.powf(apart);
    for (k, (x, z)) in a.positions.iter().zip(&b.positions).enumerate() {
        let own = slope(prior, axis, s, k);
        let slope = own.sd * s.stretch;
        sum += kept * slope * slope * x * z + kept * own.walk * s.bend * s.bend * walked(*x, *z);
    }
    if a.shooter == b.shooter && a.shooter != OWNER {
        sum += prior.shooter_sd.powi(2);
    }
    if a.bare && b.bare {
        sum += prior.bare_sd.powi(2);
    }
    let folds = |p: &Place| (p.distance_m / prior.distance_m).ln();
    sum + prior.distance_sd.powi(2) * folds(a) * folds(b)
}

/// What is supposed of one adjuster's slope on this axis.
fn slope(prior: &Prior, axis: usize, s: &Supposed, k: usize) -> SlopePrior {
    let adjuster = &prior.adjusters[k];
    let pooled = adjuster
        .pooled
        .filter(|_| s.pooled && adjuster.axis.index() == axis);
    pooled.unwrap_or(adjuster.slope[axis])
}

fn expected(prior: &Prior, axis: usize, s: &Supposed, at: &Place) -> f64 {
    let each = at.positions.iter().enumerate();
    each.map(|(k, x)| slope(prior, axis, s, k).mean * x).sum()
}

/// A supposition with one way in which shots may have been bad.
struct Part {
    of: usize,
    weight: f64,
    bad: u32,
    factor: Cholesky<f64, Dyn>,
    alpha: DVector<f64>,
}

struct Exact<'a> {
    prior: &'a Prior,
    shots: &'a [Obs],
    /// Share of the judged shooter's bad shots.
    share: f64,
    supposed: [Vec<Supposed>; 2],
    parts: [Vec<Part>; 2],
}

/// How likely each scatter is, from one shooter's readings about their own
/// mean at each setting.
fn by_repeats(prior: &Prior, shots: &[Obs], axis: usize, shooter: Shooter) -> Vec<f64> {
    let (mut df, mut squares) = (0.0, 0.0);
    let own: Vec<&Obs> = shots
        .iter()
        .filter(|s| s.place.shooter == shooter)
        .collect();
    let mut left = own.clone();
    while let Some(first) = left.first().copied() {
        let (here, others): (Vec<&Obs>, Vec<&Obs>) =
            left.iter().copied().partition(|s| s.place == first.place);
        let n = here.len() as f64;
        let mean = here.iter().map(|s| s.tear[axis]).sum::<f64>() / n;
        df += n - 1.0;
        squares += here
            .iter()
            .map(|s| (s.tear[axis] - mean).powi(2))
            .sum::<f64>();
        left = others;
    }
    let weights = scatter_weights(prior, axis);
    let likely = |(s, w): (&f64, f64)| w * s.powf(-df) * (-squares / (2.0 * s * s)).exp();
    let all: Vec<f64> = SCATTERS.iter().zip(weights).map(likely).collect();
    let sum: f64 = all.iter().sum();
    all.iter().map(|w| w / sum).collect()
}

/// The scatter to be expected of somebody by those repeats alone.
fn repeated(prior: &Prior, shots: &[Obs], axis: usize, shooter: Shooter) -> f64 {
    let weights = by_repeats(prior, shots, axis, shooter);
    SCATTERS.iter().zip(weights).map(|(s, w)| s * w).sum()
}

/// The scatter whose precision is the one to be expected of another shooter.
fn other(prior: &Prior, shots: &[Obs], axis: usize, shooter: Shooter) -> f64 {
    let weights = by_repeats(prior, shots, axis, shooter);
    let precision = SCATTERS.iter().zip(weights).map(|(s, w)| w / (s * s));
    precision.sum::<f64>().powf(-0.5)
}

impl<'a> Exact<'a> {
    fn of(prior: &'a Prior, shots: &'a [Obs], judged: Shooter) -> Self {
        let usual = Self::with(prior, shots, judged, prior.bad_share);
        // A shooter's own share of bad shots is weighed once, as if a hundred
        // usual shots had been seen before.
        let own: Vec<usize> = (0..shots.len())
            .filter(|i| shots[*i].place.shooter == judged)
            .collect();
        let bad: f64 = own.iter().map(|i| usual.bad(*i)).sum();
        let share = (100.0 * prior.bad_share + bad) / (100.0 + own.len() as f64);
        if (share - prior.bad_share).abs() < 0.01 {
            return usual;
        }
        Self::with(prior, shots, judged, share)
    }

    fn with(prior: &'a Prior, shots: &'a [Obs], judged: Shooter, share: f64) -> Self {
        let supposed = [0, 1].map(|axis| supposed(prior, axis));
        let mut parts = [0, 1].map(|axis| {
            let parts = |(of, s): (usize, &Supposed)| {
                let ways = 0..(1_u32 << shots.len());
                ways.map(|bad| part(prior, shots, axis, judged, share, (of, s), bad))
                    .collect::<Vec<Part>>()
            };
            supposed[axis]
                .iter()
                .enumerate()
                .flat_map(parts)
                .collect::<Vec<Part>>()
        });
        couple(prior, &supposed, &mut parts);
        Self {
            prior,
            shots,
            share,
            supposed,
            parts,
        }
    }

    /// Weight, mean and sd of a sum of tears, each times its factor.
    fn mixture(&self, axis: usize, sum: &[(f64, &Place)]) -> Vec<(f64, f64, f64)> {
        let one = |part: &Part| {
            let s = &self.supposed[axis][part.of];
            let each = sum
                .iter()
                .map(|(f, p)| f * expected(self.prior, axis, s, p));
            let mean: f64 = each.sum();
            let cov = |a: &Place, b: &Place| covariance(self.prior, axis, s, a, b);
            let with = |o: &Obs| sum.iter().map(|(f, p)| f * cov(p, &o.place)).sum::<f64>();
            let k = DVector::from_iterator(self.shots.len(), self.shots.iter().map(with));
            let own: f64 = sum
                .iter()
                .flat_map(|(f, p)| sum.iter().map(move |(g, q)| (f, p, g, q)))
                .map(|(f, p, g, q)| f * g * cov(p, q))
                .sum();
            let left = own - k.dot(&part.factor.solve(&k));
            (
                part.weight,
                mean + k.dot(&part.alpha),
                left.max(1e-9).sqrt(),
            )
        };
        self.parts[axis].iter().map(one).collect()
    }

    /// Chance that a shot was bad, on either axis.
    fn bad(&self, shot: usize) -> f64 {
        let clean = |parts: &Vec<Part>| {
            let clean = parts.iter().filter(|p| p.bad & (1 << shot) == 0);
            clean.map(|p| p.weight).sum::<f64>()
        };
        1.0 - self.parts.iter().map(clean).product::<f64>()
    }

    /// The next shot of the judged shooter, who has the share of bad shots.
    fn next_shot(&self, axis: usize, at: &Place) -> Vec<(f64, f64, f64)> {
        let tears = self.mixture(axis, &[(1.0, at)]);
        let each = tears.iter().zip(&self.parts[axis]);
        each.flat_map(|((w, m, s), part)| {
            let scatter = self.supposed[axis][part.of].scatter;
            let shot = |share: f64, wide: f64| (w * share, *m, s.hypot(wide * scatter));
            [shot(1.0 - self.share, 1.0), shot(self.share, 3.0)]
        })
        .collect()
    }

    fn scatter(&self, axis: usize) -> f64 {
        let each = self.parts[axis].iter();
        each.map(|p| p.weight * self.supposed[axis][p.of].scatter)
            .sum()
    }
}

fn part(
    prior: &Prior,
    shots: &[Obs],
    axis: usize,
    judged: Shooter,
    share: f64,
    (of, s): (usize, &Supposed),
    bad: u32,
) -> Part {
    let n = shots.len();
    let mut sigma = DMatrix::from_fn(n, n, |i, j| {
        covariance(prior, axis, s, &shots[i].place, &shots[j].place)
    });
    let mut log = 0.0;
    for (i, shot) in shots.iter().enumerate() {
        let own = shot.place.shooter == judged;
        let (scatter, share) = match own {
            true => (s.scatter, share),
            false => (
                other(prior, shots, axis, shot.place.shooter),
                prior.bad_share,
            ),
        };
        let far = (shot.place.distance_m / prior.distance_m).ln().abs() > 0.05;
        let wide = if far || shot.place.bare { 1.5 } else { 1.0 };
        let is_bad = bad & (1 << i) != 0;
        sigma[(i, i)] += (scatter * wide * if is_bad { 3.0 } else { 1.0 }).powi(2);
        log += if is_bad {
            share.ln()
        } else {
            (1.0 - share).ln()
        };
    }
    let off = |o: &Obs| o.tear[axis] - expected(prior, axis, s, &o.place);
    let y = DVector::from_iterator(n, shots.iter().map(off));
    let factor = Cholesky::new(sigma).expect("a covariance");
    let alpha = factor.solve(&y);
    let half_log: f64 = factor.l().diagonal().iter().map(|d| d.ln()).sum();
    let turns = n as f64 / 2.0 * (2.0 * std::f64::consts::PI).ln();
    Part {
        of,
        weight: log - y.dot(&alpha) / 2.0 - half_log - turns,
        bad,
        factor,
        alpha,
    }
}

/// The two axes' scatters go together: normal logarithms with correlation
/// 0.6, and a floor.
fn couple(prior: &Prior, supposed: &[Vec<Supposed>; 2], parts: &mut [Vec<Part>; 2]) {
    let seen = [0, 1].map(|axis| {
        let of = |i: usize| {
            let own = parts[axis].iter().filter(|p| p.of == i);
            own.map(|p| p.weight.exp()).sum::<f64>() * supposed[axis][i].share
        };
        (0..supposed[axis].len()).map(of).collect::<Vec<f64>>()
    });
    let z = [0, 1].map(|axis| {
        let of = |s: &Supposed| (s.scatter / prior.scatter[axis]).ln() / prior.scatter_spread;
        supposed[axis].iter().map(of).collect::<Vec<f64>>()
    });
    let joint = |i: usize, j: usize| {
        let (a, b) = (z[0][i], z[1][j]);
        let together = (-(a * a - 1.2 * a * b + b * b) / (2.0 * 0.64)).exp();
        (together + 0.003 * (-(a - b).powi(2) / 2.0).exp()) * seen[0][i] * seen[1][j]
    };
    let (n, m) = (seen[0].len(), seen[1].len());
    let margins = [
        (0..n)
            .map(|i| (0..m).map(|j| joint(i, j)).sum())
            .collect::<Vec<f64>>(),
        (0..m)
            .map(|j| (0..n).map(|i| joint(i, j)).sum())
            .collect::<Vec<f64>>(),
    ];
    for axis in [0, 1] {
        let total: f64 = margins[axis].iter().sum();
        for (i, s) in supposed[axis].iter().enumerate() {
            let all = seen[axis][i] / s.share;
            let own = parts[axis].iter_mut().filter(|p| p.of == i);
            own.for_each(|p| p.weight = p.weight.exp() / all * margins[axis][i] / total);
        }
    }
}

fn moments(mixture: &[(f64, f64, f64)]) -> (f64, f64) {
    let mean: f64 = mixture.iter().map(|(w, m, _)| w * m).sum();
    let square: f64 = mixture
        .iter()
        .map(|(w, m, s)| w * (s * s + (m - mean).powi(2)))
        .sum();
    (mean, square.sqrt())
}

fn moved(mixture: &[(f64, f64, f64)], by: f64) -> Vec<(f64, f64, f64)> {
    mixture.iter().map(|(w, m, s)| (*w, m + by, *s)).collect()
}

/// Chance of a mixture to be below nothing.
fn below(mixture: &[(f64, f64, f64)]) -> f64 {
    let one = |(w, m, s): &(f64, f64, f64)| w * crate::stats::normal::below(-m / s);
    mixture.iter().map(one).sum()
}
