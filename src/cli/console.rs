//! The console itself.

use super::{Cli, Failure, Outcome};
use crate::session::SessionError;
use crate::tui::glyphs::GlyphChoice;
use crate::tui::theme::ColourChoice;
use crate::tui::{self, Options, Source};

/// Opens the console.
pub fn run(cli: &Cli) -> Outcome {
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
    tui::run(&options).map_err(|error| match error.downcast::<SessionError>() {
        Ok(error) => Failure::from(error),
        Err(error) => Failure::Other(format!("{error:#}")),
    })?;
    Ok(0)
}
