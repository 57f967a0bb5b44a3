//! Letters that come in one go are a word and no keys. A key that records,
//! takes something away or leaves waits until it is known to stand alone; one
//! that only opens a page acts at once, and what it opened is taken off again
//! where the letter turns out to begin a word.

use std::time::{Duration, Instant};

use crate::actions::{Action, Key, Scope};
use crate::tear::may_begin;
use crate::tui::app::App;
use crate::tui::prompt::{Prompt, Purpose};
use crate::tui::screen::Screen;
use crate::words::pages::typed;

/// Keys that follow each other more closely are typed in one go: nobody has
/// read in that time what the first of them showed.
pub(in crate::tui) const GAP: Duration = Duration::from_millis(250);
/// So long a letter that does nothing, or begins a tear, goes on.
const PAUSE: Duration = Duration::from_millis(800);
/// Nobody presses Enter so soon after a letter: it came with the text.
const AT_ONCE: Duration = Duration::from_millis(30);

/// What came in one go so far.
#[derive(Debug, Default)]
pub(super) struct Typed {
    /// A key that waits until it is known to stand alone.
    held: Option<Key>,
    letters: String,
    /// None of them did anything here.
    idle: bool,
    /// Where the first of them was typed, and how many screens stood there.
    from: Option<(Scope, usize)>,
    /// They are a word on a page where none is looked up: the rest is dropped.
    dropped: bool,
    /// They stand on the line that finds an action.
    sought: bool,
    /// How many characters came in one go, letters or not.
    run: usize,
    last: Option<Instant>,
}

impl App {
    /// Takes a key as the keyboard sent it, at that time.
    pub fn typed(&mut self, key: Key, at: Instant) {
        let gap = self
            .typed
            .last
            .map_or(PAUSE, |last| at.saturating_duration_since(last));
        self.typed.last = Some(at);
        if gap >= PAUSE {
            self.paused();
        }
        let goes_on = self.typed.idle || self.typed.dropped;
        if gap >= PAUSE || (gap >= GAP && !goes_on) {
            self.alone();
        }
        match key {
            // The end of a word that was dropped chooses nothing, and a line sent
            // whole with its end is looked up and not yet done.
            Key::Enter if self.typed.dropped || gap < AT_ONCE && self.ends_a_line() => {}
            Key::Char(c) => {
                let run = if gap < GAP { self.typed.run } else { 0 };
                self.character(c);
                // A space alone is the key of the list of actions.
                self.typed.run = run + usize::from(c != ' ');
            }
            _ => {
                self.alone();
                self.press(key);
            }
        }
    }

    /// Nothing more comes for now: a key that waited stands alone.
    pub fn alone(&mut self) {
        let last = self.typed.last;
        let held = self.typed.held;
        self.typed = Typed {
            last,
            ..Typed::default()
        };
        if let Some(key) = held {
            self.press(key);
        }
    }

    /// Whether a key waits until it is known to stand alone.
    pub const fn holds(&self) -> bool {
        self.typed.held.is_some()
    }

    /// Whether Enter ends a line of text where none is being typed.
    fn ends_a_line(&self) -> bool {
        let typing = self.prompt.is_some() && !self.typed.sought;
        self.typed.run > 1 && !typing && self.typed.held.is_none()
    }

    fn character(&mut self, c: char) {
        if self.typed.dropped {
            self.typed.letters.push(c);
            return self.no_keys();
        }
        let lettered = self.stack.last().is_some_and(Screen::takes_letters);
        if self.prompt.is_some() || lettered {
            return self.press(Key::Char(c));
        }
        // On the panes a space after a key is the list of actions.
        let space = c == ' ' && self.typed.held.is_some() && self.scope() != Scope::Main;
        if !self.typed.letters.is_empty() && (c.is_alphanumeric() || space) && !self.repeats(c) {
            return self.word(c);
        }
        self.alone();
        self.first(c);
    }

    /// Whether a key is only pressed again, or moves as the one before did.
    fn repeats(&self, c: char) -> bool {
        let moves = |c: char| matches!(self.means(Key::Char(c)), Some(a) if a.travels());
        let mut before = self.typed.letters.chars();
        c.is_alphabetic() && (before.clone().all(|b| b == c) || before.all(moves) && moves(c))
    }

    /// The first character after a pause.
    fn first(&mut self, c: char) {
        let key = Key::Char(c);
        let answers = c.is_ascii_digit() && self.stack.last().is_some_and(Screen::digit_answers);
        if !c.is_alphabetic() && !answers {
            return self.press(key);
        }
        self.typed.letters.push(c);
        self.typed.from = Some((self.scope(), self.stack.depth()));
        let does = self.means(key);
        let works = does.is_some_and(|a| a.spec().when.holds(&self.model.situation()));
        // A page that turns into another cannot be turned back.
        let opens = self.scope() != Scope::Reading;
        let at_once = does.is_none_or(|a| {
            !works || a.travels() || opens && a.acts_at_once(self.model.is_virtual())
        });
        if answers || !at_once {
            self.typed.held = Some(key);
            return;
        }
        self.typed.idle = !works;
        self.press(key);
        if self.prompt.is_some() {
            // What follows is its text.
            self.typed.letters.clear();
        }
    }

    /// Another letter in one go: none of them is a key.
    fn word(&mut self, c: char) {
        let mut letters = std::mem::take(&mut self.typed.letters);
        letters.push(c);
        let on_panes = matches!(self.typed.from, Some((Scope::Main, _)));
        self.go_back_to_the_first();
        self.message = None;
        self.typed.held = None;
        if on_panes && self.model.read_only.is_none() && may_begin(&letters) {
            return self.type_tear(&letters);
        }
        let finds = Action::Palette.spec().scopes.contains(&self.scope());
        if finds && !letters.starts_with(|c: char| c.is_ascii_digit()) {
            self.typed.sought = true;
            self.prompt = Some(Prompt::with(Purpose::Find, "Find", &letters));
            return;
        }
        self.typed.letters = letters;
        self.typed.dropped = true;
        self.no_keys();
    }

    /// Takes off what the first letter opened.
    fn go_back_to_the_first(&mut self) {
        self.burst = None;
        match self.typed.from.take() {
            Some((Scope::Main | Scope::More, _)) if self.typed.held.is_none() => {
                self.mark(None);
                self.clear_screens();
            }
            Some((_, depth)) => {
                while self.stack.depth() > depth {
                    self.pop();
                }
            }
            None => {}
        }
    }

    fn no_keys(&mut self) {
        self.complain(typed::no_keys(&self.typed.letters));
    }
}
