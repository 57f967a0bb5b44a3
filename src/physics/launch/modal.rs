//! Modal states and their exact turning between kicks.

use super::super::legendre::BASIS;
use super::super::modes::FreeModes;

/// Modal displacements and speeds in both planes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Modal<const N: usize> {
    /// Displacements, m kg^1/2.
    pub q: [[f64; 2]; N],
    /// Speeds, m/s kg^1/2.
    pub p: [[f64; 2]; N],
}

/// Free modes of the arrow as it flies, shared with [`crate::physics::flight`].
#[derive(Debug, Clone)]
pub struct FlightModes<const N: usize> {
    /// The modes.
    pub modes: FreeModes,
    /// Damping ratio of each bending mode.
    pub damping: f64,
}

/// Exact turn of every mode over a time.
#[derive(Debug, Clone, Copy)]
pub(super) struct Turn<const N: usize> {
    qq: [f64; N],
    qp: [f64; N],
    pq: [f64; N],
    pp: [f64; N],
}

impl<const N: usize> Turn<N> {
    pub(super) fn new(omega: &[f64; BASIS], damping: f64, time: f64) -> Self {
        let mut turn = Self {
            qq: [1.0; N],
            qp: [time; N],
            pq: [0.0; N],
            pp: [1.0; N],
        };
        for i in 2..N {
            [turn.qq[i], turn.qp[i], turn.pq[i], turn.pp[i]] = damped_turn(omega[i], damping, time);
        }
        turn
    }

    #[inline(always)]
    pub(super) fn apply(&self, m: &mut Modal<N>) {
        for i in 0..N {
            for plane in 0..2 {
                let (q, p) = (m.q[i][plane], m.p[i][plane]);
                m.q[i][plane] = self.qq[i] * q + self.qp[i] * p;
                m.p[i][plane] = self.pq[i] * q + self.pp[i] * p;
            }
        }
    }
}

/// What a damped oscillator of unit start displacement and of unit start
/// speed comes to after a time: displacement from each, then speed from each.
#[must_use]
pub(crate) fn damped_turn(omega: f64, damping: f64, time_s: f64) -> [f64; 4] {
    let (w, z) = (omega, damping);
    let wd = w * (1.0 - z * z).sqrt();
    let decay = (-z * w * time_s).exp();
    let (s, c) = (wd * time_s).sin_cos();
    let lag = z * w / wd * s;
    [
        decay * (c + lag),
        decay * s / wd,
        -decay * w * w / wd * s,
        decay * (c - lag),
    ]
}

#[inline(always)]
pub(super) fn dot<const N: usize>(row: &[f64; N], q: &[[f64; 2]; N]) -> [f64; 2] {
    let mut sum = [0.0; 2];
    for i in 0..N {
        sum[0] += row[i] * q[i][0];
        sum[1] += row[i] * q[i][1];
    }
    sum
}

/// The first `N` of all shapes.
pub(super) fn first<const N: usize>(all: &[f64; BASIS]) -> [f64; N] {
    std::array::from_fn(|i| all[i])
}
