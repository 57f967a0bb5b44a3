//! Changes of the card, and what they make unknown.

use std::collections::BTreeMap;

use super::{CardChange, Timeline};
use crate::gear::{Card, CardProblem};

/// What a change of the card makes unknown again.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Resets {
    /// Another arrow: the likely tear and the learned response.
    Arrow,
    /// Another bow, release or rest: the likely tear.
    Bow,
}

/// What is unknown again when one card takes the place of another; the
/// larger of the two where both changed.
pub fn resets(before: &Card, after: &Card) -> Option<Resets> {
    let arrow = |c: &Card| {
        let a = &c.arrow;
        (
            a.shaft_length,
            a.spine,
            a.shaft_mass,
            a.next_point(),
            a.nock_mass,
            a.vane_mass,
        )
    };
    let bow = |c: &Card| {
        let b = &c.bow;
        (
            b.kind,
            b.hand,
            b.release,
            b.draw_length,
            b.brace_height,
            c.rest.kind,
        )
    };
    if arrow(before) != arrow(after) {
        return Some(Resets::Arrow);
    }
    (bow(before) != bow(after)).then_some(Resets::Bow)
}

impl Timeline {
    /// Takes a change of the card; one that cannot be applied is a warning.
    pub(super) fn take_card(&mut self, number: u32, set: &BTreeMap<String, String>) {
        let mut text = self.card_text.clone();
        let applied: Result<(), CardProblem> =
            set.iter().try_for_each(|(key, value)| text.set(key, value));
        let read = applied
            .map_err(|p| vec![p])
            .and_then(|()| Card::read(&text));
        match read {
            Ok((mut card, warnings)) => {
                self.note_changes(&card);
                self.note_weighing(set, &mut card);
                self.card_changes.push(CardChange {
                    entry: number,
                    before: Box::new(self.card.clone()),
                    after: Box::new(card.clone()),
                });
                self.card = card;
                self.card_text = text;
                self.warnings = warnings;
            }
            Err(problems) => self.warnings.extend(problems),
        }
    }

    /// A changed arrow restarts the mean and the arrow type; a changed bow the mean.
    fn note_changes(&mut self, card: &Card) {
        let (new_arrow, new_bow) = match resets(&self.card, card) {
            Some(Resets::Arrow) => (true, false),
            Some(Resets::Bow) => (false, true),
            None => (false, false),
        };
        let weight = |c: &Card| (c.bow.peak_weight, c.bow.let_off, c.bow.speed);
        if new_arrow {
            self.arrow_epoch += 1;
        }
        if new_arrow || new_bow || weight(card) != weight(&self.card) {
            self.prior = None;
        }
        // A corrected weight is the same bow, known better; its shots still hold.
        if (new_arrow || new_bow) && !self.shots.is_empty() {
            self.epoch += 1;
            self.add_setting(None);
        }
    }
}
