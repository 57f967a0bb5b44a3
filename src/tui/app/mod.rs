//! The console's state: a session, what is known of it, and what is on screen.
//! No terminal here; keys come in through [`App::press`], frames are drawn
//! from a frozen `&App`.

mod accept;
mod burst;
mod file;
pub(super) mod input;
mod perform;
pub(super) mod practice;
mod stack;
pub mod steps;
mod undo;
pub(in crate::tui) mod word;

use std::path::{Path, PathBuf};

use crate::actions::{Action, Scope};
use crate::advice::{Memo, Verdict};
use crate::range::Today;
use crate::session::lock::{CONSOLE, GLANCE};
use crate::session::{Event, Session, SessionError, Shot, Timeline};
use crate::tear::Hole;
use crate::tui::app::stack::Stack;
use crate::tui::follow::Follow;
use crate::tui::model::{Analyser, Front, Look, Message, Model, NextShots, Pane, Series};
use crate::tui::names::Name;
use crate::tui::prompt::{Burst, Prompt};

/// The console: what is known, the screens in front of the panes, and the
/// line being typed. It alone changes state.
pub struct App {
    pub(in crate::tui) model: Model,
    pub(in crate::tui) stack: Stack,
    pub(in crate::tui) prompt: Option<Prompt>,
    /// A letter that acted and may still turn out to begin a tear.
    burst: Option<Burst>,
    typed: word::Typed,
    pub(in crate::tui) message: Option<Message>,
    quit: bool,
    /// The bell is to ring with the next frame.
    ring: bool,
    follow: Follow,
}

impl App {
    /// A console on a session. `demo` marks one that is not kept.
    pub fn new(session: Session, demo: bool, analyser: Analyser, look: Look) -> Self {
        let system = look.system.unwrap_or(session.timeline().card.paper.system);
        let mut memo = Memo::default();
        let analysis = analyser(session.timeline(), Today::now(), &mut memo);
        let warnings = session.warnings();
        let mut app = Self {
            model: Model {
                session,
                analysis,
                analyser,
                memo,
                look,
                system,
                front: Front::default(),
                next: NextShots::default(),
                demo,
                practice: None,
                first_steps: None,
                read_only: None,
                pane: Pane::default(),
                series: Series::default(),
                scroll: 0,
            },
            stack: Stack::default(),
            prompt: None,
            burst: None,
            typed: word::Typed::default(),
            message: None,
            quit: false,
            ring: false,
            follow: Follow::default(),
        };
        app.follow = Follow::of(app.model.session.path());
        app.model.read_only = app.model.session.read_only().map(ToString::to_string);
        if !warnings.is_empty() {
            app.complain(crate::words::warnings(&warnings));
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
            let why = crate::words::pages::file::marked_read_only(&name);
            return Ok((session, Some(why)));
        }
        match Session::open_for_writing(path, CONSOLE, GLANCE) {
            Ok(session) => Ok((session, None)),
            Err(error @ SessionError::Locked { .. }) => {
                let session = Session::open(path)?;
                Ok((
                    session,
                    Some(crate::words::pages::file::reading_only(&error.to_string())),
                ))
            }
            Err(error) => Err(error),
        }
    }

    /// Puts another session in place of this one.
    pub(in crate::tui) fn take_session(&mut self, session: Session, read_only: Option<String>) {
        self.put_down();
        if let Some(path) = session.path() {
            self.model.look.recent.remember(path);
        }
        let look = self.model.look.clone();
        *self = Self::new(session, false, self.model.analyser, look);
        if let Some(why) = read_only {
            self.complain(why.clone());
            self.model.read_only = Some(why);
        }
        self.take_up();
    }

    /// Notes that the session is open here, so that one that is dropped is
    /// offered again.
    pub(in crate::tui) fn take_up(&self) {
        if let (Some(path), None) = (self.model.session.path(), &self.model.read_only) {
            self.model.look.recent.opened(path);
        }
    }

    /// Notes that the session is left as a session is left.
    pub fn put_down(&self) {
        if let (Some(path), None) = (self.model.session.path(), &self.model.read_only) {
            self.model.look.recent.left(path);
        }
    }

    /// Begins a session at a path where there is none yet: its card first.
    pub(in crate::tui) fn begin(&mut self, path: PathBuf) {
        self.show(Name::NewCard(path));
    }

    /// Puts the offer before the demo where there is something to go on with;
    /// nothing here stops a start.
    pub fn offer_to_go_on(&mut self) {
        self.show(Name::GoOn);
    }

