//! The range safety list: eight short items, read on one screen and answered
//! with one key; when it is due, and what stood when shots were made.
//!
//! It is due when a shot comes next and none of this day stands, with another
//! shooter, at another place, and after an incident. It blocks no recording
//! and changes no verdict: it is said first, and safety reads "not yet".

use chrono::NaiveDate;

use crate::gear::Card;
use crate::question::{Answer, Question, RangeItem, SetupItem};
use crate::session::{RangeAt, RangeSaid, Shooter, Timeline};

/// Room wanted behind the sheet beyond the arrow's length, mm: half a metre
/// (an arrow length and one or two feet; the figure is derived, the rule is printed).
pub(crate) const BEYOND_ARROW_MM: f64 = 500.0;

/// Least depth from the sheet to the face of the backstop, mm: the whole
/// arrow has to be through the paper before its point is stopped.
#[must_use]
pub(crate) fn least_backstop_mm(card: &Card) -> f64 {
    card.arrow.shaft_length.mm() + BEYOND_ARROW_MM
}

/// The day, and who shoots next where that is known: what the entries alone
/// cannot say.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Today {
    /// The day, where the bow is.
    pub(crate) day: NaiveDate,
    /// Who the next shots are set to; whoever shot last where it is not known.
    pub by: Option<Shooter>,
}

impl Today {
    /// A day, the shooter as the shots say.
    #[must_use]
    pub(crate) const fn on(day: NaiveDate) -> Self {
        Self { day, by: None }
    }

    /// The day of the clock here, for a front end.
    #[must_use]
    pub fn now() -> Self {
        Self::on(chrono::Local::now().date_naive())
    }

    /// The same day with this one shooting next.
    #[must_use]
    pub const fn with(self, by: Shooter) -> Self {
        Self {
            by: Some(by),
            ..self
        }
    }

    /// The day of the latest shot and who made it: what a sheet goes by.
    #[must_use]
    pub fn of_last_shot(timeline: &Timeline) -> Option<Self> {
        let last = timeline.shots.last()?;
        Some(Self::on(last.at.date_naive()).with(last.shot.by))
    }
}

/// Why the list is due.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Due {
    /// It was not gone through on this day.
    Day,
    /// It was gone through with another shooter.
    Shooter(Shooter),
    /// The bench was moved to another place since.
    Place,
    /// Something happened since.
    Incident,
    /// An item is not in order.
    Off(RangeItem),
}

/// Why the list is due for a shot on this day; `None` where it stands.
#[must_use]
pub(crate) fn due(timeline: &Timeline, today: Today) -> Option<Due> {
    due_before(timeline, today, u32::MAX)
}

/// The same as it was before an entry.
fn due_before(timeline: &Timeline, today: Today, entry: u32) -> Option<Due> {
    let said = timeline.range.iter().filter(|r| r.entry < entry);
    let mut moved = said.clone().filter(|r| r.said == RangeSaid::OtherPlace);
    let place = moved.next_back().map_or(0, |r| r.entry);
    let mut here = said.clone().filter(|r| r.entry > place);
    let of_the_day = here.clone().filter(|r| r.day == today.day);
    let found_off = |item: &RangeItem| off_before_paper(timeline, *item, entry);
    let off = standing_off(&of_the_day).or_else(|| RangeItem::ALL.into_iter().find(found_off));
    if let Some(item) = off {
        return Some(Due::Off(item));
    }
    let read = |r: &RangeAt| match r.said {
        RangeSaid::AllInOrder(by) => Some((r.entry, by)),
        _ => None,
    };
    let read_today: Vec<(u32, Shooter)> = of_the_day.filter_map(read).collect();
    let Some(last) = read_today.last() else {
        let never_here = place > 0 && here.find_map(read).is_none();
        return Some(if never_here { Due::Place } else { Due::Day });
    };
    let mut incidents = timeline.incidents.iter().filter(|i| i.entry < entry);
    let incident = incidents
        .next_back()
        .map_or(0, |i| over(timeline, i.entry, entry));
    let holds = read_today.iter().filter(|(at, _)| *at > incident);
    let with: Vec<Shooter> = holds.map(|(_, by)| *by).collect();
    if with.is_empty() {
        return Some(Due::Incident);
    }
    let shots = timeline.shots.iter();
    let mut since = shots.filter(|s| (last.0..entry).contains(&s.entry));
    let shot = since.next_back().map(|s| s.shot.by);
    let by = today.by.or(shot).unwrap_or(last.1);
    (!with.contains(&by)).then_some(Due::Shooter(by))
}

