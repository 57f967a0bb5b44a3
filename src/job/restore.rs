//! Putting a bow back: the moves from where each adjuster stands to the
//! start or to an earlier setting, and how far things are from the start.

use crate::bench_plan::BenchPlan;
use crate::gear::{AdjusterKind, Card, Positions, Step};
use crate::session::Timeline;

/// Where to put the bow back to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Target {
    /// As it was when the session began.
    Start,
    /// A setting by its number, from 1.
    Setting(u32),
}

impl Target {
    /// Reads `start`, `3` or `setting 3`.
    ///
    /// # Errors
    /// When it is neither.
    pub fn parse(text: &str) -> Result<Self, NoTarget> {
        let lower = text.trim().to_lowercase();
        let number = lower.strip_prefix("setting").unwrap_or(&lower).trim();
        match number {
            "start" | "the start" => Ok(Self::Start),
            _ => match number.parse() {
                Ok(number) => Ok(Self::Setting(number)),
                Err(_) => Err(NoTarget(text.into())),
            },
        }
    }
}

impl std::fmt::Display for Target {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Start => out.pad("the start"),
            Self::Setting(n) => write!(out, "setting {n}"),
        }
    }
}

/// A text that names nothing to put the bow back to, as it was typed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NoTarget(pub String);

/// There is no setting of this number.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct NoSetting {
    /// The number asked for.
    pub number: u32,
    /// The last setting there is.
    pub(crate) most: usize,
}

/// Everything it takes to put the bow back.
#[derive(Debug, Clone, PartialEq)]
pub struct PutBack {
    /// Where to.
    pub(crate) target: Target,
    /// Its moves, with what stands before and after them; no step where the
    /// bow stands there already.
    pub plan: BenchPlan,
}

impl PutBack {
    /// Whether the bow stands there already.
    pub(crate) fn is_there(&self) -> bool {
        self.plan.steps.is_empty()
    }
    /// The steps themselves.
    pub fn moves(&self) -> Vec<Step> {
        self.plan.moves()
    }
}

/// The positions a target stands for.
pub fn positions(timeline: &Timeline, target: Target) -> Option<Positions> {
    match target {
        Target::Start => Some(Positions::default()),
        Target::Setting(n) => timeline
            .settings
            .iter()
            .find(|s| s.number == n)
            .map(|s| s.positions),
    }
}

/// The moves that put the bow back to where it was when the session began.
pub fn to_the_start(timeline: &Timeline) -> PutBack {
    back_to(timeline, Target::Start, &Positions::default())
}

/// The moves that put the bow back.
///
/// # Errors
/// When there is no such setting.
pub fn put_back(timeline: &Timeline, target: Target) -> Result<PutBack, NoSetting> {
    match (target, positions(timeline, target)) {
        (_, Some(there)) => Ok(back_to(timeline, target, &there)),
        (Target::Start, None) => Ok(to_the_start(timeline)),
        (Target::Setting(number), None) => Err(NoSetting {
            number,
            most: timeline.settings.len(),
        }),
    }
}

fn back_to(timeline: &Timeline, target: Target, there: &Positions) -> PutBack {
    let steps = timeline.now.steps_to(there);
    PutBack {
        target,
        plan: BenchPlan::of_put_back(&steps, timeline),
    }
}

/// How far one adjuster stands from the start.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Difference {
    /// Which adjuster.
    pub adjuster: AdjusterKind,
    /// From the start, in its unit.
    pub amount: f64,
    /// The same in whole clicks, where it clicks.
    pub clicks: Option<i64>,
    /// Calipers at the start and now, mm, where the start was read.
    pub readings: Option<(f64, f64)>,
}

impl Difference {
    /// An adjuster of this card, so far from the start.
    pub fn of(adjuster: AdjusterKind, amount: f64, card: &Card) -> Self {
        let (own, hand) = (card.adjuster(adjuster), card.bow.hand);
        Self {
            adjuster,
            amount,
            clicks: own.and_then(|a| a.whole_clicks(amount)),
            readings: own
                .and_then(|a| Some((a.reading_at(0.0, hand)?, a.reading_at(amount, hand)?))),
        }
    }
}

