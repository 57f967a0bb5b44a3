//! How an incident stands: which parts were looked at since.

use super::{AnswerAt, IncidentAt, Timeline};
use crate::question::{InspectPart, Question, clears_in_one_word};

/// What ended an incident, if anything did.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Clearance {
    /// It still stops shooting.
    Open,
    /// Every part was answered, the slow draw last.
    ByParts,
    /// An older program took one word for it, and shots followed.
    OneWord(u32),
}

impl Timeline {
    /// How an incident stands.
    #[must_use]
    pub(crate) fn clearance(&self, incident: &IncidentAt) -> Clearance {
        if self.parts_open(incident).is_empty() {
            return Clearance::ByParts;
        }
        let word = self.answers_since(incident.entry);
        let word = word.filter(|a| a.test == Question::Inspection).last();
        let Some(word) = word.filter(|a| clears_in_one_word(&a.test, &a.result)) else {
            return Clearance::Open;
        };
        // Shots made while this program said DO NOT SHOOT bear nothing out.
        let borne_out = |s: &super::ShotAt| s.entry > word.entry && !s.shot.under_stop;
        if self.shots.iter().any(borne_out) {
            Clearance::OneWord(word.entry)
        } else {
            Clearance::Open
        }
    }

    /// The parts still to be found in order after an incident, in order; the
    /// slow draw counts only after all others.
    #[must_use]
    pub(crate) fn parts_open(&self, incident: &IncidentAt) -> Vec<InspectPart> {
        let mut latest = 0;
        InspectPart::of(self.card.bow.kind)
            .filter(|part| {
                let good = self
                    .part_answer(incident, *part)
                    .filter(|a| a.test == Question::Inspection || a.result == InspectPart::GOOD)
                    .map(|a| a.entry)
                    .filter(|entry| *part != InspectPart::Draw || *entry > latest);
                latest = latest.max(good.unwrap_or(u32::MAX));
                good.is_none()
            })
            .collect()
    }

    /// The latest answer about a part since an incident. Damage reported in
    /// general asks for every part again. Older programs recorded the slow
    /// draw as the whole inspection, after all parts.
    #[must_use]
    pub(crate) fn part_answer(
        &self,
        incident: &IncidentAt,
        part: InspectPart,
    ) -> Option<&AnswerAt> {
        let damage = self
            .answers_since(incident.entry)
            .filter(|a| a.test == Question::Inspection)
            .filter(|a| !clears_in_one_word(&a.test, &a.result))
            .last()
            .map_or(0, |a| a.entry);
        let of_part = |a: &&AnswerAt| {
            a.test == Question::Part(part)
                || part == InspectPart::Draw && clears_in_one_word(&a.test, &a.result)
        };
        self.answers_since(incident.entry.max(damage))
            .filter(of_part)
            .last()
    }

    fn answers_since(&self, entry: u32) -> impl Iterator<Item = &AnswerAt> {
        self.answers.iter().filter(move |a| a.entry > entry)
    }

    /// The incident that still stops shooting.
    #[must_use]
    pub fn open_incident(&self) -> Option<&IncidentAt> {
        let open = |i: &&IncidentAt| self.clearance(i) == Clearance::Open;
        self.incidents.iter().find(open)
    }
}

#[cfg(test)]
mod tests {
    use super::super::Timeline;
    use super::*;
    use crate::fixtures::PLAIN_COMPOUND;
    use crate::gear::CardText;
    use crate::session::entry::{Entry, Event, Shot};

    fn card() -> CardText {
        CardText::from_toml(PLAIN_COMPOUND).unwrap()
    }

    fn entries(events: Vec<Event>) -> Vec<Entry> {
        (1..)
            .zip(events)
            .map(|(number, event)| Entry::now(number, event))
            .collect()
    }

    fn of(events: Vec<Event>) -> Timeline {
        Timeline::new(&card(), &entries(events)).unwrap()
    }

    fn shot(right: f64) -> Event {
        Event::Shot(Shot {
            right,
            ..Shot::default()
        })
    }

    fn answer(test: &str, result: &str) -> Event {
        Event::Answer {
            test: test.into(),
            result: result.into(),
            detail: None,
        }
    }

    fn dry_fire() -> Event {
        Event::Incident {
            what: "dry fire".into(),
        }
    }

