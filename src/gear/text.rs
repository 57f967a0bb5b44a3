//! A card as a person writes it: keys and texts, with the lines they stand on.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt;

use toml::de::{DeTable, DeValue};

use super::adjuster::AdjusterKind;
use super::field;
use crate::units::clean;

/// What is wrong with a card, where, and what would be right.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CardProblem {
    /// Line in the file, from 1, where known.
    pub line: Option<usize>,
    /// Field such as `bow.peak_weight`; empty for a syntax error.
    pub(crate) field: String,
    /// What is wrong and what would be right.
    pub(crate) message: String,
}

impl CardProblem {
    pub(crate) fn new(line: Option<usize>, field: &str, message: impl Into<String>) -> Self {
        Self {
            line,
            field: field.into(),
            message: message.into(),
        }
    }
}

impl fmt::Display for CardProblem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Some(line) = self.line {
            write!(f, "line {line}: ")?;
        }
        if !self.field.is_empty() {
            write!(f, "{}: ", clean(&self.field))?;
        }
        f.write_str(&self.message)
    }
}

/// A value as entered, and the line it stands on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Entered {
    /// The text, unquoted.
    pub text: String,
    /// Line in the file, from 1; `None` when changed since.
    pub line: Option<usize>,
}

/// A card as text: every field that was entered, by key.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct CardText {
    /// Fields by `section.key`.
    pub(crate) fields: BTreeMap<String, Entered>,
    /// `[[adjuster]]` tables, in order.
    pub adjusters: Vec<BTreeMap<String, Entered>>,
    /// Keys whose value the program filled in and nobody confirmed yet.
    pub(crate) unconfirmed: BTreeSet<String>,
    /// Format version, where the file names one.
    pub(crate) format: Option<u32>,
}

/// The newest file format this program writes.
pub(crate) const FORMAT: u32 = 2;

pub(super) const SECTIONS: &[&str] = &["bow", "rest", "arrow", "archer", "paper", "job"];

impl CardText {
    /// Reads the TOML of a card.
    ///
    /// # Errors
    /// A syntax error, an unknown section or field, or a value that is
    /// neither text, number nor flag; all problems found are returned.
    pub fn from_toml(source: &str) -> Result<Self, Vec<CardProblem>> {
        let table = DeTable::parse(source).map_err(|error| {
            let line = error.span().map(|span| line_of(source, span.start));
            vec![CardProblem::new(
                line,
                "",
                format!("TOML: {}", first_line(error.message())),
            )]
        })?;
        let mut card = Self::default();
        let mut problems = Vec::new();
        for (key, value) in table.get_ref() {
            let line = Some(line_of(source, key.span().start));
            match (key.get_ref().as_ref(), value.get_ref()) {
                ("format", DeValue::Integer(n)) => card.format = n.as_str().parse().ok(),
                ("unconfirmed", DeValue::Array(keys)) => {
                    let texts = keys
                        .iter()
                        .map(|k| as_text(k.get_ref()).unwrap_or_default());
                    problems.extend(card.read_unconfirmed(texts, line));
                }
                ("adjuster", DeValue::Array(tables)) => {
                    for item in tables {
                        match item.get_ref() {
                            DeValue::Table(table) => {
                                let entered = read_adjuster(source, table, &mut problems);
                                card.adjusters.push(entered);
                            }
                            _ => problems.push(CardProblem::new(
                                line,
                                "adjuster",
                                "write each adjuster as a table headed [[adjuster]]",
                            )),
                        }
                    }
                }
                (section, DeValue::Table(table)) if SECTIONS.contains(&section) => {
                    card.read_section(source, section, table, &mut problems);
                }
                (other, _) => problems.push(CardProblem::new(
                    line,
                    other,
                    format!(
                        "no such section; a card has [{}] and [[adjuster]]",
                        SECTIONS.join("], [")
                    ),
                )),
            }
        }
        // What a later format added is left alone: such a file is only read.
        if problems.is_empty() || card.format.is_some_and(|f| f > FORMAT) {
            Ok(card)
        } else {
            Err(problems)
        }
    }

    fn read_section(
        &mut self,
        source: &str,
        section: &str,
        table: &DeTable<'_>,
        problems: &mut Vec<CardProblem>,
    ) {
        for (key, value) in table {
            let name = format!("{section}.{}", key.get_ref());
            let line = line_of(source, key.span().start);
            if field::find(&name).is_none() {
                problems.push(unknown(Some(line), &name));
            } else if let Some(text) = as_text(value.get_ref()) {
                self.fields.insert(
                    name,
                    Entered {
                        text,
                        line: Some(line),
                    },
                );
            } else {
                problems.push(CardProblem::new(
                    Some(line),
                    &name,
                    "write the value as text with its unit, in quotes",
                ));
            }
        }
    }

