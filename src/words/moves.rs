//! Moves: as a headline, for a bow lying on the bench, and as they are typed.

use super::capital;
use crate::gear::{Adjuster, AdjusterKind, AdjusterUnit, BowKind, Card, Hand, Positions, Step};
use crate::tear::Tear;
use crate::units::{System, format_fraction, trim_number};

/// The size of an amount in the adjuster's unit: `1.50 mm`, `1/8 turn`.
pub fn amount(kind: AdjusterKind, value: f64, system: System) -> String {
    match kind.unit() {
        AdjusterUnit::Mm => system.fine(value.abs()),
        unit => {
            let plural = if value.abs() > 1.0 { "s" } else { "" };
            format!("{} {}{plural}", format_fraction(value.abs(), 16), unit.id())
        }
    }
}

/// `6 clicks, clockwise`, as far as the card knows it.
pub(super) fn clicks(adjuster: &Adjuster, value: f64) -> Option<String> {
    let steps = adjuster.steps_in(value).abs();
    let whole = (adjuster.step * steps as f64 - value.abs()).abs() < adjuster.step * 0.02;
    let clicked = adjuster.clicks && adjuster.kind.unit() == AdjusterUnit::Mm && whole;
    let turn = adjuster.clockwise.map(|sign| {
        if sign * value > 0.0 {
            "clockwise"
        } else {
            "anticlockwise"
        }
    });
    let count = clicked.then(|| format!("{steps} click{}", if steps == 1 { "" } else { "s" }));
    match (count, turn) {
        (Some(count), Some(turn)) => Some(format!("{count}, {turn}")),
        (Some(count), None) => Some(count),
        (None, Some(turn)) => Some(turn.into()),
        (None, None) => None,
    }
}

/// In or out as the bench sees it, for what moves sideways at the riser.
pub(super) fn in_or_out(kind: AdjusterKind, value: f64, hand: Hand) -> Option<&'static str> {
    matches!(kind, AdjusterKind::RestSideways | AdjusterKind::CentreShot).then(|| {
        if value * hand.in_sign() > 0.0 {
            "IN"
        } else {
            "OUT"
        }
    })
}

pub(super) fn direction(kind: AdjusterKind, value: f64) -> String {
    let (minus, plus) = kind.directions();
    (if value < 0.0 { minus } else { plus }).to_uppercase()
}

/// A step as a headline: `Rest OUT 1.50 mm (6 clicks), LEFT`.
pub fn step_headline(step: &Step, card: &Card, system: System) -> String {
    let (kind, value) = (step.adjuster, step.amount);
    let noun = capital(kind.noun());
    let size = amount(kind, value, system);
    let count = card
        .adjuster(kind)
        .and_then(|a| {
            clicks(
                &Adjuster {
                    clockwise: None,
                    ..a.clone()
                },
                value,
            )
        })
        .map_or(String::new(), |c| format!(" ({c})"));
    match in_or_out(kind, value, card.bow.hand) {
        Some(bench) => format!("{noun} {bench} {size}{count}, {}", direction(kind, value)),
        None => format!("{noun} {} {size}{count}", direction(kind, value)),
    }
}

/// A step as a person at the bench wants it, for a bow lying there:
/// `OUT from the riser 1.50 mm (6 clicks, clockwise): LEFT as the shooter sees it`.
pub fn step_bench(step: &Step, card: &Card, now: &Positions, system: System) -> String {
    let (kind, value) = (step.adjuster, step.amount);
    let size = amount(kind, value, system);
    if kind == AdjusterKind::LimbBolts {
        let (way, adjuster) = (direction(kind, value), card.adjuster(kind));
        let turn = adjuster.and_then(|a| clicks(a, value));
        let turn = turn.map_or(String::new(), |t| format!(" ({t})"));
        return format!("{}. Limb bolts {way} {size}{turn}", bolts_caution(card));
    }
    let Some(adjuster) = card.adjuster(kind) else {
        return format!("{} {} {size}", capital(kind.noun()), direction(kind, value));
    };
    let count = clicks(adjuster, value).map_or(String::new(), |c| format!(" ({c})"));
    let mut text = match in_or_out(kind, value, card.bow.hand) {
        Some("IN") => format!(
            "{} IN toward the riser {size}{count}: {} as the shooter sees it",
            capital(kind.noun()),
            direction(kind, value)
        ),
        Some(_) => format!(
            "{} OUT from the riser {size}{count}: {} as the shooter sees it",
            capital(kind.noun()),
            direction(kind, value)
        ),
        None => format!(
            "{} {} {size}{count}",
            capital(kind.noun()),
            direction(kind, value)
        ),
    };
    if let (Some(from), Some(to)) = (
        adjuster.reading_at(now.get(kind), card.bow.hand),
        adjuster.reading_at(now.get(kind) + value, card.bow.hand),
    ) {
        let what = if in_or_out(kind, value, card.bow.hand).is_some() {
            "riser to shaft"
        } else {
            "calipers"
        };
        text.push_str(&format!(
            ", {what} {} -> {}",
            reading(from, system),
            reading(to, system)
        ));
    }
    if card.needs_press(kind) {
        text.push_str(". Bow press: trained hands, the press made for this bow");
    }
    text
}

