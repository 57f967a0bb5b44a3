//! A session as tests tell it: a card, the hand, and what happens on it.

use super::{Entry, Event, Session, Shot, Timeline};
use crate::gear::{AdjusterKind, CardText, Step};

/// What these events add up to on this card, as entries from 1 on.
pub(crate) fn timeline(card: &str, events: impl IntoIterator<Item = Event>) -> Timeline {
    timeline_of(&CardText::from_toml(card).unwrap(), events)
}

/// The same on a card that was read.
pub(crate) fn timeline_of(card: &CardText, events: impl IntoIterator<Item = Event>) -> Timeline {
    let entries: Vec<Entry> = (1..).zip(events).map(|(n, e)| Entry::now(n, e)).collect();
    Timeline::new(card, &entries).unwrap()
}

/// An adjuster is moved.
pub(crate) fn moved(adjuster: AdjusterKind, amount: f64) -> Event {
    Event::Move {
        steps: vec![Step { adjuster, amount }],
        said: None,
        confirms: None,
    }
}

/// Fields of the card are set.
pub(crate) fn set(fields: &[(&str, &str)]) -> Event {
    let fields = fields.iter().map(|(k, v)| ((*k).into(), (*v).into()));
    Event::card(fields.collect())
}

/// An item of the list before paper is measured, and in order.
pub(crate) fn measured(item: &str, value: &str) -> Event {
    Event::Setup {
        item: item.into(),
        value: Some(value.into()),
        result: "ok".into(),
    }
}

/// A bow that things happen to.
pub(crate) struct Bow(pub(crate) Session);

impl Bow {
    /// With this card, in this hand, and these fields set.
    pub(crate) fn new(card: &str, hand: &str, set: &[(&str, &str)]) -> Self {
        let mut text = CardText::from_toml(card).unwrap();
        text.set("bow.hand", hand).unwrap();
        for (key, value) in set {
            text.set(key, value).unwrap();
        }
        Self(Session::from_text(&text.to_toml()).unwrap())
    }

    /// Tears right and up, mm, shot one after another.
    pub(crate) fn shoot(&mut self, tears: &[(f64, f64)]) {
        for (right, up) in tears {
            let shot = Shot {
                right: *right,
                up: *up,
                ..Shot::default()
            };
            self.0.record(Event::Shot(shot)).unwrap();
        }
    }

    /// A test is answered.
    pub(crate) fn answer(&mut self, test: &str, result: &str) {
        self.0.record(Event::answer(test, result)).unwrap();
    }

    /// An adjuster is moved.
    pub(crate) fn moved(&mut self, adjuster: AdjusterKind, amount: f64) {
        self.0.record(moved(adjuster, amount)).unwrap();
    }
}
