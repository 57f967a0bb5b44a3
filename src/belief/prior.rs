//! What is believed before the first shot: honest and wide.
//!
//! Nobody publishes the response of a rest, so these are this project's own
//! figures, settled on bows invented for the judging bench.

use super::obs::Axis;

/// What is believed of the tear's change for each unit an adjuster moves.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SlopePrior {
    /// Expected slope at the start, mm of tear per unit.
    pub mean: f64,
    /// Its standard deviation.
    pub sd: f64,
    /// How fast the slope may change along the way: variance per unit moved.
    pub walk: f64,
}

/// Most that a side is believed of an adjuster before its bow has shown it:
/// mechanics and guides alone say no more (nobody has measured a side).
pub(crate) const SUREST: f64 = 0.8;

impl SlopePrior {
    /// A slope with this spread whose chance of being negative is `negative`,
    /// brought within [`SUREST`] either way.
    #[must_use]
    pub(crate) fn leaning(negative: f64, sd: f64, walk: f64) -> Self {
        let negative = negative.clamp(1.0 - SUREST, SUREST);
        Self {
            mean: -sd * crate::stats::quantile::normal(negative),
            sd,
            walk,
        }
    }
}

/// What powder on shaft and button showed before the first sideways move of a
/// bow shot with fingers.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Powder {
    /// Nobody looked, or it was not asked.
    #[default]
    NotLooked,
    /// No late mark: the shaft left the button and did not come back.
    Clean,
    /// A late mark of the button: the rear of the shaft slapped it.
    Slap,
}

impl Powder {
    /// Slope of the rest sideways, mm of tear for each mm.
    ///
    /// Clean, printed guides name one side (tail left, right-handed: rest
    /// out), and two computations of the launch agree with them (median -2 to
    /// -5); after a slap both give +5 to +25. Nobody has measured either, so
    /// no chance of a side is above 80 %. Unseen, print has the arrow leave
    /// the button before the string, so it leans to the guides.
    pub(crate) const fn rest_sideways(self) -> SlopePrior {
        match self {
            Self::NotLooked => SlopePrior {
                mean: -3.0,
                sd: 6.0,
                walk: 2.0,
            },
            Self::Clean => SlopePrior {
                mean: -4.2,
                sd: 5.0,
                walk: 1.0,
            },
            Self::Slap => SlopePrior {
                mean: 6.7,
                sd: 8.0,
                walk: 2.0,
            },
        }
    }

    /// Slope of the plunger's tension for a right-handed archer, mm of tear
    /// for each turn firmer; a left-handed one's is its mirror image. The
    /// guides: tail left, firmer. A firmer spring pushes the shaft out, so
    /// after a slap it turns with the rest.
    pub(crate) const fn plunger_tension(self) -> SlopePrior {
        let mean = match self {
            Self::NotLooked => 3.0,
            Self::Clean => 5.0,
            Self::Slap => -3.0,
        };
        SlopePrior {
            mean,
            sd: 6.0,
            walk: 2.0,
        }
    }
}

/// One adjuster: its own axis and its response on both.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AdjusterPrior {
    /// The axis it is there for.
    pub axis: Axis,
    /// Response right and up, before any bow has shown one.
    pub slope: [SlopePrior; 2],
    /// Response on its own axis as earlier bows of the same kind had it.
    pub(crate) pooled: Option<SlopePrior>,
    /// Chance that it does nothing at all, before it is moved.
    pub dead: f64,
}

/// Chance that an adjuster does nothing, where no earlier bow says better.
pub(crate) const DEAD_SHARE: f64 = 0.1;

impl AdjusterPrior {
    /// Own response on `axis`, a small straight cross term on the other.
    pub fn new(axis: Axis, own: SlopePrior, cross_sd: f64) -> Self {
        let cross = SlopePrior {
            mean: 0.0,
            sd: cross_sd,
            walk: 0.0,
        };
        let mut slope = [cross; 2];
        slope[axis.index()] = own;
        AdjusterPrior {
            axis,
            slope,
            pooled: None,
            dead: DEAD_SHARE,
        }
    }
}