/// Where an incident was over, as far as it was by this entry: at the last part
/// that was looked at. A list read before that says nothing of the bow.
fn over(timeline: &Timeline, incident: u32, entry: u32) -> u32 {
    let answers = timeline.answers.iter();
    let of_parts = answers.filter(|a| matches!(a.test.known(), Some(Question::Part(_))));
    let mut since = of_parts
        .map(|a| a.entry)
        .filter(|n| (incident..entry).contains(n));
    since.next_back().unwrap_or(incident)
}

/// The first item whose last word is that it is off.
fn standing_off<'a>(said: &(impl Iterator<Item = &'a RangeAt> + Clone)) -> Option<RangeItem> {
    RangeItem::ALL.into_iter().find(|item| {
        let of_it = said
            .clone()
            .filter(|r| matches!(r.said, RangeSaid::InOrder(i) | RangeSaid::Off(i) if i == *item));
        of_it
            .last()
            .is_some_and(|r| r.said == RangeSaid::Off(*item))
    })
}

/// The items of the list before paper that say of bow or arrows what an item of
/// this list says, and more closely.
const fn looked_at(item: RangeItem) -> &'static [SetupItem] {
    match item {
        RangeItem::Bow => &[SetupItem::Inspection],
        RangeItem::Arrows => &[SetupItem::ArrowFlex, SetupItem::NockFit],
        _ => &[],
    }
}

/// Whether the list before paper found bow or arrows not in order, and neither
/// that item nor this one was said to be in order since. A crack does not heal
/// overnight or at another place, and the whole list in one key does not
/// speak of it.
fn off_before_paper(timeline: &Timeline, item: RangeItem, before: u32) -> bool {
    let said = timeline.range.iter().rev();
    let mut in_order = said.filter(|r| r.entry < before && r.said == RangeSaid::InOrder(item));
    let since = in_order.next().map_or(0, |r| r.entry);
    looked_at(item).iter().any(|found| {
        let mut words = timeline.setup.iter().rev();
        words
            .find(|s| s.item == *found && s.entry < before)
            .is_some_and(|s| s.result == Answer::Off && s.entry > since)
    })
}

/// Whether the last word of this day and place about an item is that it is off,
/// or the list before paper found it so.
pub(crate) fn is_off(timeline: &Timeline, today: Today, item: RangeItem) -> bool {
    if off_before_paper(timeline, item, u32::MAX) {
        return true;
    }
    let about = |r: &&RangeAt| {
        r.day == today.day
            && (matches!(r.said, RangeSaid::InOrder(i) | RangeSaid::Off(i) if i == item)
                || r.said == RangeSaid::OtherPlace)
    };
    let last = timeline.range.iter().rev().find(about);
    last.is_some_and(|r| r.said == RangeSaid::Off(item))
}

/// That all is in order, as one key may say it: not while an item of this day
/// and place stands off.
///
/// # Errors
/// With the item that stands off.
pub(crate) fn all_in_order(timeline: &Timeline, today: Today) -> Result<RangeSaid, RangeItem> {
    if let Some(Due::Off(item)) = due(timeline, today) {
        return Err(item);
    }
    let shot = timeline.shots.last().map(|s| s.shot.by);
    Ok(RangeSaid::AllInOrder(today.by.or(shot).unwrap_or_default()))
}

/// What stood of the list while some shots were made, counted from 1.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stood {
    /// The first of them.
    pub(crate) from: usize,
    /// The last of them.
    pub(crate) to: usize,
    /// How the list stood then.
    pub how: How,
}

/// How the list stood for a shot.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum How {
    /// Gone through on this day with this one shooting.
    Read(NaiveDate, Shooter),
    /// It was due.
    Due(Due),
}

/// What stood when the shots were made.
#[must_use]
pub fn record(timeline: &Timeline) -> Vec<Stood> {
    let mut all: Vec<Stood> = Vec::new();
    for (shot, at) in (1..).zip(&timeline.shots) {
        let today = Today::on(at.at.date_naive()).with(at.shot.by);
        let due = due_before(timeline, today, at.entry);
        let how = due.map_or(How::Read(today.day, at.shot.by), How::Due);
        match all.last_mut() {
            Some(last) if last.how == how => last.to = shot,
            _ => all.push(Stood {
                from: shot,
                to: shot,
                how,
            }),
        }
    }
    all
}