    /// Sets one field, as `card FILE key=value` does: it counts as entered. An
    /// empty value takes the field off the card. `adjuster.NAME.key` sets a key of an adjuster,
    /// listing it where it is not listed yet; an empty `adjuster.NAME.name`
    /// takes the adjuster off.
    ///
    /// # Errors
    /// When there is no such field.
    pub fn set(&mut self, key: &str, value: &str) -> Result<(), CardProblem> {
        if let Some(rest) = key.strip_prefix("adjuster.") {
            return self.set_adjuster(key, rest, value);
        }
        if field::find(key).is_none() {
            return Err(unknown(None, key));
        }
        self.unconfirmed.remove(key);
        if value.trim().is_empty() {
            self.fields.remove(key);
        } else {
            self.fields.insert(
                key.into(),
                Entered {
                    text: value.trim().into(),
                    line: None,
                },
            );
        }
        Ok(())
    }

    fn set_adjuster(&mut self, key: &str, rest: &str, value: &str) -> Result<(), CardProblem> {
        let Some((name, item)) = rest.rsplit_once('.') else {
            return Err(CardProblem::new(
                None,
                key,
                "write adjuster.NAME.KEY, such as adjuster.rest-sideways.range",
            ));
        };
        if !field::ADJUSTER_FIELDS.contains(&item) {
            return Err(CardProblem::new(
                None,
                key,
                format!("an adjuster has {}", field::ADJUSTER_FIELDS.join(", ")),
            ));
        }
        let index = self
            .adjusters
            .iter()
            .position(|a| a.get("name").is_some_and(|n| n.text == name));
        if value.trim().is_empty() {
            let Some(index) = index else {
                return Err(CardProblem::new(
                    None,
                    key,
                    format!("the card lists no adjuster {}", clean(name)),
                ));
            };
            if item == "name" {
                self.adjusters.remove(index);
            } else {
                self.adjusters[index].remove(item);
            }
            return Ok(());
        }
        let index = index.unwrap_or_else(|| self.add_adjuster(name));
        self.adjusters[index].insert(
            item.into(),
            Entered {
                text: value.trim().into(),
                line: None,
            },
        );
        Ok(())
    }

    /// A table for an adjuster, in the order the kinds stand in.
    fn add_adjuster(&mut self, name: &str) -> usize {
        let rank = |name: &str| AdjusterKind::from_id(name).map_or(usize::MAX, AdjusterKind::index);
        let own = rank(name);
        let after =
            |a: &BTreeMap<String, Entered>| a.get("name").is_some_and(|n| rank(&n.text) > own);
        let at = self.adjusters.iter().position(after);
        let at = at.unwrap_or(self.adjusters.len());
        let named = Entered {
            text: name.into(),
            line: None,
        };
        let table = BTreeMap::from([("name".to_owned(), named)]);
        self.adjusters.insert(at, table);
        at
    }

    /// The entered text of a field.
    pub fn get(&self, key: &str) -> Option<&str> {
        self.fields.get(key).map(|entered| entered.text.as_str())
    }

    /// The line a field stands on.
    pub fn line(&self, key: &str) -> Option<usize> {
        self.fields.get(key).and_then(|entered| entered.line)
    }

    /// The card as TOML, sections in the order of the card screen.
    pub fn to_toml(&self) -> String {
        let mut out = format!("format = {}\n", super::format::of_card(self));
        out.push_str(&self.unconfirmed_toml());
        for section in SECTIONS {
            let mut lines = String::new();
            for field in field::FIELDS.iter().filter(|f| f.section() == *section) {
                if let Some(text) = self.get(field.key) {
                    lines.push_str(&format!("{} = {}\n", field.name(), quote(text)));
                }
            }
            if !lines.is_empty() {
                out.push_str(&format!("\n[{section}]\n{lines}"));
            }
        }
        for adjuster in &self.adjusters {
            out.push_str("\n[[adjuster]]\n");
            for key in field::ADJUSTER_FIELDS {
                if let Some(entered) = adjuster.get(*key) {
                    out.push_str(&format!("{key} = {}\n", quote(&entered.text)));
                }
            }
        }
        out
    }
}

fn unknown(line: Option<usize>, name: &str) -> CardProblem {
    let hint = field::nearest(name).map_or_else(
        || "the README lists what a card may hold".to_owned(),
        |near| format!("did you mean {near}?"),
    );
    CardProblem::new(line, name, format!("no such field; {hint}"))
}

