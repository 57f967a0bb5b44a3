//! Putting a bow back: the moves from where each adjuster stands to the
//! start or to an earlier setting, and how far things are from the start.

use crate::bench_plan;
use crate::cautions;
use crate::gear::{AdjusterKind, Card, Positions, Step};
use crate::session::Timeline;
use crate::setup::{self, State};
use crate::units::{System, trim_number};
use crate::words;

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
    /// In words, when it is neither.
    pub fn parse(text: &str) -> Result<Self, String> {
        let lower = text.trim().to_lowercase();
        let number = lower.strip_prefix("setting").unwrap_or(&lower).trim();
        match number {
            "start" | "the start" => Ok(Self::Start),
            _ => number.parse().map(Self::Setting).map_err(|_| {
                format!(
                    "'{}': write start, or a setting's number",
                    crate::units::clean(text)
                )
            }),
        }
    }

    /// In words: `the start`, `setting 3`.
    pub fn words(self) -> String {
        match self {
            Self::Start => "the start".into(),
            Self::Setting(n) => format!("setting {n}"),
        }
    }
}

/// One adjuster to put back.
#[derive(Debug, Clone, PartialEq)]
pub struct PutBackStep {
    /// The move.
    pub step: Step,
    /// As `tearbench move` takes it: `rest left 1.5 mm`.
    pub command: String,
    /// For the bench: which way, how many clicks, calipers from and to.
    pub bench: String,
    /// How to take up the play, where the move reverses.
    pub backlash: Option<String>,
    /// Whole clicks, where it clicks.
    pub clicks: Option<f64>,
}

/// Everything it takes to put the bow back.
#[derive(Debug, Clone, PartialEq)]
pub struct PutBack {
    /// Where to.
    pub target: Target,
    /// Cautions that stand before the moves.
    pub before: Vec<&'static str>,
    /// One for each adjuster that stands elsewhere; empty when it stands there.
    pub steps: Vec<PutBackStep>,
    /// Checks that the moves make due again.
    pub afterwards: Vec<&'static str>,
}