#[cfg(test)]
#[path = "range_found_tests.rs"]
mod found_tests;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::gear::CardText;
    use crate::question::InspectPart;
    use crate::session::{Entry, Event, Shot};
    use crate::setup::tests::COMPOUND;
    use crate::words::{range_item, range_look, range_off, range_stood};
    use RangeSaid::{AllInOrder, InOrder, Off, OtherPlace};
    use Shooter::{Owner, Technician};

    const MONDAY: &str = "2026-03-02";
    const TUESDAY: &str = "2026-03-03";

    fn day(text: &str) -> Today {
        Today::on(text.parse().unwrap())
    }

    fn of(events: &[(&str, Event)]) -> Timeline {
        let entries: Vec<Entry> = (1..)
            .zip(events)
            .map(|(number, (day, event))| Entry {
                together: None,
                number,
                at: format!("{day}T10:15:00+00:00").parse().unwrap(),
                event: event.clone(),
            })
            .collect();
        Timeline::new(&CardText::from_toml(COMPOUND).unwrap(), &entries).unwrap()
    }

    fn shot(by: Shooter) -> Event {
        Event::Shot(Shot {
            by,
            ..Shot::default()
        })
    }

    #[test]
    fn it_is_due_once_a_day() {
        assert_eq!(due(&of(&[]), day(MONDAY)), Some(Due::Day));
        let t = of(&[(MONDAY, AllInOrder(Owner).event())]);
        assert_eq!(due(&t, day(MONDAY)), None);
        assert_eq!(due(&t, day(TUESDAY)), Some(Due::Day));
        // A clock that was set back is another day as well.
        assert_eq!(due(&t, day("2026-03-01")), Some(Due::Day));
    }

    #[test]
    fn another_shooter_hears_it_too_and_the_first_need_not_hear_it_again() {
        let owner = (MONDAY, AllInOrder(Owner).event());
        let t = of(&[owner.clone(), (MONDAY, shot(Technician))]);
        assert_eq!(due(&t, day(MONDAY)), Some(Due::Shooter(Technician)));
        // Set to shoot next is enough to ask.
        let t = of(&[owner.clone(), (MONDAY, shot(Owner))]);
        assert_eq!(due(&t, day(MONDAY)), None);
        let technician = day(MONDAY).with(Technician);
        assert_eq!(due(&t, technician), Some(Due::Shooter(Technician)));
        let both = of(&[owner, (MONDAY, AllInOrder(Technician).event())]);
        assert_eq!(due(&both, technician), None);
        assert_eq!(due(&both, day(MONDAY).with(Owner)), None);
    }

    #[test]
    fn it_is_answered_with_whoever_shoots() {
        let technician = of(&[(MONDAY, AllInOrder(Technician).event())]);
        // Nobody shot since: whoever it was gone through with shoots next.
        assert_eq!(due(&technician, day(MONDAY)), None);
        assert_eq!(
            due(&technician, day(MONDAY).with(Owner)),
            Some(Due::Shooter(Owner))
        );
        let by = |t: &Timeline, today| all_in_order(t, today).unwrap();
        let shot_by = of(&[(MONDAY, shot(Technician))]);
        assert_eq!(by(&shot_by, day(MONDAY)), AllInOrder(Technician));
        assert_eq!(by(&shot_by, day(MONDAY).with(Owner)), AllInOrder(Owner));
        assert_eq!(by(&of(&[]), day(MONDAY)), AllInOrder(Owner));
    }

    #[test]
    fn a_minor_and_a_recurve_have_words_of_their_own() {
        let mut card = of(&[]).card;
        assert!(range_look(RangeItem::Bow, &card, crate::units::System::Mm).contains("cams"));
        card.archer.junior = true;
        assert!(
            range_look(RangeItem::Law, &card, crate::units::System::Mm)
                .contains("an adult beside them")
        );
        card.bow.kind = crate::gear::BowKind::Recurve;
        assert!(!range_look(RangeItem::Bow, &card, crate::units::System::Mm).contains("cams"));
    }

    #[test]
    fn another_place_and_an_incident_ask_for_it_again() {
        let listed = (MONDAY, AllInOrder(Owner).event());
        let moved = (MONDAY, OtherPlace.event());
        let t = of(&[listed.clone(), moved.clone()]);
        assert_eq!(due(&t, day(MONDAY)), Some(Due::Place));
        let t = of(&[listed.clone(), moved, listed.clone()]);
        assert_eq!(due(&t, day(MONDAY)), None);
        let incident = Event::Incident {
            what: "lost nock".into(),
        };
        let t = of(&[listed.clone(), (MONDAY, incident.clone())]);
        assert_eq!(due(&t, day(MONDAY)), Some(Due::Incident));
        let t = of(&[listed.clone(), (MONDAY, incident.clone()), listed.clone()]);
        assert_eq!(due(&t, day(MONDAY)), None);
        // Read while the bow was still to be looked at: it comes again after.
        let looked = crate::trouble::found(InspectPart::Limbs, Answer::Sound);
        let looked = (MONDAY, looked);
        let incident = (MONDAY, incident);
        let t = of(&[incident.clone(), listed.clone(), looked.clone()]);
        assert_eq!(due(&t, day(MONDAY)), Some(Due::Incident));
        let t = of(&[incident, listed.clone(), looked, listed]);
        assert_eq!(due(&t, day(MONDAY)), None);
    }

    #[test]
    fn an_item_that_is_off_is_not_talked_over_by_all_in_order() {
        let off = (MONDAY, Off(RangeItem::Clear).event());
        let listed = (MONDAY, AllInOrder(Owner).event());
        let t = of(&[off.clone(), listed.clone()]);
        assert_eq!(due(&t, day(MONDAY)), Some(Due::Off(RangeItem::Clear)));
        let refused = all_in_order(&t, day(MONDAY)).unwrap_err();
        assert_eq!(refused, RangeItem::Clear);
        assert!(range_off(refused).contains("range-clear ok"));
        let right = (MONDAY, InOrder(RangeItem::Clear).event());
        let t = of(&[off.clone(), listed.clone(), right]);
        assert_eq!(due(&t, day(MONDAY)), None);
        // Another day looks at everything afresh.
        let t = of(&[off, (TUESDAY, AllInOrder(Owner).event())]);
        assert_eq!(due(&t, day(TUESDAY)), None);
    }

    #[test]
    fn an_item_is_off_by_the_last_word_of_the_day_and_place_about_it() {
        let off = |item: RangeItem| (MONDAY, Off(item).event());
        let right = |item: RangeItem| (MONDAY, InOrder(item).event());
        let is =
            |events: &[(&str, Event)], on: &str| is_off(&of(events), day(on), RangeItem::Clear);
        let clear = off(RangeItem::Clear);
        assert!(!is(&[], MONDAY));
        assert!(is(std::slice::from_ref(&clear), MONDAY));
        assert!(!is(std::slice::from_ref(&clear), TUESDAY));
        assert!(!is(&[clear.clone(), right(RangeItem::Clear)], MONDAY));
        assert!(is(&[right(RangeItem::Clear), clear.clone()], MONDAY));
        // What is said of another item, or of all, changes nothing here.
        for other in [
            off(RangeItem::Backstop),
            right(RangeItem::Backstop),
            (MONDAY, AllInOrder(Owner).event()),
        ] {
            assert!(is(&[clear.clone(), other.clone()], MONDAY));
            assert!(!is(&[right(RangeItem::Clear), other], MONDAY));
        }
        // At another place all is looked at afresh.
        assert!(!is(&[clear, (MONDAY, OtherPlace.event())], MONDAY));
    }

    #[test]
    fn a_measured_backstop_that_is_too_near_keeps_the_list_open() {
        let t = of(&[]);
        let near = crate::setup::record(&t, "range-backstop", "1.2 m").unwrap();
        let t = of(&[(MONDAY, near), (MONDAY, AllInOrder(Owner).event())]);
        assert_eq!(due(&t, day(MONDAY)), Some(Due::Off(RangeItem::Backstop)));
    }

    #[test]
    fn the_record_says_for_each_shot_what_stood_then() {
        let t = of(&[
            (MONDAY, shot(Owner)),
            (MONDAY, AllInOrder(Owner).event()),
            (MONDAY, shot(Owner)),
            (MONDAY, shot(Owner)),
            (MONDAY, shot(Technician)),
            (TUESDAY, shot(Owner)),
        ]);
        assert_eq!(
            record(&t).iter().map(range_stood).collect::<Vec<_>>(),
            [
                "Shot 1: not gone through on this day.",
                "Shots 2 to 3: gone through on 2026-03-02, owner shooting.",
                "Shot 4: not gone through with the technician shooting.",
                "Shot 5: not gone through on this day.",
            ]
        );
    }

    #[test]
    fn there_are_eight_short_items() {
        let card = &of(&[]).card;
        for item in RangeItem::ALL {
            let line = format!(
                "{}: {}",
                range_item(item),
                range_look(item, card, crate::units::System::Mm)
            );
            // One row of an 80-column screen.
            assert!(line.chars().count() <= 74, "{line}");
        }
        // 29 in is 0.74 m; half a metre more is 1.24 m.
        assert!(range_look(RangeItem::Backstop, card, crate::units::System::Mm).contains("1.24 m"));
    }
}
