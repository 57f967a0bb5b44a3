//! The tear pane: one hole as it is in the paper, and what it says in figures.
//!
//! ```text
//! |          high           |  cropped to what it shows, a square mm
//! |           :             |
//! |  o   *====:             |  the latest hole: nock, slit, point
//! | left------@---- right   |  earlier shots hollow; what is within
//! |           :             |  tolerance shaded, or ringed with dots
//! |          low            |
//! | last    8 left   2 high |
//! | likely  9 left   2 high |
//! |         ± 2 mm, 1 shot  |
//! | scatter 2 mm (limit 6)  |
//! | wanted  within 6 mm     |
//! ```

use ratatui::layout::Rect;
use unicode_width::UnicodeWidthStr;

use crate::look::Role;
use crate::session::ShotAt;
use crate::tear::Tear;
use crate::tui::draw::axes::{self, MARGIN, Scale};
use crate::tui::draw::paint::{Paint, Row, row};
use crate::tui::draw::plot::Plot;
use crate::tui::grid::GridCursor;
use crate::tui::model::Model;
use crate::units::System;
use crate::words::{self, order};

/// Rows the grid keeps whatever is said under it.
const LEAST_GRID: u16 = 5;
/// Columns of a figure's name.
const NAME: usize = 8;
/// Scatter this much larger one way than the other is told both ways.
const UNLIKE: f64 = 1.4;
/// From this on, mm: less is within what is read off paper.
const TELLING: f64 = 3.0;
/// A pane this wide and high says more.
const ROOMY: (u16, u16) = (30, 26);

/// What is being entered on the pane.
pub(crate) struct Typing<'a> {
    /// The text of a tear, as far as it is typed.
    pub tear: Option<&'a str>,
    /// The marks of a hole, while it is marked on the grid.
    pub(crate) grid: Option<&'a GridCursor>,
}

/// What is shown on the grid.
struct Shown<'a> {
    here: Vec<&'a ShotAt>,
    bad: Vec<bool>,
    typed: Vec<Tear>,
    likely: Option<Tear>,
    wanted: (f64, f64),
    tolerance: f64,
}

impl<'a> Shown<'a> {
    fn of(model: &'a Model, typing: &Typing<'_>) -> Self {
        let timeline = model.timeline();
        let setting = timeline.setting_index();
        let all = timeline.shots.iter().enumerate();
        let (here, bad) = all
            .filter(|(_, s)| s.setting == setting)
            .map(|(i, s)| (s, s.shot.called_bad || model.analysis.is_flier(i)))
            .unzip();
        let estimate = model.analysis.advice.estimate.tear_mm;
        Self {
            here,
            bad,
            typed: typed(model, typing),
            likely: estimate.map(|e| Tear::new(e.right, e.up)),
            wanted: timeline.card.paper.aim,
            tolerance: timeline.card.paper.tolerance,
        }
    }

    /// The corners of what the grid has to hold, mm.
    fn corners(&self) -> ((f64, f64), (f64, f64)) {
        let (right, up) = self.wanted;
        let shots = self.here.iter().map(|s| s.shot.tear());
        let marks = shots.chain(self.typed.iter().copied());
        let (mut low, mut high) = ((0.0f64, 0.0f64), (0.0f64, 0.0f64));
        let mut hold = |x: f64, y: f64| {
            low = (low.0.min(x), low.1.min(y));
            high = (high.0.max(x), high.1.max(y));
        };
        for edge in [-self.tolerance, self.tolerance] {
            hold(right + edge, up + edge);
        }
        marks.for_each(|t| hold(t.right, t.up));
        (low, high)
    }
}

/// What is being typed as a tear, drawn as it is typed.
fn typed(model: &Model, typing: &Typing<'_>) -> Vec<Tear> {
    let Some(text) = typing.tear else {
        return Vec::new();
    };
    let holes = crate::tear::read_holes(text, model.system).unwrap_or_default();
    let shots = holes.iter().filter_map(|h| model.shot(h, "").ok());
    shots.map(|shot| shot.tear()).collect()
}

