//! From what many bows do to what to expect.

use super::Gain;
use super::bows::{Answers, PLACES, unit_of};
use crate::gear::AdjusterKind;

/// What the bows say of their `k`th adjuster.
pub(super) fn gain(adjuster: AdjusterKind, bows: &[Answers], k: usize) -> Gain {
    let width = (PLACES[1] - PLACES[0]) * unit_of(adjuster);
    let each =
        |f: &dyn Fn(&[f64; 4]) -> f64| bows.iter().map(|b| f(&b.slopes[k])).collect::<Vec<_>>();
    let mean_slope = |s: &[f64; 4]| s.iter().sum::<f64>() / 4.0;
    // A slope that walks with variance q per mm differs between neighbouring
    // intervals of width h, each averaged, by a variance of 2 q h / 3.
    let walk = |s: &[f64; 4]| {
        let squares: f64 = s.windows(2).map(|w| (w[1] - w[0]).powi(2)).sum();
        squares / 3.0 * 1.5 / width
    };
    let kink = |s: &[f64; 4]| {
        let (a, b) = (0.5 * (s[0] + s[1]), 0.5 * (s[2] + s[3]));
        (a - b).abs() / (a.abs() + b.abs()).max(1e-9)
    };
    let slopes = each(&mean_slope);
    // No response at all is either side's: the reflected bow says the same.
    let share = |s: &f64| {
        if *s == 0.0 {
            0.5
        } else {
            f64::from(u8::from(*s < 0.0))
        }
    };
    let negative = slopes.iter().map(share).sum::<f64>() / slopes.len() as f64;
    let spread = Spread::of(slopes.clone());
    Gain {
        adjuster,
        mean: spread.mean,
        sd: spread.sd,
        typical_size: middle(slopes.iter().map(|s| s.abs()).collect()),
        probability_negative: negative,
        slope_walk: middle(each(&walk)),
        slope_walk_mean: Spread::of(each(&walk)).mean,
        kink: middle(each(&kink)),
    }
}

#[derive(Clone, Copy)]
pub(super) struct Spread {
    pub(super) mean: f64,
    pub(super) sd: f64,
}

impl Spread {
    /// Mean and standard deviation with the outer fiftieths drawn in.
    pub(super) fn of(mut values: Vec<f64>) -> Self {
        values.sort_by(f64::total_cmp);
        let n = values.len();
        let edge = n / 50;
        let (low, high) = (values[edge], values[n - 1 - edge]);
        let count = n as f64;
        let mean = values.iter().map(|v| v.clamp(low, high)).sum::<f64>() / count;
        let square = values
            .iter()
            .map(|v| (v.clamp(low, high) - mean).powi(2))
            .sum::<f64>();
        Self {
            mean,
            sd: (square / (count - 1.0).max(1.0)).sqrt(),
        }
    }
}

/// The middle value.
pub(super) fn middle(mut values: Vec<f64>) -> f64 {
    values.sort_by(f64::total_cmp);
    let n = values.len();
    0.5 * (values[(n - 1) / 2] + values[n / 2])
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: slopes 1, 1, 3, 3 mm a mm over intervals of 1.5 mm. The halves
    /// are 1 and 3: kink 2 / 4. One step of 2 between the neighbours: the walk
    /// is 4 / 3 x 1.5 / 1.5. With -1, -1, 3, 3 the halves are 4 apart of 4.
    #[test]
    fn one_bow_is_summed_up_as_by_hand() {
        let of = |slopes: [f64; 4]| {
            let bow = Answers {
                start: [0.0; 2],
                scatter: [0.0; 2],
                slopes: vec![slopes],
                late: false,
            };
            gain(AdjusterKind::RestSideways, &[bow], 0)
        };
        let near = |a: f64, b: f64| assert!((a - b).abs() < 1e-12, "{a} {b}");
        let bent = of([1.0, 1.0, 3.0, 3.0]);
        near(bent.mean, 2.0);
        near(bent.kink, 0.5);
        near(bent.slope_walk, 4.0 / 3.0);
        near(bent.probability_negative, 0.0);
        let turned = of([-1.0, -1.0, 3.0, 3.0]);
        near(turned.kink, 1.0);
        near(of([-1.0, -1.0, -3.0, -3.0]).probability_negative, 1.0);
        near(of([0.0; 4]).probability_negative, 0.5);
    }
}
