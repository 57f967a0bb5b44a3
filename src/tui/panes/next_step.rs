//! The next-step pane: the verdict as a band, the order large under it, what
//! to expect, why, and the four checks.
//!
//! ```text
//! |# MOVE      m  take it #|  the band: it never scrolls away
//! |                        |
//! | Rest OUT 2.25 mm       |  the order, for a bow lying on the bench;
//! | 9 clicks clockwise     |  in block figures where there are rows
//! | left as you shoot      |
//! |                        |
//! | next  2 left, 2 high   |  what the next shot should be
//! | 2 of 3 within 6 mm     |
//! | within 6 mm  now 9 %   |
//! |                        |
//! | why ...                |  one reason, then the rest dim; scrolls
//! |                        |
//! | ok safety   ok spine   |  the four checks: in full where there is room
//! | ok scatter  ~ response |
//! ```

use ratatui::layout::Rect;

use crate::actions::Action;
use crate::advice::{Advice, Finding, Verdict};
use crate::checks::consistency::Repeats;
use crate::checks::{CheckKind, Status};
use crate::gear::Step;
use crate::look::Role;
use crate::tear::Tear;
use crate::tui::draw::blocks;
use crate::tui::draw::paint::{Paint, Row, flow, row, under, wrap};
use crate::tui::model::Model;
use crate::tui::panes::verdict::Band;
use crate::tui::wording;
use crate::words;
use crate::words::order::{self, Order};

/// A pane this wide (100 columns of screen) says everything.
const ROOMY: u16 = 32;
/// A pane this high has the order in block figures.
const BLOCKS: u16 = 22;
/// Columns of a figure's name.
const NAME: usize = 12;
/// Columns of a check in a row of two.
const CHECK: usize = 12;
/// Columns of a check before its figure where they stand close.
const CHECK_NEAR: usize = 9;
/// From this wide on they need not.
const SPARE: u16 = 36;

/// The role of a check's word.
pub(crate) const fn status_role(status: Status) -> Role {
    match status {
        Status::Pass => Role::Good,
        Status::Borderline => Role::Warn,
        Status::Pending => Role::Faint,
        Status::Fail => Role::Bad,
    }
}

/// Everything the pane says, in words only.
pub(in crate::tui) fn said(model: &Model) -> Vec<Row> {
    let band = Band::of(model);
    let title = match band.then.as_str() {
        "" => band.title,
        then => format!("{}: {then}", band.title),
    };
    let mut rows = vec![row(title, Role::Strong)];
    rows.extend(orders(model).into_iter().flat_map(|o| spoken(&o, u16::MAX)));
    rows.extend(told(model, u16::MAX));
    rows.extend(body(model, u16::MAX, true));
    let beside = words::safety_beside_the_list(&model.analysis.advice.checks.safety);
    for (kind, check) in model.said().checks.each() {
        let name = words::check_name(kind);
        let text = match kind {
            CheckKind::Safety => &beside,
            _ => &check.text,
        };
        let text = format!("{name} {}: {text}", words::status(check.status));
        rows.push(row(text, Role::Text));
    }
    rows
}

/// Draws the pane.
pub fn draw(model: &Model, paint: &mut Paint<'_>, area: Rect) {
    let roomy = area.width >= ROOMY;
    let used = Band::of(model).draw(paint, area);
    let inside = Rect::new(
        area.x + 1,
        area.y,
        area.width.saturating_sub(2),
        area.height,
    );
    let mut rest = under(inside, used);
    if rest.height >= 10 {
        rest = under(rest, 1);
    }
    let mut rows = told(model, inside.width);
    rows.extend(body(model, inside.width, roomy));
    // In full only where nothing else has to give way.
    let order = orders(model).len() * 7;
    let spare = usize::from(rest.height).saturating_sub(rows.len() + order);
    let full = [Full::Sentence, Full::Figure].into_iter();
    let mut checks = full
        .filter(|_| roomy)
        .map(|full| checks(model, inside.width, full))
        .find(|rows| rows.len() <= spare.max(usize::from(rest.height / 4)))
        .unwrap_or_else(|| self::checks(model, inside.width, Full::Word));
    let foot = checks.len() as u16;
    if rest.height >= foot + 4 {
        let at = Rect::new(inside.x, area.bottom() - foot, inside.width, foot);
        paint.rows(at, &checks);
        rest.height -= foot;
        checks.clear();
    }
    let large = rest.height >= BLOCKS.saturating_sub(foot);
    rest = under(rest, order_rows(model, paint, rest, large));
    rows.extend(checks);
    while rows.first().is_some_and(Vec::is_empty) {
        rows.remove(0);
    }
    paint.scrolled(rest, &rows, model.scroll);
}

