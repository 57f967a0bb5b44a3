//! Single values of a card: words, flags, numbers held to what is usual.

use super::Reader;
use crate::gear::adjuster::AdjusterUnit;
use crate::gear::card::minimum_from_gpp;
use crate::gear::field::{self, FieldKind};
use crate::gear::text::CardProblem;
use crate::units::{
    Force, Length, LinearMass, Mass, Share, Speed, Spine, clean, scan_number, trim_number,
};

impl Reader<'_> {
    pub(super) fn error(&mut self, key: &str, message: String) {
        self.errors
            .push(CardProblem::new(self.text.line(key), key, message));
    }

    pub(super) fn warn(&mut self, key: &str, message: &str) {
        self.warnings
            .push(CardProblem::new(self.text.line(key), key, message));
    }

    pub(super) fn words(&self, key: &str) -> Option<String> {
        self.text
            .get(key)
            .map(|t| t.trim().to_owned())
            .filter(|t| !t.is_empty())
    }

    pub(super) fn choice(&mut self, key: &str, words: &[&str]) -> Option<String> {
        let text = self.text.get(key)?.trim().to_lowercase();
        if words.contains(&text.as_str()) {
            return Some(text);
        }
        self.error(
            key,
            format!(
                "'{}' is not known; write one of {}",
                clean(&text),
                words.join(", ")
            ),
        );
        None
    }

    pub(super) fn flag(&mut self, key: &str) -> bool {
        match self
            .text
            .get(key)
            .map(|t| t.trim().to_lowercase())
            .as_deref()
        {
            None | Some("false" | "no") => false,
            Some("true" | "yes") => true,
            Some(other) => {
                self.error(key, format!("'{}' is neither true nor false", clean(other)));
                false
            }
        }
    }

    pub(super) fn count(&mut self, key: &str) -> Option<u32> {
        let text = self.text.get(key)?.trim().to_owned();
        match text.parse::<u32>() {
            Ok(n) if (1..=1000).contains(&n) => Some(n),
            _ => {
                self.error(
                    key,
                    format!("'{}' is not a whole number from 1 to 1000", clean(&text)),
                );
                None
            }
        }
    }

    pub(super) fn minimum(&mut self, key: &str, weight: Force) -> Option<Mass> {
        let text = self.text.get(key)?.to_owned();
        if let Some(scan) = scan_number(&text)
            && matches!(scan.rest.trim(), "gr/lb" | "gpp" | "grains per pound")
            && scan.value > 0.0
            && scan.value < 50.0
        {
            return Some(minimum_from_gpp(scan.value, weight));
        }
        match Mass::parse(&text) {
            Ok(mass) if mass.grains() > 0.0 && mass.grains() < 5000.0 => Some(mass),
            Ok(_) => {
                self.error(
                    key,
                    "must be a positive mass; usual is 250 to 450 gr".into(),
                );
                None
            }
            Err(e) => {
                self.error(key, format!("{e}, or 5 gr/lb"));
                None
            }
        }
    }

    /// Reads a number field in the unit of its usual range, and holds it to that range.
    pub(super) fn number(&mut self, key: &str) -> Option<f64> {
        let text = self.text.get(key)?.to_owned();
        let field = field::find(key)?;
        match read_number(&text, field.kind) {
            Err(message) => {
                self.error(key, message);
                None
            }
            Ok((value, low, high, unit)) => self.in_range(key, value, low, high, unit, field.kind),
        }
    }

    pub(super) fn in_range(
        &mut self,
        key: &str,
        value: f64,
        low: f64,
        high: f64,
        unit: &str,
        kind: FieldKind,
    ) -> Option<f64> {
        let offset = matches!(kind, FieldKind::Offset(..));
        let zero_ok = offset || low == 0.0;
        let usual = format!("usual is {low} to {high} {unit}");
        let absurd = if offset {
            value < low * 10.0 - 1.0 || value > high * 10.0 + 1.0
        } else {
            value < low / 10.0 || value > high * 10.0 || value < 0.0 || (value == 0.0 && !zero_ok)
        };
        let percent = matches!(kind, FieldKind::Share(..));
        if !value.is_finite() || absurd || (percent && !(0.0..100.0).contains(&value)) {
            self.error(
                key,
                format!("{} {unit} cannot be right; {usual}", trim_number(value, 3)),
            );
            return None;
        }
        if value < low || value > high {
            self.warn(
                key,
                &format!(
                    "{} {unit} is unusual and is kept; {usual}",
                    trim_number(value, 3)
                ),
            );
        }
        Some(value)
    }
}

