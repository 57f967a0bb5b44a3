//! A move that was made and not recorded in time, placed before the shots that
//! followed it: what stood then, and what placing it would change.

use super::Entry;
use super::entry::Event;
use super::error::{NoShot, Refused, SessionError};
use super::store::Session;
use super::timeline::Timeline;
use crate::gear::Step;

impl Session {
    /// What stood before the entry of this number.
    ///
    /// # Errors
    /// When it is no shot that counts: the message names those that are.
    pub(crate) fn before_shot(&self, number: u32) -> Result<Timeline, SessionError> {
        self.check_shot(number)?;
        Timeline::until(&self.card.complete, &self.entries, number)
            .map_err(|problems| self.card_problem(problems))
    }

    /// What the entries would add up to with one more.
    ///
    /// # Errors
    /// When it could not be recorded.
    pub fn with(&self, event: Event) -> Result<Timeline, SessionError> {
        self.check(&event)?;
        let number = self.entries.last().map_or(1, |e| e.number + 1);
        let mut entries = self.entries.clone();
        entries.push(Entry::now(number, event));
        Timeline::new(&self.card.complete, &entries).map_err(|problems| self.card_problem(problems))
    }

    /// The event that places a move before a shot. A move that waited to be
    /// confirmed there is settled by it.
    ///
    /// # Errors
    /// When the entry is no shot that counts.
    pub(crate) fn placed_move(
        &self,
        before: u32,
        steps: Vec<Step>,
        said: Option<String>,
    ) -> Result<Event, SessionError> {
        let then = self.before_shot(before)?;
        Ok(Event::PlacedMove {
            before,
            steps,
            said,
            confirms: then.pending.map(|p| p.entry),
        })
    }

    /// Refuses an entry that is no shot that counts.
    pub(super) fn check_shot(&self, number: u32) -> Result<(), SessionError> {
        let shots: Vec<u32> = self.timeline.shots.iter().map(|s| s.entry).collect();
        if shots.contains(&number) {
            return Ok(());
        }
        let entry = self.entries.iter().find(|e| e.number == number);
        let is = match entry {
            None => NoShot::NoEntry,
            Some(e) if matches!(e.event, Event::Shot(_)) => NoShot::Undone,
            Some(e) => NoShot::Other(e.event.kind()),
        };
        Err(SessionError::Refused(Refused::NoShot(number, is, shots)))
    }

