//! The convergence pane: how the tear shrinks, shot by shot.
//!
//! ```text
//! |20 o            |  size of each tear, the mean and its band,
//! |  :o:           |  the tolerance as a line across,
//! |10 :-o:  ?      |  what the next shot should be
//! |- - - - - - - - |
//! | 0              |
//! |    ^           |  moves, under the first shot after each
//! |    4         9 |  shot numbers
//! | left and right |  the two series, signed, where there is room
//! | Next shot: ... |  the same in words
//! ```

use ratatui::layout::Rect;

use super::paint::{Paint, Row, wrap};
use crate::advice::TrackPoint;
use crate::tui::state::App;
use crate::tui::theme::Role;
use crate::tui::wording;
use crate::units::System;
use crate::words;

/// Columns for the figures at the left.
const SCALE: u16 = 4;
/// Rows from which the two series have room.
const WITH_SERIES: u16 = 26;
/// Shots shown below 100 columns.
const LAST: usize = 20;
/// A pane this wide (100 columns of screen) shows every shot and a legend.
const ROOMY: u16 = 31;
/// Columns between shots, at most.
const WIDEST: usize = 3;
/// A shot counts as a bad one from this chance.
const BAD_FROM: f64 = 0.5;
/// Room above the highest point.
const HEADROOM: f64 = 1.1;

/// One shot in the chart.
struct Column {
    number: usize,
    right: f64,
    up: f64,
    size: f64,
    bad: bool,
    track: Option<TrackPoint>,
    moved: bool,
}

fn columns(app: &App) -> Vec<Column> {
    let timeline = app.timeline();
    let aim = timeline.card.paper.aim;
    let shots = timeline.shots.iter().enumerate();
    shots
        .map(|(i, s)| {
            let (right, up) = (s.shot.right - aim.0, s.shot.up - aim.1);
            let doubt = app.analysis.bad.get(i).copied().unwrap_or(0.0);
            Column {
                number: i + 1,
                right,
                up,
                size: right.hypot(up),
                bad: s.shot.called_bad || doubt >= BAD_FROM,
                track: app.analysis.track.get(i).copied().flatten(),
                moved: i > 0 && timeline.shots[i - 1].setting != s.setting,
            }
        })
        .collect()
}

/// Everything the pane says, in words only: the last shots in order, moves
/// between them, what the next should be.
pub(in crate::tui) fn said(app: &App) -> Vec<Row> {
    let all = columns(app);
    let mut parts = Vec::new();
    for column in &all[all.len().saturating_sub(LAST)..] {
        if column.moved {
            parts.push("moved".to_owned());
        }
        let bad = if column.bad { " (bad)" } else { "" };
        let size = app.system.tear(column.size);
        parts.push(format!("shot {} {size}{bad}", column.number));
    }
    let mut rows = Vec::new();
    if !parts.is_empty() {
        let text = format!("Size of each tear: {}", parts.join(", "));
        rows.extend(wrap(&text, Role::Text, u16::MAX, 0));
    }
    rows.extend(words(app, u16::MAX));
    rows
}

/// Draws the pane.
pub fn draw(app: &App, paint: &mut Paint<'_>, area: Rect) {
    let inside = Rect::new(
        area.x + 1,
        area.y,
        area.width.saturating_sub(2),
        area.height,
    );
    let mut words = words(app, inside.width);
    if area.width >= ROOMY && !app.timeline().shots.is_empty() {
        words.extend(legend(paint, inside.width));
    }
    let foot = (words.len() as u16).min(area.height / 3);
    let all = columns(app);
    let room = usize::from(area.width.saturating_sub(SCALE + 2));
    let most = if area.width < ROOMY {
        LAST.min(room)
    } else {
        room
    };
    let shown = &all[all.len().saturating_sub(most.saturating_sub(1))..];
    let spread = (room / (shown.len() + 2).max(1)).clamp(1, WIDEST);
    let body = area.height - foot;
    let series = body >= WITH_SERIES && !shown.is_empty();
    let size_rows = if series { body * 2 / 5 } else { body };
    let mut at = Rect::new(area.x, area.y, area.width, size_rows);
    sizes(app, paint, at, shown, spread);
    if series {
        let each = (body - size_rows) / 2;
        for (name, pick) in [("right", true), ("high", false)] {
            at = Rect::new(area.x, at.bottom(), area.width, each);
            signed(app, paint, at, shown, spread, (name, pick));
        }
    }
    let text = Rect::new(inside.x, area.bottom() - foot, inside.width, foot);
    paint.rows(text, &words);
}

