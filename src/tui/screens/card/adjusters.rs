//! Adjusters on the card: listing one, taking one off.
//!
//! Where a card lists any adjuster, these are all the bow has. So the first
//! one that is added takes those with it that the rest implied until then,
//! and with the last one taken off the implied ones hold again; both are said.
//!
//! ```text
//! +- Card -------------------------------------------------+
//! | Which adjuster has this bow besides?                   |
//! | > yoke twist: sideways, 1/2 twist a step, 3 each way   |
//! |   limb bolts: whole bow, 1/4 turn a step, 2 each way   |
//! +--------------------------------------------------------+
//! ```

use std::collections::BTreeMap;

use ratatui::layout::Rect;

use crate::actions::Action;
use crate::gear::{Adjuster, AdjusterKind, Axis, BowKind, Card, CardText};
use crate::look::Role;
use crate::tui::draw::list;
use crate::tui::draw::paint::{Paint, Row, fit, row, under, wrap};
use crate::tui::prompt::Echo;
use crate::tui::travel::chosen;
use crate::units::System;
use crate::words::pages::adjusters as words;

/// The line that adds one.
pub(crate) const ADD: &str = "adjuster.add one";
/// The line of an adjuster that takes it off, after its name.
pub(crate) const TAKE_OFF: &str = "take it off";

/// Columns for the name of an adjuster.
const NAME: usize = 18;

/// What is to be recorded, said, and where the cursor goes.
pub struct Change {
    /// New values by key.
    pub set: BTreeMap<String, String>,
    /// What is said once it is recorded.
    pub(crate) words: String,
    /// How the key the cursor goes to begins.
    pub(crate) cursor: String,
}

/// The adjusters of the card as it stands, in a few words each.
fn standing(text: &CardText) -> Vec<Adjuster> {
    Card::read(text).map_or_else(|_| Vec::new(), |(card, _)| card.adjusters)
}

/// Their kinds alone.
fn kinds(adjusters: &[Adjuster]) -> Vec<AdjusterKind> {
    adjusters.iter().map(|a| a.kind).collect()
}

/// Lists an adjuster of this kind, with those that were implied where it is
/// the first.
pub(crate) fn add(text: &CardText, kind: AdjusterKind) -> Change {
    let implied = if text.adjusters.is_empty() {
        kinds(&standing(text))
    } else {
        Vec::new()
    };
    let words = words::added(kind, &implied);
    let key = |k: AdjusterKind| (format!("adjuster.{}.name", k.id()), k.id().to_owned());
    Change {
        set: implied.into_iter().chain([kind]).map(key).collect(),
        words,
        cursor: format!("adjuster.{}.", kind.id()),
    }
}

/// Takes an adjuster off.
pub(crate) fn take_off(text: &CardText, name: &str) -> Change {
    let mut left = text.clone();
    let key = format!("adjuster.{name}.name");
    let last = left.set(&key, "").is_ok() && left.adjusters.is_empty();
    let implied = last.then(|| kinds(&standing(&left)));
    Change {
        set: BTreeMap::from([(key, String::new())]),
        words: words::taken_off(&spoken(name), implied.as_deref()),
        cursor: ADD.to_owned(),
    }
}

/// The name of an adjuster as people say it, safe to show.
fn spoken(name: &str) -> String {
    crate::units::clean(name).replace('-', " ")
}

/// The adjuster a key takes off, if it is such a key.
pub(crate) fn taken_off(key: &str) -> Option<&str> {
    key.strip_prefix("adjuster.")?
        .strip_suffix(TAKE_OFF)?
        .strip_suffix('.')
}

/// What Enter does on a line that holds no value.
pub(crate) fn does(key: &str) -> Option<&'static str> {
    match key {
        ADD => Some(words::CHOOSE),
        _ => taken_off(key).map(|_| words::TAKE_OFF),
    }
}

/// What holds where a line of an adjuster is left empty, in words.
pub fn usual(key: &str, text: &CardText, system: System) -> Option<String> {
    let (name, item) = key.strip_prefix("adjuster.")?.rsplit_once('.')?;
    let kind = AdjusterKind::from_id(name)?;
    let adjuster = standing(text).into_iter().find(|a| a.kind == kind)?;
    let words = |v: f64| crate::words::amount(kind, v, system);
    Some(match item {
        "step" => words(adjuster.step),
        "range" => words(adjuster.range),
        "backlash" => words(adjuster.backlash),
        "clicks" => adjuster.clicks.to_string(),
        _ => return None,
    })
}

