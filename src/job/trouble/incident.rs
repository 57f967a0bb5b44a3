//! The inspection after an incident: every part, one at a time, a slow draw last.

use super::node::{Node, Path};
use super::says::{Asked, Fix, Says};
use super::{Ask, PathStep};
use crate::gear::BowKind;
use crate::question::{Answer, Fixed, InspectPart, Question, Refusal, Said};
use crate::session::{Event, Timeline};
use crate::step::State;

/// What is looked at after a dry fire, a derailed string, a struck or broken
/// arrow, a lost nock or a missed backstop, on this bow, and how each part
/// stands since; the slow draw last.
pub fn inspected(timeline: &Timeline) -> Vec<(InspectPart, State)> {
    let incident = timeline.open_incident();
    let open = incident.map_or_else(Vec::new, |i| timeline.parts_open(i));
    let state = |part: InspectPart| {
        let found = incident.and_then(|i| timeline.part_answer(i, part));
        let damaged = found.filter(|a| a.result == InspectPart::BAD);
        let fixed = Question::Fixed(Fixed::Part(part));
        let put_right = |after| {
            timeline
                .answers
                .iter()
                .any(|a| a.test == fixed && a.entry > after)
        };
        match damaged {
            _ if !open.contains(&part) => State::Ok,
            // Put right, it is looked at again.
            Some(damage) if !put_right(damage.entry) => State::Off,
            _ => State::Open,
        }
    };
    let parts = InspectPart::of(timeline.card.bow.kind);
    parts.map(|part| (part, state(part))).collect()
}

/// Whether an answer about the inspection may be taken as it is typed: a part
/// by its name, the slow draw last, and no one word for all of them.
///
/// # Errors
/// With what is still open, where that is in the way.
pub(crate) fn check_answer(
    timeline: &Timeline,
    test: Question,
    result: &Said<Answer>,
) -> Result<(), PartRefused> {
    let of_part = match test {
        Question::Part(part) => Some(part),
        Question::Inspection => None,
        _ => return Ok(()),
    };
    let (good, bad) = (InspectPart::GOOD, InspectPart::BAD);
    let Some(incident) = timeline.open_incident() else {
        return Err(PartRefused::NoIncident);
    };
    let open = timeline.parts_open(incident);
    let kind = timeline.card.bow.kind;
    let Some(part) = of_part else {
        // Damage may be told in general; that it is in order may not.
        if matches!(
            result.known(),
            Some(Answer::Damage | Answer::Damaged | Answer::Doubt)
        ) {
            return Ok(());
        }
        return Err(PartRefused::OneWord(open));
    };
    if !InspectPart::of(kind).any(|p| p == part) {
        return Err(PartRefused::NoSuchPart(part, kind, open));
    }
    if ![good, bad].iter().any(|word| result == word) {
        return Err(PartRefused::NoAnswer(part, result.clone()));
    }
    if part == InspectPart::Draw && *result == good && open.len() > 1 {
        return Err(PartRefused::DrawnLast(open));
    }
    Ok(())
}

/// Why an answer about the inspection is not taken; said in [`crate::words`].
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum PartRefused {
    /// No incident is open.
    NoIncident,
    /// One word for all parts; these are open.
    OneWord(Vec<InspectPart>),
    /// A bow of this kind has no such part; these are open.
    NoSuchPart(InspectPart, BowKind, Vec<InspectPart>),
    /// The word answers no part.
    NoAnswer(InspectPart, Said<Answer>),
    /// The slow draw comes after all others; these are open.
    DrawnLast(Vec<InspectPart>),
}

/// The step that comes next, or the repair that a damaged part waits for;
/// `None` once every part is answered.
pub(super) fn next(timeline: &Timeline) -> Option<PathStep> {
    let all = inspected(timeline);
    let index = all.iter().position(|(_, state)| *state != State::Ok)?;
    let (part, state) = all[index];
    let (place, reason) = ((index + 1, all.len()), Refusal::Incident);
    if state != State::Off {
        let step = node(part).step;
        return Some(PathStep { place, ..step });
    }
    let says = Says::Fix {
        what: Fix::Part,
        by_card: false,
    };
    let fixed = Question::Fixed(Fixed::Part(part));
    Some(super::walk::end(fixed, says, Answer::Done, place, reason))
}

