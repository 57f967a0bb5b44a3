//! The belief as a whole, and the questions it answers.

use super::bank::{self, Bank, moments};
use super::cells::Cells;
use super::kernel::Kernel;
use super::obs::{Axis, Obs, Place, Shooter};
use super::prior::Prior;
use crate::stats::disk::{self, Piece};
use crate::stats::normal;
use std::collections::HashMap;

/// The mean tear somewhere, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tear {
    /// Mean right and up.
    pub mean: [f64; 2],
    /// Standard deviation of that mean, right and up.
    pub sd: [f64; 2],
}

/// How an adjuster moves the tear on one axis, mm for each unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gain {
    /// Expected slope here.
    pub mean: f64,
    /// Its standard deviation.
    pub sd: f64,
    /// Chance that the slope is below zero.
    pub probability_negative: f64,
}

impl Gain {
    /// Chance that it goes the other way than it most likely does.
    pub(crate) fn doubt(&self) -> f64 {
        self.probability_negative
            .min(1.0 - self.probability_negative)
    }
}

/// Shot-to-shot scatter of the judged shooter on one axis, mm.
#[derive(Debug, Clone, PartialEq)]
pub struct Scatter {
    /// Expected sd.
    pub mean: f64,
    /// Probability of each supposed sd.
    pub(crate) supposed: Vec<(f64, f64)>,
}

impl Scatter {
    /// Chance that the sd is above `limit`; between two supposed values it
    /// runs along the logarithm.
    pub(crate) fn probability_over(&self, limit: f64) -> f64 {
        const HALF_STEP: f64 = 0.19;
        let share = |s: f64| (0.5 + (s / limit).ln() / (2.0 * HALF_STEP)).clamp(0.0, 1.0);
        self.supposed.iter().map(|(s, w)| w * share(*s)).sum()
    }
}

/// An arrow that stands off from the others.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OddArrow {
    /// Its number.
    pub arrow: u32,
    /// The axis it stands off on.
    pub axis: Axis,
    /// How far, mm.
    pub(crate) offset: f64,
    /// Chance that it is odd, 0..1.
    pub chance: f64,
}

/// Everything believed of this bow from a list of shots.
#[derive(Debug, Clone)]
pub struct Belief {
    /// What was believed beforehand.
    pub prior: Prior,
    /// Whose mean and scatter the answers are about.
    pub(crate) judged: Shooter,
    cells: Cells,
    banks: [Bank; 2],
    arrow_variance: [HashMap<u32, f64>; 2],
    bad_share: f64,
}

/// Shots that the usual share of bad ones is worth against a shooter's own.
const BAD_WORTH: f64 = 100.0;
/// A shooter's own share is taken up when it is this far from the usual.
const BAD_APART: f64 = 0.01;
/// Past this many shots the usual share stands: it no longer matters, and
/// weighing twice would cost twice.
const BAD_SHOTS: usize = 300;

impl Belief {
    /// What the shots say of `judged`'s tears. Shots called bad are skipped.
    ///
    /// The shooter's own share of bad shots is weighed once from how bad the
    /// shots look with the usual one.
    pub fn fit(prior: &Prior, shots: &[Obs], judged: Shooter) -> Self {
        let usual = Self::with_bad_share(prior, shots, judged, prior.bad_share);
        let own = usual.own_bad_share();
        if shots.len() > BAD_SHOTS || (own - prior.bad_share).abs() < BAD_APART {
            return usual;
        }
        Self::with_bad_share(prior, shots, judged, own)
    }

    /// Bad shots of the judged shooter, seen and usual, over all.
    fn own_bad_share(&self) -> f64 {
        let (mut count, mut bad) = (BAD_WORTH, BAD_WORTH * self.prior.bad_share);
        for (i, at) in self.cells.of_shot.iter().enumerate() {
            let own = at.is_some_and(|at| self.cells.readings[0][at[0]].shooter == self.judged);
            if let (true, Some(p)) = (own, self.shot_bad(i)) {
                count += 1.0;
                bad += p;
            }
        }
        bad / count
    }

    fn with_bad_share(prior: &Prior, shots: &[Obs], judged: Shooter, bad_share: f64) -> Self {
        let cells = Cells::build(shots, false);
        let others = super::shooters::scatters(prior, &cells, judged);
        let mut arrow_variance = [HashMap::new(), HashMap::new()];
        let mut banks = Axis::BOTH.map(|axis| {
            let i = axis.index();
            let mut kernel = Kernel::new(prior, i);
            kernel.bad_share = bad_share;
            let bank = Bank::fit(&kernel, &cells, judged, &others[i]);
            match super::arrows::odd(&kernel, &cells, &bank, judged, &others[i]) {
                Some(variances) => {
                    kernel.arrow_variance = variances.clone();
                    arrow_variance[i] = variances;
                    Bank::fit(&kernel, &cells, judged, &others[i])
                }
                None => bank,
            }
        });
        bank::couple(prior, &mut banks);
        Belief {
            prior: prior.clone(),
            judged,
            cells,
            banks,
            arrow_variance,
            bad_share,
        }
    }

