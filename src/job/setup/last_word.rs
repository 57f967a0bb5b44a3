//! The last word on an item. What the list says of it and what is said of it
//! under its other name, as a test or a stage of proof, are one fact: the
//! later word counts, wherever it is shown.

use crate::question::{Answer, Contact, Question, Said, SetupItem, Test};
use crate::session::{AnswerAt, Timeline};

/// What was said last of an item.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct LastWord {
    /// The entry that says so.
    pub entry: u32,
    /// What was measured or seen.
    pub(crate) value: Option<String>,
    /// Whether it stands on the list itself.
    pub(crate) listed: bool,
    /// In order, off or skipped.
    pub(crate) result: Answer,
    /// The arrows it was said with.
    pub arrow_epoch: u32,
}

/// The last word on an item of this bow's list, if anything was said of it.
pub(super) fn last_word(timeline: &Timeline, item: SetupItem) -> Option<LastWord> {
    let on_the_list = timeline.setup.iter().rev().filter(|s| s.item == item);
    let mut on_the_list = on_the_list.map(|s| LastWord {
        entry: s.entry,
        value: s.value.clone(),
        listed: true,
        result: match s.result.known() {
            Some(result @ (Answer::Ok | Answer::Skipped)) => result,
            _ => Answer::Off,
        },
        arrow_epoch: s.arrow_epoch,
    });
    let mut elsewhere = timeline.answers.iter().rev();
    let elsewhere = elsewhere.find_map(|a| answered(a, item));
    let listed = on_the_list.next();
    let skipped = listed.as_ref().is_some_and(|l| l.result == Answer::Skipped);
    match (listed, elsewhere) {
        // What touches the arrow is not got rid of by leaving the item out.
        (Some(_), Some(other)) if skipped && other.result == Answer::Off => Some(other),
        (Some(listed), Some(other)) if listed.entry < other.entry => Some(other),
        (Some(listed), _) => Some(listed),
        (None, other) => other,
    }
}

/// What an answer says of an item, where it is the same fact.
fn answered(answer: &AnswerAt, item: SetupItem) -> Option<LastWord> {
    let question = answer.test.known().filter(|q| q.item() == Some(item))?;
    let in_order = |ok: bool| if ok { Answer::Ok } else { Answer::Off };
    let (result, value) = match question {
        Question::Stage(_) => (Answer::Skipped, None),
        Question::Test(Test::Contact) => match Contact::of(&answer.result) {
            Contact::NotLooked => return None,
            found => (in_order(found == Contact::None), Some(answer.result.word())),
        },
        _ => (in_order(answer.result == Answer::Ok), None),
    };
    (result != Answer::Skipped || answer.result == Answer::Skipped).then_some(LastWord {
        entry: answer.entry,
        value,
        listed: false,
        result,
        arrow_epoch: answer.arrow_epoch,
    })
}

/// The contact that the last word on clearance leaves to be cured, with the
/// arrows now on the card: as the powder test was answered, or something else
/// where the list says that it is off.
pub(crate) fn contact_found(timeline: &Timeline) -> Option<Said<Answer>> {
    let last = last_word(timeline, SetupItem::Clearance)?;
    if last.result != Answer::Off || last.arrow_epoch != timeline.arrow_epoch {
        return None;
    }
    let said = match last.value.filter(|_| !last.listed) {
        Some(word) => Said::from(word.as_str()),
        None => Answer::Other.into(),
    };
    Contact::of(&said).must_be_cured().then_some(said)
}

/// Whether an answer stands on the list before paper, so that it is not said
/// a second time among the tests: levels always, others where the list has
/// the later word.
pub(crate) fn stands_on_the_list(timeline: &Timeline, answer: &AnswerAt) -> bool {
    let item = answer.test.known().and_then(Question::item);
    item.is_some_and(|item| {
        let last = last_word(timeline, item);
        item == SetupItem::Levels || last.is_some_and(|l| l.listed && l.entry > answer.entry)
    })
}

