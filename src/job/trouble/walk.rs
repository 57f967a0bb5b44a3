//! Walking a path by the answers recorded so far.

use super::node::{Node, Path, Then};
use super::nodes::nodes;
use super::says::{End, Fix, Resumed, Says};
use super::{Ask, PathStep, incident, paths};
use crate::checks;
use crate::question::{Answer, Fixed, Question, Refusal, Said};
use crate::session::{AnswerAt, Timeline};

/// The next step of the path for this reason; `None` once the path was walked
/// to its end and the shots it asked for are awaited.
pub fn next_step(timeline: &Timeline, reason: Refusal) -> Option<PathStep> {
    if reason == Refusal::Incident {
        return incident::next(timeline);
    }
    if checks::resumed(timeline, reason) {
        return None;
    }
    let path = path(timeline, reason);
    let since = began(timeline, reason);
    for node in path.nodes.iter().filter(|node| !node.done) {
        let (id, place) = (node.step.id, node.step.place);
        let answer = answer_to(timeline, id, since);
        let led = answer.and_then(|answer| Some((answer, node.leads(&answer.result)?)));
        let Some((answer, (word, then))) = led else {
            return Some(node.step.clone());
        };
        match (then, id) {
            (Then::Next, _) => {}
            (Then::Resume, Question::Test(test)) => {
                return Some(resume(Resumed::Answered(test, word), place, reason));
            }
            (Then::Resume, _) => return Some(resume(Resumed::Fixed, place, reason)),
            (Then::Fix, _) => {
                let what = fix_of(node, word);
                return Some(fix(timeline, id, what, answer, place, reason));
            }
        }
    }
    let total = path.nodes.len();
    Some(match path.end? {
        End::Resume(why) => resume(why, (total, total), reason),
        end => fix_at_end(timeline, Fix::End(end), since, (total, total), reason),
    })
}

/// What a bad answer to a node asks to be fixed.
fn fix_of(node: &Node, word: Answer) -> Fix {
    let offer = node.step.offers.iter().find(|o| o.id == word);
    match (offer, node.step.id) {
        (Some(offer), _) => Fix::Offered(Box::new(offer.clone())),
        (None, Question::Test(test)) => Fix::Answered(test, word),
        (None, _) => Fix::Part,
    }
}

pub(super) fn path(timeline: &Timeline, reason: Refusal) -> Path {
    if reason == Refusal::Incident {
        return incident::path(timeline);
    }
    Path::of(nodes(timeline, reason), paths::end(timeline, reason))
}

/// Every test that is answered in a word, with its words: the steps after
/// every refusal of this bow, in their order.
pub(crate) fn known_answers(timeline: &Timeline) -> Vec<(Question, Vec<Answer>)> {
    let mut known: Vec<(Question, Vec<Answer>)> = Vec::new();
    let reasons = Refusal::ALL.into_iter().filter(|r| *r != Refusal::Incident);
    for node in reasons.flat_map(|reason| path(timeline, reason).nodes) {
        let step = node.step;
        if step.answers.is_empty() {
            continue;
        }
        let at = known.iter().position(|(id, _)| *id == step.id);
        let at = at.unwrap_or_else(|| {
            known.push((step.id, Vec::new()));
            known.len() - 1
        });
        for word in step.answers {
            if !known[at].1.contains(&word) {
                known[at].1.push(word);
            }
        }
    }
    known
}

#[cfg(test)]
/// Every step that a path may ask for on this bow, in order.
pub(crate) fn all_steps(timeline: &Timeline, reason: Refusal) -> Vec<PathStep> {
    let nodes = path(timeline, reason).nodes.into_iter();
    nodes.map(|node| node.step).collect()
}

/// The entry after which answers count: the last time this path was resumed.
fn began(timeline: &Timeline, reason: Refusal) -> u32 {
    let ends =
        |result: &Said<Answer>| matches!(result.known(), Some(Answer::Resume | Answer::Again));
    timeline
        .answers
        .iter()
        .rev()
        .find(|a| a.test == Question::Path(reason) && ends(&a.result))
        .map_or(0, |a| a.entry)
}

fn answer_to(timeline: &Timeline, id: Question, since: u32) -> Option<&AnswerAt> {
    timeline
        .answers
        .iter()
        .rev()
        .find(|a| a.test == id && a.entry > since && a.arrow_epoch == timeline.arrow_epoch)
}

/// An end of a path, with the one word that goes on from it.
pub(super) fn end(
    id: Question,
    says: Says,
    word: Answer,
    place: (usize, usize),
    reason: Refusal,
) -> PathStep {
    let ask = match says {
        Says::Resume(_) => Ask::Resume,
        _ => Ask::FixFirst,
    };
    PathStep {
        answers: vec![word],
        place,
        ..PathStep::new(reason, id, ask, says)
    }
}

