//! The next-step pane: the verdict, the move as the bench wants it, what to
//! expect, why, and the four checks.
//!
//! ```text
//! | MOVE                |  verdict
//! | Rest OUT 1.50 mm    |  headline, for a bow lying on the bench
//! | (6 clicks), LEFT    |
//! | Expect 1 mm right.. |  what the next shot should be
//! | Chance it is ...    |
//! | why ...             |  reasons: one below 100 columns, else all
//! |                     |
//! | safety ok           |  the checks: one word each below 100 columns
//! | ...                 |
//! ```

use ratatui::layout::Rect;

use super::paint::{Paint, Row, flow, row, wrap};
use crate::actions::Action;
use crate::advice::{Advice, RANGE_LIST_OPEN, Verdict};
use crate::checks::Status;
use crate::range;
use crate::tui::state::App;
use crate::tui::theme::Role;
use crate::tui::wording;
use crate::words;

/// A pane this wide (100 columns of screen) says everything.
const ROOMY: u16 = 32;

/// The role of a verdict.
pub const fn verdict_role(verdict: Verdict) -> Role {
    match verdict {
        Verdict::Done => Role::Good,
        Verdict::Move | Verdict::Probe | Verdict::Shoot => Role::Strong,
        Verdict::Refuse => Role::Warn,
        Verdict::Stop => Role::Bad,
    }
}

/// The role of a check's word.
pub const fn status_role(status: Status) -> Role {
    match status {
        Status::Pass => Role::Good,
        Status::Borderline => Role::Warn,
        Status::Pending => Role::Faint,
        Status::Fail => Role::Bad,
    }
}

/// Everything the pane says, in words only.
pub(in crate::tui) fn said(app: &App) -> Vec<Row> {
    let mut rows = head(app, u16::MAX);
    rows.extend(reasons(app, u16::MAX, true));
    rows.extend(checks(app, u16::MAX, true));
    rows
}

/// Draws the pane.
pub fn draw(app: &App, paint: &mut Paint<'_>, area: Rect) {
    let roomy = area.width >= ROOMY;
    let inside = Rect::new(
        area.x + 1,
        area.y,
        area.width.saturating_sub(2),
        area.height,
    );
    let mut checks = checks(app, inside.width, roomy);
    let head = head(app, inside.width);
    // Checks in full only where they leave half of the pane to the rest.
    if checks.len() > usize::from(area.height / 2) {
        checks = self::checks(app, inside.width, false);
    }
    let foot = checks.len() as u16;
    let mut rows = head;
    let why = reasons(app, inside.width, roomy);
    if area.height < foot + 4 {
        rows.extend(why);
        rows.extend(checks);
        return paint.scrolled(inside, &rows, app.scroll);
    }
    let body = Rect::new(inside.x, inside.y, inside.width, area.height - foot);
    rows.extend(why);
    paint.scrolled(body, &rows, app.scroll);
    let at = Rect::new(inside.x, area.bottom() - foot, inside.width, foot);
    paint.rows(at, &checks);
}

/// Verdict, move, expectation: what must be read first.
fn head(app: &App, width: u16) -> Vec<Row> {
    let advice = &app.analysis.advice;
    let system = app.system;
    let timeline = app.timeline();
    let mut rows = range_first(app, width);
    let pending = timeline
        .pending
        .as_ref()
        .filter(|_| advice.verdict != Verdict::Stop);
    if let Some(pending) = pending {
        rows.extend(wrap("AT THE BENCH", Role::Warn, width, 0));
        let words = wording::steps(&pending.steps, &timeline.card, system);
        rows.extend(wrap(&words, Role::Strong, width, 2));
        let keys = format!(
            "{} made as shown, {} other, {} not made, {} shows how",
            app.key(Action::AsShown),
            app.key(Action::OwnMove),
            app.key(Action::NotMade),
            app.key(Action::TakeMove),
        );
        rows.extend(wrap(&keys, Role::Text, width, 0));
        rows.push(Row::new());
    }
    // The move at the bench is the one advised: it is not said twice.
    if pending.is_none() || advice.verdict != Verdict::Move {
        let role = verdict_role(advice.verdict);
        rows.extend(wrap(words::title(advice), role, width, 0));
        let headline = without(&headline(app), words::title(advice));
        if !headline.is_empty() {
            rows.extend(wrap(&headline, Role::Strong, width, 2));
        }
    }
    if advice.verdict == Verdict::Shoot {
        rows.extend(wrap(range::BEFORE_EVERY_SHOT, Role::Text, width, 0));
    }
    if let Some(probe) = &advice.probe {
        rows.extend(wrap(&probe.text, Role::Text, width, 0));
        let key = format!(
            "{} answers, or sets the next shots for it",
            app.key(Action::Answer)
        );
        rows.extend(wrap(&key, Role::Faint, width, 0));
    }
    if let Some(advised) = &advice.movement {
        rows.extend(wrap(
            &wording::expected(advised, system),
            Role::Text,
            width,
            0,
        ));
        for step in &advised.steps {
            if let Some(gain) = advice.estimate.gain.get(step.adjuster.id()) {
                let text = wording::gain(step.adjuster, gain, system);
                rows.extend(wrap(&text, Role::Text, width, 0));
            }
        }
    }
    // Where the reason gives the same figure, it is said once.
    if let Some(chance) = wording::chance(&app.analysis).filter(|_| !says_chance(advice)) {
        rows.extend(wrap(&chance, Role::Text, width, 0));
    }
    if app.analysis.judged_by_technician {
        rows.extend(wrap(
            "Judged by the technician's shots: let the owner shoot",
            Role::Warn,
            width,
            0,
        ));
    }
    rows
}

