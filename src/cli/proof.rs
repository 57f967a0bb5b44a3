//! `proof`: after paper, stage by stage; `next`: what to do after a refusal.

use std::path::PathBuf;

use clap::Args;

use super::open;
use super::outcome::{Failure, FileOnly, Outcome, say};
use super::page::{PAGE, page_format, show};
use crate::advice;
use crate::proof::{self, FaceUnit, Stage, StageVerdict};
use crate::question::{Question, Test};
use crate::range::Today;
use crate::report::{self, Format};
use crate::session::{Event, Session};
use crate::trouble;
use crate::words::proof as said;

/// Arguments of `proof`.
#[derive(Debug, Args)]
pub(crate) struct ProofArgs {
    /// Session file
    pub(crate) file: PathBuf,
    /// Stage, as the list names it; all stages where absent
    pub stage: Option<String>,
    /// What was shot: fletched, bare, field, broadhead, ...; or ok, off (levels), done (creep, torque: the work was done), skip; how it is shot where absent
    pub(crate) what: Option<String>,
    /// Distance with its unit
    pub distance: Option<String>,
    /// Where they hit, seen from the shooting line: "3 left 2 high; 1 right; spot"; cm, or inches for a card in inches
    pub(crate) impacts: Vec<String>,
    /// Print all stages as JSON
    #[arg(long, conflicts_with_all = ["stage", "format"])]
    pub(crate) json: bool,
    /// text, markdown or html; of the whole list or one stage
    #[arg(long, default_value = "text", value_parser = page_format)]
    pub(crate) format: Format,
}

fn input(problem: String) -> Failure {
    Failure::Input(problem)
}

/// Prints the stages or one of them, or records a group.
pub(crate) fn run(args: &ProofArgs) -> Outcome {
    let Some(name) = &args.stage else {
        let session = open::reading(&args.file)?;
        if args.json {
            super::json::print(&super::json::proof(&session));
        } else {
            let (timeline, today) = (session.timeline(), Today::now());
            let analysis = advice::analyse(timeline, today);
            show(
                &report::proof_page(timeline, &analysis, today),
                args.format,
                PAGE,
            );
        }
        return Ok(0);
    };
    let stage = Stage::parse(name).ok_or_else(|| {
        let known: Vec<&str> = Stage::ALL.iter().map(|s| s.id()).collect();
        input(format!(
            "'{}' is no stage of proof; the stages are {}",
            crate::units::clean(name),
            known.join(", ")
        ))
    })?;
    match &args.what {
        None => {
            let session = open::reading(&args.file)?;
            let page = report::stage_page(session.timeline(), stage, Today::now());
            show(&page, args.format, PAGE);
            Ok(0)
        }
        Some(what) => record(args, stage, what),
    }
}

fn event(args: &ProofArgs, stage: Stage, what: &str, unit: FaceUnit) -> Result<Event, String> {
    match (what, stage) {
        ("skip" | "skipped", _) => return Ok(proof::skip(stage)),
        ("ok" | "off", Stage::Levels) => {
            return Ok(Event::answer(Question::Test(Test::Levels), what));
        }
        _ => {}
    }
    let distance = args.distance.as_deref().unwrap_or_default();
    if (distance.is_empty() || args.impacts.is_empty()) && stage != Stage::Levels {
        return Err(format!(
            "give the distance and the hits: proof FILE {} {} \"18 m\" \"3 left 2 high; spot\"",
            stage.id(),
            stage.whats().first().map_or("fletched", |w| w.id())
        ));
    }
    // Two impacts given as two arguments are two impacts.
    proof::record_group(
        stage,
        &what.trim().to_lowercase().as_str().into(),
        distance,
        &args.impacts.join("; "),
        unit,
    )
    .map_err(|e| e.to_string())
}

fn record(args: &ProofArgs, stage: Stage, what: &str) -> Outcome {
    let mut session = open::writing(&args.file)?;
    let unit = FaceUnit::of(open::system(&session));
    let events = if what == "done" {
        proof::record_done(stage).map_err(|e| input(e.to_string()))?
    } else {
        vec![event(args, stage, what, unit).map_err(input)?]
    };
    let entry = open::record_all(&mut session, events)?;
    say(&format!("recorded (entry {entry})"));
    if advice::stopped(session.timeline()).is_some() {
        open::repeat_stop(&session);
        return Ok(0);
    }
    let verdict = assess(&session, stage);
    for line in report::stage_lines(session.timeline(), &verdict) {
        say(&format!("  {line}"));
    }
    if proof::paper_check_due(session.timeline()) {
        say(said::PAPER_CHECK);
    }
    Ok(0)
}

fn assess(session: &Session, stage: Stage) -> StageVerdict {
    let analysis = advice::analyse(session.timeline(), Today::now());
    proof::assess(session.timeline(), &analysis, stage)
}

/// Arguments of `next`.
#[derive(Debug, Args)]
pub(crate) struct NextArgs {
    /// Session file
    #[command(flatten)]
    pub session: FileOnly,
    /// One of the answers it offers; records it
    pub(crate) answer: Option<String>,
    /// Anything measured or seen
    #[arg(requires = "answer")]
    pub(crate) detail: Vec<String>,
    /// text, markdown or html
    #[arg(long, default_value = "text", value_parser = page_format)]
    pub(crate) format: Format,
}

/// Prints the step that comes next after a refusal, or answers it.
pub(crate) fn next(args: &NextArgs) -> Outcome {
    let file = &args.session.file;
    let Some(answer) = &args.answer else {
        let session = open::reading(file)?;
        let page = report::next_page(session.timeline(), Today::now());
        show(&page, args.format, PAGE);
        return Ok(0);
    };
    let mut session = open::writing(file)?;
    let step = report::refused(session.timeline(), Today::now())
        .and_then(|r| trouble::next_step(session.timeline(), r))
        .ok_or_else(|| input("nothing is asked now; tearbench advise says what to do".into()))?;
    let detail = (!args.detail.is_empty()).then(|| args.detail.join(" "));
    let events = step
        .events(answer.trim().to_lowercase().as_str(), detail.as_deref())
        .map_err(|e| input(e.to_string()))?;
    let card = events.iter().any(|e| matches!(e, Event::Card { .. }));
    let entry = open::record_all(&mut session, events)?;
    if card {
        advice::prior::refresh(&mut session)?;
    }
    say(&format!("recorded (entry {entry}): {} {answer}", step.id));
    let page = report::next_page(session.timeline(), Today::now());
    show(&page, args.format, PAGE);
    Ok(0)
}