/// What the next shots should look like, in words.
fn words(app: &App, width: u16) -> Vec<Row> {
    let advice = &app.analysis.advice;
    let mut rows = Vec::new();
    match &app.analysis.next_shot {
        Some(next) if advice.movement.is_some() => {
            let text = format!("After the move: {}", wording::next_shot(next, app.system));
            rows.extend(wrap(&text, Role::Expected, width, 2));
        }
        Some(next) => {
            let text = format!("Next shot here: {}", wording::next_shot(next, app.system));
            rows.extend(wrap(&text, Role::Expected, width, 2));
        }
        None => rows.extend(wrap(
            "No tears yet: they line up here",
            Role::Faint,
            width,
            0,
        )),
    }
    rows
}

/// What the marks are.
fn legend(paint: &Paint<'_>, width: u16) -> Vec<Row> {
    let g = paint.glyphs;
    let text = format!(
        "{} tear  {} mean  {} likely  {} move",
        g.earlier, g.mean, g.band, g.moved
    );
    wrap(&text, Role::Faint, width, 0)
}

/// A vertical scale from `low` to `high` over the rows of an area.
struct Scale {
    area: Rect,
    low: f64,
    high: f64,
}

impl Scale {
    fn y(&self, value: f64) -> Option<u16> {
        let rows = f64::from(self.area.height - 1);
        let at = (self.high - value) / (self.high - self.low) * rows;
        let at = at.round();
        (at >= 0.0 && at <= rows).then(|| self.area.y + at as u16)
    }
    fn x(&self, index: usize, spread: usize) -> Option<u16> {
        let x = self.area.x + (index * spread) as u16;
        (x < self.area.right()).then_some(x)
    }
}

/// The figures at the left: those given, where their rows are free.
fn figures(paint: &mut Paint<'_>, scale: &Scale, values: &[f64], system: System) {
    let mut taken: Vec<u16> = Vec::new();
    for value in values {
        if let Some(y) = scale.y(*value)
            && taken.iter().all(|t| t.abs_diff(y) > 1)
        {
            let text = system.tear_number(value.abs());
            let wide = text.chars().count() as u16;
            if wide < SCALE {
                paint.put(scale.area.x - 1 - wide, y, &text, Role::Faint, wide);
            }
            taken.push(y);
        }
    }
}

/// A value no smaller than this one that makes a good end of a scale, mm.
fn round_up(value: f64) -> f64 {
    [
        10.0, 15.0, 20.0, 30.0, 40.0, 60.0, 80.0, 120.0, 200.0, 300.0,
    ]
    .into_iter()
    .find(|s| *s >= value)
    .unwrap_or(500.0)
}

fn sizes(app: &App, paint: &mut Paint<'_>, area: Rect, shown: &[Column], spread: usize) {
    // One row for the moves, one for the shot numbers.
    let Some(height) = area.height.checked_sub(3).filter(|h| *h >= 2) else {
        return;
    };
    let tolerance = app.timeline().card.paper.tolerance;
    let next = next_size(app);
    let highest = shown.iter().map(|c| c.size).fold(tolerance * 1.5, f64::max);
    let highest = next.map_or(highest, |(size, _)| size.max(highest));
    let scale = Scale {
        area: Rect::new(area.x + SCALE, area.y, area.width - SCALE, height + 1),
        low: 0.0,
        high: round_up(highest * HEADROOM),
    };
    across(
        paint,
        &scale,
        tolerance,
        paint.glyphs.dashes,
        Role::Tolerance,
    );
    figures(
        paint,
        &scale,
        &[tolerance, scale.high, 0.0, scale.high / 2.0],
        app.system,
    );
    for (i, column) in shown.iter().enumerate() {
        let Some(x) = scale.x(i, spread) else {
            continue;
        };
        if let Some(track) = column.track {
            band(paint, &scale, x, track.band, Role::Faint);
            let aim = app.timeline().card.paper.aim;
            let mean = (track.right - aim.0).hypot(track.up - aim.1);
            put(paint, &scale, x, mean, paint.glyphs.mean, Role::Mean);
        }
        shot(paint, &scale, x, column.size, column, i + 1 == shown.len());
        if column.moved {
            paint.cell(x, scale.area.bottom(), paint.glyphs.moved, Role::Strong);
        }
    }
    if let (Some((size, far)), Some(x)) = (next, scale.x(shown.len() + 1, spread)) {
        band(
            paint,
            &scale,
            x,
            ((size - far).max(0.0), size + far),
            Role::Expected,
        );
        put(paint, &scale, x, size, paint.glyphs.next, Role::Expected);
    }
    numbers(paint, &scale, shown, spread);
}

