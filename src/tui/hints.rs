//! Hints that go away as they are used; before them, on the demo, the first steps.
//! What was used is kept in the XDG state folder; losing it only brings the
//! hints back, so its errors are not shown.

use std::collections::BTreeMap;
use std::path::PathBuf;

use etcetera::{BaseStrategy as _, choose_base_strategy};

use crate::actions::Action;
use crate::tui::first_steps::FirstSteps;
use crate::words::guide::hint;

/// A hint is gone once its action was used so often.
const ENOUGH: u32 = 2;
/// A list longer than this is not ours, bytes.
const LARGEST: u64 = 16 * 1024;

/// Single hints, most useful first.
const HINTS: &[(Action, &str)] = &[
    (Action::Shot, hint::SHOT),
    (Action::TakeMove, hint::TAKE_MOVE),
    (Action::AsShown, hint::AS_SHOWN),
    (Action::Answer, hint::ANSWER),
    (Action::Help, hint::HELP),
    (Action::Why, hint::WHY),
    (Action::Undo, hint::UNDO),
    (Action::CallBad, hint::CALL_BAD),
    (Action::Checks, hint::CHECKS),
    (Action::Letters, hint::LETTERS),
];

/// Which hints there are still to give.
#[derive(Debug, Clone, Default)]
pub struct Hints {
    on: bool,
    file: Option<PathBuf>,
    used: BTreeMap<&'static str, u32>,
}

impl Hints {
    /// Those of the user.
    pub(crate) fn of_user() -> Self {
        let folder = choose_base_strategy().ok().and_then(|s| s.state_dir());
        folder.map_or_else(
            || Self {
                on: true,
                ..Self::default()
            },
            |f| Self::at(f.join("tearbench").join("hints")),
        )
    }

    /// With what was used kept in this file.
    pub fn at(file: PathBuf) -> Self {
        let text = crate::session::files::read_text(&file, LARGEST).unwrap_or_default();
        let used = text
            .lines()
            .filter_map(|line| {
                let (id, count) = line.split_once(' ')?;
                Some((Action::from_id(id)?.spec().id, count.parse().ok()?))
            })
            .collect();
        Self {
            on: true,
            file: Some(file),
            used,
        }
    }

    /// Whether hints are wanted at all.
    pub(crate) const fn wanted(&self) -> bool {
        self.on
    }

    /// They are wanted from now on.
    pub(crate) const fn want(&mut self) {
        self.on = true;
    }

    /// How far the first steps went, kept beside what was used.
    pub fn first_steps(&self) -> FirstSteps {
        let file = self.file.as_ref().map(|f| f.with_file_name("first-steps"));
        file.map_or_else(FirstSteps::default, FirstSteps::at)
    }

    /// The most useful hint that is not used up, among those that may be given
    /// now: what it is about, its words with `{}` for the key.
    pub(super) fn next(&self, may: impl Fn(Action) -> bool) -> Option<(Action, &'static str)> {
        let fresh = |a: Action| self.used.get(a.spec().id).is_none_or(|n| *n < ENOUGH);
        let mut all = HINTS.iter().filter(|_| self.on).copied();
        all.find(|(action, _)| fresh(*action) && may(*action))
    }

    /// An action was used.
    pub(crate) fn used(&mut self, action: Action) {
        let hinted = HINTS.iter().any(|(a, _)| *a == action);
        if !self.on || !hinted {
            return;
        }
        let count = self.used.entry(action.spec().id).or_default();
        if *count < ENOUGH {
            *count += 1;
            self.keep();
        }
    }

    fn keep(&self) {
        let Some(file) = &self.file else { return };
        let lines: String = self
            .used
            .iter()
            .map(|(id, count)| format!("{id} {count}\n"))
            .collect();
        let _ = crate::tui::recent::write(file, &lines);
    }
}