/// What the pane says, in words only.
pub(in crate::tui) fn said(model: &Model, typing: &Typing<'_>) -> Vec<Row> {
    let shown = Shown::of(model, typing);
    figures(model, typing, &shown, u16::MAX, true)
}

/// Draws the pane.
pub fn draw(model: &Model, typing: &Typing<'_>, paint: &mut Paint<'_>, area: Rect) {
    if area.height < 4 || area.width < 12 {
        return;
    }
    let shown = Shown::of(model, typing);
    let roomy = area.width >= ROOMY.0 && area.height >= ROOMY.1;
    let mut rows = figures(model, typing, &shown, area.width.saturating_sub(1), roomy);
    rows.truncate(usize::from(area.height.saturating_sub(LEAST_GRID).max(2)));
    if roomy {
        rows.push(legend(paint));
    }
    let height = rows.len() as u16;
    let above = Rect::new(area.x, area.y, area.width, area.height - height);
    match typing.grid {
        Some(cursor) => {
            let grid = Rect::new(
                above.x + MARGIN,
                above.y,
                above.width - MARGIN,
                above.height - 1,
            );
            draw_sheet(model, paint, grid, cursor);
        }
        None => draw_tears(model, paint, above, &shown),
    }
    let text = Rect::new(area.x + 1, area.bottom() - height, area.width - 1, height);
    paint.rows(text, &rows);
}

fn draw_tears(model: &Model, paint: &mut Paint<'_>, area: Rect, shown: &Shown<'_>) {
    // Its first and last row name what is up and what is down.
    let named = area.height >= LEAST_GRID;
    let grid = Rect::new(
        area.x,
        area.y + u16::from(named),
        area.width,
        area.height - 2 * u16::from(named),
    );
    let (low, high) = shown.corners();
    let plot = Plot::around(grid, low, high);
    let Some((cx, cy)) = plot.cell(0.0, 0.0) else {
        return;
    };
    let [flat, upright] = paint.glyphs.axis;
    for x in grid.left()..grid.right() {
        paint.cell(x, cy, flat, Role::Border);
    }
    for y in grid.top()..grid.bottom() {
        paint.cell(cx, y, upright, Role::Border);
    }
    if paint.theme.shade().is_none() {
        let radii = (shown.tolerance, shown.tolerance);
        plot.ellipse(paint, shown.wanted, radii, Role::Faint);
    }
    let (last, before) = match (shown.typed.is_empty(), shown.here.split_last()) {
        (true, Some((last, before))) => (Some(last), before),
        _ => (None, &shown.here[..]),
    };
    // A slow line is spared what is faint.
    let before = if model.look.thin { &[] } else { before };
    for (shot, bad) in before.iter().zip(&shown.bad) {
        let g = paint.glyphs;
        let c = if *bad { g.bad } else { g.earlier };
        plot.mark(paint, shot.shot.right, shot.shot.up, c, Role::Faint);
    }
    for tear in &shown.typed {
        hole(paint, &plot, *tear, false);
    }
    if let Some(last) = last {
        let bad = shown.bad.last().copied().unwrap_or(false);
        hole(paint, &plot, last.shot.tear(), bad);
    } else if shown.typed.is_empty() {
        plot.mark(paint, 0.0, 0.0, paint.glyphs.point, Role::Latest);
    }
    sides(paint, grid, cy);
    plot.disc(paint, shown.wanted, shown.tolerance);
    if named {
        let middle = |word: &str| {
            let half = word.len() as u16 / 2;
            cx.saturating_sub(half)
                .clamp(area.x, area.right() - word.len() as u16)
        };
        paint.put(middle("high"), area.y, "high", Role::Faint, 4);
        paint.put(middle("low"), area.bottom() - 1, "low", Role::Faint, 3);
    }
}

