//! Moves as people say them: `rest left 1.5 mm`, `nock up 2 clicks`,
//! `plunger firmer 1/8 turn`, `rest at 19.3 mm`; several with commas.

use super::adjuster::{Adjuster, AdjusterKind, AdjusterUnit};
use super::card::{BowKind, Card};
use super::read::read_amount;
use crate::units::{Scan, System, clean, scan_number};

/// Where every adjuster stands relative to the start, in its own unit.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Positions([f64; AdjusterKind::ALL.len()]);

impl Positions {
    /// The position of one adjuster.
    pub fn get(&self, kind: AdjusterKind) -> f64 {
        self.0[kind.index()]
    }
    /// Sets the position of one adjuster.
    pub fn set(&mut self, kind: AdjusterKind, value: f64) {
        // Sums of clicks are kept free of rounding dust so equal places compare equal.
        self.0[kind.index()] = (value * 1e6).round() / 1e6;
    }
    /// These positions after a move.
    pub fn after(mut self, steps: &[Step]) -> Self {
        for step in steps {
            self.set(step.adjuster, self.get(step.adjuster) + step.amount);
        }
        self
    }
    /// The steps from here to other positions.
    pub(crate) fn steps_to(&self, other: &Self) -> Vec<Step> {
        AdjusterKind::ALL
            .into_iter()
            .filter_map(|adjuster| {
                let amount = ((other.get(adjuster) - self.get(adjuster)) * 1e6).round() / 1e6;
                (amount != 0.0).then_some(Step { adjuster, amount })
            })
            .collect()
    }
}

/// One adjuster moved by an amount in its own unit, sign as in [`AdjusterKind`].
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Step {
    /// Which adjuster.
    pub adjuster: AdjusterKind,
    /// How far, relative to where it was.
    pub amount: f64,
}

impl Step {
    /// The step as [`parse_moves`] reads it: `rest left 1.5 mm`,
    /// `plunger firmer 0.125 turn`; the same for both hands.
    pub(crate) fn say(&self) -> String {
        let kind = self.adjuster;
        let (minus, plus) = kind.directions();
        let way = if self.amount < 0.0 { minus } else { plus };
        // Positions are kept to a millionth; no more is said.
        let size = crate::units::trim_number(self.amount.abs(), 6);
        format!("{} {way} {size} {}", spoken_noun(kind), kind.unit().id())
    }
}

/// The word that [`parse_moves`] takes for exactly this adjuster.
const fn spoken_noun(kind: AdjusterKind) -> &'static str {
    match kind {
        AdjusterKind::RestSideways | AdjusterKind::RestHeight => "rest",
        AdjusterKind::NockingPoint => "nock",
        AdjusterKind::PlungerTension => "plunger",
        AdjusterKind::CentreShot => "centre-shot",
        AdjusterKind::YokeTwist => "yoke",
        AdjusterKind::CamShim => "cam",
        AdjusterKind::LimbBolts => "limb",
        AdjusterKind::BraceHeight => "brace",
    }
}

/// Why a move's text cannot be read.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("'{word}': {problem}; write for example {examples}")]
pub struct MoveError {
    /// The word it stumbled on.
    pub word: String,
    /// What is wrong with it.
    pub problem: String,
    /// What would be right.
    pub(crate) examples: String,
}

fn fail(word: &str, problem: impl Into<String>) -> MoveError {
    MoveError {
        word: clean(word),
        problem: problem.into(),
        examples: "rest left 1.5 mm, nock up 2 clicks, plunger firmer 1/8 turn".into(),
    }
}

