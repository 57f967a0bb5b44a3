//! Roles and the schemes that style them. Meaning is never by colour alone,
//! so every role also has words, a glyph or a weight of its own.
//!
//! Without a scheme of one's own the terminal's foreground and background stay
//! as they are and colour stands only where both of its sides are set. Coloured
//! text is for the schemes that bring their own ground with them.

use ratatui::style::{Color, Modifier, Style};

use super::inks;

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

/// Which colours stand for in order, take care and not in order.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Palette {
    /// Green, amber, red.
    #[default]
    Default,
    /// Blues against amber and dark red, which stay apart in every common kind
    /// of colour blindness.
    Safe,
}

/// Where the colours come from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Scheme {
    /// The terminal's own foreground, background and sixteen colours.
    #[default]
    Terminal,
    /// Light text on a dark ground of its own.
    Dark,
    /// Dark text on a light ground of its own.
    Light,
    /// White on black, nothing dimmed.
    Contrast,
    /// No colours: bold, dim and reversed.
    Mono,
}

impl Scheme {
    /// Every scheme with its word in the settings.
    pub const ALL: [(&'static str, Self); 5] = [
        ("terminal", Self::Terminal),
        ("dark", Self::Dark),
        ("light", Self::Light),
        ("contrast", Self::Contrast),
        ("mono", Self::Mono),
    ];

    /// Its word in the settings.
    pub fn id(self) -> &'static str {
        Self::ALL
            .iter()
            .find(|(_, s)| *s == self)
            .map_or("", |f| f.0)
    }

    /// The scheme of this word.
    pub fn from_id(id: &str) -> Option<Self> {
        Self::ALL.iter().find(|(word, _)| *word == id).map(|f| f.1)
    }
}

/// What a filled band says by its colour; its words say it as well.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Tone {
    /// Something is to be done on the bow, or answered.
    Act,
    /// Shoot.
    Shoot,
    /// Within tolerance.
    Done,
    /// Do not.
    Refuse,
}

impl Tone {
    #[cfg(test)]
    /// Every tone.
    pub(crate) const ALL: [Self; 4] = [Self::Act, Self::Shoot, Self::Done, Self::Refuse];
}

/// What a piece of the screen is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Role {
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
    /// The likely tear.
    Likely,
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
    /// A filled band.
    Band(Tone),
}

impl Role {
    #[cfg(test)]
    /// Every role.
    pub(crate) const ALL: [Self; 18] = [
        Self::Text,
        Self::Strong,
        Self::Faint,
        Self::Title,
        Self::Border,
        Self::Good,
        Self::Warn,
        Self::Bad,
        Self::Likely,
        Self::Tolerance,
        Self::Latest,
        Self::Expected,
        Self::Key,
        Self::Selected,
        Self::Band(Tone::Act),
        Self::Band(Tone::Shoot),
        Self::Band(Tone::Done),
        Self::Band(Tone::Refuse),
    ];
}

/// Terminals that know no colours, by name.
fn is_monochrome(term: &str) -> bool {
    let vt = term.strip_prefix("vt");
    vt.is_some_and(|rest| rest.starts_with(|c: char| c.is_ascii_digit()))
        || term.ends_with("-m")
        || term.ends_with("-mono")
}

/// Whether the terminal says that it takes any colour, not 256 only.
fn takes_any_colour() -> bool {
    std::env::var("COLORTERM").is_ok_and(|v| v == "truecolor" || v == "24bit")
}

/// Styles by role.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Theme {
    pub(super) scheme: Scheme,
    pub(super) palette: Palette,
    /// Whether colour codes may be written at all.
    allowed: bool,
    /// Any colour; where it is not, the nearest of the 256.
    pub(super) fine: bool,
}

impl Theme {
    /// The theme for a choice, `NO_COLOR`, `TERM` and `COLORTERM` taken into account.
    pub fn choose(choice: ColourChoice, palette: Palette, scheme: Scheme) -> Self {
        let colour = match choice {
            ColourChoice::Always => true,
            ColourChoice::Never => false,
            ColourChoice::Auto => {
                let wanted = std::env::var_os("NO_COLOR").is_none_or(|v| v.is_empty());
                wanted && !std::env::var("TERM").is_ok_and(|term| is_monochrome(&term))
            }
        };
        Self {
            scheme: if colour { scheme } else { Scheme::Mono },
            palette,
            allowed: colour,
            fine: takes_any_colour(),
        }
    }

    /// A scheme in any colour it likes.
    pub const fn of(scheme: Scheme) -> Self {
        Self {
            scheme,
            palette: Palette::Default,
            allowed: !matches!(scheme, Scheme::Mono),
            fine: true,
        }
    }

    /// The terminal's own sixteen colours.
    pub const fn coloured() -> Self {
        Self::of(Scheme::Terminal)
    }

    /// The same with the colours that colour-blind people can tell apart.
    pub const fn safe(self) -> Self {
        Self {
            palette: Palette::Safe,
            ..self
        }
    }

    #[cfg(test)]
    /// The same from the 256 colours most terminals have.
    pub(crate) const fn coarse(self) -> Self {
        Self {
            fine: false,
            ..self
        }
    }

    /// The same terminal in another scheme; without colours where it may have none.
    pub const fn with(self, scheme: Scheme) -> Self {
        let scheme = if self.allowed { scheme } else { Scheme::Mono };
        Self { scheme, ..self }
    }

    /// Whether colour codes may be written, in this scheme or another.
    pub(crate) const fn may_colour(self) -> bool {
        self.allowed
    }

    /// Without colour codes.
    pub const fn plain() -> Self {
        Self::of(Scheme::Mono)
    }

    /// Which scheme it is.
    pub const fn scheme(self) -> Scheme {
        self.scheme
    }

    /// Whether colour codes are written.
    pub(crate) const fn has_colour(self) -> bool {
        !matches!(self.scheme, Scheme::Mono)
    }

    /// What every cell starts with: the scheme's own ground, or the terminal's.
    pub(crate) fn ground(self) -> Style {
        match inks::of(self.scheme) {
            Some(inks) => Style::new()
                .fg(inks.text.colour(self.fine))
                .bg(inks.ground.colour(self.fine)),
            None => Style::new(),
        }
    }

    /// The ground of what is within tolerance, where the scheme has one.
    pub(crate) fn shade(self) -> Option<Color> {
        let inks = inks::of(self.scheme)?;
        inks.shade.map(|ink| ink.colour(self.fine))
    }

    /// The style of a role.
    pub(crate) fn style(self, role: Role) -> Style {
        if let (Role::Band(tone), true) = (role, self.has_colour()) {
            return inks::band(self, tone);
        }
        match inks::of(self.scheme) {
            Some(inks) => self.ground().patch(inks.style(role, self)),
            None => self.sixteen(role),
        }
    }

    /// A role by weight on the terminal's own ground.
    fn sixteen(self, role: Role) -> Style {
        let plain = Style::new();
        let bold = plain.add_modifier(Modifier::BOLD);
        match role {
            Role::Text | Role::Title | Role::Expected | Role::Tolerance => plain,
            Role::Strong | Role::Good | Role::Warn | Role::Likely | Role::Latest | Role::Key => {
                bold
            }
            Role::Faint | Role::Border => plain.add_modifier(Modifier::DIM),
            Role::Bad if self.has_colour() => inks::band(self, Tone::Refuse),
            Role::Bad | Role::Band(_) => bold.add_modifier(Modifier::REVERSED),
            Role::Selected => plain.add_modifier(Modifier::REVERSED),
        }
    }
}

#[cfg(test)]
#[path = "theme_tests.rs"]
mod tests;