/// Everything believed before the first shot.
#[derive(Debug, Clone, PartialEq)]
pub struct Prior {
    /// One entry for each adjuster, in the order of the positions.
    pub adjusters: Vec<AdjusterPrior>,
    /// Sd of the mean tear at the start, right and up, mm.
    pub mean_sd: [f64; 2],
    /// Median of the shot-to-shot sd, reading included, right and up, mm.
    pub scatter: [f64; 2],
    /// Sd of the logarithm of the shot-to-shot sd.
    pub scatter_spread: f64,
    /// Whether the judged shooter's scatter is known from earlier sessions.
    pub scatter_known: bool,
    /// Share of the wide prior on each axis beside what earlier bows taught:
    /// 1 where they taught nothing.
    pub wide: [f64; 2],
    /// Share of bad shots (three times the scatter).
    pub bad_share: f64,
    /// Sd of another shooter's mean about the owner's, mm.
    pub shooter_sd: f64,
    /// Sd of a sound arrow's own offset, mm.
    pub arrow_sd: f64,
    /// Sd of an odd arrow's offset, mm.
    pub odd_arrow_sd: f64,
    /// Sd of bare against fletched, mm.
    pub bare_sd: f64,
    /// Sd of the change for each e-fold of distance, mm.
    pub distance_sd: f64,
    /// Correlation of the response across a change of arrow type.
    pub response_kept: f64,
    /// The distance at which the tolerance counts, m.
    pub distance_m: f64,
}

impl Prior {
    /// A release aid: the sideways sign is even, raising the rest lowers the
    /// tail more often than not. Adjusters: rest sideways, rest height (mm).
    pub fn aid() -> Self {
        let sideways = SlopePrior {
            mean: 0.0,
            sd: 2.8,
            walk: 0.15,
        };
        let height = SlopePrior {
            mean: -2.0,
            sd: 2.0,
            walk: 0.3,
        };
        Prior::with(
            vec![
                AdjusterPrior::new(Axis::Right, sideways, 0.35),
                AdjusterPrior::new(Axis::Up, height, 0.35),
            ],
            [14.0, 14.0],
            [2.8, 2.0],
        )
    }

    /// Fingers, before anybody looked at powder: see [`Prior::fingers_after`].
    pub fn fingers() -> Self {
        Self::fingers_after(Powder::NotLooked)
    }

    /// Fingers, after the powder test: the tear goes against the rest where
    /// the shaft clears the button, with it where its rear slaps it.
    pub fn fingers_after(powder: Powder) -> Self {
        let height = SlopePrior {
            mean: -2.0,
            sd: 2.0,
            walk: 0.8,
        };
        Prior::with(
            vec![
                AdjusterPrior::new(Axis::Right, powder.rest_sideways(), 0.35),
                AdjusterPrior::new(Axis::Up, height, 0.35),
            ],
            [25.0, 16.0],
            [4.5, 2.2],
        )
    }

    /// The given adjusters, start sds and scatter medians; the rest as usual.
    pub fn with(adjusters: Vec<AdjusterPrior>, mean_sd: [f64; 2], scatter: [f64; 2]) -> Self {
        Prior {
            adjusters,
            mean_sd,
            scatter,
            scatter_spread: 0.7,
            scatter_known: false,
            wide: [1.0; 2],
            bad_share: 0.03,
            shooter_sd: 6.0,
            arrow_sd: 0.7,
            odd_arrow_sd: 10.0,
            bare_sd: 15.0,
            distance_sd: 15.0,
            response_kept: 0.7,
            distance_m: 2.0,
        }
    }

    /// Chance, before any shot, that the response of adjuster `k` on its own
    /// axis is smaller than `least` either way.
    pub(crate) fn small(&self, k: usize, least: f64) -> f64 {
        let own = &self.adjusters[k];
        let i = own.axis.index();
        let within = |s: &SlopePrior| crate::stats::normal::within(least, s.mean, s.sd);
        let wide = within(&own.slope[i]);
        own.pooled.map_or(wide, |pooled| {
            self.wide[i] * wide + (1.0 - self.wide[i]) * within(&pooled)
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Chances of the normal distribution: 0.6827 within one sd, 0.3829 within
    /// half of one (NIST/SEMATECH e-Handbook, 1.3.6.7.1).
    #[test]
    fn a_small_response_is_as_likely_as_the_wide_and_the_pooled_prior_say() {
        let mut prior = Prior::aid();
        prior.adjusters[0].slope[0] = SlopePrior {
            mean: 0.0,
            sd: 2.0,
            walk: 0.0,
        };
        let is = |prior: &Prior, least: f64, wanted: f64| {
            let small = prior.small(0, least);
            assert!((small - wanted).abs() < 1e-4, "{least}: {small}");
        };
        is(&prior, 2.0, 0.6827);
        is(&prior, 1.0, 0.3829);
        prior.wide = [0.25, 1.0];
        is(&prior, 2.0, 0.6827);
        prior.adjusters[0].pooled = Some(SlopePrior {
            mean: 5.0,
            sd: 1.0,
            walk: 0.0,
        });
        // Three sds under 5: 0.0013 from the pooled.
        is(&prior, 2.0, 0.25 * 0.6827 + 0.75 * 0.0013);
    }
}
