//! What screens and panes read: the session and what it adds up to, how the
//! console looks, what the next shots are recorded with. Only the console
//! itself changes it; what draws and what answers a key is given it to read.

use std::path::{Path, PathBuf};

use crate::actions::{Action, Keymap, Scope, Situation};
use crate::advice::{Analysis, Memo};
use crate::look::{Glyphs, Theme};
use crate::practice::{Practice, Standing};
use crate::range::{self, Today};
use crate::session::{Event, Given, Session, Shooter, Shot, Timeline, TwoArrows};
use crate::tear::Hole;
use crate::tui::first_steps::FirstSteps;
use crate::tui::hints::Hints;
use crate::tui::recent::Recent;
use crate::units::System;
use crate::words;

/// What turns a timeline into advice, given what it found last time.
pub type Analyser = fn(&Timeline, Today, &mut Memo) -> Analysis;

/// What the next shots are recorded with, until it is changed.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(crate) struct NextShots {
    /// Who shoots.
    pub by: Shooter,
    /// Which arrow.
    pub arrow: Option<String>,
    /// Rest to paper, where it is not the card's.
    pub distance: Option<String>,
    /// Shot without fletching.
    pub bare: bool,
    /// Called bad before looking: the next shot only.
    pub called_bad: bool,
    /// The sheet is read from the target side.
    pub mirrored: bool,
    /// Distance and bare were set for a test, and go back when it is done.
    pub(crate) for_test: bool,
}

/// A line for the user until the next key.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Message {
    /// In words.
    pub text: String,
    /// Whether something went wrong.
    pub problem: bool,
}

/// The pane in front where there is no room for all.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(crate) enum Pane {
    /// The tear.
    Tear,
    /// The next step.
    #[default]
    Next,
    /// How it converges.
    Convergence,
}

impl Pane {
    /// The three, left to right.
    pub(crate) const ALL: [Self; 3] = [Self::Tear, Self::Next, Self::Convergence];
    /// The pane so many places on.
    pub fn step(self, by: isize) -> Self {
        Self::ALL[(self as isize + by).rem_euclid(3) as usize]
    }
}

/// What the chart of the convergence pane shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(crate) enum Series {
    /// How far each tear is from the wanted one.
    #[default]
    Distance,
    /// Sideways alone.
    Sideways,
    /// Up and down alone.
    UpDown,
}

impl Series {
    /// The three, in the order the key goes through them.
    pub(crate) const ALL: [Self; 3] = [Self::Distance, Self::Sideways, Self::UpDown];
    /// The one after this.
    pub(crate) const fn next(self) -> Self {
        Self::ALL[(self as usize + 1) % Self::ALL.len()]
    }
}

/// How the console looks and where it finds things.
#[derive(Debug, Clone)]
pub struct Look {
    /// Colours.
    pub theme: Theme,
    /// Characters.
    pub glyphs: &'static Glyphs,
    /// Keys.
    pub keymap: Keymap,
    /// For a slow line: no faint history.
    pub thin: bool,
    /// Display system, where it is not the card's.
    pub system: Option<System>,
    /// The folder sessions are looked for in.
    pub folder: PathBuf,
    /// The list of recent sessions; none in tests.
    pub recent: Recent,
    /// Hints that go away as they are used; none in tests.
    pub hints: Hints,
    /// One bell when a job comes within tolerance.
    pub bell: bool,
}

/// What stands in front of the panes, as far as keys and panes depend on it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Front {
    /// Which keys work.
    pub scope: Scope,
    /// What is on the screen in front, for `?`; `None` on the panes.
    pub(crate) about: Option<&'static str>,
    /// The card on screen is not yet a session.
    pub(crate) new_card: bool,
    /// The line the cursor is on is answered in one word.
    pub(crate) by_word: bool,
    /// Undo works here: of the lists to choose from only on those that record.
    pub(crate) undoable: bool,
}

impl Default for Front {
    fn default() -> Self {
        Self {
            scope: Scope::Main,
            about: None,
            new_card: false,
            by_word: true,
            undoable: true,
        }
    }
}

/// Everything that screens read.
pub struct Model {
    pub(super) session: Session,
    pub(super) analysis: Analysis,
    pub(super) analyser: Analyser,
    /// The running record, for the chart.
    pub(super) memo: Memo,
    pub(super) look: Look,
    pub(super) system: System,
    pub(super) front: Front,
    pub(super) next: NextShots,
    pub(super) demo: bool,
    /// The virtual bow behind the session, in practice.
    pub(super) practice: Option<Practice>,
    /// How far the first steps went, on the demo.
    pub(super) first_steps: Option<FirstSteps>,
    pub(super) read_only: Option<String>,
    pub(super) pane: Pane,
    pub(super) series: Series,
    pub(super) scroll: u16,
}

impl Model {
    /// The session on screen.
    pub const fn session(&self) -> &Session {
        &self.session
    }

