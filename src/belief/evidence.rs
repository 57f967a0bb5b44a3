//! Other stories the shots could tell: an adjuster that does nothing, a mean
//! that jumps between moves, a mean that drifts.

use super::bank::Bank;
use super::believe::Belief;
use super::cells::Cells;
use super::kernel::Kernel;
use super::obs::{Axis, Obs};
use super::shooters;
use crate::stats::{quantile, regression};

/// Chance believed beforehand of a mean that jumps.
const JUMP_SHARE: f64 = 0.05;
/// Shots looked back on.
pub(crate) const WINDOW: usize = 60;
/// Sds of the jump supposed when something is loose, mm.
const JUMPS: [f64; 2] = [5.0, 12.0];

/// How likely the other stories are; each 0 to 1 against the plain one.
#[derive(Debug, Clone, PartialEq)]
pub struct Evidence {
    /// For each adjuster, that it does nothing on its own axis; 0 until moved.
    pub dead: Vec<f64>,
    /// That the mean jumps when anything is moved; 0 before the second move.
    pub jumps: f64,
    /// Drift within settings, right and up.
    pub drift: [Option<Drift>; 2],
}

/// A trend of the readings within their settings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Drift {
    /// Change of the mean for each shot, mm.
    pub(crate) per_shot: f64,
    /// Its standard deviation, mm.
    pub sd: f64,
    /// Chance that so large a trend is not an accident (two-sided).
    pub(crate) probability: f64,
}

fn chance(share: f64, log_factor: f64) -> f64 {
    let odds = (share / (1.0 - share)).ln() + log_factor;
    1.0 / (1.0 + (-odds).exp())
}

impl Evidence {
    /// Before any move only a drift can show.
    pub(crate) fn unmoved(belief: &Belief, shots: &[Obs]) -> Self {
        if shots.len() > WINDOW {
            let recent = &shots[shots.len() - WINDOW..];
            return Self::unmoved(&Belief::fit(&belief.prior, recent, belief.judged), recent);
        }
        Evidence {
            dead: vec![0.0; belief.prior.adjusters.len()],
            jumps: 0.0,
            drift: Axis::BOTH.map(|a| drift(belief, shots, a)),
        }
    }

    /// Weighs the other stories against `belief`, which was fitted to `shots`.
    ///
    /// Only the last 60 shots tell whether something is loose, dead or
    /// creeping now; with more, the belief is refitted to those.
    /// `answers` holds for each adjuster the least change of the tear for one
    /// unit that counts as an answer.
    pub(crate) fn weigh(belief: &Belief, shots: &[Obs], answers: &[f64]) -> Self {
        if shots.len() > WINDOW {
            let recent = &shots[shots.len() - WINDOW..];
            let fresh = Belief::fit(&belief.prior, recent, belief.judged);
            return Self::weigh(&fresh, recent, answers);
        }
        let each = answers.iter().enumerate();
        Evidence {
            dead: each.map(|(k, least)| dead(belief, k, *least)).collect(),
            jumps: jumps(belief, shots),
            drift: Axis::BOTH.map(|a| drift(belief, shots, a)),
        }
    }
}

fn refit(belief: &Belief, cells: &Cells, kernel: &Kernel) -> f64 {
    let others = shooters::scatters(&belief.prior, cells, belief.judged);
    Bank::fit(kernel, cells, belief.judged, &others[kernel.axis]).log_evidence
}

/// Sd of a slope that is still nothing, in least answers.
const NOTHING: f64 = 1.0 / 3.0;

/// Does nothing, against responds at all, if weakly: the usual belief lets
/// slopes near zero through, so its evidence is scaled by how much of it lies
/// beyond the `least` that is an answer, after and before the shots.
fn dead(belief: &Belief, k: usize, least: f64) -> f64 {
    let cells = belief.cells();
    let at = |c: &super::cells::Cell| c.place.positions[k];
    let (low, high) = cells
        .cells
        .iter()
        .fold((f64::INFINITY, f64::NEG_INFINITY), |r, c| {
            (r.0.min(at(c)), r.1.max(at(c)))
        });
    let Some(here) = cells.cells.last().filter(|_| high - low > 1e-9) else {
        return 0.0;
    };
    let axis = belief.prior.adjusters[k].axis;
    let mut kernel = belief.kernel(axis.index());
    let to = |x: f64| here.place.moved(k, x - at(here));
    let slopes = belief
        .bank(axis)
        .slope(&kernel, &to(low), &to(high), high - low);
    let small: f64 = slopes
        .iter()
        .map(|p| p.weight * crate::stats::normal::within(least, p.mean, p.sd))
        .sum();
    let small_before = belief.prior.small(k, least);
    let live = (1.0 - small).max(1e-12) / (1.0 - small_before);
    kernel.dead = Some((k, NOTHING * least));
    kernel.plain = true;
    chance(
        belief.prior.adjusters[k].dead,
        refit(belief, cells, &kernel) - belief.bank(axis).log_evidence - live.ln(),
    )
}

