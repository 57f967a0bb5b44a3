//! How each item stands by the entries, and what is due again.

use super::item::{Again, Item};
use super::judge::{Judgement, judge};
use super::last_word::last_word;
use crate::gear::AdjusterKind;
use crate::question::{Answer, Question, SetupItem, Work};
use crate::session::{AnswerAt, Event, Timeline};
use crate::step::{Since, State};

/// One item with how it stands.
#[derive(Debug, Clone, PartialEq)]
pub struct ItemState {
    /// The item.
    pub item: Item,
    /// How it stands.
    pub state: State,
    /// What was measured last.
    pub(crate) value: Option<String>,
    /// Why it stands so.
    pub(crate) note: Option<Judgement>,
    /// The entry that says so.
    pub entry: Option<u32>,
}

/// The work on the bow that an answer says was done: `no` says it was not.
fn work_of(answer: &AnswerAt) -> Option<Work> {
    let Some(Question::Work(work)) = answer.test.known() else {
        return None;
    };
    let not_done = matches!(answer.result.known(), Some(Answer::No | Answer::None));
    (!not_done).then_some(work)
}

/// The entry of the last work on the bow that is no move of an adjuster; 0
/// where there was none.
pub(crate) fn bow_changed(timeline: &Timeline) -> u32 {
    let mut latest = timeline.answers.iter().rev();
    latest.find(|a| work_of(a).is_some()).map_or(0, |a| a.entry)
}

/// The entries that record work on the bow that is no move of an adjuster.
/// What it changes is asked again, and the mean tear is unknown again.
pub fn work_done(work: Work) -> Vec<Event> {
    vec![
        Event::answer(Question::Work(work), Answer::Done),
        Event::Restart {
            setting: None,
            why: Some(work.id().replace('-', " ")),
        },
    ]
}

/// What changed the bow last: entries that make items due again.
#[derive(Debug, Clone, Copy, Default)]
struct Changes {
    press: u32,
    limbs: u32,
    rest_height: u32,
}

impl Changes {
    fn of(timeline: &Timeline) -> Self {
        let mut last = Self::default();
        for made in &timeline.moves {
            for step in &made.steps {
                match step.adjuster {
                    kind if timeline.card.needs_press(kind) => last.press = made.place,
                    AdjusterKind::LimbBolts | AdjusterKind::BraceHeight => last.limbs = made.place,
                    AdjusterKind::RestHeight => last.rest_height = made.place,
                    _ => {}
                }
            }
        }
        for answer in &timeline.answers {
            if work_of(answer).is_some_and(Work::in_a_press) {
                last.press = last.press.max(answer.entry);
            }
        }
        last
    }

    fn since(&self, entry: u32, again: Again) -> Option<Since> {
        if again.press && self.press > entry {
            return Some(Since::Press);
        }
        if again.limbs && self.limbs > entry {
            return Some(Since::Limbs);
        }
        (again.rest_height && self.rest_height > entry).then_some(Since::RestHeight)
    }
}

/// The checklist of this bow, with how each item stands.
pub fn checklist(timeline: &Timeline) -> Vec<ItemState> {
    let changes = Changes::of(timeline);
    super::items(&timeline.card)
        .into_iter()
        .map(|item| state_of(timeline, &changes, item))
        .collect()
}

fn state_of(timeline: &Timeline, changes: &Changes, item: Item) -> ItemState {
    let Some(last) = last_word(timeline, item.id) else {
        return ItemState {
            item,
            state: State::Open,
            value: None,
            note: None,
            entry: None,
        };
    };
    let note = last
        .value
        .as_deref()
        .filter(|_| last.listed)
        .and_then(|text| judge(timeline, item.id, text).ok());
    let again = changes.since(last.entry, item.again).or_else(|| {
        (item.again.arrow && last.arrow_epoch != timeline.arrow_epoch).then_some(Since::Arrows)
    });
    let state = match (again, last.result) {
        (Some(why), _) => State::Again(why),
        (None, Answer::Ok) => State::Ok,
        (None, Answer::Skipped) => State::Skipped,
        (None, _) => State::Off,
    };
    ItemState {
        item,
        state,
        value: last.value,
        note,
        entry: Some(last.entry),
    }
}

