//! Doing what a screen asked for: the one place where its effects change
//! anything.

use std::collections::VecDeque;
use std::path::Path;

use crate::actions::Action;
use crate::advice::prior;
use crate::gear::{CardText, Step};
use crate::practice::Conclusion;
use crate::question::Work;
use crate::session::hand_over::HandedOver;
use crate::session::lock::{CONSOLE, GLANCE};
use crate::session::{Event, LearnedRecord, Session};
use crate::setup;
use crate::step::State;
use crate::tui::app::App;
use crate::tui::app::practice::new_seed;
use crate::tui::effects::Effect;
use crate::tui::names::Name;
use crate::tui::screen::Screen;
use crate::tui::screens;
use crate::words::pages::{file, typing};
use crate::{book, report};

/// What an effect means for the screen that asked for it.
enum Outcome {
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
    /// Does what a screen asked for, effect by effect, and what it wants once
    /// its entries are on disk. The screen is off the stack meanwhile.
    ///
    /// # Errors
    /// What could not be done; the screen is back in front then.
    pub(in crate::tui) fn perform(
        &mut self,
        mut screen: Box<dyn Screen>,
        effects: Vec<Effect>,
    ) -> Result<(), String> {
        let mut waiting = VecDeque::from(effects);
        let (mut closed, mut over) = (false, Vec::new());
        while let Some(effect) = waiting.pop_front() {
            match self.done(effect) {
                Ok(Outcome::On) => {}
                Ok(Outcome::Recorded(entry)) => {
                    for more in screen.recorded(entry, &self.model).into_iter().rev() {
                        waiting.push_front(more);
                    }
                }
                Ok(Outcome::Close) => closed = true,
                Ok(Outcome::Open(name)) => over.extend(screens::make(name, &self.model)),
                Ok(Outcome::Panes) => {
                    self.clear_screens();
                    closed = true;
                }
                Err(problem) => {
                    // The rest is left undone.
                    match screen.refused(problem) {
                        Ok(instead) => waiting = VecDeque::from(instead),
                        Err(problem) => {
                            self.open(screen);
                            return Err(problem);
                        }
                    }
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
    fn done(&mut self, effect: Effect) -> Result<Outcome, String> {
        match effect {
            Effect::Record(events) => return self.keep(events).map(Outcome::Recorded),
            Effect::PressWork => return self.press_work().map(Outcome::Recorded),
            Effect::Earlier(learned) => return self.expect(learned).map(Outcome::Recorded),
            Effect::ToTheBench(steps) => return self.take_to_bench(steps),
            Effect::Open(name) => return Ok(Outcome::Open(name)),
            Effect::Close => return Ok(Outcome::Close),
            Effect::Conclude(Conclusion::Tuned) if self.model.stop_line().is_some() => {
                return Err(self.model.stop_line().unwrap_or_default());
            }
            Effect::Conclude(said) => {
                self.count_round(said);
                return Ok(Outcome::Open(Name::Reveal(said)));
            }
            Effect::Say(text) => self.say(text),
            Effect::Complain(text) => self.complain(text),
            Effect::Ask(prompt) => self.prompt = Some(prompt),
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
            Effect::HandOver { shots, to } => self.hand_over(&shots, &to)?,
            Effect::Guess(guess) => self.take_guess(guess),
            Effect::GuessFirst(on) => self.ask_guesses(on),
            Effect::Panes => return Ok(Outcome::Panes),
            // Another session or another bow takes the place of this one.
            Effect::OpenSession(path) => return self.open_file(&path),
            Effect::Begin {
                path,
                card,
                earlier,
            } => return self.begin_session(&path, &card, earlier),
            Effect::Visit { path, from } => return self.begin_visit(&path, &from),
            Effect::Work(job) => return Ok(self.at_the_panes(|app| app.practice_job(job))),
            Effect::Practise(level) => {
                return Ok(self.at_the_panes(|app| app.begin_practice(new_seed(), level)));
            }
            Effect::PractiseAgain => return Ok(self.at_the_panes(Self::begin_practice_again)),
            Effect::FirstSteps => return Ok(self.at_the_panes(Self::begin_guide)),
            Effect::SavePractice(name) => return self.keep_practice(&name),
        }
        Ok(Outcome::On)
    }

    /// Does something that ends on the panes.
    fn at_the_panes(&mut self, does: impl FnOnce(&mut Self)) -> Outcome {
        does(self);
        Outcome::Panes
    }

    /// Keeps the practice so far as a file.
    fn keep_practice(&mut self, name: &str) -> Result<Outcome, String> {
        let path = self.save_practice(name)?;
        self.say(file::practice_kept(&path));
        Ok(Outcome::Panes)
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
        let due = due.count();
        self.say(typing::press_work(due));
        Ok(number)
    }

    /// Takes a move to the bench: recorded as pending, then shown.
    fn take_to_bench(&mut self, steps: Vec<Step>) -> Result<Outcome, String> {
        if self.timeline().pending.is_some() {
            let key = self.model.key(Action::TakeMove);
            return Err(typing::pending_already(&key));
        }
        self.record(Event::Pending { steps })?;
        Ok(Outcome::Open(Name::Bench))
    }

    /// Opens a session; the one that was open is parked, everything on disk.
    fn open_file(&mut self, path: &Path) -> Result<Outcome, String> {
        if self.model.is_open(path) {
            return Ok(Outcome::Panes);
        }
        let (session, read_only) = Self::open_session(path).map_err(|e| e.to_string())?;
        self.take_session(session, read_only);
        if self.message.is_some() {
            return Ok(Outcome::Panes);
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
        Ok(Outcome::Panes)
    }

    /// Makes a session file from a new card, and opens it.
    fn begin_session(
        &mut self,
        path: &Path,
        card: &CardText,
        earlier: bool,
    ) -> Result<Outcome, String> {
        let learned = earlier
            .then(|| self.model.earlier_bows(path, card))
            .flatten();
        let (session, read_only) = Session::create(path, card)
            .and_then(|()| Self::open_session(path))
            .map_err(|e| e.to_string())?;
        self.take_session(session, read_only);
        let taught = learned.as_ref().map(crate::words::learned);
        if let Err(problem) = self.expect(learned) {
            self.complain(problem);
        }
        if self.message.is_none() {
            self.say(file::begun(
                &path.display().to_string(),
                taught.as_deref(),
                &self.model.key(Action::Before),
            ));
        }
        Ok(Outcome::Panes)
    }

    /// Makes a session file from the card of an earlier session, and opens it.
    fn begin_visit(&mut self, path: &Path, from: &Path) -> Result<Outcome, String> {
        let old = Session::open(from).map_err(|e| e.to_string())?;
        let fresh = book::fresh_card(old.timeline())?;
        let learned = self.model.earlier_bows(path, &fresh.card);
        Session::create(path, &fresh.card).map_err(|e| e.to_string())?;
        let (session, read_only) = Self::open_session(path).map_err(|e| e.to_string())?;
        self.take_session(session, read_only);
        let taught = learned.as_ref().map(crate::words::learned);
        if let Err(problem) = self.expect(learned) {
            self.complain(problem);
        }
        self.say(file::begun_from(
            &path.display().to_string(),
            taught.as_deref(),
            &fresh.notes,
        ));
        Ok(Outcome::Panes)
    }

    /// Records what to expect of the card as it stands with what earlier bows
    /// taught, or without. The number of the last entry then.
    fn expect(&mut self, learned: Option<LearnedRecord>) -> Result<u32, String> {
        let begun = match &self.model.read_only {
            Some(why) => Err(why.clone()),
            None => prior::begin(&mut self.model.session, learned).map_err(|e| e.to_string()),
        };
        self.refresh();
        begun?;
        Ok(self.session().entries().last().map_or(0, |e| e.number))
    }

    /// Hands shots to the session of another bow.
    fn hand_over(&mut self, shots: &[u32], path: &Path) -> Result<(), String> {
        // This one is held already: the other is tried once and never waited
        // for, so that two consoles cannot stand and wait for one another.
        let mut to = Session::open_for_writing(path, CONSOLE, GLANCE).map_err(|e| e.to_string())?;
        let handed = HandedOver::of(self.session(), shots).map_err(|e| e.to_string())?;
        let done = handed.hand(&mut self.model.session, &mut to);
        self.refresh();
        let done = done.map_err(|e| e.to_string())?;
        self.say(file::handed_over(
            done.entries.len(),
            &path.display().to_string(),
            &done.copies,
        ));
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::actions::{Keymap, Scope};
    use crate::look::{GlyphChoice, Theme};
    use crate::tui::draw::paint::Paint;
    use crate::tui::hints::Hints;
    use crate::tui::model::{Look, Model};
    use crate::tui::recent::Recent;
    use std::cell::RefCell;
    use std::rc::Rc;

    /// A screen that records a note, and keeps what the file held when it was
    /// told so.
    struct Notes {
        told: Rc<RefCell<Vec<String>>>,
        instead: bool,
    }

    impl Screen for Notes {
        fn scope(&self) -> Scope {
            Scope::Choice
        }
        fn title(&self, _model: &Model) -> String {
            "Notes".into()
        }
        fn about(&self) -> &'static str {
            "notes"
        }
        fn act(&mut self, _action: Action, _model: &Model) -> Vec<Effect> {
            let text = "the string was waxed".into();
            vec![
                Effect::Record(vec![Event::Note { text }]),
                Effect::Close,
                Effect::Say("it is recorded".into()),
            ]
        }
        fn recorded(&mut self, entry: u32, model: &Model) -> Vec<Effect> {
            let path = model.session().path().unwrap();
            let text = std::fs::read_to_string(path).unwrap();
            self.told.borrow_mut().push(format!("{entry}: {text}"));
            Vec::new()
        }
        fn refused(&mut self, problem: String) -> Result<Vec<Effect>, String> {
            if self.instead {
                return Ok(vec![Effect::Complain(format!("not yet: {problem}"))]);
            }
            Err(problem)
        }
        fn draw(&self, _: &Model, _: &mut Paint<'_>, _: ratatui::layout::Rect) {}
    }

    fn on_a_file(folder: &Path, instead: bool) -> (App, Rc<RefCell<Vec<String>>>) {
        let path = folder.join("bow.toml");
        std::fs::write(&path, crate::tui::DEMO).unwrap();
        let look = Look {
            theme: Theme::plain(),
            glyphs: GlyphChoice::Ascii.set(),
            keymap: Keymap::default(),
            thin: false,
            system: None,
            folder: folder.to_owned(),
            recent: Recent::default(),
            hints: Hints::default(),
            bell: false,
        };
        let (session, _) = App::open_session(&path).unwrap();
        let mut app = App::new(session, false, crate::advice::analyse_after, look);
        let told = Rc::new(RefCell::new(Vec::new()));
        app.open(Box::new(Notes {
            told: Rc::clone(&told),
            instead,
        }));
        (app, told)
    }

    #[test]
    fn a_screen_is_told_once_its_entries_are_on_disk_and_the_rest_follows() {
        let folder = tempfile::tempdir().unwrap();
        let (mut app, told) = on_a_file(folder.path(), false);
        app.act(Action::Choose);
        let last = app.session().entries().last().unwrap().number;
        let told = told.borrow();
        assert_eq!(told.len(), 1);
        assert!(told[0].starts_with(&format!("{last}: ")), "{}", told[0]);
        assert!(told[0].contains("the string was waxed"), "{}", told[0]);
        assert_eq!(app.screen_title(), "panes");
        assert_eq!(app.message.unwrap().text, "it is recorded");
    }

    #[test]
    fn where_entries_are_refused_the_rest_is_left_undone_and_the_screen_stays() {
        let folder = tempfile::tempdir().unwrap();
        let (mut app, told) = on_a_file(folder.path(), false);
        app.model.read_only = Some("reading only".into());
        app.act(Action::Choose);
        assert!(told.borrow().is_empty());
        assert_eq!(app.screen_title(), "Notes");
        let message = app.message.unwrap();
        assert_eq!(
            (message.text.as_str(), message.problem),
            ("reading only", true)
        );
    }

    #[test]
    fn a_screen_may_say_what_follows_where_its_entries_were_refused() {
        let folder = tempfile::tempdir().unwrap();
        let (mut app, told) = on_a_file(folder.path(), true);
        app.model.read_only = Some("reading only".into());
        app.act(Action::Choose);
        assert!(told.borrow().is_empty());
        assert_eq!(app.screen_title(), "Notes");
        assert_eq!(app.message.unwrap().text, "not yet: reading only");
    }
}
