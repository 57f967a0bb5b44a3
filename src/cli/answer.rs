//! `answer`, `note`, `restart` and `incident`: entries in words.

use std::path::PathBuf;

use clap::Args;

use super::open;
use super::outcome::{Failure, Outcome, say};
use crate::checks::safety;
use crate::question::{Answer, InspectPart, Question, Said, Test};
use crate::session::{Event, Session, Timeline};
use crate::trouble;
use crate::units::clean;
use crate::words;

/// Arguments of `answer`.
#[derive(Debug, Args)]
pub(crate) struct AnswerArgs {
    /// Session file
    pub(crate) file: PathBuf,
    /// Which test: contact, arrow, a part after an incident (inspect-limbs), ...
    pub test: String,
    /// Its result in one word, as the advice lists them
    pub(crate) result: String,
    /// Anything measured or seen
    pub(crate) detail: Vec<String>,
}

/// Arguments of `note`.
#[derive(Debug, Args)]
pub(crate) struct NoteArgs {
    /// Session file
    pub(crate) file: PathBuf,
    /// The note
    #[arg(required = true)]
    pub text: Vec<String>,
}

/// Arguments of `restart`.
#[derive(Debug, Args)]
pub(crate) struct RestartArgs {
    /// Session file
    pub(crate) file: PathBuf,
    /// Setting whose positions hold again; the current one where absent
    pub setting: Option<u32>,
    /// Why
    #[arg(long)]
    pub(crate) why: Option<String>,
}

/// Arguments of `incident`.
#[derive(Debug, Args)]
pub(crate) struct IncidentArgs {
    /// Session file
    pub(crate) file: PathBuf,
    /// What happened
    #[arg(required = true)]
    pub(crate) what: Vec<String>,
}

fn bounded(words: &[String], what: &str) -> Result<String, Failure> {
    let text = words.join(" ").trim().to_owned();
    if text.is_empty() {
        return Err(Failure::Input(format!("the {what} is empty")));
    }
    Ok(text)
}

/// Records an answer.
pub(crate) fn run(args: &AnswerArgs) -> Outcome {
    let mut session = open::writing(&args.file)?;
    let test = bounded(std::slice::from_ref(&args.test), "test")?.to_lowercase();
    let result = bounded(std::slice::from_ref(&args.result), "result")?.to_lowercase();
    let result = Said::from(result.as_str());
    let test = known(session.timeline(), &test, &result)?;
    let detail = if args.detail.is_empty() {
        None
    } else {
        Some(bounded(&args.detail, "detail")?)
    };
    trouble::check_answer(session.timeline(), test, &result)
        .map_err(|refused| Failure::Input(refused.to_string()))?;
    say_recorded(&mut session, test, result, detail)?;
    open::repeat_stop(&session);
    Ok(0)
}

/// Takes only what is asked somewhere, and only a word that answers it: what
/// the program itself notes in an answer is no answer to type.
///
/// # Errors
/// An unknown test or result, with the known ones.
fn known(timeline: &Timeline, typed: &str, result: &Said<Answer>) -> Result<Question, Failure> {
    let asked = Question::parse(typed);
    if let Some(test @ (Question::Part(_) | Question::Inspection)) = asked {
        return Ok(test);
    }
    let release = timeline.card.bow.release;
    let mut all = trouble::known_answers(timeline);
    for test in [Test::Arrow, Test::Contact, Test::Hand] {
        all.retain(|(id, _)| *id != Question::Test(test));
        all.insert(0, (test.into(), test.answers(release)));
    }
    let Some((test, words)) = all.iter().find(|(id, _)| Some(*id) == asked) else {
        let ids: Vec<String> = all.iter().map(|(id, _)| id.to_string()).collect();
        return Err(Failure::Input(format!(
            "there is no test {}; known are {}, and after an incident its parts",
            clean(typed),
            ids.join(", ")
        )));
    };
    if words.iter().any(|word| result == word) {
        return Ok(*test);
    }
    let words: Vec<&str> = words.iter().map(|word| word.id()).collect();
    Err(Failure::Input(format!(
        "{test} is answered {}, not {}",
        words.join(", "),
        clean(&result.word())
    )))
}

fn say_recorded(
    session: &mut Session,
    test: Question,
    result: Said<Answer>,
    detail: Option<String>,
) -> Result<(), Failure> {
    let words = format!("{test} {result}");
    let bad = result == InspectPart::BAD;
    let event = Event::Answer {
        test: test.into(),
        result,
        detail,
    };
    let entry = open::record(session, event)?;
    say(&format!("recorded (entry {entry}): {words}"));
    if let Question::Part(part) = test {
        after_part(session, part, bad);
    }
    Ok(())
}

/// What an answered part leaves to be done.
fn after_part(session: &Session, part: InspectPart, bad: bool) {
    if bad {
        say("Do not draw or shoot it. Once it is put right, look at it again and answer sound.");
    }
    match words::trouble::still_open(session.timeline()) {
        Some(open) => say(&format!("Still open: {open}.")),
        None => say(&format!(
            "Every part was looked at, {} last. Go through the range safety list (before FILE range); first shots close in, with an arrow that was not part of it.",
            words::trouble::part(part, session.timeline().card.bow.kind)
        )),
    }
}

/// Records a note.
pub(crate) fn note(args: &NoteArgs) -> Outcome {
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
pub(crate) fn restart(args: &RestartArgs) -> Outcome {
    let mut session = open::writing(&args.file)?;
    let stopped = safety::dangers(session.timeline());
    let event = Event::Restart {
        setting: args.setting,
        why: args.why.clone(),
    };
    let entry = open::record(&mut session, event)?;
    let now = session.timeline().setting().number;
    say(&format!(
        "recorded (entry {entry}): started over at setting {now}"
    ));
    for was in safety::gone(&stopped, session.timeline()) {
        say(&words::lifted_by_setting(&was));
    }
    open::repeat_stop(&session);
    Ok(0)
}

/// Records an incident; shooting stops until the inspection.
pub(crate) fn incident(args: &IncidentArgs) -> Outcome {
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
