//! `tearbench advise`: what to do next, and why.

use std::path::PathBuf;

use clap::Args;

use super::open;
use super::outcome::{Failure, Outcome, say};
use crate::advice::{self, Analysis, Finding, Verdict};
use crate::bench_plan::BenchPlan;
use crate::range::Today;
use crate::session::Timeline;
use crate::units::System;
use crate::words;

/// Arguments of `advise`.
#[derive(Debug, Args)]
pub(crate) struct AdviseArgs {
    /// Session file
    pub(crate) file: PathBuf,
    /// One JSON object, schema 1
    #[arg(long)]
    pub(crate) json: bool,
    /// End with the verdict: 0 done, 10 shoot, 11 move, 12 probe, 13 refuse, 14 stop
    #[arg(long)]
    pub(crate) exit_code: bool,
}

/// Prints the advice. A refusal is an answer: the exit code is 0, unless the
/// verdict itself is asked for as the exit code.
pub(crate) fn run(args: &AdviseArgs) -> Outcome {
    let session = open::reading(&args.file)?;
    let system = open::system(&session);
    let verdict = if args.json {
        let timeline = session.timeline();
        let advice = advice::advise(timeline, Today::now());
        let said = match advice.verdict {
            // What proof found of the stages is wanted to name the next.
            Verdict::Done => {
                let analysis = advice::analyse(timeline, Today::now());
                words::said_here(timeline, &analysis, system)
            }
            _ => words::said(&advice, system),
        };
        let json =
            serde_json::to_string_pretty(&said).map_err(|e| Failure::Other(e.to_string()))?;
        crate::units::visible_json(&json).lines().for_each(say);
        advice.verdict
    } else {
        let analysis = advice::analyse(session.timeline(), Today::now());
        lines(session.timeline(), system, &analysis)
            .iter()
            .for_each(|line| say(line));
        analysis.advice.verdict
    };
    Ok(if args.exit_code { code(verdict) } else { 0 })
}

/// The exit code of a verdict, for scripts.
pub const fn code(verdict: Verdict) -> u8 {
    match verdict {
        Verdict::Done => 0,
        Verdict::Shoot => 10,
        Verdict::Move => 11,
        Verdict::Probe => 12,
        Verdict::Refuse => 13,
        Verdict::Stop => 14,
    }
}

fn lines(timeline: &Timeline, system: System, analysis: &Analysis) -> Vec<String> {
    let advice = &analysis.advice;
    let mut out = Vec::new();
    let list = |due| format!("{} (before FILE range)", words::range_due(due));
    out.extend(analysis.list_first().map(list));
    let said = words::said_here(timeline, analysis, system);
    out.extend([words::title(advice).to_owned(), said.headline]);
    if advice.verdict == Verdict::Done {
        out.extend(analysis.range_due.map(list));
    }
    if advice.verdict == Verdict::Shoot {
        out.push(format!("  {}", words::BEFORE_EVERY_SHOT));
    }
    if let Some(advised) = &advice.movement {
        let steps = advised.moves();
        let plan = BenchPlan::of(&steps, timeline, analysis);
        let lines = words::bench_plan(&plan, system).into_iter();
        out.extend(lines.map(|line| format!("  {line}")));
    }
    if let Some(probe) = &said.probe {
        out.push(format!("  {}", probe.text));
    }
    // Said above already.
    let range = |found: &&Finding| matches!(found, Finding::RangeListOpen(_));
    let others = advice.findings.iter().filter(|found| !range(found));
    out.extend(others.map(|found| format!("- {}", words::say(found, system))));
    out.push(String::new());
    for (kind, check) in said.checks.each() {
        out.push(format!(
            "{:<11} {:<10} {}",
            words::check_name(kind),
            words::status(check.status),
            check.text
        ));
    }
    out
}
