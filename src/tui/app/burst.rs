//! A tear that is typed straight onto the panes. Some letters that begin one
//! are keys as well: `l` is the log, and `l12` and `left 12` are tears. The
//! key acts at once; when the next letter shows that a tear was meant, what
//! the key did is taken back and the letters become the tear.

use crate::actions::{Action, Key, Scope};
use crate::tear::may_begin;
use crate::tui::app::App;
use crate::tui::prompt::{Burst, Prompt, Purpose};

impl App {
    /// Whether a tear can be typed onto what is in front.
    fn takes_tears(&self) -> bool {
        self.scope() == Scope::Main && self.model.read_only.is_none()
    }

    /// Takes a letter for a tear where it begins one, or goes on with the one
    /// that the key before began; `false` where it is a key like any other.
    pub(in crate::tui) fn tear_letter(&mut self, key: Key) -> bool {
        let Key::Char(c) = key else {
            self.burst = None;
            return false;
        };
        if let Some(burst) = self.burst.take() {
            let typed = format!("{}{c}", burst.letter);
            // After undo a space is the list of actions, and a digit begins the
            // tear that replaces what was undone.
            let goes_on = !burst.undid || c.is_alphabetic();
            if may_begin(&typed) && goes_on {
                self.take_back(&burst);
                self.type_tear(&typed);
                return true;
            }
        }
        if self.prompt.is_some() || self.scope() != Scope::Main || self.model.read_only.is_some() {
            return false;
        }
        let lower = c.to_ascii_lowercase();
        let free = self
            .model
            .look
            .keymap
            .action(Scope::Main, Key::Char(lower))
            .is_none();
        if !c.is_alphabetic() || !free || !may_begin(&c.to_string()) {
            return false;
        }
        self.type_tear(&c.to_string());
        true
    }

    /// Remembers a letter that acted on the panes, where a tear may begin so.
    pub(in crate::tui) fn may_be_a_tear(&mut self, key: Key, action: Action) {
        if let Key::Char(letter) = key
            && self.takes_tears()
            && may_begin(&letter.to_string())
        {
            let undid = action == Action::Undo && action.spec().when.holds(&self.model.situation());
            self.burst = Some(Burst { letter, undid });
        }
    }

    /// Nobody typed for a while: a letter that acted on the panes begins no
    /// tear any more.
    pub(in crate::tui) fn paused(&mut self) {
        self.burst = None;
    }

    fn take_back(&mut self, burst: &Burst) {
        self.prompt = None;
        self.clear_screens();
        if burst.undid {
            self.act(Action::Redo);
        }
        self.message = None;
    }

    pub(in crate::tui) fn type_tear(&mut self, text: &str) {
        let mut prompt = Prompt::new(Purpose::Tear, "Tear");
        text.chars().for_each(|c| prompt.edit(Key::Char(c)));
        self.prompt = Some(prompt);
    }
}

#[cfg(test)]
mod tests {
    use crate::actions::{Key, Keymap};
    use crate::look::{GlyphChoice, Theme};
    use crate::tui::hints::Hints;
    use crate::tui::model::Look;
    use crate::tui::recent::Recent;

    #[test]
    fn a_letter_begins_a_tear_only_while_it_is_typed_on() {
        let look = || Look {
            theme: Theme::plain(),
            glyphs: GlyphChoice::Ascii.set(),
            keymap: Keymap::default(),
            thin: false,
            system: None,
            folder: ".".into(),
            recent: Recent::default(),
            hints: Hints::default(),
            bell: false,
        };
        let [mut at_once, mut later] = [(); 2].map(|()| crate::tui::demo(look()).unwrap());
        for app in [&mut at_once, &mut later] {
            app.press(Key::Char('l'));
            assert!(app.screen_title().starts_with("Log"));
        }
        at_once.press(Key::Char('1'));
        assert!(at_once.prompt.is_some() && at_once.screen_title() == "panes");
        later.paused();
        later.press(Key::Char('1'));
        assert!(later.prompt.is_none() && later.screen_title().starts_with("Log"));
    }
}
