//! Moves: as a headline, for a bow lying on the bench, and as they are typed.

use super::{capital, count};
use crate::advice::StepAdvice;
use crate::gear::{AdjusterKind, AdjusterUnit, BenchStep, BoltsLimit, Card, Positions, Step};
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

/// `6 clicks`, where it clicks.
pub(super) fn clicks(bench: &BenchStep) -> Option<String> {
    let n = bench.clicks?.unsigned_abs();
    Some(count(n as usize, "click"))
}

/// ` (6 clicks, clockwise)`, as far as the card knows it.
fn turned(bench: &BenchStep) -> String {
    let turn = clockwise(bench).map(str::to_owned);
    let parts: Vec<String> = clicks(bench).into_iter().chain(turn).collect();
    match parts.is_empty() {
        true => String::new(),
        false => format!(" ({})", parts.join(", ")),
    }
}

/// Which way its screw is turned, where the card says so.
pub(super) fn clockwise(bench: &BenchStep) -> Option<&'static str> {
    bench.clockwise.map(|clockwise| match clockwise {
        true => "clockwise",
        false => "anticlockwise",
    })
}

pub(super) fn direction(kind: AdjusterKind, value: f64) -> String {
    let (minus, plus) = kind.directions();
    (if value < 0.0 { minus } else { plus }).to_uppercase()
}

/// A step as a headline: `Rest OUT 1.50 mm (6 clicks), LEFT`.
pub(crate) fn bench_headline(bench: &BenchStep, system: System) -> String {
    let (kind, value) = (bench.step.adjuster, bench.step.amount);
    let (noun, way) = (capital(kind.noun()), direction(kind, value));
    let size = amount(kind, value, system);
    let count = clicks(bench).map_or(String::new(), |c| format!(" ({c})"));
    match bench.inward {
        Some(inward) => {
            let bench = if inward { "IN" } else { "OUT" };
            format!("{noun} {bench} {size}{count}, {way}")
        }
        None => format!("{noun} {way} {size}{count}"),
    }
}

/// The same of a step on this bow.
pub(crate) fn step_headline(step: &Step, card: &Card, system: System) -> String {
    bench_headline(&BenchStep::of(*step, card, &Positions::default()), system)
}

/// A step as a person at the bench wants it, for a bow lying there:
/// `Rest OUT from the riser 1.50 mm (6 clicks, clockwise): LEFT as the shooter sees it`.
pub(crate) fn bench_text(bench: &BenchStep, system: System) -> String {
    let (kind, value) = (bench.step.adjuster, bench.step.amount);
    let (noun, way) = (capital(kind.noun()), direction(kind, value));
    let size = amount(kind, value, system);
    let turned = turned(bench);
    if let Some(limit) = &bench.bolts {
        let caution = bolts_limit(limit);
        return format!("{caution}. {noun} {way} {size}{turned}");
    }
    let mut text = match bench.inward {
        Some(inward) => {
            let to = if inward { "IN toward" } else { "OUT from" };
            format!("{noun} {to} the riser {size}{turned}: {way} as the shooter sees it")
        }
        None => format!("{noun} {way} {size}{turned}"),
    };
    if let Some((from, to)) = bench.readings {
        let what = match bench.inward {
            Some(_) => "riser to shaft",
            None => "calipers",
        };
        let (from, to) = (reading(from, system), reading(to, system));
        text.push_str(&format!(", {what} {from} -> {to}"));
    }
    if bench.press {
        text.push_str(". Bow press: trained hands, the press made for this bow");
    }
    text
}

/// The same of a step from where the adjusters of this bow stand.
pub(crate) fn step_bench(step: &Step, card: &Card, now: &Positions, system: System) -> String {
    bench_text(&BenchStep::of(*step, card, now), system)
}

/// A step of an advised move, with the side the tail went.
pub(crate) fn step_advised(step: &StepAdvice, system: System) -> String {
    let way = match step.toward_tail {
        Some(true) => ", toward the tail",
        Some(false) => ", away from the tail",
        None => "",
    };
    format!("{}{way}", bench_text(&step.bench, system))
}

/// What stands before every move of the limb bolts: both alike, how far at
/// most and by whose limit, and that the bow is weighed afterwards.
pub(super) fn bolts_limit(limit: &BoltsLimit) -> String {
    let except = match limit.tiller {
        true => ", except when setting the tiller",
        false => "",
    };
    let most = match limit.most {
        Some(turns) => format!(
            "never past the bow maker's {} out from fully seated",
            turns_of(turns)
        ),
        None => "never past the bow maker's turns out, which are not on the card".into(),
    };
    format!("Turn both limb bolts the same{except}, {most}; weigh the bow before the next shot")
}

/// A number of turns: `1/2 turn`, `2 turns`.
pub(crate) fn turns_of(turns: f64) -> String {
    amount(AdjusterKind::LimbBolts, turns, System::Mm)
}

/// A calipers reading.
pub(crate) fn reading(mm: f64, system: System) -> String {
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
    fn every_adjuster_has_its_own_words_of_direction() {
        use AdjusterKind::{CentreShot, NockingPoint, RestHeight, RestSideways};
        for kind in [RestSideways, CentreShot] {
            assert_eq!(
                (direction(kind, -1.0), direction(kind, 1.0)),
                ("LEFT".into(), "RIGHT".into())
            );
        }
        for kind in [RestHeight, NockingPoint] {
            assert_eq!(
                (direction(kind, -1.0), direction(kind, 1.0)),
                ("DOWN".into(), "UP".into())
            );
        }
        let plunger = AdjusterKind::PlungerTension;
        assert_eq!(direction(plunger, -0.25), "SOFTER");
        assert_eq!(direction(plunger, 0.25), "FIRMER");
    }
}
