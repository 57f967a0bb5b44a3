//! What one more shot, or a few, should bring.

use super::choose::{shots_needed, wanted_level};
use super::task::{Task, Track};
use crate::belief::{Axis, Belief, shifted};
use crate::stats::disk::{Piece, mixture_probability};
use crate::stats::normal;

/// Most shots a forecast looks ahead.
pub(crate) const FARTHEST: u32 = 20;

/// Gauss-Hermite nodes and weights for a standard normal number, five points
/// (Abramowitz and Stegun, table 25.10, rescaled).
const NODES: [(f64, f64); 5] = [
    (-2.856_970_013_872_805_6, 0.011_257_411_327_720_69),
    (-1.355_626_179_974_266, 0.222_075_922_005_612_65),
    (0.0, 0.533_333_333_333_333_3),
    (1.355_626_179_974_266, 0.222_075_922_005_612_65),
    (2.856_970_013_872_805_6, 0.011_257_411_327_720_69),
];

/// One supposition about the mean here, with the scatter it supposes.
type Supposed = (Piece, f64);

fn supposed(belief: &Belief, task: &Task, track: &Track, axis: Axis) -> Vec<Supposed> {
    let pieces = shifted(belief.pieces(axis, &track.here), task.aim[axis.index()]);
    pieces
        .into_iter()
        .zip(belief.bank(axis).members.iter().map(|m| m.scatter))
        .collect()
}

/// The belief about the mean after `n` more readings that average to `y`.
fn after(supposed: &[Supposed], y: Option<f64>, n: f64) -> Vec<Piece> {
    let mut out: Vec<Piece> = supposed
        .iter()
        .map(|(p, scatter)| {
            let (own, noise) = (p.sd * p.sd, scatter * scatter / n);
            let sd = (own * noise / (own + noise)).sqrt();
            match y {
                Some(y) => Piece {
                    weight: p.weight * normal::density(y, p.mean, own + noise),
                    mean: p.mean + own / (own + noise) * (y - p.mean),
                    sd,
                },
                None => Piece { sd, ..*p },
            }
        })
        .collect();
    let total: f64 = out
        .iter()
        .map(|p| p.weight)
        .sum::<f64>()
        .max(f64::MIN_POSITIVE);
    out.iter_mut().for_each(|p| p.weight /= total);
    out
}

/// How many more shots here would make it done, if the mean stays where it is
/// believed; `None` when [`FARTHEST`] would not.
pub fn shots_wanted(belief: &Belief, task: &Task, track: &Track) -> Option<u32> {
    (1..=FARTHEST).find(|n| {
        let chance = chance_after(belief, task, track, *n);
        let enough = track.shots_here + *n as usize >= shots_needed(belief, task, chance);
        chance >= wanted_level(belief, task) && enough
    })
}

/// The chance of being inside after `n` more shots here that fall where they
/// are believed to.
pub fn chance_after(belief: &Belief, task: &Task, track: &Track, n: u32) -> f64 {
    let [right, up] = Axis::BOTH.map(|a| supposed(belief, task, track, a));
    let more = |s: &[Supposed]| after(s, None, f64::from(n));
    mixture_probability(task.tolerance, &more(&right), &more(&up))
}

/// Odds that it is done after one more shot here.
pub fn odds_of_done(belief: &Belief, task: &Task, track: &Track) -> f64 {
    let sides = Axis::BOTH.map(|a| {
        let list = supposed(belief, task, track, a);
        let mean: f64 = list.iter().map(|(p, _)| p.weight * p.mean).sum();
        let square = |(p, s): &Supposed| {
            p.weight * (p.sd * p.sd + s * s + (p.mean - mean) * (p.mean - mean))
        };
        let sd = list.iter().map(square).sum::<f64>().sqrt();
        NODES.map(|(z, w)| (after(&list, Some(mean + z * sd), 1.0), w))
    });
    let mut odds = 0.0;
    for (right, w) in &sides[0] {
        for (up, v) in &sides[1] {
            let chance = mixture_probability(task.tolerance, right, up);
            let enough = track.shots_here + 1 >= shots_needed(belief, task, chance);
            if chance >= wanted_level(belief, task) && enough {
                odds += w * v;
            }
        }
    }
    odds
}

#[cfg(test)]
mod tests {
    use super::super::cases::{rest_at, shot, task, weighed};
    use super::*;
    use crate::belief::Obs;

    fn case(tears: &[[f64; 2]]) -> (Belief, Task, Track) {
        let shots: Vec<Obs> = tears.iter().map(|t| shot(rest_at(0.0), *t)).collect();
        let (belief, track) = weighed(&shots);
        (belief, task(8.0), track)
    }

    #[test]
    fn a_good_pair_is_nearly_done_and_a_far_one_never_here() {
        let (b, t, k) = case(&[[1.0, 0.0], [2.0, -1.0]]);
        assert!(shots_wanted(&b, &t, &k).is_some_and(|n| n <= 2));
        assert!(odds_of_done(&b, &t, &k) > 0.5);
        let (b, t, k) = case(&[[25.0, 0.0], [24.0, -1.0], [26.0, 0.0]]);
        assert_eq!(shots_wanted(&b, &t, &k), None);
        assert!(odds_of_done(&b, &t, &k) < 0.01);
    }

    #[test]
    fn the_nodes_are_a_standard_normal() {
        let moment = |k: i32| NODES.iter().map(|(z, w)| w * z.powi(k)).sum::<f64>();
        for (k, value) in [(0, 1.0), (1, 0.0), (2, 1.0), (4, 3.0), (6, 15.0)] {
            assert!((moment(k) - value).abs() < 1e-9, "{k}");
        }
    }

    /// Two readings that average to 5 mm, scatter 4 mm, on a belief of 0 mm,
    /// sd 3 mm: by hand the sd is the root of 9 x 8 / 17, the mean 5 x 9 / 17.
    #[test]
    fn more_readings_draw_the_mean_toward_them() {
        let piece = |mean: f64| Piece {
            weight: 0.5,
            mean,
            sd: 3.0,
        };
        let supposed = [(piece(0.0), 4.0), (piece(10.0), 4.0)];
        let none = after(&supposed, None, 2.0);
        for (piece, mean) in none.iter().zip([0.0, 10.0]) {
            assert!((piece.sd - (72.0_f64 / 17.0).sqrt()).abs() < 1e-12);
            assert_eq!((piece.mean, piece.weight), (mean, 0.5));
        }
        let seen = after(&supposed, Some(5.0), 2.0);
        for (piece, mean) in seen.iter().zip([45.0 / 17.0, 10.0 - 45.0 / 17.0]) {
            assert!((piece.sd - (72.0_f64 / 17.0).sqrt()).abs() < 1e-12);
            assert!((piece.mean - mean).abs() < 1e-12);
            assert!((piece.weight - 0.5).abs() < 1e-12);
        }
        // Nearer to the first: the odds of the two are exp((10^2 - 0) / 34).
        let near = after(&supposed, Some(0.0), 2.0);
        assert!((near[0].weight / near[1].weight - (100.0_f64 / 34.0).exp()).abs() < 1e-9);
    }
}