/// The slit from point to nock.
pub(crate) fn hole(paint: &mut Paint<'_>, plot: &Plot, tear: Tear, bad: bool) {
    plot.slit(paint, (tear.right, tear.up), Role::Latest);
    plot.mark(paint, 0.0, 0.0, paint.glyphs.point, Role::Latest);
    let nock = if bad {
        paint.glyphs.bad
    } else {
        paint.glyphs.nock
    };
    let at = plot.cell(tear.right, tear.up);
    // Both holes in one: the point is what is left to see.
    if at != plot.cell(0.0, 0.0) {
        plot.mark(paint, tear.right, tear.up, nock, Role::Latest);
    }
}

/// Names the two sides at the ends of the axis, or as near to it as nothing
/// that was drawn stands in the way.
fn sides(paint: &mut Paint<'_>, grid: Rect, axis: u16) {
    let [flat, _] = paint.glyphs.axis;
    let free = |paint: &Paint<'_>, x: u16, y: u16| {
        let cell = paint.buf.cell((x, y));
        cell.is_some_and(|c| c.symbol() == " " || c.symbol().starts_with(flat))
    };
    for (word, at_right) in [("left", false), ("right", true)] {
        let wide = word.len() as u16;
        let x = if at_right {
            grid.right().saturating_sub(wide)
        } else {
            grid.x + 1
        };
        let rows = (0..grid.height).flat_map(|d| [axis + d, axis.saturating_sub(d)]);
        let mut rows = rows.filter(|y| *y >= grid.top() && *y < grid.bottom());
        let place = rows.find(|y| (x..x + wide).all(|x| free(paint, x, *y)));
        if let Some(y) = place {
            paint.put(x, y, word, Role::Faint, wide);
        }
    }
}

/// The sheet while a hole is being marked.
fn draw_sheet(model: &Model, paint: &mut Paint<'_>, grid: Rect, cursor: &GridCursor) {
    let far = cursor.at.right.abs().max(cursor.at.up.abs());
    let plot = Plot::new(grid, far.max(30.0) * 1.05);
    axes::draw(paint, &plot, grid, Scale::tear(model.system));
    if let Some(point) = cursor.point {
        let (at, glyph) = ((point.right, point.up), paint.glyphs.nock);
        plot.mark(paint, at.0, at.1, glyph, Role::Latest);
    }
    plot.mark(
        paint,
        cursor.at.right,
        cursor.at.up,
        paint.glyphs.cursor,
        Role::Selected,
    );
}

/// What the marks are.
fn legend(paint: &Paint<'_>) -> Row {
    let g = paint.glyphs;
    let text = format!("{} point  {} nock  {} earlier", g.point, g.nock, g.earlier);
    row(text, Role::Faint)
}

/// The figures under the grid, each with room for what it says.
struct Figures {
    rows: Vec<Row>,
    room: usize,
}

impl Figures {
    fn named(&mut self, name: &str, text: Row) {
        let mut row = vec![(format!("{name:<NAME$}"), Role::Faint)];
        row.extend(text);
        self.rows.push(row);
    }

    /// A tear by its sides: beside one another where both fit, else a row each.
    fn tear(&mut self, name: &str, tear: Tear, system: System, role: Role) {
        let sides: Vec<String> = order::sides(tear, system).into_iter().flatten().collect();
        match &sides[..] {
            [a, b] if a.width().max(9) + 1 + b.width() <= self.room => {
                self.named(name, row(format!("{a:<9} {b}"), role));
            }
            [a, b] => {
                self.named(name, row(a.clone(), role));
                self.named("", row(b.clone(), role));
            }
            [one] => self.named(name, row(one.clone(), role)),
            _ => self.named(name, row("clean", role)),
        }
    }