/// Reads a move. `now` is where the adjusters stand, for readings; a bare
/// number is in `system`'s unit.
///
/// # Errors
/// An adjuster the bow does not have, an unknown word, a missing amount, or a
/// calipers reading when the start was not read.
pub fn parse_moves(
    text: &str,
    card: &Card,
    now: &Positions,
    system: System,
) -> Result<Vec<Step>, MoveError> {
    let mut steps: Vec<Step> = Vec::new();
    for part in text
        .split([',', ';'])
        .map(str::trim)
        .filter(|p| !p.is_empty())
    {
        let step = parse_one(part, card, now, system).or_else(|error| {
            in_full(part, card).map_or(Err(error), |full| parse_one(&full, card, now, system))
        })?;
        match steps.iter_mut().find(|s| s.adjuster == step.adjuster) {
            Some(earlier) => earlier.amount += step.amount,
            None => steps.push(step),
        }
    }
    // There and back again is no move.
    steps.retain(|s| s.amount.abs() > 1e-9);
    if steps.is_empty() {
        return Err(fail(text, "no move here"));
    }
    Ok(steps)
}

/// A move said without its adjuster, in the order a name takes: `5 clicks out`
/// and `out 5 clicks` are `rest out 5 clicks`. `None` where the way does not
/// settle which adjuster is meant.
fn in_full(part: &str, card: &Card) -> Option<String> {
    let lower = part.to_lowercase();
    let (way, amount) = match (split_word(&lower), lower.rsplit_once(char::is_whitespace)) {
        ((first, rest), _) if alone(first, card).is_some() => (first, rest),
        (_, Some((rest, last))) if alone(last, card).is_some() => (last, rest),
        _ => return None,
    };
    let noun = alone(way, card)?;
    amount
        .trim_start()
        .starts_with(|c: char| c.is_ascii_digit() || c == '.')
        .then(|| format!("{noun} {way} {}", amount.trim()))
}

/// The one adjuster of this bow that a way alone can mean.
fn alone(way: &str, card: &Card) -> Option<&'static str> {
    let kinds: &[AdjusterKind] = match way {
        "in" | "out" | "left" | "right" => &[AdjusterKind::RestSideways],
        "up" | "down" => &[AdjusterKind::RestHeight, AdjusterKind::NockingPoint],
        "firmer" | "softer" => &[AdjusterKind::PlungerTension],
        _ => return None,
    };
    let mut has = kinds.iter().filter(|k| card.adjuster(**k).is_some());
    match (has.next(), has.next()) {
        (Some(AdjusterKind::NockingPoint), None) => Some("nock"),
        (Some(AdjusterKind::PlungerTension), None) => Some("plunger"),
        (Some(_), None) => Some("rest"),
        _ => None,
    }
}

/// A length alone, mm: `24.85`, `24.85 mm`, `1 1/4 in`; `None` for anything else.
pub(crate) fn read_bare_length(text: &str, system: System) -> Option<f64> {
    let scan = scan_number(text.trim())?;
    if scan.rest.trim().is_empty() {
        return plain_length(&scan, text, system).ok();
    }
    read_amount(text.trim(), AdjusterUnit::Mm).ok()
}

fn parse_one(part: &str, card: &Card, now: &Positions, system: System) -> Result<Step, MoveError> {
    let lower = part.to_lowercase();
    let (noun, rest) = split_word(&lower);
    if rest.trim_start().starts_with("at ") {
        return parse_reading(noun, rest.trim_start()[3..].trim(), card, now, system);
    }
    let mut rest = rest.trim_start();
    for skip in ["tension ", "point ", "bolts ", "height ", "tip ", "twist "] {
        rest = rest.strip_prefix(skip).unwrap_or(rest).trim_start();
    }
    let (direction, amount_text) = split_word(rest);
    let candidates = nouns(noun).ok_or_else(|| fail(noun, "no adjuster of that name"))?;
    let hand = card.bow.hand;
    let (kind, sign) = candidates
        .iter()
        .find_map(|kind| Some((*kind, kind.sign_of(direction, hand)?)))
        .ok_or_else(|| fail(direction, format!("not a way to move the {noun}")))?;
    // Limb bolts are there whether the card lists them or not, and what was
    // turned is recorded.
    let bolts = kind == AdjusterKind::LimbBolts && card.bow.kind != BowKind::Longbow;
    let adjuster = card
        .adjuster(kind)
        .cloned()
        .or_else(|| bolts.then(|| Adjuster::standard(kind)))
        .ok_or_else(|| fail(noun, format!("this bow's card has no {}", kind.id())))?;
    let amount_text = amount_text.trim().trim_start_matches("by ").trim();
    let scan = scan_number(amount_text).ok_or_else(|| fail(part, "how far?"))?;
    let unit = scan.rest.trim();
    let amount = match unit {
        "click" | "clicks" | "step" | "steps" => scan.value * adjuster.step,
        "" if kind.unit() == AdjusterUnit::Mm => plain_length(&scan, amount_text, system)?,
        "" => scan.value,
        _ => read_amount(amount_text, kind.unit()).map_err(|problem| fail(unit, problem))?,
    };
    if !amount.is_finite() || amount.abs() > adjuster.range * 20.0 {
        return Err(fail(amount_text, "too far to be right"));
    }
    if amount == 0.0 {
        return Err(fail(amount_text, "a move of nothing"));
    }
    Ok(Step {
        adjuster: kind,
        amount: sign * amount,
    })
}

