//! `close`: the end of a job, as on the sheet's screen.

use std::path::PathBuf;

use clap::Args;

use super::open;
use super::outcome::{Failure, Outcome, say};
use crate::advice;
use crate::range::Today;
use crate::report::{Closing, closings};
use crate::{proof, words};

/// Arguments of `close`.
#[derive(Debug, Args)]
pub(crate) struct CloseArgs {
    /// Session file
    pub(crate) file: PathBuf,
    /// done, stopped, or best-with-these-arrows; as the verdict stands where absent
    #[arg(value_parser = parse)]
    pub how: Option<Closing>,
}

fn parse(text: &str) -> Result<Closing, String> {
    Closing::from_id(text).ok_or_else(|| Closing::ALL.map(Closing::id).join(", "))
}

/// Closes the job.
pub(crate) fn run(args: &CloseArgs) -> Outcome {
    let mut session = open::writing(&args.file)?;
    let analysis = advice::analyse(session.timeline(), Today::now());
    let ways = closings(&analysis);
    let how = args.how.unwrap_or(ways[0]);
    if !ways.contains(&how) {
        let open: Vec<&str> = ways.iter().map(|w| w.id()).collect();
        return Err(Failure::Input(format!(
            "the verdict is {}: this job is not closed as {}; write {}",
            words::title(&analysis.advice),
            how.id(),
            open.join(" or ")
        )));
    }
    if session.timeline().closed.as_deref() == Some(how.id()) {
        say(&format!("closed already ({})", how.words()));
        return Ok(0);
    }
    let pending = session.timeline().pending.is_some();
    let stages = proof::stages(session.timeline(), &analysis);
    let proved = words::proof::summary(&proof::summary(&stages));
    let entry = open::record(&mut session, how.event())?;
    say(&format!(
        "closed ({}), entry {entry}; shooting or moving on opens it again",
        how.words()
    ));
    say(&format!("After paper: {proved}."));
    if pending {
        say("A move is pending: it stands so on the sheet.");
    }
    open::repeat_stop(&session);
    Ok(0)
}
