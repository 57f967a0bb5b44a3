//! `tearbench move`: record a move that was made.

use std::path::PathBuf;

use clap::Args;

use super::open;
use super::outcome::{Failure, Outcome, say};
use crate::advice::advise;
use crate::gear::{Step, parse_moves};
use crate::session::{Event, Session};
use crate::words;

/// Arguments of `move`.
#[derive(Debug, Args)]
pub(crate) struct MoveArgs {
    /// Session file
    pub(crate) file: PathBuf,
    /// The move as people say it; several with commas; `advised` for the move
    /// that `advise` shows now
    #[arg(required = true)]
    pub(crate) made: Vec<String>,
    /// The move was made before the shot of this entry and not recorded then:
    /// place it there; what that changes is printed
    #[arg(long, value_name = "ENTRY")]
    pub(crate) before: Option<u32>,
}

/// Records the move; it settles a pending one.
pub(crate) fn run(args: &MoveArgs) -> Outcome {
    let mut session = open::writing(&args.file)?;
    let system = open::system(&session);
    let typed = args.made.join(" ");
    if let Some(before) = args.before {
        return place(&mut session, &typed, before);
    }
    let made = match typed.trim() {
        "advised" => advised(&session)?,
        own => own.to_owned(),
    };
    let timeline = session.timeline();
    let now = timeline.now;
    let steps = parse_moves(&made, &timeline.card, &now, system)
        .map_err(|e| Failure::Input(e.to_string()))?;
    let confirms = timeline.pending.as_ref().map(|p| p.entry);
    let lines: Vec<String> = steps
        .iter()
        .map(|s| words::step_bench(s, &timeline.card, &now, system))
        .collect();
    let beyond: Vec<String> = steps
        .iter()
        .filter_map(|s| {
            let adjuster = timeline.card.adjuster(s.adjuster)?;
            let to = now.get(s.adjuster) + s.amount;
            (to.abs() > adjuster.range + 1e-9).then(|| {
                format!(
                    "{} now stands {} from the start, beyond its range of {}",
                    s.adjuster.id(),
                    words::amount(s.adjuster, to, system),
                    words::amount(s.adjuster, adjuster.range, system)
                )
            })
        })
        .collect();
    let said = Some(made.chars().take(200).collect());
    let entry = open::record(
        &mut session,
        Event::Move {
            steps,
            said,
            confirms,
        },
    )?;
    for line in lines {
        say(&format!("recorded (entry {entry}): {line}"));
    }
    for warning in beyond {
        super::outcome::warn(&format!("warning: {warning}"));
    }
    say(&format!(
        "now at setting {}",
        session.timeline().setting().number
    ));
    open::repeat_stop(&session);
    Ok(0)
}

/// Places a forgotten move before a shot that is recorded already.
fn place(session: &mut Session, typed: &str, before: u32) -> Outcome {
    let system = open::system(session);
    let then = session.before_shot(before)?;
    let steps = parse_moves(typed, &then.card, &then.now, system)
        .map_err(|e| Failure::Input(e.to_string()))?;
    let said = Some(typed.chars().take(200).collect());
    let event = session.placed_move(before, steps.clone(), said)?;
    let after = session.with(event.clone())?;
    let today = crate::range::Today::now();
    let (now, later) = (advise(session.timeline(), today), advise(&after, today));
    let told = words::placed(
        &steps,
        before,
        (session.timeline(), &now),
        (&after, &later),
        system,
    );
    let entry = open::record(session, event)?;
    let mut told = told.into_iter();
    let first = told.next().unwrap_or_default();
    say(&format!("recorded (entry {entry}): {first}"));
    told.for_each(|line| say(&line));
    open::repeat_stop(session);
    Ok(0)
}

/// The move that is advised now, as it is typed.
///
/// # Errors
/// Where the verdict is no move: nothing is recorded then.
fn advised(session: &Session) -> Result<String, Failure> {
    let advice = advise(session.timeline(), crate::range::Today::now());
    let Some(movement) = advice.movement else {
        let headline = words::headline(&advice, open::system(session));
        let title = words::title(&advice);
        return Err(Failure::Other(format!(
            "no move is advised: {title}. {headline}. Not recorded"
        )));
    };
    let steps: Vec<String> = movement.moves().iter().map(Step::say).collect();
    Ok(steps.join(", "))
}
