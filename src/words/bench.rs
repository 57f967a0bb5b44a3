//! A move at the bench, line by line, and the sheet that puts a bow back.

use std::fmt;

use super::{amount, caution, count, expected, step_advised, step_command};
use crate::bench_plan::{After, BenchPlan};
use crate::cautions::Caution;
use crate::gear::{AdjusterKind, Positions, Step};
use crate::restore::{Difference, NoSetting, NoTarget, PutBack, Target};
use crate::session::Timeline;
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
        "Reversal: go {} beyond, then come back, so the backlash is taken up from the same side",
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
    for next in &plan.afterwards {
        if *next == After::Weigh {
            lines.push(caution(Caution::Weighing).into());
        }
        lines.push(after(*next).into());
    }
    lines.extend(plan.next.map(|next| {
        format!(
            "Next shot to expect: {}",
            expected(Tear::new(next.right, next.up), next.sd(), system)
        )
    }));
    lines
}

/// Where to put a bow back to: `the start`, `setting 3`.
pub(crate) fn target(target: Target) -> String {
    target.to_string()
}

impl fmt::Display for NoTarget {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let text = clean(&self.0);
        write!(out, "'{text}': write start, or a setting's number")
    }
}

impl fmt::Display for NoSetting {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { number, most } = self;
        write!(
            out,
            "there is no setting {number}; settings go from 1 to {most}"
        )
    }
}

impl std::error::Error for NoTarget {}
impl std::error::Error for NoSetting {}

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
pub(crate) fn moves_command(steps: &[Step]) -> String {
    let all: Vec<String> = steps.iter().map(step_command).collect();
    all.join(", ")
}

/// A put-back as one line for `tearbench move`.
pub fn put_back_command(back: &PutBack) -> String {
    moves_command(&back.moves())
}

/// Where an adjuster stands: `1.50 mm left (6 clicks)`, `at the start`.
pub(crate) fn stands(at: &Difference, system: System) -> String {
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
