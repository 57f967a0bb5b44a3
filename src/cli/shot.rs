//! `tearbench shot`: record one or several tears.

use std::path::PathBuf;

use clap::Args;

use super::open;
use super::outcome::{Failure, Outcome, parse_shooter, say};
use crate::checks::safety;
use crate::session::{Event, Given, Shooter, Shot};
use crate::{tear, words};

/// Arguments of `shot`.
#[derive(Debug, Args)]
pub(crate) struct ShotArgs {
    /// Session file
    pub(crate) file: PathBuf,
    /// The tear as people say it; several separated by ; (- reads lines from standard input)
    #[arg(required = true)]
    pub tear: Vec<String>,
    /// Rest to paper, where it is not the card's
    #[arg(long)]
    pub distance: Option<String>,
    /// Shot without fletching
    #[arg(long)]
    pub bare: bool,
    /// Called bad before looking at the paper
    #[arg(long)]
    pub called_bad: bool,
    /// Who shot: owner, technician or machine
    #[arg(long, default_value = "owner", value_parser = parse_shooter)]
    pub by: Shooter,
    /// Arrow number or mark
    #[arg(long)]
    pub arrow: Option<String>,
    /// An extra slit beyond the line from point to nock
    #[arg(long)]
    pub slit_extra: bool,
    /// A ragged or smeared hole
    #[arg(long)]
    pub ragged: bool,
    /// The tear was read from the target side of the sheet
    #[arg(long)]
    pub(crate) from_target_side: bool,
    /// Print what was recorded as JSON
    #[arg(long)]
    pub(crate) json: bool,
}

/// Records the shots.
pub(crate) fn run(args: &ShotArgs) -> Outcome {
    let typed = typed(args)?;
    let mut session = open::writing(&args.file)?;
    let system = open::system(&session);
    let holes =
        tear::read_holes(&typed, system).map_err(|e| Failure::Input(pointed(&typed, &e)))?;
    if let Some(text) = &args.distance {
        tear::read_distance(text).map_err(|e| Failure::Input(format!("--distance: {e}")))?;
    }
    let given = Given {
        by: args.by,
        arrow: args.arrow.clone(),
        distance: args.distance.clone(),
        bare: args.bare,
        called_bad: args.called_bad,
        slit_extra: args.slit_extra,
        ragged: args.ragged,
        from_target_side: args.from_target_side,
    };
    let shots = Shot::of_all(&holes, typed.trim(), &given)
        .map_err(|two| Failure::Input(two.to_string()))?;
    let events = shots.iter().cloned().map(Event::Shot).collect();
    // One sheet, one action: all of its holes are recorded or none.
    let before = session.timeline().shots.len();
    let entries = session.record_all(events)?;
    if args.json {
        super::json::print(&super::json::recorded(&session, before, &shots, &entries));
    }
    // What stops every shot is repeated below.
    let stops = safety::dangers(session.timeline());
    let of_bare = safety::bare_forbidden(session.timeline()).filter(|d| !stops.contains(d));
    for (i, (shot, entry)) in shots.iter().zip(entries).enumerate() {
        let read = words::tear_with_unit(shot.tear(), system);
        let bare = shot.bare;
        let long = shot.tear().length() > tear::ASK_ABOVE;
        if !args.json {
            say(&format!(
                "recorded shot {} (entry {entry}): {read}",
                before + i + 1
            ));
        }
        if let Some(danger) = of_bare.as_ref().filter(|_| bare) {
            eprintln!("tearbench: DO NOT SHOOT. {}", words::danger(danger));
        }
        if long {
            super::outcome::warn(&format!(
                "warning: {read} is a very long tear; if it was mistyped: tearbench undo {}",
                args.file.display()
            ));
        }
    }
    open::repeat_stop(&session);
    Ok(0)
}

/// What was typed: the words of the command line, or the lines of standard input.
fn typed(args: &ShotArgs) -> Result<String, Failure> {
    if args.tear != ["-"] {
        return Ok(args.tear.join(" "));
    }
    let bytes = open::stdin_bytes()?;
    let text = String::from_utf8(bytes)
        .map_err(|_| Failure::Input("standard input: the tears are not UTF-8 text".into()))?;
    // A newline is a semicolon, as where a page is pasted.
    let lines = text.lines().map(str::trim).filter(|l| !l.is_empty());
    Ok(lines.collect::<Vec<_>>().join("; "))
}

/// The error with a line that points at the word.
fn pointed(text: &str, error: &tear::TearError) -> String {
    // A pasted page is not said again: what is wrong is said by its word.
    if text.chars().count() > 100 || text.contains('\n') {
        return error.to_string();
    }
    let width = error.word.chars().count().max(1);
    format!(
        "{error}\n  {text}\n  {}{}",
        " ".repeat(error.at),
        "^".repeat(width)
    )
}
