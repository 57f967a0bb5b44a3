//! Hints that go away as they are used; before them, on the demo, the first steps.
//! What was used is kept in the XDG state folder; losing it only brings the
//! hints back, so its errors are not shown.

use std::collections::BTreeMap;
use std::path::PathBuf;

use etcetera::{BaseStrategy as _, choose_base_strategy};
use ratatui::layout::Rect;

use super::first_steps::FirstSteps;
use super::state::App;
use super::view::paint::{Row, flow};
use crate::actions::{Action, Scope};

use super::theme::Role;
use crate::advice::Verdict;
use crate::setup;

/// A hint is gone once its action was used so often.
const ENOUGH: u32 = 2;
/// A list longer than this is not ours, bytes.
const LARGEST: u64 = 16 * 1024;
/// Rows hints take at most.
const MOST_ROWS: usize = 2;
/// A screen lower than this has no row to spare.
const LEAST_HEIGHT: u16 = 16;

/// Single hints, most useful first.
const HINTS: &[(Action, &str)] = &[
    (
        Action::Shot,
        "a digit starts a tear: 12 left 4 high, then Enter",
    ),
    (Action::TakeMove, "{} takes the move to the bench"),
    (Action::AsShown, "{} once the move is made as shown"),
    (Action::Answer, "{} answers what is asked"),
    (Action::Help, "{} explains what is on the screen now"),
    (Action::Why, "{} says how the verdict was reached"),
    (Action::Undo, "{} takes back the latest entry"),
    (Action::CallBad, "{} before looking calls the next shot bad"),
    (
        Action::Checks,
        "{} shows the four checks with their figures",
    ),
    (
        Action::Letters,
        "{} shows the verdict large, to read from 3 m",
    ),
];

/// Heading of a single hint.
const HINT: &str = "Hint:";

/// Which hints there are still to give.
#[derive(Debug, Clone, Default)]
pub struct Hints {
    on: bool,
    file: Option<PathBuf>,
    used: BTreeMap<&'static str, u32>,
}

impl Hints {
    /// Those of the user.
    pub fn of_user() -> Self {
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
    pub const fn wanted(&self) -> bool {
        self.on
    }

    /// They are wanted from now on.
    pub const fn want(&mut self) {
        self.on = true;
    }

    /// How far the first steps went, kept beside what was used.
    pub fn first_steps(&self) -> FirstSteps {
        let file = self.file.as_ref().map(|f| f.with_file_name("first-steps"));
        file.map_or_else(FirstSteps::default, FirstSteps::at)
    }

    /// An action was used.
    pub fn used(&mut self, action: Action) {
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
        let _ = super::recent::write(file, &lines);
    }
}

impl App {
    /// What the moves made due again, once there is nothing left to move:
    /// said whether or not hints are wanted.
    fn due_again(&self) -> Option<(String, String)> {
        if self.scope() != Scope::Main || self.analysis.advice.verdict != Verdict::Done {
            return None;
        }
        let list = setup::checklist(self.timeline());
        let due = setup::due_again(&list);
        let key = self.by_name(Action::Before);
        (!due.is_empty()).then(|| {
            let words = format!(
                "{}. Press {key} for the list",
                due.join("; ").to_lowercase()
            );
            ("Due again since the moves:".into(), words)
        })
    }

    /// The hint for now, if there is one: its heading and its words.
    pub fn hint(&self) -> Option<(String, String)> {
        let due = self.due_again();
        if due.is_some() {
            return due;
        }
        let hints = &self.look.hints;
        if !hints.on || self.scope() != Scope::Main {
            return None;
        }
        let now = self.situation();
        let usable = |action: Action| action.spec().when.holds(&now);
        let words = |action: Action, text: &str| text.replace("{}", &self.by_name(action));
        if let Some(step) = self.first_step() {
            return Some(step);
        }
        // In practice the bow is shot by a key and the paper read for you.
        let fresh = |a: Action| {
            (!self.is_virtual() || a != Action::Shot)
                && hints.used.get(a.spec().id).is_none_or(|n| *n < ENOUGH)
        };
        let (action, text) = HINTS.iter().find(|(a, _)| fresh(*a) && usable(*a))?;
        let refused = self.analysis.advice.verdict == Verdict::Refuse;
        let text = match action {
            Action::Answer if refused => "{} is troubleshooting, step by step",
            _ => text,
        };
        Some((HINT.into(), words(*action, text)))
    }

    /// Whether what was just said may stand in place of the hint, so that the
    /// keys stay in sight: not where the hint is a first step.
    pub(super) fn hint_gives_way(&self) -> bool {
        self.prompt.is_none() && self.hint().is_none_or(|(head, _)| head == HINT)
    }

    /// The hint as rows over the key line; none where there is no room.
    pub(super) fn hint_rows(&self, area: Rect) -> Vec<Row> {
        let Some((head, words)) = self.hint().filter(|_| area.height >= LEAST_HEIGHT) else {
            return Vec::new();
        };
        let spans = [
            (head.as_str(), Role::Strong),
            (" ", Role::Text),
            (words.as_str(), Role::Text),
        ];
        let rows = flow(&spans, area.width, 2);
        if rows.len() > MOST_ROWS {
            return Vec::new();
        }
        rows
    }
}
