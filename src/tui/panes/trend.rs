//! One chart of the convergence pane: a series of shots against a scale.

use ratatui::layout::Rect;

use crate::look::Role;
use crate::tui::draw::paint::{Paint, Row, Span, fit};
use crate::tui::model::{Model, Series};
use crate::tui::panes::series::{Column, counts, next_shot};
use crate::units::System;

/// Columns for the figures at the left and the axis.
const SCALE: u16 = 5;
/// Columns between shots, at most.
const WIDEST: u16 = 3;
/// Room above the highest point.
const HEADROOM: f64 = 1.05;
/// Rows a legend takes at most.
const LEGEND: usize = 2;

/// Draws a chart: what it counts, the chart, shot numbers, and what its marks
/// are where a legend is wanted.
pub fn draw(
    model: &Model,
    paint: &mut Paint<'_>,
    area: Rect,
    all: &[Column],
    series: Series,
    with_legend: bool,
) {
    let room = area.width.saturating_sub(2);
    let mut legend = if with_legend {
        legend(paint, room)
    } else {
        Vec::new()
    };
    if area.height < 9 + legend.len() as u16 {
        legend.truncate(1);
    }
    let foot = legend.len() as u16;
    // A row for the head, one for the numbers.
    let Some(height) = area.height.checked_sub(foot + 2).filter(|h| *h >= 3) else {
        return;
    };
    let head = fit(&counts(series, model.system), usize::from(room));
    paint.put(area.x + 1, area.y, &head, Role::Faint, room);
    let plot = Rect::new(
        area.x + SCALE,
        area.y + 1,
        area.width.saturating_sub(SCALE + 1),
        height,
    );
    let places = Places::of(all, plot.width);
    let shown = &all[all.len() - places.at.len()..];
    let scale = Scale::of(model, plot, shown, series);
    scale.draw(paint, model, series);
    moves(paint, plot, shown, &places);
    likely(model, paint, &scale, shown, &places, series);
    shots(paint, &scale, shown, &places, series);
    if let (Some((at, far)), true) = (next_shot(model, series), places.next < plot.width) {
        range(paint, &scale, plot.x + places.next, at, far, series);
    }
    numbers(paint, plot, shown, &places);
    scale.shade(paint, model, series);
    let at = Rect::new(area.x + 1, area.bottom() - foot, room, foot);
    paint.rows(at, &legend);
}

/// What the marks are.
fn legend(paint: &Paint<'_>, width: u16) -> Vec<Row> {
    let g = paint.glyphs;
    let marks: [(char, Role, &str); 4] = [
        (g.earlier, Role::Text, "shot"),
        (g.likely, Role::Likely, "likely"),
        (g.moved, Role::Faint, "move"),
        (g.range, Role::Expected, "next"),
    ];
    let mut rows: Vec<Row> = vec![Row::new()];
    let mut used = 0;
    for (mark, role, word) in marks {
        let wide = word.len() + 2;
        let gap = if used == 0 { 0 } else { 1 };
        if used + gap + wide > usize::from(width) && used > 0 {
            rows.push(Row::new());
            used = 0;
        }
        let gap = if used == 0 { 0 } else { 1 };
        if let Some(row) = rows.last_mut() {
            let spans: [Span; 3] = [
                (" ".repeat(gap), Role::Text),
                (mark.to_string(), role),
                (format!(" {word}"), Role::Faint),
            ];
            row.extend(spans);
        }
        used += gap + wide;
    }
    rows.truncate(LEGEND);
    rows
}

/// Where each shot that is shown stands, from the left edge.
struct Places {
    at: Vec<u16>,
    pitch: u16,
    next: u16,
}

impl Places {
    /// The latest shots that fit, as far apart as they may be; a move takes a
    /// column of its own before the shot that followed it.
    fn of(all: &[Column], width: u16) -> Self {
        let fits = |from: usize, pitch: u16| {
            let shown = &all[from..];
            let moves = shown.iter().skip(1).filter(|c| c.moved).count() as u16;
            // The next shot, and a column before it.
            shown.len() as u16 * pitch + moves + 2 <= width
        };
        let from = (0..all.len()).find(|from| fits(*from, 1));
        let from = from.unwrap_or(all.len().saturating_sub(1));
        let pitch = (1..=WIDEST).rev().find(|pitch| fits(from, *pitch));
        let pitch = pitch.unwrap_or(1);
        let mut x = 0;
        let mut at = Vec::new();
        for (i, column) in all[from..].iter().enumerate() {
            if i > 0 && column.moved {
                x += 1;
            }
            at.push(x);
            x += pitch;
        }
        Self {
            at,
            pitch,
            next: x + 1,
        }
    }

