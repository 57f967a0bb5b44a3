//! The belief on one axis for one supposed scatter: expectation propagation
//! (Minka 2001) with a clean and a bad kind of shot.
//!
//! Every reading is replaced by a normal that says as much about the mean
//! tear as the reading does once the chance that it was a bad shot is weighed
//! in. All are renewed together, so the order of the shots does not matter.

use super::basis::Basis;
use super::cells::Reading;
use crate::stats::cholesky;

/// A bad shot scatters this much wider.
pub(crate) const BAD_FACTOR: f64 = 3.0;

/// The scatter supposed of a reading.
#[derive(Debug, Clone, Copy)]
pub struct Noise {
    /// Variance of a clean reading, mm^2.
    pub variance: f64,
    /// Share of bad shots.
    pub bad: f64,
}

/// The belief under one supposition.
#[derive(Debug, Clone)]
pub struct Posterior {
    /// Mean of the basis numbers.
    pub mean: Vec<f64>,
    /// Cholesky factor of their precision.
    pub(crate) factor: Vec<f64>,
    /// Natural logarithm of the probability of all readings.
    pub log_evidence: f64,
    /// Chance of each reading to be a bad shot.
    pub bad: Vec<f64>,
}

#[derive(Clone, Copy)]
struct Site {
    tau: f64,
    nu: f64,
    log_z: f64,
}

impl Posterior {
    /// Mean and variance of a projected place under this supposition.
    pub fn at(&self, loadings: &[f64], rest: f64, prior_mean: f64) -> (f64, f64) {
        let mean = prior_mean + dot(loadings, &self.mean);
        let mut v = loadings.to_vec();
        cholesky::forward(&self.factor, v.len(), &mut v);
        (mean, dot(&v, &v) + rest)
    }
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(x, y)| x * y).sum()
}

struct Gauss {
    mean: Vec<f64>,
    factor: Vec<f64>,
    log_z: f64,
}

/// The normal belief that the present sites amount to.
fn combine(basis: &Basis, readings: &[Reading], sites: &[Site]) -> Gauss {
    let (m, n) = (basis.size, basis.means.len());
    let (mut tau, mut nu) = (vec![0.0; n], vec![0.0; n]);
    for (r, s) in readings.iter().zip(sites) {
        tau[r.cell] += r.count * s.tau;
        nu[r.cell] += r.count * s.nu;
    }
    let mut a = vec![0.0; m * m];
    (0..m).for_each(|i| a[i * m + i] = 1.0);
    let mut g = vec![0.0; m];
    let mut log_z = 0.0;
    for c in 0..n {
        let (row, mu) = (basis.row(c), basis.means[c]);
        let pull = nu[c] - tau[c] * mu;
        log_z += mu * (nu[c] - 0.5 * tau[c] * mu);
        for i in 0..m {
            g[i] += row[i] * pull;
            let lean = tau[c] * row[i];
            for j in 0..=i {
                a[i * m + j] += lean * row[j];
            }
        }
    }
    cholesky::factor_floored(&mut a, m);
    log_z -= cholesky::log_diagonal(&a, m);
    cholesky::forward(&a, m, &mut g);
    log_z += 0.5 * dot(&g, &g);
    cholesky::backward(&a, m, &mut g);
    Gauss {
        mean: g,
        factor: a,
        log_z,
    }
}

