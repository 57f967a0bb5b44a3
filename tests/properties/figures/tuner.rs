//! What is chosen, how carefully, and when the rest is left alone.

use tearbench::belief::{Axis, Belief, OWNER, Obs, Place, Powder, Prior};
use tearbench::tuner::search::Goal;
use tearbench::tuner::{Range, Task, Track, care, choose, forecast, gates, reach, search, untried};

use super::Table;

/// Position of the rest sideways and up, tear right and up.
type Seen = (f64, f64, f64, f64);

fn shots(seen: &[Seen], side: f64) -> Vec<Obs> {
    let shot = |(x, y, right, up): &Seen| Obs {
        place: Place::start(2, 2.0).moved(0, side * x).moved(1, side * y),
        called_bad: false,
        tear: [side * right, side * up],
    };
    seen.iter().map(shot).collect()
}

/// A response of so many mm for a mm on each axis, shot at these places,
/// twice each, with half a millimetre of scatter.
fn answering(gain: (f64, f64), from: (f64, f64), places: &[(f64, f64)]) -> Vec<Seen> {
    let at = |(x, y): &(f64, f64)| {
        let (right, up) = (from.0 + gain.0 * x, from.1 + gain.1 * y);
        [
            (*x, *y, right - 0.5, up + 0.5),
            (*x, *y, right + 0.5, up - 0.5),
        ]
    };
    places.iter().flat_map(at).collect()
}

/// The height at the end of its travel, the tear still high.
fn end(shots: usize) -> Vec<Seen> {
    let mut seen = answering((0.0, 0.5), (1.0, 13.0), &[(0.0, 0.0), (0.0, -2.0)]);
    seen.truncate(2);
    seen.extend([(0.0, -2.0, 1.0, 12.0), (0.0, -2.0, 0.0, 12.5)]);
    seen.extend(vec![(0.0, -8.0, 1.0, 9.0); shots]);
    seen
}