    /// Pieces in order, as many to a row as fit.
    fn pieces(&mut self, name: &str, pieces: &[String], role: Role) {
        let mut line = String::new();
        let mut name = name;
        for piece in pieces {
            let gap = if line.is_empty() { 0 } else { 2 };
            if !line.is_empty() && line.width() + gap + piece.width() > self.room {
                self.named(name, row(std::mem::take(&mut line), role));
                name = "";
            }
            if !line.is_empty() {
                line.push_str(", ");
            }
            line.push_str(piece);
        }
        self.named(name, row(line, role));
    }
}

/// What the grid says in figures, most important first.
fn figures(
    model: &Model,
    typing: &Typing<'_>,
    shown: &Shown<'_>,
    width: u16,
    roomy: bool,
) -> Vec<Row> {
    let system = model.system;
    if let Some(cursor) = typing.grid {
        return sheet_figures(cursor, system, width);
    }
    let mut out = Figures {
        rows: Vec::new(),
        room: usize::from(width).saturating_sub(NAME),
    };
    match shown.here.last() {
        Some(shot) => out.tear("last", shot.shot.tear(), system, Role::Latest),
        None => out.named("last", row("none here yet", Role::Text)),
    }
    if let (Some(shot), Some(true)) = (shown.here.last(), shown.bad.last()) {
        let why = if shot.shot.called_bad {
            ["called bad".to_owned(), "not counted".to_owned()]
        } else {
            ["a flier".to_owned(), "counts little".to_owned()]
        };
        out.pieces("", &why, Role::Warn);
    }
    let count = order::shots(shown.here.len(), model.timeline().shots.len());
    if let Some(likely) = shown.likely {
        out.tear("likely", likely, system, Role::Likely);
        let sd = model.analysis.advice.estimate.tear_mm.map_or(0.0, |e| e.sd);
        let about = order::give_or_take(sd, shown.here.len(), system, out.room);
        let about = about.replace('±', model.look.glyphs.about);
        out.named("", row(about, Role::Faint));
    }
    if roomy {
        let others = shown.bad.iter().filter(|b| **b).count();
        let mut pieces = vec![count];
        if others > 0 {
            pieces.push(format!("{others} not counted"));
        }
        out.pieces("shots", &pieces, Role::Text);
    }
    out.named("scatter", row(scatter(model, out.room), Role::Text));
    let within = order::within(shown.tolerance, system);
    let wanted = Tear::new(shown.wanted.0, shown.wanted.1);
    let aim = order::sides(wanted, system).into_iter().flatten();
    let pieces: Vec<String> = aim.chain([within]).collect();
    out.pieces("wanted", &pieces, Role::Tolerance);
    out.rows
}

/// The scatter against its limit where that is what is judged.
fn scatter(model: &Model, room: usize) -> String {
    let system = model.system;
    if let Some(found) = model.analysis.advice.checks.consistency.figure() {
        return order::against(found.value, found.limit, system, room);
    }
    let Some((right, up)) = model.analysis.scatter else {
        return "not known yet".into();
    };
    let round = system.tear(right.hypot(up) / 2f64.sqrt());
    let (wide, tall) = (system.tear_number(right), system.tear_number(up));
    let both = format!("{wide} wide {tall} tall");
    let unlike = right.max(up) > UNLIKE * right.min(up) && right.max(up) > TELLING;
    if unlike && both.len() <= room {
        both
    } else {
        format!("about {round}")
    }
}

fn sheet_figures(cursor: &GridCursor, system: System, width: u16) -> Vec<Row> {
    let (what, tear) = match cursor.tear() {
        Some(tear) => ("nock", words::tear(tear, system)),
        None => ("point", words::pages::panes::POINT_HOLE.into()),
    };
    let mut rows =
        crate::tui::draw::paint::wrap(&format!("{what}: {tear}"), Role::Strong, width, 2);
    if !cursor.count.is_empty() {
        rows.push(row(format!("next arrow goes {}", cursor.count), Role::Text));
    }
    rows
}