/// The size the next shot should have, and how far two of three stray from it.
fn next_size(app: &App) -> Option<(f64, f64)> {
    let next = app.analysis.next_shot?;
    let aim = app.timeline().card.paper.aim;
    let sd = ((next.sd_right.powi(2) + next.sd_up.powi(2)) / 2.0).sqrt();
    let size = (next.right - aim.0).hypot(next.up - aim.1);
    (size.is_finite() && sd.is_finite()).then_some((size, sd * words::TWO_OF_THREE))
}

fn across(paint: &mut Paint<'_>, scale: &Scale, value: f64, c: char, role: Role) {
    if let Some(y) = scale.y(value) {
        for x in scale.area.left()..scale.area.right() {
            paint.cell(x, y, c, role);
        }
    }
}

fn put(paint: &mut Paint<'_>, scale: &Scale, x: u16, value: f64, c: char, role: Role) {
    if let Some(y) = scale.y(value) {
        paint.cell(x, y, c, role);
    }
}

fn band(paint: &mut Paint<'_>, scale: &Scale, x: u16, (low, high): (f64, f64), role: Role) {
    let top = scale.y(high.min(scale.high)).unwrap_or(scale.area.y);
    if let Some(bottom) = scale.y(low) {
        for y in top..=bottom {
            paint.cell(x, y, paint.glyphs.band, role);
        }
    }
}

fn shot(paint: &mut Paint<'_>, scale: &Scale, x: u16, value: f64, column: &Column, last: bool) {
    let (c, role) = match (column.bad, last) {
        (true, _) => (paint.glyphs.bad, Role::Faint),
        (false, true) => (paint.glyphs.nock, Role::Latest),
        (false, false) => (paint.glyphs.earlier, Role::Text),
    };
    put(paint, scale, x, value, c, role);
}

/// First and last shot number, and those after moves where they fit.
fn numbers(paint: &mut Paint<'_>, scale: &Scale, shown: &[Column], spread: usize) {
    let y = scale.area.bottom() + 1;
    let mut free = scale.area.x;
    for (i, column) in shown.iter().enumerate() {
        let wanted = i == 0 || column.moved || i + 1 == shown.len();
        let Some(x) = scale.x(i, spread).filter(|_| wanted) else {
            continue;
        };
        let text = column.number.to_string();
        let wide = text.len() as u16;
        if x >= free && x + wide <= scale.area.right() {
            paint.put(x, y, &text, Role::Faint, wide);
            free = x + wide + 1;
        }
    }
}

/// One signed series: sideways or vertical.
fn signed(
    app: &App,
    paint: &mut Paint<'_>,
    area: Rect,
    shown: &[Column],
    spread: usize,
    (name, sideways): (&str, bool),
) {
    if area.height < 5 {
        return;
    }
    let value = |c: &Column| if sideways { c.right } else { c.up };
    let most = shown.iter().map(|c| value(c).abs()).fold(0.0, f64::max);
    let high = round_up(most * HEADROOM);
    let scale = Scale {
        area: Rect::new(
            area.x + SCALE,
            area.y + 1,
            area.width - SCALE,
            area.height - 1,
        ),
        low: -high,
        high,
    };
    let other = if sideways { "left" } else { "low" };
    let title = format!("{name} above, {other} below, {}", app.system.unit());
    paint.put(
        area.x + 1,
        area.y,
        &super::paint::fit(&title, usize::from(area.width - 2)),
        Role::Faint,
        area.width - 2,
    );
    across(paint, &scale, 0.0, paint.glyphs.dot, Role::Faint);
    let tolerance = app.timeline().card.paper.tolerance;
    for edge in [tolerance, -tolerance] {
        across(paint, &scale, edge, paint.glyphs.dashes, Role::Tolerance);
    }
    figures(paint, &scale, &[0.0, high, -high], app.system);
    let aim = app.timeline().card.paper.aim;
    for (i, column) in shown.iter().enumerate() {
        let Some(x) = scale.x(i, spread) else {
            continue;
        };
        if let Some(track) = column.track {
            let mean = if sideways {
                track.right - aim.0
            } else {
                track.up - aim.1
            };
            put(paint, &scale, x, mean, paint.glyphs.mean, Role::Mean);
        }
        shot(
            paint,
            &scale,
            x,
            value(column),
            column,
            i + 1 == shown.len(),
        );
    }
}
