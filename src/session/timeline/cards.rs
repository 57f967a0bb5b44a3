//! Changes of the card, and what they make unknown.

use std::collections::BTreeMap;

use super::{CardChange, Timeline};
use crate::gear::{Card, CardProblem};

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
        let new_arrow = arrow(card) != arrow(&self.card);
        let new_bow = bow(card) != bow(&self.card);
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
