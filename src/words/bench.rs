//! A move at the bench, line by line, and the sheet that puts a bow back.

use super::moves::reading;
use super::{amount, caution, count, expected, step_advised, step_command};
use crate::bench_plan::{After, BenchPlan};
use crate::gear::{AdjusterKind, Positions, Step};
use crate::restore::{Difference, PutBack, Target, differences, to_the_start};
use crate::session::Timeline;
use crate::setup::{self, State};
use crate::tear::Tear;
use crate::units::{System, clean};

/// What is measured or looked at after a move.
pub const fn after(after: After) -> &'static str {
    match after {
        After::PressWork => {
            "After press work measure again: axle to axle, brace height, timing, peep, nocking point, rest timing."
        }
        After::RestTiming => "Rest height moved: check the drop-away timing.",
        After::Weigh => {
            "Weigh the bow before the next shot; then measure tiller and brace height again."
        }
        After::BraceHeight => "Measure the draw weight, tiller and brace height again.",
        After::FirstShot => "Look over screws and marks, then shoot the first arrow close in.",
    }
}

/// How to take up the play when a move reverses: go beyond, come back, and
/// finish from the side the last move came from.
fn reversal(kind: AdjusterKind, beyond: f64, system: System) -> String {
    format!(
        "Reversal: go {} beyond, then come back, so the play is taken up from the same side",
        amount(kind, beyond, system)
    )
}

/// A move at the bench, line by line.
pub fn bench_plan(plan: &BenchPlan, system: System) -> Vec<String> {
    let mut lines: Vec<String> = plan.before.iter().map(|c| caution(*c).into()).collect();
    for planned in &plan.steps {
        lines.push(step_advised(&planned.step, system));
        let kind = planned.step.adjuster();
        lines.extend(planned.beyond.map(|mm| reversal(kind, mm, system)));
    }
    lines.extend(plan.afterwards.iter().map(|a| after(*a).into()));
    lines.extend(plan.next.map(|next| {
        format!(
            "Next shot to expect: {}",
            expected(Tear::new(next.right, next.up), next.sd(), system)
        )
    }));
    lines
}

/// Where to put a bow back to: `the start`, `setting 3`.
pub fn target(target: Target) -> String {
    match target {
        Target::Start => "the start".into(),
        Target::Setting(n) => format!("setting {n}"),
    }
}

/// A put-back line by line for the bench.
pub fn put_back(back: &PutBack, system: System) -> Vec<String> {
    if back.is_there() {
        return vec![format!(
            "The bow stands at {} already.",
            target(back.target)
        )];
    }
    bench_plan(&back.plan, system)
}

/// Moves as one line for `tearbench move`; empty where nothing is moved.
pub fn moves_command(steps: &[Step]) -> String {
    let all: Vec<String> = steps.iter().map(step_command).collect();
    all.join(", ")
}

/// A put-back as one line for `tearbench move`.
pub fn put_back_command(back: &PutBack) -> String {
    moves_command(&back.moves())
}

/// Where an adjuster stands: `1.50 mm left (6 clicks)`, `at the start`.
pub fn stands(at: &Difference, system: System) -> String {
    if at.amount == 0.0 {
        return "at the start".into();
    }
    let (minus, plus) = at.adjuster.directions();
    let way = if at.amount < 0.0 { minus } else { plus };
    let clicks = at.clicks.map_or(String::new(), |n| {
        format!(" ({})", count(n.unsigned_abs() as usize, "click"))
    });
    format!("{} {way}{clicks}", amount(at.adjuster, at.amount, system))
}

/// A setting in one line: `rest sideways 1.50 mm left (6 clicks)`.
pub fn place(timeline: &Timeline, positions: &Positions, system: System) -> String {
    let moved: Vec<String> = AdjusterKind::ALL
        .into_iter()
        .filter(|kind| positions.get(*kind) != 0.0)
        .map(|kind| {
            let at = Difference::of(kind, positions.get(kind), &timeline.card);
            format!("{} {}", kind.spoken(), stands(&at, system))
        })
        .collect();
    if moved.is_empty() {
        "the start".into()
    } else {
        moved.join(", ")
    }
}

/// The put-back sheet as text: start settings, settings now, the difference,
/// every setting, everything measured.
pub fn put_back_sheet(timeline: &Timeline, system: System) -> String {
    let mut out = vec![
        format!("PUT-BACK SHEET: {}", clean(&timeline.card.title())),
        String::new(),
        "Where things stand, seen by the shooter, from the start of this session".into(),
    ];
    out.extend(
        differences(timeline)
            .iter()
            .map(|at| on_the_sheet(at, system)),
    );
    out.extend([String::new(), "To put it back to the start".into()]);
    let back = put_back(&to_the_start(timeline), system);
    out.extend(back.iter().map(|line| format!("  {line}")));
    out.extend([String::new(), "Settings of this session".into()]);
    out.extend(timeline.settings.iter().map(|setting| {
        let place = place(timeline, &setting.positions, system);
        format!("  {:>3}  {place}", setting.number)
    }));
    measured(timeline, &mut out);
    out.push(String::new());
    out.push(
        "Finish every move from the same side as before, and look at the witness marks.".into(),
    );
    out.push(String::new());
    out.join("\n")
}

fn on_the_sheet(at: &Difference, system: System) -> String {
    let readings = at.readings.map_or(String::new(), |(start, now)| {
        format!(
            ", calipers {} at the start, {} now",
            reading(start, system),
            reading(now, system)
        )
    });
    format!(
        "  {:<16} {}{readings}",
        at.adjuster.spoken(),
        stands(at, system)
    )
}

fn measured(timeline: &Timeline, out: &mut Vec<String>) {
    let list = setup::checklist(timeline);
    let done: Vec<_> = list.iter().filter(|s| s.entry.is_some()).collect();
    if done.is_empty() {
        return;
    }
    out.extend([String::new(), "Measured before paper".into()]);
    for s in done {
        let value = s.value.as_deref().map_or(String::new(), clean);
        let again = match s.state {
            State::Again(why) => format!(" (measure again: {why})"),
            State::Off => " (off)".into(),
            State::Skipped => "skipped".into(),
            _ => String::new(),
        };
        out.push(format!("  {:<20} {value}{again}", s.item.id));
    }
}
