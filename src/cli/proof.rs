//! `proof`: after paper, stage by stage; `next`: what to do after a refusal.

use std::path::PathBuf;

use clap::Args;

use super::open;
use super::outcome::{Failure, FileOnly, Outcome, say};
use crate::advice;
use crate::proof::{self, FaceUnit, Found, Stage, Status, Verdict};
use crate::question::{Question, Refusal, Test};
use crate::range::{self, Today};
use crate::session::{Event, Session};
use crate::trouble;
use crate::words::{self, proof as said};

/// Arguments of `proof`.
#[derive(Debug, Args)]
pub struct ProofArgs {
    /// Session file
    pub file: PathBuf,
    /// Stage, as the list names it; all stages where absent
    pub stage: Option<String>,
    /// What was shot: fletched, bare, field, broadhead, ...; or ok, off (levels), done (creep, torque: the work was done), skip; how it is shot where absent
    pub what: Option<String>,
    /// Distance with its unit
    pub distance: Option<String>,
    /// Where they hit, seen from the shooting line: "3 left 2 high; 1 right; spot"; cm, or inches for a card in inches
    pub impacts: Vec<String>,
    /// Print all stages as JSON
    #[arg(long, conflicts_with = "stage")]
    pub json: bool,
}

fn input(problem: String) -> Failure {
    Failure::Input(problem)
}

/// Prints the stages or one of them, or records a group.
pub fn run(args: &ProofArgs) -> Outcome {
    let Some(name) = &args.stage else {
        let session = open::reading(&args.file)?;
        if args.json {
            super::json::print(&super::json::proof(&session));
        } else {
            list(&session);
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
            about(&session, stage);
            Ok(0)
        }
        Some(what) => record(args, stage, what),
    }
}

