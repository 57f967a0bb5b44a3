//! What is known of the draw weight once the limb bolts were moved.

use std::collections::BTreeMap;

use super::Timeline;
use crate::gear::{AdjusterKind, Card, CardText, Step};
use crate::question::SetupItem;
use crate::units::Force;

/// The limb bolts since the draw weight was last known: a move of theirs makes
/// it unknown until the bow is weighed. Several moves add up, and what is
/// undone was never made.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Bolts {
    /// Where they stood when the weight was last known, turns from the start,
    /// in positive.
    at_known: f64,
    /// The weight on the card then.
    known: Force,
    /// Whether a weight was entered since the last move.
    entered: bool,
    /// Whether it was said since the last move that the weight was read off a scale.
    off_a_scale: bool,
}

impl Timeline {
    /// Whether the limb bolts were moved since the bow was last weighed, so
    /// that nobody knows its draw weight.
    pub const fn weight_unknown(&self) -> bool {
        self.bolts.is_some()
    }

    /// How many turns the limb bolts stand further in than when the draw
    /// weight was last known, never under zero: a turn out counts as no drop.
    pub fn turns_in_since_weighed(&self) -> f64 {
        self.bolts.map_or(0.0, |bolts| {
            (self.now.get(AdjusterKind::LimbBolts) - bolts.at_known).max(0.0)
        })
    }

    /// The greatest draw weight that was last known or entered since: what
    /// the turns in come on top of. The card's where the weight is known.
    pub(crate) fn weight_before_turns(&self) -> Force {
        let card = self.card.bow.peak_weight;
        match self.bolts {
            Some(bolts) if bolts.known.newtons() > card.newtons() => bolts.known,
            _ => card,
        }
    }

    /// Turns of the limb bolts out from fully seated as they stand now: from
    /// the last count, of the list before paper or of the card, and the moves
    /// since. Where nobody counted, the turns out from the start of the session,
    /// which is the least it can be; the flag says whether they were counted.
    pub fn turns_out(&self) -> (f64, bool) {
        let now = self.now.get(AdjusterKind::LimbBolts);
        let counted = self.setup.iter().rev().find_map(|s| {
            let later = self.turns_said.is_none_or(|said| said < s.entry);
            let text = s
                .value
                .as_deref()
                .filter(|_| later && s.item == SetupItem::LimbBolts)?;
            Some(crate::gear::turns_counted(text)? + s.positions.get(AdjusterKind::LimbBolts))
        });
        let sure = counted.is_some() || !self.card_text.is_unconfirmed("bow.turns_out");
        match counted.or(self.card.bow.turns_out) {
            Some(from_start) => ((from_start - now).max(0.0), sure),
            None => ((-now).max(0.0), false),
        }
    }

    /// Takes note of a move of the limb bolts, before the adjusters are moved;
    /// whether there was one.
    pub(super) fn note_bolts(&mut self, steps: &[Step]) -> bool {
        let moves = |s: &&Step| s.adjuster == AdjusterKind::LimbBolts && s.amount != 0.0;
        if steps.iter().find(moves).is_none() {
            return false;
        }
        let (at_known, known) = match self.bolts {
            Some(bolts) => (bolts.at_known, bolts.known),
            None => (
                self.now.get(AdjusterKind::LimbBolts),
                self.card.bow.peak_weight,
            ),
        };
        self.bolts = Some(Bolts {
            at_known,
            known,
            entered: false,
            off_a_scale: false,
        });
        self.card.bow.weighed = false;
        self.card_text.fields.remove("bow.weighed");
        true
    }

    /// Takes note of a change of the card: a weight entered, and said to be off
    /// a scale, both since the last move, is a weighing.
    pub(super) fn note_weighing(&mut self, set: &BTreeMap<String, String>, card: &mut Card) {
        let Some(bolts) = &mut self.bolts else {
            return;
        };
        bolts.entered |= set.contains_key("bow.peak_weight");
        if set.contains_key("bow.weighed") {
            bolts.off_a_scale = card.bow.weighed;
        }
        if bolts.entered && bolts.off_a_scale {
            self.bolts = None;
        } else {
            card.bow.weighed = false;
        }
    }

