//! The keys of the table: letters, arrows and a few that every keyboard has.

/// A key as the table knows it: letters, arrows and a few that every keyboard has.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Key {
    /// A character.
    Char(char),
    /// Left arrow.
    Left,
    /// Right arrow.
    Right,
    /// Up arrow.
    Up,
    /// Down arrow.
    Down,
    /// Enter.
    Enter,
    /// Escape.
    Esc,
    /// Tab.
    Tab,
    /// Backspace.
    Backspace,
    /// Delete.
    Delete,
    /// Home.
    Home,
    /// End.
    End,
    /// Page up.
    PageUp,
    /// Page down.
    PageDown,
}

impl Key {
    /// A capital is the same key: caps lock must not make the keyboard dead.
    pub(crate) const fn plain(self) -> Self {
        match self {
            Self::Char(c) => Self::Char(c.to_ascii_lowercase()),
            other => other,
        }
    }

    /// The key as written on screen.
    pub fn label(self) -> String {
        match self {
            Self::Char(' ') => "space".into(),
            Self::Char(c) => c.to_string(),
            Self::Left => "left".into(),
            Self::Right => "right".into(),
            Self::Up => "up".into(),
            Self::Down => "down".into(),
            Self::Enter => "Enter".into(),
            Self::Esc => "Esc".into(),
            Self::Tab => "Tab".into(),
            Self::Backspace => "Backspace".into(),
            Self::Delete => "Del".into(),
            Self::Home => "Home".into(),
            Self::End => "End".into(),
            Self::PageUp => "PgUp".into(),
            Self::PageDown => "PgDn".into(),
        }
    }

    /// The key of this name, as [`Self::label`] writes it, capitals or not.
    pub(crate) fn from_label(text: &str) -> Option<Self> {
        let named = [
            Self::Left,
            Self::Right,
            Self::Up,
            Self::Down,
            Self::Enter,
            Self::Esc,
            Self::Tab,
            Self::Backspace,
            Self::Delete,
            Self::Home,
            Self::End,
            Self::PageUp,
            Self::PageDown,
        ];
        let mut chars = text.chars();
        match (chars.next(), chars.next()) {
            (Some(c), None) => Some(Self::Char(c)),
            _ if text.eq_ignore_ascii_case("space") => Some(Self::Char(' ')),
            _ => named
                .into_iter()
                .find(|k| k.label().eq_ignore_ascii_case(text)),
        }
    }
}