impl PutBack {
    /// All moves as one line for `tearbench move`; empty when there is nothing to move.
    pub fn command(&self) -> String {
        let all: Vec<&str> = self.steps.iter().map(|s| s.command.as_str()).collect();
        all.join(", ")
    }
    /// The steps themselves.
    pub fn moves(&self) -> Vec<Step> {
        self.steps.iter().map(|s| s.step).collect()
    }
    /// Line by line for the bench.
    pub fn lines(&self) -> Vec<String> {
        if self.steps.is_empty() {
            return vec![format!(
                "The bow stands at {} already.",
                self.target.words()
            )];
        }
        let mut lines: Vec<String> = self.before.iter().map(|s| (*s).to_owned()).collect();
        for step in &self.steps {
            lines.push(step.bench.clone());
            lines.extend(step.backlash.iter().map(|note| format!("  {note}")));
        }
        lines.extend(self.afterwards.iter().map(|s| (*s).to_owned()));
        lines
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

/// The moves that put the bow back.
///
/// # Errors
/// When there is no such setting.
pub fn put_back(timeline: &Timeline, target: Target, system: System) -> Result<PutBack, String> {
    let there = positions(timeline, target).ok_or_else(|| {
        format!(
            "there is no {}; settings go from 1 to {}",
            target.words(),
            timeline.settings.len()
        )
    })?;
    let mut before = vec![cautions::PUT_BACK];
    let mut afterwards = Vec::new();
    let steps: Vec<PutBackStep> = timeline
        .now
        .steps_to(&there)
        .into_iter()
        .map(|step| one(timeline, step, system))
        .collect();
    let moves: Vec<Step> = steps.iter().map(|s| s.step).collect();
    let around = bench_plan::around(&moves, &timeline.card);
    before.extend(around.before);
    afterwards.extend(around.afterwards);
    afterwards.push(cautions::FIRST_SHOT_AFTER);
    Ok(PutBack {
        target,
        before,
        steps,
        afterwards,
    })
}

fn one(timeline: &Timeline, step: Step, system: System) -> PutBackStep {
    let card = &timeline.card;
    let adjuster = card.adjuster(step.adjuster);
    let last = timeline.last_way[step.adjuster.index()];
    PutBackStep {
        command: words::step_command(&step),
        bench: words::step_bench(&step, card, &timeline.now, system),
        backlash: adjuster
            .and_then(|a| words::backlash_note(&step, (last != 0.0).then_some(last), a, system)),
        clicks: adjuster.and_then(|a| whole_clicks(a.clicks, a.step, step.amount)),
        step,
    }
}

fn whole_clicks(clicks: bool, step: f64, amount: f64) -> Option<f64> {
    let count = amount / step;
    (clicks && (count - count.round()).abs() < 0.02).then(|| count.round())
}

/// How far one adjuster stands from the start.
#[derive(Debug, Clone, PartialEq)]
pub struct Difference {
    /// Which adjuster.
    pub adjuster: AdjusterKind,
    /// From the start, in its unit.
    pub amount: f64,
    /// In words: `1.50 mm left (6 clicks)`.
    pub text: String,
    /// Calipers at the start and now, mm, where the start was read.
    pub readings: Option<(f64, f64)>,
}

/// How far every adjuster of the card, and any other that was moved, stands
/// from the start.
pub fn differences(timeline: &Timeline, system: System) -> Vec<Difference> {
    AdjusterKind::ALL
        .into_iter()
        .filter(|kind| timeline.card.adjuster(*kind).is_some() || timeline.now.get(*kind) != 0.0)
        .map(|kind| difference(timeline, kind, system))
        .collect()
}

fn difference(timeline: &Timeline, kind: AdjusterKind, system: System) -> Difference {
    let amount = timeline.now.get(kind);
    let adjuster = timeline.card.adjuster(kind);
    let hand = timeline.card.bow.hand;
    Difference {
        adjuster: kind,
        amount,
        text: standing(kind, amount, &timeline.card, system),
        readings: adjuster
            .and_then(|a| Some((a.reading_at(0.0, hand)?, a.reading_at(amount, hand)?))),
    }
}

/// Where an adjuster stands, in words: `1.50 mm left (6 clicks)`, `at the start`.
pub fn standing(kind: AdjusterKind, amount: f64, card: &Card, system: System) -> String {
    if amount == 0.0 {
        return "at the start".into();
    }
    let (minus, plus) = kind.directions();
    let mut text = format!(
        "{} {}",
        words::amount(kind, amount, system),
        if amount < 0.0 { minus } else { plus }
    );
    let clicks = card
        .adjuster(kind)
        .and_then(|a| whole_clicks(a.clicks, a.step, amount));
    if let Some(clicks) = clicks {
        let clicks = clicks.abs() as usize;
        text.push_str(&format!(" ({})", words::count(clicks, "click")));
    }
    text
}

/// The restore sheet as text: start settings, settings now, the difference,
/// every setting with its put-back moves, witness marks, everything measured.
pub fn sheet(timeline: &Timeline, system: System) -> String {
    let mut out = vec![
        format!(
            "RESTORE SHEET: {}",
            crate::units::clean(&timeline.card.title())
        ),
        String::new(),
        "Where things stand, seen by the shooter, from the start of this session".into(),
    ];
    for d in differences(timeline, system) {
        let readings = d.readings.map_or(String::new(), |(start, now)| {
            format!(
                ", calipers {} mm at the start, {} mm now",
                trim_number(start, 2),
                trim_number(now, 2)
            )
        });
        out.push(format!(
            "  {:<16} {}{readings}",
            d.adjuster.spoken(),
            d.text
        ));
    }
    section(
        &mut out,
        "To put it back to the start",
        put_back(timeline, Target::Start, system),
    );
    out.extend([String::new(), "Settings of this session".into()]);
    for setting in &timeline.settings {
        out.push(format!(
            "  {:>3}  {}",
            setting.number,
            place(timeline, &setting.positions, system)
        ));
    }
    measured(timeline, &mut out);
    out.push(String::new());
    out.push(
        "Finish every move from the same side as before, and look at the witness marks.".into(),
    );
    out.push(String::new());
    out.join("\n")
}

/// A setting in one line: `rest sideways 1.50 mm left (6 clicks)`.
pub fn place(timeline: &Timeline, positions: &Positions, system: System) -> String {
    let moved: Vec<String> = AdjusterKind::ALL
        .into_iter()
        .filter(|kind| positions.get(*kind) != 0.0)
        .map(|kind| {
            format!(
                "{} {}",
                kind.spoken(),
                standing(kind, positions.get(kind), &timeline.card, system)
            )
        })
        .collect();
    if moved.is_empty() {
        "the start".into()
    } else {
        moved.join(", ")
    }
}

fn section(out: &mut Vec<String>, title: &str, put_back: Result<PutBack, String>) {
    out.extend([String::new(), title.into()]);
    match put_back {
        Ok(found) => out.extend(found.lines().iter().map(|line| format!("  {line}"))),
        Err(problem) => out.push(format!("  {problem}")),
    }
}

fn measured(timeline: &Timeline, out: &mut Vec<String>) {
    let list = setup::checklist(timeline);
    let done: Vec<_> = list.iter().filter(|s| s.entry.is_some()).collect();
    if done.is_empty() {
        return;
    }
    out.extend([String::new(), "Measured before paper".into()]);
    for s in done {
        let value = s
            .value
            .as_deref()
            .map_or(String::new(), crate::units::clean);
        let again = match s.state {
            State::Again(why) => format!(" (measure again: {why})"),
            State::Off => " (off)".into(),
            State::Skipped => "skipped".into(),
            _ => String::new(),
        };
        out.push(format!("  {:<20} {value}{again}", s.item.id));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::gear::{CardText, parse_moves};
    use crate::session::{Entry, Event};
    use proptest::prelude::*;

    const CARD: &str = "[bow]\nkind=\"compound\"\nhand=\"HAND\"\nrelease=\"aid\"\npeak_weight=\"60 lb\"\ndraw_length=\"29 in\"\nbrace_height=\"7 in\"\nlet_off=\"75 %\"\n[rest]\nkind=\"drop-away\"\nreading=\"20.6 mm\"\n[arrow]\nshaft_length=\"29 in\"\nspine=0.4\nshaft_mass=\"8.5 gr/in\"\npoint_mass=\"125 gr\"\n[paper]\ndistance=\"2 m\"\n[[adjuster]]\nname=\"rest-sideways\"\nstep=\"0.25 mm\"\nrange=\"8 mm\"\nbacklash=\"0.2 mm\"\nclicks=true\nreading=\"20.6 mm\"\n[[adjuster]]\nname=\"rest-height\"\nstep=\"1/32 in\"\nrange=\"8 mm\"\n[[adjuster]]\nname=\"nocking-point\"\n[[adjuster]]\nname=\"yoke-twist\"\n[[adjuster]]\nname=\"limb-bolts\"\n";

    fn timeline(hand: &str, events: &[Event]) -> Timeline {
        let entries: Vec<Entry> = events
            .iter()
            .enumerate()
            .map(|(i, e)| Entry::now(i as u32 + 1, e.clone()))
            .collect();
        Timeline::new(
            &CardText::from_toml(&CARD.replace("HAND", hand)).unwrap(),
            &entries,
        )
        .unwrap()
    }

    fn moved(adjuster: AdjusterKind, amount: f64) -> Event {
        Event::Move {
            steps: vec![Step { adjuster, amount }],
            said: None,
            confirms: None,
        }
    }

    #[test]
    fn a_far_rest_is_put_back_with_clicks_and_the_reversal() {
        let t = timeline("right", &[moved(AdjusterKind::RestSideways, -1.5)]);
        let back = put_back(&t, Target::Start, System::Mm).unwrap();
        assert_eq!(back.command(), "rest right 1.5 mm");
        assert!(
            back.steps[0]
                .bench
                .contains("IN toward the riser 1.50 mm (6 clicks)")
        );
        assert!(back.steps[0].bench.contains("22.1 mm -> 20.6 mm"));
        assert!(back.steps[0].backlash.as_ref().unwrap().contains("beyond"));
        assert_eq!(back.steps[0].clicks, Some(6.0));
        assert!(
            put_back(&t, Target::Setting(9), System::Mm)
                .unwrap_err()
                .contains("1 to 2")
        );
        assert!(
            put_back(&t, Target::Setting(2), System::Mm)
                .unwrap()
                .steps
                .is_empty()
        );
    }

    #[test]
    fn the_sheet_says_where_everything_stands() {
        let t = timeline(
            "left",
            &[
                moved(AdjusterKind::RestSideways, 1.0),
                Event::Setup {
                    item: "brace-height".into(),
                    value: Some("7 in".into()),
                    result: "ok".into(),
                },
            ],
        );
        let text = sheet(&t, System::Mm);
        for wanted in [
            "1.00 mm right (4 clicks)",
            "20.6 mm at the start, 21.6 mm now",
            "brace-height",
            "the start",
        ] {
            assert!(text.contains(wanted), "{wanted}\n{text}");
        }
    }

    #[test]
    fn targets_are_read() {
        assert_eq!(Target::parse("start"), Ok(Target::Start));
        assert_eq!(Target::parse("setting 3"), Ok(Target::Setting(3)));
        assert!(Target::parse("yesterday").is_err());
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
                let back = put_back(&t, target, System::Mm).unwrap();
                let wanted = positions(&t, target).unwrap();
                if back.steps.is_empty() {
                    prop_assert_eq!(t.now, wanted);
                    continue;
                }
                let read = parse_moves(&back.command(), &t.card, &t.now, System::Inch)
                    .unwrap_or_else(|e| panic!("{}: {e}", back.command()));
                prop_assert_eq!(t.now.after(&read), wanted, "{}", back.command());
            }
        }
    }
}