/// The safety items that are not answered ok.
pub fn safety_open(list: &[ItemState]) -> Vec<SetupItem> {
    let open = |s: &&ItemState| s.item.gate && s.state != State::Ok;
    list.iter().filter(open).map(|s| s.item.id).collect()
}

/// The items that were answered and are due again since something was
/// changed; empty where the list was never begun.
pub(crate) fn due_again(list: &[ItemState]) -> Vec<SetupItem> {
    let again = |s: &&ItemState| matches!(s.state, State::Again(_));
    list.iter().filter(again).map(|s| s.item.id).collect()
}

/// The item to do next: the first that is open or due again.
pub fn next_open(list: &[ItemState]) -> Option<&ItemState> {
    list.iter().find(|s| !s.state.is_answered())
}

/// How far the list is gone through.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Summary {
    /// Items of the list.
    pub(crate) items: usize,
    /// Answered, in order or not.
    pub(crate) done: usize,
    /// Not in order.
    pub(crate) off: usize,
    /// Left out knowingly.
    pub(crate) skipped: usize,
    /// Due again.
    pub(crate) again: usize,
}

/// How far the list is gone through.
pub(crate) fn summary(list: &[ItemState]) -> Summary {
    let n = |state: fn(State) -> bool| list.iter().filter(|s| state(s.state)).count();
    Summary {
        items: list.len(),
        done: n(|s| matches!(s, State::Ok | State::Off)),
        off: n(|s| s == State::Off),
        skipped: n(|s| s == State::Skipped),
        again: n(|s| matches!(s, State::Again(_))),
    }
}

#[cfg(test)]
mod tests {
    use super::super::judge::Judged;
    use super::super::record;
    use super::super::tests::{COMPOUND, timeline};
    use super::*;
    use crate::session::told::moved;

    fn setup(item: &str, value: &str, result: &str) -> Event {
        Event::Setup {
            item: item.into(),
            value: Some(value.into()),
            result: result.into(),
        }
    }

    fn state(events: Vec<Event>, id: &str) -> State {
        checklist(&timeline(COMPOUND, events))
            .into_iter()
            .find(|s| s.item.id.id() == id)
            .unwrap()
            .state
    }

    #[test]
    fn nothing_is_done_at_first_and_the_backstop_is_next() {
        let list = checklist(&timeline(COMPOUND, vec![]));
        assert!(!safety_open(&list).is_empty());
        assert_eq!(next_open(&list).unwrap().item.id, SetupItem::RangeBackstop);
        assert_eq!(summary(&list).done, 0);
    }

    #[test]
    fn press_work_asks_again_for_what_it_changes_and_no_more() {
        let events = || {
            vec![
                setup("axle-to-axle", "33 in", "ok"),
                setup("brace-height", "7 in", "ok"),
                setup("cam-timing", "0 mm", "ok"),
                setup("peep", "140 mm", "ok"),
                setup("nocking-point", "0", "ok"),
                setup("rest-timing", "ok", "ok"),
                setup("draw-length", "29 in", "ok"),
                moved(AdjusterKind::YokeTwist, 0.5),
            ]
        };
        for id in [
            "axle-to-axle",
            "brace-height",
            "cam-timing",
            "peep",
            "nocking-point",
            "rest-timing",
        ] {
            assert_eq!(state(events(), id), State::Again(Since::Press), "{id}");
        }
        assert_eq!(state(events(), "draw-length"), State::Ok);
        let mut redone = events();
        redone.push(setup("peep", "140 mm", "ok"));
        assert_eq!(state(redone, "peep"), State::Ok);
    }