    /// The card with the greatest draw weight the bow may have by now at this
    /// many pounds a turn in, and whatever the card derives from it, such as a
    /// maker's least arrow in grains per pound.
    pub(crate) fn card_at_worst(&self, pounds_a_turn: f64) -> Card {
        self.card_drawing(
            self.weight_before_turns().pounds() + pounds_a_turn * self.turns_in_since_weighed(),
        )
    }

    /// The card with this draw weight, and whatever the card derives from it.
    pub(crate) fn card_drawing(&self, worst: f64) -> Card {
        let mut text: CardText = self.card_text.clone();
        let set = text.set("bow.peak_weight", &format!("{worst:.4} lb"));
        match set.ok().and_then(|()| Card::read(&text).ok()) {
            Some((mut card, _)) => {
                card.bow.weighed = self.card.bow.weighed;
                card
            }
            // An absurd weight does not read; it is then put in as it is.
            None => {
                let mut card = self.card.clone();
                card.bow.peak_weight = Force::from_pounds(worst);
                card
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::session::Event;
    use crate::session::told::{moved, set, timeline};
    use crate::setup::tests::COMPOUND;

    fn of(events: Vec<Event>) -> Timeline {
        let card = COMPOUND.replace(
            "peak_weight=\"60 lb\"",
            "peak_weight=\"60 lb\"\nweighed=true",
        );
        timeline(&card, events)
    }

    fn bolts(turns: f64) -> Event {
        moved(AdjusterKind::LimbBolts, turns)
    }

    #[test]
    fn a_bolt_move_makes_the_weight_unknown_and_takes_weighed_off() {
        let t = of(vec![]);
        assert!(!t.weight_unknown() && t.card.bow.weighed);
        for turns in [2.0, -2.0, 0.25] {
            let t = of(vec![bolts(turns)]);
            assert!(t.weight_unknown() && !t.card.bow.weighed, "{turns}");
            assert_eq!(t.card_text.get("bow.weighed"), None);
        }
    }

    #[test]
    fn several_moves_add_up_and_undo_takes_them_off() {
        let turns = |events: Vec<Event>| of(events).turns_in_since_weighed();
        assert_eq!(turns(vec![bolts(1.0), bolts(0.5)]), 1.5);
        assert_eq!(turns(vec![bolts(2.0), bolts(-0.5)]), 1.5);
        assert_eq!(turns(vec![bolts(-2.0)]), 0.0);
        // Out and in again stands where it was weighed.
        assert_eq!(turns(vec![bolts(-2.0), bolts(3.0)]), 1.0);
        let undone = of(vec![bolts(1.0), bolts(0.5), Event::Undo { target: 2 }]);
        assert_eq!(undone.turns_in_since_weighed(), 1.0);
        let all = of(vec![bolts(1.0), Event::Undo { target: 1 }]);
        assert!(!all.weight_unknown() && all.card.bow.weighed);
        assert!(of(vec![bolts(1.0), bolts(-1.0)]).weight_unknown());
    }

    #[test]
    fn a_weighing_needs_the_figure_and_the_word_both_since_the_last_move() {
        let weighed = ("bow.weighed", "true");
        let figure = ("bow.peak_weight", "64 lb");
        let unknown = |events: Vec<Event>| of(events).weight_unknown();
        assert!(!unknown(vec![bolts(2.0), set(&[figure, weighed])]));
        assert!(!unknown(vec![bolts(2.0), set(&[figure]), set(&[weighed])]));
        assert!(!unknown(vec![bolts(2.0), set(&[weighed]), set(&[figure])]));
        assert!(unknown(vec![bolts(2.0), set(&[figure])]));
        assert!(unknown(vec![bolts(2.0), set(&[weighed])]));
        assert!(unknown(vec![
            bolts(2.0),
            set(&[figure, ("bow.weighed", "false")])
        ]));
        assert!(unknown(vec![set(&[figure, weighed]), bolts(2.0)]));
        assert!(unknown(vec![
            bolts(1.0),
            set(&[figure]),
            bolts(1.0),
            set(&[weighed])
        ]));
        // The reckoning starts again from the weighing.
        let again = of(vec![bolts(2.0), set(&[figure, weighed]), bolts(1.0)]);
        assert_eq!(again.turns_in_since_weighed(), 1.0);
        assert_eq!(again.weight_before_turns().pounds().round(), 64.0);
    }

    #[test]
    fn a_lower_weight_that_nobody_weighed_does_not_lower_the_worst_case() {
        let t = of(vec![bolts(2.0), set(&[("bow.peak_weight", "40 lb")])]);
        assert_eq!(t.weight_before_turns().pounds().round(), 60.0);
        assert_eq!(t.card_at_worst(4.0).bow.peak_weight.pounds().round(), 68.0);
        let higher = of(vec![bolts(2.0), set(&[("bow.peak_weight", "66 lb")])]);
        assert_eq!(
            higher.card_at_worst(4.0).bow.peak_weight.pounds().round(),
            74.0
        );
    }

    #[test]
    fn turns_out_are_counted_from_fully_seated_where_somebody_counted() {
        let count = |text: &str| Event::Setup {
            item: "limb-bolts".into(),
            value: Some(text.into()),
            result: "ok".into(),
        };
        assert_eq!(of(vec![bolts(-2.0)]).turns_out(), (2.0, false));
        assert_eq!(of(vec![bolts(2.0)]).turns_out(), (0.0, false));
        assert_eq!(of(vec![count("2 / 2 1/4")]).turns_out(), (2.25, true));
        assert_eq!(
            of(vec![count("2 / 2"), bolts(-3.0)]).turns_out(),
            (5.0, true)
        );
        assert_eq!(
            of(vec![bolts(-3.0), count("5 / 5")]).turns_out(),
            (5.0, true)
        );
        let after = of(vec![bolts(-3.0), count("5 / 5"), bolts(1.0)]);
        assert_eq!(after.turns_out(), (4.0, true));
        let card = |more: Vec<Event>| {
            of([vec![set(&[("bow.turns_out", "2 1/2 turns")])], more].concat()).turns_out()
        };
        assert_eq!(card(vec![bolts(-1.0)]), (3.5, true));
        assert_eq!(card(vec![count("1 / 1")]), (1.0, true));
        // The later word counts, whichever place it was said in; the card's is
        // of the start of the session.
        let said = |turns: &str| set(&[("bow.turns_out", turns)]);
        let later = |events: Vec<Event>| of(events).turns_out();
        assert_eq!(later(vec![count("2 / 2"), said("7 turns")]), (7.0, true));
        assert_eq!(
            later(vec![count("2 / 2"), bolts(-1.0), said("7 turns")]),
            (8.0, true)
        );
        assert_eq!(
            later(vec![count("2 / 2"), said("7 turns"), count("3 / 3")]),
            (3.0, true)
        );
        let off = set(&[("bow.turns_out", "")]);
        assert_eq!(later(vec![count("2 / 2"), off]), (2.0, true));
    }

    #[test]
    fn a_bow_said_to_be_put_back_elsewhere_is_not_weighed_either() {
        let events = vec![
            bolts(2.0),
            set(&[("bow.peak_weight", "66 lb"), ("bow.weighed", "true")]),
            Event::Restart {
                setting: Some(1),
                why: None,
            },
        ];
        let t = of(events);
        assert!(t.weight_unknown());
        assert_eq!(t.turns_in_since_weighed(), 0.0);
    }
}
