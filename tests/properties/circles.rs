//! The advice never goes in circles, followed or not: after a move comes a
//! shot, the archer is judged before the rest is moved, and what nobody knows
//! yet is a test that stays near the set-up.

use proptest::prelude::*;
use tearbench::advice::{Advice, MoveAdvice, MovePurpose, Verdict, advise};
use tearbench::checks::Status;
use tearbench::gear::AdjusterUnit;
use tearbench::gear::{CardText, Step};
use tearbench::range::Today;
use tearbench::session::{Event, Session, Shot};

use crate::fixtures::{COMPOUND, RECURVE};

/// A bow that answers along straight lines, and an archer who scatters.
#[derive(Debug, Clone)]
struct Bow {
    fingers: bool,
    left_handed: bool,
    /// mm of tear for a millimetre up, right, and a turn of the spring.
    gain: [f64; 3],
    start: [f64; 2],
    scatter: f64,
    seed: u64,
    /// One verdict in so many the user does something else than advised.
    wilful: u32,
}

fn bow() -> impl Strategy<Value = Bow> {
    (
        any::<[bool; 2]>(),
        (-4.0..4.0, -12.0..12.0, -12.0..12.0),
        (-45.0..45.0, -25.0..25.0),
        0.5..9.0,
        any::<u64>(),
        prop_oneof![Just(u32::MAX), Just(4)],
    )
        .prop_map(|(sides, gain, start, scatter, seed, wilful)| Bow {
            fingers: sides[0],
            left_handed: sides[1],
            gain: [gain.0, gain.1, gain.2],
            start: [start.0, start.1],
            scatter,
            seed,
            wilful,
        })
}

/// A generator of its own (a 64-bit linear congruence, Knuth's constants).
struct Dice(u64);

impl Dice {
    fn next(&mut self) -> f64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) as f64 / f64::from(1u32 << 31)
    }

    /// Near enough to normal: twelve uniform numbers.
    fn normal(&mut self) -> f64 {
        (0..12).map(|_| self.next()).sum::<f64>() - 6.0
    }
}

impl Bow {
    fn session(&self) -> Session {
        let text = if self.fingers { RECURVE } else { COMPOUND };
        let mut card = CardText::from_toml(text).unwrap();
        let hand = if self.left_handed { "left" } else { "right" };
        card.set("bow.hand", hand).unwrap();
        Session::from_text(&card.to_toml()).unwrap()
    }

    fn shot(&self, session: &Session, dice: &mut Dice) -> Event {
        use tearbench::gear::AdjusterKind::{
            CentreShot, NockingPoint, PlungerTension, RestHeight, RestSideways,
        };
        let now = &session.timeline().now;
        let at = |kind| now.get(kind);
        let side = at(RestSideways) + at(CentreShot);
        let mean = [
            self.start[0] + self.gain[1] * side + self.gain[2] * at(PlungerTension),
            self.start[1] + self.gain[0] * (at(RestHeight) - at(NockingPoint)),
        ];
        let [right, up] = mean.map(|m| (m + self.scatter * dice.normal()).round());
        Event::Shot(Shot {
            right,
            up,
            ..Shot::default()
        })
    }
}

fn steps(movement: &MoveAdvice) -> Vec<Step> {
    movement.moves()
}

fn made(steps: Vec<Step>) -> Event {
    Event::Move {
        steps,
        said: None,
        confirms: None,
    }
}

/// What must hold of a move that is advised.
fn holds(session: &Session, advice: &Advice, movement: &MoveAdvice) -> Result<(), TestCaseError> {
    let timeline = session.timeline();
    let seen = format!("{:?} {:?}", advice.headline, advice.findings);
    prop_assert_ne!(
        advice.checks.consistency.status(),
        Status::Pending,
        "moved before the archer was judged: {}",
        seen
    );
    let twice = timeline.shots.iter().any(|s| {
        timeline
            .shots
            .iter()
            .filter(|o| o.setting == s.setting)
            .count()
            > 1
    });
    prop_assert!(twice, "no setting was shot twice: {}", seen);
    let test = movement.purpose == MovePurpose::Test;
    prop_assert_eq!(tearbench::words::title(advice) == "TEST MOVE", test);
    for step in &movement.steps {
        let known = advice.estimate.gain[&step.adjuster()].probability_negative;
        let unsure = known.min(1.0 - known) > 0.1;
        prop_assert!(
            test || !unsure,
            "a correction to a side nobody knows: {}",
            seen
        );
        let before = timeline
            .moves
            .iter()
            .any(|m| m.steps.iter().any(|s| s.adjuster == step.adjuster()));
        let most = if step.adjuster().unit() == AdjusterUnit::Mm {
            4.0
        } else {
            0.25
        };
        prop_assert!(
            before || (test && step.amount().abs() <= most + 1e-9),
            "the first move of the {}: {}",
            step.adjuster().id(),
            seen
        );
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn after_a_move_comes_a_shot_and_a_run_ends(bow in bow()) {
        let mut session = bow.session();
        let mut dice = Dice(bow.seed);
        let mut just_moved = false;
        let (mut shots, mut verdicts) = (0, 0);
        while shots < 40 {
            verdicts += 1;
            prop_assert!(verdicts < 140, "{verdicts} verdicts after {shots} shots");
            let advice = advise(session.timeline(), Today::now());
            prop_assert!(
                !(just_moved && advice.verdict == Verdict::Move),
                "a move after a move: {:?}", advice.headline
            );
            if let Some(movement) = &advice.movement {
                holds(&session, &advice, movement)?;
            }
            let wilful = dice.next() < 1.0 / f64::from(bow.wilful);
            let event = match (&advice.movement, advice.verdict) {
                (Some(movement), _) if wilful => {
                    // The other way, half as far.
                    let mut steps = steps(movement);
                    steps.iter_mut().for_each(|s| s.amount *= -0.5);
                    made(steps)
                }
                (Some(movement), _) => made(steps(movement)),
                (_, Verdict::Probe) => {
                    let probe = advice.probe.as_ref().unwrap();
                    let kind = serde_json::to_value(probe.kind).unwrap();
                    Event::Answer {
                        test: kind.as_str().unwrap().into(),
                        result: probe.answers[0].into(),
                        detail: None,
                    }
                }
                (_, Verdict::Shoot) => bow.shot(&session, &mut dice),
                _ => break,
            };
            just_moved = matches!(event, Event::Move { .. });
            shots += usize::from(matches!(event, Event::Shot(_)));
            session.record(event).unwrap();
        }
    }
}