fn parse_reading(
    noun: &str,
    text: &str,
    card: &Card,
    now: &Positions,
    system: System,
) -> Result<Step, MoveError> {
    let candidates = nouns(noun).ok_or_else(|| fail(noun, "no adjuster of that name"))?;
    let adjuster = candidates
        .iter()
        .filter_map(|kind| card.adjuster(*kind))
        .find(|a| a.reading.is_some())
        .ok_or_else(|| {
            fail(
                noun,
                "a reading needs the reading at the start on the card (rest.reading = \"20.6 mm\")",
            )
        })?;
    let scan = scan_number(text).ok_or_else(|| fail(text, "which reading?"))?;
    let reading = if scan.rest.trim().is_empty() {
        plain_length(&scan, text, system)?
    } else {
        read_amount(text, AdjusterUnit::Mm).map_err(|problem| fail(text, problem))?
    };
    let start = adjuster.reading.unwrap_or_default();
    let position = (reading - start) * adjuster.reading_sign(card.bow.hand);
    let amount = ((position - now.get(adjuster.kind)) * 1e6).round() / 1e6;
    if amount.abs() > adjuster.range * 20.0 {
        return Err(fail(text, "too far to be right"));
    }
    if amount == 0.0 {
        return Err(fail(text, "it stands there already"));
    }
    Ok(Step {
        adjuster: adjuster.kind,
        amount,
    })
}

/// A length without a unit, in mm. Half of what is asked, not guessed: half a
/// millimetre and half an inch are both moves people make.
fn plain_length(scan: &Scan<'_>, text: &str, system: System) -> Result<f64, MoveError> {
    if scan.fraction && system == System::Mm {
        return Err(fail(text, "of what? write 0.5 mm or 1/2 in"));
    }
    Ok(scan.value * system.mm_per_unit())
}

fn split_word(text: &str) -> (&str, &str) {
    let text = text.trim_start();
    text.split_once(char::is_whitespace).unwrap_or((text, ""))
}