    /// What the entries add up to.
    pub fn timeline(&self) -> &Timeline {
        self.session.timeline()
    }

    /// Whether this file is the one that is open.
    pub(super) fn is_open(&self, path: &Path) -> bool {
        let same = |a: &Path, b: &Path| std::path::absolute(a).ok() == std::path::absolute(b).ok();
        self.session.path().is_some_and(|open| same(open, path))
    }

    /// Where keys go now.
    pub const fn scope(&self) -> Scope {
        self.front.scope
    }

    /// What holds now.
    pub fn situation(&self) -> Situation {
        let timeline = self.timeline();
        Situation {
            writable: self.read_only.is_none(),
            move_advised: self.analysis.advice.movement.is_some(),
            pending: timeline.pending.is_some(),
            asked: self.analysis.advice.probe.is_some()
                || self.analysis.range_due.is_some()
                || timeline.open_incident().is_some()
                || crate::question::Refusal::of(&self.analysis).is_some(),
            undoable: timeline
                .can_undo
                .is_some_and(|entry| self.undone_here(entry)),
            redoable: timeline.can_redo.is_some(),
            new_card: self.front.new_card,
            by_word: self.front.by_word,
        }
    }

    /// Whether undoing an entry is this page's business: a list of choices
    /// undoes what such a list records, never a shot or a move behind it.
    fn undone_here(&self, entry: u32) -> bool {
        if self.front.scope != Scope::Choice {
            return true;
        }
        let entries = self.session.entries().iter();
        let event = entries.rev().find(|e| e.number == entry).map(|e| &e.event);
        self.front.undoable && !matches!(event, Some(Event::Shot(_) | Event::Move { .. }))
    }

    /// What to press for an action here, as written on screen.
    pub(super) fn key(&self, action: Action) -> String {
        self.look.keymap.way(action, self.scope())
    }

    /// How an action is reached: its key, or by name.
    pub(super) fn by_name(&self, action: Action) -> String {
        match self.key(action) {
            key if key.is_empty() => {
                format!("{} {}", self.key(Action::Palette), action.spec().id)
            }
            key => key,
        }
    }

    /// That the range safety list comes first, where it is due, and the way to it.
    pub(super) fn range_first(&self) -> Option<String> {
        let due = range::due(self.timeline(), self.today())?;
        let way = self.by_name(Action::Range);
        let here = Action::Range.spec().scopes.contains(&self.scope());
        let first = if here { "" } else { "Esc, then " };
        Some(format!("{} ({first}{way})", words::range_due(due)))
    }

    /// Whether the bow on screen is a virtual one, which a key shoots.
    pub(super) const fn is_virtual(&self) -> bool {
        self.practice.is_some() || self.first_steps.is_some()
    }

    /// The day, with the one who is set to shoot next.
    pub(super) fn today(&self) -> Today {
        Today::now().with(self.next.by)
    }

    /// The analysis a sheet is written from: by what stood when the shots
    /// were made, not by what is due today.
    pub(super) fn sheet_analysis(&self) -> Analysis {
        let day = Today::of_last_shot(self.timeline());
        match day.filter(|_| self.analysis.range_due.is_some()) {
            Some(day) => (self.analyser)(self.timeline(), day, &mut Memo::default()),
            None => self.analysis.clone(),
        }
    }

    /// The advice in words, in the units on screen.
    pub(super) fn said(&self) -> crate::words::Said {
        crate::words::said_here(self.timeline(), &self.analysis, self.system)
    }

    /// What forbids the next shot, in one line; `None` where nothing does.
    pub(super) fn stop_line(&self) -> Option<String> {
        let stop = crate::advice::stopped(self.timeline())?;
        Some(crate::words::stop_line(&stop))
    }

    /// What comes before the next shot, said after a move was made.
    pub(super) fn before_shooting(&self) -> String {
        if let Some(stop) = self.stop_line() {
            return stop;
        }
        if self.analysis.range_due.is_some() {
            let key = self.key(Action::Answer);
            return crate::words::pages::typing::range_list_first(&key);
        }
        match self.is_virtual() {
            // The paper of a virtual bow is read for you.
            true => "Shoot".into(),
            false => "Shoot, and enter the tear".into(),
        }
    }

    /// What the next shots are recorded with.
    pub(super) fn given(&self) -> Given {
        let next = &self.next;
        Given {
            by: next.by,
            arrow: next.arrow.clone(),
            distance: next.distance.clone(),
            bare: next.bare,
            called_bad: next.called_bad,
            from_target_side: next.mirrored,
            ..Given::default()
        }
    }

    /// The shot a hole becomes, with what the next shots are recorded with.
    pub(super) fn shot(&self, hole: &Hole, said: &str) -> Result<Shot, TwoArrows> {
        Shot::of(hole, said, &self.given())
    }

    /// How practice goes, and whether its file could not be read.
    pub(super) fn practice_standing(&self) -> (Standing, bool) {
        Standing::read(self.look.recent.folder())
    }
}