    /// Leaves; everything recorded is on disk.
    pub(in crate::tui) const fn leave(&mut self) {
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

    /// What screens read.
    pub const fn model(&self) -> &Model {
        &self.model
    }

    /// The session on screen.
    pub const fn session(&self) -> &Session {
        &self.model.session
    }

    /// What the entries add up to.
    pub fn timeline(&self) -> &Timeline {
        self.model.timeline()
    }

    /// Where keys go now.
    pub const fn scope(&self) -> Scope {
        self.model.scope()
    }

    /// The hint for now, if there is one: its heading and its words.
    pub fn hint(&self) -> Option<(String, String)> {
        self.model.hint()
    }

    /// The name of the screen in front, for tests and titles.
    pub fn screen_title(&self) -> String {
        self.stack
            .last()
            .map_or_else(|| "panes".to_owned(), |s| s.title(&self.model))
    }

    /// Whether text is being typed.
    pub const fn is_typing(&self) -> bool {
        self.prompt.is_some()
    }

    pub(in crate::tui) fn say(&mut self, text: impl Into<String>) {
        self.message = Some(Message {
            text: text.into(),
            problem: false,
        });
    }

    pub(in crate::tui) fn complain(&mut self, text: impl Into<String>) {
        self.message = Some(Message {
            text: text.into(),
            problem: true,
        });
    }

    /// Records an event; the screen speaks of it only once it is on disk.
    pub(in crate::tui) fn record(&mut self, event: Event) -> Result<u32, String> {
        if let Some(why) = &self.model.read_only {
            return Err(why.clone());
        }
        let number = self
            .model
            .session
            .record(event)
            .map_err(|e| e.to_string())?;
        self.refresh();
        Ok(number)
    }

    /// Records what one key says in several entries, all or none; undo and redo
    /// then take them together. The number of the last.
    pub(in crate::tui) fn record_together(&mut self, events: Vec<Event>) -> Result<u32, String> {
        if let Some(why) = &self.model.read_only {
            return Err(why.clone());
        }
        let numbers = self
            .model
            .session
            .record_all(events)
            .map_err(|e| e.to_string())?;
        self.refresh();
        let last = numbers.last().copied();
        last.ok_or_else(|| crate::words::pages::typing::NOTHING.into())
    }

    /// Works out what to expect of the card as it stands, where it changed
    /// since; kept as an entry so that later starts only read it.
    pub(in crate::tui) fn refresh_prior(&mut self) {
        if let Err(error) = crate::advice::prior::refresh(&mut self.model.session) {
            self.complain(error.to_string());
        }
        self.refresh();
    }

    /// Works the advice out again.
    pub(in crate::tui) fn refresh(&mut self) {
        self.model.session.set_next_bare(self.model.next.bare);
        let today = self.model.today();
        let before = self.model.analysis.advice.verdict;
        self.model.analysis =
            (self.model.analyser)(self.model.session.timeline(), today, &mut self.model.memo);
        let done = self.model.analysis.advice.verdict == Verdict::Done;
        self.ring |= self.model.look.bell && done && before != Verdict::Done;
        self.model.scroll = 0;
        if self.model.next.for_test && self.model.analysis.advice.verdict != Verdict::Probe {
            self.model.next.for_test = false;
            self.model.next.distance = None;
            self.model.next.bare = false;
            self.model.session.set_next_bare(false);
        }
    }

    /// Records holes as shots, in order; says how many and what they were.
    pub(in crate::tui) fn record_holes(
        &mut self,
        holes: &[Hole],
        said: &str,
    ) -> Result<(), String> {
        let shots =
            Shot::of_all(holes, said, &self.model.given()).map_err(|two| two.to_string())?;
        let words = shots
            .iter()
            .map(|shot| crate::tui::wording::shot(shot, self.model.system));
        let recorded: Vec<String> = words.collect();
        // One sheet, one action: all of its holes are recorded or none.
        self.record_together(shots.into_iter().map(Event::Shot).collect())?;
        self.model.next.called_bad = false;
        self.model.look.hints.used(Action::Shot);
        let words = format!("recorded: {}", recorded.join("; "));
        if let Some(stop) = crate::advice::stopped(self.timeline()) {
            self.complain(format!("{} {words}", crate::words::stop_line(&stop)));
        } else if self.timeline().pending.is_some() {
            // The likeliest slip at the bench: moved, shot, and never said so.
            let (undo, made) = (
                self.model.key(Action::Undo),
                self.model.key(Action::AsShown),
            );
            self.complain(crate::words::pages::typing::before_the_move(
                &words, &undo, &made,
            ));
        } else {
            self.say(words);
        }
        Ok(())
    }
}
