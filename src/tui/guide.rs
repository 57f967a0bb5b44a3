//! What to do next, as a hint over the key line: what the moves made due
//! again, a first step on the demo, or a single hint that is not used up.

use crate::actions::{Action, Scope};
use crate::advice::Verdict;
use crate::setup;
use crate::tui::first_steps::{FirstStep, LAST};
use crate::tui::model::Model;
use crate::words::{self, guide};

impl Model {
    /// The step that comes next, where somebody goes through them: before a
    /// shot the range safety list, where it is due.
    fn step(&self) -> Option<FirstStep> {
        let step = self.step_of_the_bow()?;
        let shot = matches!(
            step,
            FirstStep::Shoot | FirstStep::Repeat | FirstStep::Check
        );
        let due = shot && self.analysis.range_due.is_some();
        Some(if due { FirstStep::Range } else { step })
    }

    /// The step that comes next on the bow itself.
    pub(super) fn step_of_the_bow(&self) -> Option<FirstStep> {
        let steps = self.first_steps.as_ref()?;
        if steps.over() || !self.look.hints.wanted() {
            return None;
        }
        if self.timeline().pending.is_some() {
            return Some(FirstStep::Make);
        }
        let (shots, moves) = (self.timeline().shots.len(), self.timeline().moves.len());
        Some(match self.analysis.advice.verdict {
            Verdict::Done => FirstStep::Within,
            Verdict::Move => FirstStep::Take,
            Verdict::Probe => FirstStep::Ask,
            Verdict::Shoot if shots == 0 => FirstStep::Shoot,
            Verdict::Shoot if moves == 0 => FirstStep::Repeat,
            Verdict::Shoot => FirstStep::Check,
            Verdict::Refuse | Verdict::Stop => return None,
        })
    }

    /// The step as a hint: its heading and its words.
    pub(super) fn first_step(&self) -> Option<(String, String)> {
        let step = self.step()?;
        let head = guide::step_of(step.number(), LAST);
        let (action, words) = step.says();
        Some((head, words.replace("{}", &self.by_name(action))))
    }

    /// What the moves made due again, once there is nothing left to move:
    /// said whether or not hints are wanted.
    fn due_again(&self) -> Option<(String, String)> {
        if self.scope() != Scope::Main || self.analysis.advice.verdict != Verdict::Done {
            return None;
        }
        let list = setup::checklist(self.timeline());
        let due = setup::due_again(&list);
        let key = self.by_name(Action::Before);
        let names: Vec<&str> = due.into_iter().map(words::setup::title).collect();
        (!names.is_empty()).then(|| (guide::DUE_AGAIN.into(), guide::due_again(&names, &key)))
    }

    /// The hint for now, if there is one: its heading and its words.
    pub fn hint(&self) -> Option<(String, String)> {
        let due = self.due_again();
        if due.is_some() {
            return due;
        }
        let hints = &self.look.hints;
        if !hints.wanted() || self.scope() != Scope::Main {
            return None;
        }
        let now = self.situation();
        let usable = |action: Action| action.spec().when.holds(&now);
        let words = |action: Action, text: &str| {
            text.replace("{}", &self.by_name(action))
                .replace("{tear}", words::tear_example(self.system))
        };
        if let Some(step) = self.first_step() {
            return Some(step);
        }
        // In practice the bow is shot by a key and the paper read for you; under
        // a stop nobody is led to the next shot.
        let verdict = self.analysis.advice.verdict;
        let fits = |a: Action| match a {
            Action::Shot => !self.is_virtual() && verdict != Verdict::Stop,
            Action::CallBad | Action::Answer => verdict != Verdict::Stop,
            _ => true,
        };
        let (action, text) = hints.next(|a| fits(a) && usable(a))?;
        let refused = verdict == Verdict::Refuse;
        let text = match action {
            Action::Answer if refused => guide::TROUBLE,
            _ => text,
        };
        Some((guide::HINT.into(), words(action, text)))
    }
}