/// Renews one site against the belief without it; returns the chance of bad.
fn renew(site: &mut Site, y: f64, noise: Noise, mean: f64, variance: f64, damp: f64) -> f64 {
    let cavity_tau = (1.0 / variance - site.tau).max(1e-9);
    let cavity_nu = mean / variance - site.nu;
    let (cm, cv) = (cavity_nu / cavity_tau, 1.0 / cavity_tau);
    let v = y - cm;
    let s = [
        cv + noise.variance,
        cv + BAD_FACTOR * BAD_FACTOR * noise.variance,
    ];
    let a = [
        (1.0 - noise.bad).ln() - 0.5 * (v * v / s[0] + s[0].ln()),
        noise.bad.max(1e-12).ln() - 0.5 * (v * v / s[1] + s[1].ln()),
    ];
    let top = a[0].max(a[1]);
    let (e0, e1) = ((a[0] - top).exp(), (a[1] - top).exp());
    let log_tilted = top + (e0 + e1).ln() - 0.5 * (2.0 * std::f64::consts::PI).ln();
    let u = [e0 / (e0 + e1), e1 / (e0 + e1)];
    let h = u[0] / s[0] + u[1] / s[1];
    let bend = h - v * v * (u[0] / (s[0] * s[0]) + u[1] / (s[1] * s[1]) - h * h);
    let (tm, tv) = (cm + cv * v * h, (cv - cv * cv * bend).max(1e-9));
    // A reading never takes knowledge away: its precision stays above zero.
    let tau = (1.0 / tv - cavity_tau).clamp(1e-7, 1.0 / noise.variance);
    let nu = tm * (cavity_tau + tau) - cavity_nu;
    site.tau += damp * (tau - site.tau);
    site.nu += damp * (nu - site.nu);
    let both = cavity_tau + site.tau;
    let total = cavity_nu + site.nu;
    site.log_z = log_tilted + 0.5 * (1.0 + site.tau * cv).ln()
        - 0.5 * (total * total / both - cavity_nu * cavity_nu / cavity_tau);
    u[1]
}

/// A solution under way, so that hopeless suppositions can be given up early.
pub struct Run<'a> {
    basis: &'a Basis,
    readings: &'a [Reading],
    noises: Vec<Noise>,
    sites: Vec<Site>,
    bad: Vec<f64>,
    gauss: Gauss,
    sweeps: usize,
}

/// Sites that move less than this, in clean readings, have settled.
const SETTLED: f64 = 1e-2;

impl<'a> Run<'a> {
    /// Starts with every reading taken as clean.
    pub fn start(
        basis: &'a Basis,
        readings: &'a [Reading],
        noise: impl Fn(&Reading) -> Noise,
    ) -> Self {
        let noises: Vec<Noise> = readings.iter().map(noise).collect();
        let clean = |(r, n): (&Reading, &Noise)| Site {
            tau: 1.0 / n.variance,
            nu: r.y / n.variance,
            log_z: 0.0,
        };
        let sites: Vec<Site> = readings.iter().zip(&noises).map(clean).collect();
        let bad = vec![0.0; readings.len()];
        let gauss = combine(basis, readings, &sites);
        Run {
            basis,
            readings,
            noises,
            sites,
            bad,
            gauss,
            sweeps: 0,
        }
    }

    /// Renews every site once; returns whether they have settled.
    pub(crate) fn sweep(&mut self) -> bool {
        let size = self.basis.size;
        let mut v = vec![0.0; size];
        let cells: Vec<(f64, f64)> = (0..self.basis.means.len())
            .map(|c| {
                v.copy_from_slice(self.basis.row(c));
                let mean = self.basis.means[c] + dot(&v, &self.gauss.mean);
                cholesky::forward(&self.gauss.factor, size, &mut v);
                (mean, dot(&v, &v).max(1e-9))
            })
            .collect();
        let damp = if self.sweeps < 3 { 1.0 } else { 0.6 };
        let mut moved = 0.0_f64;
        for (i, r) in self.readings.iter().enumerate() {
            let (mean, variance) = cells[r.cell];
            let before = self.sites[i].tau;
            let noise = self.noises[i];
            self.bad[i] = renew(&mut self.sites[i], r.y, noise, mean, variance, damp);
            moved = moved.max((self.sites[i].tau - before).abs() * noise.variance);
        }
        self.gauss = combine(self.basis, self.readings, &self.sites);
        self.sweeps += 1;
        moved < SETTLED
    }

    /// Natural logarithm of the probability of all readings, as it stands.
    pub fn log_evidence(&self) -> f64 {
        let each = self
            .readings
            .iter()
            .zip(&self.sites)
            .map(|(r, s)| r.count * s.log_z);
        self.gauss.log_z + each.sum::<f64>()
    }

    /// Sweeps until settled, at most `most` times.
    pub fn finish(mut self, most: usize) -> Posterior {
        while self.sweeps < most && !self.sweep() {}
        Posterior {
            log_evidence: self.log_evidence(),
            mean: self.gauss.mean,
            factor: self.gauss.factor,
            bad: self.bad,
        }
    }
}