fn read_adjuster(
    source: &str,
    table: &DeTable<'_>,
    problems: &mut Vec<CardProblem>,
) -> BTreeMap<String, Entered> {
    let mut entered = BTreeMap::new();
    for (key, value) in table {
        let line = line_of(source, key.span().start);
        let name = key.get_ref().to_string();
        if !field::ADJUSTER_FIELDS.contains(&name.as_str()) {
            let message = format!(
                "no such field; an adjuster has {}",
                field::ADJUSTER_FIELDS.join(", ")
            );
            problems.push(CardProblem::new(
                Some(line),
                &format!("adjuster.{name}"),
                message,
            ));
        } else if let Some(text) = as_text(value.get_ref()) {
            entered.insert(
                name,
                Entered {
                    text,
                    line: Some(line),
                },
            );
        } else {
            problems.push(CardProblem::new(
                Some(line),
                &format!("adjuster.{name}"),
                "write the value as text with its unit, in quotes",
            ));
        }
    }
    entered
}

pub(super) fn as_text(value: &DeValue<'_>) -> Option<String> {
    match value {
        DeValue::String(text) => Some(text.to_string()),
        DeValue::Integer(n) => Some(n.as_str().to_owned()),
        DeValue::Float(x) => Some(x.as_str().to_owned()),
        DeValue::Boolean(flag) => Some(flag.to_string()),
        DeValue::Datetime(date) => Some(date.to_string()),
        DeValue::Array(_) | DeValue::Table(_) => None,
    }
}

/// A text as a one-line TOML basic string.
pub(crate) fn quote(text: &str) -> String {
    let mut out = String::with_capacity(text.len() + 2);
    out.push('"');
    for c in text.chars() {
        match c {
            '"' => out.push_str("\\\""),
            '\\' => out.push_str("\\\\"),
            '\n' => out.push_str("\\n"),
            '\t' => out.push_str("\\t"),
            c if c.is_control() => out.push_str(&format!("\\u{:04X}", c as u32)),
            c => out.push(c),
        }
    }
    out.push('"');
    out
}

/// The line, from 1, of a byte offset.
pub(crate) fn line_of(source: &str, offset: usize) -> usize {
    source.as_bytes()[..offset.min(source.len())]
        .iter()
        .filter(|b| **b == b'\n')
        .count()
        + 1
}

fn first_line(message: &str) -> String {
    clean(message.lines().next().unwrap_or("cannot be read"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_card_survives_writing_and_reading() {
        let source = "[bow]\nkind = \"compound\"\nname = \"a \\\"red\\\" one\\n\"\n[[adjuster]]\nname = \"rest-height\"\nrange = \"3 mm\"\n";
        let card = CardText::from_toml(source).unwrap();
        let again = CardText::from_toml(&card.to_toml()).unwrap();
        assert_eq!(again.get("bow.name"), Some("a \"red\" one\n"));
        assert_eq!(again.adjusters[0]["range"].text, "3 mm");
        assert_eq!(again.format, Some(1));
    }

    #[test]
    fn an_adjuster_is_listed_changed_and_taken_off_by_its_name() {
        let mut card = CardText::from_toml("[[adjuster]]\nname = \"yoke-twist\"\n").unwrap();
        card.set("adjuster.rest-sideways.step", "0.2 mm").unwrap();
        let names = |card: &CardText| -> Vec<String> {
            let tables = card.adjusters.iter();
            tables.map(|a| a["name"].text.clone()).collect()
        };
        assert_eq!(names(&card), ["rest-sideways", "yoke-twist"]);
        card.set("adjuster.rest-sideways.step", "").unwrap();
        assert_eq!(card.adjusters[0].len(), 1);
        card.set("adjuster.rest-sideways.name", "").unwrap();
        assert_eq!(names(&card), ["yoke-twist"]);
        let problem = card.set("adjuster.cam-shim.name", "").unwrap_err();
        assert!(problem.to_string().contains("no adjuster cam-shim"));
        assert_eq!(names(&card), ["yoke-twist"]);
    }

    #[test]
    fn problems_name_the_line_the_field_and_what_would_be_right() {
        let problems =
            CardText::from_toml("[bow]\nkind = \"compound\"\npeak_wieght = \"60 lb\"\n[string]\n")
                .unwrap_err();
        let text: Vec<String> = problems.iter().map(ToString::to_string).collect();
        assert!(text.iter().any(|t| t.starts_with("line 3: bow.peak_wieght") && t.contains("bow.peak_weight?")), "{text:?}");
        assert!(
            text.iter().any(|t| t.contains("no such section")),
            "{text:?}"
        );
        let problems = CardText::from_toml("[bow]\nkind == \"compound\"\n").unwrap_err();
        assert_eq!(problems[0].line, Some(2));
    }
}