    /// Where the shot itself is marked: beside the likely tear where there is room.
    fn shot(&self, i: usize) -> u16 {
        self.at[i] + u16::from(self.pitch > 1)
    }
}

/// A vertical scale over the rows of an area.
struct Scale {
    area: Rect,
    low: f64,
    high: f64,
}

impl Scale {
    fn of(model: &Model, area: Rect, shown: &[Column], series: Series) -> Self {
        let aim = model.timeline().card.paper.aim;
        let tolerance = model.timeline().card.paper.tolerance;
        let next = next_shot(model, series).map_or(0.0, |(at, _)| at.abs());
        let marks = shown.iter().flat_map(|c| {
            let likely = c.likely(series, aim).unwrap_or(0.0);
            [c.shot(series).abs(), likely.abs()]
        });
        let most = marks.fold(tolerance.mul_add(1.5, 0.0).max(next), f64::max);
        let high = round_up(most * HEADROOM, model.system);
        let low = match series {
            Series::Distance => 0.0,
            Series::Sideways | Series::UpDown => -high,
        };
        Self { area, low, high }
    }

    fn y(&self, value: f64) -> Option<u16> {
        let rows = f64::from(self.area.height - 1);
        let at = (self.high - value) / (self.high - self.low) * rows;
        let at = at.round();
        (at >= 0.0 && at <= rows).then(|| self.area.y + at as u16)
    }

    /// Figures, axis, and what marks the tolerance where there is no shade.
    fn draw(&self, paint: &mut Paint<'_>, model: &Model, series: Series) {
        let tolerance = model.timeline().card.paper.tolerance;
        let signed = series != Series::Distance;
        if paint.theme.shade().is_none() {
            let (dashes, dot) = (paint.glyphs.dashes, paint.glyphs.dot);
            self.across(paint, tolerance, dashes, Role::Tolerance);
            if signed {
                self.across(paint, -tolerance, dashes, Role::Tolerance);
                self.across(paint, 0.0, dot, Role::Faint);
            }
        }
        let x = self.area.x - 1;
        let [_, _, _, tee, _] = paint.glyphs.tees;
        let values: &[f64] = if signed {
            &[tolerance, 0.0, -tolerance, self.high, self.low]
        } else {
            &[tolerance, self.high, 0.0, self.high / 2.0]
        };
        let mut taken: Vec<u16> = Vec::new();
        for value in values {
            let Some(y) = self
                .y(*value)
                .filter(|y| taken.iter().all(|t| t.abs_diff(*y) > 1))
            else {
                continue;
            };
            let text = model.system.tear_number(value.abs());
            let wide = text.chars().count() as u16;
            if wide < SCALE {
                paint.put(x - wide, y, &text, Role::Faint, wide);
                paint.cell(x, y, tee, Role::Border);
            }
            taken.push(y);
        }
    }

    fn across(&self, paint: &mut Paint<'_>, value: f64, c: char, role: Role) {
        if let Some(y) = self.y(value) {
            for x in self.area.left()..self.area.right() {
                paint.cell(x, y, c, role);
            }
        }
    }

    /// Shades what is within tolerance, when all else is drawn.
    fn shade(&self, paint: &mut Paint<'_>, model: &Model, series: Series) {
        let tolerance = model.timeline().card.paper.tolerance;
        let low = if series == Series::Distance {
            0.0
        } else {
            -tolerance
        };
        let (Some(top), Some(bottom)) = (self.y(tolerance), self.y(low)) else {
            return;
        };
        let area = self.area;
        let rows = top..=bottom;
        paint.shade(rows.flat_map(|y| (area.left()..area.right()).map(move |x| (x, y))));
    }

    fn put(&self, paint: &mut Paint<'_>, x: u16, value: f64, c: char, role: Role) {
        if let Some(y) = self.y(value)
            && x < self.area.right()
        {
            paint.cell(x, y, c, role);
        }
    }
}