/// What stands before every move of the limb bolts: both alike, how far at
/// most and by whose limit, and that the bow is weighed afterwards.
pub fn bolts_caution(card: &Card) -> String {
    let except = if card.bow.kind == BowKind::Recurve {
        ", except when setting the tiller"
    } else {
        ""
    };
    let limit = match card.bow.maker_max_turns {
        Some(turns) => format!(
            "never past the bow maker's {} out from fully seated",
            turns_of(turns)
        ),
        None => "never past the bow maker's turns out, which are not on the card".into(),
    };
    format!("Turn both limb bolts the same{except}, {limit}; weigh the bow before the next shot")
}

/// A number of turns: `1/2 turn`, `2 turns`.
pub fn turns_of(turns: f64) -> String {
    amount(AdjusterKind::LimbBolts, turns, System::Mm)
}

/// How to take up play when a move reverses: go beyond, come back, and
/// finish from the side the last move came from.
pub fn backlash_note(
    step: &Step,
    last_direction: Option<f64>,
    adjuster: &Adjuster,
    system: System,
) -> Option<String> {
    let last = last_direction?;
    if adjuster.backlash <= 0.0 || last * step.amount >= 0.0 {
        return None;
    }
    // Two whole steps past the play are enough to load the thread the usual way.
    let beyond = adjuster.backlash + 2.0 * adjuster.step;
    let beyond = (beyond / adjuster.step).ceil() * adjuster.step;
    Some(format!(
        "Reversal: go {} beyond, then come back, so the play is taken up from the same side",
        amount(step.adjuster, beyond, system)
    ))
}

fn reading(mm: f64, system: System) -> String {
    match system {
        System::Mm => format!("{} mm", trim_number(mm, 2)),
        System::Inch => format!("{:.3} in", mm / crate::units::MM_PER_INCH),
    }
}

/// The move as `tearbench move` takes it: `rest left 1.5 mm`.
pub fn step_command(step: &Step) -> String {
    let (kind, value) = (step.adjuster, step.amount);
    let (minus, plus) = kind.directions();
    let way = if value < 0.0 { minus } else { plus };
    let noun = match kind {
        AdjusterKind::NockingPoint => "nock",
        AdjusterKind::PlungerTension => "plunger",
        AdjusterKind::CentreShot => "centre",
        AdjusterKind::YokeTwist => "yoke",
        AdjusterKind::CamShim => "cam",
        AdjusterKind::LimbBolts => "limb",
        AdjusterKind::BraceHeight => "brace",
        AdjusterKind::RestSideways | AdjusterKind::RestHeight => "rest",
    };
    // Six decimals: what is printed, read back, is exactly what was meant.
    let size = trim_number(value.abs(), 6);
    format!("{noun} {way} {size} {}", kind.unit().id())
}

