//! A session as tests tell it: a card, the hand, and what happens on it.

use super::{Event, Session, Shot};
use crate::gear::{AdjusterKind, CardText, Step};

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
        let event = Event::Move {
            steps: vec![Step { adjuster, amount }],
            said: None,
            confirms: None,
        };
        self.0.record(event).unwrap();
    }
}