/// The mean drawn afresh at each visit against one that follows the settings.
fn jumps(belief: &Belief, shots: &[Obs]) -> f64 {
    let cells = Cells::build(shots, true);
    if cells.cells.iter().map(|c| c.visit).max().unwrap_or(0) < 2 {
        return 0.0;
    }
    // What is loose may move the tear one way, the other, or both. One way
    // alone a bent response looks the same until a setting is come back to.
    let seen = &cells.cells;
    let came_back = seen.iter().enumerate().any(|(i, c)| {
        let before = &seen[..i];
        before
            .iter()
            .any(|b| b.visit != c.visit && b.place.same_setting(&c.place))
    });
    let logs = JUMPS.map(|sd| {
        let [right, up] = Axis::BOTH.map(|a| {
            let mut kernel = belief.kernel(a.index());
            kernel.visit_variance = sd * sd;
            kernel.plain = true;
            refit(belief, &cells, &kernel) - belief.bank(a).log_evidence
        });
        if came_back {
            mean_of_logs(&[right, up, right + up])
        } else {
            right + up
        }
    });
    chance(JUMP_SHARE, mean_of_logs(&logs))
}

/// Logarithm of the mean of numbers given by their logarithms.
fn mean_of_logs(logs: &[f64]) -> f64 {
    let top = logs.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let sum: f64 = logs.iter().map(|l| (l - top).exp()).sum();
    top + (sum / logs.len() as f64).ln()
}

