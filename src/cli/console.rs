//! The console itself.

use super::{Cli, Failure, Outcome};
use crate::config::Config;
use crate::tui::glyphs::GlyphChoice;
use crate::tui::theme::ColourChoice;
use crate::tui::{self, Options, Source};

/// Opens the console on a file, or on the demo.
pub fn run(cli: &Cli) -> Outcome {
    let source = cli.file.clone().map_or(Source::Demo, Source::File);
    let mut options = options(source, cli.color.as_deref(), cli.draw.as_deref())?;
    options.thin |= cli.thin;
    if cli.plain {
        return tui::run_plain(&options)
            .map(|()| 0)
            .map_err(|e| failure(&e));
    }
    open(&options)
}

/// How to open it: the user's settings, then the words of the command line.
pub fn options(
    source: Source,
    color: Option<&str>,
    draw: Option<&str>,
) -> Result<Options, Failure> {
    let config = Config::of_user().map_err(Failure::Input)?;
    let colour = match color {
        Some("always") => ColourChoice::Always,
        Some("never") => ColourChoice::Never,
        Some(_) => ColourChoice::Auto,
        None => config.colour,
    };
    let glyphs = match draw {
        Some("unicode") => GlyphChoice::Unicode,
        Some("dots") => GlyphChoice::Dot,
        Some("ascii") => GlyphChoice::Ascii,
        Some(_) => GlyphChoice::Auto,
        None => config.glyphs,
    };
    Ok(Options {
        source,
        colour,
        palette: config.palette,
        glyphs,
        system: config.system,
        keymap: config.keymap,
        thin: config.thin,
        hints: config.hints,
    })
}

/// Runs it.
pub fn open(options: &Options) -> Outcome {
    tui::terminal::check().map_err(Failure::Other)?;
    tui::run(options).map(|()| 0).map_err(|e| failure(&e))
}

fn failure(error: &anyhow::Error) -> Failure {
    let input = error
        .downcast_ref::<crate::session::SessionError>()
        .is_some_and(crate::session::SessionError::is_input);
    if input {
        Failure::Input(format!("{error:#}"))
    } else {
        Failure::Other(format!("{error:#}"))
    }
}