fn resume(why: Resumed, place: (usize, usize), reason: Refusal) -> PathStep {
    let says = Says::Resume(why);
    end(Question::Path(reason), says, Answer::Resume, place, reason)
}

/// What only the card lifts: the path can be walked again, never resumed.
fn on_the_card(what: Fix, place: (usize, usize), reason: Refusal) -> PathStep {
    let says = Says::Fix {
        what,
        by_card: true,
    };
    end(Question::Path(reason), says, Answer::Again, place, reason)
}

/// Fix this first; once that is answered done, resume.
fn fix(
    timeline: &Timeline,
    id: Question,
    what: Fix,
    answer: &AnswerAt,
    place: (usize, usize),
    reason: Refusal,
) -> PathStep {
    let fixed = match id {
        Question::Part(part) => Fixed::Part(part),
        Question::Test(test) => Fixed::Test(test),
        _ => Fixed::End(reason),
    };
    fix_first(timeline, fixed, what, answer.entry, place, reason)
}

fn fix_at_end(
    timeline: &Timeline,
    what: Fix,
    since: u32,
    place: (usize, usize),
    reason: Refusal,
) -> PathStep {
    fix_first(timeline, Fixed::End(reason), what, since, place, reason)
}

fn fix_first(
    timeline: &Timeline,
    fixed: Fixed,
    what: Fix,
    since: u32,
    place: (usize, usize),
    reason: Refusal,
) -> PathStep {
    if reason.of_the_card() {
        return on_the_card(what, place, reason);
    }
    let fixed = Question::Fixed(fixed);
    if answer_to(timeline, fixed, since).is_some() {
        return resume(Resumed::Fixed, place, reason);
    }
    let says = Says::Fix {
        what,
        by_card: false,
    };
    end(fixed, says, Answer::Done, place, reason)
}

#[cfg(test)]
mod tests {
    use super::super::Ask;
    use super::*;
    use crate::gear::{AdjusterKind, Step as MoveStep};
    use crate::question::Test;
    use crate::session::Event;
    use crate::setup::tests::{COMPOUND, RECURVE, timeline};

    fn answer(test: &str, result: &str) -> Event {
        Event::answer(test, result)
    }

    /// Answers every step with its first, harmless answer until an end.
    fn walk_harmless(
        card: &str,
        mut events: Vec<Event>,
        reason: Refusal,
    ) -> (PathStep, Vec<Event>) {
        for _ in 0..40 {
            let Some(step) = next_step(&timeline(card, events.clone()), reason) else {
                panic!("{reason:?} has no end");
            };
            if matches!(step.ask, Ask::Resume | Ask::FixFirst) {
                return (step, events);
            }
            let word = step.answers[0];
            events.extend(step.events(word, None).unwrap());
        }
        panic!("{reason:?} does not end");
    }

    #[test]
    fn every_path_ends_in_resume_or_fix_this_first() {
        let paths = |r: &Refusal| *r != Refusal::Incident;
        for reason in Refusal::ALL.into_iter().filter(paths) {
            for card in [COMPOUND, RECURVE] {
                let (step, events) = walk_harmless(card, vec![], reason);
                // A fix that is done resumes.
                if step.ask == Ask::FixFirst && reason.of_the_card() {
                    assert_eq!(step.answers[0], Answer::Again);
                } else if step.ask == Ask::FixFirst {
                    let mut more = events;
                    more.extend(step.events("done", None).unwrap());
                    let after = timeline(card, more);
                    assert_eq!(next_step(&after, reason), None, "{reason:?}");
                    assert!(checks::resumed(&after, reason), "{reason:?}");
                }
            }
        }
    }

    #[test]
    fn every_bad_answer_says_what_to_fix_or_goes_on() {
        for reason in Refusal::ALL {
            let t = timeline(COMPOUND, vec![]);
            let path = path(&t, reason);
            for node in &path.nodes {
                let step = &node.step;
                assert!(!step.answers.is_empty(), "{}", step.id);
                assert_eq!(step.answers.len(), node.then.len());
                assert!(
                    node.then[0] != Then::Fix || step.ask == Ask::Action,
                    "{}: the harmless answer comes first",
                    step.id
                );
            }
        }
    }

