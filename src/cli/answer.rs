//! `answer`, `note`, `restart` and `incident`: entries in words.

use std::path::PathBuf;

use clap::Args;

use super::{Failure, Outcome, open, say};
use crate::advice::question;
use crate::remedy;
use crate::session::{Event, InspectPart, ONE_WORD_TEST, Session, Timeline};
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
    known(session.timeline(), &test, &result)?;
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

/// Takes only what is asked somewhere, and only a word that answers it: what
/// the program itself notes in an answer is no answer to type.
///
/// # Errors
/// An unknown test or result, with the known ones.
fn known(timeline: &Timeline, test: &str, result: &str) -> Result<(), Failure> {
    if InspectPart::from_id(test).is_some() || test == ONE_WORD_TEST {
        return Ok(());
    }
    let release = timeline.card.bow.release;
    let mut all = remedy::known_answers(timeline);
    for test in [question::ARROW, question::CONTACT, question::HAND] {
        let mut words = question::answers(test, release).unwrap_or_default();
        if test == question::ARROW {
            // The steps after a refusal ask it with words of their own too.
            let theirs = all.iter().filter(|(id, _)| *id == test);
            words.extend(theirs.flat_map(|(_, words)| words.clone()));
        }
        all.retain(|(id, _)| *id != test);
        all.insert(0, (test, words));
    }
    let Some((_, words)) = all.iter().find(|(id, _)| *id == test) else {
        let ids: Vec<&str> = all.iter().map(|(id, _)| *id).collect();
        return Err(Failure::Input(format!(
            "there is no test {}; known are {}, and after an incident its parts",
            clean(test),
            ids.join(", ")
        )));
    };
    if words.contains(&result) {
        return Ok(());
    }
    Err(Failure::Input(format!(
        "{test} is answered {}, not {}",
        words.join(", "),
        clean(result)
    )))
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
