//! The console's state: a session, what is known of it, and what is on screen.
//! No terminal here; keys come in through [`App::press`], frames are drawn
//! from a frozen `&App`.

use std::path::{Path, PathBuf};

use super::follow::Follow;
use super::glyphs::Glyphs;
use super::grid::GridCursor;
use super::hints::Hints;
use super::prompt::Prompt;
use super::recent::Recent;
use super::screens::Screen;
use super::theme::Theme;
use crate::actions::{Action, Keymap, Scope, Situation};
use crate::advice::{Analysis, Memo, Verdict};
use crate::range::Today;
use crate::session::lock::GLANCE;
use crate::session::{Event, Given, Session, SessionError, Shooter, Shot, Timeline, TwoArrows};
use crate::tear::Hole;
use crate::units::System;

/// What turns a timeline into advice, given what it found last time.
pub type Analyser = fn(&Timeline, Today, &mut Memo) -> Analysis;

/// What the next shots are recorded with, until it is changed.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct NextShots {
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
    pub for_test: bool,
}

/// A line for the user until the next key.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Message {
    /// In words.
    pub text: String,
    /// Whether something went wrong.
    pub problem: bool,
}

/// The pane in front where there is no room for all.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Pane {
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
    pub const ALL: [Self; 3] = [Self::Tear, Self::Next, Self::Convergence];
    /// The pane so many places on.
    pub fn step(self, by: isize) -> Self {
        Self::ALL[(self as isize + by).rem_euclid(3) as usize]
    }
}