    #[test]
    fn a_far_rest_is_put_back_with_the_exact_moves_before_anything_else() {
        let far = Event::Move {
            steps: vec![MoveStep {
                adjuster: AdjusterKind::RestSideways,
                amount: -6.0,
            }],
            said: None,
            confirms: None,
        };
        let t = timeline(COMPOUND, vec![far.clone()]);
        for reason in [Refusal::TravelLimit, Refusal::NoResponse] {
            let step = next_step(&t, reason).unwrap();
            assert_eq!(step.id, Test::PutBack.into());
            assert_eq!(
                crate::words::put_back_command(step.put_back.as_ref().unwrap()),
                "rest right 6 mm"
            );
            let mut events = vec![far.clone()];
            events.extend(step.events("done", None).unwrap());
            let after = timeline(COMPOUND, events);
            assert_eq!(after.now.get(AdjusterKind::RestSideways), 0.0);
            assert_ne!(next_step(&after, reason).unwrap().id, Test::PutBack.into());
        }
    }

    #[test]
    fn an_incident_ends_when_every_part_was_answered_one_step_at_a_time() {
        for (card, parts) in [(COMPOUND, 8), (RECURVE, 7)] {
            let mut events = vec![Event::Incident {
                what: "dry fire".into(),
            }];
            for at in 1..=parts {
                let t = timeline(card, events.clone());
                assert!(t.open_incident().is_some());
                let step = next_step(&t, Refusal::Incident).unwrap();
                assert_eq!(step.place, (at, parts));
                events.extend(step.events("sound", None).unwrap());
            }
            let t = timeline(card, events);
            assert!(t.open_incident().is_none());
            assert_eq!(next_step(&t, Refusal::Incident), None);
        }
    }

    #[test]
    fn an_answer_that_was_not_asked_for_is_refused_with_the_right_ones() {
        let t = timeline(COMPOUND, vec![]);
        let step = next_step(&t, Refusal::Scatter).unwrap();
        let refused = step.events("perhaps", None).unwrap_err();
        assert_eq!(refused.said.word(), "perhaps");
        assert_eq!(refused.answers, step.answers);
    }

    #[test]
    fn a_powder_test_already_answered_is_not_asked_again() {
        let t = timeline(COMPOUND, vec![answer("contact", "none")]);
        let mut events = vec![answer("contact", "none")];
        let mut asked = Vec::new();
        for _ in 0..20 {
            let step = next_step(&timeline(COMPOUND, events.clone()), Refusal::Jumps).unwrap();
            if matches!(step.ask, Ask::Resume | Ask::FixFirst) {
                break;
            }
            asked.push(step.id);
            events.extend(step.events(step.answers[0], None).unwrap());
        }
        assert!(!asked.contains(&Test::Contact.into()), "{asked:?}");
        assert!(next_step(&t, Refusal::Contact).unwrap().ask == Ask::Resume);
    }

    #[test]
    fn after_resuming_the_path_waits_for_shots_and_then_begins_again() {
        let (step, mut events) = walk_harmless(COMPOUND, vec![], Refusal::Jumps);
        assert_eq!(step.ask, Ask::Resume);
        events.extend(step.events("resume", None).unwrap());
        assert_eq!(
            next_step(&timeline(COMPOUND, events.clone()), Refusal::Jumps),
            None
        );
        let shot = || Event::Shot(crate::session::Shot::default());
        events.extend([shot(), shot(), shot()]);
        let again = next_step(&timeline(COMPOUND, events), Refusal::Jumps).unwrap();
        assert_eq!(again.place.0, 1, "{again:?}");
    }

    #[test]
    fn resuming_lets_the_advice_ask_for_shots_instead_of_refusing() {
        let text = include_str!("../../../sample-sessions/rest-does-nothing.toml");
        let mut session = crate::session::Session::from_text(text).unwrap();
        let advise = |s: &crate::session::Session| {
            crate::advice::analyse(s.timeline(), crate::range::Today::now())
        };
        let reason = Refusal::of(&advise(&session)).expect("it refuses");
        for _ in 0..30 {
            let Some(step) = next_step(session.timeline(), reason) else {
                break;
            };
            let word = step.answers[0];
            for event in step.events(word, None).unwrap() {
                session.record(event).unwrap();
            }
        }
        let after = advise(&session);
        assert_eq!(Refusal::of(&after), None, "{:?}", after.advice.headline);
        assert_ne!(after.advice.verdict, crate::advice::Verdict::Done);
    }

    #[test]
    fn a_bow_weighed_as_the_card_says_is_put_on_the_card() {
        let step = next_step(&timeline(COMPOUND, vec![]), Refusal::SpineWeak).unwrap();
        assert_eq!(step.id, Test::WeighBow.into());
        let after = timeline(COMPOUND, step.events("as-card", None).unwrap());
        assert!(after.card.bow.weighed);
        assert_eq!(
            next_step(&after, Refusal::SpineWeak).unwrap().id,
            Test::ArrowAsCard.into()
        );
    }
}