fn histories() -> Vec<(&'static str, Vec<Seen>)> {
    let round = [(0.0, 0.0), (2.0, 0.0), (2.0, 1.5), (-1.0, 1.5), (0.5, 3.0)];
    let sideways = [(0.0, 0.0), (3.0, 0.0), (-3.0, 0.0), (1.5, 0.0)];
    let long: Vec<(f64, f64)> = sideways
        .iter()
        .chain(&sideways)
        .chain(&round)
        .copied()
        .collect();
    vec![
        ("one shot", vec![(0.0, 0.0, 12.0, 3.0)]),
        (
            "two agree",
            answering((0.0, 0.0), (9.0, 1.0), &[(0.0, 0.0)]),
        ),
        (
            "two disagree",
            vec![(0.0, 0.0, 14.0, 2.0), (0.0, 0.0, 3.0, 6.0)],
        ),
        ("up", answering((0.0, 0.0), (1.0, 13.0), &[(0.0, 0.0)])),
        ("far", answering((0.0, 0.0), (70.0, 4.0), &[(0.0, 0.0)])),
        (
            "good pair",
            answering((0.0, 0.0), (1.0, -1.0), &[(0.0, 0.0)]),
        ),
        (
            "one move",
            answering((-3.0, -2.0), (11.0, 2.0), &[(0.0, 0.0), (2.0, 0.0)]),
        ),
        (
            "moved, not shot",
            answering(
                (-3.0, -2.0),
                (11.0, 9.0),
                &[(0.0, 0.0), (0.0, 2.0), (0.0, 2.0)],
            ),
        ),
        ("both known", answering((-3.0, -2.0), (13.0, 9.0), &round)),
        ("reversed", answering((4.0, 2.5), (13.0, 9.0), &round)),
        ("dead", answering((0.0, 0.0), (12.0, 1.0), &sideways)),
        ("dead for long", answering((0.0, 0.0), (12.0, 1.0), &long)),
        ("weak for long", answering((0.5, -2.0), (19.0, 2.0), &long)),
        (
            "one side flat",
            answering((0.0, 0.0), (12.0, 1.0), &[(0.0, 0.0), (3.0, 0.0)]),
        ),
        (
            "stepped over",
            vec![
                (3.0, 0.0, 49.0, 0.0),
                (3.0, 0.0, 50.0, 1.0),
                (0.0, 0.0, 16.0, 0.0),
                (0.0, 0.0, 17.0, 1.0),
                (-3.25, 0.0, 14.0, 0.0),
                (-3.25, 0.0, 15.0, 1.0),
            ],
        ),
        (
            "wild",
            vec![
                (0.0, 0.0, 3.0, 9.0),
                (0.0, 0.0, -14.0, 1.0),
                (0.0, 0.0, 11.0, -8.0),
                (0.0, 0.0, 2.0, 17.0),
                (1.0, 0.0, -9.0, 2.0),
                (1.0, 0.0, 12.0, -4.0),
                (0.0, 0.0, 16.0, 1.0),
            ],
        ),
        (
            "jumps",
            vec![
                (0.0, 0.0, 3.0, 0.0),
                (0.0, 0.0, 4.0, 1.0),
                (2.0, 0.0, 30.0, 0.0),
                (2.0, 0.0, 31.0, 1.0),
                (0.0, 0.0, -25.0, 0.0),
                (0.0, 0.0, -24.0, 1.0),
                (2.0, 0.0, 2.0, 0.0),
                (2.0, 0.0, 3.0, 1.0),
            ],
        ),
        ("at its end, one shot", end(1)),
        ("at its end, two shots", end(2)),
        (
            "unsure, three shots",
            vec![
                (0.0, 0.0, 9.0, 1.0),
                (0.0, 0.0, 3.0, -2.0),
                (2.0, 0.0, 8.0, 2.0),
                (2.0, 0.0, 1.0, -2.0),
                (2.0, 0.0, 6.0, 3.0),
            ],
        ),
        (
            "nearly there",
            answering(
                (-3.0, -2.0),
                (6.0, 4.0),
                &[(0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (2.0, 2.0)],
            ),
        ),
    ]
}

/// As usual, one with an aim and narrow limits, one in any order.
fn tasks() -> [Task; 3] {
    let range = |axis, step, low, high| Range {
        axis,
        step,
        low,
        high,
        usable: true,
    };
    let usual = Task::new(
        vec![
            range(Axis::Right, 0.25, -8.0, 8.0),
            range(Axis::Up, 0.25, -8.0, 8.0),
        ],
        6.0,
    );
    let mut tight = Task::new(
        vec![
            range(Axis::Right, 0.5, -3.5, 5.0),
            range(Axis::Up, 0.5, -2.0, 4.0),
        ],
        4.0,
    );
    tight.aim = [0.0, 3.0];
    tight.level = 0.9;
    tight.least_shots = 2;
    tight.caution[0].window = (-2.0, 4.0);
    tight.caution[0].first = 1.5;
    let mut open = usual.clone();
    open.vertical_first = false;
    open.earlier = true;
    open.earlier_both = true;
    [usual, tight, open]
}

#[test]
fn of_every_choice() {
    let mut table = Table::default();
    let [usual, tight, open] = tasks();
    let clean = Prior::fingers_after(Powder::Clean);
    for (name, prior, task, side) in [
        ("aid", Prior::aid(), &usual, 1.0),
        ("aid, open, mirrored", Prior::aid(), &open, -1.0),
        ("fingers, tight", clean, &tight, 1.0),
        ("fingers, mirrored", Prior::fingers(), &usual, -1.0),
    ] {
        for (what, seen) in histories() {
            let shots = shots(&seen, side);
            let belief = Belief::fit(&prior, &shots, OWNER);
            let last = &shots[shots.len() - 1].place;
            let here = match what {
                "moved, not shot" => last.moved(0, 0.5),
                _ => last.clone(),
            };
            let track = Track::count(&shots, &here, OWNER);
            table.row(format!("{name}: {what}"), ());
            one(&mut table, &belief, task, &track, &shots);
        }
    }
    table.pinned("tuner");
}

fn one(table: &mut Table, belief: &Belief, task: &Task, track: &Track, shots: &[Obs]) {
    let decision = choose(belief, task, track);
    table.row("  decision", &decision);
    table.row(
        "  track",
        (
            (
                track.shots_here,
                track.fresh,
                track.mean_here,
                track.shots,
                track.repeats,
            ),
            (
                track.repeated,
                track.settings_repeated,
                track.shots_repeated,
                track.moves,
            ),
            (&track.reached, &track.places),
        ),
    );
    let level = choose::wanted_level(belief, task);
    table.row(
        "  wanted",
        (
            level,
            choose::shots_needed(belief, task, 0.9),
            choose::shots_needed(belief, task, 0.97),
            forecast::shots_wanted(belief, task, track),
            forecast::chance_after(belief, task, track, 3),
            forecast::odds_of_done(belief, task, track),
        ),
    );
    for k in 0..2 {
        let care = care::Care::of(belief, task, track, k);
        table.row(
            format!("  {k} care"),
            (
                care,
                care.is_test(),
                care.large_enough(2),
                care.large_enough(-30),
            ),
        );
        table.row(
            "    along",
            (
                search::room(task, track, k),
                search::along(belief, task, track, k, Goal::Component),
                search::along(belief, task, track, k, Goal::Length),
            ),
        );
        table.row(
            "    tells",
            (
                care::telling(belief, task, track, k, -2.0),
                care::silence(belief, task, track, k, false),
                care::silence(belief, task, track, k, true),
                care::long_tried(belief, task, track, k),
                untried::steps(belief, task, track, k),
            ),
        );
    }
    table.row(
        "  together",
        (
            search::together(belief, task, track),
            search::chance_after(belief, task, track, &[(0, 2), (1, -1)]),
        ),
    );
    let reach = Axis::BOTH.map(|axis| reach::of(belief, task, track, axis));
    table.row("  reach", (reach, reach.map(|r| r.map(|r| r.is_short()))));
    table.row(
        "  scatter",
        [4.0, 12.0].map(|normal| gates::consistency(belief, task, track, normal)),
    );
    let evidence = gates::evidence(belief, task, shots, track);
    table.row("  evidence", (&evidence.dead, evidence.jumps));
    table.row(
        "  response",
        gates::response(belief, &evidence, &decision, task, track),
    );
}
