//! Where one bow stands, for coming back to it.

use super::list::{bow_name, pending};
use crate::advice::Analysis;
use crate::restore;
use crate::session::{Entry, Event, Session};
use crate::units::{System, clean};
use crate::words;

/// Entries shown.
const LAST: usize = 5;

/// Where a bow stands.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Stand {
    /// Whose bow.
    pub(crate) whose: String,
    /// The verdict and its sentence.
    pub verdict: String,
    /// Where each adjuster stands from the start.
    pub places: Vec<String>,
    /// A move taken to the bench and not confirmed.
    pub pending: Option<String>,
    /// The last entries, oldest first.
    pub(crate) last: Vec<String>,
}

/// Where the bow of a session stands.
pub(crate) fn stand(session: &Session, analysis: &Analysis, system: System) -> Stand {
    let timeline = session.timeline();
    let owner = timeline
        .card
        .job
        .owner
        .as_deref()
        .map_or(String::new(), |o| format!("{}: ", clean(o)));
    let places = restore::differences(timeline)
        .into_iter()
        .map(|d| format!("{} {}", d.adjuster.spoken(), words::stands(&d, system)))
        .collect();
    let entries = session.entries();
    let counted: Vec<&Entry> = entries
        .iter()
        .filter(|e| !timeline.undone.contains(&e.number) && !matches!(e.event, Event::Prior(_)))
        .collect();
    Stand {
        whose: format!("{owner}{}", clean(&bow_name(timeline))),
        verdict: format!(
            "{}{}: {}",
            analysis.list_first().map_or(String::new(), |due| format!(
                "{} ",
                crate::words::range_due(due)
            )),
            crate::words::title(&analysis.advice),
            words::headline_here(timeline, analysis, system)
        ),
        places,
        pending: pending(timeline),
        last: counted[counted.len().saturating_sub(LAST)..]
            .iter()
            .map(|e| {
                format!(
                    "{:>4}  {}",
                    e.number,
                    clean(&words::entry(&e.event, &timeline.card, system))
                )
            })
            .collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::advice;
    use crate::gear::{AdjusterKind, Step};
    use crate::session::Shot;
    use crate::setup::tests::COMPOUND;

    #[test]
    fn coming_back_shows_whose_bow_where_it_stands_and_what_is_pending() {
        let mut session = Session::from_text(COMPOUND).unwrap();
        let step = Step {
            adjuster: AdjusterKind::RestSideways,
            amount: -1.5,
        };
        session
            .record(Event::Shot(Shot {
                right: -9.0,
                ..Shot::default()
            }))
            .unwrap();
        session
            .record(Event::Move {
                steps: vec![step],
                said: None,
                confirms: None,
            })
            .unwrap();
        session
            .record(Event::Note {
                text: "wrong".into(),
            })
            .unwrap();
        session.undo().unwrap();
        session
            .record(Event::Pending { steps: vec![step] })
            .unwrap();
        let analysis = advice::analyse(session.timeline(), crate::range::Today::now());
        let found = stand(&session, &analysis, System::Mm);
        assert_eq!(found.whose, "compound");
        // Whoever comes back to it on another day reads the list first.
        let mut fresh = Session::from_text(COMPOUND).unwrap();
        let verdict = |s: &Session| {
            let today = crate::range::Today::now();
            stand(s, &advice::analyse(s.timeline(), today), System::Mm).verdict
        };
        assert!(verdict(&fresh).starts_with("Go through the range safety list first"));
        let listed = crate::session::RangeSaid::AllInOrder(crate::session::Shooter::Owner);
        fresh.record(listed.event()).unwrap();
        assert!(verdict(&fresh).starts_with("SHOOT"), "{}", verdict(&fresh));
        assert!(found.places[0].contains("1.50 mm left (6 clicks)"));
        assert_eq!(found.pending.as_deref(), Some("rest left 1.5 mm"));
        assert!(
            found.last.iter().all(|l| !l.contains("note")),
            "{:?}",
            found.last
        );
    }
}
