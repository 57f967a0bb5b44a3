//! The console itself.

use super::{Cli, Failure, Outcome};
use crate::tui::glyphs::GlyphChoice;
use crate::tui::theme::ColourChoice;
use crate::tui::{self, Options, Source};

/// Opens the console on a file, or on the demo.
pub fn run(cli: &Cli) -> Outcome {
    tui::terminal::check().map_err(Failure::Other)?;
    let options = Options {
        source: cli.file.clone().map_or(Source::Demo, Source::File),
        colour: match cli.color.as_str() {
            "always" => ColourChoice::Always,
            "never" => ColourChoice::Never,
            _ => ColourChoice::Auto,
        },
        glyphs: match cli.draw.as_deref() {
            Some("unicode") => GlyphChoice::Unicode,
            Some("dots") => GlyphChoice::Dot,
            Some("ascii") => GlyphChoice::Ascii,
            _ => GlyphChoice::Auto,
        },
        system: None,
    };
    tui::run(&options).map(|()| 0).map_err(|e| {
        let input = e
            .downcast_ref::<crate::session::SessionError>()
            .is_some_and(crate::session::SessionError::is_input);
        if input {
            Failure::Input(format!("{e:#}"))
        } else {
            Failure::Other(format!("{e:#}"))
        }
    })
}
