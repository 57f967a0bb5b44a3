//! A damaged card: read as far as it goes, with every line that cannot be
//! read and every field that is missing named, and mended by what is recorded
//! later.

use std::collections::BTreeMap;

use super::entry::{Entry, Event};
use super::timeline::undone;
use crate::gear::field::{self, FIELDS};
use crate::gear::{Card, CardProblem, CardText, Entered};

/// The card of a file as far as it could be read.
#[derive(Debug, Clone)]
pub(super) struct CardRead {
    /// As it stands at the head of the file.
    pub(super) text: CardText,
    /// With what was recorded later in the place of what is damaged.
    pub(super) readable: CardText,
    /// The same, with examples where something is still missing.
    pub(super) complete: CardText,
    /// Lines that cannot be read and are not mended.
    pub(super) lost: Vec<CardProblem>,
    /// Fields without which it is no card.
    pub(super) missing: Vec<CardProblem>,
    /// Every line that cannot be read.
    spoiled: Vec<CardProblem>,
}

/// Reads the head of a file.
///
/// # Errors
/// What is wrong, where nothing of it is a card.
pub(super) fn read_card(header: &str, entries: &[Entry]) -> Result<CardRead, Vec<CardProblem>> {
    let strict = CardText::from_toml(header);
    let text_only = !header.contains(char::REPLACEMENT_CHARACTER);
    let (text, mut spoiled) = match strict {
        Ok(text) if text_only => (text, Vec::new()),
        strict => {
            let (text, spoiled) = CardText::from_toml_as_far_as_it_goes(header);
            if text.fields.is_empty() {
                return Err(strict.err().unwrap_or(spoiled));
            }
            (text, spoiled)
        }
    };
    let mut text = text;
    take_off_wrong_values(&mut text, &mut spoiled);
    let mut card = CardRead {
        readable: text.clone(),
        complete: text.clone(),
        text,
        lost: Vec::new(),
        missing: Vec::new(),
        spoiled,
    };
    card.mend(entries);
    Ok(card)
}

/// A value that cannot be right is as good as a line that cannot be read.
fn take_off_wrong_values(text: &mut CardText, spoiled: &mut Vec<CardProblem>) {
    for _ in 0..=FIELDS.len() {
        let Err(problems) = Card::read(text) else {
            return;
        };
        let mut found = false;
        for problem in problems {
            let field = text.fields.remove(&problem.field).is_some();
            if field || take_off_adjuster_line(text, problem.line) {
                found = true;
                spoiled.push(problem);
            }
        }
        if !found {
            return;
        }
    }
}

/// Takes a line of an adjuster off; the whole adjuster where it is its name.
fn take_off_adjuster_line(text: &mut CardText, line: Option<usize>) -> bool {
    let own = |a: &BTreeMap<String, Entered>| {
        let mut keys = a.iter();
        keys.find(|(_, e)| line.is_some() && e.line == line)
            .map(|(key, _)| key.clone())
    };
    let mut place = text.adjusters.iter().enumerate();
    let Some((i, key)) = place.find_map(|(i, a)| Some((i, own(a)?))) else {
        return false;
    };
    text.adjusters[i].remove(&key);
    if key == "name" {
        text.adjusters.remove(i);
    }
    true
}

impl CardRead {
    /// Works out again what is mended and what is missing.
    pub(super) fn mend(&mut self, entries: &[Entry]) {
        self.complete = self.text.clone();
        self.readable = self.text.clone();
        (self.lost, self.missing) = (Vec::new(), Vec::new());
        if self.spoiled.is_empty() && Card::read(&self.text).is_ok() {
            return;
        }
        let undone = undone(entries);
        let mut mended: Vec<&String> = Vec::new();
        let sets = entries
            .iter()
            .filter(|e| !undone.contains(&e.number))
            .filter_map(|e| match &e.event {
                Event::Card { set, .. } => Some(set),
                _ => None,
            });
        for (key, value) in sets.flatten() {
            let needed = field::find(key).is_some_and(|f| f.required)
                || self.spoiled.iter().any(|p| p.field == *key);
            if needed && !mended.contains(&key) && self.complete.get(key).is_none() {
                // What is no such field was named when it was recorded.
                let _ = self.complete.set(key, value);
                mended.push(key);
            }
        }
        self.lost = self
            .spoiled
            .iter()
            .filter(|p| !mended.contains(&&p.field))
            .cloned()
            .collect();
        self.readable = self.complete.clone();
        for _ in 0..=FIELDS.len() {
            let Err(problems) = Card::read(&self.complete) else {
                return;
            };
            let mut filled = false;
            for problem in problems {
                if let Some(field) = field::find(&problem.field)
                    && self.complete.get(field.key).is_none()
                {
                    filled |= self.complete.set(field.key, field.example).is_ok();
                }
                self.missing.push(problem);
            }
            if !filled {
                return;
            }
        }
    }

    /// Everything that keeps the card from being used, and how it is mended.
    pub(super) fn problems(&self) -> Vec<CardProblem> {
        let mut all = self.lost.clone();
        all.extend(
            self.missing
                .iter()
                .filter(|m| !self.lost.iter().any(|l| l.field == m.field))
                .cloned(),
        );
        if let Some(field) = self.missing.iter().find_map(|m| field::find(&m.field))
            && !self.spoiled.is_empty()
        {
            all.push(CardProblem::new(
                None,
                "",
                format!(
                    "the entries are all there; give what is missing: tearbench card FILE {}=\"{}\"",
                    field.key, field.example
                ),
            ));
        }
        all
    }
}