    pub(super) fn kernel(&self, axis: usize) -> Kernel<'_> {
        let mut k = Kernel::new(&self.prior, axis);
        k.arrow_variance = self.arrow_variance[axis].clone();
        k.bad_share = self.bad_share;
        k
    }

    /// The belief of one axis as it stands.
    pub(crate) fn bank(&self, axis: Axis) -> &Bank {
        &self.banks[axis.index()]
    }

    /// The mean tear at a place on one axis, as a mixture of normals.
    pub(crate) fn pieces(&self, axis: Axis, at: &Place) -> Vec<Piece> {
        self.banks[axis.index()].pieces(&self.kernel(axis.index()), at)
    }

    /// The mean tear at a place.
    pub fn tear(&self, at: &Place) -> Tear {
        let [r, u] = Axis::BOTH.map(|a| moments(&self.pieces(a, at)));
        Tear {
            mean: [r.0, u.0],
            sd: [r.1, u.1],
        }
    }

    /// Chance that the mean tear's distance from `aim` is within `tolerance`.
    pub(crate) fn probability_within(&self, at: &Place, aim: [f64; 2], tolerance: f64) -> f64 {
        let [r, u] = Axis::BOTH.map(|a| shifted(self.pieces(a, at), aim[a.index()]));
        disk::mixture_probability(tolerance, &r, &u)
    }

    /// Chance that one component of the mean tear is within `half` of `aim`.
    pub(crate) fn probability_component(&self, axis: Axis, at: &Place, aim: f64, half: f64) -> f64 {
        self.pieces(axis, at)
            .iter()
            .map(|p| p.weight * normal::within(half, p.mean - aim, p.sd))
            .sum()
    }

    /// What the next single shot at a place should read: mean and sd.
    pub fn next_shot(&self, axis: Axis, at: &Place) -> (f64, f64) {
        let bank = &self.banks[axis.index()];
        let pieces = self.pieces(axis, at);
        let wide = 1.0 + self.bad_share * (super::sites::BAD_FACTOR.powi(2) - 1.0);
        let with_shot: Vec<Piece> = pieces
            .iter()
            .zip(&bank.members)
            .map(|(p, m)| Piece {
                sd: (p.sd * p.sd + wide * m.scatter * m.scatter).sqrt(),
                ..*p
            })
            .collect();
        moments(&with_shot)
    }

    /// How adjuster `k` moves the tear on `axis` around `at`, over one
    /// `step` to each side.
    pub fn gain(&self, k: usize, axis: Axis, at: &Place, step: f64) -> Gain {
        let pieces = self.banks[axis.index()].slope(
            &self.kernel(axis.index()),
            &at.moved(k, -step),
            &at.moved(k, step),
            2.0 * step,
        );
        let (mean, sd) = moments(&pieces);
        let negative = pieces
            .iter()
            .map(|p| p.weight * normal::below(-p.mean / p.sd))
            .sum();
        Gain {
            mean,
            sd,
            probability_negative: negative,
        }
    }

    /// Chance that adjuster `k` moves the tear on `axis` around `at` by
    /// `least` mm or more for each unit, either way.
    pub(crate) fn gain_beyond(
        &self,
        k: usize,
        axis: Axis,
        at: &Place,
        step: f64,
        least: f64,
    ) -> f64 {
        let pieces = self.banks[axis.index()].slope(
            &self.kernel(axis.index()),
            &at.moved(k, -step),
            &at.moved(k, step),
            2.0 * step,
        );
        let small = |p: &Piece| p.weight * normal::within(least, p.mean, p.sd);
        1.0 - pieces.iter().map(small).sum::<f64>()
    }

    /// Scatter of the judged shooter on one axis.
    pub fn scatter(&self, axis: Axis) -> Scatter {
        let supposed: Vec<(f64, f64)> = self.banks[axis.index()]
            .members
            .iter()
            .map(|m| (m.scatter, m.weight))
            .collect();
        Scatter {
            mean: supposed.iter().map(|(s, w)| s * w).sum(),
            supposed,
        }
    }

    /// The same from shots at one setting alone: a response that is not what
    /// was supposed plays no part in it.
    pub(crate) fn scatter_of_repeats(&self, axis: Axis) -> Scatter {
        let supposed =
            super::shooters::repeats(&self.prior, &self.cells, axis.index(), self.judged);
        Scatter {
            mean: supposed.iter().map(|(s, w)| s * w).sum(),
            supposed,
        }
    }

    /// Chance that shot `i` was a bad one, either axis telling; `None` when
    /// it was called bad (and so is not used).
    pub(crate) fn shot_bad(&self, i: usize) -> Option<f64> {
        let at = self.cells.of_shot[i]?;
        let clean: f64 = Axis::BOTH
            .iter()
            .map(|a| 1.0 - self.banks[a.index()].bad(at[a.index()]))
            .product();
        Some(1.0 - clean)
    }

    /// The arrow that stands off from the others most likely: its number, the
    /// axis, how far its own mean stands off there, mm, and the chance that it
    /// is an odd one. `None` where none is suspect.
    pub(crate) fn odd_arrow(&self, at: &Place) -> Option<OddArrow> {
        let sound = self.prior.arrow_sd.powi(2);
        let odd = self.prior.odd_arrow_sd.powi(2);
        let suspects = Axis::BOTH.into_iter().flat_map(|axis| {
            let found = self.arrow_variance[axis.index()].iter();
            found.map(move |(arrow, variance)| (axis, *arrow, (variance - sound) / (odd - sound)))
        });
        let (axis, arrow, chance) = suspects.max_by(|a, b| a.2.total_cmp(&b.2))?;
        let own = Place {
            arrow: Some(arrow),
            ..at.clone()
        };
        let mean = |place: &Place| moments(&self.pieces(axis, place)).0;
        Some(OddArrow {
            arrow,
            axis,
            offset: mean(&own) - mean(&at.any_arrow()),
            chance,
        })
    }

    /// Natural logarithm of the probability of all readings.
    pub fn log_evidence(&self) -> f64 {
        self.banks.iter().map(|b| b.log_evidence).sum()
    }

    /// The grouped shots.
    pub fn cells(&self) -> &Cells {
        &self.cells
    }
}

/// A mixture with its zero moved to `aim`.
pub(crate) fn shifted(mut pieces: Vec<Piece>, aim: f64) -> Vec<Piece> {
    pieces.iter_mut().for_each(|p| p.mean -= aim);
    pieces
}