/// The orders to be met first: those of a move that waits at the bench, else
/// those of the one that is advised.
fn orders(model: &Model) -> Vec<Order> {
    let timeline = model.timeline();
    let advice = &model.analysis.advice;
    let of = |step: &Step| Order::of(step, &timeline.card, model.system);
    if advice.verdict == Verdict::Stop {
        return Vec::new();
    }
    match (&timeline.pending, &advice.movement) {
        (Some(pending), _) => pending.steps.iter().map(of).collect(),
        (None, Some(advised)) => advised.moves().iter().map(of).collect(),
        (None, None) => Vec::new(),
    }
}

/// One order in rows of text.
fn spoken(order: &Order, width: u16) -> Vec<Row> {
    let mut rows = wrap(&order.line(), Role::Strong, width, 2);
    if let Some(turned) = &order.turned {
        rows.extend(wrap(turned, Role::Text, width, 2));
    }
    if let Some(side) = &order.side {
        rows.extend(wrap(side, Role::Faint, width, 2));
    }
    rows
}

/// Draws the orders; the rows they took, an empty one at the end.
fn order_rows(model: &Model, paint: &mut Paint<'_>, area: Rect, large: bool) -> u16 {
    let mut rest = area;
    let all = orders(model);
    for order in &all {
        let figure = format!("{} {}", order.way, order.size);
        let fits = blocks::wide(&figure).is_some_and(|w| w <= area.width);
        let rows = if large && fits && all.len() == 1 {
            blocks::draw(paint, (rest.x, rest.y), &figure, Role::Strong);
            rest = under(rest, blocks::high(paint.glyphs));
            let noun = order.noun.to_lowercase();
            let unit = order.unit_alone();
            let said = match &order.turned {
                Some(turned) => format!("{unit}, {noun}: {turned}"),
                None => format!("{unit}, {noun}"),
            };
            let mut rows = wrap(&said, Role::Strong, area.width, 2);
            if let Some(side) = &order.side {
                rows.extend(wrap(side, Role::Faint, area.width, 2));
            }
            rows
        } else {
            spoken(order, area.width)
        };
        rest = under(rest, paint.rows(rest, &rows));
    }
    if !all.is_empty() && rest.height > 6 {
        rest = under(rest, 1);
    }
    area.height - rest.height
}