/// How far every adjuster of the card, and any other that was moved, stands
/// from the start.
pub(crate) fn differences(timeline: &Timeline) -> Vec<Difference> {
    AdjusterKind::ALL
        .into_iter()
        .filter(|kind| timeline.card.adjuster(*kind).is_some() || timeline.now.get(*kind) != 0.0)
        .map(|kind| Difference::of(kind, timeline.now.get(kind), &timeline.card))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::gear::parse_moves;
    use crate::session::Event;
    use crate::session::told::{self, moved};
    use crate::units::System;
    use crate::words;
    use proptest::prelude::*;

    const CARD: &str = "[bow]\nkind=\"compound\"\nhand=\"HAND\"\nrelease=\"aid\"\npeak_weight=\"60 lb\"\ndraw_length=\"29 in\"\nbrace_height=\"7 in\"\nlet_off=\"75 %\"\n[rest]\nkind=\"drop-away\"\nreading=\"20.6 mm\"\n[arrow]\nshaft_length=\"29 in\"\nspine=0.4\nshaft_mass=\"8.5 gr/in\"\npoint_mass=\"125 gr\"\n[paper]\ndistance=\"2 m\"\n[[adjuster]]\nname=\"rest-sideways\"\nstep=\"0.25 mm\"\nrange=\"8 mm\"\nbacklash=\"0.2 mm\"\nclicks=true\nreading=\"20.6 mm\"\n[[adjuster]]\nname=\"rest-height\"\nstep=\"1/32 in\"\nrange=\"8 mm\"\n[[adjuster]]\nname=\"nocking-point\"\n[[adjuster]]\nname=\"yoke-twist\"\n[[adjuster]]\nname=\"limb-bolts\"\n";

    fn timeline(hand: &str, events: &[Event]) -> Timeline {
        told::timeline(&CARD.replace("HAND", hand), events.to_vec())
    }

    #[test]
    fn a_far_rest_is_put_back_with_clicks_and_the_reversal() {
        let t = timeline("right", &[moved(AdjusterKind::RestSideways, -1.5)]);
        let back = to_the_start(&t);
        let [step] = back.plan.steps[..] else {
            panic!("one step: {back:?}")
        };
        assert_eq!(words::put_back_command(&back), "rest right 1.5 mm");
        let bench = step.step.bench;
        assert_eq!((bench.inward, bench.clicks), (Some(true), Some(6)));
        let (from, to) = bench.readings.unwrap();
        assert!((from - 22.1).abs() < 1e-9 && (to - 20.6).abs() < 1e-9);
        assert_eq!(step.beyond, Some(0.75));
        let none = NoSetting { number: 9, most: 2 };
        assert_eq!(put_back(&t, Target::Setting(9)), Err(none));
        assert!(put_back(&t, Target::Setting(2)).unwrap().is_there());
    }

    #[test]
    fn what_stands_away_from_the_start_is_counted_and_read() {
        let t = timeline("left", &[moved(AdjusterKind::RestSideways, 1.0)]);
        let all = differences(&t);
        let rest = all[0];
        assert_eq!(
            (rest.adjuster, rest.amount),
            (AdjusterKind::RestSideways, 1.0)
        );
        assert_eq!(rest.clicks, Some(4));
        assert_eq!(rest.readings, Some((20.6, 21.6)));
        assert!(all[1..].iter().all(|d| d.amount == 0.0));
    }

    #[test]
    fn targets_are_read() {
        assert_eq!(Target::parse("start"), Ok(Target::Start));
        assert_eq!(Target::parse("setting 3"), Ok(Target::Setting(3)));
        let no = NoTarget("yesterday".into());
        assert_eq!(Target::parse("yesterday"), Err(no));
    }

    /// Amounts that people set: clicks, sixteenths, readings with three decimals.
    fn any_amount() -> impl Strategy<Value = f64> {
        prop_oneof![
            (-12i32..=12).prop_map(|n| f64::from(n) * 0.25),
            (-8i32..=8).prop_map(|n| f64::from(n) * 25.4 / 32.0),
            (-3000i32..=3000).prop_map(|n| f64::from(n) / 1000.0),
            (-5i32..=5).prop_map(|n| f64::from(n) / 3.0),
        ]
        .prop_filter("a move of nothing is no move", |a| *a != 0.0)
    }

    fn any_event() -> impl Strategy<Value = Event> {
        let kinds = [
            AdjusterKind::RestSideways,
            AdjusterKind::RestHeight,
            AdjusterKind::NockingPoint,
            AdjusterKind::YokeTwist,
            AdjusterKind::LimbBolts,
        ];
        prop_oneof![
            6 => (0usize..kinds.len(), any_amount()).prop_map(move |(k, a)| moved(kinds[k], a)),
            2 => (1u32..12).prop_map(|target| Event::Undo { target }),
            1 => (1u32..12).prop_map(|target| Event::Redo { target }),
            1 => (1u32..6).prop_map(|n| Event::Restart { setting: Some(n), why: None }),
        ]
    }

    proptest! {
        #![proptest_config(ProptestConfig { failure_persistence: None, cases: 400, ..ProptestConfig::default() })]
        #[test]
        fn the_printed_put_back_moves_return_exactly_to_the_named_setting(
            events in prop::collection::vec(any_event(), 1..14),
            pick in 0usize..14,
            left in any::<bool>(),
        ) {
            let t = timeline(if left { "left" } else { "right" }, &events);
            let number = t.settings[pick % t.settings.len()].number;
            for target in [Target::Start, Target::Setting(number)] {
                let back = put_back(&t, target).unwrap();
                let wanted = positions(&t, target).unwrap();
                if back.is_there() {
                    prop_assert_eq!(t.now, wanted);
                    continue;
                }
                let command = words::put_back_command(&back);
                let read = parse_moves(&command, &t.card, &t.now, System::Inch)
                    .unwrap_or_else(|e| panic!("{command}: {e}"));
                prop_assert_eq!(t.now.after(&read), wanted, "{}", command);
            }
        }
    }
}
