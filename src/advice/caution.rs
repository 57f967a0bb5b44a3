//! How far each adjuster may go while this bow has not answered.
//!
//! A test is no reason to take the bow off its set-up: the point stays near
//! centre shot, with fingers never inside the string's line, the nocking
//! point never below square, a plunger's spring within a quarter of a turn
//! and then half a turn. Where nothing was measured the adjuster is taken to
//! stand in the middle of its starting band.

use crate::gear::{AdjusterKind, Card, Release};
use crate::session::Timeline;
use crate::setup;
use crate::tuner::{ANSWER_MM, Caution, Range};

/// Farthest from measured centre shot, or from the start, mm.
const NEAR_MM: f64 = 4.0;
/// First move of a plunger's spring, and all of them until it has answered,
/// turns (common practice: an eighth to a quarter of a turn at a time).
const FIRST_TURN: f64 = 0.25;
const MOST_TURN: f64 = 0.5;
/// What a turn of the spring must change the tear by to have answered, mm: as
/// much for its first move as a millimetre of rest.
const ANSWER_TURN_MM: f64 = ANSWER_MM / FIRST_TURN;

/// How careful to be with one adjuster.
pub(super) fn of(timeline: &Timeline, kind: AdjusterKind, range: &Range) -> Caution {
    let window = match kind {
        AdjusterKind::RestSideways | AdjusterKind::CentreShot => sideways(timeline),
        AdjusterKind::NockingPoint => nocking_point(timeline),
        AdjusterKind::PlungerTension => (-MOST_TURN, MOST_TURN),
        _ => (-NEAR_MM, NEAR_MM),
    };
    let spring = kind == AdjusterKind::PlungerTension;
    Caution {
        window: (window.0.max(range.low), window.1.min(range.high)),
        first: if spring { FIRST_TURN } else { NEAR_MM },
        answer: if spring { ANSWER_TURN_MM } else { ANSWER_MM },
    }
}

/// Outward, from the start, mm: nearest and farthest.
fn outward(timeline: &Timeline) -> (f64, f64) {
    let card = &timeline.card;
    let measured = setup::point_outside_mm(timeline);
    let wanted = middle(setup::centre_shot_band(card));
    let stands = measured.unwrap_or(wanted);
    let least = match card.bow.release {
        Release::Fingers => 0.0,
        Release::Aid => f64::NEG_INFINITY,
    };
    let low = (wanted - NEAR_MM).max(least) - stands;
    (low, wanted + NEAR_MM - stands)
}

/// The same as positions, right positive: in is right for the right hand.
fn sideways(timeline: &Timeline) -> (f64, f64) {
    let (near, far) = outward(timeline);
    let inward = timeline.card.bow.hand.in_sign();
    let ends = (-inward * near, -inward * far);
    (ends.0.min(ends.1).min(0.0), ends.0.max(ends.1).max(0.0))
}

/// Never below square, and near the start.
fn nocking_point(timeline: &Timeline) -> (f64, f64) {
    (-nock_above_square(timeline).clamp(0.0, NEAR_MM), NEAR_MM)
}

/// How far the nock stands above square at the start, mm: as measured, or the
/// middle of the starting band.
pub(super) fn nock_above_square(timeline: &Timeline) -> f64 {
    let band = setup::nocking_band(&timeline.card);
    setup::nock_above_square_mm(timeline).unwrap_or_else(|| middle(band))
}

/// The high start of the nock, mm above square: the top of its starting band.
pub(super) fn high_start(card: &Card) -> f64 {
    setup::nocking_band(card).1
}

