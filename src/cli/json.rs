//! The JSON of the commands that record or list; `advise` and `report` have
//! their own. The schema of each stands in `outputs.schema.json`.

use serde_json::{Value, json};

use super::open;
use crate::advice;
use crate::book::Row;
use crate::question::RangeItem;
use crate::range::{self, Today};
use crate::session::{Session, Shot};
use crate::{proof, report, setup, words};

/// Version of these objects.
const SCHEMA: u32 = 1;

/// Prints an object so that no text in it can act on a terminal.
pub(crate) fn print(value: &Value) {
    use std::io::Write as _;
    let text = serde_json::to_string_pretty(value).unwrap_or_default();
    let _ = writeln!(std::io::stdout(), "{}", crate::units::visible_json(&text));
}

/// What forbids the next shot, line by line; null where nothing does.
fn stop(session: &Session) -> Option<Vec<String>> {
    let stop = advice::stopped(session.timeline())?;
    Some(words::stop_lines(&stop, open::system(session)))
}

/// The shots that one command recorded.
pub(crate) fn recorded(session: &Session, before: usize, shots: &[Shot], entries: &[u32]) -> Value {
    let one = |(i, (shot, entry)): (usize, (&Shot, &u32))| {
        json!({
            "shot": before + i + 1,
            "entry": entry,
            "right": shot.right,
            "up": shot.up,
            "bare": shot.bare,
            "called_bad": shot.called_bad,
            "arrow": shot.arrow,
            "by": shot.by.id(),
        })
    };
    let shots: Vec<Value> = shots.iter().zip(entries).enumerate().map(one).collect();
    json!({ "schema": SCHEMA, "recorded": shots, "stop": stop(session) })
}

/// The sessions of a folder.
pub(crate) fn list(rows: &[Row]) -> Value {
    let one = |row: &Row| {
        json!({
            "file": row.path.display().to_string(),
            "owner": row.owner,
            "bow": row.bow,
            "latest": row.date.map(|d| d.to_rfc3339()),
            "shots": row.shots,
            "verdict": row.verdict.map(advice::Verdict::id),
            "closed": row.closed,
            "pending": row.pending,
            "problem": row.problem,
        })
    };
    json!({ "schema": SCHEMA, "sessions": rows.iter().map(one).collect::<Vec<_>>() })
}

/// The checklist before paper, and the range safety list.
pub(crate) fn before(session: &Session) -> Value {
    let timeline = session.timeline();
    let all = setup::checklist(timeline);
    let due = range::due(timeline, Today::now());
    let range: Vec<Value> = RangeItem::ALL
        .into_iter()
        .map(|item| json!({ "item": item.id(), "title": words::range_item(item) }))
        .collect();
    json!({
        "schema": SCHEMA,
        "stop": stop(session),
        "range": { "items": range, "due": due.map(words::range_due) },
        "items": report::checklist_json(timeline),
        "next": setup::next_open(&all).map(|s| s.item.id),
    })
}

/// The stages of proof.
pub fn proof(session: &Session) -> Value {
    let timeline = session.timeline();
    let system = open::system(session);
    let analysis = advice::analyse(timeline, Today::now());
    let all = proof::stages(timeline, &analysis);
    json!({
        "schema": SCHEMA,
        "stop": stop(session),
        "paper_ready": proof::ready(&analysis),
        "paper_check_due": proof::paper_check_due(timeline),
        "stages": report::proof_json(timeline, &analysis, system),
        "next": proof::next_stage(&all).map(|s| s.verdict.stage.id()),
    })
}
