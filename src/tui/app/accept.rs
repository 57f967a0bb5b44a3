//! What Enter does with a typed line.

use crate::gear::Step;
use crate::session::Event;
use crate::tear::{ASK_ABOVE, read_holes};
use crate::tui::app::App;
use crate::tui::names::Name;
use crate::tui::prompt::{Echo, Prompt, Purpose, matches};
use crate::tui::wording;
use crate::words::pages::typing;

/// Why a line was not taken, or not yet.
enum Held {
    /// It is wrong, or it could not be kept.
    Wrong(String),
    /// It is asked about first: Enter again takes it.
    Asked(String),
}

impl From<String> for Held {
    fn from(problem: String) -> Self {
        Self::Wrong(problem)
    }
}

impl App {
    /// What the line reads as so far.
    pub(crate) fn echo(&self) -> Echo {
        let Some(prompt) = &self.prompt else {
            return Echo::Nothing;
        };
        match prompt.purpose {
            Purpose::Tear => self.model.tear_echo(&prompt.text),
            Purpose::Move => self.model.move_echo(&prompt.text),
            Purpose::Note => Echo::Nothing,
            Purpose::Find => Echo::Nothing,
            Purpose::NewFile if prompt.text.trim().is_empty() => {
                Echo::Hint(typing::NEW_FILE.into())
            }
            Purpose::NewFile => {
                Echo::Reads(self.model.new_path(&prompt.text).display().to_string())
            }
            Purpose::Screen | Purpose::Impacts => self
                .stack
                .last()
                .map_or(Echo::Nothing, |s| s.echo(&prompt.text, &self.model)),
        }
    }

    /// Enter in a prompt.
    pub(in crate::tui) fn accept(&mut self) {
        let Some(prompt) = self.prompt.take() else {
            return;
        };
        let text = prompt.text.clone();
        if prompt.stale
            && let Err(problem) = self.try_reload()
        {
            self.prompt = Some(Prompt {
                refused: Some(typing::correct_it(&problem)),
                ..prompt
            });
            return;
        }
        let outcome = match prompt.purpose {
            Purpose::Tear if self.model.is_virtual() => {
                self.practice_reads();
                Ok(())
            }
            Purpose::Tear => self.accept_tear(&prompt),
            Purpose::Move => self.accept_move(&prompt),
            Purpose::Note if text.trim().is_empty() => Ok(()),
            Purpose::Note => self.accept_note(text.trim()),
            Purpose::NewFile => self.accept_new_file(&prompt),
            Purpose::Find => {
                if let Some(spec) = matches(&text).get(prompt.pick) {
                    self.clear_screens();
                    self.act(spec.action);
                }
                Ok(())
            }
            Purpose::Screen | Purpose::Impacts => self.answer_screen(&text).map_err(Held::from),
        };
        if let Err(held) = outcome {
            let (problem, asked) = match held {
                Held::Wrong(problem) => (problem, false),
                Held::Asked(question) => (question, true),
            };
            self.prompt = Some(self.kept_open(prompt, problem, asked));
        }
    }

    fn accept_tear(&mut self, prompt: &Prompt) -> Result<(), Held> {
        if prompt.text.trim().is_empty() {
            return Ok(());
        }
        let holes = read_holes(&prompt.text, self.model.system).map_err(|e| e.to_string())?;
        let longest = holes.iter().map(|h| h.tear.length()).fold(0.0, f64::max);
        if longest > ASK_ABOVE && !prompt.asked {
            let size = self.model.system.tear(longest);
            return Err(Held::Asked(typing::long_tear(&size)));
        }
        Ok(self.record_holes(&holes, prompt.text.trim())?)
    }

    fn accept_note(&mut self, text: &str) -> Result<(), Held> {
        let number = self.record(Event::Note { text: text.into() })?;
        self.say(typing::note_kept(number));
        Ok(())
    }

    fn accept_move(&mut self, prompt: &Prompt) -> Result<(), Held> {
        let text = prompt.text.trim();
        if text.is_empty() {
            return Ok(());
        }
        let steps = self.model.read_move(text).map_err(|e| e.to_string())?;
        if let Some(question) = self.past_travel(&steps).filter(|_| !prompt.asked) {
            return Err(Held::Asked(question));
        }
        let timeline = self.timeline();
        let confirms = timeline.pending.as_ref().map(|p| p.entry);
        let words = wording::steps(&steps, &timeline.card, self.model.system);
        let said = text.chars().take(80).collect();
        self.record(Event::Move {
            steps,
            said: Some(said),
            confirms,
        })?;
        self.clear_screens();
        let then = self.model.before_shooting();
        self.say(format!("{}. {then}", typing::move_recorded(&words)));
        Ok(())
    }

    /// The question about a move that ends past the travel on the card.
    fn past_travel(&self, steps: &[Step]) -> Option<String> {
        let timeline = self.timeline();
        let after = timeline.now.after(steps);
        steps.iter().find_map(|step| {
            let adjuster = timeline.card.adjuster(step.adjuster)?;
            let past = after.get(step.adjuster).abs() > adjuster.range + 1e-9;
            past.then(|| {
                let words = wording::steps(&[*step], &timeline.card, self.model.system);
                typing::past_travel(&words)
            })
        })
    }

    fn accept_new_file(&mut self, prompt: &Prompt) -> Result<(), Held> {
        if prompt.text.trim().is_empty() {
            return Ok(());
        }
        let path = self.model.new_path(&prompt.text);
        if path.exists() {
            return Err(Held::Wrong(typing::other_name()));
        }
        let folder = path.parent().filter(|p| !p.as_os_str().is_empty());
        if let Some(folder) = folder.filter(|f| !f.is_dir()) {
            let shown = crate::tui::draw::paint::safe(&folder.display().to_string());
            if !prompt.asked {
                return Err(Held::Asked(typing::no_folder(&shown)));
            }
            std::fs::create_dir_all(folder).map_err(|e| typing::no_new_folder(&shown, &e))?;
        }
        self.show(Name::NewCard(path));
        Ok(())
    }

    fn answer_screen(&mut self, text: &str) -> Result<(), String> {
        let Some(mut screen) = self.pop() else {
            return Ok(());
        };
        match screen.answer(text, &self.model) {
            Ok(effects) => self.perform(screen, effects),
            Err(problem) => {
                self.open(screen);
                Err(problem)
            }
        }
    }
}