    fn card_problem(&self, problems: Vec<crate::gear::CardProblem>) -> SessionError {
        SessionError::Card {
            path: self.path.clone().unwrap_or_else(|| "card".into()),
            problems,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fixtures::PLAIN_COMPOUND;
    use crate::gear::AdjusterKind;
    use crate::session::{Shot, ShotAt};

    fn shot(right: f64, up: f64) -> Event {
        Event::Shot(Shot {
            right,
            up,
            ..Shot::default()
        })
    }

    fn steps(mm: f64) -> Vec<Step> {
        vec![Step {
            adjuster: AdjusterKind::RestSideways,
            amount: mm,
        }]
    }

    fn moved(mm: f64) -> Event {
        Event::Move {
            steps: steps(mm),
            said: None,
            confirms: None,
        }
    }

    fn of(events: Vec<Event>) -> Session {
        let mut session = Session::from_text(PLAIN_COMPOUND).unwrap();
        for event in events {
            session.record(event).unwrap();
        }
        session
    }

    fn place(session: &mut Session, before: u32, mm: f64) -> u32 {
        let event = session.placed_move(before, steps(mm), None).unwrap();
        session.record(event).unwrap()
    }

    fn settings(session: &Session) -> Vec<usize> {
        session.timeline().shots.iter().map(|s| s.setting).collect()
    }

    #[test]
    fn the_shots_after_it_belong_to_the_setting_it_led_to() {
        let mut session = of(vec![shot(-12.0, 0.0), shot(-11.0, 1.0), shot(-3.0, 0.0)]);
        assert_eq!(settings(&session), [0, 0, 0]);
        let entry = place(&mut session, 3, -1.5);
        assert_eq!(entry, 4);
        assert_eq!(settings(&session), [0, 0, 1]);
        let now = session.timeline().now.get(AdjusterKind::RestSideways);
        assert_eq!(now, -1.5);
        // One action, one undo, and redo.
        assert_eq!(session.undo().unwrap(), [4]);
        assert_eq!(settings(&session), [0, 0, 0]);
        session.redo().unwrap();
        assert_eq!(settings(&session), [0, 0, 1]);
    }

    #[test]
    fn an_entry_that_is_no_shot_is_refused_with_those_that_are() {
        let mut session = of(vec![
            shot(-12.0, 0.0),
            Event::Note { text: "x".into() },
            shot(-9.0, 0.0),
            Event::Undo { target: 3 },
        ]);
        for (number, wanted) in [
            (9, "there is no entry 9; the shots are entries 1"),
            (2, "entry 2 is no shot (note); the shots are entries 1"),
            (3, "entry 3 is a shot that is undone"),
        ] {
            let refused = session.placed_move(number, steps(1.0), None).unwrap_err();
            assert!(refused.to_string().starts_with(wanted), "{refused}");
            assert!(refused.is_input());
            let event = Event::PlacedMove {
                before: number,
                steps: steps(1.0),
                said: None,
                confirms: None,
            };
            assert!(session.record(event).is_err());
        }
        assert_eq!(session.entries().len(), 4);
    }

    #[test]
    fn a_move_that_waited_to_be_confirmed_is_settled_by_it() {
        let mut session = of(vec![
            shot(-12.0, 0.0),
            Event::Pending { steps: steps(-1.5) },
            shot(-3.0, 0.0),
        ]);
        assert!(session.timeline().pending.is_some());
        place(&mut session, 3, -1.5);
        assert!(session.timeline().pending.is_none());
        assert_eq!(session.timeline().moves[0].confirms, Some(2));
    }

    #[test]
    fn a_return_to_a_setting_still_means_the_setting_it_meant() {
        let mut session = of(vec![
            shot(-12.0, 0.0),
            moved(-1.0),
            shot(-9.0, 0.0),
            moved(-2.0),
            shot(-2.0, 0.0),
            Event::Restart {
                setting: Some(2),
                why: None,
            },
        ]);
        let there = |s: &Session| s.timeline().now.get(AdjusterKind::RestSideways);
        assert_eq!(there(&session), -1.0);
        // Placed before the very first shot: setting 2 was -1.0 from there.
        place(&mut session, 1, 0.5);
        assert_eq!(there(&session), -0.5);
        // Recorded from now on, the numbers count what was placed.
        let back = Event::Restart {
            setting: Some(2),
            why: None,
        };
        session.record(back).unwrap();
        assert_eq!(there(&session), 0.5);
    }

    #[test]
    fn it_needs_the_second_format_and_is_read_again_as_it_is() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("bow.toml");
        let card = crate::gear::CardText::from_toml(PLAIN_COMPOUND).unwrap();
        Session::create(&path, &card).unwrap();
        let patience = std::time::Duration::ZERO;
        let mut session = Session::open_for_writing(&path, "test", patience).unwrap();
        session.record(shot(-12.0, 0.0)).unwrap();
        session.record(shot(-3.0, 0.0)).unwrap();
        let head = |path| std::fs::read_to_string(path).unwrap();
        assert!(head(&path).starts_with("format = 1\n"));
        let event = session
            .placed_move(2, steps(-1.5), Some("rest left 1.5".into()))
            .unwrap();
        session.record(event).unwrap();
        assert!(head(&path).starts_with("format = 2\n"));
        let again = Session::open(&path).unwrap();
        assert_eq!(again.entries(), session.entries());
        assert_eq!(settings(&again), [0, 1]);
        assert!(
            again.all_warnings().is_empty(),
            "{:?}",
            again.all_warnings()
        );
    }

    /// What is shown of a shot, but for the number of its entry.
    fn plain(shot: &ShotAt) -> (usize, crate::gear::Positions, u32, Shot) {
        (shot.setting, shot.positions, shot.epoch, shot.shot.clone())
    }

    mod placed_is_as_in_time {
        use super::*;
        use crate::advice::advise;
        use crate::range::Today;
        use proptest::prelude::*;

        #[derive(Debug, Clone)]
        enum Done {
            Shot(i32, i32),
            Moved(AdjusterKind, i32),
            Bolts,
            Note,
        }

        fn event(done: &Done) -> Event {
            match done {
                Done::Shot(right, up) => shot(f64::from(*right), f64::from(*up)),
                Done::Moved(adjuster, clicks) => Event::Move {
                    steps: vec![Step {
                        adjuster: *adjuster,
                        amount: f64::from(*clicks) * 0.25,
                    }],
                    said: None,
                    confirms: None,
                },
                Done::Bolts => Event::Move {
                    steps: vec![Step {
                        adjuster: AdjusterKind::LimbBolts,
                        amount: -0.5,
                    }],
                    said: None,
                    confirms: None,
                },
                Done::Note => Event::Note { text: "x".into() },
            }
        }

        fn any_done() -> impl Strategy<Value = Done> {
            let kind = prop_oneof![
                Just(AdjusterKind::RestSideways),
                Just(AdjusterKind::RestHeight)
            ];
            prop_oneof![
                5 => (-20i32..20, -9i32..9).prop_map(|(r, u)| Done::Shot(r, u)),
                2 => (kind, -8i32..8).prop_map(|(k, c)| Done::Moved(k, c)),
                1 => Just(Done::Bolts),
                1 => Just(Done::Note),
            ]
        }

        proptest! {
            #![proptest_config(ProptestConfig {
                cases: 48,
                failure_persistence: None,
                ..ProptestConfig::default()
            })]
            /// A move placed before a shot adds up to what it would have added
            /// up to in time, and the advice is the same.
            #[test]
            fn the_same_settings_and_the_same_advice(
                done in prop::collection::vec(any_done(), 1..14),
                which in any::<prop::sample::Index>(),
                clicks in -8i32..8,
            ) {
                let shots: Vec<usize> = (0..done.len())
                    .filter(|i| matches!(done[*i], Done::Shot(..)))
                    .collect();
                prop_assume!(!shots.is_empty() && clicks != 0);
                let at = shots[which.index(shots.len())];
                let mm = f64::from(clicks) * 0.25;
                let with = |first: Event| {
                    let mut all: Vec<Event> = done.iter().map(event).collect();
                    all.insert(at, first);
                    of(all)
                };
                let in_time = with(moved(mm));
                // A note in its place keeps the numbers of the entries alike.
                let mut late = with(event(&Done::Note));
                place(&mut late, at as u32 + 2, mm);
                let (a, b) = (in_time.timeline(), late.timeline());
                prop_assert_eq!(
                    a.shots.iter().map(plain).collect::<Vec<_>>(),
                    b.shots.iter().map(plain).collect::<Vec<_>>()
                );
                let places = |t: &Timeline| -> Vec<_> {
                    t.settings.iter().map(|s| (s.number, s.positions, s.epoch)).collect()
                };
                prop_assert_eq!(places(a), places(b));
                prop_assert_eq!(a.now, b.now);
                prop_assert_eq!(a.last_way, b.last_way);
                prop_assert_eq!(a.weight_unknown(), b.weight_unknown());
                let day = Today::now();
                prop_assert_eq!(advise(a, day), advise(b, day));
            }
        }
    }
}
