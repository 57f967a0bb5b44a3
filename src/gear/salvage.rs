//! A damaged card, read line by line as far as it goes.

use std::collections::BTreeMap;

use toml::de::{DeTable, DeValue};

use super::field::{self, FIELDS};
use super::text::{CardProblem, CardText, Entered, SECTIONS, as_text};

/// Where a line stands.
enum Place {
    Top,
    Section(&'static str),
    Adjuster,
    /// Under a heading that cannot be read.
    Unknown,
}

impl CardText {
    /// Reads every line of a card that can be read on its own, and names
    /// those that cannot: with their field, where that can be told.
    pub(crate) fn from_toml_as_far_as_it_goes(source: &str) -> (Self, Vec<CardProblem>) {
        let mut card = Self::default();
        let mut problems = Vec::new();
        let mut place = Place::Top;
        for (i, line) in source.lines().enumerate() {
            let text = line.trim();
            if text.is_empty() || text.starts_with('#') {
                continue;
            }
            let taken = if text.starts_with('[') {
                card.take_heading(text, &mut place)
            } else {
                card.take_line(text, i + 1, &place)
            };
            if let Err((field, message)) = taken {
                problems.push(CardProblem::new(Some(i + 1), &field, message));
            }
        }
        (card, problems)
    }

    fn take_heading(&mut self, text: &str, place: &mut Place) -> Result<(), (String, String)> {
        let bare = text.split('#').next().unwrap_or_default().trim();
        if bare == "[[adjuster]]" {
            self.adjusters.push(BTreeMap::new());
            *place = Place::Adjuster;
            return Ok(());
        }
        let name = bare.strip_prefix('[').and_then(|t| t.strip_suffix(']'));
        let found = name.and_then(|name| SECTIONS.iter().find(|s| **s == name.trim()));
        *place = found.map_or(Place::Unknown, |s| Place::Section(s));
        match found {
            Some(_) => Ok(()),
            None => Err((
                String::new(),
                format!(
                    "this heading cannot be read; a card has [{}] and [[adjuster]]",
                    SECTIONS.join("], [")
                ),
            )),
        }
    }

    fn take_line(
        &mut self,
        text: &str,
        line: usize,
        place: &Place,
    ) -> Result<(), (String, String)> {
        let key = text.split('=').next().unwrap_or_default().trim();
        let field = field_at(place, key);
        let refuse = |message: &str| Err((field.clone(), message.to_owned()));
        if text.contains(char::REPLACEMENT_CHARACTER) {
            return refuse("this line is not UTF-8 text");
        }
        let Ok(table) = DeTable::parse(text) else {
            return refuse("this line cannot be read");
        };
        let Some((_, value)) = table.get_ref().iter().next() else {
            return Ok(());
        };
        if let (Place::Top, "format", DeValue::Integer(n)) = (place, key, value.get_ref()) {
            self.format = n.as_str().parse().ok();
            return Ok(());
        }
        let Some(text) = as_text(value.get_ref()) else {
            return refuse("write the value as text with its unit, in quotes");
        };
        let entered = Entered {
            text,
            line: Some(line),
        };
        match place {
            Place::Section(_) if field::find(&field).is_some() => {
                if self.fields.contains_key(&field) {
                    return refuse("stands here twice");
                }
                self.fields.insert(field, entered);
                Ok(())
            }
            Place::Adjuster if field::ADJUSTER_FIELDS.contains(&key) => {
                if let Some(table) = self.adjusters.last_mut() {
                    table.insert(key.to_owned(), entered);
                }
                Ok(())
            }
            Place::Section(_) | Place::Adjuster => refuse("there is no such field"),
            Place::Top | Place::Unknown => refuse("this line stands under no heading"),
        }
    }
}

/// The field a key names where it stands; where the heading cannot be read,
/// the one field of that name if there is only one.
fn field_at(place: &Place, key: &str) -> String {
    match place {
        Place::Section(section) => format!("{section}.{key}"),
        Place::Adjuster => format!("adjuster.{key}"),
        Place::Top | Place::Unknown => {
            let mut named = FIELDS.iter().filter(|f| f.name() == key);
            match (named.next(), named.next()) {
                (Some(field), None) => field.key.to_owned(),
                _ => String::new(),
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_can_be_read_is_read_and_the_rest_is_named_by_line_and_field() {
        let source = "format = 1\n[bow]\nkind = \"compound\"\npeak_weight = \"60 l\nhand = \"r\u{fffd}ght\"\n[a\u{fffd}row]\nspine = 0.4\nname = \"x\"\n[rest]\nkind = \"blade\" # new\n[[adjuster]]\nname = \"rest-height\"\nrange = = 3\n";
        let (card, problems) = CardText::from_toml_as_far_as_it_goes(source);
        assert_eq!(card.get("bow.kind"), Some("compound"));
        assert_eq!(card.get("rest.kind"), Some("blade"));
        assert_eq!(card.adjusters[0]["name"].text, "rest-height");
        let named: Vec<(usize, &str)> = problems
            .iter()
            .map(|p| (p.line.unwrap(), p.field.as_str()))
            .collect();
        let expected = [
            (4, "bow.peak_weight"),
            (5, "bow.hand"),
            (6, ""),
            (7, "arrow.spine"),
            (8, ""),
            (13, "adjuster.range"),
        ];
        assert_eq!(named, expected);
    }

    #[test]
    fn a_sound_card_is_read_as_it_is_read_strictly() {
        let source = crate::fixtures::RECURVE;
        let (card, problems) = CardText::from_toml_as_far_as_it_goes(source);
        assert_eq!(
            (card, problems),
            (CardText::from_toml(source).unwrap(), vec![])
        );
    }
}