/// Whether a sideways step goes toward the side the tail tore to.
pub fn toward_the_tail(step: &Step, mean: Tear) -> Option<bool> {
    let tail = match step.adjuster {
        AdjusterKind::RestSideways | AdjusterKind::CentreShot => mean.right,
        AdjusterKind::RestHeight => mean.up,
        _ => return None,
    };
    (tail.abs() >= 1.0).then_some(tail * step.amount > 0.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::gear::{CardText, parse_moves};

    fn card(hand: &str) -> Card {
        let source = format!(
            "[bow]\nkind=\"compound\"\nhand=\"{hand}\"\nrelease=\"aid\"\npeak_weight=\"60 lb\"\ndraw_length=\"29 in\"\nbrace_height=\"7 in\"\nlet_off=\"75 %\"\n[rest]\nkind=\"drop-away\"\nclick=\"0.25 mm\"\ntravel=\"8 mm\"\nreading=\"20.6 mm\"\nclockwise=\"out\"\nbacklash=\"0.2 mm\"\n[arrow]\nshaft_length=\"29 in\"\nspine=0.4\nshaft_mass=\"8.5 gr/in\"\npoint_mass=\"125 gr\"\n[paper]\ndistance=\"2 m\"\n"
        );
        Card::read(&CardText::from_toml(&source).unwrap())
            .unwrap()
            .0
    }

    #[test]
    fn a_rest_move_is_worded_for_a_bow_lying_on_the_bench() {
        let step = Step {
            adjuster: AdjusterKind::RestSideways,
            amount: -1.5,
        };
        let now = Positions::default();
        let right = step_bench(&step, &card("right"), &now, System::Mm);
        assert_eq!(
            right,
            "Rest OUT from the riser 1.50 mm (6 clicks, clockwise): LEFT as the shooter sees it, riser to shaft 20.6 mm -> 22.1 mm"
        );
        let left = step_bench(&step, &card("left"), &now, System::Mm);
        assert!(
            left.starts_with("Rest IN toward the riser 1.50 mm (6 clicks, anticlockwise): LEFT"),
            "{left}"
        );
        assert_eq!(
            step_headline(&step, &card("right"), System::Mm),
            "Rest OUT 1.50 mm (6 clicks), LEFT"
        );
    }

    #[test]
    fn a_reversal_past_backlash_finishes_from_the_same_side() {
        let card = card("right");
        let rest = card.adjuster(AdjusterKind::RestSideways).unwrap();
        let step = Step {
            adjuster: AdjusterKind::RestSideways,
            amount: 0.5,
        };
        assert!(
            backlash_note(&step, Some(-1.0), rest, System::Mm)
                .unwrap()
                .contains("0.75 mm beyond")
        );
        assert_eq!(backlash_note(&step, Some(1.0), rest, System::Mm), None);
        assert_eq!(backlash_note(&step, None, rest, System::Mm), None);
    }

    #[test]
    fn moves_are_read_the_way_people_say_them_and_read_back() {
        let card = card("right");
        let now = Positions::default();
        let read = |text: &str| parse_moves(text, &card, &now, System::Mm);
        for (text, kind, amount) in [
            ("rest left 1.5 mm", AdjusterKind::RestSideways, -1.5),
            ("rest out 6 clicks", AdjusterKind::RestSideways, -1.5),
            ("rest up 1/16 in", AdjusterKind::RestHeight, 1.5875),
            ("nock down 1 mm", AdjusterKind::NockingPoint, -1.0),
            ("nocking point up 2", AdjusterKind::NockingPoint, 2.0),
            ("rest at 19.3 mm", AdjusterKind::RestSideways, 1.3),
        ] {
            let steps = read(text).unwrap_or_else(|e| panic!("{text}: {e}"));
            assert_eq!(steps.len(), 1);
            assert_eq!(steps[0].adjuster, kind, "{text}");
            assert!(
                (steps[0].amount - amount).abs() < 1e-9,
                "{text}: {}",
                steps[0].amount
            );
            if !text.contains(" at ") {
                assert_eq!(read(&step_command(&steps[0])).unwrap(), steps);
            }
        }
        assert_eq!(read("rest left 1 mm, rest up 2 mm").unwrap().len(), 2);
        for (wrong, word) in [
            ("rest sideways 1 mm", "sideways"),
            ("plunger firmer 1/8 turn", "plunger"),
            ("rest left", "rest left"),
            ("rest left 0 mm", "0 mm"),
            ("rest left 900 mm", "900 mm"),
            ("shoe left 1 mm", "shoe"),
            ("rest left 1 turn", "turn"),
            ("rest left 1/2", "1/2"),
            ("rest at 19 1/2", "19 1/2"),
            (
                "rest left 1 mm, rest right 1 mm",
                "rest left 1 mm, rest right 1 mm",
            ),
            ("", ""),
        ] {
            assert_eq!(read(wrong).unwrap_err().word, word, "{wrong}");
        }
    }

    #[test]
    fn in_and_out_change_with_the_hand_and_left_and_right_do_not() {
        use AdjusterKind::{CentreShot, NockingPoint, RestHeight, RestSideways};
        for kind in [RestSideways, CentreShot] {
            for (value, right, left, way) in
                [(-1.5, "OUT", "IN", "LEFT"), (1.5, "IN", "OUT", "RIGHT")]
            {
                assert_eq!(in_or_out(kind, value, Hand::Right), Some(right));
                assert_eq!(in_or_out(kind, value, Hand::Left), Some(left));
                assert_eq!(direction(kind, value), way);
            }
        }
        for kind in [RestHeight, NockingPoint] {
            assert_eq!(in_or_out(kind, 1.0, Hand::Right), None);
            assert_eq!(
                (direction(kind, -1.0), direction(kind, 1.0)),
                ("DOWN".into(), "UP".into())
            );
        }
        let plunger = AdjusterKind::PlungerTension;
        assert_eq!(direction(plunger, -0.25), "SOFTER");
        assert_eq!(direction(plunger, 0.25), "FIRMER");
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
}
