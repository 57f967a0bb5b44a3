//! The mirror rule: reflect hand, holes, hits and sideways positions, and all
//! that is said comes out reflected, with plunger turns, heights, clicks and
//! sizes as they were.
//!
//! A right-handed session and its mirror image are led side by side; both are
//! asked the same after every act. `cargo test` runs the first hundreds of the
//! ten thousand cases of `cargo bench --bench mirror`. Where a word for a side
//! that is none is new ("the right press"), it goes into `reflect::NO_SIDE`.

pub mod case;
mod reflect;
mod said;

use case::{Act, Bow, Case, How};
use tearbench::gear::{AdjusterKind, Card, Positions, Step};
use tearbench::proof::{self, Stage};
use tearbench::question::{Refusal, Work};
use tearbench::restore;
use tearbench::session::{Event, Impact, Session, Shooter, Shot};
use tearbench::trouble;
use tearbench::{advice, setup};

/// Leads a case and its mirror image; `Err` names the first difference.
///
/// # Errors
/// What is said of the mirrored session and is not the mirror image of what
/// is said of the session.
pub fn compare(case: &Case) -> Result<(), String> {
    let mut right = Session::from_text(&case.card).map_err(|e| format!("{e:?}"))?;
    let mut left = Session::from_text(&reflect::card(&case.card)).map_err(|e| format!("{e:?}"))?;
    if case.with_prior {
        for session in [&mut right, &mut left] {
            advice::prior::refresh(session).map_err(|e| e.to_string())?;
        }
    }
    for (i, act) in case.acts.iter().enumerate() {
        for event in events(act, &right, &case.bow) {
            let mirrored = reflect::event(&event);
            right.record(event).map_err(|e| e.to_string())?;
            left.record(mirrored).map_err(|e| e.to_string())?;
        }
        agree(&said::advice(&right), &said::advice(&left))
            .map_err(|e| format!("after act {} ({act:?}): {e}", i + 1))?;
    }
    agree(&said::everything(&right), &said::everything(&left))
}

fn agree(right: &serde_json::Value, left: &serde_json::Value) -> Result<(), String> {
    reflect::difference(&reflect::json(right), left).map_or(Ok(()), Err)
}

/// What an act records in the right-handed session.
fn events(act: &Act, session: &Session, bow: &Bow) -> Vec<Event> {
    let timeline = session.timeline();
    match act {
        Act::Shoot(shots) => shots
            .iter()
            .map(|(noise, how)| shot(bow, &timeline.now, *noise, *how))
            .collect(),
        Act::Follow => {
            let found = advice::advise(timeline, tearbench::range::Today::now()).movement;
            moved(found.map_or_else(Vec::new, |m| m.moves()))
        }
        Act::Move(k, n) => adjuster_moved(&timeline.card, *k, *n),
        Act::AnswerTest(n) => {
            let probe = advice::advise(timeline, tearbench::range::Today::now()).probe;
            let Some(probe) = probe.filter(|p| !p.answers.is_empty()) else {
                return Vec::new();
            };
            let kind = serde_json::to_value(probe.kind).unwrap();
            let result = probe.answers[n % probe.answers.len()];
            vec![answer(kind.as_str().unwrap(), result.id())]
        }
        Act::AnswerStep(n) => {
            let analysis = advice::analyse(timeline, tearbench::range::Today::now());
            let step = Refusal::of(&analysis).and_then(|r| trouble::next_step(timeline, r));
            let Some(step) = step.filter(|s| !s.answers.is_empty()) else {
                return Vec::new();
            };
            let word = step.answers[n % step.answers.len()];
            step.events(word, None).unwrap_or_default()
        }
        Act::Answer(test, result) => {
            Work::parse(test).map_or_else(|| vec![answer(test, result)], setup::work_done)
        }
        Act::Suggested(n) => {
            let analysis = advice::analyse(timeline, tearbench::range::Today::now());
            let stage = Stage::ALL[n % Stage::ALL.len()];
            let found = proof::assess(timeline, &analysis, stage);
            let back = found
                .put_back
                .as_ref()
                .map_or_else(Vec::new, tearbench::restore::PutBack::moves);
            moved(found.suggestion().map_or(back, |s| vec![s.step()]))
        }
        Act::Before(item, value) => setup::record(timeline, *item, value).into_iter().collect(),
        Act::Card(key, value) => vec![Event::card(
            [((*key).to_owned(), (*value).to_owned())].into(),
        )],
        Act::PutBack => moved(restore::to_the_start(timeline).moves()),
        Act::Undo => timeline
            .can_undo
            .map(|target| Event::Undo { target })
            .into_iter()
            .collect(),
        Act::Incident(what) => vec![Event::Incident {
            what: (*what).into(),
        }],
        Act::Pair { .. } | Act::Line { .. } | Act::Spot { .. } => groups(act),
    }
}

