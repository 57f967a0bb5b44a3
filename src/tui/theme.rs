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

/// Which colours.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Palette {
    /// Cyan, magenta, red.
    #[default]
    Default,
    /// Blue against red and nothing else: the pair that stays apart in every
    /// common kind of colour blindness.
    Safe,
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

/// Terminals that know no colours, by name.
fn is_monochrome(term: &str) -> bool {
    let vt = term.strip_prefix("vt");
    vt.is_some_and(|rest| rest.starts_with(|c: char| c.is_ascii_digit()))
        || term.ends_with("-m")
        || term.ends_with("-mono")
}

/// Styles by role. The terminal's own foreground and background stay as they
/// are, so light and dark screens both work; yellow, white and black are left
/// out because one of the two would hide them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Theme {
    colour: bool,
    palette: Palette,
}

impl Theme {
    /// The theme for a choice, `NO_COLOR` and `TERM` taken into account.
    pub fn choose(choice: ColourChoice, palette: Palette) -> Self {
        let colour = match choice {
            ColourChoice::Always => true,
            ColourChoice::Never => false,
            ColourChoice::Auto => {
                let wanted = std::env::var_os("NO_COLOR").is_none_or(|v| v.is_empty());
                wanted && !std::env::var("TERM").is_ok_and(|term| is_monochrome(&term))
            }
        };
        Self { colour, palette }
    }

    /// With 16 colours.
    pub const fn coloured() -> Self {
        Self {
            colour: true,
            palette: Palette::Default,
        }
    }

    /// With the two colours that colour-blind people can tell apart.
    pub const fn safe() -> Self {
        Self {
            colour: true,
            palette: Palette::Safe,
        }
    }

    /// Without colour codes.
    pub const fn plain() -> Self {
        Self {
            colour: false,
            palette: Palette::Default,
        }
    }

    /// Whether colour codes are written.
    pub const fn has_colour(self) -> bool {
        self.colour
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
            Some(colour) if self.colour => style.fg(self.in_palette(colour)),
            _ => style,
        }
    }

    const fn in_palette(self, colour: Color) -> Color {
        match (self.palette, colour) {
            (Palette::Safe, Color::Cyan) => Color::Blue,
            (Palette::Safe, Color::Magenta) => Color::Red,
            _ => colour,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What the three kinds of colour blindness make of linear red, green and
    /// blue: Machado, Oliveira and Fernandes 2009, severity 1 (from memory).
    const KINDS: [[[f64; 3]; 3]; 3] = [
        [
            [0.152286, 1.052583, -0.204868],
            [0.114503, 0.786281, 0.099216],
            [-0.003882, -0.048116, 1.051998],
        ],
        [
            [0.367322, 0.860646, -0.227968],
            [0.280085, 0.672501, 0.047413],
            [-0.011820, 0.042940, 0.968881],
        ],
        [
            [1.255528, -0.076749, -0.178779],
            [-0.078411, 0.930809, 0.147602],
            [0.004733, 0.691367, 0.303900],
        ],
    ];

    /// The usual terminal shades, sRGB.
    const fn shade(colour: Color) -> [f64; 3] {
        match colour {
            Color::Red => [205.0, 0.0, 0.0],
            Color::Green => [0.0, 205.0, 0.0],
            Color::Blue => [0.0, 0.0, 238.0],
            Color::Magenta => [205.0, 0.0, 205.0],
            _ => [0.0, 205.0, 205.0],
        }
    }

    /// CIE 1976 L*a*b*, D65, of what is left of a colour.
    fn seen(colour: Color, kind: &[[f64; 3]; 3]) -> [f64; 3] {
        let linear = shade(colour).map(|v| ((v / 255.0 + 0.055) / 1.055).powf(2.4));
        let left = kind.map(|row| row.iter().zip(linear).map(|(a, b)| a * b).sum::<f64>());
        let [r, g, b] = left.map(|v| v.clamp(0.0, 1.0));
        let xyz = [
            (0.4124 * r + 0.3576 * g + 0.1805 * b) / 0.9505,
            0.2126 * r + 0.7152 * g + 0.0722 * b,
            (0.0193 * r + 0.1192 * g + 0.9505 * b) / 1.089,
        ];
        let [x, y, z] = xyz.map(|v| {
            if v > 0.008856 {
                v.cbrt()
            } else {
                7.787 * v + 16.0 / 116.0
            }
        });
        [116.0 * y - 16.0, 500.0 * (x - y), 200.0 * (y - z)]
    }

    fn apart(a: Color, b: Color, kind: &[[f64; 3]; 3]) -> f64 {
        let (a, b) = (seen(a, kind), seen(b, kind));
        a.iter()
            .zip(b)
            .map(|(a, b)| (a - b).powi(2))
            .sum::<f64>()
            .sqrt()
    }

    #[test]
    fn the_safe_palette_is_told_apart_with_every_kind_of_colour_blindness() {
        let theme = Theme::safe();
        let colour = |role| theme.style(role).fg.unwrap();
        for kind in &KINDS {
            for (good, bad) in [
                (Role::Good, Role::Warn),
                (Role::Good, Role::Bad),
                (Role::Tolerance, Role::Mean),
                (Role::Expected, Role::Mean),
            ] {
                let distance = apart(colour(good), colour(bad), kind);
                assert!(distance > 60.0, "{good:?} {bad:?}: {distance}");
            }
        }
        // The control: the pair everybody warns of comes out much closer.
        let control = KINDS[..2]
            .iter()
            .map(|k| apart(Color::Red, Color::Green, k));
        assert!(control.fold(f64::INFINITY, f64::min) < 45.0);
    }

    #[test]
    fn roles_that_mean_different_things_differ_without_colour_as_well() {
        let theme = Theme::plain();
        assert_ne!(theme.style(Role::Bad), theme.style(Role::Good));
        assert_ne!(theme.style(Role::Faint), theme.style(Role::Text));
        assert_eq!(theme.style(Role::Bad).fg, None);
    }
}
