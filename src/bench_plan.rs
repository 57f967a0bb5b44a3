//! A move as the bench wants it: what stands before it, each step with how
//! its play is taken up, what to look at afterwards, what to expect. One plan
//! for advice, proof and put-back, on screen and on the command line.

use crate::advice::{Analysis, NextShot};
use crate::cautions;
use crate::gear::{AdjusterKind, Card, RestKind, Step};
use crate::session::Timeline;
use crate::tear::Tear;
use crate::units::System;
use crate::words;

/// What goes with a move of these adjusters.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Around {
    /// Cautions that stand before the steps.
    pub before: Vec<&'static str>,
    /// What is measured or looked at after them.
    pub afterwards: Vec<&'static str>,
}

/// What goes with these steps on this bow.
pub fn around(steps: &[Step], card: &Card) -> Around {
    let mut found = Around::default();
    let moves = |kind: AdjusterKind| steps.iter().any(|s| s.adjuster == kind);
    if steps.iter().any(|s| card.needs_press(s.adjuster)) {
        found.before.push(cautions::PRESS);
        found.afterwards.push("After press work measure again: axle to axle, brace height, timing, peep, nocking point, rest timing.");
    }
    if moves(AdjusterKind::RestHeight) && card.rest.kind == RestKind::DropAway {
        found
            .afterwards
            .push("Rest height moved: check the drop-away timing.");
    }
    if moves(AdjusterKind::LimbBolts) {
        found.afterwards.push(
            "Weigh the bow before the next shot; then measure tiller and brace height again.",
        );
    } else if moves(AdjusterKind::BraceHeight) && !card.needs_press(AdjusterKind::BraceHeight) {
        found
            .afterwards
            .push("Measure the draw weight, tiller and brace height again.");
    }
    found
}

/// A move at the bench, kept as figures.
#[derive(Debug, Clone)]
pub struct BenchPlan<'a> {
    timeline: &'a Timeline,
    steps: &'a [Step],
    likely: Option<Tear>,
    next: Option<NextShot>,
}

impl<'a> BenchPlan<'a> {
    /// The plan of a move that is advised or waits to be confirmed, as the
    /// analysis stands.
    pub fn of(steps: &'a [Step], timeline: &'a Timeline, analysis: &Analysis) -> Self {
        let likely = analysis.advice.estimate.tear_mm;
        Self {
            timeline,
            steps,
            likely: likely.map(|t| Tear::new(t.right, t.up)),
            next: analysis.next_shot,
        }
    }

    /// Line by line.
    pub fn lines(&self, system: System) -> Vec<String> {
        let around = around(self.steps, &self.timeline.card);
        let mut lines: Vec<String> = around.before.iter().map(|s| (*s).to_owned()).collect();
        for step in self.steps {
            lines.push(self.step(step, system));
            lines.extend(self.backlash(step, system));
        }
        lines.extend(around.afterwards.iter().map(|s| (*s).to_owned()));
        lines.extend(self.next.map(|next| {
            format!(
                "Next shot to expect: {}",
                words::expected(Tear::new(next.right, next.up), next.sd(), system)
            )
        }));
        lines
    }

    fn step(&self, step: &Step, system: System) -> String {
        let (card, now) = (&self.timeline.card, &self.timeline.now);
        let toward = self
            .likely
            .and_then(|tear| crate::gear::toward_the_tail(step, tear));
        let way = match toward {
            Some(true) => ", toward the tail",
            Some(false) => ", away from the tail",
            None => "",
        };
        format!("{}{way}", words::step_bench(step, card, now, system))
    }

    fn backlash(&self, step: &Step, system: System) -> Option<String> {
        let last = self.timeline.last_way[step.adjuster.index()];
        let adjuster = self.timeline.card.adjuster(step.adjuster)?;
        words::backlash_note(step, (last != 0.0).then_some(last), adjuster, system)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::setup::tests::{COMPOUND, timeline};

    fn step(adjuster: AdjusterKind) -> [Step; 1] {
        [Step {
            adjuster,
            amount: 1.0,
        }]
    }

    #[test]
    fn what_goes_with_a_move_is_said_of_the_move_that_needs_it() {
        let card = timeline(COMPOUND, vec![]).card;
        let of = |kind| around(&step(kind), &card);
        assert_eq!(of(AdjusterKind::RestSideways), Around::default());
        assert_eq!(
            of(AdjusterKind::RestHeight).afterwards,
            ["Rest height moved: check the drop-away timing."]
        );
        let yoke = of(AdjusterKind::YokeTwist);
        assert_eq!(yoke.before, [cautions::PRESS]);
        assert!(yoke.afterwards[0].contains("measure again"));
        let bolts = of(AdjusterKind::LimbBolts);
        assert!(bolts.afterwards[0].starts_with("Weigh the bow"));
        // On a compound brace height is a matter of string and cables.
        assert_eq!(of(AdjusterKind::BraceHeight).before, [cautions::PRESS]);
    }
}
