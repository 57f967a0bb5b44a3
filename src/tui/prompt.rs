//! A line being typed: editing, what it reads as so far, and what Enter does.

use crate::actions::{ACTIONS, Action, Key, Spec};

/// What the line is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Purpose {
    /// A tear, or several.
    Tear,
    /// A move that was made.
    Move,
    /// A note.
    Note,
    /// The name of a new session file.
    NewFile,
    /// An action by a few letters.
    Find,
    /// Something the screen in front asked for.
    Screen,
    /// Impacts on a face, for the screen in front; arrows write sides as in a tear.
    Impacts,
}

/// What the line reads as so far.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Echo {
    /// Nothing to say.
    Nothing,
    /// A hint.
    Hint(String),
    /// What it is read as.
    Reads(String),
    /// What is wrong, and which characters.
    Wrong {
        /// First character.
        at: usize,
        /// How many.
        len: usize,
        /// In words.
        text: String,
    },
}

/// A line being typed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Prompt {
    /// What for.
    pub purpose: Purpose,
    /// What stands before it.
    pub label: String,
    /// The text.
    pub text: String,
    /// Characters before the typing place.
    pub(crate) cursor: usize,
    /// Why Enter did not take it.
    pub(crate) refused: Option<String>,
    /// Enter was pressed on something that is asked about first.
    pub asked: bool,
    /// The file was changed underneath: Enter reads it again first.
    pub(crate) stale: bool,
    /// The line chosen in the list of actions.
    pub(crate) pick: usize,
    /// The text stood there before: the first letter typed goes in its place.
    pub standing: bool,
}

/// A letter that was taken for a key and may still begin a tear.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Burst {
    pub(super) letter: char,
    /// Whether the key undid an entry.
    pub(super) undid: bool,
}

/// The longest line.
const LONGEST: usize = 200;

impl Prompt {
    /// An empty line.
    pub fn new(purpose: Purpose, label: impl Into<String>) -> Self {
        Self {
            purpose,
            label: label.into(),
            text: String::new(),
            cursor: 0,
            refused: None,
            asked: false,
            stale: false,
            pick: 0,
            standing: false,
        }
    }

    /// A line with text to start from.
    pub fn with(purpose: Purpose, label: impl Into<String>, text: &str) -> Self {
        let mut prompt = Self::new(purpose, label);
        prompt.text = crate::tui::draw::paint::safe(text);
        prompt.cursor = prompt.text.chars().count();
        prompt
    }

    /// A line with the value that stands: Enter keeps it, a letter goes in its
    /// place, a cursor key or backspace changes it.
    pub(crate) fn over(purpose: Purpose, label: impl Into<String>, text: &str) -> Self {
        let mut prompt = Self::with(purpose, label, text);
        prompt.standing = !prompt.text.is_empty();
        prompt
    }

    /// Empties the line.
    pub(crate) fn clear(&mut self) {
        self.text.clear();
        self.cursor = 0;
        self.touched();
    }

    fn byte(&self, chars: usize) -> usize {
        self.text
            .char_indices()
            .nth(chars)
            .map_or(self.text.len(), |(i, _)| i)
    }

    fn insert(&mut self, c: char) {
        if !c.is_control() && self.text.chars().count() < LONGEST {
            self.text.insert(self.byte(self.cursor), c);
            self.cursor += 1;
        }
    }

    fn insert_word(&mut self, word: &str) {
        let before = self.text[..self.byte(self.cursor)].chars().last();
        if before.is_some_and(|c| c != ' ') {
            self.insert(' ');
        }
        word.chars().for_each(|c| self.insert(c));
        self.insert(' ');
    }

    /// Takes pasted text, control characters left out.
    pub fn paste(&mut self, text: &str) {
        if self.standing {
            self.clear();
        }
        self.touched();
        let holes = matches!(self.purpose, Purpose::Tear | Purpose::Impacts);
        // A line of the clipboard is a hole of the sheet.
        let text = if holes {
            text.trim().replace("\r\n", ";").replace(['\n', '\r'], ";")
        } else {
            text.to_owned()
        };
        text.chars().for_each(|c| self.insert(c));
    }

    fn touched(&mut self) {
        self.standing = false;
        self.refused = None;
        self.asked = false;
        self.stale = false;
        self.pick = 0;
    }

    /// Takes a key other than Enter and Esc.
    pub(crate) fn edit(&mut self, key: Key) {
        let tear = matches!(self.purpose, Purpose::Tear | Purpose::Impacts);
        match key {
            Key::Up | Key::Down if self.purpose == Purpose::Find => {
                let last = matches(&self.text).len().saturating_sub(1);
                self.pick = match key {
                    Key::Up => self.pick.saturating_sub(1),
                    _ => (self.pick + 1).min(last),
                };
                return;
            }
            Key::Char(c) => {
                if self.standing {
                    self.clear();
                }
                self.insert(c);
            }
            Key::Left if tear => self.insert_word("left"),
            Key::Right if tear => self.insert_word("right"),
            Key::Up if tear => self.insert_word("high"),
            Key::Down if tear => self.insert_word("low"),
            Key::Left => self.cursor = self.cursor.saturating_sub(1),
            Key::Right => self.cursor = (self.cursor + 1).min(self.text.chars().count()),
            Key::Home => self.cursor = 0,
            Key::End => self.cursor = self.text.chars().count(),
            Key::Backspace if tear && self.text.ends_with(' ') => self.drop_word(),
            Key::Backspace if self.cursor > 0 => {
                self.cursor -= 1;
                self.text.remove(self.byte(self.cursor));
            }
            Key::Delete if self.cursor < self.text.chars().count() => {
                self.text.remove(self.byte(self.cursor));
            }
            _ => return,
        }
        self.touched();
    }

    /// Takes back what one arrow wrote: one press in, one press out.
    fn drop_word(&mut self) {
        let kept = self.text.trim_end();
        let kept = kept.trim_end_matches(char::is_alphabetic).trim_end();
        self.text.truncate(kept.len());
        self.cursor = self.text.chars().count();
    }
}

/// Actions whose name or line holds the letters, best first.
pub(crate) fn matches(text: &str) -> Vec<&'static Spec> {
    let wanted = text.trim().to_lowercase();
    let mut found: Vec<(usize, &Spec)> = ACTIONS
        .iter()
        .filter(|s| {
            !matches!(
                s.action,
                Action::Palette | Action::More | Action::Back | Action::Choose
            )
        })
        .filter(|s| s.action.on_panes())
        .filter(|s| {
            !matches!(
                s.action,
                Action::Up | Action::Down | Action::Left | Action::Right
            )
        })
        .filter_map(|s| {
            let rank = if s.label.starts_with(&wanted) || s.id.starts_with(&wanted) {
                0
            } else if s.label.contains(&wanted) || s.id.contains(&wanted) {
                1
            } else if s.action.is_also(&wanted) {
                2
            } else if s.doc.to_lowercase().contains(&wanted) {
                3
            } else {
                return None;
            };
            Some((rank, s))
        })
        .collect();
    found.sort_by_key(|(rank, _)| *rank);
    found.into_iter().map(|(_, s)| s).collect()
}
