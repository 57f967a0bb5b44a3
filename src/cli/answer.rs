//! `answer`, `note`, `restart` and `incident`: entries in words.

use std::path::PathBuf;

use clap::Args;

use super::{Failure, Outcome, open, say};
use crate::advice::question;
use crate::remedy;
use crate::session::{Event, InspectPart, Session};
use crate::units::clean;

/// Arguments of `answer`.
#[derive(Debug, Args)]
pub struct AnswerArgs {
    /// Session file
    pub file: PathBuf,
    /// Which test: contact, arrow, a part after an incident (inspect-limbs), ...
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

fn bounded(words: &[String], what: &str) -> Result<String, Failure> {
    let text = words.join(" ").trim().to_owned();
    if text.is_empty() {
        return Err(Failure::Input(format!("the {what} is empty")));
    }
    Ok(text)
}

/// Records an answer.
pub fn run(args: &AnswerArgs) -> Outcome {
    let mut session = open::writing(&args.file)?;
    let test = bounded(std::slice::from_ref(&args.test), "test")?.to_lowercase();
    let result = bounded(std::slice::from_ref(&args.result), "result")?.to_lowercase();
    let release = session.timeline().card.bow.release;
    if let Some(known) = question::answers(&test, release)
        && !known.contains(&result.as_str())
    {
        return Err(Failure::Input(format!(
            "{test} is answered {}, not {}",
            known.join(", "),
            clean(&result)
        )));
    }
    let detail = if args.detail.is_empty() {
        None
    } else {
        Some(bounded(&args.detail, "detail")?)
    };
    remedy::check_answer(session.timeline(), &test, &result).map_err(Failure::Input)?;
    let entry = open::record(
        &mut session,
        Event::Answer {
            test: test.clone(),
            result: result.clone(),
            detail,
        },
    )?;
    say(&format!("recorded (entry {entry}): {test} {result}"));
    if let Some(part) = InspectPart::from_id(&test) {
        after_part(&session, part, &result);
    }
    open::repeat_stop(&session);
    Ok(0)
}

/// What an answered part leaves to be done.
fn after_part(session: &Session, part: InspectPart, result: &str) {
    if result == InspectPart::BAD {
        say("Do not draw or shoot it. Once it is put right, look at it again and answer sound.");
    }
    match remedy::still_open(session.timeline()) {
        Some(open) => say(&format!("Still open: {open}.")),
        None => say(&format!(
            "Every part was looked at, {} last. Go through the range safety list (before FILE range); first shots close in, with an arrow that was not part of it.",
            part.name(session.timeline().card.bow.kind)
        )),
    }
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
    open::repeat_stop(&session);
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
    open::repeat_stop(&session);
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
        "recorded (entry {entry}). Look at every part, one at a time: tearbench next {}",
        args.file.display()
    ));
    open::repeat_stop(&session);
    Ok(0)
}
