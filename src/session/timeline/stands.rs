//! What safety rests on, as it stood from entry to entry.

use std::collections::{BTreeMap, BTreeSet};

use super::{Holes, Setting, SetupAt, Timeline};
use crate::gear::{AdjusterKind, Card, CardText, Positions};

/// What safety rests on, from one entry to the next that changes it.
#[derive(Debug, Clone)]
pub(crate) struct Stand {
    /// The first entry it holds for; 0 as the session began.
    pub(crate) from: u32,
    /// The change of the card that made it so, if one did.
    pub(crate) by_card: Option<u32>,
    /// The card, the limb bolts and the incident that stops, and nothing else.
    pub(crate) timeline: Box<Timeline>,
}

impl Timeline {
    /// What safety rested on, in the order of the entries.
    pub(crate) fn stands(&self) -> &[Stand] {
        &self.stands
    }

    /// What safety rested on when an entry was made.
    pub(crate) fn stood_at(&self, entry: u32) -> Option<&Timeline> {
        let stand = self.stands.iter().rev().find(|s| s.from <= entry)?;
        Some(&stand.timeline)
    }

    /// Takes note of how it stands from this entry on.
    pub(super) fn note_stand(&mut self, from: u32, by_card: Option<u32>) {
        let timeline = Box::new(self.for_safety());
        self.stands.push(Stand {
            from,
            by_card,
            timeline,
        });
    }

    /// A card and nothing recorded on it.
    pub(super) fn of_card(card: Card, card_text: CardText) -> Self {
        Self {
            card,
            card_text,
            warnings: Vec::new(),
            settings: vec![Setting {
                number: 1,
                positions: Positions::default(),
                by_move: None,
                epoch: 0,
            }],
            shots: Vec::new(),
            moves: Vec::new(),
            now: Positions::default(),
            last_way: [0.0; AdjusterKind::ALL.len()],
            pending: None,
            answers: Vec::new(),
            setup: Vec::new(),
            range: Vec::new(),
            groups: Vec::new(),
            incidents: Vec::new(),
            prior: None,
            learned: None,
            bolts: None,
            turns_said: None,
            said: BTreeMap::new(),
            stands: Vec::new(),
            unread: BTreeMap::new(),
            next_bare: false,
            epoch: 0,
            arrow_epoch: 0,
            closed: None,
            undone: BTreeSet::new(),
            can_undo: None,
            can_redo: None,
            entries: 0,
            holes: Holes::default(),
        }
    }

    fn for_safety(&self) -> Self {
        let rests_on = |s: &&SetupAt| s.item.known().is_some_and(Self::safety_rests_on);
        let counts = self.setup.iter().filter(rests_on);
        let mut own = Self {
            setup: counts.cloned().collect(),
            now: self.now,
            bolts: self.bolts,
            turns_said: self.turns_said,
            said: self.said.clone(),
            arrow_epoch: self.arrow_epoch,
            settings: vec![Setting {
                positions: self.now,
                ..self.settings[0].clone()
            }],
            ..Self::of_card(self.card.clone(), self.card_text.clone())
        };
        if let Some(incident) = self.open_incident() {
            own.incidents = vec![incident.clone()];
            own.answers.clone_from(&self.answers);
        }
        own
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::session::Event;
    use crate::session::told::{moved, set, timeline};
    use crate::setup::tests::COMPOUND;

    fn of(events: Vec<Event>) -> Timeline {
        timeline(COMPOUND, events)
    }

    #[test]
    fn card_and_bolts_make_a_stand_and_a_rest_move_does_not() {
        let t = of(vec![
            moved(AdjusterKind::RestSideways, 1.0),
            moved(AdjusterKind::LimbBolts, -2.0),
            set(&[("bow.maker_max_turns", "6 turns")]),
        ]);
        let from: Vec<(u32, Option<u32>)> =
            t.stands().iter().map(|s| (s.from, s.by_card)).collect();
        assert_eq!(from, [(0, None), (2, None), (3, Some(3))]);
        let turns = |entry| t.stood_at(entry).unwrap().turns_out().0;
        assert_eq!([turns(1), turns(2), turns(3)], [0.0, 2.0, 2.0]);
        assert!(!t.stood_at(1).unwrap().weight_unknown());
        assert!(t.stood_at(2).unwrap().weight_unknown());
    }

    #[test]
    fn what_can_be_read_of_a_change_is_taken_and_the_rest_is_named() {
        let t = of(vec![set(&[
            ("bow.maker_max_weight", "abc"),
            ("bow.no_such", "1"),
            ("bow.peak_weight", "72 lb"),
        ])]);
        assert_eq!(t.card.bow.peak_weight.pounds().round(), 72.0);
        let unread: Vec<&String> = t.unread.keys().collect();
        assert_eq!(unread, ["bow.maker_max_weight", "bow.no_such"]);
        assert!(!t.warnings.is_empty());
        // Given again as it should be.
        let t = of(vec![
            set(&[("bow.maker_max_weight", "abc")]),
            set(&[("bow.maker_max_weight", "75 lb")]),
        ]);
        assert!(t.unread.is_empty());
    }
}