/// What a line of an adjuster means.
pub(crate) fn explain(key: &str, text: &CardText, system: System) -> Option<String> {
    if let Some((name, item)) = key
        .strip_prefix("adjuster.")
        .and_then(|k| k.rsplit_once('.'))
        && let Some(kind) = AdjusterKind::from_id(name)
        && let Some(means) = words::explained(kind, item, system)
    {
        return Some(means);
    }
    if key == ADD {
        let implied = text.adjusters.is_empty().then(|| kinds(&standing(text)));
        return Some(words::adding(implied.as_deref()));
    }
    taken_off(key).map(|name| words::taking_off(&spoken(name), text.adjusters.len() == 1))
}

/// What a value of an adjuster reads as.
pub(crate) fn echo(text: &CardText, key: &str, value: &str) -> Echo {
    let mut with = text.clone();
    let problems = match with.set(key, value) {
        Ok(()) => Card::read(&with).err().unwrap_or_default(),
        Err(problem) => vec![problem],
    };
    let own = problems.iter().find(|p| p.field.starts_with("adjuster."));
    own.map_or_else(
        || Echo::Reads("is understood".into()),
        |problem| Echo::Wrong {
            at: 0,
            len: 0,
            text: problem.message.clone(),
        },
    )
}

/// The rows that say what the rest implies, where nothing is listed.
pub(crate) fn rows(text: &CardText, system: System, room: usize) -> Vec<Row> {
    if !text.adjusters.is_empty() {
        return vec![row("ADJUSTERS", Role::Title)];
    }
    let mut rows = vec![row("ADJUSTERS, AS THE REST IMPLIES THEM", Role::Title)];
    let implied = standing(text);
    let lines = implied.iter().map(|a| {
        let line = format!("{:<NAME$}  {}", a.kind.spoken(), amounts(a, system));
        row(fit(&line, room), Role::Faint)
    });
    rows.extend(lines);
    rows
}

fn amounts(adjuster: &Adjuster, system: System) -> String {
    let words = |v: f64| crate::words::amount(adjuster.kind, v, system);
    let each = if adjuster.clicks { "a click" } else { "a step" };
    let (step, range) = (words(adjuster.step), words(adjuster.range));
    format!("{step} {each}, {range} each way")
}

const fn axis(axis: Axis) -> &'static str {
    match axis {
        Axis::Sideways => "sideways",
        Axis::Vertical => "up, down",
        Axis::Whole => "whole bow",
    }
}

/// The kinds that can still be listed, one of them chosen.
pub(crate) struct Adding {
    bow: BowKind,
    kinds: Vec<AdjusterKind>,
    at: usize,
}

impl Adding {
    /// To a card as it stands.
    pub(crate) fn to(text: &CardText) -> Self {
        let has = standing(text);
        // On a compound brace height is a check of string and cables, press
        // work, and nothing that is tuned with; old cards that list it load.
        let compound = text
            .get("bow.kind")
            .is_some_and(|kind| kind.trim().eq_ignore_ascii_case("compound"));
        let free = |kind: &AdjusterKind| {
            let listed = has.iter().any(|a| a.kind == *kind);
            let press_only = compound && *kind == AdjusterKind::BraceHeight;
            !listed && !press_only
        };
        let bow = if compound {
            BowKind::Compound
        } else {
            BowKind::Recurve
        };
        Self {
            bow,
            kinds: AdjusterKind::ALL.into_iter().filter(free).collect(),
            at: 0,
        }
    }

    /// The kind the cursor is on.
    pub(crate) fn chosen(&self) -> Option<AdjusterKind> {
        self.kinds.get(self.at).copied()
    }

    /// Moves the cursor.
    pub(crate) fn go(&mut self, action: Action) {
        self.at = chosen(self.at, self.kinds.len(), action);
    }

    /// Draws the list.
    pub fn draw(&self, system: System, paint: &mut Paint<'_>, area: Rect) {
        let head = words::which(self.kinds.is_empty());
        let used = paint.rows(area, &wrap(head, Role::Text, area.width, 0)) + 1;
        let body = under(area, used);
        let mut rows: Vec<(Row, Option<usize>)> = Vec::new();
        for (i, kind) in self.kinds.iter().enumerate() {
            let press = if kind.needs_press(self.bow) {
                ", in a press"
            } else {
                ""
            };
            let usual = amounts(&Adjuster::standard(*kind), system);
            let line = format!("{}: {}, {usual}{press}", kind.spoken(), axis(kind.axis()));
            rows.extend(list::wrapped(&line, Role::Text, i, area.width, 2));
        }
        list::draw(paint, body, &rows, self.at);
    }
}