    /// The eight parts of a compound, in order, all in order.
    const PARTS: [&str; 8] = [
        "inspect-string",
        "inspect-limbs",
        "inspect-cams",
        "inspect-riser",
        "inspect-rest",
        "inspect-arrows",
        "inspect-range",
        "inspect-draw",
    ];

    fn all_parts() -> Vec<Event> {
        PARTS.iter().map(|p| answer(p, "sound")).collect()
    }

    #[test]
    fn an_incident_is_not_undone_and_ends_with_its_eight_parts() {
        let t = of(vec![dry_fire(), Event::Undo { target: 1 }]);
        assert!(t.open_incident().is_some());
        let mut events = vec![dry_fire()];
        for part in all_parts() {
            assert!(of(events.clone()).open_incident().is_some());
            events.push(part);
        }
        assert!(of(events.clone()).open_incident().is_none());
        // A second incident asks for all of them again.
        events.push(dry_fire());
        assert!(of(events).open_incident().is_some());
    }

    #[test]
    fn each_part_left_out_or_damaged_keeps_it_open() {
        for (left_out, part) in PARTS.iter().enumerate() {
            let mut events = vec![dry_fire()];
            events.extend(all_parts());
            events.remove(left_out + 1);
            let t = of(events);
            let incident = t.open_incident().expect("still open");
            assert_eq!(t.parts_open(incident)[0].id(), *part);
        }
        let mut events = vec![dry_fire()];
        events.extend(all_parts());
        events.push(answer("inspect-limbs", "damaged"));
        assert!(of(events.clone()).open_incident().is_some());
        // Put right and looked at again; the slow draw comes after that again.
        events.push(answer("inspect-limbs", "sound"));
        let t = of(events.clone());
        let open: Vec<&str> = t
            .parts_open(t.open_incident().unwrap())
            .iter()
            .map(|p| p.id())
            .collect();
        assert_eq!(open, ["inspect-draw"]);
        events.push(answer("inspect-draw", "sound"));
        assert!(of(events).open_incident().is_none());
    }

    #[test]
    fn one_word_clears_nothing_unless_an_older_program_shot_on() {
        for word in ["clear", "passed", "sound", "none"] {
            let word = || answer("inspection", word);
            assert!(of(vec![dry_fire(), word()]).open_incident().is_some());
            let t = of(vec![dry_fire(), word(), shot(3.0)]);
            assert_eq!(t.clearance(&t.incidents[0]), Clearance::OneWord(2));
            // Shot while this program said DO NOT SHOOT: borne out by nothing.
            let under_stop = Event::Shot(Shot {
                under_stop: true,
                ..Shot::default()
            });
            let t = of(vec![dry_fire(), word(), under_stop]);
            assert!(t.open_incident().is_some());
            assert!(
                of(vec![dry_fire(), shot(3.0), word()])
                    .open_incident()
                    .is_some()
            );
        }
    }

    #[test]
    fn an_older_program_called_the_slow_draw_the_inspection() {
        let mut events = vec![dry_fire()];
        events.extend(all_parts());
        events.pop();
        events.push(answer("inspection", "clear"));
        let t = of(events);
        assert_eq!(t.clearance(&t.incidents[0]), Clearance::ByParts);
    }

    #[test]
    fn damage_reported_in_general_asks_for_every_part_again() {
        let mut events = vec![dry_fire()];
        events.extend(all_parts());
        events.push(answer("inspection", "damage"));
        let t = of(events.clone());
        assert_eq!(t.parts_open(t.open_incident().unwrap()).len(), 8);
        events.extend(all_parts());
        assert!(of(events).open_incident().is_none());
    }

    #[test]
    fn a_recurve_has_seven_parts_and_no_cams() {
        let mut recurve = card();
        for (key, value) in [
            ("bow.kind", "recurve"),
            ("bow.release", "fingers"),
            ("rest.kind", "plunger"),
            ("bow.let_off", ""),
        ] {
            recurve.set(key, value).unwrap();
        }
        let mut events = vec![dry_fire()];
        events.extend(all_parts());
        events.remove(3);
        let t = Timeline::new(&recurve, &entries(events)).unwrap();
        assert!(t.open_incident().is_none());
    }
}
