//! The range safety list before the next shot: said first, changing no verdict.

use super::finding::Finding;
use super::types::{Advice, ProbeKind, Verdict};
use crate::checks::Status;
use crate::checks::safety::Safety;
use crate::range::{self, Due, Today};
use crate::session::Timeline;

/// Where a shot comes next and the list is due: the reason stands first and
/// safety reads "not yet". The verdict, its move and its test stay as they are.
pub(super) fn say(timeline: &Timeline, advice: &mut Advice, today: Today) -> Option<Due> {
    // A closed job is judged by what stood when its shots were made.
    let today = match &timeline.closed {
        Some(_) => Today::of_last_shot(timeline).unwrap_or(today),
        None => today,
    };
    if !a_shot_comes_next(advice) {
        return None;
    }
    let due = range::due(timeline, today)?;
    let safety = &mut advice.checks.safety;
    // What forbids the shot itself is never softened.
    if safety.status() != Status::Fail {
        *safety = Safety::RangeListFirst(due, Box::new(safety.clone()));
    }
    advice.findings.insert(0, Finding::RangeListOpen(due));
    Some(due)
}

/// Whether what is advised is shot: a move is made first, a refusal and a
/// stop shoot nothing, and the bow hand is asked about shots that stand.
fn a_shot_comes_next(advice: &Advice) -> bool {
    match advice.verdict {
        Verdict::Shoot | Verdict::Done => true,
        Verdict::Probe => advice
            .probe
            .as_ref()
            .is_some_and(|p| p.shots > 0 || p.kind == ProbeKind::Contact),
        Verdict::Move | Verdict::Refuse | Verdict::Stop => false,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::advice::{self, Analysis};
    use crate::session::{Entry, Event, RangeSaid, Shooter, Shot};
    use crate::setup::tests::COMPOUND;

    const MONDAY: &str = "2026-03-02";
    const TUESDAY: &str = "2026-03-03";

    fn on(day: &str) -> Today {
        Today::on(day.parse().unwrap())
    }

    fn of(events: &[Event], day: &str) -> Analysis {
        let entries: Vec<Entry> = (1..)
            .zip(events)
            .map(|(number, event)| Entry {
                together: None,
                number,
                at: format!("{MONDAY}T10:15:00+00:00").parse().unwrap(),
                event: event.clone(),
            })
            .collect();
        let card = crate::gear::CardText::from_toml(COMPOUND).unwrap();
        let t = Timeline::new(&card, &entries).unwrap();
        advice::analyse(&t, on(day))
    }

    fn clean() -> Event {
        Event::Shot(Shot::default())
    }

    fn listed() -> Event {
        RangeSaid::AllInOrder(Shooter::Owner).event()
    }

    fn far() -> Event {
        Event::Shot(Shot {
            up: 40.0,
            ..Shot::default()
        })
    }

    #[test]
    fn it_withholds_no_done_and_is_judged_by_the_day_of_the_shots_once_closed() {
        let mut events = vec![listed()];
        events.extend((0..6).map(|_| clean()));
        let same_day = of(&events, MONDAY);
        assert_eq!(same_day.advice.verdict, Verdict::Done);
        assert_eq!(same_day.range_due, None);
        assert_eq!(same_day.advice.checks.safety.status(), Status::Pass);
        let later = of(&events, TUESDAY);
        assert_eq!(later.advice.verdict, Verdict::Done);
        assert_eq!(later.range_due, Some(Due::Day));
        assert_eq!(later.advice.findings[0], Finding::RangeListOpen(Due::Day));
        assert_eq!(later.advice.checks.safety.status(), Status::Pending);
        events.push(Event::Close { how: "done".into() });
        let closed = of(&events, TUESDAY);
        assert_eq!(closed.range_due, None);
        assert_eq!(closed.advice.checks.safety.status(), Status::Pass);
    }

    #[test]
    fn a_test_that_is_shot_waits_for_it() {
        let ragged = Event::Shot(Shot {
            right: 12.0,
            ragged: true,
            ..Shot::default()
        });
        let asked = of(&[ragged.clone(), ragged.clone(), ragged], MONDAY);
        assert_eq!(asked.advice.verdict, Verdict::Probe);
        let probe = asked.advice.probe.unwrap();
        assert_eq!((probe.kind, probe.shots), (ProbeKind::Contact, 0));
        assert_eq!(asked.range_due, Some(Due::Day));
    }

    #[test]
    fn a_move_is_made_first_and_a_stop_is_never_softened() {
        let moved = of(&[far(), far(), far()], MONDAY);
        assert_eq!(moved.advice.verdict, Verdict::Move);
        assert_eq!(moved.range_due, None);
        let incident = Event::Incident {
            what: "dry fire".into(),
        };
        let stopped = of(&[incident], MONDAY);
        assert_eq!(stopped.advice.verdict, Verdict::Stop);
        assert_eq!(stopped.range_due, None);
        assert_eq!(stopped.advice.checks.safety.status(), Status::Fail);
    }
}
