//! The moments in which a probe would be asked for.

use super::rng::Rng;
use super::subject::{Subject, length};
use super::world::{Kind, TOLERANCE};
use tearbench::belief::{Axis, Belief, OWNER, Obs, Place, Prior};
use tearbench::tuner::gates;
use tearbench::tuner::{Choice, Range, Task, Track, choose};

/// What the technician has before him.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum State {
    /// A tear out of tolerance, nothing moved yet.
    Start,
    /// An adjuster that does next to nothing, its part of the tear out.
    NoResponse,
    /// An adjuster that answers against what is expected.
    Backwards,
    /// No setting within travel is inside: the best there is.
    Far,
    /// The tuner itself refuses, or has not settled it in 40 shots.
    Stuck,
    /// The tuner says done.
    Done,
    /// A small tear out of tolerance, of one sort (flex or angle).
    Sort,
}

/// Mm of tear for 1 mm, less than which is no response: the tuner's own
/// share of the slope expected beforehand (0.15), sideways and up.
fn least(kind: Kind) -> [f64; 2] {
    match kind {
        Kind::Aid => [0.42, 0.42],
        _ => [1.27, 0.42],
    }
}

/// Every state this bow is in, with the setting it is asked at.
pub fn of(subject: &Subject, rng: &mut Rng) -> Vec<(State, [f64; 2])> {
    let start = [0.0; 2];
    let mut found = vec![(State::Start, start)];
    let slope = slopes(subject);
    let mean = subject.mean(start, None);
    let least = least(subject.kind);
    if (0..2).any(|a| mean[a].abs() > TOLERANCE && slope[a].abs() < least[a]) {
        found.push((State::NoResponse, start));
    }
    // Rest up lowers the tail; a tail that follows the rest sideways is the
    // usual with fingers and the less expected with an aid.
    let sideways = if subject.kind == Kind::Aid {
        slope[0] > least[0]
    } else {
        slope[0] < -least[0]
    };
    if slope[1] > least[1] || sideways {
        found.push((State::Backwards, start));
    }
    let (best, size) = best(subject);
    if size > TOLERANCE {
        found.push((State::Far, best));
    }
    found.extend(tuned(subject, rng));
    found
}

/// Mm of tear for 1 mm about the start, each adjuster on its own axis.
pub fn slopes(subject: &Subject) -> [f64; 2] {
    [0, 1].map(|a| {
        let at = |x: f64| {
            let mut to = [0.0; 2];
            to[a] = x;
            subject.mean(to, None)[a]
        };
        (at(2.0) - at(-2.0)) / 4.0
    })
}

/// The smallest tear within travel on a 1 mm grid, and where.
pub fn best(subject: &Subject) -> ([f64; 2], f64) {
    let mut best = ([0.0; 2], f64::INFINITY);
    for i in -8..=8 {
        for k in -8..=8 {
            let at = [f64::from(i), f64::from(k)];
            let size = length(subject.mean(at, None));
            if size < best.1 {
                best = (at, size);
            }
        }
    }
    best
}

/// Where the tuner leaves the rest, done or given up; `None` when it refuses
/// because the shots do not agree.
fn tuned(subject: &Subject, rng: &mut Rng) -> Option<(State, [f64; 2])> {
    let (prior, normal) = match subject.kind {
        Kind::Aid => (Prior::aid(), 6.0),
        _ => (Prior::fingers(), 12.0),
    };
    let range = |axis| Range {
        axis,
        step: 0.25,
        low: -8.0,
        high: 8.0,
        usable: true,
    };
    let task = Task::new(vec![range(Axis::Right), range(Axis::Up)], TOLERANCE);
    let mut x = [0.0; 2];
    let mut shots: Vec<Obs> = Vec::new();
    while shots.len() < 40 {
        let place = Place {
            positions: x.to_vec(),
            ..Place::start(2, 2.0)
        };
        shots.push(Obs {
            place: place.clone(),
            called_bad: false,
            tear: subject.shoot(x, None, rng),
        });
        let belief = Belief::fit(&prior, &shots, OWNER);
        let track = Track::count(&shots, &place, OWNER);
        let decision = choose(&belief, &task, &track);
        if gates::consistency(&belief, &task, &track, normal).gate == gates::Gate::Refuse {
            return None;
        }
        let evidence = gates::evidence(&belief, &task, &shots, &track);
        if gates::response(&belief, &evidence, &decision, &task, &track).is_some() {
            return Some((State::Stuck, x));
        }
        match decision.choice {
            Choice::Shoot => {}
            Choice::Done => return Some((State::Done, x)),
            Choice::Limit => return Some((State::Stuck, x)),
            Choice::Move(steps) => {
                for (k, n) in steps {
                    x[k] += 0.25 * f64::from(n);
                }
            }
        }
    }
    Some((State::Stuck, x))
}
