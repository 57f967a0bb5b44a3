//! Which tears move together: the covariance behind the belief.
//!
//! The mean tear is a start value for each epoch, plus one curve for each
//! adjuster, plus small offsets for shooter, arrow, bare shaft and distance.
//! A curve starts at zero with a normal slope that walks with the distance
//! moved: an integrated Wiener process, whose covariance for two positions on
//! one side is s^2 (3 l - s)/6, s the nearer and l the farther (Wahba, Spline
//! Models for Observational Data, 1990). The two sides of the start share the
//! slope at the start and nothing else.

use super::cells::Cell;
use super::obs::{Place, same_distance};
use super::prior::{Prior, SlopePrior};
use std::collections::HashMap;

/// The covariance on one axis, with the switches the alternatives need.
#[derive(Debug, Clone)]
pub struct Kernel<'a> {
    /// What is believed beforehand.
    pub prior: &'a Prior,
    /// 0 right, 1 up.
    pub axis: usize,
    /// Variance of a fresh offset at each visit to a setting, mm^2.
    pub(crate) visit_variance: f64,
    /// An adjuster that is supposed to do nothing on this axis, and the sd
    /// of the slope that is still nothing.
    pub dead: Option<(usize, f64)>,
    /// Only the usual response is supposed, not larger or more crooked ones.
    pub plain: bool,
    /// The response is one such as earlier bows had, where they taught any.
    pub(crate) pooled: bool,
    /// Times as large a response as usual is believed in.
    pub(crate) stretch: f64,
    /// Times as crooked a response as usual (as an sd).
    pub(crate) bend: f64,
    /// Offset variances of arrows that look odd; the others are sound.
    pub(crate) arrow_variance: HashMap<u32, f64>,
    /// The judged shooter's share of bad shots.
    pub bad_share: f64,
}

impl<'a> Kernel<'a> {
    /// The usual covariance on one axis.
    pub fn new(prior: &'a Prior, axis: usize) -> Self {
        Kernel {
            prior,
            axis,
            visit_variance: 0.0,
            dead: None,
            plain: false,
            pooled: false,
            stretch: 1.0,
            bend: 1.0,
            arrow_variance: HashMap::new(),
            bad_share: prior.bad_share,
        }
    }

    fn slope(&self, k: usize) -> SlopePrior {
        if let Some((_, sd)) = self.dead.filter(|(dead, _)| *dead == k) {
            return SlopePrior {
                mean: 0.0,
                sd,
                walk: 0.0,
            };
        }
        let own = &self.prior.adjusters[k];
        let usual = match own.pooled {
            Some(pooled) if self.pooled && own.axis.index() == self.axis => pooled,
            _ => own.slope[self.axis],
        };
        SlopePrior {
            mean: usual.mean,
            sd: usual.sd * self.stretch,
            walk: usual.walk * self.bend * self.bend,
        }
    }

    /// Expected tear before any shot, mm.
    pub fn mean(&self, at: &Place) -> f64 {
        at.positions
            .iter()
            .enumerate()
            .map(|(k, x)| self.slope(k).mean * x)
            .sum()
    }

    /// Covariance of the mean tears of two places of the same visit, mm^2.
    pub fn between(&self, a: &Place, b: &Place) -> f64 {
        let p = self.prior;
        let mut sum = 0.0;
        if a.epoch == b.epoch {
            sum += p.mean_sd[self.axis].powi(2);
        }
        let apart = a.response_epoch.abs_diff(b.response_epoch).min(8) as i32;
        let kept = p.response_kept.powi(apart);
        for (k, (&x, &z)) in a.positions.iter().zip(&b.positions).enumerate() {
            if x != 0.0 && z != 0.0 {
                let s = self.slope(k);
                sum += kept * (s.sd * s.sd * x * z + s.walk * walked(x, z));
            }
        }
        sum + self.offsets(a, b)
    }

    fn offsets(&self, a: &Place, b: &Place) -> f64 {
        let p = self.prior;
        let mut sum = 0.0;
        if a.shooter != super::OWNER && a.shooter == b.shooter {
            sum += p.shooter_sd.powi(2);
        }
        if let (Some(i), Some(j)) = (a.arrow, b.arrow)
            && i == j
        {
            sum += self
                .arrow_variance
                .get(&i)
                .copied()
                .unwrap_or(p.arrow_sd * p.arrow_sd);
        }
        if a.bare && b.bare {
            sum += p.bare_sd.powi(2);
        }
        let (da, db) = (self.folds(a), self.folds(b));
        if da * db > 0.0 {
            let same = if (da - db).abs() < 0.02 { 1.0 } else { 0.7 };
            sum += same * p.distance_sd.powi(2) * da * db;
        }
        sum
    }

    /// Distance from the paper's as a logarithm; nearly equal counts as equal.
    fn folds(&self, at: &Place) -> f64 {
        let paper = self.prior.distance_m;
        if same_distance(at.distance_m, paper) {
            0.0
        } else {
            (at.distance_m / paper).ln()
        }
    }

    /// Covariance of two cells.
    pub(crate) fn of_cells(&self, a: &Cell, b: &Cell) -> f64 {
        let jump = if a.visit == b.visit {
            self.visit_variance
        } else {
            0.0
        };
        self.between(&a.place, &b.place) + jump
    }
}

/// Integrated Wiener covariance with unit rate, from the start outward.
fn walked(x: f64, z: f64) -> f64 {
    if x * z <= 0.0 {
        return 0.0;
    }
    let (s, l) = (x.abs().min(z.abs()), x.abs().max(z.abs()));
    s * s * (3.0 * l - s) / 6.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_walk_has_the_cubic_spline_covariance() {
        assert_eq!(walked(2.0, 2.0), 8.0 / 3.0);
        assert_eq!(walked(-1.0, -3.0), 8.0 / 6.0);
        assert_eq!(walked(1.0, -1.0), 0.0);
    }

    #[test]
    fn a_new_epoch_shares_no_mean_but_keeps_the_response() {
        let prior = Prior::aid();
        let k = Kernel::new(&prior, 0);
        let a = Place::start(2, 2.0).moved(0, 1.0);
        let b = Place {
            epoch: 1,
            ..a.clone()
        };
        let own = prior.adjusters[0].slope[0];
        let slope = own.sd * own.sd + own.walk / 3.0;
        assert!((k.between(&a, &b) - slope).abs() < 1e-12);
        assert!((k.between(&a, &a) - slope - prior.mean_sd[0].powi(2)).abs() < 1e-12);
    }
}
