//! Where a learning move goes: unit tests of `choose`.

use super::super::cases::{pairs, range, rest_at, shot, task, weighed};
use super::*;
use crate::belief::{AdjusterPrior, OWNER, Obs, Place, Powder, Prior, SlopePrior};

/// What is picked after two shots at each place of the one adjuster
/// sideways, the tail so far right of the point, mm; `slope` is what is
/// believed of a unit of it beforehand.
fn picked<T>(places: &[f64], right: f64, slope: SlopePrior, pick: impl Fn(&Scene, Care) -> T) -> T {
    let task = Task::new(vec![range(Axis::Right, 8.0)], 6.0);
    let shots: Vec<Obs> = places
        .iter()
        .flat_map(|x| {
            [-0.5, 0.5].map(|off| shot(Place::start(1, 2.0).moved(0, *x), [right + off, 0.0]))
        })
        .collect();
    let mut prior = Prior::fingers_after(Powder::NotLooked);
    prior.adjusters = vec![AdjusterPrior::new(Axis::Right, slope, 0.35)];
    let belief = Belief::fit(&prior, &shots, OWNER);
    let track = Track::count(&shots, &shots[shots.len() - 1].place, OWNER);
    let scene = Scene {
        belief: &belief,
        task: &task,
        track: &track,
        here: 0.5,
        vertical_here: 0.9,
        best: 0.5,
    };
    pick(&scene, Care::of(&belief, &task, &track, 0))
}

fn widest(places: &[f64], right: f64, slope: SlopePrior, bounds: (i32, i32)) -> i32 {
    picked(places, right, slope, |scene, mut care| {
        care.bounds = bounds;
        let (steps, purpose) = scene.widest(0, &care).unwrap();
        assert_eq!(purpose, Purpose::Learn);
        steps[0].1
    })
}

fn slope(mean: f64) -> SlopePrior {
    SlopePrior {
        mean,
        ..Powder::NotLooked.plunger_tension()
    }
}

#[test]
fn the_widest_learning_move_ends_where_care_allows_and_the_reach_is_longest() {
    // Back at 0 after 1 mm: 3 mm the other way makes 4 mm from end to end,
    // 3 mm the same way only 3.
    for (places, n) in [([1.0, 0.0], -12), ([-1.0, 0.0], 12)] {
        assert_eq!(
            widest(&places, 15.0, slope(3.0), (-12, 12)),
            n,
            "{places:?}"
        );
        assert_eq!(
            widest(&places, -15.0, slope(3.0), (-12, 12)),
            n,
            "{places:?}"
        );
    }
    // Where care allows no more than four clicks down, up makes 3 mm of 2.
    assert_eq!(widest(&[1.0, 0.0], 15.0, slope(3.0), (-4, 12)), 12);
}

#[test]
fn where_both_ends_reach_alike_the_usual_way_decides_and_is_mirrored() {
    let even = [1.0, -1.0, 0.0];
    let at = |right, mean| widest(&even, right, slope(mean), (-8, 8));
    // A rest: what is usual of it is the same for both hands, so that the
    // mirrored tear turns the move round.
    assert_eq!((at(15.0, 3.0), at(-15.0, 3.0)), (-8, 8));
    assert_eq!((at(15.0, -3.0), at(-15.0, -3.0)), (8, -8));
    // A spring: firmer sends the tail the other way for the other hand, so
    // that the mirrored bow is told the same turns.
    assert_eq!(at(15.0, 3.0), at(-15.0, -3.0));
    assert_eq!(at(-15.0, 3.0), at(15.0, -3.0));
}

#[test]
fn a_first_move_that_promises_nothing_either_way_goes_the_usual_way_and_is_mirrored() {
    // So far out that no place within reach is likely inside.
    let at = |right: f64, mean: f64| {
        picked(&[0.0], right, slope(mean), |scene, care| {
            let (steps, purpose) = scene.learn(0).unwrap();
            assert_eq!((steps[0].1.abs(), purpose), (care.test, Purpose::Test));
            steps[0].1.signum()
        })
    };
    // A rest: against the tail where it takes the tail with it, after the
    // tail where it sends it the other way.
    assert_eq!((at(90.0, 3.0), at(-90.0, 3.0)), (-1, 1));
    assert_eq!((at(90.0, -3.0), at(-90.0, -3.0)), (1, -1));
    // A spring, whose usual sign turns with the hand: the same turns.
    assert_eq!(at(90.0, 3.0), at(-90.0, -3.0));
}

/// Where the vertical is out and nothing is left to move it with, a second
/// shot settles that; only then the sideways adjuster has its turn.
#[test]
fn a_vertical_that_cannot_be_moved_waits_for_a_second_shot() {
    let both = vec![range(Axis::Right, 8.0), range(Axis::Up, 0.0)];
    let task = Task::new(both, 6.0);
    let chosen = |shots: usize| {
        let shots = vec![shot(rest_at(0.0), [15.0, 20.0]); shots];
        let (belief, track) = weighed(&shots);
        choose(&belief, &task, &track).choice
    };
    assert_eq!(chosen(1), Choice::Shoot);
    let Choice::Move(steps) = chosen(2) else {
        panic!("no move of the sideways adjuster");
    };
    assert_eq!((steps.len(), steps[0].0), (1, 0));
}

/// What is chosen after so many more shots, 1 mm apart, where the last two
/// were shot.
fn chosen_after(seen: &[(f64, f64)], more: usize) -> Choice {
    let mut shots = pairs(seen);
    let last = shots.len() - 2;
    for n in 0..more {
        shots.push(shots[last + n % 2].clone());
    }
    let (belief, track) = weighed(&shots);
    choose(&belief, &task(8.0), &track).choice
}

/// A step that would show what is known already teaches nothing: none back
/// from the end of the travel, where 2 mm a mm have been seen all the way, and
/// none to the far side of a bend that was shot and stands 38 mm out.
#[test]
fn no_learning_move_goes_where_the_way_is_known() {
    for side in [1.0, -1.0] {
        let of = |seen: &[(f64, f64)]| -> Vec<(f64, f64)> {
            seen.iter().map(|(x, t)| (x * side, t * side)).collect()
        };
        let end = of(&[(0.0, 22.0), (4.0, 14.0), (8.0, 6.0)]);
        let bend = of(&[(-1.75, 38.0), (0.0, 24.0), (8.0, 11.0), (3.25, 5.0)]);
        for more in 1..8 {
            let choice = chosen_after(&end, more);
            assert!(
                matches!(choice, Choice::Shoot | Choice::Done),
                "{more}: {choice:?}"
            );
            // Near the bottom of the bend a click or two may still be tried.
            let small = match chosen_after(&bend, more) {
                Choice::Move(steps) => steps.iter().all(|(_, n)| n.abs() <= 2),
                other => other != Choice::Limit,
            };
            assert!(small, "{more}");
        }
    }
}

/// At the end of the travel with the tear at the tolerance: twelve shots, and
/// then it is given up where it is less likely inside than not.
#[test]
fn a_tear_at_the_tolerance_that_cannot_be_bettered_is_given_up_after_twelve_shots() {
    for side in [1.0, -1.0] {
        let seen = |end: f64| {
            [
                (0.0, 22.0 * side),
                (4.0 * side, 14.0 * side),
                (8.0 * side, end * side),
            ]
        };
        assert_eq!(chosen_after(&seen(6.2), 9), Choice::Shoot);
        assert_eq!(chosen_after(&seen(6.2), 10), Choice::Limit);
        assert_eq!(chosen_after(&seen(5.6), 10), Choice::Shoot);
    }
}