fn nouns(word: &str) -> Option<&'static [AdjusterKind]> {
    use AdjusterKind::{
        BraceHeight, CamShim, CentreShot, LimbBolts, NockingPoint, PlungerTension, RestHeight,
        RestSideways, YokeTwist,
    };
    Some(match word {
        "rest" => &[RestSideways, RestHeight],
        "rest-sideways" | "sideways" => &[RestSideways],
        "rest-height" => &[RestHeight],
        "nock" | "nocking" | "nocking-point" => &[NockingPoint],
        "plunger" | "button" | "plunger-tension" => &[PlungerTension, CentreShot],
        "centre" | "center" | "centre-shot" | "tip" => &[CentreShot, RestSideways],
        "yoke" | "yoke-twist" => &[YokeTwist],
        "cam" | "shim" | "cam-shim" => &[CamShim],
        "limb" | "bolts" | "limb-bolts" => &[LimbBolts],
        "brace" | "brace-height" => &[BraceHeight],
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::gear::{Adjuster, CardText};

    fn card(hand: &str) -> Card {
        let mut text = CardText::from_toml(crate::fixtures::COMPOUND).unwrap();
        text.set("bow.hand", hand).unwrap();
        Card::read(&text).unwrap().0
    }

    fn amount(text: &str, hand: &str) -> Result<(AdjusterKind, f64), MoveError> {
        let steps = parse_moves(text, &card(hand), &Positions::default(), System::Mm)?;
        Ok((steps[0].adjuster, steps[0].amount))
    }

    #[test]
    fn a_way_alone_means_the_rest_and_out_goes_with_the_hand() {
        let step = card("right")
            .adjuster(AdjusterKind::RestSideways)
            .unwrap()
            .step;
        for text in ["5 clicks out", "out 5 clicks", "rest out 5 clicks"] {
            let right = amount(text, "right").unwrap();
            assert_eq!(right, (AdjusterKind::RestSideways, -5.0 * step), "{text}");
            let left = amount(text, "left").unwrap();
            assert_eq!(left, (AdjusterKind::RestSideways, 5.0 * step), "{text}");
        }
        assert_eq!(amount("1/4 in in", "right").unwrap().1, 6.35);
        assert_eq!(amount("left 1.5 mm", "left").unwrap().1, -1.5);
    }

    #[test]
    fn a_way_that_could_mean_two_adjusters_is_not_guessed() {
        let both = card("right");
        let vertical = [AdjusterKind::RestHeight, AdjusterKind::NockingPoint];
        let has = vertical.iter().filter(|k| both.adjuster(**k).is_some());
        assert_eq!(has.count(), 2);
        assert!(amount("up 2 mm", "right").is_err());
        assert!(amount("5 clicks", "right").is_err());
        assert!(amount("firmer 1/8 turn", "right").is_err());
    }

    #[test]
    fn what_a_step_says_is_read_back_as_that_step() {
        for hand in ["right", "left"] {
            let mut card = card(hand);
            card.adjusters = AdjusterKind::ALL.map(Adjuster::standard).to_vec();
            for adjuster in AdjusterKind::ALL {
                for amount in [-1.75, 0.125, 0.5] {
                    let step = Step { adjuster, amount };
                    let read = parse_moves(&step.say(), &card, &Positions::default(), System::Inch);
                    assert_eq!(read, Ok(vec![step]), "{} {hand}", step.say());
                }
            }
        }
        let step = Step {
            adjuster: AdjusterKind::RestSideways,
            amount: -1.5,
        };
        assert_eq!(step.say(), "rest left 1.5 mm");
    }

    #[test]
    fn a_bare_length_is_read_in_the_unit_of_the_place() {
        assert_eq!(read_bare_length("24.85", System::Mm), Some(24.85));
        assert_eq!(read_bare_length("24.85 mm", System::Inch), Some(24.85));
        assert_eq!(read_bare_length("1", System::Inch), Some(25.4));
        assert_eq!(read_bare_length("out 1", System::Mm), None);
    }

    /// The start reads 20.6 mm riser to shaft and the rest stands 1.5 mm out.
    #[test]
    fn a_reading_counts_from_where_the_rest_stands_now_for_both_hands() {
        for (hand, out) in [("right", -1.0), ("left", 1.0)] {
            let mut card = card(hand);
            for adjuster in &mut card.adjusters {
                adjuster.reading = Some(20.6);
            }
            let mut now = Positions::default();
            now.set(AdjusterKind::RestSideways, 1.5 * out);
            let read = |text: &str| {
                let step = parse_moves(text, &card, &now, System::Mm).map(|steps| steps[0]);
                step.map(|s| (s.adjuster, s.amount))
            };
            let rest = AdjusterKind::RestSideways;
            assert_eq!(read("rest at 20.6 mm"), Ok((rest, -1.5 * out)), "{hand}");
            assert_eq!(read("rest at 23.1 mm"), Ok((rest, out)), "{hand}");
            assert!(read("rest at 22.1 mm").is_err(), "it stands there");
            // Twenty times the travel of 8 mm is still read, a hair more is not.
            assert_eq!(read("rest at 182.1 mm"), Ok((rest, 160.0 * out)));
            assert!(read("rest at 182.2 mm").is_err());
        }
    }
}