/// What the chart of the convergence pane shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Series {
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
    pub const ALL: [Self; 3] = [Self::Distance, Self::Sideways, Self::UpDown];
    /// The one after this.
    pub const fn next(self) -> Self {
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

/// The console.
pub struct App {
    pub(super) session: Session,
    pub(super) analysis: Analysis,
    pub(super) analyser: Analyser,
    memo: Memo,
    pub(super) look: Look,
    pub(super) system: System,
    pub(super) screens: Vec<Box<dyn Screen>>,
    pub(super) prompt: Option<Prompt>,
    pub(super) grid: Option<GridCursor>,
    /// A letter that acted and may still turn out to begin a tear.
    pub(super) burst: Option<super::burst::Burst>,
    pub(super) message: Option<Message>,
    pub(super) next: NextShots,
    pub(super) demo: bool,
    /// The virtual bow behind the session, in practice.
    pub(super) practice: Option<crate::practice::Practice>,
    /// How far the first steps went, on the demo.
    pub(super) first_steps: Option<super::first_steps::FirstSteps>,
    pub(super) read_only: Option<String>,
    pub(super) pane: Pane,
    pub(super) series: Series,
    pub(super) scroll: u16,
    pub(super) quit: bool,
    /// The bell is to ring with the next frame.
    ring: bool,
    pub(super) follow: Follow,
}

impl App {
    /// A console on a session. `demo` marks one that is not kept.
    pub fn new(session: Session, demo: bool, analyser: Analyser, look: Look) -> Self {
        let system = look.system.unwrap_or(session.timeline().card.paper.system);
        let mut memo = Memo::default();
        let analysis = analyser(session.timeline(), Today::now(), &mut memo);
        let warnings = session.warnings();
        let mut app = Self {
            session,
            analysis,
            analyser,
            memo,
            look,
            system,
            screens: Vec::new(),
            prompt: None,
            grid: None,
            burst: None,
            message: None,
            next: NextShots::default(),
            demo,
            practice: None,
            first_steps: None,
            read_only: None,
            pane: Pane::default(),
            series: Series::default(),
            scroll: 0,
            quit: false,
            ring: false,
            follow: Follow::default(),
        };
        app.follow = Follow::of(app.session.path());
        app.read_only = app.session.read_only().map(Into::into);
        if !warnings.is_empty() {
            app.complain(warnings.join("; "));
        }
        app
    }

    /// Opens a session file for writing; where another program holds it or
    /// the folder cannot be written, for reading, and says why.
    ///
    /// # Errors
    /// When the file or its card cannot be read.
    pub fn open_session(path: &Path) -> Result<(Session, Option<String>), SessionError> {
        if std::fs::metadata(path).is_ok_and(|m| m.permissions().readonly()) {
            let session = Session::open(path)?;
            let name = crate::units::clean(&path.display().to_string());
            let why = format!("reading only: {name} is marked read-only on disk");
            return Ok((session, Some(why)));
        }
        match Session::open_for_writing(path, "the tearbench console", GLANCE) {
            Ok(session) => Ok((session, None)),
            Err(error @ SessionError::Locked { .. }) => {
                let session = Session::open(path)?;
                Ok((session, Some(format!("reading only: {error}"))))
            }
            Err(error) => Err(error),
        }
    }

    /// Puts another session in place of this one.
    pub(super) fn take_session(&mut self, session: Session, read_only: Option<String>) {
        self.put_down();
        if let Some(path) = session.path() {
            self.look.recent.remember(path);
        }
        let look = self.look.clone();
        *self = Self::new(session, false, self.analyser, look);
        if let Some(why) = read_only {
            self.complain(why.clone());
            self.read_only = Some(why);
        }
        self.take_up();
    }

    /// Notes that the session is open here, so that one that is dropped is
    /// offered again.
    pub(super) fn take_up(&self) {
        if let (Some(path), None) = (self.session.path(), &self.read_only) {
            self.look.recent.opened(path);
        }
    }

    /// Notes that the session is left as a session is left.
    pub fn put_down(&self) {
        if let (Some(path), None) = (self.session.path(), &self.read_only) {
            self.look.recent.left(path);
        }
    }

    /// Begins a session at a path where there is none yet: its card first.
    pub(super) fn begin(&mut self, path: PathBuf) {
        let card = super::view::card::CardScreen::fresh(path);
        self.screens.push(Box::new(card));
    }

    /// Leaves; everything recorded is on disk.
    pub(super) const fn leave(&mut self) {
        self.quit = true;
    }

    /// Whether the user asked to leave.
    pub const fn wants_to_quit(&self) -> bool {
        self.quit
    }

    /// Whether the bell is to ring now: once each time the job comes within
    /// tolerance, where the settings say so.
    pub const fn rings(&mut self) -> bool {
        std::mem::replace(&mut self.ring, false)
    }

    /// The session on screen.
    pub const fn session(&self) -> &Session {
        &self.session
    }

    /// What the entries add up to.
    pub fn timeline(&self) -> &Timeline {
        self.session.timeline()
    }

    /// The name of the screen in front, for tests and titles.
    pub fn screen_title(&self) -> String {
        self.screens
            .last()
            .map_or_else(|| "panes".to_owned(), |s| s.title(self))
    }

    /// Whether text is being typed.
    pub const fn is_typing(&self) -> bool {
        self.prompt.is_some()
    }

    /// Where keys go now.
    pub fn scope(&self) -> Scope {
        match (self.screens.last(), &self.grid) {
            (Some(screen), _) => screen.scope(),
            (None, Some(_)) => Scope::Grid,
            (None, None) => Scope::Main,
        }
    }

    /// What holds now.
    pub fn situation(&self) -> Situation {
        let timeline = self.timeline();
        let mut now = Situation {
            writable: self.read_only.is_none(),
            move_advised: self.analysis.advice.movement.is_some(),
            pending: timeline.pending.is_some(),
            asked: self.analysis.advice.probe.is_some()
                || self.analysis.range_due.is_some()
                || timeline.open_incident().is_some()
                || crate::question::Refusal::of(&self.analysis).is_some(),
            undoable: timeline.can_undo.is_some(),
            redoable: timeline.can_redo.is_some(),
            new_card: false,
            has_shots: !timeline.shots.is_empty(),
            by_word: true,
        };
        if let Some(screen) = self.screens.last() {
            screen.adjust(&mut now);
        }
        now
    }

    /// What to press for an action here, as written on screen.
    pub(super) fn key(&self, action: Action) -> String {
        self.look.keymap.way(action, self.scope())
    }

    pub(super) fn say(&mut self, text: impl Into<String>) {
        self.message = Some(Message {
            text: text.into(),
            problem: false,
        });
    }

    pub(super) fn complain(&mut self, text: impl Into<String>) {
        self.message = Some(Message {
            text: text.into(),
            problem: true,
        });
    }

    /// Records an event; the screen speaks of it only once it is on disk.
    pub(super) fn record(&mut self, event: Event) -> Result<u32, String> {
        if let Some(why) = &self.read_only {
            return Err(why.clone());
        }
        let number = self.session.record(event).map_err(|e| e.to_string())?;
        self.refresh();
        Ok(number)
    }

    /// Records what one key says in several entries, all or none; undo and redo
    /// then take them together. The number of the last.
    pub(super) fn record_together(&mut self, events: Vec<Event>) -> Result<u32, String> {
        if let Some(why) = &self.read_only {
            return Err(why.clone());
        }
        let numbers = self.session.record_all(events).map_err(|e| e.to_string())?;
        self.refresh();
        let last = numbers.last().copied();
        last.ok_or_else(|| "there is nothing to record".into())
    }

    /// Works out what to expect of the card as it stands, where it changed
    /// since; kept as an entry so that later starts only read it.
    pub(super) fn refresh_prior(&mut self) {
        if let Err(error) = crate::advice::prior::refresh(&mut self.session) {
            self.complain(error.to_string());
        }
        self.refresh();
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
        crate::words::said(&self.analysis.advice, self.system)
    }

    /// What comes before the next shot, said after a move was made.
    pub(super) fn before_shooting(&self) -> String {
        if let Some(stop) = crate::advice::stopped(self.timeline()) {
            return crate::words::stop_line(&stop);
        }
        if self.analysis.range_due.is_some() {
            let key = self.key(Action::Answer);
            return format!("First the range safety list: press {key}");
        }
        "Shoot, and enter the tear".into()
    }

    /// Works the advice out again.
    pub(super) fn refresh(&mut self) {
        self.session.set_next_bare(self.next.bare);
        let today = self.today();
        let before = self.analysis.advice.verdict;
        self.analysis = (self.analyser)(self.session.timeline(), today, &mut self.memo);
        let done = self.analysis.advice.verdict == Verdict::Done;
        self.ring |= self.look.bell && done && before != Verdict::Done;
        self.scroll = 0;
        if self.next.for_test && self.analysis.advice.verdict != Verdict::Probe {
            self.next.for_test = false;
            self.next.distance = None;
            self.next.bare = false;
            self.session.set_next_bare(false);
        }
    }

    /// What the next shots are recorded with.
    fn given(&self) -> Given {
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

    /// Records holes as shots, in order; says how many and what they were.
    pub(super) fn record_holes(&mut self, holes: &[Hole], said: &str) -> Result<(), String> {
        let shots = Shot::of_all(holes, said, &self.given()).map_err(|two| two.to_string())?;
        let words = shots
            .iter()
            .map(|shot| super::wording::shot(shot, self.system));
        let recorded: Vec<String> = words.collect();
        // One sheet, one action: all of its holes are recorded or none.
        self.record_together(shots.into_iter().map(Event::Shot).collect())?;
        self.next.called_bad = false;
        self.look.hints.used(Action::Shot);
        let words = format!("recorded: {}", recorded.join("; "));
        if let Some(stop) = crate::advice::stopped(self.timeline()) {
            self.complain(format!("{} {words}", crate::words::stop_line(&stop)));
        } else if self.timeline().pending.is_some() {
            // The likeliest slip at the bench: moved, shot, and never said so.
            let (undo, made) = (self.key(Action::Undo), self.key(Action::AsShown));
            self.complain(format!(
                "{words}, at the setting before the pending move. Was the move made? {undo} takes the shot back, {made} confirms the move, then enter it again"
            ));
        } else {
            self.say(words);
        }
        Ok(())
    }
}