/// Trend of the readings against their number, each visit to a setting about
/// its own mean, bad shots weighed down. `None` with under four spare shots.
fn drift(belief: &Belief, shots: &[Obs], axis: Axis) -> Option<Drift> {
    let mut groups: Vec<Vec<(f64, f64, f64)>> = Vec::new();
    let mut last: Option<&Obs> = None;
    for (i, shot) in shots.iter().enumerate() {
        let fresh = last.is_none_or(|l| {
            !l.place.same_setting(&shot.place) || l.place.shooter != shot.place.shooter
        });
        if fresh {
            groups.push(Vec::new());
        }
        last = Some(shot);
        let plain = !shot.place.bare && shot.place.shooter == belief.judged;
        if let (true, Some(bad), Some(g)) = (plain, belief.shot_bad(i), groups.last_mut()) {
            g.push((i as f64, shot.tear[axis.index()], 1.0 - bad));
        }
    }
    groups.retain(|g| g.len() >= 2);
    let (mut x, mut y) = (Vec::new(), Vec::new());
    for g in &groups {
        let w: f64 = g.iter().map(|s| s.2).sum::<f64>().max(1e-9);
        let mx = g.iter().map(|s| s.2 * s.0).sum::<f64>() / w;
        let my = g.iter().map(|s| s.2 * s.1).sum::<f64>() / w;
        for s in g {
            x.push(s.2.sqrt() * (s.0 - mx));
            y.push(s.2.sqrt() * (s.1 - my));
        }
    }
    let df = x.len().checked_sub(groups.len() + 1).filter(|d| *d >= 4)? as f64;
    let fit = regression::least_squares(&[x], &y)?;
    // The group means took their share of the spare readings.
    let sd = fit.sds[0] * (fit.df as f64 / df).sqrt();
    if sd <= 0.0 {
        return None;
    }
    let t = fit.coefficients[0] / sd;
    let probability = 2.0 * quantile::student_t_below(t.abs(), df) - 1.0;
    Some(Drift {
        per_shot: fit.coefficients[0],
        sd,
        probability,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::belief::{OWNER, Place, Prior};

    /// One shot this far right of the start, reading this far right.
    fn shot(x: f64, right: f64) -> Obs {
        Obs {
            place: Place::start(2, 2.0).moved(0, x),
            called_bad: false,
            tear: [right, 0.0],
        }
    }

    fn weighed(shots: &[Obs]) -> Evidence {
        let belief = Belief::fit(&Prior::aid(), shots, OWNER);
        Evidence::weigh(&belief, shots, &[0.3, 0.3])
    }

    #[test]
    fn a_mean_that_is_new_at_each_visit_jumps_and_one_that_comes_back_does_not() {
        for side in [1.0, -1.0] {
            let visits = |means: [f64; 8]| -> Vec<Obs> {
                let places = [0.0, 3.0].into_iter().cycle();
                let each = places.zip(means);
                each.flat_map(|(x, mean)| [mean, mean + 1.0].map(|r| shot(x, side * r)))
                    .collect()
            };
            let loose = weighed(&visits([-9.0, 14.0, 20.0, -12.0, 3.0, -20.0, 16.0, -4.0]));
            assert!(loose.jumps > 0.9, "{loose:?}");
            let sound = weighed(&visits([-9.0, 2.0, -8.0, 3.0, -9.0, 2.0, -10.0, 1.0]));
            assert!(sound.jumps < 0.1, "{sound:?}");
            // Not come back to, it may be a response with a bend.
            let bend = [(3.0, 49.0), (3.0, 50.0), (0.0, 16.0), (0.0, 17.0)];
            let bend = [&bend[..], &[(-3.25, 14.0), (-3.25, 15.0)]].concat();
            let bend: Vec<Obs> = bend.iter().map(|(x, r)| shot(*x, side * r)).collect();
            assert!(weighed(&bend).jumps < 0.9, "{:?}", weighed(&bend));
            // One move is one response, however large.
            let once = weighed(&visits([-9.0, 14.0, 20.0, -12.0, 3.0, -20.0, 16.0, -4.0])[..4]);
            assert_eq!(once.jumps, 0.0);
        }
    }

    #[test]
    fn an_adjuster_that_does_nothing_is_dead_and_one_that_answers_is_not() {
        let dead = |slope: f64| {
            let places = [0.0, 3.0, -3.0, 3.0, -3.0];
            let shots: Vec<Obs> = places
                .iter()
                .flat_map(|x| [-0.5, 0.5].map(|e| shot(*x, 9.0 + slope * x + e)))
                .collect();
            weighed(&shots).dead
        };
        let still = dead(0.0);
        assert!(still[0] > 0.85, "{still:?}");
        assert_eq!(still[1], 0.0);
        for slope in [2.0, -2.0, 0.8, -0.8] {
            let moves = dead(slope);
            assert!(moves[0] < 0.1, "{slope}: {moves:?}");
        }
    }

    /// Straight line through six readings, worked out by hand: Sxx 17.5; of the
    /// first Sxy 17.1, residual squares 0.0909; of the second 2.75 and 5.4429,
    /// with which t is 0.5635 at 4 degrees: 0.397 within it (Student's t).
    #[test]
    fn a_trend_is_the_line_through_the_shots_of_each_visit() {
        let trend = |shots: &[Obs]| weighed(shots).drift[0];
        let six = |y: [f64; 6]| y.map(|right| shot(0.0, right));
        let creeps = trend(&six([0.0, 1.2, 1.8, 3.1, 4.0, 4.9])).unwrap();
        assert!((creeps.per_shot - 0.977).abs() < 0.01, "{creeps:?}");
        assert!((creeps.sd - 0.0360).abs() < 0.003, "{creeps:?}");
        assert!(creeps.probability > 0.9999, "{creeps:?}");
        let steady = trend(&six([1.0, -1.0, 2.0, 0.0, 1.5, 1.0])).unwrap();
        assert!((steady.per_shot - 0.157).abs() < 0.01, "{steady:?}");
        assert!((steady.probability - 0.397).abs() < 0.02, "{steady:?}");
        // Two visits, each about its own mean: seven shots spare four.
        let two = |last: &[f64]| {
            let first = [0.0, 1.0, 2.0, 3.0].map(|right| shot(0.0, right));
            let then: Vec<Obs> = last.iter().map(|right| shot(3.0, *right)).collect();
            trend(&[&first[..], &then].concat())
        };
        let found = two(&[30.0, 31.1, 32.0]).unwrap();
        assert!((found.per_shot - 1.0).abs() < 0.03, "{found:?}");
        assert_eq!(two(&[30.0, 31.0]), None);
        // A bare shaft and another hand count for nothing in it.
        let mut others = six([0.0, 1.2, 1.8, 3.1, 4.0, 4.9]);
        others[2].place.bare = true;
        assert_eq!(trend(&others), None);
        others[2].place.bare = false;
        others[5].place.shooter = 1;
        assert_eq!(trend(&others), None);
    }
}