pub(super) fn path(timeline: &Timeline) -> Path {
    let nodes = InspectPart::of(timeline.card.bow.kind).map(node).collect();
    Path::of(nodes, None)
}

fn node(part: InspectPart) -> Node {
    Node::new(Refusal::Incident, part, Ask::Test, Asked::Part(part))
        .next(InspectPart::GOOD)
        .fix(InspectPart::BAD)
}

/// The entry that records what was found of a part.
pub(crate) fn found(part: InspectPart, result: Answer) -> Event {
    Event::answer(Question::Part(part), result)
}

/// The entry that records that a damaged part was put right.
pub(crate) fn put_right(part: InspectPart) -> Event {
    Event::answer(Question::Fixed(Fixed::Part(part)), Answer::Done)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::setup::tests::{COMPOUND, RECURVE, timeline};

    fn dry_fire() -> Event {
        Event::Incident {
            what: "dry fire".into(),
        }
    }

    #[test]
    fn a_recurve_is_not_asked_about_cams_and_cables() {
        let of = |card| {
            let all = inspected(&timeline(card, vec![dry_fire()]));
            assert!(all.iter().all(|(_, state)| *state == State::Open));
            all.into_iter().map(|(part, _)| part).collect::<Vec<_>>()
        };
        assert_eq!((of(RECURVE).len(), of(COMPOUND).len()), (7, 8));
        assert!(!of(RECURVE).contains(&InspectPart::Cams));
        let t = timeline(RECURVE, vec![dry_fire()]);
        let incident = t.open_incident().unwrap();
        assert_eq!(t.parts_open(incident), of(RECURVE));
    }

    #[test]
    fn a_damaged_part_is_put_right_and_looked_at_again() {
        let mut events = vec![
            dry_fire(),
            found(InspectPart::String, Answer::Sound),
            found(InspectPart::Limbs, Answer::Damaged),
        ];
        let step = next(&timeline(COMPOUND, events.clone())).unwrap();
        assert_eq!(
            (step.ask, step.id.to_string().as_str()),
            (Ask::FixFirst, "inspect-limbs-fixed")
        );
        events.extend(step.events("done", None).unwrap());
        let step = next(&timeline(COMPOUND, events.clone())).unwrap();
        assert_eq!(
            (step.ask, step.id.to_string().as_str()),
            (Ask::Test, "inspect-limbs")
        );
        events.extend(step.events("sound", None).unwrap());
        let t = timeline(COMPOUND, events);
        assert_eq!(next(&t).unwrap().id, InspectPart::Cams.into());
        assert!(t.open_incident().is_some());
    }

    #[test]
    fn no_word_stands_for_the_parts_and_the_slow_draw_comes_last() {
        let check = |t: &Timeline, test: &str, result: &str| {
            check_answer(t, Question::parse(test).unwrap(), &result.into())
        };
        let t = timeline(COMPOUND, vec![dry_fire()]);
        let open = t.parts_open(t.open_incident().unwrap());
        assert_eq!(open[..2], [InspectPart::String, InspectPart::Limbs]);
        for word in ["clear", "passed", "sound", "none", "ok", "done", "fine"] {
            let refused = PartRefused::OneWord(open.clone());
            assert_eq!(check(&t, "inspection", word), Err(refused), "{word}");
        }
        assert!(check(&t, "inspection", "damaged").is_ok());
        assert!(check(&t, "inspect-limbs", "sound").is_ok());
        assert!(check(&t, "inspect-limbs", "damaged").is_ok());
        let fine = PartRefused::NoAnswer(InspectPart::Limbs, "fine".into());
        assert_eq!(check(&t, "inspect-limbs", "fine"), Err(fine));
        let last = PartRefused::DrawnLast(open);
        assert_eq!(check(&t, "inspect-draw", "sound"), Err(last));
        assert!(check(&t, "contact", "none").is_ok());
        let calm = timeline(COMPOUND, vec![]);
        for test in ["inspection", "inspect-limbs"] {
            let none = Err(PartRefused::NoIncident);
            assert_eq!(check(&calm, test, "sound"), none);
        }
        let recurve = timeline(RECURVE, vec![dry_fire()]);
        assert!(matches!(
            check(&recurve, "inspect-cams", "sound"),
            Err(PartRefused::NoSuchPart(
                InspectPart::Cams,
                BowKind::Recurve,
                _
            ))
        ));
    }
}
