//! A difference of two groups on one axis, and how sure it is.

use super::compare::{Difference, FEW};
use crate::gear::Axis;
use crate::stats::quantile;

/// A difference on one axis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Along {
    /// Second less first, right or up positive, mm.
    pub mm: f64,
    /// Its standard error, mm.
    pub se: f64,
    /// Degrees of freedom.
    pub df: f64,
}

impl Along {
    /// One axis of a difference; anything but vertical is sideways.
    pub fn of(difference: &Difference, axis: Axis) -> Self {
        let c = difference.covariance;
        let (mm, own) = match axis {
            Axis::Vertical => (difference.up, c.2),
            _ => (difference.right, c.0),
        };
        let (variance, df) = if difference.df < FEW {
            (0.5 * (c.0 + c.2), 2.0 * difference.df)
        } else {
            (own, difference.df)
        };
        let se = variance.sqrt().max(1e-6);
        Self { mm, se, df }
    }
    /// Chance of a difference this large, either way, by the scatter alone.
    pub fn chance(&self) -> f64 {
        2.0 * (1.0 - quantile::student_t_below((self.mm / self.se).abs(), self.df))
    }
    /// Whether it stands out from the scatter: less than 1 in 20 by chance.
    pub fn is_real(&self) -> bool {
        self.chance() <= 0.05
    }
    /// Odds that the true difference is within `limit` mm either way.
    pub fn odds_within(&self, limit: f64) -> f64 {
        let below = |x: f64| quantile::student_t_below((x - self.mm) / self.se, self.df);
        below(limit) - below(-limit)
    }
}
