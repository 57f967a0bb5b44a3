//! What the panes say in pieces: an order as a bench hears it, a tear by its
//! two sides, the four checks by a word each. Short forms of the same facts
//! as the sentences beside them.

use super::moves::{clicks, clockwise, direction};
use super::{TWO_OF_THREE, amount, capital, count, percent};
use crate::checks::{Figure, Status, Unit};
use crate::gear::{AdjusterKind, Axis, BenchStep, Card, Positions, Step};
use crate::tear::Tear;
use crate::units::{System, trim_number};

/// One step of a move, in the pieces a screen sets apart.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Order {
    /// What is moved: `Rest`.
    pub(crate) noun: String,
    /// Which way, for a bow lying on the bench: `OUT`.
    pub(crate) way: String,
    /// How far, without its unit: `2.25`.
    pub(crate) size: String,
    /// The unit: `mm`.
    pub unit: String,
    /// The same counted: `9 clicks`.
    pub clicks: Option<String>,
    /// The same as it is turned: `9 clicks clockwise`.
    pub(crate) turned: Option<String>,
    /// The side of the shooter it goes to, where the bench has words of its
    /// own: `left`.
    pub(crate) toward: Option<String>,
    /// Which way that is for the shooter, where the bench has words of its own.
    pub(crate) side: Option<String>,
}

impl Order {
    /// The order of a step.
    pub fn of(step: &Step, card: &Card, system: System) -> Self {
        let (kind, value) = (step.adjuster, step.amount);
        let way = direction(kind, value);
        let full = amount(kind, value, system);
        let (size, unit) = full.rsplit_once(' ').unwrap_or((&full, ""));
        let bench = BenchStep::of(*step, card, &Positions::default());
        let at_riser = bench.inward.map(|inward| if inward { "IN" } else { "OUT" });
        let toward = at_riser.map(|_| way.to_lowercase());
        let clicks = clicks(&bench);
        let turned = [clicks.clone(), clockwise(&bench).map(str::to_owned)];
        let turned: Vec<String> = turned.into_iter().flatten().collect();
        Self {
            noun: capital(kind.noun()),
            way: at_riser.map_or(way, str::to_owned),
            size: size.to_owned(),
            unit: unit.to_owned(),
            clicks,
            turned: (!turned.is_empty()).then(|| turned.join(" ")),
            side: toward.as_ref().map(|way| format!("{way} as you shoot")),
            toward,
        }
    }

    /// The unit where it stands alone, so that inches are not read as a way.
    pub(crate) fn unit_alone(&self) -> &str {
        match self.unit.as_str() {
            "in" => "inches",
            unit => unit,
        }
    }

    /// In one line: `Rest OUT 2.25 mm`.
    pub fn line(&self) -> String {
        format!("{} {} {} {}", self.noun, self.way, self.size, self.unit)
    }

    /// In as few letters as tell it: `OUT 2.25`, `Plunger FIRMER 1/8`.
    pub(crate) fn short(&self, kind: AdjusterKind) -> String {
        let noun = match kind {
            AdjusterKind::RestSideways | AdjusterKind::RestHeight => "",
            AdjusterKind::NockingPoint => "Nock ",
            AdjusterKind::PlungerTension => "Plunger ",
            AdjusterKind::CentreShot => "Centre ",
            AdjusterKind::YokeTwist => "Yoke ",
            AdjusterKind::CamShim => "Cam ",
            AdjusterKind::LimbBolts => "Bolts ",
            AdjusterKind::BraceHeight => "Brace ",
        };
        format!("{noun}{} {}", self.way, self.size)
    }
}

/// A tear by its sides, each without a unit: `8 left` and `2 high`; what is
/// too small to name is left out.
pub(crate) fn sides(tear: Tear, system: System) -> [Option<String>; 2] {
    let part = |value: f64, minus: &str, plus: &str| {
        let number = system.tear_number(value.abs());
        (number != "0").then(|| format!("{number} {}", if value < 0.0 { minus } else { plus }))
    };
    [
        part(tear.right, "left", "right"),
        part(tear.up, "low", "high"),
    ]
}

/// A tear along what an adjuster moves: `7 high`, `clean` where nothing is left.
pub(crate) fn along(tear: Tear, kind: AdjusterKind, system: System) -> String {
    let [sideways, upright] = sides(tear, system);
    let part = match kind.axis() {
        Axis::Vertical => upright,
        _ => sideways,
    };
    part.unwrap_or_else(|| "clean".into())
}

/// How shots stray round the tear to expect: `2 of 3 within 6 mm`. `sd` is
/// that of one component, mm; less than a millimetre is not promised.
pub(crate) fn stray(sd: f64, system: System) -> String {
    format!(
        "2 of 3 within {}",
        system.tear((sd * TWO_OF_THREE).max(1.0))
    )
}

/// Within the tolerance: `within 6 mm`.
pub fn within(tolerance: f64, system: System) -> String {
    format!("within {}", system.tear(tolerance))
}

/// The chance now: `now 9 %`.
pub fn now(chance: f64) -> String {
    format!("now {}", percent(chance))
}

