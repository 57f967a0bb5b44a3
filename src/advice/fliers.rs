//! Shots so far from their neighbours that they say nothing of the bow: a
//! loose shot that went off by itself, or a figure mistyped.

use crate::belief::same_distance;
use crate::session::{ShotAt, Timeline};
use crate::tear::Tear;

/// Nearer than this to the others it is an ordinary shot, mm (common
/// practice, no source: a hand's breadth of paper is not read as a tear).
const LEAST: f64 = 25.0;
/// And nearer than this many times the others' usual distance.
const TIMES: f64 = 8.0;
/// Others needed at the setting before one shot can stand apart.
const OTHERS: usize = 4;

/// Indices of the shots taken for fliers: of each setting at most one of each
/// shooter from each distance, so that an archer who scatters is still found
/// out, and a tear that goes with the distance is none.
pub(super) fn find(timeline: &Timeline) -> Vec<usize> {
    let mut found = Vec::new();
    let shots = &timeline.shots;
    let mut first = 0;
    while first < shots.len() {
        let same = |s: &ShotAt| s.setting == shots[first].setting;
        let end = (first..shots.len())
            .find(|i| !same(&shots[*i]))
            .unwrap_or(shots.len());
        let counts = |i: &usize| !shots[*i].shot.called_bad && !shots[*i].shot.bare;
        let mut left: Vec<usize> = (first..end).filter(counts).collect();
        while let Some(one) = left.first().map(|i| &shots[*i]) {
            let (group, others): (Vec<usize>, Vec<usize>) =
                left.iter().partition(|i| alike(one, &shots[**i]));
            found.extend(apart(shots, &group));
            left = others;
        }
        first = end;
    }
    found
}

/// Whether two shots of a setting are from one hand and one distance.
fn alike(a: &ShotAt, b: &ShotAt) -> bool {
    a.shot.by == b.shot.by && same_distance(a.distance.m(), b.distance.m())
}

/// The one shot of a group that stands apart from all the others, if any.
fn apart(shots: &[ShotAt], group: &[usize]) -> Option<usize> {
    if group.len() <= OTHERS {
        return None;
    }
    let centre = centre(shots, group);
    let far = |i: &usize| distance(shots[*i].shot.tear(), centre);
    let suspect = *group.iter().max_by(|a, b| far(a).total_cmp(&far(b)))?;
    let others: Vec<usize> = group.iter().copied().filter(|i| *i != suspect).collect();
    let mut distances: Vec<f64> = others.iter().map(far).collect();
    distances.sort_by(f64::total_cmp);
    let usual = distances[distances.len() / 2].max(1.0);
    (far(&suspect) > LEAST && far(&suspect) > TIMES * usual).then_some(suspect)
}

/// Middle value of each component, of two middle ones what lies between: one
/// wild shot does not move it, and a mirrored group has the mirrored centre.
fn centre(shots: &[ShotAt], group: &[usize]) -> Tear {
    let middle = |part: fn(&Tear) -> f64| {
        let mut values: Vec<f64> = group.iter().map(|i| part(&shots[*i].shot.tear())).collect();
        values.sort_by(f64::total_cmp);
        0.5 * (values[(values.len() - 1) / 2] + values[values.len() / 2])
    };
    Tear::new(middle(|t| t.right), middle(|t| t.up))
}

fn distance(a: Tear, b: Tear) -> f64 {
    Tear::new(a.right - b.right, a.up - b.up).length()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::gear::CardText;
    use crate::session::{Entry, Event, Shot};

    fn found(tears: &[(f64, f64)]) -> Vec<usize> {
        found_from(tears, |_| None)
    }

    fn found_from(
        tears: &[(f64, f64)],
        from: impl Fn(usize) -> Option<&'static str>,
    ) -> Vec<usize> {
        let card = CardText::from_toml(crate::fixtures::COMPOUND).unwrap();
        let entries: Vec<Entry> = tears
            .iter()
            .enumerate()
            .map(|(i, (right, up))| {
                Entry::now(
                    i as u32 + 1,
                    Event::Shot(Shot {
                        right: *right,
                        up: *up,
                        distance: from(i).map(|d| d.parse().unwrap()),
                        ..Shot::default()
                    }),
                )
            })
            .collect();
        find(&Timeline::new(&card, &entries).unwrap())
    }

    #[test]
    fn a_mirrored_group_has_the_mirrored_flier() {
        let rights = [0.0, 0.0, 0.0, 3.0, 3.0, 27.0];
        for side in [1.0, -1.0] {
            let tears = rights.map(|right| (side * right, 0.0));
            assert_eq!(found(&tears), [5], "{side}");
        }
    }

    #[test]
    fn one_wild_shot_among_good_ones_is_a_flier_and_scatter_is_not() {
        let good = [(0.0, 0.0), (1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (2.0, 1.0)];
        let mut with = good.to_vec();
        with.push((-70.0, 0.0));
        assert_eq!(found(&with), [5]);
        assert!(found(&good).is_empty());
        // Nor does it matter where on the sheet the group lies.
        for (x, y) in [(40.0, 0.0), (-40.0, 30.0), (0.0, -50.0)] {
            let there = |(right, up): &(f64, f64)| (right + x, up + y);
            let moved: Vec<(f64, f64)> = with.iter().map(there).collect();
            assert_eq!(found(&moved), [5], "{x} {y}");
            let moved: Vec<(f64, f64)> = good.iter().map(there).collect();
            assert!(found(&moved).is_empty(), "{x} {y}");
        }
        // Usual is the middle one of the others, 4.5 mm: 36 mm is the limit.
        let wide = |right: f64| {
            let mut all = [(0.0, 0.0), (1.0, 0.0), (5.0, 0.0), (-5.0, 0.0), (0.0, 5.0)].to_vec();
            all.push((right, 0.0));
            found(&all)
        };
        assert!(wide(36.0).is_empty());
        assert_eq!(wide(37.0), [5]);
        // Another distance or another hand is no flier; each has its own.
        let far = |i: usize| (i >= 3).then_some("3 m");
        let mut probed = [(-9.0, 0.0), (-8.0, 0.0), (-9.0, 0.0)].to_vec();
        probed.extend([(20.0, 0.0), (21.0, 0.0), (20.0, 0.0)]);
        assert!(found_from(&probed, far).is_empty());
        probed.extend([(20.0, 0.0), (21.0, 0.0), (-30.0, 0.0)]);
        assert_eq!(found_from(&probed, far), [8]);
        // Too few to tell it from scatter.
        assert!(found(&[(0.0, 0.0), (1.0, 0.0), (-70.0, 0.0)]).is_empty());
        // An archer who scatters: nobody stands apart.
        assert!(
            found(&[
                (30.0, 10.0),
                (-22.0, 15.0),
                (8.0, -25.0),
                (31.0, 4.0),
                (-18.0, 22.0),
                (25.0, -14.0)
            ])
            .is_empty()
        );
        // Twice is a habit.
        with.push((-68.0, 3.0));
        assert!(found(&with).len() <= 1);
    }
}
