//! A step as it is made on a bow that lies on the bench: the facts, no words.

use super::adjuster::{Adjuster, AdjusterKind, AdjusterUnit};
use super::card::{BowKind, Card};
use super::moves::{Positions, Step};
use crate::tear::Tear;

/// One step with all that somebody at the bench has to know of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BenchStep {
    /// Which adjuster, and how far.
    pub step: Step,
    /// Whole clicks, signed like the amount, where it clicks.
    pub clicks: Option<i64>,
    /// Whether its screw is turned clockwise, where the card says so.
    pub(crate) clockwise: Option<bool>,
    /// Whether it goes in, toward the riser, for what moves sideways there.
    pub inward: Option<bool>,
    /// Calipers readings before and after, mm, where the start was read.
    pub readings: Option<(f64, f64)>,
    /// Whether it is press work.
    pub press: bool,
    /// What bounds a move of the limb bolts.
    pub(crate) bolts: Option<BoltsLimit>,
}

/// What bounds a move of the limb bolts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct BoltsLimit {
    /// Whether they may differ, to set the tiller.
    pub(crate) tiller: bool,
    /// Most turns out from fully seated, by the bow maker.
    pub(crate) most: Option<f64>,
}

impl BoltsLimit {
    /// The limits of this bow's bolts.
    pub fn of(card: &Card) -> Self {
        Self {
            tiller: card.bow.kind == BowKind::Recurve,
            most: card.bow.maker_max_turns,
        }
    }
}

impl BenchStep {
    /// The facts of a step from where the adjusters stand now.
    pub fn of(step: Step, card: &Card, now: &Positions) -> Self {
        let adjuster = card.adjuster(step.adjuster);
        let clicks = adjuster.and_then(|a| a.whole_clicks(step.amount));
        Self::counted(step, clicks, card, now)
    }

    /// The same of so many whole steps of an adjuster, which stay whole.
    pub(crate) fn of_steps(
        kind: AdjusterKind,
        steps: i32,
        card: &Card,
        now: &Positions,
    ) -> Option<Self> {
        let adjuster = card.adjuster(kind)?;
        let step = Step {
            adjuster: kind,
            amount: (f64::from(steps) * adjuster.step * 1e6).round() / 1e6,
        };
        let clicks = adjuster.clicks.then_some(i64::from(steps));
        Some(Self::counted(step, clicks, card, now))
    }

    fn counted(step: Step, clicks: Option<i64>, card: &Card, now: &Positions) -> Self {
        let (kind, amount, hand) = (step.adjuster, step.amount, card.bow.hand);
        let adjuster = card.adjuster(kind);
        let at_riser = matches!(kind, AdjusterKind::RestSideways | AdjusterKind::CentreShot);
        let from = now.get(kind);
        let reading = |at| adjuster.and_then(|a| a.reading_at(at, hand));
        Self {
            step,
            clicks: clicks.filter(|_| kind.unit() == AdjusterUnit::Mm),
            clockwise: adjuster
                .and_then(|a| a.clockwise)
                .map(|sign| sign * amount > 0.0),
            inward: at_riser.then(|| amount * hand.in_sign() > 0.0),
            readings: reading(from).zip(reading(from + amount)),
            press: card.needs_press(kind),
            bolts: (kind == AdjusterKind::LimbBolts).then(|| BoltsLimit::of(card)),
        }
    }
}

/// Whether a step of the rest goes toward the side the tail tore to; a tail
/// that shows under a millimetre is on no side.
pub(crate) fn toward_the_tail(step: &Step, likely: Tear) -> Option<bool> {
    let tail = match step.adjuster {
        AdjusterKind::RestSideways | AdjusterKind::CentreShot => likely.right,
        AdjusterKind::RestHeight => likely.up,
        _ => return None,
    };
    (tail.abs() >= 1.0).then_some(tail * step.amount > 0.0)
}

