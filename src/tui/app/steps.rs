//! The console on the demo, step by step: its virtual bow, how far somebody
//! came, the steps done again at the next start.

use crate::actions::Action;
use crate::practice::Practice;
use crate::session::Event;
use crate::tui::app::App;
use crate::tui::first_steps::{FirstStep, FirstSteps, LAST, LEVEL, SEED, session};
use crate::tui::model::Look;

/// Keys that lead from any step to a later one.
const MOST_KEYS: usize = 12;

/// The demo: where the first steps were left, or half-way for those who went
/// through them or want no hints.
pub fn open(look: Look, steps: FirstSteps) -> App {
    let guided = look.hints.wanted() && !steps.over();
    let mut app = App::new(session(!guided), true, crate::advice::analyse_after, look);
    let reached = steps.reached;
    app.model.first_steps = Some(steps);
    if guided && reached > 1 {
        app.catch_up(reached);
    }
    app
}

impl App {
    /// Makes the virtual bow of the demo where it is not there yet: with the
    /// first key, so that the first frame does not wait for it.
    pub(in crate::tui) fn meet_the_bow(&mut self) {
        if self.model.first_steps.is_some() && self.model.practice.is_none() {
            let fired = self.timeline().shots.len();
            let fired = u32::try_from(fired).unwrap_or(u32::MAX);
            self.model.practice = Some(Practice::new(SEED, LEVEL).after(fired));
        }
    }

    /// Keeps how far somebody came.
    pub(in crate::tui) fn keep_first_step(&mut self) {
        let Some(number) = self.model.step_of_the_bow().and_then(FirstStep::number) else {
            return;
        };
        // Nothing is kept of a look at the first step.
        if number < 2 {
            return;
        }
        if let Some(steps) = &mut self.model.first_steps {
            let further = steps.reached.max(number);
            steps.keep(further);
        }
    }

    /// What was wrong has been seen: the next demo begins half-way.
    pub(in crate::tui) fn end_first_steps(&mut self) {
        if let Some(steps) = &mut self.model.first_steps {
            steps.keep(LAST + 1);
        }
    }

    /// The first steps from the start.
    pub(in crate::tui) fn begin_guide(&mut self) {
        let Some(mut steps) = self.model.first_steps.clone() else {
            return self.complain(crate::words::pages::typing::FIRST_STEPS_ELSEWHERE);
        };
        steps.keep(0);
        let mut look = self.model.look.clone();
        look.hints.want();
        *self = open(look, steps);
    }

    /// Does the steps up to this one again; the bow shoots as it did.
    fn catch_up(&mut self, reached: u8) {
        self.meet_the_bow();
        for _ in 0..MOST_KEYS {
            let step = self.model.step_of_the_bow();
            if step.is_none_or(|s| s.number().is_some_and(|n| n >= reached)) {
                break;
            }
            match step {
                Some(FirstStep::Take) => {
                    let advised = self.model.analysis.advice.movement.as_ref();
                    let steps = advised.map(crate::advice::MoveAdvice::moves);
                    let taken = steps.map(|steps| self.record(Event::Pending { steps }));
                    if !matches!(taken, Some(Ok(_))) {
                        break;
                    }
                }
                Some(FirstStep::Make) => self.act(Action::AsShown),
                Some(FirstStep::Ask) => self.act(Action::Answer),
                _ => self.practice_shot(),
            }
        }
        self.clear_screens();
        self.message = None;
    }
}
