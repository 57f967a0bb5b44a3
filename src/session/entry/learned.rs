//! What the other sessions of a folder taught, as a session keeps it: figures
//! and how many bows they rest on, never a name.

use serde::{Deserialize, Serialize};

use crate::gear::AdjusterKind;

/// What earlier bows taught before a session began.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
pub struct LearnedRecord {
    /// Bows whose sessions taught something.
    pub bows: u32,
    /// Sessions of theirs.
    pub sessions: u32,
    /// Those of them that are this bow's own.
    #[serde(default)]
    pub own: u32,
    /// Session files of the folder that were read, and that there are, where
    /// time did not last for all; the newest were read first.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub read: Option<[u32; 2]>,
    /// What is to be expected of each adjuster.
    #[serde(default)]
    pub gains: Vec<LearnedGain>,
    /// The owner's scatter, where it is known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub scatter: Option<LearnedScatter>,
}

/// What earlier bows taught of one adjuster.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LearnedGain {
    /// The adjuster.
    pub adjuster: AdjusterKind,
    /// What the powder must have shown for it to hold; whatever it showed, or
    /// nobody looked, where absent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub powder: Option<String>,
    /// Bows it rests on.
    pub bows: u32,
    /// Mean slope on the adjuster's own axis, mm of tear for its unit.
    pub mean: f64,
    /// Its standard deviation, between bows.
    pub sd: f64,
    /// Share of the wide prior beside it, 0..1.
    pub wide: f64,
    /// Chance that the adjuster does nothing, 0..1.
    pub dead: f64,
}

/// An owner's scatter as earlier sessions had it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct LearnedScatter {
    /// Median of the shot-to-shot sd sideways, mm.
    pub right: f64,
    /// The same up and down, mm.
    pub up: f64,
    /// Sd of its logarithm.
    pub(crate) spread: f64,
    /// Repeats it rests on.
    pub repeats: u32,
}

impl LearnedRecord {
    /// Whether every figure is one that can be: finite, in its range.
    pub(super) fn is_sound(&self) -> bool {
        let share = |v: f64| (0.0..=1.0).contains(&v);
        let size = |v: f64| v > 0.0 && v <= 1e4;
        let gains = self
            .gains
            .iter()
            .all(|g| g.mean.abs() <= 1e4 && size(g.sd) && share(g.wide) && share(g.dead));
        let scatter = self
            .scatter
            .is_none_or(|s| size(s.right) && size(s.up) && size(s.spread));
        gains && scatter
    }

    /// The gain of an adjuster after this answer of the powder test; the one
    /// that holds whatever it was where nobody looked.
    pub fn gain(&self, adjuster: AdjusterKind, powder: Option<&str>) -> Option<&LearnedGain> {
        let own = |g: &&LearnedGain| g.adjuster == adjuster && g.powder.as_deref() == powder;
        self.gains.iter().find(own)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn record(gain: [f64; 4], scatter: [f64; 3]) -> LearnedRecord {
        let [mean, sd, wide, dead] = gain;
        let [right, up, spread] = scatter;
        LearnedRecord {
            gains: vec![LearnedGain {
                adjuster: AdjusterKind::RestSideways,
                powder: None,
                bows: 3,
                mean,
                sd,
                wide,
                dead,
            }],
            scatter: Some(LearnedScatter {
                right,
                up,
                spread,
                repeats: 9,
            }),
            ..LearnedRecord::default()
        }
    }

    #[test]
    fn a_record_with_one_figure_that_cannot_be_is_not_sound() {
        const GAIN: [f64; 4] = [-2.5, 0.8, 0.2, 0.05];
        const SCATTER: [f64; 3] = [2.8, 2.0, 0.4];
        assert!(record(GAIN, SCATTER).is_sound());
        assert!(LearnedRecord::default().is_sound());
        for ends in [[-1e4, 1e4, 0.0, 0.0], [1e4, 1e-9, 1.0, 1.0]] {
            assert!(record(ends, SCATTER).is_sound(), "{ends:?}");
        }
        let wrong = |i: usize, values: &[f64]| {
            for v in values {
                let (mut gain, mut scatter) = (GAIN, SCATTER);
                match i {
                    0..4 => gain[i] = *v,
                    _ => scatter[i - 4] = *v,
                }
                assert!(!record(gain, scatter).is_sound(), "{i} {v}");
            }
        };
        wrong(0, &[-1.1e4, 1.1e4, f64::NAN, f64::INFINITY]);
        wrong(1, &[0.0, -1.0, 1.1e4, f64::NAN]);
        (2..4).for_each(|i| wrong(i, &[-0.01, 1.01, f64::NAN]));
        (4..7).for_each(|i| wrong(i, &[0.0, -1.0, 1.1e4, f64::NAN]));
    }
}