/// How far to go beyond and come back where a move reverses past the play, so
/// that it is taken up from the same side as before; `last` is the way of the
/// last move.
pub(crate) fn beyond(step: &Step, last: Option<f64>, adjuster: &Adjuster) -> Option<f64> {
    if adjuster.backlash <= 0.0 || last? * step.amount >= 0.0 {
        return None;
    }
    // Two whole steps past the play are enough to load the thread the usual way.
    let beyond = adjuster.backlash + 2.0 * adjuster.step;
    Some((beyond / adjuster.step).ceil() * adjuster.step)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::gear::CardText;

    #[test]
    fn a_reversal_past_backlash_finishes_from_the_same_side() {
        let rest = Adjuster {
            backlash: 0.2,
            step: 0.25,
            ..Adjuster::standard(AdjusterKind::RestSideways)
        };
        let of = |amount, last| {
            let adjuster = AdjusterKind::RestSideways;
            beyond(&Step { adjuster, amount }, last, &rest)
        };
        // 0.2 mm of play and two clicks are 0.7 mm: three clicks.
        assert_eq!(
            (of(0.5, Some(-1.0)), of(-0.5, Some(1.0))),
            (Some(0.75), Some(0.75))
        );
        assert_eq!((of(0.5, Some(1.0)), of(-0.5, Some(-1.0))), (None, None));
        assert_eq!(of(0.5, None), None);
        let tight = Adjuster {
            backlash: 0.0,
            ..rest
        };
        let step = Step {
            adjuster: AdjusterKind::RestSideways,
            amount: 0.5,
        };
        assert_eq!(beyond(&step, Some(-1.0), &tight), None);
    }

    #[test]
    fn a_step_goes_toward_the_tail_or_away_from_it_on_its_own_axis_only() {
        use AdjusterKind::{CentreShot, NockingPoint, RestHeight, RestSideways};
        let toward = |adjuster, amount, right, up| {
            toward_the_tail(&Step { adjuster, amount }, Tear::new(right, up))
        };
        for kind in [RestSideways, CentreShot] {
            assert_eq!(toward(kind, -1.0, -12.0, 5.0), Some(true));
            assert_eq!(toward(kind, 1.0, -12.0, -5.0), Some(false));
            assert_eq!(toward(kind, 1.0, 12.0, 5.0), Some(true));
            assert_eq!(toward(kind, -0.5, 12.0, 5.0), Some(false));
        }
        assert_eq!(toward(RestHeight, 1.0, -12.0, 5.0), Some(true));
        assert_eq!(toward(RestHeight, 1.0, 12.0, -5.0), Some(false));
        // A tail that shows under a millimetre is on no side; the nock is not the rest.
        assert_eq!(toward(RestSideways, 1.0, 1.0, 0.0), Some(true));
        assert_eq!(toward(RestSideways, 1.0, 0.9, 9.0), None);
        assert_eq!(toward(NockingPoint, 1.0, 12.0, 5.0), None);
    }

    fn card(hand: &str) -> Card {
        let mut text =
            CardText::from_toml(include_str!("../../tests/scenarios/cards/compound.toml")).unwrap();
        text.set("bow.hand", hand).unwrap();
        text.set("rest.click", "0.25 mm").unwrap();
        Card::read(&text).unwrap().0
    }

    /// In and out change with the hand, clicks and left and right do not.
    #[test]
    fn what_goes_in_for_one_hand_goes_out_for_the_other() {
        use AdjusterKind::{CentreShot, NockingPoint, RestHeight, RestSideways};
        let now = Positions::default();
        let inward = |kind, amount, hand| {
            let adjuster = kind;
            BenchStep::of(Step { adjuster, amount }, &card(hand), &now).inward
        };
        for kind in [RestSideways, CentreShot] {
            assert_eq!(inward(kind, -1.5, "right"), Some(false));
            assert_eq!(inward(kind, -1.5, "left"), Some(true));
            assert_eq!(inward(kind, 1.5, "right"), Some(true));
            assert_eq!(inward(kind, 1.5, "left"), Some(false));
        }
        for kind in [RestHeight, NockingPoint] {
            assert_eq!(inward(kind, 1.0, "right"), None);
        }
    }

    #[test]
    fn whole_clicks_stay_whole_and_a_part_of_one_is_none() {
        let (card, now) = (card("right"), Positions::default());
        let rest = AdjusterKind::RestSideways;
        for n in [-32, -1, 1, 7, 32] {
            let found = BenchStep::of_steps(rest, n, &card, &now).unwrap();
            assert_eq!(found.clicks, Some(i64::from(n)));
            assert_eq!(found.step.amount, f64::from(n) * 0.25);
            assert_eq!(BenchStep::of(found.step, &card, &now), found);
        }
        let part = Step {
            adjuster: rest,
            amount: 0.6,
        };
        assert_eq!(BenchStep::of(part, &card, &now).clicks, None);
    }
}
