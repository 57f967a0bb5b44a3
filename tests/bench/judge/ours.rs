//! The tuner itself, driven as the program drives it.

use super::bow::{self, Bench};
use super::policy::{CAP, End};
use super::world::{Kind, TOLERANCE};
use tearbench::belief::{
    AdjusterPrior, Axis, Belief, OWNER, Obs, Place, Powder, Prior, SlopePrior,
};
use tearbench::tuner::search;
use tearbench::tuner::{Choice, Range, Task, Track, choose};

/// Settings of a run.
#[derive(Clone, Copy)]
pub struct Style {
    pub vertical_first: bool,
    pub both_at_once: bool,
    /// Every move of both axes, each to its own best place.
    pub together: bool,
    pub level: f64,
    pub gates: bool,
}

pub const USUAL: Style = Style {
    vertical_first: true,
    both_at_once: true,
    together: false,
    level: 0.95,
    gates: true,
};

/// Whether the prior leans with the arrow's load; `JUDGE_NO_LEAN` leaves that
/// out, to see what it is worth.
fn leans() -> bool {
    std::env::var("JUDGE_NO_LEAN").is_err()
}

/// What the tuner is told before the first shot, powder looked at with fingers.
pub fn prior(kind: Kind, bench: &mut Bench) -> Prior {
    if kind == Kind::Aid {
        let mut p = Prior::aid();
        let engine = bench.bow.engine.as_ref();
        if let Some(negative) = engine.filter(|_| leans()).and_then(|e| e.expected()) {
            let usual = p.adjusters[0].slope[0];
            p.adjusters[0].slope[0] = SlopePrior::leaning(negative, usual.sd, usual.walk);
        }
        return p;
    }
    let powder = match bench.powder() {
        bow::Powder::Clean => Powder::Clean,
        bow::Powder::Slap => Powder::Slap,
    };
    let mut p = Prior::fingers_after(powder);
    if kind == Kind::Plunger {
        p.adjusters[0] = AdjusterPrior::new(Axis::Right, powder.plunger_tension(), 0.5);
    }
    p
}

fn task(bench: &Bench, style: Style) -> Task {
    let range = |a: usize, axis| Range {
        axis,
        step: bench.bow.step[a],
        low: -bench.bow.travel[a],
        high: bench.bow.travel[a],
        usable: true,
    };
    let mut t = Task::new(vec![range(0, Axis::Right), range(1, Axis::Up)], TOLERANCE);
    t.level = style.level;
    t.vertical_first = style.vertical_first;
    t.both_at_once = style.both_at_once;
    t
}

/// Runs to the end; returns it and the chance stated there.
pub fn run(bench: &mut Bench, kind: Kind, style: Style) -> (End, f64) {
    let prior = prior(kind, bench);
    let task = task(bench, style);
    let mut shots: Vec<Obs> = Vec::new();
    let trace = std::env::var("JUDGE_TRACE").is_ok();
    while bench.shots < CAP {
        let mut place = Place::start(2, 2.0);
        place.positions = bench.x.to_vec();
        let tear = bench.shoot();
        shots.push(Obs {
            place: place.clone(),
            called_bad: false,
            tear,
        });
        let belief = Belief::fit(&prior, &shots, OWNER);
        let track = Track::count(&shots, &place, OWNER);
        let decision = choose(&belief, &task, &track);
        if style.gates
            && let Some(end) =
                super::gates::refused(&belief, &shots, &task, &track, &decision, kind)
        {
            return (end, 0.0);
        }
        if trace {
            let t = belief.tear(&place);
            eprintln!(
                "   x {:?} y {:?} mean {:.1?} sd {:.1?} here {:.3} vert {:.3} -> {:?}",
                bench.x, tear, t.mean, t.sd, decision.here, decision.vertical_here, decision.choice
            );
        }
        match decision.choice {
            Choice::Shoot => {}
            Choice::Done => return (End::Done, decision.here),
            Choice::Limit => return (End::Limit, 0.0),
            Choice::Move(steps) => {
                let both = search::together(&belief, &task, &track).filter(|_| style.together);
                let steps = both.unwrap_or(steps);
                let mut to = bench.x;
                for (k, n) in steps {
                    to[k] += f64::from(n) * bench.bow.step[k];
                }
                bench.go(to);
            }
        }
    }
    (End::Unresolved, 0.0)
}
