//! Doing what a screen asked for: the one place where its effects change
//! anything.

use std::collections::VecDeque;
use std::path::Path;

use super::effects::{Effect, Effects};
use super::names::Name;
use super::screen::{Flow, Screen};
use super::screens;
use super::state::App;
use crate::actions::Action;
use crate::book;
use crate::gear::{CardText, Step};
use crate::question::Work;
use crate::report;
use crate::session::{Event, Session};
use crate::setup::{self, State};

/// What an effect means for the screen that asked for it.
enum Then {
    /// It goes on.
    On,
    /// It is told that its entries are on disk, the last of this number.
    Recorded(u32),
    /// It closes.
    Close,
    /// It and those under it give way to the panes.
    Panes,
    /// Another screen lies over it.
    Open(Name),
}

impl App {
    /// Does what a screen wanted after an action or an answer; it is off the
    /// stack meanwhile.
    ///
    /// # Errors
    /// What could not be done; the screen is back in front then.
    pub(super) fn follow(
        &mut self,
        screen: Box<dyn Screen>,
        flow: Flow,
        depth: usize,
    ) -> Result<(), String> {
        // The session behind the screens was replaced: they belong to the old one.
        if self.stack.depth() < depth {
            return Ok(());
        }
        match flow {
            Flow::Stay => self.open(screen),
            Flow::Close => {}
            Flow::Open(next) => {
                self.open(screen);
                self.open(next);
            }
            Flow::Panes => self.clear_screens(),
            Flow::Do(effects) => return self.perform(screen, effects),
        }
        Ok(())
    }

    /// Does effects in their order, and what the screen wants once its entries
    /// are on disk.
    fn perform(&mut self, mut screen: Box<dyn Screen>, effects: Effects) -> Result<(), String> {
        let mut waiting = VecDeque::from(effects);
        let (mut closed, mut over) = (false, Vec::new());
        while let Some(effect) = waiting.pop_front() {
            match self.done(effect) {
                Ok(Then::On) => {}
                Ok(Then::Recorded(entry)) => {
                    for more in screen.recorded(entry, &self.model).into_iter().rev() {
                        waiting.push_front(more);
                    }
                }
                Ok(Then::Close) => closed = true,
                Ok(Then::Open(name)) => over.extend(screens::make(name, &self.model)),
                Ok(Then::Panes) => {
                    self.clear_screens();
                    closed = true;
                }
                Err(problem) => {
                    self.open(screen);
                    return Err(problem);
                }
            }
        }
        if !closed {
            self.open(screen);
        }
        over.into_iter().for_each(|next| self.open(next));
        Ok(())
    }

    /// Does one effect.
    fn done(&mut self, effect: Effect) -> Result<Then, String> {
        match effect {
            Effect::Record(events) => return self.keep(events).map(Then::Recorded),
            Effect::PressWork => return self.press_work().map(Then::Recorded),
            Effect::ToTheBench(steps) => return self.take_to_bench(steps),
            Effect::Restart(setting) => self.restart(setting),
            Effect::Say(text) => self.say(text),
            Effect::Complain(text) => self.complain(text),
            Effect::Ask(prompt) => self.prompt = Some(prompt),
            Effect::Open(name) => return Ok(Then::Open(name)),
            Effect::Close => return Ok(Then::Close),
            Effect::Panes => return Ok(Then::Panes),
            Effect::NextShots(next) => {
                self.model.next = next;
                // Another shooter may make the range safety list due, a bare shaft be too light.
                self.refresh();
            }
            Effect::Theme(theme) => self.model.look.theme = theme,
            Effect::Glyphs(glyphs) => self.model.look.glyphs = glyphs,
            Effect::LeaveBehind(paths) => paths.iter().for_each(|p| self.model.look.recent.left(p)),
            Effect::Write { path, text } => report::save(&path, &text)
                .map_err(|fault| format!("{}: {fault}", path.display()))?,
            Effect::Guess(guess) => self.take_guess(guess),
            Effect::GuessFirst(on) => self.ask_guesses(on),
            Effect::Earlier(learned) => self.expect(learned)?,
            other => return self.another_session(other),
        }
        Ok(Then::On)
    }

