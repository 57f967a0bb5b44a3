//! `before`: the checklist before paper.

use std::path::PathBuf;

use clap::Args;

use super::open;
use super::outcome::{Failure, Outcome, say};
use super::page::{PAGE, ROWS, page_format, show};
use crate::question::{RangeItem, Work};
use crate::range::{self, Today};
use crate::report::{self, Format};
use crate::session::{RangeSaid, Shooter, Timeline};
use crate::setup::{self, ItemState};
use crate::step::State;
use crate::units::clean;
use crate::words::{self, setup as said};

/// Arguments of `before`.
#[derive(Debug, Args)]
pub(crate) struct BeforeArgs {
    /// Session file
    pub(crate) file: PathBuf,
    /// range (the range safety list), or an item, as the list names it; the whole list where absent
    pub item: Option<String>,
    /// What was measured, with its unit; or ok, off, skip; how it is done where absent
    pub(crate) value: Vec<String>,
    /// Print the whole list, the range safety list with it, as JSON
    #[arg(long, conflicts_with_all = ["item", "format"])]
    pub(crate) json: bool,
    /// text, markdown or html; of the whole list or one item
    #[arg(long, default_value = "text", value_parser = page_format)]
    pub(crate) format: Format,
}

/// Prints the checklist or one item, or records one.
pub(crate) fn run(args: &BeforeArgs) -> Outcome {
    let Some(item) = &args.item else {
        let session = open::reading(&args.file)?;
        if args.json {
            super::json::print(&super::json::before(&session));
            return Ok(0);
        }
        let page = report::before_page(session.timeline(), Today::now());
        show(&page, args.format, ROWS);
        return Ok(0);
    };
    if item == "range" {
        return range_list(args);
    }
    if let Some(done) = Work::parse(item) {
        return work(args, done);
    }
    if args.value.is_empty() {
        let session = open::reading(&args.file)?;
        if RangeItem::parse(item).is_some_and(|found| !is_measured(found)) {
            return range_list(args);
        }
        // An unknown item is named with the ones there are.
        setup::by_word(session.timeline(), item.as_str(), false).map_err(input)?;
        for s in setup::checklist(session.timeline()) {
            if s.item.id.id() == item {
                let page = report::item_page(&s, session.timeline());
                show(&page, args.format, PAGE);
            }
        }
        return Ok(0);
    }
    let value = args.value.join(" ");
    match (RangeItem::parse(item), value.trim()) {
        (Some(found), "ok") => say_of_range(args, RangeSaid::InOrder(found)),
        (Some(found), "off") => say_of_range(args, RangeSaid::Off(found)),
        (Some(found), value) if !is_measured(found) => Err(Failure::Input(format!(
            "'{}' is no answer to {item}: write ok or off; the range safety list is never skipped",
            clean(value)
        ))),
        (_, value) => record(args, item, value),
    }
}

/// Whether an item of the range safety list has a figure on the checklist.
const fn is_measured(item: RangeItem) -> bool {
    matches!(item, RangeItem::Backstop | RangeItem::Frame)
}

/// The range safety list: shown, or answered with `ok`, by whom it is shot
/// where that is not the owner, or with `other-place`.
fn range_list(args: &BeforeArgs) -> Outcome {
    let words: Vec<&str> = args.value.iter().map(String::as_str).collect();
    let by = |word: &str| Shooter::from_id(word);
    let said = match words.as_slice() {
        [] => {
            let session = open::reading(&args.file)?;
            let page = report::range_page(session.timeline(), Today::now());
            show(&page, args.format, ROWS);
            return Ok(0);
        }
        ["other-place"] => return say_of_range(args, RangeSaid::OtherPlace),
        ["ok"] => Today::now(),
        ["ok", who] if by(who).is_some() => Today {
            by: by(who),
            ..Today::now()
        },
        other => {
            return Err(Failure::Input(format!(
                "'{}' is no answer to the range safety list; read it, then write: before FILE range ok (or ok technician), or range other-place; one item that is not in order: before FILE {} off",
                clean(&other.join(" ")),
                RangeItem::Clear.id()
            )));
        }
    };
    let session = open::reading(&args.file)?;
    let said = range::all_in_order(session.timeline(), said)
        .map_err(|off| Failure::Input(words::range_off(off)))?;
    drop(session);
    say_of_range(args, said)
}

fn say_of_range(args: &BeforeArgs, said: RangeSaid) -> Outcome {
    let mut session = open::writing(&args.file)?;
    let entry = open::record(&mut session, said.event())?;
    say(&format!(
        "recorded (entry {entry}): {}",
        words::range_said(said)
    ));
    if let Some(due) = range::due(session.timeline(), Today::now()) {
        say(&words::range_due(due));
    }
    open::repeat_stop(&session);
    Ok(0)
}

/// Work on the bow that makes items due again: `press-work`, `new-string`, ...
fn work(args: &BeforeArgs, item: Work) -> Outcome {
    if args.value != ["done"] {
        return Err(Failure::Input(format!(
            "once {item} was done, write: before FILE {item} done"
        )));
    }
    let mut session = open::writing(&args.file)?;
    open::record_all(&mut session, setup::work_done(item))?;
    say(&format!(
        "recorded: {item}; the likely tear is forgotten, and what it changes is due again"
    ));
    next(session.timeline(), &setup::checklist(session.timeline()));
    open::repeat_stop(&session);
    Ok(0)
}

fn input(error: impl std::fmt::Display) -> Failure {
    Failure::Input(error.to_string())
}

fn record(args: &BeforeArgs, item: &str, value: &str) -> Outcome {
    let mut session = open::writing(&args.file)?;
    let timeline = session.timeline();
    let event = match value {
        "ok" => setup::by_word(timeline, item, true),
        "off" => setup::by_word(timeline, item, false),
        "skip" | "skipped" => setup::skip(timeline, item),
        measured => setup::record(timeline, item, measured),
    };
    let entry = open::record(&mut session, event.map_err(input)?)?;
    let list = setup::checklist(session.timeline());
    if let Some(s) = list.iter().find(|s| s.item.id.id() == item) {
        say(&format!(
            "recorded (entry {entry}): {} {}",
            item,
            words::step::state(s.state)
        ));
        let card = &session.timeline().card;
        match (&s.note, &s.state) {
            (Some(note), _) => say(&format!(
                "  {}",
                said::judged(note, card, card.paper.system)
            )),
            (None, State::Off) => say(&format!(
                "  {}",
                said::told(s.item.id, card, card.paper.system).if_off
            )),
            _ => {}
        }
    }
    next(session.timeline(), &list);
    open::repeat_stop(&session);
    Ok(0)
}

/// What comes next, after something was recorded.
fn next(timeline: &Timeline, all: &[ItemState]) {
    for line in report::before_next(timeline, all, Today::now()) {
        say(&line);
    }
}