#[cfg(test)]
mod tests {
    use super::super::tests::{COMPOUND, timeline};
    use super::super::{by_word, checklist, skip};
    use super::*;
    use crate::advice;
    use crate::proof::{self, Stage};
    use crate::range::Today;
    use crate::session::Event;
    use crate::step::{Since, State};

    fn answer(test: &str, result: &str) -> Event {
        Event::answer(test, result)
    }

    fn listed(item: &str, ok: bool) -> Event {
        by_word(&timeline(COMPOUND, vec![]), item, ok).unwrap()
    }

    fn left_out(item: &str) -> Event {
        skip(&timeline(COMPOUND, vec![]), item).unwrap()
    }

    /// How levels stand on the list and in proof.
    fn levels(events: Vec<Event>) -> (State, State) {
        let t = timeline(COMPOUND, events);
        let list = checklist(&t).into_iter();
        let state = list
            .filter(|s| s.item.id == SetupItem::Levels)
            .map(|s| s.state)
            .next()
            .unwrap();
        let analysis = advice::analyse(&t, Today::now());
        let stage = proof::assess(&t, &analysis, Stage::Levels);
        (state, stage.status)
    }

    #[test]
    fn the_later_word_on_levels_counts_on_the_list_and_in_proof() {
        let proved = |word: &str| answer("levels", word);
        let left = || proof::skip(Stage::Levels);
        let (ok, off, skipped) = (State::Ok, State::Off, State::Skipped);
        for (events, stands) in [
            (vec![], State::Open),
            (vec![proved("ok")], ok),
            (vec![proved("ok"), listed("levels", false)], off),
            (vec![listed("levels", false), proved("ok")], ok),
            (vec![listed("levels", true), proved("off")], off),
            (vec![proved("off"), listed("levels", true)], ok),
            (vec![proved("ok"), left_out("levels")], skipped),
            (vec![listed("levels", true), left()], skipped),
            (vec![left(), listed("levels", true)], ok),
            (vec![left_out("levels"), proved("off")], off),
        ] {
            assert_eq!(levels(events.clone()), (stands, stands), "{events:?}");
        }
    }

    #[test]
    fn press_work_makes_levels_due_again_wherever_they_were_answered() {
        for said in [answer("levels", "ok"), listed("levels", true)] {
            let (state, stage) = levels(vec![said, answer("press-work", "done")]);
            assert_eq!(state, State::Again(Since::Press));
            assert_eq!(stage, State::Open);
        }
    }

    #[test]
    fn the_later_word_on_clearance_counts_on_the_list_and_in_the_advice() {
        let said = |events: Vec<Event>| {
            let t = timeline(COMPOUND, events);
            let list = checklist(&t).into_iter();
            let state = list
                .filter(|s| s.item.id == SetupItem::Clearance)
                .map(|s| s.state)
                .next()
                .unwrap();
            (state, contact_found(&t).map(|c| c.word()))
        };
        let powder = |word: &str| answer("contact", word);
        let other = Some("other".to_owned());
        for (events, state, found) in [
            (vec![powder("none")], State::Ok, None),
            (vec![powder("cable")], State::Off, Some("cable".into())),
            (
                vec![powder("cable"), listed("clearance", true)],
                State::Ok,
                None,
            ),
            (
                vec![powder("none"), listed("clearance", false)],
                State::Off,
                other,
            ),
            (
                vec![listed("clearance", false), powder("none")],
                State::Ok,
                None,
            ),
            // Nobody looked: what was said before stands.
            (
                vec![listed("clearance", true), powder("not-looked")],
                State::Ok,
                None,
            ),
            // Leaving it out gets rid of nothing.
            (
                vec![powder("rest"), left_out("clearance")],
                State::Off,
                Some("rest".into()),
            ),
            // A slap alone is no contact to be cured.
            (vec![powder("button")], State::Off, None),
        ] {
            assert_eq!(said(events.clone()), (state, found), "{events:?}");
        }
    }
}