/// What stands under the band where there is no order: the headline, what is
/// due, the test to do, the keys of a move at the bench.
fn told(model: &Model, width: u16) -> Vec<Row> {
    let advice = &model.analysis.advice;
    let mut rows = Vec::new();
    let due = model.analysis.list_first();
    if let Some(due) = due {
        let why = format!("{}.", words::capital(&words::range_due_now(due)));
        rows.extend(wrap(&why, Role::Text, width, 0));
        rows.push(Row::new());
    }
    let pending = model.timeline().pending.is_some() && advice.verdict != Verdict::Stop;
    if pending {
        let keys = words::pages::panes::pending(
            &model.key(Action::AsShown),
            &model.key(Action::OwnMove),
            &model.key(Action::NotMade),
            &model.key(Action::TakeMove),
        );
        rows.extend(wrap(&keys, Role::Text, width, 0));
        rows.push(Row::new());
    }
    // Where something else stands in the band, the verdict follows it; the
    // move at the bench is the one advised and is not said twice.
    if (due.is_some() || pending) && advice.verdict != Verdict::Move {
        rows.extend(wrap(words::title(advice), Role::Strong, width, 0));
    }
    if advice.movement.is_none() {
        let headline = words::headline_here(model.timeline(), &model.analysis, model.system);
        rows.extend(wrap(&headline, Role::Strong, width, 0));
    }
    // A finished paper tune stands first; the list is for what is shot after it.
    if let (Verdict::Done, Some(due)) = (advice.verdict, model.analysis.range_due) {
        rows.extend(wrap(&crate::words::range_due(due), Role::Warn, width, 0));
    }
    if advice.verdict == Verdict::Shoot {
        rows.extend(wrap(crate::words::BEFORE_EVERY_SHOT, Role::Text, width, 0));
    }
    if let Some(probe) = &advice.probe {
        // What each answer means stands on the page that takes it.
        let text = match width {
            u16::MAX => words::ask(&probe.ask, &probe.answers, model.system),
            _ => words::to_do(&probe.ask, model.system),
        };
        rows.extend(wrap(&text, Role::Text, width, 0));
    }
    rows
}

/// What to expect, the chance, and why: in the order of their weight.
fn body(model: &Model, width: u16, all: bool) -> Vec<Row> {
    let advice = &model.analysis.advice;
    let system = model.system;
    let mut rows = Vec::new();
    if let Some(advised) = &advice.movement {
        let e = advised.expected_tear_mm;
        let tear = order::tear(Tear::new(e.right, e.up), system);
        let name = if width < ROOMY { "next" } else { "next shot" };
        rows.push(Row::new());
        rows.extend(named(name, &[tear], width));
        rows.extend(wrap(&order::stray(e.sd, system), Role::Faint, width, 0));
    }
    // Where the reason gives the same figure, it is said once.
    let refused = matches!(advice.verdict, Verdict::Refuse | Verdict::Stop);
    let chance = advice.estimate.probability_within_tolerance;
    if let Some(chance) = chance.filter(|_| !refused && !says_chance(advice)) {
        let tolerance = model.timeline().card.paper.tolerance;
        let name = order::within(tolerance, system);
        if advice.movement.is_none() {
            rows.push(Row::new());
        }
        let odds = words::percent(chance);
        rows.extend(named(&name, &[order::now(chance), odds], width));
    }
    if model.analysis.judged_by_technician {
        let text = words::pages::panes::OWNER_SHOOTS;
        rows.extend(wrap(text, Role::Warn, width, 0));
    }
    rows.extend(reasons(model, width, all));
    // A figure that is unusual may be a slip of the pen: what rests on it is
    // seen with it.
    for found in crate::gear::unusual(&model.timeline().card_text) {
        rows.push(Row::new());
        rows.extend(wrap(&words::unusual(&found), Role::Warn, width, 0));
    }
    let gains = advice.movement.iter().flat_map(|m| &m.steps);
    for (i, step) in gains.enumerate() {
        if let Some(gain) = advice.estimate.gain.get(&step.adjuster()) {
            if i == 0 {
                rows.push(Row::new());
            }
            let text = wording::gain(step.adjuster(), gain, system);
            rows.extend(wrap(&text, Role::Faint, width, 0));
        }
    }
    rows
}

/// A figure after its quieter name: the first of its forms that fits beside it.
fn named(name: &str, forms: &[String], width: u16) -> Vec<Row> {
    let head = if width < ROOMY || width == u16::MAX {
        format!("{name} ")
    } else {
        format!("{name:<NAME$} ")
    };
    let fits = |text: &&String| head.len() + text.chars().count() <= usize::from(width);
    match forms.iter().find(fits) {
        Some(text) => vec![vec![(head, Role::Faint), (text.clone(), Role::Text)]],
        None => {
            let text = forms.last().map_or("", String::as_str);
            flow(&[(&head, Role::Faint), (text, Role::Text)], width, 2)
        }
    }
}

