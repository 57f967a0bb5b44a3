//! Values that nobody entered or confirmed.
//!
//! A console that begins a card fills in usual values. Each of them is a
//! default until somebody confirms it: its key stands in the card's own list
//! `unconfirmed`, at the top of the file, and comes off as soon as the field
//! is set, be it to the same value. A card without the list, such as one given
//! to `tearbench new --card` or of a session from before the list was kept,
//! was entered by hand in every value.
//!
//! A file with the list is of format 2. A program that knows format 1 alone
//! still opens it, for reading only.

use std::collections::BTreeSet;

use super::field;
use super::text::{CardProblem, CardText, quote};
use crate::units::clean;

/// A value, or a group of them, that nobody entered or confirmed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unconfirmed {
    /// The draw weight.
    DrawWeight,
    /// The draw length.
    DrawLength,
    /// What kind of bow it is.
    BowKind,
    /// The archer's hand.
    Hand,
    /// How the string is let go.
    Release,
    /// What kind of rest it has.
    Rest,
    /// How far the rest goes.
    RestTravel,
    /// The tolerance.
    Tolerance,
    /// Any value of the arrow.
    Arrow,
}

/// Which value a key stands for, in the order they are said.
const KEYS: &[(&str, Unconfirmed)] = &[
    ("bow.peak_weight", Unconfirmed::DrawWeight),
    ("bow.draw_length", Unconfirmed::DrawLength),
    ("bow.kind", Unconfirmed::BowKind),
    ("bow.hand", Unconfirmed::Hand),
    ("bow.release", Unconfirmed::Release),
    ("rest.kind", Unconfirmed::Rest),
    ("rest.travel", Unconfirmed::RestTravel),
    ("paper.tolerance", Unconfirmed::Tolerance),
];

impl CardText {
    /// Puts a usual value on the card that nobody entered.
    ///
    /// # Errors
    /// When there is no such field.
    pub(crate) fn fill(&mut self, key: &str, value: &str) -> Result<(), CardProblem> {
        self.set(key, value)?;
        if self.fields.contains_key(key) {
            self.unconfirmed.insert(key.to_owned());
        }
        Ok(())
    }

    /// Whether a field holds a value that nobody entered or confirmed.
    pub fn is_unconfirmed(&self, key: &str) -> bool {
        self.unconfirmed.contains(key) && self.fields.contains_key(key)
    }

    /// Which of these values nobody entered or confirmed.
    pub(crate) fn unconfirmed_of(&self, keys: &[&str]) -> Vec<Unconfirmed> {
        let open: BTreeSet<&str> = keys
            .iter()
            .copied()
            .filter(|key| self.is_unconfirmed(key))
            .collect();
        let bow = KEYS.iter().filter(|(key, _)| open.contains(key));
        let mut found: Vec<Unconfirmed> = bow.map(|(_, value)| *value).collect();
        if open.iter().any(|key| key.starts_with("arrow.")) {
            found.push(Unconfirmed::Arrow);
        }
        found
    }

    /// Takes the list from a file.
    pub(super) fn read_unconfirmed(
        &mut self,
        keys: impl Iterator<Item = String>,
        line: Option<usize>,
    ) -> Vec<CardProblem> {
        let mut problems = Vec::new();
        for key in keys {
            if field::find(&key).is_some() {
                self.unconfirmed.insert(key);
            } else {
                let message = format!(
                    "'{}' is no field; list keys of the card such as bow.peak_weight",
                    clean(&key)
                );
                problems.push(CardProblem::new(line, "unconfirmed", message));
            }
        }
        problems
    }

    /// The list as it stands in the file; empty where everything was entered.
    pub(super) fn unconfirmed_toml(&self) -> String {
        let open: Vec<String> = field::FIELDS
            .iter()
            .filter(|f| self.is_unconfirmed(f.key))
            .map(|f| format!("    {},\n", quote(f.key)))
            .collect();
        if open.is_empty() {
            return String::new();
        }
        format!("unconfirmed = [\n{}]\n", open.concat())
    }

    /// Whether any value on the card waits to be confirmed.
    pub(crate) fn any_unconfirmed(&self) -> bool {
        self.fields.keys().any(|key| self.is_unconfirmed(key))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn filled() -> CardText {
        let mut card = CardText::default();
        for (key, value) in [
            ("bow.peak_weight", "60 lb"),
            ("bow.draw_length", "29 in"),
            ("arrow.spine", "0.400"),
            ("arrow.point_mass", "125 gr"),
        ] {
            card.fill(key, value).unwrap();
        }
        card.set("bow.name", "blue").unwrap();
        card
    }

    #[test]
    fn a_value_that_was_filled_in_is_confirmed_by_setting_it_to_anything_or_to_itself() {
        let mut card = filled();
        let keys = [
            "bow.peak_weight",
            "arrow.spine",
            "arrow.point_mass",
            "bow.name",
        ];
        assert_eq!(
            card.unconfirmed_of(&keys),
            [Unconfirmed::DrawWeight, Unconfirmed::Arrow]
        );
        card.set("bow.peak_weight", "60 lb").unwrap();
        assert_eq!(card.unconfirmed_of(&keys), [Unconfirmed::Arrow]);
        card.set("arrow.spine", "0.350").unwrap();
        assert_eq!(card.unconfirmed_of(&keys), [Unconfirmed::Arrow]);
        card.set("arrow.point_mass", "125 gr").unwrap();
        assert_eq!(card.unconfirmed_of(&keys), []);
        assert!(card.is_unconfirmed("bow.draw_length"));
        assert_eq!(
            filled().unconfirmed_of(&["bow.draw_length", "arrow.spine", "bow.peak_weight"]),
            [
                Unconfirmed::DrawWeight,
                Unconfirmed::DrawLength,
                Unconfirmed::Arrow
            ]
        );
    }

    #[test]
    fn the_mark_stands_in_the_file_and_a_program_of_format_1_still_opens_it() {
        let card = filled();
        let text = card.to_toml();
        assert!(
            text.starts_with("format = 2\nunconfirmed = [\n    \"bow.peak_weight\",\n"),
            "{text}"
        );
        assert_eq!(
            CardText::from_toml(&text).unwrap().unconfirmed,
            card.unconfirmed
        );
        // Everything entered: nothing that format 1 does not know.
        let mut entered = filled();
        for key in card.unconfirmed {
            let value = entered.get(&key).unwrap().to_owned();
            entered.set(&key, &value).unwrap();
        }
        assert!(entered.to_toml().starts_with("format = 1\n\n[bow]"));
        entered.set("bow.maker_max_turns", "6 turns").unwrap();
        assert!(entered.to_toml().starts_with("format = 2\n"));
    }

    #[test]
    fn a_card_without_the_list_was_entered_by_hand_and_a_wrong_key_is_named() {
        let card = CardText::from_toml("[bow]\npeak_weight = \"60 lb\"\n").unwrap();
        assert!(!card.is_unconfirmed("bow.peak_weight"));
        let wrong = "format = 2\nunconfirmed = [\"bow.weight\"]\n[bow]\npeak_weight = \"60 lb\"\n";
        let problems = CardText::from_toml(wrong).unwrap_err();
        assert_eq!(
            (problems[0].line, problems[0].field.as_str()),
            (Some(2), "unconfirmed")
        );
        // A listed field that is not on the card marks nothing.
        let bare = CardText::from_toml("unconfirmed = [\"bow.speed\"]\n").unwrap();
        assert!(!bare.is_unconfirmed("bow.speed"));
    }
}
