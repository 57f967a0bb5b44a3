//! Colours: the terminal's own 16, or none. Meaning is never by colour alone,
//! so every role also has words, a glyph or a weight of its own.

use ratatui::style::{Color, Modifier, Style};

/// Whether to colour.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum ColourChoice {
    /// Colour unless `NO_COLOR` is set.
    #[default]
    Auto,
    /// Colour in any case.
    Always,
    /// No colour codes at all.
    Never,
}

/// What a piece of the screen is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Role {
    /// Plain text.
    Text,
    /// Text that matters more.
    Strong,
    /// Text and marks that matter less.
    Faint,
    /// A pane's title.
    Title,
    /// Frames.
    Border,
    /// In order.
    Good,
    /// Take care.
    Warn,
    /// Not in order.
    Bad,
    /// The mean tear.
    Mean,
    /// The tolerance.
    Tolerance,
    /// The latest shot.
    Latest,
    /// What is to come.
    Expected,
    /// A key on the key line.
    Key,
    /// The line the cursor is on.
    Selected,
}

/// Styles by role. The terminal's own foreground and background stay as they
/// are, so light and dark screens both work; yellow, white and black are left
/// out because one of the two would hide them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Theme {
    colour: bool,
}

impl Theme {
    /// The theme for a choice, `NO_COLOR` and `TERM` taken into account.
    pub fn choose(choice: ColourChoice) -> Self {
        let colour = match choice {
            ColourChoice::Always => true,
            ColourChoice::Never => false,
            ColourChoice::Auto => std::env::var_os("NO_COLOR").is_none_or(|v| v.is_empty()),
        };
        Self { colour }
    }

    /// With 16 colours.
    pub const fn coloured() -> Self {
        Self { colour: true }
    }

    /// Without colour codes.
    pub const fn plain() -> Self {
        Self { colour: false }
    }

    /// The style of a role.
    pub fn style(self, role: Role) -> Style {
        let plain = Style::new();
        let bold = plain.add_modifier(Modifier::BOLD);
        let (style, colour) = match role {
            Role::Text => (plain, None),
            Role::Strong | Role::Title => (bold, None),
            Role::Faint => (plain.add_modifier(Modifier::DIM), None),
            Role::Border => (plain, None),
            Role::Good => (bold, Some(Color::Cyan)),
            Role::Warn => (bold, Some(Color::Magenta)),
            Role::Bad => (bold.add_modifier(Modifier::REVERSED), Some(Color::Red)),
            Role::Mean => (bold, Some(Color::Magenta)),
            Role::Tolerance => (plain, Some(Color::Cyan)),
            Role::Latest => (bold, None),
            Role::Expected => (plain, Some(Color::Blue)),
            Role::Key => (bold, None),
            Role::Selected => (plain.add_modifier(Modifier::REVERSED), None),
        };
        match colour {
            Some(colour) if self.colour => style.fg(colour),
            _ => style,
        }
    }
}