    /// Of the whole list, answered, what is due again after a change.
    fn due_after(card: &str, change: Event) -> Vec<&'static str> {
        let all = crate::setup::items(&timeline(card, vec![]).card);
        let mut events: Vec<Event> = all.iter().map(|i| setup(i.id.id(), "ok", "ok")).collect();
        assert_eq!(due_again(&checklist(&timeline(card, events.clone()))), []);
        events.push(change);
        let again = due_again(&checklist(&timeline(card, events)));
        again.into_iter().map(SetupItem::id).collect()
    }

    #[test]
    fn a_change_makes_due_again_what_it_may_have_changed() {
        use super::super::tests::RECURVE;
        use AdjusterKind::{BraceHeight, LimbBolts, RestHeight, RestSideways};
        let limbs = ["draw-weight", "brace-height", "tiller", "limb-bolts"];
        let compound_limbs = [
            "draw-weight",
            "brace-height",
            "axle-to-axle",
            "tiller",
            "limb-bolts",
        ];
        // On a compound the brace height is changed in a press.
        let press = [
            "inspection",
            "string-settled",
            "draw-weight",
            "brace-height",
            "axle-to-axle",
            "tiller",
            "limb-bolts",
            "cam-timing",
            "cam-lean",
            "levels",
            "peep",
            "nock-fit",
            "nocking-point",
            "rest-timing",
            "witness-marks",
            "clearance",
        ];
        for (card, adjuster, wanted) in [
            (COMPOUND, LimbBolts, &compound_limbs[..]),
            (COMPOUND, BraceHeight, &press),
            (COMPOUND, RestHeight, &["rest-timing", "clearance"]),
            (COMPOUND, RestSideways, &[]),
            (RECURVE, LimbBolts, &limbs),
            (RECURVE, BraceHeight, &limbs),
            (RECURVE, RestHeight, &["clearance"]),
            (RECURVE, RestSideways, &[]),
        ] {
            let again = due_after(card, moved(adjuster, 1.0));
            assert_eq!(again, wanted, "{adjuster:?}");
        }
    }

    #[test]
    fn a_rest_height_move_asks_again_for_drop_away_timing() {
        let timed = || setup("rest-timing", "ok", "ok");
        assert_eq!(
            state(
                vec![timed(), moved(AdjusterKind::RestHeight, 0.5)],
                "rest-timing"
            ),
            State::Again(Since::RestHeight)
        );
        assert_eq!(
            state(
                vec![timed(), moved(AdjusterKind::RestSideways, 0.5)],
                "rest-timing"
            ),
            State::Ok
        );
        // An undone move moved nothing.
        assert_eq!(
            state(
                vec![
                    timed(),
                    moved(AdjusterKind::RestHeight, 0.5),
                    Event::Undo { target: 2 }
                ],
                "rest-timing"
            ),
            State::Ok
        );
    }

    #[test]
    fn skipped_and_off_show_on_the_list_with_the_reason() {
        let t = timeline(COMPOUND, vec![]);
        let off = record(&t, "brace-height", "185 mm").unwrap();
        let t = timeline(
            COMPOUND,
            vec![off, super::super::skip(&t, "cam-lean").unwrap()],
        );
        let list = checklist(&t);
        let find = |id: &str| list.iter().find(|s| s.item.id.id() == id).unwrap();
        assert_eq!(find("brace-height").state, State::Off);
        let note = find("brace-height").note.clone().unwrap();
        let Judged::Near { value, target, .. } = note.found else {
            panic!("{note:?}")
        };
        assert!((value - 185.0).abs() < 1e-9 && (target - 177.8).abs() < 1e-9);
        assert_eq!(find("cam-lean").state, State::Skipped);
        let all = summary(&list);
        assert_eq!((all.done, all.off, all.skipped, all.again), (1, 1, 1, 0));
    }

    #[test]
    fn a_dust_test_answered_elsewhere_counts() {
        let answer = Event::answer("contact", "none");
        assert_eq!(state(vec![answer], "clearance"), State::Ok);
    }

    #[test]
    fn press_work_that_was_not_done_changes_nothing() {
        let after = |result: &str| {
            let said = Event::answer("press-work", result);
            state(vec![setup("cam-timing", "0 mm", "ok"), said], "cam-timing")
        };
        assert_eq!(after("done"), State::Again(Since::Press));
        assert_eq!(after("no"), State::Ok);
    }
}
