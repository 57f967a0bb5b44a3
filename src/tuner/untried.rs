//! Places worth a look before an adjuster is given up: the side of the start
//! where nothing was shot, and the bottom of a bend that was stepped over.
//!
//! A rest can be flat one way and steep the other (the arrow leaves the arm,
//! or bounces off it), and a bent response falls and rises again between two
//! settings that both look bad. A belief that takes the response for nearly
//! straight does not look there of itself.

use super::care::{self, Care};
use super::task::{Task, Track};
use crate::belief::Belief;

/// Chance of a place within reach under which the belief is out of ideas.
pub(crate) const OUT_OF_IDEAS: f64 = 0.5;
/// Chance of half a usual response under which a side shows none.
const SILENT: f64 = 0.5;
/// Fewest steps between places for one between them to be another.
const APART: f64 = 4.0;

/// Whole steps from here to a place worth a look, if one was left out.
pub fn steps(belief: &Belief, task: &Task, track: &Track, k: usize) -> Option<i32> {
    let care = Care::of(belief, task, track, k);
    if !care.moved {
        return None;
    }
    let to =
        between(belief, task, track, k).or_else(|| other_side(belief, task, track, k, &care))?;
    let n = ((to - track.here.positions[k]) / task.adjusters[k].step).round() as i32;
    (n != 0).then_some(n)
}

/// The other side of the start, where one side was tried far enough and
/// showed nothing, as far as a test may go there.
fn other_side(belief: &Belief, task: &Task, track: &Track, k: usize, care: &Care) -> Option<f64> {
    let a = &task.adjusters[k];
    let (low, high) = track.reached[k];
    let size = f64::from(care.test) * a.step;
    let tried = high - low;
    let way = match (low < 0.0, high > 0.0) {
        (false, true) => -1.0,
        (true, false) => 1.0,
        _ => return None,
    };
    let middle = track
        .here
        .moved(k, 0.5 * (low + high) - track.here.positions[k]);
    let usual = care::usual(&belief.prior.adjusters[k]);
    let shows = belief.gain_beyond(k, a.axis, &middle, 0.5 * tried, 0.5 * usual);
    if tried < size - 1e-6 || shows >= SILENT {
        return None;
    }
    let window = task.caution[k].window;
    let to = (way * size).clamp(window.0.max(a.low), window.1.min(a.high));
    let to = (to / a.step).round() * a.step;
    (to.abs() > a.step - 1e-6).then_some(to)
}

/// The bottom of a bend that was stepped over: the line through two places
/// comes to nothing before the next place on its way, and that one was shot
/// and stands as far out as before, or nearly.
fn between(belief: &Belief, task: &Task, track: &Track, k: usize) -> Option<f64> {
    let a = &task.adjusters[k];
    let i = a.axis.index();
    let mut at: Vec<f64> = belief
        .cells()
        .cells
        .iter()
        .filter_map(|c| {
            let p = &c.place;
            let same = p.epoch == track.here.epoch && p.response_epoch == track.here.response_epoch;
            same.then(|| p.positions[k])
        })
        .collect();
    at.sort_by(f64::total_cmp);
    at.dedup_by(|b, a| (*b - *a).abs() < 0.5 * task.adjusters[k].step);
    let tear = |x: f64| {
        let place = track.here.moved(k, x - track.here.positions[k]);
        belief.tear(&place).mean[i] - task.aim[i]
    };
    let seen: Vec<(f64, f64)> = at.into_iter().map(|x| (x, tear(x))).collect();
    let back: Vec<(f64, f64)> = seen.iter().rev().copied().collect();
    let dips = [&seen, &back]
        .into_iter()
        .flat_map(|way| way.windows(3))
        .filter_map(|w| dip([w[0], w[1], w[2]], task.tolerance, APART * a.step));
    // The nearest to what was shot best.
    let nearest = |x: &f64| (x - track.here.positions[k]).abs();
    let to = dips.min_by(|x, y| nearest(x).total_cmp(&nearest(y)))?;
    Some((to / a.step).round() * a.step)
}

/// Where the line through the first two of three places in a row comes to
/// nothing, if the third place lies beyond that and shows the same side.
fn dip(w: [(f64, f64); 3], tolerance: f64, apart: f64) -> Option<f64> {
    let [(x0, y0), (x1, y1), (x2, y2)] = w;
    let falls = (y1 - y0) / (x1 - x0);
    let far = y1 * y2 > 0.0 && y1.abs() > tolerance && y2.abs() > tolerance;
    let toward = y0 * y1 > 0.0 && y0.abs() > y1.abs();
    if !far || !toward {
        return None;
    }
    let zero = x1 - y1 / falls;
    let span = (x2 - x1).abs();
    let way = (zero - x1).abs();
    (way >= 0.5 * apart && way <= span - 0.5 * apart).then_some(zero)
}

#[cfg(test)]
mod tests {
    use super::super::cases::{pairs, rest_at, task, weighed};
    use super::*;
    use crate::belief::OWNER;

    #[test]
    fn a_bend_that_was_stepped_over_is_looked_for_where_the_line_comes_to_nothing() {
        for way in [1.0, -1.0] {
            for side in [1.0, -1.0] {
                let at = |x: f64, y: f64| (way * x, side * y);
                // Falls 11 mm a mm from 50 to 16.5, so to nothing 1.5 mm on;
                // 3.25 mm on it stands at 14 again.
                let w = [at(3.0, 49.5), at(0.0, 16.5), at(-3.25, 14.0)];
                let found = dip(w, 6.0, 1.0).unwrap();
                assert!((found - way * -1.5).abs() < 1e-9, "{found}");
                // Past nothing, on the other side of it: no bend was stepped over.
                let w = [at(3.0, 49.5), at(0.0, 16.5), at(-3.25, -14.0)];
                assert_eq!(dip(w, 6.0, 1.0), None);
                // As the line says: not there yet.
                let w = [at(3.0, 49.5), at(0.0, 16.5), at(-1.0, 9.0)];
                assert_eq!(dip(w, 6.0, 1.0), None);
                // Rising toward the third place: nothing to find that way.
                let w = [at(3.0, 12.0), at(0.0, 16.5), at(-3.25, 20.0)];
                assert_eq!(dip(w, 6.0, 1.0), None);
            }
        }
    }

    /// Shot at 3, at 0 and at -3.25 mm, where it stands: the line through the
    /// first two comes to nothing at -1.5 mm, and that place is looked for from
    /// wherever it stands now.
    #[test]
    fn the_bend_is_looked_for_from_where_the_adjuster_stands() {
        for way in [1.0, -1.0] {
            let seen = [(3.0, 49.5), (0.0, 16.5), (-3.25, 14.0)];
            let shots = pairs(&seen.map(|(x, tear)| (way * x, tear)));
            let (belief, _) = weighed(&shots);
            for here in [-3.25, 0.0, 3.0] {
                let track = Track::count(&shots, &rest_at(way * here), OWNER);
                let found = between(&belief, &task(8.0), &track, 0).unwrap();
                assert!((found - way * -1.5).abs() <= 0.25, "{here} {found}");
            }
        }
    }
}