/// The value in the unit of the field's usual range, with that range.
fn read_number(text: &str, kind: FieldKind) -> Result<(f64, f64, f64, &'static str), String> {
    let say = |e: crate::units::QuantityError| e.to_string();
    Ok(match kind {
        FieldKind::Length(a, b) | FieldKind::Offset(a, b) => {
            (Length::parse(text).map_err(say)?.mm(), a, b, "mm")
        }
        FieldKind::Mass(a, b) => (Mass::parse(text).map_err(say)?.grains(), a, b, "gr"),
        FieldKind::Force(a, b) => (Force::parse(text).map_err(say)?.pounds(), a, b, "lb"),
        FieldKind::LinearMass(a, b) => (
            LinearMass::parse(text).map_err(say)?.grains_per_inch(),
            a,
            b,
            "gr/in",
        ),
        FieldKind::Speed(a, b) => (Speed::parse(text).map_err(say)?.fps(), a, b, "ft/s"),
        FieldKind::Spine(a, b) => (Spine::parse(text).map_err(say)?.deflection(), a, b, "in"),
        FieldKind::Share(a, b) => (Share::parse(text).map_err(say)?.percent(), a, b, "%"),
        FieldKind::Turns(a, b) => (read_turns(text)?, a, b, "turns"),
        _ => return Err("this field takes no number".into()),
    })
}

/// A number of turns: `6`, `6 turns`, `1 1/2`.
pub(in crate::gear) fn read_turns(text: &str) -> Result<f64, String> {
    let wrong = || {
        format!(
            "'{}' is no number of turns; write 6 turns, or 6 1/2",
            clean(text)
        )
    };
    let scan = scan_number(text).ok_or_else(wrong)?;
    match scan.rest.trim() {
        "" | "turn" | "turns" => Ok(scan.value),
        _ => Err(wrong()),
    }
}

/// The turns out from fully seated that were counted at the top and the
/// bottom limb bolt, `2 / 2`, as the list before paper records them; the
/// greater of the two. `None` where the text is no such count.
pub(crate) fn turns_counted(text: &str) -> Option<f64> {
    let parts: Vec<&str> = if text.contains(" / ") {
        text.split(" / ").collect()
    } else {
        text.split([',', ';']).collect()
    };
    let turns: Result<Vec<f64>, String> = parts.iter().map(|p| read_turns(p.trim())).collect();
    let most = turns.ok()?.into_iter().fold(f64::NEG_INFINITY, f64::max);
    (most.is_finite() && most >= 0.0).then_some(most)
}

/// An amount in an adjuster's own unit: `0.25 mm`, `1/8 turn`, `1/2 twist`.
pub(in crate::gear) fn read_amount(text: &str, unit: AdjusterUnit) -> Result<f64, String> {
    if unit == AdjusterUnit::Mm {
        return Length::parse(text)
            .map(Length::mm)
            .map_err(|e| e.to_string());
    }
    let (word, example) = match unit {
        AdjusterUnit::Turn => ("turn", "1/8 turn"),
        _ => ("twist", "1/2 twist"),
    };
    let scan = scan_number(text).ok_or_else(|| {
        format!(
            "'{}' does not begin with a number; write {example}",
            clean(text)
        )
    })?;
    let named = scan.rest.trim().trim_end_matches('s');
    if named == word {
        Ok(scan.value)
    } else {
        Err(format!(
            "'{}' wants the unit {word}; write {example}",
            clean(text)
        ))
    }
}