fn answer(test: &str, result: &str) -> Event {
    Event::Answer {
        test: test.into(),
        result: result.into(),
        detail: None,
    }
}

fn moved(steps: Vec<Step>) -> Vec<Event> {
    if steps.is_empty() {
        return Vec::new();
    }
    vec![Event::Move {
        steps,
        said: None,
        confirms: None,
    }]
}

fn adjuster_moved(card: &Card, k: usize, n: i32) -> Vec<Event> {
    let Some(a) = card.adjusters.get(k % card.adjusters.len().max(1)) else {
        return Vec::new();
    };
    moved(vec![Step {
        adjuster: a.kind,
        amount: f64::from(n) * a.step,
    }])
}

/// The tear as it is read: whole millimetres.
fn shot(bow: &Bow, now: &Positions, noise: [f64; 2], how: How) -> Event {
    let at = |kind| now.get(kind);
    let side = at(AdjusterKind::RestSideways) + at(AdjusterKind::CentreShot);
    let height = at(AdjusterKind::RestHeight) - at(AdjusterKind::NockingPoint);
    let right = bow.start[0]
        + bow.rest[0] * side
        + bow.plunger * at(AdjusterKind::PlungerTension)
        + noise[0];
    let up = bow.start[1] + bow.rest[1] * height + noise[1];
    Event::Shot(Shot {
        right: right.clamp(-150.0, 150.0).round(),
        up: up.clamp(-150.0, 150.0).round(),
        ragged: how == How::Ragged,
        called_bad: how == How::CalledBad,
        bare: how == How::Bare,
        by: if how == How::Technician {
            Shooter::Technician
        } else {
            Shooter::Owner
        },
        arrow: match how {
            How::Arrow(n) => Some(n.to_string()),
            _ => None,
        },
        ..Shot::default()
    })
}

/// Three arrows about a centre, none of them mirrored into another.
fn hits(centre: [f64; 2], scatter: f64) -> Vec<Impact> {
    [(0.9, 0.1), (-0.6, 0.8), (-0.2, -1.1)]
        .iter()
        .map(|(x, y)| Impact {
            right: centre[0] + scatter * x,
            up: centre[1] + scatter * y,
        })
        .collect()
}

fn group(stage: &str, what: &str, metres: f64, impacts: Vec<Impact>) -> Event {
    Event::Group {
        proof: stage.into(),
        what: what.into(),
        distance: format!("{metres} m"),
        impacts,
    }
}

fn groups(act: &Act) -> Vec<Event> {
    match act {
        Act::Pair {
            stage,
            off,
            scatter,
            metres,
        } => {
            let whats = Stage::parse(stage).unwrap().whats();
            vec![
                group(stage, whats[0].id(), *metres, hits([0.0, 0.0], *scatter)),
                group(stage, whats[1].id(), *metres, hits(*off, *scatter)),
            ]
        }
        Act::Line {
            stage,
            lean,
            bow,
            scatter,
            distances,
        } => {
            let at: &[f64] = if *stage == "walk-back" {
                &[18.0, 27.0, 32.0, 36.0]
            } else {
                &[3.0, 30.0]
            };
            at.iter()
                .take(*distances)
                .map(|m| {
                    let way = (m - 18.0) / 9.0;
                    let right = lean * (m - at[0]) + bow * (1.0 - (way - 1.0).powi(2));
                    group(stage, "fletched", *m, hits([right, -10.0 * way], *scatter))
                })
                .collect()
        }
        Act::Spot {
            stage,
            off,
            scatter,
        } => {
            vec![group(stage, "fletched", 18.0, hits(*off, *scatter))]
        }
        _ => Vec::new(),
    }
}

/// Draws so many cases, always the same ones, and gives each that differs.
pub fn differing(cases: usize) -> Vec<(Case, String)> {
    use proptest::strategy::{Strategy, ValueTree};
    let mut runner = proptest::test_runner::TestRunner::deterministic();
    let strategy = case::case();
    (0..cases)
        .filter_map(|_| {
            let case = strategy.new_tree(&mut runner).ok()?.current();
            let difference = compare(&case).err()?;
            Some((case, difference))
        })
        .collect()
}