/// The range safety list, where it comes before the shot.
fn range_first(app: &App, width: u16) -> Vec<Row> {
    let Some(due) = app.analysis.range_due else {
        return Vec::new();
    };
    let key = app.key(Action::Answer);
    let title = format!("{} FIRST", range::TITLE.to_uppercase());
    let mut rows = wrap(&title, Role::Warn, width, 0);
    let why = format!("{}. Press {key}", crate::words::capital(&due.short()));
    rows.extend(wrap(&why, Role::Text, width, 0));
    rows.push(Row::new());
    rows
}

/// The advised move in the system on screen, or the headline as it is.
fn headline(app: &App) -> String {
    let advice = &app.analysis.advice;
    match &advice.movement {
        Some(advised) => {
            let steps: Vec<_> = advised
                .steps
                .iter()
                .map(|s| crate::gear::Step {
                    adjuster: s.adjuster,
                    amount: s.amount,
                })
                .collect();
            wording::steps(&steps, &app.timeline().card, app.system)
        }
        None => advice.headline.clone(),
    }
}

/// A headline without the verdict's own words at its front.
fn without(headline: &str, title: &str) -> String {
    let same = headline
        .get(..title.len())
        .is_some_and(|front| front.eq_ignore_ascii_case(title));
    if !same {
        return headline.to_owned();
    }
    // What follows a colon is news; anything else only rounds the title off.
    let Some((_, rest)) = headline[title.len()..].split_once(':') else {
        return String::new();
    };
    let mut chars = rest.trim_start().chars();
    chars
        .next()
        .map_or(String::new(), |c| c.to_uppercase().chain(chars).collect())
}

/// Whether the first reason is the chance that it is inside now.
fn says_chance(advice: &Advice) -> bool {
    let mut others = advice.reasons.iter();
    let first = others.find(|r| r.code != RANGE_LIST_OPEN);
    first.is_some_and(|r| matches!(r.code, "not-sure-yet" | "inside"))
}

fn reasons(app: &App, width: u16, all: bool) -> Vec<Row> {
    let advice = &app.analysis.advice;
    let mut rows = Vec::new();
    // What 1 mm does to the tail stands beside the move already.
    let news: Vec<_> = advice
        .reasons
        .iter()
        .filter(|r| advice.movement.is_none() || r.code != "correct")
        // The range safety list stands above the verdict.
        .filter(|r| r.code != RANGE_LIST_OPEN)
        .collect();
    let shown = if all { news.len() } else { 1 };
    for reason in news.iter().take(shown) {
        rows.push(Row::new());
        rows.extend(wrap(
            &crate::words::capital(&reason.text),
            Role::Text,
            width,
            0,
        ));
    }
    if news.len() > shown {
        rows.push(row(format!("more: {}", app.key(Action::Why)), Role::Faint));
    }
    rows
}

fn checks(app: &App, width: u16, full: bool) -> Vec<Row> {
    let mut rows = vec![Row::new()];
    for (kind, check) in app.analysis.advice.checks.each() {
        let role = status_role(check.status);
        let (name, state) = (words::check_name(kind), words::status(check.status));
        if full {
            let head = format!("{name} {state}:");
            rows.extend(flow(
                &[(&head, role), (" ", Role::Text), (&check.text, Role::Text)],
                width,
                2,
            ));
        } else {
            rows.push(vec![
                (format!("{name:<12} "), Role::Text),
                (state.into(), role),
            ]);
        }
    }
    rows
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_headline_does_not_say_the_verdict_again() {
        let title = words::verdict_title(Verdict::Refuse);
        assert_eq!(
            without("Leave the rest alone: the arrow is weak", title),
            "The arrow is weak"
        );
        assert_eq!(without("Leave the rest alone", title), "");
        let again = words::verdict_title(Verdict::Shoot);
        assert_eq!(
            without("Shoot again here: 2 shots more may tell", again),
            "2 shots more may tell"
        );
        let done = words::verdict_title(Verdict::Done);
        assert_eq!(
            without("Within tolerance: now prove it at distance", done),
            ""
        );
        assert_eq!(without("Shoot 2 more", title), "Shoot 2 more");
    }
}