/// A value no smaller than this one that makes a good end of a scale, mm.
fn round_up(value: f64, system: System) -> f64 {
    let steps: &[f64] = match system {
        System::Mm => &[
            10.0, 14.0, 20.0, 24.0, 30.0, 40.0, 60.0, 80.0, 120.0, 200.0, 300.0,
        ],
        // Half inches, then whole ones.
        System::Inch => &[12.7, 19.05, 25.4, 38.1, 50.8, 76.2, 127.0, 203.2, 304.8],
    };
    steps.iter().copied().find(|s| *s >= value).unwrap_or(500.0)
}

/// Moves: an upright the height of the chart, before the first shot after each.
fn moves(paint: &mut Paint<'_>, plot: Rect, shown: &[Column], places: &Places) {
    for (column, at) in shown.iter().zip(&places.at).skip(1) {
        if column.moved {
            for y in plot.top()..plot.bottom() {
                paint.cell(plot.x + at - 1, y, paint.glyphs.moved, Role::Faint);
            }
        }
    }
}

/// The likely tear after each shot, filled and joined.
fn likely(
    model: &Model,
    paint: &mut Paint<'_>,
    scale: &Scale,
    shown: &[Column],
    places: &Places,
    series: Series,
) {
    let aim = model.timeline().card.paper.aim;
    let points: Vec<(u16, f64)> = shown
        .iter()
        .zip(&places.at)
        .filter_map(|(c, x)| Some((scale.area.x + x, c.likely(series, aim)?)))
        .collect();
    let (mark, joined) = (paint.glyphs.likely, paint.glyphs.joined);
    for pair in points.windows(2) {
        let [(from, a), (to, b)] = [pair[0], pair[1]];
        for x in from + 1..to {
            let part = f64::from(x - from) / f64::from(to - from);
            scale.put(paint, x, a + (b - a) * part, joined, Role::Likely);
        }
    }
    for (x, value) in points {
        scale.put(paint, x, value, mark, Role::Likely);
    }
}

/// The shots, hollow; where one falls on the likely tear, that is what is seen.
fn shots(paint: &mut Paint<'_>, scale: &Scale, shown: &[Column], places: &Places, series: Series) {
    let likely = paint.glyphs.likely.to_string();
    for (i, column) in shown.iter().enumerate() {
        let x = scale.area.x + places.shot(i);
        let (c, role) = match (column.bad, i + 1 == shown.len()) {
            (true, _) => (paint.glyphs.bad, Role::Faint),
            (false, true) => (paint.glyphs.earlier, Role::Latest),
            (false, false) => (paint.glyphs.earlier, Role::Text),
        };
        let Some(y) = scale.y(column.shot(series)) else {
            continue;
        };
        let taken = paint.buf.cell((x, y)).is_some_and(|c| c.symbol() == likely);
        if !taken {
            scale.put(paint, x, column.shot(series), c, role);
        }
    }
}

/// The range of the next shot, its middle marked.
fn range(paint: &mut Paint<'_>, scale: &Scale, x: u16, at: f64, far: f64, series: Series) {
    let least = if series == Series::Distance {
        0.0
    } else {
        scale.low
    };
    let top = scale.y((at + far).min(scale.high));
    let bottom = scale.y((at - far).max(least));
    if let (Some(top), Some(bottom)) = (top, bottom) {
        for y in top..=bottom {
            paint.cell(x, y, paint.glyphs.range, Role::Expected);
        }
    }
    scale.put(paint, x, at, paint.glyphs.next, Role::Expected);
}

/// Shot numbers where they fit: the first, the last, those after moves, then
/// every other.
fn numbers(paint: &mut Paint<'_>, plot: Rect, shown: &[Column], places: &Places) {
    let y = plot.bottom();
    let mut taken: Vec<(u16, u16)> = Vec::new();
    let last = shown.len().saturating_sub(1);
    let matters = |i: &usize| *i == 0 || *i == last || shown[*i].moved;
    let first = (0..shown.len()).filter(matters);
    let others = (0..shown.len()).filter(|i| !matters(i));
    for i in first.chain(others) {
        let text = shown[i].number.to_string();
        let x = plot.x + places.at[i];
        let end = x + text.len() as u16;
        let free = taken.iter().all(|(a, b)| end < *a || x > *b);
        if free && end <= plot.right() {
            paint.put(x, y, &text, Role::Faint, end - x);
            taken.push((x, end));
        }
    }
}
