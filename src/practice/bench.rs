//! Tests and cures on a practice bow, answered by what is true of it.

use super::{Practice, Struck};
use crate::question::{Answer, InspectPart, Question, Refusal, Test};
use crate::session::{Event, Timeline};
use crate::trouble::offers;

/// Something a technician can do beside shooting and moving.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Job {
    /// Weigh the bow on a scale.
    Weigh,
    /// Powder test for contact.
    Powder,
    /// Turn the nocks, clear whatever is touched.
    Clear,
    /// Take arrows that suit the bow by its card.
    RightArrows,
}

impl Job {
    /// Whether it waits while this stops the bow: what shoots arrows, always; a
    /// weighing, while nothing may be drawn.
    pub(crate) const fn waits_for(self, stop: Refusal) -> bool {
        match self {
            Self::Powder | Self::Clear => true,
            Self::Weigh => matches!(stop, Refusal::Incident | Refusal::PastLimit),
            Self::RightArrows => false,
        }
    }
}

/// What came of it: entries to record, in order, and what was seen.
#[derive(Debug, Clone, PartialEq)]
pub struct Found {
    /// Entries for the session.
    pub events: Vec<Event>,
    /// What was seen or done.
    pub seen: Seen,
}

/// What was seen or done at the bench.
#[derive(Debug, Clone, PartialEq)]
pub enum Seen {
    /// The scale agrees with the card, lb.
    ScaleAgrees(f64),
    /// The scale shows so much and the card said another, lb.
    ScaleShows {
        /// What the scale shows.
        shows: f64,
        /// What the card said.
        said: f64,
    },
    /// The vanes wipe this.
    Wiped(Struck),
    /// The rear of the shaft slaps the plunger.
    Slap,
    /// Nothing but the rest's own track.
    Clean,
    /// What touched is clear, and the powder is clean again.
    Cleared,
    /// The nock was turned and the rest arm looked at; the slap stays.
    SlapStays,
    /// Nothing touched, so nothing was changed.
    NothingTouched,
    /// Other shafts of this static spine are on the card.
    Shafts(String),
    /// The card's arrows suit the bow.
    NoBetterShafts,
}

impl Job {
    /// Those that only tell.
    pub(crate) const TESTS: [Self; 2] = [Self::Weigh, Self::Powder];
    /// Those that change the bow or its arrows.
    pub(crate) const CURES: [Self; 2] = [Self::Clear, Self::RightArrows];

    /// Whether it changes the bow or its arrows.
    pub(crate) const fn changes(self) -> bool {
        matches!(self, Self::Clear | Self::RightArrows)
    }
}

impl Practice {
    /// The true result of a test, by its name; `None` for one the bow cannot
    /// answer.
    #[must_use]
    pub(crate) fn answer(
        &self,
        question: impl Into<Question>,
        timeline: &Timeline,
    ) -> Option<Answer> {
        let poor = self.plan.has(super::Fault::PoorArcher);
        let wrong = self.arrow_is_wrong(&timeline.card);
        let label =
            self.hidden.weighed_lb(&timeline.card) + 0.5 < timeline.card.bow.peak_weight.pounds();
        let either = |yes: bool, a, b| if yes { a } else { b };
        let test = match question.into() {
            Question::Test(test) => test,
            Question::Part(_) => return Some(InspectPart::GOOD),
            _ => return None,
        };
        Some(match test {
            Test::Contact => self.powder_shows(timeline),
            Test::Hand => Answer::Relaxed,
            Test::Arrow => either(wrong, Answer::Different, Answer::Same),
            Test::WeighBow => either(label, Answer::Different, Answer::AsCard),
            Test::DrawWeight => either(label, Answer::Wrong, Answer::Right),
            Test::SecondShooter => either(poor, Answer::Tighter, Answer::Same),
            // Nothing else is ever wrong with a practice bow.
            Test::BadShots => Answer::None,
            Test::Tired | Test::OneArrow | Test::ArrowAsCard | Test::Torque | Test::WallHold => {
                Answer::Same
            }
            Test::Loose => Answer::Tight,
            Test::OneSide | Test::RightArrow => Answer::Yes,
            Test::RestTiming | Test::DrawLength | Test::NockingPoint => Answer::Right,
            Test::Timing => Answer::Together,
            Test::Lean => Answer::Upright,
            Test::LimbsTrue => Answer::True,
            _ => return None,
        })
    }

    /// Does a job; the entries are still to be recorded.
    pub fn work(&mut self, job: Job, timeline: &Timeline) -> Found {
        match job {
            Job::Weigh => self.weigh(timeline),
            Job::Powder => self.powder(timeline),
            Job::Clear => self.clear(timeline),
            Job::RightArrows => right_arrows(timeline),
        }
    }

    fn weigh(&self, timeline: &Timeline) -> Found {
        let said = timeline.card.bow.peak_weight.pounds();
        let shows = self.hidden.weighed_lb(&timeline.card);
        let weighed = ("bow.weighed".to_owned(), "true".to_owned());
        if (shows - said).abs() < 0.1 {
            return Found {
                events: vec![Event::card([weighed].into())],
                seen: Seen::ScaleAgrees(said),
            };
        }
        let weight = ("bow.peak_weight".to_owned(), format!("{shows:.1} lb"));
        Found {
            events: vec![Event::card([weighed, weight].into())],
            seen: Seen::ScaleShows { shows, said },
        }
    }

    /// What the powder truly shows.
    fn powder_shows(&self, timeline: &Timeline) -> Answer {
        match self.touches() {
            Some(struck) => struck.answer(),
            None if self.slaps(timeline) => Answer::Button,
            None => Answer::None,
        }
    }

