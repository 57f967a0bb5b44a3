//! The console itself.

use std::path::PathBuf;

use clap::Args;

use super::outcome::{Failure, Outcome};
use crate::config::Config;
use crate::look::{ColourChoice, GlyphChoice, Scheme};
use crate::tui::{self, Options, Source};

/// Opens the console on a file, or on the demo.
pub(crate) fn run(file: Option<PathBuf>, look: &LookArgs) -> Outcome {
    open(file.map_or(Source::Demo, Source::File), look)
}

/// How the console looks, whatever it is opened on.
#[derive(Debug, Clone, Args)]
pub(crate) struct LookArgs {
    /// When to use colour on the console
    #[arg(long, value_name = "WHEN", value_parser = ["auto", "always", "never"])]
    pub(crate) color: Option<String>,
    /// Where the colours come from: the terminal's own where absent
    #[arg(long, value_name = "NAME", value_parser = ["terminal", "dark", "light", "contrast", "mono"])]
    pub(crate) look: Option<String>,
    /// How to draw: chosen from the locale where absent
    #[arg(long, value_name = "SET", value_parser = ["auto", "unicode", "dots", "ascii"])]
    pub draw: Option<String>,
    /// The panes as lines on each change, for screen readers; reads lines, needs no terminal
    #[arg(long)]
    pub plain: bool,
    /// For a slow line: fewer redraws, no faint history
    #[arg(long)]
    pub thin: bool,
}

/// How to open it: the user's settings, then the words of the command line.
fn options(source: Source, look: &LookArgs) -> Result<Options, Failure> {
    let config = Config::of_user().map_err(Failure::Input)?;
    let colour = match look.color.as_deref() {
        Some("always") => ColourChoice::Always,
        Some("never") => ColourChoice::Never,
        Some(_) => ColourChoice::Auto,
        None => config.colour,
    };
    let glyphs = match look.draw.as_deref() {
        Some("unicode") => GlyphChoice::Unicode,
        Some("dots") => GlyphChoice::Dot,
        Some("ascii") => GlyphChoice::Ascii,
        Some(_) => GlyphChoice::Auto,
        None => config.glyphs,
    };
    let warnings = config.warnings();
    let scheme = look.look.as_deref().and_then(Scheme::from_id);
    Ok(Options {
        source,
        colour,
        palette: config.palette,
        scheme: scheme.unwrap_or(config.scheme),
        glyphs,
        system: config.system,
        keymap: config.keymap,
        thin: config.thin || look.thin,
        hints: config.hints,
        bell: config.bell,
        warnings,
    })
}

/// Runs it.
pub fn open(source: Source, look: &LookArgs) -> Outcome {
    let options = options(source, look)?;
    let done = if look.plain {
        tui::run_plain(&options)
    } else {
        tui::terminal::check().map_err(Failure::Other)?;
        tui::run(&options)
    };
    done.map(|()| 0).map_err(|e| failure(&e))
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
