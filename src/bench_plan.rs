//! A move as the bench wants it: what stands before it, each step with how
//! its play is taken up, what to look at afterwards, what to expect. One plan
//! for advice, proof and put-back, kept as figures.

use crate::advice::{Analysis, NextShot, StepAdvice};
use crate::cautions::Caution;
use crate::gear::{AdjusterKind, BenchStep, Card, RestKind, Step, beyond, toward_the_tail};
use crate::session::Timeline;
use crate::tear::Tear;

/// What is measured or looked at after a move.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum After {
    /// What press work changes is measured again.
    PressWork,
    /// The drop-away's timing.
    RestTiming,
    /// The draw weight before the next shot, then tiller and brace height.
    Weigh,
    /// Draw weight, tiller and brace height.
    BraceHeight,
    /// Screws and marks, and a first arrow close in.
    FirstShot,
}

/// What goes with a move of these adjusters.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(crate) struct Around {
    /// Cautions that stand before the steps.
    pub(crate) before: Vec<Caution>,
    /// What is measured or looked at after them.
    pub(crate) afterwards: Vec<After>,
}

/// What goes with these steps on this bow.
pub(crate) fn around(steps: &[Step], card: &Card) -> Around {
    let mut found = Around::default();
    let moves = |kind: AdjusterKind| steps.iter().any(|s| s.adjuster == kind);
    if steps.iter().any(|s| card.needs_press(s.adjuster)) {
        found.before.push(Caution::Press);
        found.afterwards.push(After::PressWork);
    }
    if moves(AdjusterKind::RestHeight) && card.rest.kind == RestKind::DropAway {
        found.afterwards.push(After::RestTiming);
    }
    if moves(AdjusterKind::LimbBolts) {
        found.afterwards.push(After::Weigh);
    } else if moves(AdjusterKind::BraceHeight) && !card.needs_press(AdjusterKind::BraceHeight) {
        found.afterwards.push(After::BraceHeight);
    }
    found
}

/// One step of a plan.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlannedStep {
    /// The step, with the side the tail went where that is known.
    pub step: StepAdvice,
    /// How far to go beyond and come back, in the adjuster's unit, where the
    /// move reverses past the play.
    pub(crate) beyond: Option<f64>,
}

/// A move at the bench.
#[derive(Debug, Clone, PartialEq)]
pub struct BenchPlan {
    /// Cautions that stand before the steps.
    pub(crate) before: Vec<Caution>,
    /// One for each adjuster that is moved.
    pub steps: Vec<PlannedStep>,
    /// What is measured or looked at after them.
    pub(crate) afterwards: Vec<After>,
    /// The next shot to expect, where that is known.
    pub(crate) next: Option<NextShot>,
}

impl BenchPlan {
    /// The plan of a move that is advised or waits to be confirmed, as the
    /// analysis stands.
    pub fn of(steps: &[Step], timeline: &Timeline, analysis: &Analysis) -> Self {
        let likely = analysis.advice.estimate.tear_mm;
        let likely = likely.map(|t| Tear::new(t.right, t.up));
        let mut plan = Self::plain(steps, timeline, likely);
        plan.next = analysis.next_shot;
        plan
    }

    /// The plan of a move that goes back to where the adjusters stood before.
    pub(crate) fn of_put_back(steps: &[Step], timeline: &Timeline) -> Self {
        let mut plan = Self::plain(steps, timeline, None);
        plan.before.insert(0, Caution::PutBack);
        plan.afterwards.push(After::FirstShot);
        plan
    }

    fn plain(steps: &[Step], timeline: &Timeline, likely: Option<Tear>) -> Self {
        let around = around(steps, &timeline.card);
        let planned = |step: &Step| PlannedStep {
            step: StepAdvice {
                bench: BenchStep::of(*step, &timeline.card, &timeline.now),
                toward_tail: likely.and_then(|tear| toward_the_tail(step, tear)),
            },
            beyond: take_up(step, timeline),
        };
        Self {
            before: around.before,
            steps: steps.iter().map(planned).collect(),
            afterwards: around.afterwards,
            next: None,
        }
    }

    /// The steps themselves.
    pub fn moves(&self) -> Vec<Step> {
        self.steps.iter().map(|s| s.step.bench.step).collect()
    }
}

fn take_up(step: &Step, timeline: &Timeline) -> Option<f64> {
    let last = timeline.last_way[step.adjuster.index()];
    let adjuster = timeline.card.adjuster(step.adjuster)?;
    beyond(step, (last != 0.0).then_some(last), adjuster)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::setup::tests::{COMPOUND, RECURVE, timeline};

    fn step(adjuster: AdjusterKind) -> [Step; 1] {
        [Step {
            adjuster,
            amount: 1.0,
        }]
    }

    #[test]
    fn what_goes_with_a_move_stands_beside_the_move_that_needs_it() {
        use AdjusterKind::{BraceHeight, LimbBolts, RestHeight, RestSideways, YokeTwist};
        let press = Around {
            before: vec![Caution::Press],
            afterwards: vec![After::PressWork],
        };
        let then = |after| Around {
            before: vec![],
            afterwards: vec![after],
        };
        let compound = timeline(COMPOUND, vec![]).card;
        let recurve = timeline(RECURVE, vec![]).card;
        for (card, kind, goes_with) in [
            (&compound, RestSideways, Around::default()),
            (&compound, RestHeight, then(After::RestTiming)),
            (&recurve, RestHeight, Around::default()),
            (&compound, YokeTwist, press.clone()),
            (&compound, LimbBolts, then(After::Weigh)),
            // On a compound brace height is a matter of string and cables.
            (&compound, BraceHeight, press),
            (&recurve, BraceHeight, then(After::BraceHeight)),
        ] {
            assert_eq!(around(&step(kind), card), goes_with, "{kind:?}");
        }
    }

    #[test]
    fn a_put_back_begins_with_its_cautions_and_ends_with_a_shot_close_in() {
        let t = timeline(COMPOUND, vec![]);
        let of = |kind| BenchPlan::of_put_back(&step(kind), &t);
        let rest = of(AdjusterKind::RestSideways);
        assert_eq!(rest.before, [Caution::PutBack]);
        assert_eq!(rest.afterwards, [After::FirstShot]);
        let yoke = of(AdjusterKind::YokeTwist);
        assert_eq!(yoke.before, [Caution::PutBack, Caution::Press]);
        assert_eq!(yoke.afterwards, [After::PressWork, After::FirstShot]);
    }
}
