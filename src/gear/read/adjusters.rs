//! Which adjusters a card's bow has.

use std::collections::BTreeMap;

use super::Reader;
use super::values::read_amount;
use crate::gear::adjuster::{Adjuster, AdjusterKind};
use crate::gear::card::{Bow, Hand, RestKind, implied};
use crate::gear::field;
use crate::gear::text::{CardProblem, Entered};
use crate::units::{Length, clean};

impl Reader<'_> {
    pub(super) fn adjusters(&mut self, rest: RestKind, bow: &Bow) -> Vec<Adjuster> {
        let (hand, kinds) = (bow.hand, implied(rest, bow.kind));
        if self.text.adjusters.is_empty() {
            return kinds
                .iter()
                .map(|kind| self.with_rest_fields(Adjuster::standard(*kind), hand))
                .collect();
        }
        let mut found: Vec<Adjuster> = Vec::new();
        for table in &self.text.adjusters {
            let Some(adjuster) = self.adjuster(table, hand) else {
                continue;
            };
            if found.iter().any(|a| a.kind == adjuster.kind) {
                let line = table.get("name").and_then(|e| e.line);
                self.errors.push(CardProblem::new(
                    line,
                    "adjuster.name",
                    format!(
                        "{} is named twice; a bow has one of a kind",
                        adjuster.kind.id()
                    ),
                ));
            } else {
                found.push(adjuster);
            }
        }
        found
    }

    /// What `[rest]` says of the two rest screws.
    pub(super) fn with_rest_fields(&mut self, mut adjuster: Adjuster, hand: Hand) -> Adjuster {
        let (turn, reading) = match adjuster.kind {
            AdjusterKind::RestSideways => ("rest.clockwise", "rest.reading"),
            AdjusterKind::RestHeight => ("rest.clockwise_height", "rest.height_reading"),
            _ => return adjuster,
        };
        if let Some(click) = self.number("rest.click") {
            adjuster.step = click;
            adjuster.clicks = true;
        }
        if let Some(travel) = self.number("rest.travel") {
            adjuster.range = travel;
        }
        adjuster.backlash = self.number("rest.backlash").unwrap_or(0.0).max(0.0);
        adjuster.reading = self.number(reading);
        if let Some(word) = self.choice(turn, field::TURNS) {
            adjuster.clockwise = adjuster.kind.sign_of(&word, hand);
            if adjuster.clockwise.is_none() {
                let (minus, plus) = adjuster.kind.directions();
                self.error(
                    turn,
                    format!(
                        "'{word}' is no way this screw moves the rest; write {minus} or {plus}"
                    ),
                );
            }
        }
        adjuster
    }

    pub(super) fn adjuster(
        &mut self,
        table: &BTreeMap<String, Entered>,
        hand: Hand,
    ) -> Option<Adjuster> {
        let line = |key: &str| table.get(key).and_then(|e| e.line);
        let Some(name) = table.get("name") else {
            let any = table.values().find_map(|e| e.line);
            self.errors.push(CardProblem::new(
                any,
                "adjuster.name",
                "missing; name the adjuster, such as rest-sideways",
            ));
            return None;
        };
        let Some(kind) = AdjusterKind::from_id(&name.text) else {
            let ids: Vec<&str> = AdjusterKind::ALL.iter().map(|k| k.id()).collect();
            self.errors.push(CardProblem::new(
                name.line,
                "adjuster.name",
                format!(
                    "'{}' is no adjuster; there are {}",
                    clean(&name.text),
                    ids.join(", ")
                ),
            ));
            return None;
        };
        let mut adjuster = self.with_rest_fields(Adjuster::standard(kind), hand);
        let (step, range) = kind.defaults();
        let mut amount = |key: &str, usual: f64| {
            let entered = table.get(key)?;
            match read_amount(&entered.text, kind.unit()) {
                Ok(v)
                    if v.is_finite()
                        && v >= 0.0
                        && (key == "backlash" || v > 0.0)
                        && v <= usual * 20.0 =>
                {
                    Some(v)
                }
                Ok(_) => {
                    self.errors.push(CardProblem::new(
                        line(key),
                        &format!("adjuster.{key}"),
                        format!(
                            "'{}' cannot be right; usual is about {usual} {}",
                            clean(&entered.text),
                            kind.unit().id()
                        ),
                    ));
                    None
                }
                Err(message) => {
                    self.errors.push(CardProblem::new(
                        line(key),
                        &format!("adjuster.{key}"),
                        message,
                    ));
                    None
                }
            }
        };
        if let Some(v) = amount("step", step.max(1.0)) {
            adjuster.step = v;
            adjuster.clicks = true;
        }
        if let Some(v) = amount("range", range) {
            adjuster.range = v;
        }
        if let Some(v) = amount("backlash", 1.0) {
            adjuster.backlash = v;
        }
        if let Some(v) = table
            .get("reading")
            .and_then(|e| Length::parse(&e.text).ok())
        {
            adjuster.reading = Some(v.mm());
        } else if let Some(entered) = table.get("reading") {
            self.errors.push(CardProblem::new(
                entered.line,
                "adjuster.reading",
                format!("'{}' is not a length; write 20.6 mm", clean(&entered.text)),
            ));
        }
        if let Some(entered) = table.get("clicks") {
            adjuster.clicks = matches!(entered.text.as_str(), "true" | "yes");
        }
        if let Some(entered) = table.get("clockwise") {
            adjuster.clockwise = kind.sign_of(entered.text.trim(), hand);
            if adjuster.clockwise.is_none() {
                let (minus, plus) = kind.directions();
                self.errors.push(CardProblem::new(
                    entered.line,
                    "adjuster.clockwise",
                    format!("write {minus} or {plus}"),
                ));
            }
        }
        Some(adjuster)
    }
}
