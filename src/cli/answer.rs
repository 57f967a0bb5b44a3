//! `answer`, `note`, `restart` and `incident`: entries in words.

use std::path::PathBuf;

use clap::Args;

use super::{Failure, Outcome, open, say};
use crate::session::Event;

/// Arguments of `answer`.
#[derive(Debug, Args)]
pub struct AnswerArgs {
    /// Session file
    pub file: PathBuf,
    /// Which test: contact, arrow, inspection, ...
    pub test: String,
    /// Its result in one word, as the advice lists them
    pub result: String,
    /// Anything measured or seen
    pub detail: Vec<String>,
}

/// Arguments of `note`.
#[derive(Debug, Args)]
pub struct NoteArgs {
    /// Session file
    pub file: PathBuf,
    /// The note
    #[arg(required = true)]
    pub text: Vec<String>,
}

/// Arguments of `restart`.
#[derive(Debug, Args)]
pub struct RestartArgs {
    /// Session file
    pub file: PathBuf,
    /// Setting whose positions hold again; the present one where absent
    pub setting: Option<u32>,
    /// Why
    #[arg(long)]
    pub why: Option<String>,
}

/// Arguments of `incident`.
#[derive(Debug, Args)]
pub struct IncidentArgs {
    /// Session file
    pub file: PathBuf,
    /// What happened
    #[arg(required = true)]
    pub what: Vec<String>,
}

const LONGEST: usize = 4000;

fn bounded(words: &[String], what: &str) -> Result<String, Failure> {
    let text = words.join(" ").trim().to_owned();
    if text.is_empty() {
        return Err(Failure::Input(format!("the {what} is empty")));
    }
    if text.len() > LONGEST {
        return Err(Failure::Input(format!(
            "the {what} is longer than {LONGEST} characters"
        )));
    }
    Ok(text)
}

/// Records an answer.
pub fn run(args: &AnswerArgs) -> Outcome {
    let mut session = open::writing(&args.file)?;
    let test = bounded(std::slice::from_ref(&args.test), "test")?.to_lowercase();
    let result = bounded(std::slice::from_ref(&args.result), "result")?.to_lowercase();
    let detail = if args.detail.is_empty() {
        None
    } else {
        Some(bounded(&args.detail, "detail")?)
    };
    let entry = open::record(
        &mut session,
        Event::Answer {
            test: test.clone(),
            result: result.clone(),
            detail,
        },
    )?;
    say(&format!("recorded (entry {entry}): {test} {result}"));
    Ok(0)
}

/// Records a note.
pub fn note(args: &NoteArgs) -> Outcome {
    let mut session = open::writing(&args.file)?;
    let entry = open::record(
        &mut session,
        Event::Note {
            text: bounded(&args.text, "note")?,
        },
    )?;
    say(&format!("recorded (entry {entry})"));
    Ok(0)
}

/// Records a restart.
pub fn restart(args: &RestartArgs) -> Outcome {
    let mut session = open::writing(&args.file)?;
    let event = Event::Restart {
        setting: args.setting,
        why: args.why.clone(),
    };
    let entry = open::record(&mut session, event)?;
    let now = session.timeline().setting().number;
    say(&format!(
        "recorded (entry {entry}): a fresh start at setting {now}"
    ));
    Ok(0)
}

/// Records an incident; shooting stops until the inspection.
pub fn incident(args: &IncidentArgs) -> Outcome {
    let mut session = open::writing(&args.file)?;
    let entry = open::record(
        &mut session,
        Event::Incident {
            what: bounded(&args.what, "incident")?,
        },
    )?;
    say(&format!(
        "recorded (entry {entry}). Do not shoot until the bow and its arrows are inspected; then: tearbench answer {} inspection clear",
        args.file.display()
    ));
    Ok(0)
}
