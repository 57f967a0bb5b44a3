//! The program's own advice, followed to the letter on a practice bow.

use super::{Conclusion, Job, Practice, Seen};
use crate::advice::{Advice, MoveAdvice, ProbeKind, Verdict, advise};
use crate::question::{Answer, Question, Test};
use crate::range::Today;
use crate::session::{Event, Session, Shot};
use crate::units::trim_number;

/// Shots after which it is given up, as on the judging bench.
pub(crate) const MOST_SHOTS: u32 = 40;
/// Verdicts after which it is given up, should none of them be a shot.
const MOST_VERDICTS: usize = 200;

/// How it went.
#[derive(Debug, Clone, PartialEq)]
pub struct Played {
    /// What the advice came to; giving up where it came to nothing.
    pub end: Conclusion,
    /// Whether that was right.
    pub right: bool,
    /// Arrows shot on the way.
    pub shots: u32,
    /// Moves made on the way.
    pub moves: usize,
    /// The story, event by event.
    pub story: Vec<Told>,
}

/// One event of the story.
#[derive(Debug, Clone, PartialEq)]
pub enum Told {
    /// A shot, with its number on this bow.
    Shot(u32, Shot),
    /// Advice, and what was done with it.
    Advised(Asked, Box<Advice>),
    /// A test answered in a word.
    Answered(Test, Answer),
    /// What was seen or done at the bench.
    Bench(Seen),
    /// How it ended.
    Ends(Conclusion),
}

/// What was done with a piece of advice.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Asked {
    /// Its move was made.
    Move,
    /// Its test was done.
    Test,
    /// It ends the tuning, or leaves the rest alone.
    Verdict,
}

/// Follows the advice until it says done or leaves the rest alone for good.
///
/// A refusal is first met with the test it asks for itself: a scale before
/// an arrow is blamed, powder before the archer is.
pub fn play(practice: &mut Practice, session: &mut Session) -> Played {
    let (shots, moves) = (practice.fired(), session.timeline().moves.len());
    let mut story = Vec::new();
    let mut end = Conclusion::GaveUp;
    for _ in 0..MOST_VERDICTS {
        if practice.fired() - shots >= MOST_SHOTS {
            break;
        }
        let advice = advise(session.timeline(), Today::now());
        if let Some(found) = step(practice, session, &advice, &mut story) {
            end = found;
            break;
        }
    }
    story.push(Told::Ends(end));
    Played {
        end,
        right: practice.is_right(end, session.timeline()),
        shots: practice.fired() - shots,
        moves: session.timeline().moves.len() - moves,
        story,
    }
}

/// Does what one advice says; the conclusion, if it is one.
fn step(
    practice: &mut Practice,
    session: &mut Session,
    advice: &Advice,
    story: &mut Vec<Told>,
) -> Option<Conclusion> {
    match advice.verdict {
        Verdict::Shoot => shoot(practice, session, Shot::default(), story),
        Verdict::Move => make_move(session, advice, story),
        Verdict::Probe => probe(practice, session, advice, story),
        Verdict::Done => {
            story.push(advised(Asked::Verdict, advice));
            return Some(Conclusion::Tuned);
        }
        Verdict::Refuse | Verdict::Stop => return refused(practice, session, advice, story),
    }
    None
}

fn advised(asked: Asked, advice: &Advice) -> Told {
    Told::Advised(asked, Box::new(advice.clone()))
}

fn record(session: &mut Session, event: Event) {
    // A session in memory refuses only entries that cannot apply; these do.
    session.record(event).expect("an entry that applies");
}

fn shoot(practice: &mut Practice, session: &mut Session, asked: Shot, story: &mut Vec<Told>) {
    let shot = practice.shoot_as(session.timeline(), asked);
    story.push(Told::Shot(practice.fired(), shot.clone()));
    record(session, Event::Shot(shot));
}

fn make_move(session: &mut Session, advice: &Advice, story: &mut Vec<Told>) {
    story.push(advised(Asked::Move, advice));
    let steps = advice.movement.iter().flat_map(MoveAdvice::moves).collect();
    let event = Event::Move {
        steps,
        said: None,
        confirms: None,
    };
    record(session, event);
}

fn probe(practice: &mut Practice, session: &mut Session, advice: &Advice, story: &mut Vec<Told>) {
    let Some(probe) = &advice.probe else { return };
    story.push(advised(Asked::Test, advice));
    match probe.kind {
        ProbeKind::Contact => work(practice, session, Job::Powder, story),
        ProbeKind::Hand | ProbeKind::Arrow if !probe.answers.is_empty() => {
            let Some(test) = probe.kind.test() else {
                return;
            };
            let result = practice
                .answer(test, session.timeline())
                .unwrap_or(probe.answers[0]);
            story.push(Told::Answered(test, result));
            let event = Event::answer(Question::Test(test), result);
            record(session, event);
        }
        _ => {
            for _ in 0..probe.shots.max(1) {
                let asked = Shot {
                    distance: probe.distance_m.map(|m| format!("{} m", trim_number(m, 2))),
                    bare: probe.kind == ProbeKind::BareShaft,
                    ..Shot::default()
                };
                shoot(practice, session, asked, story);
            }
        }
    }
}

fn work(practice: &mut Practice, session: &mut Session, job: Job, story: &mut Vec<Told>) {
    let found = practice.work(job, session.timeline());
    story.push(Told::Bench(found.seen));
    for event in found.events {
        record(session, event);
    }
}

/// The test a refusal asks for itself, once; then the conclusion.
fn refused(
    practice: &mut Practice,
    session: &mut Session,
    advice: &Advice,
    story: &mut Vec<Told>,
) -> Option<Conclusion> {
    story.push(advised(Asked::Verdict, advice));
    let end = advice
        .refusal
        .and_then(Conclusion::of_refusal)
        .unwrap_or(Conclusion::GaveUp);
    match end {
        Conclusion::Arrow if !session.timeline().card.bow.weighed => {
            work(practice, session, Job::Weigh, story);
            None
        }
        Conclusion::Archer if session.timeline().answer(Test::Contact).is_none() => {
            work(practice, session, Job::Powder, story);
            None
        }
        _ => Some(end),
    }
}
