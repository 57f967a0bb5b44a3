//! The file behind the console, as others may change it: an editor, a second
//! console, a folder that is no longer there. Nothing is polled while the
//! console has the file to itself: it looks when a key comes. A console that
//! only reads looks once a second and follows along.

use std::path::Path;

use crate::actions::Action;
use crate::session::SessionError;
use crate::tui::app::App;
use crate::tui::follow::{Follow, Stamp};
use crate::tui::prompt::Prompt;
use crate::tui::wording;
use crate::words::pages::file as said;

impl App {
    /// Whether the file is to be looked at now and then: another program
    /// holds it, and this console only reads.
    pub fn follows(&self) -> bool {
        self.model.read_only.is_some() && self.model.session.path().is_some()
    }

    /// Looks whether the file was changed by another program. A console that
    /// only reads takes the change in; one that writes says so and leaves the
    /// choice to the user. Returns whether there is something new.
    pub fn look_at_file(&mut self) -> bool {
        let Some(path) = self.model.session.path().map(Path::to_owned) else {
            return false;
        };
        let stamp = Stamp::of(&path);
        if stamp == self.follow.seen {
            return false;
        }
        self.follow.seen = stamp;
        let name = crate::units::clean(&path.display().to_string());
        let notice = match self.model.session.is_unchanged() {
            Ok(true) => return false,
            Ok(false) if self.follows() => self.follow_along(),
            Ok(false) => said::changed(&name, &self.model.by_name(Action::Reload)),
            Err(error) => said::gone(&name, &error.problem),
        };
        self.follow.notice = Some(notice);
        true
    }

    /// Shows what there is to say of the file, where nothing is in its way.
    pub fn tell_of_file(&mut self) {
        if self.prompt.is_none()
            && self.message.is_none()
            && let Some(notice) = self.follow.notice.take()
        {
            self.complain(notice);
        }
    }

    /// Takes in what another program wrote; says what it was.
    fn follow_along(&mut self) -> String {
        let known = self.model.session.entries().len();
        if let Err(error) = self.read_again() {
            return error.to_string();
        }
        let fresh = self
            .model
            .session
            .entries()
            .get(known..)
            .unwrap_or_default();
        let words: Vec<String> = fresh
            .iter()
            .map(|e| wording::entry(&e.event, &self.timeline().card, self.model.system))
            .collect();
        said::elsewhere(&words)
    }

    /// Reads the file as it is; screens that spoke of what is no longer there go.
    fn read_again(&mut self) -> Result<(), SessionError> {
        let before = self.model.session.entries().to_vec();
        self.model.session.reload()?;
        if !self.model.session.entries().starts_with(&before) {
            self.clear_screens();
            self.mark(None);
        }
        let scroll = self.model.scroll;
        self.refresh();
        self.model.scroll = scroll;
        Ok(())
    }

    /// Reads the file again at the user's word; takes it over where it is free.
    pub(in crate::tui) fn reload(&mut self) {
        match self.try_reload() {
            Ok(words) => self.say(words),
            Err(problem) => self.complain(problem),
        }
    }

    /// The same; says what became of it.
    pub(in crate::tui) fn try_reload(&mut self) -> Result<String, String> {
        let Some(path) = self.model.session.path().map(Path::to_owned) else {
            return Ok(said::IN_MEMORY.into());
        };
        self.follow = Follow::of(Some(&path));
        let was_reading = self.model.read_only.is_some();
        if was_reading {
            let (session, why) = Self::open_session(&path).map_err(|e| e.to_string())?;
            self.model.session = session;
            self.model.read_only =
                why.or_else(|| self.model.session.read_only().map(ToString::to_string));
            self.clear_screens();
            self.mark(None);
            self.refresh();
            self.take_up();
        } else {
            self.read_again().map_err(|e| e.to_string())?;
        }
        if let Some(why) = &self.model.read_only {
            return Err(said::read_again_but(why));
        }
        let warnings = self.model.session.warnings();
        if !warnings.is_empty() {
            return Err(said::read_again_but(&crate::words::warnings(&warnings)));
        }
        Ok(if was_reading {
            said::YOURS.into()
        } else {
            said::READ_AGAIN.into()
        })
    }

    /// The line that could not be recorded, kept as it was typed, with what
    /// is the matter and what Enter does next.
    pub(in crate::tui) fn kept_open(&self, prompt: Prompt, problem: String, asked: bool) -> Prompt {
        let stale = matches!(self.model.session.is_unchanged(), Ok(false));
        let refused = if stale { said::held(&problem) } else { problem };
        Prompt {
            asked,
            stale,
            refused: Some(refused),
            ..prompt
        }
    }
}