fn middle(band: (f64, f64)) -> f64 {
    0.5 * (band.0 + band.1)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fixtures::{COMPOUND, RECURVE};
    use crate::gear::CardText;
    use crate::session::told::{measured, timeline_of};

    fn timeline(card: &str, hand: &str, setup: &[(&str, &str)]) -> Timeline {
        let mut card = CardText::from_toml(card).unwrap();
        card.set("bow.hand", hand).unwrap();
        timeline_of(
            &card,
            setup.iter().map(|(item, value)| measured(item, value)),
        )
    }

    fn window(kind: AdjusterKind, timeline: &Timeline) -> (f64, f64) {
        let range = Range {
            axis: crate::belief::Axis::Right,
            step: 0.25,
            low: -8.0,
            high: 8.0,
            usable: true,
        };
        let (low, high) = of(timeline, kind, &range).window;
        (
            (low * 100.0).round() / 100.0,
            (high * 100.0).round() / 100.0,
        )
    }

    #[test]
    fn with_an_aid_the_rest_stays_within_4_mm_of_centre_shot() {
        let rest = AdjusterKind::RestSideways;
        let at = |hand, value| window(rest, &timeline(COMPOUND, hand, &[("centre-shot", value)]));
        assert_eq!(window(rest, &timeline(COMPOUND, "right", &[])), (-4.0, 4.0));
        assert_eq!(at("right", "0"), (-4.0, 4.0));
        // 1 mm out: 3 mm further out (left), 5 mm in.
        assert_eq!(at("right", "1 mm out"), (-3.0, 5.0));
        assert_eq!(at("left", "1 mm out"), (-5.0, 3.0));
    }

    #[test]
    fn with_fingers_the_point_never_goes_inside_the_string() {
        let rest = AdjusterKind::RestSideways;
        let at = |hand, value| window(rest, &timeline(RECURVE, hand, &[("centre-shot", value)]));
        // In is right for the right hand.
        assert_eq!(at("right", "3 mm out").1, 3.0);
        assert_eq!(at("left", "3 mm out").0, -3.0);
        assert_eq!(at("right", "0").1, 0.0);
        assert_eq!(at("left", "0").0, 0.0);
        // 1.6 to 3.2 mm is where it starts: the middle, where not measured.
        assert_eq!(window(rest, &timeline(RECURVE, "right", &[])), (-4.0, 2.38));
        assert_eq!(window(rest, &timeline(RECURVE, "left", &[])), (-2.38, 4.0));
    }

    #[test]
    fn the_nocking_point_never_goes_below_square() {
        let nock = AdjusterKind::NockingPoint;
        let at = |value| {
            window(
                nock,
                &timeline(COMPOUND, "right", &[("nocking-point", value)]),
            )
        };
        assert_eq!(at("2 mm high"), (-2.0, 4.0));
        assert_eq!(at("0"), (0.0, 4.0));
        assert_eq!(at("1 mm low"), (0.0, 4.0));
        assert_eq!(at("6 mm high"), (-4.0, 4.0));
    }

    #[test]
    fn a_spring_goes_a_quarter_of_a_turn_and_then_half() {
        let t = timeline(RECURVE, "right", &[]);
        let range = Range {
            axis: crate::belief::Axis::Right,
            step: 0.125,
            low: -2.0,
            high: 2.0,
            usable: true,
        };
        let spring = of(&t, AdjusterKind::PlungerTension, &range);
        assert_eq!((spring.first, spring.window), (0.25, (-0.5, 0.5)));
        assert!((spring.answer - 1.2).abs() < 1e-9);
    }

    #[test]
    fn the_high_start_is_the_top_of_the_band_of_trade_practice() {
        let read = |card: &str| timeline(card, "right", &[]).card;
        assert!((high_start(&read(COMPOUND)) - 6.35).abs() < 1e-9);
        assert!((high_start(&read(RECURVE)) - 14.0).abs() < 1e-9);
    }

    #[test]
    fn heights_stay_within_4_mm_of_the_start_before_they_answer() {
        for hand in ["right", "left"] {
            let t = timeline(COMPOUND, hand, &[]);
            assert_eq!(window(AdjusterKind::RestHeight, &t), (-4.0, 4.0));
        }
    }
}
