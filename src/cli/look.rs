//! `tearbench print look`: every look as this terminal shows it.

use std::fmt::Write as _;

use ratatui::style::{Color, Modifier, Style};

use super::outcome::Failure;
use crate::config::Config;
use crate::look::sample;
use crate::look::{Scheme, Theme};

/// The page, in colours unless the settings or `NO_COLOR` say otherwise.
pub(super) fn page() -> Result<String, Failure> {
    let config = Config::of_user().map_err(Failure::Input)?;
    let theme = Theme::choose(config.colour, config.palette, config.scheme);
    let mut out = String::from("Take what you can read. In the settings, under [display]:\n\n");
    for (word, scheme) in Scheme::ALL {
        let used = if config.scheme == scheme {
            "  (in use)"
        } else {
            ""
        };
        let _ = writeln!(out, "look = \"{word}\"{used}");
        let shown = theme.with(scheme);
        for row in sample::rows() {
            out.push_str("  ");
            for (text, role) in row {
                out.push_str(&codes(shown.style(role)));
                out.push_str(&text);
                out.push_str("\u{1b}[0m");
            }
            out.push('\n');
        }
        out.push('\n');
    }
    for (word, choice) in sample::SETS {
        let _ = writeln!(
            out,
            "draw = \"{word}\"\n  {}\n",
            sample::characters(choice.set())
        );
    }
    Ok(out)
}

/// What turns a style on.
fn codes(style: Style) -> String {
    let mut parts = Vec::new();
    for (modifier, code) in [
        (Modifier::BOLD, "1"),
        (Modifier::DIM, "2"),
        (Modifier::REVERSED, "7"),
    ] {
        if style.add_modifier.contains(modifier) {
            parts.push(code.to_owned());
        }
    }
    parts.extend(style.fg.and_then(|c| colour(c, 30)));
    parts.extend(style.bg.and_then(|c| colour(c, 40)));
    if parts.is_empty() {
        return String::new();
    }
    format!("\u{1b}[{}m", parts.join(";"))
}

/// A colour as text (base 30) or as ground (base 40).
fn colour(colour: Color, base: u8) -> Option<String> {
    let dark = |n: u8| format!("{}", base + n);
    let bright = |n: u8| format!("{}", base + 60 + n);
    Some(match colour {
        Color::Black => dark(0),
        Color::Red => dark(1),
        Color::Green => dark(2),
        Color::Blue => dark(4),
        Color::White => bright(7),
        Color::LightYellow => bright(3),
        Color::LightCyan => bright(6),
        Color::Indexed(n) => format!("{};5;{n}", base + 8),
        Color::Rgb(r, g, b) => format!("{};2;{r};{g};{b}", base + 8),
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::look::{Role, Tone};

    #[test]
    fn both_sides_of_a_band_are_sent_and_nothing_where_no_colour_is_wanted() {
        let band = Role::Band(Tone::Refuse);
        let sixteen = codes(Theme::coloured().style(band));
        assert_eq!(sixteen, "\u{1b}[1;97;41m");
        let dark = codes(Theme::of(Scheme::Dark).style(band));
        assert!(
            dark.contains(";38;2;") && dark.contains(";48;2;"),
            "{dark:?}"
        );
        assert_eq!(codes(Theme::plain().style(band)), "\u{1b}[1;7m");
        assert_eq!(codes(Theme::plain().style(Role::Text)), "");
    }

    #[test]
    fn every_colour_a_theme_uses_has_its_code() {
        for (_, scheme) in Scheme::ALL {
            for theme in [Theme::of(scheme), Theme::of(scheme).safe().coarse()] {
                for role in Role::ALL {
                    let style = theme.style(role);
                    for side in [style.fg, style.bg].into_iter().flatten() {
                        assert!(colour(side, 30).is_some(), "{scheme:?} {role:?} {side:?}");
                    }
                }
            }
        }
    }
}