    /// Effects that put another session, or another bow, in place of this one.
    fn another_session(&mut self, effect: Effect) -> Result<Then, String> {
        match effect {
            Effect::OpenSession(path) => self.open_file(&path)?,
            Effect::Begin {
                path,
                card,
                earlier,
            } => self.begin_session(&path, &card, earlier)?,
            Effect::Visit { path, from } => self.begin_visit(&path, &from)?,
            Effect::Work(job) => self.practice_job(job),
            Effect::Practise { seed, level } => self.begin_practice(seed, level),
            Effect::SavePractice(name) => {
                let path = self.save_practice(&name)?;
                self.say(format!(
                    "{path} holds the practice so far; what follows is not kept"
                ));
            }
            Effect::FirstSteps => self.begin_guide(),
            _ => return Ok(Then::On),
        }
        Ok(Then::Panes)
    }

    /// Records entries as one action. Where the card is among them, what to
    /// expect of it is worked out again.
    fn keep(&mut self, events: Vec<Event>) -> Result<u32, String> {
        let card = events.iter().any(|e| matches!(e, Event::Card { .. }));
        let number = self.record_together(events)?;
        if card {
            self.refresh_prior();
        }
        Ok(number)
    }

    /// Records work at the press that is no move of an adjuster.
    fn press_work(&mut self) -> Result<u32, String> {
        let number = self.record_together(setup::work_done(Work::PressWork))?;
        let list = setup::checklist(self.timeline());
        let due = list.iter().filter(|s| matches!(s.state, State::Again(_)));
        let due = crate::words::count(due.count(), "item");
        self.say(format!(
            "press work recorded: {due} due again, the likely tear is forgotten"
        ));
        Ok(number)
    }

    /// Takes a move to the bench: recorded as pending, then shown.
    fn take_to_bench(&mut self, steps: Vec<Step>) -> Result<Then, String> {
        if self.timeline().pending.is_some() {
            let key = self.model.key(Action::TakeMove);
            return Err(format!(
                "a move is pending already: Esc, then {key} shows it"
            ));
        }
        self.record(Event::Pending { steps })?;
        Ok(Then::Open(Name::Bench))
    }

    /// Opens a session; the one that was open is parked, everything on disk.
    fn open_file(&mut self, path: &Path) -> Result<(), String> {
        if self.model.is_open(path) {
            return Ok(());
        }
        let (session, read_only) = Self::open_session(path).map_err(|e| e.to_string())?;
        self.take_session(session, read_only);
        if self.message.is_some() {
            return Ok(());
        }
        let stand = book::stand(self.session(), &self.model.analysis, self.model.system);
        let mut text = format!("{}. {}", stand.whose, stand.places.join(", "));
        if let Some(pending) = stand.pending {
            text.push_str(&format!(". At the bench: {pending}"));
        }
        if let Some(last) = stand.last.last() {
            text.push_str(&format!(". Last: {}", last.trim_start()));
        }
        self.say(text);
        Ok(())
    }

    /// Makes a session file from a new card, and opens it.
    fn begin_session(&mut self, path: &Path, card: &CardText, earlier: bool) -> Result<(), String> {
        let learned = earlier
            .then(|| self.model.earlier_bows(path, card))
            .flatten();
        let (session, read_only) = Session::create(path, card)
            .and_then(|()| Self::open_session(path))
            .map_err(|e| e.to_string())?;
        self.take_session(session, read_only);
        let taught = learned.as_ref().map_or_else(String::new, |l| {
            format!(" Earlier bows teach: {}.", crate::words::learned(l))
        });
        if let Err(problem) = self.expect(learned) {
            self.complain(problem);
        }
        if self.message.is_none() {
            self.say(format!(
                "{} is begun.{taught} {} is the list before paper; then shoot, and type the tear",
                path.display(),
                self.model.key(Action::Before)
            ));
        }
        Ok(())
    }

    /// Makes a session file from the card of an earlier session, and opens it.
    fn begin_visit(&mut self, path: &Path, from: &Path) -> Result<(), String> {
        let old = Session::open(from).map_err(|e| e.to_string())?;
        let fresh = book::fresh_card(old.timeline())?;
        let learned = self.model.earlier_bows(path, &fresh.card);
        Session::create(path, &fresh.card).map_err(|e| e.to_string())?;
        let (session, read_only) = Self::open_session(path).map_err(|e| e.to_string())?;
        self.take_session(session, read_only);
        let mut text = format!("{} is begun", path.display());
        if let Some(learned) = &learned {
            text.push_str(&format!(
                "; earlier bows teach: {}",
                crate::words::learned(learned)
            ));
        }
        if let Err(problem) = self.expect(learned) {
            self.complain(problem);
        }
        for note in fresh.notes {
            text.push_str(&format!("; {note}"));
        }
        self.say(text);
        Ok(())
    }
}