    fn powder(&self, timeline: &Timeline) -> Found {
        let seen = match self.touches() {
            None if self.slaps(timeline) => Seen::Slap,
            None => Seen::Clean,
            Some(struck) => Seen::Wiped(struck),
        };
        Found {
            events: vec![contact(self.powder_shows(timeline))],
            seen,
        }
    }

    fn clear(&mut self, timeline: &Timeline) -> Found {
        let only = |answer, seen| Found {
            events: vec![contact(answer)],
            seen,
        };
        let Some(struck) = self.touches() else {
            return match self.slaps(timeline) {
                true => only(Answer::Button, Seen::SlapStays),
                false => only(Answer::None, Seen::NothingTouched),
            };
        };
        self.cleared = true;
        let why = Some(format!("contact cleared ({})", struck.answer()));
        let restart = Event::Restart { setting: None, why };
        Found {
            events: vec![contact(Answer::None), restart],
            seen: Seen::Cleared,
        }
    }
}

fn contact(result: Answer) -> Event {
    Event::answer(Question::Test(Test::Contact), result)
}

/// The shafts the spine check itself asks for.
fn right_arrows(timeline: &Timeline) -> Found {
    let card = &timeline.card;
    let matched = crate::checks::spine::of_card(card).grade == crate::physics::SpineGrade::Matched;
    let shafts = offers(card)
        .into_iter()
        .filter(|_| !matched)
        .find(|offer| offer.id == Answer::Shafts);
    match shafts.and_then(|offer| offer.card) {
        Some((key, value)) => Found {
            events: vec![Event::card([(key.to_owned(), value.clone())].into())],
            seen: Seen::Shafts(value),
        },
        None => Found {
            events: Vec::new(),
            seen: Seen::NoBetterShafts,
        },
    }
}

#[cfg(test)]
mod tests {
    use super::super::Fault;
    use super::*;
    use crate::session::Session;

    fn bow_with(fault: Fault) -> (Practice, Session) {
        let level = if fault == Fault::Label { 5 } else { 4 };
        let practice = super::super::bow_with(fault, level);
        let session = practice.session();
        (practice, session)
    }

    fn work(practice: &mut Practice, session: &mut Session, job: Job) -> Seen {
        let found = practice.work(job, session.timeline());
        for event in found.events {
            session.record(event).unwrap();
        }
        found.seen
    }

    #[test]
    fn a_label_that_is_out_shows_on_the_scale_and_clears_the_arrow() {
        let (mut practice, mut session) = bow_with(Fault::Label);
        let fails = |s: &Session| {
            crate::checks::spine::assess(s.timeline()).status == crate::checks::Status::Fail
        };
        assert!(fails(&session));
        assert_eq!(
            practice.answer(Test::WeighBow, session.timeline()),
            Some(Answer::Different)
        );
        let label = session.timeline().card.bow.peak_weight.pounds();
        let Seen::ScaleShows { shows, said } = work(&mut practice, &mut session, Job::Weigh) else {
            panic!("the label is out")
        };
        assert_eq!(said, label);
        assert_eq!(shows, session.timeline().card.bow.peak_weight.pounds());
        assert!(shows < said && !fails(&session));
        assert_eq!(
            work(&mut practice, &mut session, Job::Weigh),
            Seen::ScaleAgrees(shows)
        );
    }

    #[test]
    fn contact_is_found_by_powder_and_gone_once_cleared() {
        let (mut practice, mut session) = bow_with(Fault::Contact);
        let struck = practice.touches().unwrap();
        let seen = work(&mut practice, &mut session, Job::Powder);
        assert_eq!(seen, Seen::Wiped(struck));
        assert_ne!(
            session.timeline().answer(Test::Contact).unwrap().result,
            Answer::None
        );
        let seen = work(&mut practice, &mut session, Job::Clear);
        assert_eq!(seen, Seen::Cleared);
        assert_eq!(
            session.timeline().answer(Test::Contact).unwrap().result,
            Answer::None
        );
        for _ in 0..10 {
            assert!(!practice.shoot(session.timeline()).ragged);
        }
    }

    #[test]
    fn a_weak_arrow_is_cured_by_the_shafts_the_check_asks_for() {
        let (mut practice, mut session) = bow_with(Fault::Weak);
        assert_eq!(
            practice.answer(Test::Arrow, session.timeline()),
            Some(Answer::Different)
        );
        let seen = work(&mut practice, &mut session, Job::RightArrows);
        assert!(matches!(seen, Seen::Shafts(_)), "{seen:?}");
        assert_eq!(
            practice.answer(Test::Arrow, session.timeline()),
            Some(Answer::Same)
        );
        let seen = work(&mut practice, &mut session, Job::RightArrows);
        assert_eq!(seen, Seen::NoBetterShafts);
    }

    #[test]
    fn what_shoots_waits_for_every_stop_and_weighing_for_those_that_forbid_a_draw() {
        let waits = |job: Job| -> Vec<&str> {
            let stops = Refusal::ALL.into_iter().filter(|r| r.stops());
            let held = stops.filter(|stop| job.waits_for(*stop));
            held.map(Refusal::code).collect()
        };
        let all = [
            "incident",
            "past-maker-limit",
            "weigh-first",
            "arrow-too-light",
            "arrow-too-short",
            "arrow-far-too-weak",
        ];
        for job in [Job::Powder, Job::Clear] {
            let mut held = waits(job);
            held.sort_unstable();
            let mut wanted = all.to_vec();
            wanted.sort_unstable();
            assert_eq!(held, wanted);
        }
        let mut held = waits(Job::Weigh);
        held.sort_unstable();
        assert_eq!(held, ["incident", "past-maker-limit"]);
        assert!(waits(Job::RightArrows).is_empty());
    }
}