/// Whether the first reason is the chance that it is within tolerance now.
fn says_chance(advice: &Advice) -> bool {
    let first = advice.findings.iter().find(|found| is_news(found, advice));
    matches!(first, Some(Finding::NotSureYet(..) | Finding::Within(_)))
}

/// What is said nowhere else on the pane: the range safety list stands above
/// the verdict, and what 1 mm does to the tear beside the move.
fn is_news(found: &Finding, advice: &Advice) -> bool {
    match found {
        // The headline asks for the same shot.
        Finding::RangeListOpen(_) | Finding::RepeatFirst(Repeats::None(_)) => false,
        Finding::Correct(_) => advice.movement.is_none(),
        _ => true,
    }
}

fn reasons(model: &Model, width: u16, all: bool) -> Vec<Row> {
    let advice = &model.analysis.advice;
    let mut rows = Vec::new();
    let findings = advice.findings.iter();
    let news: Vec<_> = findings.filter(|found| is_news(found, advice)).collect();
    let shown = if all { news.len() } else { 1 };
    for (i, found) in news.iter().take(shown).enumerate() {
        rows.push(Row::new());
        let role = if i == 0 { Role::Text } else { Role::Faint };
        let text = words::say(found, model.system);
        rows.extend(wrap(&text, role, width, 0));
    }
    if news.len() > shown {
        rows.push(row(
            format!("more: {}", model.key(Action::Why)),
            Role::Faint,
        ));
    }
    rows
}

/// How much of the checks is said.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Full {
    /// A word each, two a row.
    Word,
    /// Its figure against its limit.
    Figure,
    /// What it says.
    Sentence,
}

/// The checks, in as many words as there is room for.
fn checks(model: &Model, width: u16, full: Full) -> Vec<Row> {
    let mut rows = vec![Row::new()];
    let said = model.said();
    let each = said.checks.each();
    let checks = &model.analysis.advice.checks;
    if full == Full::Figure {
        for (kind, check) in each {
            let word = words::check_word(kind);
            let mark = order::mark(check.status);
            let gap = 3 - mark.len();
            let figure = checks.figure(kind);
            let head = if width < SPARE { CHECK_NEAR } else { CHECK };
            let room = usize::from(width).saturating_sub(3 + head);
            let figure = figure.map_or(String::new(), |f| order::figure(&f, model.system, room));
            rows.push(vec![
                (mark.into(), status_role(check.status)),
                (format!("{:gap$}{word:<head$}", ""), Role::Text),
                (figure, Role::Faint),
            ]);
        }
        return rows;
    }
    if full == Full::Sentence {
        let beside = words::safety_beside_the_list(&checks.safety);
        for (kind, check) in each {
            let head = format!("{}: ", words::check_name(kind));
            // The range safety list stands above where it is due.
            let text = match kind {
                CheckKind::Safety => &beside,
                _ => &check.text,
            };
            let spans = [(head.as_str(), Role::Text), (text, Role::Faint)];
            let text = flow(&spans, width.saturating_sub(3), 0);
            for (i, mut line) in text.into_iter().enumerate() {
                let mark = if i == 0 {
                    order::mark(check.status)
                } else {
                    ""
                };
                line.insert(0, (" ".repeat(3 - mark.len()), Role::Text));
                line.insert(0, (mark.into(), status_role(check.status)));
                rows.push(line);
            }
        }
        return rows;
    }
    let beside = usize::from(width) >= 2 * CHECK;
    for (i, (kind, check)) in each.into_iter().enumerate() {
        let word = words::check_word(kind);
        let mark = order::mark(check.status);
        let role = status_role(check.status);
        let pad = if beside && i % 2 == 0 { CHECK - 3 } else { 0 };
        let gap = 3 - mark.len();
        let spans = [
            (mark.to_owned(), role),
            (format!("{:gap$}{word:<pad$}", ""), Role::Text),
        ];
        match rows.last_mut().filter(|_| beside && i % 2 == 1) {
            Some(row) => row.extend(spans),
            None => rows.push(spans.to_vec()),
        }
    }
    rows
}
