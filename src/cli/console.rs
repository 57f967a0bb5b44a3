//! The console itself.

use super::{Cli, Failure, Outcome};
use crate::tui::glyphs::GlyphChoice;
use crate::tui::theme::ColourChoice;
use crate::tui::{self, Options, Source};

/// Opens the console on a file, or on the demo.
pub fn run(cli: &Cli) -> Outcome {
    let source = cli.file.clone().map_or(Source::Demo, Source::File);
    open(&options(source, &cli.color, cli.draw.as_deref()))
}

/// How to open it, from the words of the command line.
pub fn options(source: Source, color: &str, draw: Option<&str>) -> Options {
    Options {
        source,
        colour: match color {
            "always" => ColourChoice::Always,
            "never" => ColourChoice::Never,
            _ => ColourChoice::Auto,
        },
        glyphs: match draw {
            Some("unicode") => GlyphChoice::Unicode,
            Some("dots") => GlyphChoice::Dot,
            Some("ascii") => GlyphChoice::Ascii,
            _ => GlyphChoice::Auto,
        },
        system: None,
    }
}

/// Runs it.
pub fn open(options: &Options) -> Outcome {
    tui::terminal::check().map_err(Failure::Other)?;
    tui::run(options).map(|()| 0).map_err(|e| {
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