/// Shots at this setting and in all: `1 here, 7 in all`.
pub fn shots(here: usize, all: usize) -> String {
    if here == all {
        count(all, "shot")
    } else {
        format!("{here} here, {all} in all")
    }
}

/// How a check stands, in two letters at most.
pub(crate) const fn mark(status: Status) -> &'static str {
    match status {
        Status::Pass => "ok",
        Status::Borderline => "~",
        Status::Pending => "..",
        Status::Fail => "NO",
    }
}

/// A figure against its limit: `2 mm (limit 6)`, the shorter where the longer
/// is longer than the room.
pub(crate) fn against(value: f64, limit: f64, system: System, room: usize) -> String {
    let limit = format!("(limit {})", system.tear_number(limit));
    let full = format!("{} {limit}", system.tear(value));
    if full.chars().count() <= room {
        full
    } else {
        format!("{} {limit}", system.tear_number(value))
    }
}

/// How far the estimate may be off: `± 2 mm, 1 shot`, the unit left out where
/// there is no room for it.
pub(crate) fn give_or_take(sd: f64, shots: usize, system: System, room: usize) -> String {
    let shots = count(shots, "shot");
    let full = format!("± {}, {shots}", system.tear(sd));
    if full.chars().count() <= room {
        full
    } else {
        format!("± {}, {shots}", system.tear_number(sd))
    }
}

/// A tear with its sides set apart and no unit: `18 left, 3 high`.
pub fn tear(tear: Tear, system: System) -> String {
    let parts: Vec<String> = sides(tear, system).into_iter().flatten().collect();
    if parts.is_empty() {
        "clean".into()
    } else {
        parts.join(", ")
    }
}

/// The figure of a check against its limit, in as few words as tell it;
/// without what is said elsewhere where it is longer than the room.
pub fn figure(found: &Figure, system: System, room: usize) -> String {
    let (value, limit) = (found.value, found.limit);
    let (short, more) = match found.unit {
        Unit::Mm => return against(value, limit, system, room),
        Unit::Times if value >= 1.0 => {
            let short = format!("load {:.0} % over", (value - 1.0) * 100.0);
            (short, " matched".to_owned())
        }
        Unit::Times => {
            let short = format!("load {:.0} % under", (1.0 - value) * 100.0);
            (short, " matched".to_owned())
        }
        Unit::Travel => (
            format!("{:.0} % of its travel", value * 100.0),
            String::new(),
        ),
        Unit::Chance => (format!("chance {}", percent(value)), String::new()),
        unit => {
            let short = format!("{} {}", trim_number(value, 1), unit.id());
            (short, format!(" (limit {})", trim_number(limit, 1)))
        }
    };
    if short.chars().count() + more.chars().count() <= room {
        short + &more
    } else {
        short
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::gear::CardText;

    fn card(hand: &str) -> Card {
        let source = include_str!("../../tests/scenarios/cards/compound.toml")
            .replace("hand = \"right\"", &format!("hand = \"{hand}\""));
        Card::read(&CardText::from_toml(&source).unwrap())
            .unwrap()
            .0
    }

    fn rest(amount: f64, hand: &str) -> Order {
        let step = Step {
            adjuster: AdjusterKind::RestSideways,
            amount,
        };
        Order::of(&step, &card(hand), System::Mm)
    }

    #[test]
    fn an_order_is_for_a_bow_on_the_bench_and_keeps_the_shooter_s_side() {
        let right = rest(-2.25, "right");
        assert_eq!(right.line(), "Rest OUT 2.25 mm");
        assert_eq!(right.side.as_deref(), Some("left as you shoot"));
        assert!(right.turned.unwrap().starts_with("9 clicks"));
        let left = rest(-2.25, "left");
        assert_eq!(left.line(), "Rest IN 2.25 mm");
        assert_eq!(left.side.as_deref(), Some("left as you shoot"));
        let mirrored = rest(2.25, "left");
        assert_eq!(mirrored.line(), "Rest OUT 2.25 mm");
        assert_eq!(mirrored.side.as_deref(), Some("right as you shoot"));
        let up = Step {
            adjuster: AdjusterKind::RestHeight,
            amount: 1.5,
        };
        let up = Order::of(&up, &card("right"), System::Inch);
        assert_eq!(up.line(), "Rest UP 0.059 in");
        assert_eq!(up.side, None);
        assert_eq!(up.short(AdjusterKind::RestHeight), "UP 0.059");
    }

    #[test]
    fn a_tear_falls_into_its_sides() {
        let of = |right, up| sides(Tear::new(right, up), System::Mm);
        assert_eq!(
            of(-8.0, 2.0),
            [Some("8 left".into()), Some("2 high".into())]
        );
        assert_eq!(of(8.0, -0.2), [Some("8 right".into()), None]);
        let tear = Tear::new(-8.0, -3.0);
        assert_eq!(along(tear, AdjusterKind::RestHeight, System::Mm), "3 low");
        assert_eq!(
            along(tear, AdjusterKind::RestSideways, System::Mm),
            "8 left"
        );
        assert_eq!(
            along(Tear::default(), AdjusterKind::RestSideways, System::Mm),
            "clean"
        );
    }
}
