//! `report`, `sheet`, `list` and `compare`: paper for people.

use std::io::{self, Write as _};
use std::path::PathBuf;

use clap::Args;

use super::open;
use super::outcome::{Failure, Outcome, say};
use super::page::{PAGE, ROWS, page_format, show};
use crate::range::Today;
use crate::report::{self, Format};
use crate::restore::{self, Target};
use crate::{advice, book};

/// Arguments of `report`.
#[derive(Debug, Args)]
pub(crate) struct ReportArgs {
    /// Session file
    pub(crate) file: PathBuf,
    /// text, markdown, html or json
    #[arg(long, default_value = "text", value_parser = parse_format)]
    pub(crate) format: Format,
    /// Write to this file instead of standard output (- is standard output); replaces only a tuning sheet
    #[arg(short, long, value_name = "OUT")]
    pub(crate) output: Option<PathBuf>,
    /// Print the owner's contact too
    #[arg(long)]
    pub contact: bool,
}

/// Arguments of `sheet`.
#[derive(Debug, Args)]
pub(crate) struct SheetArgs {
    /// Session file
    pub(crate) file: PathBuf,
    /// Print only the moves that put the bow back: start, or a setting's number
    #[arg(long, value_name = "WHERE", value_parser = parse_target)]
    pub(crate) to: Option<Target>,
    /// text, markdown or html
    #[arg(long, default_value = "text", value_parser = page_format)]
    pub(crate) format: Format,
}

/// Arguments of `list`.
#[derive(Debug, Args)]
pub(crate) struct ListArgs {
    /// Folder; the current one where absent
    pub folder: Option<PathBuf>,
    /// Print it as JSON
    #[arg(long, conflicts_with = "format")]
    pub(crate) json: bool,
    /// text, markdown or html
    #[arg(long, default_value = "text", value_parser = page_format)]
    pub(crate) format: Format,
}

/// Arguments of `compare`.
#[derive(Debug, Args)]
pub(crate) struct CompareArgs {
    /// The earlier session
    pub(crate) before: PathBuf,
    /// The later session of the same bow
    pub after: PathBuf,
    /// text, markdown or html
    #[arg(long, default_value = "text", value_parser = page_format)]
    pub(crate) format: Format,
}

fn parse_format(text: &str) -> Result<Format, String> {
    Format::from_id(text).ok_or_else(|| "text, markdown, html or json".to_owned())
}

fn parse_target(text: &str) -> Result<Target, String> {
    Target::parse(text).map_err(|e| e.to_string())
}

/// Writes the sheet for the customer.
pub(crate) fn report(args: &ReportArgs) -> Outcome {
    let session = open::reading(&args.file)?;
    let system = open::system(&session);
    // The sheet says what stood when the shots were made.
    let day = Today::of_last_shot(session.timeline()).unwrap_or_else(Today::now);
    let analysis = advice::analyse(session.timeline(), day);
    let options = report::Options {
        system,
        contact: args.contact,
    };
    let text = report::render(session.timeline(), &analysis, args.format, &options);
    match args.output.as_ref().filter(|path| path.as_os_str() != "-") {
        Some(path) => {
            report::save(path, &text).map_err(|fault| Failure::of(path, &fault))?;
            say(&format!("wrote {}", path.display()));
        }
        None => {
            let _ = io::stdout().write_all(text.as_bytes());
        }
    }
    Ok(0)
}

/// Prints what it takes to restore the bow.
pub(crate) fn sheet(args: &SheetArgs) -> Outcome {
    let session = open::reading(&args.file)?;
    let system = open::system(&session);
    let page = match args.to {
        None => report::put_back_sheet(session.timeline(), system),
        Some(target) => {
            let back = restore::put_back(session.timeline(), target)
                .map_err(|e| Failure::Input(e.to_string()))?;
            report::put_back_page(session.timeline(), &back, system)
        }
    };
    show(&page, args.format, PAGE);
    Ok(0)
}

/// Lists the sessions of a folder.
pub(crate) fn list(args: &ListArgs) -> Outcome {
    let folder = args.folder.clone().unwrap_or_else(|| ".".into());
    let rows = book::scan(&folder).map_err(|e| Failure::of(&folder, &e.into()))?;
    if args.json {
        super::json::print(&super::json::list(&rows));
        return Ok(0);
    }
    show(&book::list_page(&rows), args.format, ROWS);
    Ok(0)
}

/// Holds two sessions of one bow against each other.
pub fn compare(args: &CompareArgs) -> Outcome {
    let (before, after) = (open::reading(&args.before)?, open::reading(&args.after)?);
    let system = open::system(&after);
    let found = book::compare(before.timeline(), after.timeline(), system);
    show(&found.page(), args.format, PAGE);
    Ok(0)
}