fn event(args: &ProofArgs, stage: Stage, what: &str, unit: FaceUnit) -> Result<Event, String> {
    match (what, stage) {
        ("skip" | "skipped", _) => return Ok(proof::skip(stage)),
        ("ok" | "off", Stage::Levels) => {
            return Ok(Event::Answer {
                test: Question::Test(Test::Levels).into(),
                result: what.into(),
                detail: None,
            });
        }
        _ => {}
    }
    let distance = args.distance.as_deref().unwrap_or_default();
    if (distance.is_empty() || args.impacts.is_empty()) && stage != Stage::Levels {
        return Err(format!(
            "the distance and the impacts are wanted: proof FILE {} {} \"18 m\" \"3 left 2 high; spot\"",
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
}

fn record(args: &ProofArgs, stage: Stage, what: &str) -> Outcome {
    let mut session = open::writing(&args.file)?;
    let unit = FaceUnit::of(open::system(&session));
    let events = if what == "done" {
        proof::record_done(stage).map_err(input)?
    } else {
        vec![event(args, stage, what, unit).map_err(input)?]
    };
    let entry = open::record_all(&mut session, events)?;
    say(&format!("recorded (entry {entry})"));
    if advice::stopped(session.timeline()).is_some() {
        open::repeat_stop(&session);
        return Ok(0);
    }
    say_verdict(&session, &assess(&session, stage));
    if proof::paper_check_due(session.timeline()) {
        say(said::PAPER_CHECK);
    }
    Ok(0)
}

fn assess(session: &Session, stage: Stage) -> Verdict {
    let analysis = advice::analyse(session.timeline(), Today::now());
    proof::assess(session.timeline(), &analysis, stage)
}

fn list(session: &Session) {
    let system = open::system(session);
    let timeline = session.timeline();
    let stopped = open::stop_first(session);
    let analysis = advice::analyse(timeline, Today::now());
    let all = proof::stages(timeline, &analysis);
    for s in &all {
        let v = &s.verdict;
        let word = said::state(s);
        // Before it is shot its text is how it is shot.
        let text = match v.status {
            Status::Open | Status::LevelsFirst => said::listed(s),
            _ => said::found(v, &timeline.card, system),
        };
        say(&format!("{word:<8} {:<12} {text}", v.stage.id()));
        if !stopped {
            say_suggestion(v, "                      ");
        }
    }
    // Nothing comes next before the stop is lifted.
    if stopped {
        return;
    }
    say("");
    if let Some(due) = range::due(timeline, Today::now()) {
        say(&format!(
            "{} (before FILE range)",
            crate::words::range_due(due)
        ));
    }
    if !proof::ready(&analysis) {
        say(said::PAPER_FIRST);
    }
    if proof::paper_check_due(timeline) {
        say(said::PAPER_CHECK);
    }
    match proof::next_stage(&all) {
        Some(next) => {
            say("next:");
            how_it_is_shot(session, next.verdict.stage);
        }
        None => say("All stages are proved or left out: tearbench report FILE writes the sheet."),
    }
}

/// One stage; how it is shot only where nothing forbids a shot.
fn about(session: &Session, stage: Stage) {
    if open::stop_first(session) {
        say(&format!(
            "{} ({}): nothing is shot before that.",
            said::title(stage),
            stage.id()
        ));
        return;
    }
    if let Some(due) = range::due(session.timeline(), Today::now()) {
        say(&format!(
            "{} (before FILE range)",
            crate::words::range_due(due)
        ));
    }
    how_it_is_shot(session, stage);
}

fn how_it_is_shot(session: &Session, stage: Stage) {
    let how = said::instructions(stage, &session.timeline().card);
    say(&format!("{} ({})", said::title(stage), stage.id()));
    let verdict = assess(session, stage);
    if verdict.found != Found::NotShot {
        say_verdict(session, &verdict);
    }
    say(&format!("  safety: {}", how.safety));
    if stage != Stage::Levels {
        say(&format!(
            "  before each shot: {}",
            crate::words::BEFORE_EVERY_SHOT
        ));
    }
    say(&format!("  how: {}", how.how));
    say(&format!("  exclude first: {}", how.confound));
    say(&format!("  standing: {}", how.standing));
}

fn say_verdict(session: &Session, v: &Verdict) {
    let card = &session.timeline().card;
    say(&format!(
        "  {}: {}",
        said::status(v.status),
        said::found(v, card, open::system(session))
    ));
    say_suggestion(v, "  ");
}

fn say_suggestion(v: &Verdict, indent: &str) {
    if let Some(more) = v.more_wanted() {
        say(&format!("{indent}{}", said::more(more)));
    }
    if let Some(found) = v.suggestion() {
        say(&format!(
            "{indent}suggested: {}. {}",
            words::step_command(&found.step()),
            said::why(found)
        ));
    }
    if let Some(back) = v.put_back.as_ref().filter(|b| !b.is_there()) {
        say(&format!(
            "{indent}suggested: {}",
            words::put_back_command(back)
        ));
    }
}

/// Arguments of `next`.
#[derive(Debug, Args)]
pub struct NextArgs {
    /// Session file
    #[command(flatten)]
    pub session: FileOnly,
    /// One of the answers it offers; records it
    pub answer: Option<String>,
    /// Anything measured or seen
    #[arg(requires = "answer")]
    pub detail: Vec<String>,
}

/// Prints the step that comes next after a refusal, or answers it.
pub fn next(args: &NextArgs) -> Outcome {
    let file = &args.session.file;
    let Some(answer) = &args.answer else {
        let session = open::reading(file)?;
        say_next(&session);
        return Ok(0);
    };
    let mut session = open::writing(file)?;
    let step = reason(&session)
        .and_then(|r| trouble::next_step(session.timeline(), r))
        .ok_or_else(|| input("nothing is asked now; tearbench advise says what to do".into()))?;
    let detail = (!args.detail.is_empty()).then(|| args.detail.join(" "));
    let events = step
        .events(answer.trim().to_lowercase().as_str(), detail.as_deref())
        .map_err(input)?;
    let card = events.iter().any(|e| matches!(e, Event::Card { .. }));
    let entry = open::record_all(&mut session, events)?;
    if card {
        advice::prior::refresh(&mut session)?;
    }
    say(&format!("recorded (entry {entry}): {} {answer}", step.id));
    say_next(&session);
    Ok(0)
}

fn reason(session: &Session) -> Option<Refusal> {
    let timeline = session.timeline();
    if timeline.open_incident().is_some() {
        return Some(Refusal::Incident);
    }
    Refusal::of(&advice::analyse(timeline, Today::now()))
}

fn say_next(session: &Session) {
    let (timeline, system) = (session.timeline(), open::system(session));
    open::stop_first(session);
    let Some(reason) = reason(session) else {
        let analysis = advice::analyse(timeline, Today::now());
        if let Some(due) = analysis.range_due {
            say(&format!(
                "{} (before FILE range)",
                crate::words::range_due(due)
            ));
        }
        let advice = analysis.advice;
        say(&format!(
            "{}: {}",
            crate::words::title(&advice),
            words::headline(&advice, open::system(session))
        ));
        return;
    };
    say(words::trouble::title(reason));
    let Some(step) = trouble::next_step(timeline, reason) else {
        say(words::trouble::GONE_THROUGH);
        return;
    };
    let shots = match step.shots {
        0 => String::new(),
        n => format!(", {}", words::count(n as usize, "shot")),
    };
    // A step that is shot waits for the range safety list like any shot.
    let list = (step.shots > 0).then(|| range::due(timeline, Today::now()));
    if let Some(due) = list.flatten() {
        say(&format!(
            "{} (before FILE range)",
            crate::words::range_due(due)
        ));
    }
    say(&format!("step {} of {}{shots}", step.place.0, step.place.1));
    say(&format!(
        "  {}",
        words::trouble::text(&step, &timeline.card)
    ));
    for line in step
        .put_back
        .iter()
        .flat_map(|b| words::put_back(b, system))
    {
        say(&format!("  {line}"));
    }
    for answer in &step.answers {
        say(&format!(
            "  - {answer}: {}",
            words::trouble::means(&step, *answer)
        ));
    }
    for offer in &step.offers {
        say(&format!(
            "  {}: {}",
            words::trouble::offer_title(offer),
            words::trouble::offer(offer)
        ));
    }
}
