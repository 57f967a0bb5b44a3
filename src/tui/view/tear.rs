//! The tear pane: where the nock went through, seen from the point hole.
//!
//! ```text
//! |10        .          |  the grid in mm: the point hole in the middle,
//! |      o   .          |  the tolerance ring, the slit to the latest nock,
//! | 0  O-----+ - - - - -|  earlier shots of this setting faint, the mean
//! |          .          |  and its scatter
//! |    10    0    10    |  the scale
//! | latest 9 mm left    |  what it says in figures
//! ```

use ratatui::layout::Rect;

use super::axes::{self, MARGIN, Scale};
use super::paint::{Paint, Row, fit, row};
use super::plot::Plot;
use crate::session::ShotAt;
use crate::tear::Tear;
use crate::tui::grid::GridCursor;
use crate::tui::prompt::Purpose;
use crate::tui::state::App;
use crate::tui::theme::Role;
use crate::units::System;
use crate::words;

/// Rows the figures under the grid may take, least and most.
const FIGURES: (u16, u16) = (2, 6);
/// The share of the height they may take is one part in this.
const FIGURES_SHARE: u16 = 3;
/// Columns of a figure's name.
const NAME: usize = 8;
/// Scatter this much larger one way than the other is told both ways.
const UNLIKE: f64 = 1.4;
/// From this on, mm: less is within what is read off paper.
const TELLING: f64 = 3.0;
/// A shot counts as a bad one from this chance.
const BAD_FROM: f64 = 0.5;

/// What is shown on the grid.
struct Shown<'a> {
    here: Vec<&'a ShotAt>,
    bad: Vec<bool>,
    typed: Vec<Tear>,
    mean: Option<Tear>,
    aim: (f64, f64),
    tolerance: f64,
}

impl<'a> Shown<'a> {
    fn of(app: &'a App) -> Self {
        let timeline = app.timeline();
        let setting = timeline.setting_index();
        let all = timeline.shots.iter().enumerate();
        let (here, bad) = all
            .filter(|(_, s)| s.setting == setting)
            .map(|(i, s)| {
                let doubt = app.analysis.bad.get(i).copied().unwrap_or(0.0);
                (s, s.shot.called_bad || doubt >= BAD_FROM)
            })
            .unzip();
        let estimate = app.analysis.advice.estimate.tear_mm;
        Self {
            here,
            bad,
            typed: typed(app),
            mean: estimate.map(|e| Tear::new(e.right, e.up)),
            aim: timeline.card.paper.aim,
            tolerance: timeline.card.paper.tolerance,
        }
    }

    fn reach(&self) -> f64 {
        let far = |t: Tear| t.right.abs().max(t.up.abs());
        let aim = self.aim.0.abs().max(self.aim.1.abs());
        self.here
            .iter()
            .map(|s| far(s.shot.tear()))
            .chain(self.typed.iter().map(|t| far(*t)))
            .chain(self.mean.map(far))
            .fold(self.tolerance + aim, f64::max)
            * 1.1
    }
}

/// What is being typed as a tear, drawn as it is typed.
fn typed(app: &App) -> Vec<Tear> {
    let Some(prompt) = app.prompt.as_ref().filter(|p| p.purpose == Purpose::Tear) else {
        return Vec::new();
    };
    let holes = crate::tear::read_holes(&prompt.text, app.system).unwrap_or_default();
    let shots = holes.iter().filter_map(|h| app.shot(h, "").ok());
    shots.map(|shot| shot.tear()).collect()
}

/// What the pane says, in words only.
pub(in crate::tui) fn said(app: &App) -> Vec<Row> {
    figures(app, &Shown::of(app), u16::MAX)
}

/// Draws the pane.
pub fn draw(app: &App, paint: &mut Paint<'_>, area: Rect) {
    if area.height < 4 || area.width < 12 {
        return;
    }
    let shown = Shown::of(app);
    let most = (area.height / FIGURES_SHARE).clamp(FIGURES.0, FIGURES.1);
    let rows = figures(app, &shown, area.width.saturating_sub(2));
    let height = (rows.len() as u16).min(most);
    let grid = Rect::new(
        area.x + MARGIN,
        area.y,
        area.width - MARGIN,
        area.height - height - 1,
    );
    match &app.grid {
        Some(cursor) => draw_sheet(app, paint, grid, cursor),
        None => draw_tears(app, paint, grid, &shown),
    }
    let text = Rect::new(area.x + 1, area.bottom() - height, area.width - 2, height);
    paint.rows(text, &rows);
}

fn draw_tears(app: &App, paint: &mut Paint<'_>, grid: Rect, shown: &Shown<'_>) {
    let plot = Plot::new(grid, shown.reach());
    axes::draw(paint, &plot, grid, Scale::tear(app.system));
    let ring = (shown.tolerance, shown.tolerance);
    plot.ellipse(paint, shown.aim, ring, Role::Tolerance);
    if let (Some(mean), Some((right, up))) = (shown.mean, app.analysis.scatter)
        && !app.look.thin
    {
        let radii = (right * words::TWO_OF_THREE, up * words::TWO_OF_THREE);
        plot.ellipse(paint, (mean.right, mean.up), radii, Role::Faint);
    }
    let latest = if shown.typed.is_empty() {
        shown.here.last().map(|s| s.shot.tear())
    } else {
        None
    };
    // A slow line is spared what is faint.
    let history = if app.look.thin { 0 } else { shown.here.len() };
    let marks = shown.here.iter().zip(&shown.bad).take(history);
    for (shot, bad) in marks {
        let c = if *bad {
            paint.glyphs.bad
        } else {
            paint.glyphs.earlier
        };
        plot.mark(paint, shot.shot.right, shot.shot.up, c, Role::Faint);
    }
    if let Some(mean) = shown.mean {
        plot.mark(paint, mean.right, mean.up, paint.glyphs.mean, Role::Mean);
    }
    for tear in shown.typed.iter().copied().chain(latest) {
        hole(paint, &plot, tear);
    }
}

/// The slit from point to nock, and the vane cuts round the nock.
fn hole(paint: &mut Paint<'_>, plot: &Plot, tear: Tear) {
    plot.slit(paint, (tear.right, tear.up), Role::Latest);
    let [_, upright, rising, falling] = paint.glyphs.slit;
    if let Some((x, y)) = plot.cell(tear.right, tear.up)
        && x > 1
        && y > 1
    {
        // Three vanes a third of a turn apart, the odd one up.
        for (vx, vy, c) in [
            (x, y - 1, upright),
            (x - 1, y + 1, rising),
            (x + 1, y + 1, falling),
        ] {
            vane(paint, plot, (vx, vy), c);
        }
    }
    plot.mark(paint, 0.0, 0.0, paint.glyphs.point, Role::Latest);
    plot.mark(paint, tear.right, tear.up, paint.glyphs.nock, Role::Latest);
}

/// A vane cut, where nothing that matters stands already.
fn vane(paint: &mut Paint<'_>, plot: &Plot, at: (u16, u16), c: char) {
    let dot = paint.glyphs.dot;
    let free = paint.buf.cell(at).is_some_and(|cell| {
        let s = cell.symbol();
        s == " " || s.starts_with(dot)
    });
    if free && plot.holds(at) {
        paint.cell(at.0, at.1, c, Role::Latest);
    }
}

/// The sheet while a hole is being marked.
fn draw_sheet(app: &App, paint: &mut Paint<'_>, grid: Rect, cursor: &GridCursor) {
    let far = cursor.at.right.abs().max(cursor.at.up.abs());
    let plot = Plot::new(grid, far.max(30.0) * 1.05);
    axes::draw(paint, &plot, grid, Scale::tear(app.system));
    if let Some(point) = cursor.point {
        plot.mark(
            paint,
            point.right,
            point.up,
            paint.glyphs.nock,
            Role::Latest,
        );
    }
    plot.mark(
        paint,
        cursor.at.right,
        cursor.at.up,
        paint.glyphs.cursor,
        Role::Selected,
    );
}

/// What the grid says in figures, most important first.
fn figures(app: &App, shown: &Shown<'_>, width: u16) -> Vec<Row> {
    let system = app.system;
    if let Some(cursor) = &app.grid {
        return sheet_figures(cursor, system, width);
    }
    let mut rows = Vec::new();
    let mut add = |name: &str, text: String, role: Role| {
        let room = usize::from(width).saturating_sub(NAME);
        rows.push(vec![
            (format!("{name:<NAME$}"), Role::Faint),
            (fit(&text, room), role),
        ]);
    };
    match shown.here.last() {
        Some(shot) => add(
            "latest",
            words::tear(shot.shot.tear(), system),
            Role::Latest,
        ),
        None => add("latest", "none here yet".into(), Role::Text),
    }
    if let Some(mean) = shown.mean {
        add("mean", words::tear(mean, system), Role::Mean);
    }
    let bad = shown.bad.iter().filter(|b| **b).count();
    let bad = if bad == 0 {
        String::new()
    } else {
        format!(", {bad} bad")
    };
    add(
        "here",
        format!("{}{bad}", words::count(shown.here.len(), "shot")),
        Role::Text,
    );
    if let Some((right, up)) = app.analysis.scatter {
        let round = system.tear(right.hypot(up) / 2f64.sqrt());
        let (wide, tall) = (system.tear_number(right), system.tear_number(up));
        let both = format!("{wide} wide {tall} tall");
        let unlike = right.max(up) > UNLIKE * right.min(up) && right.max(up) > TELLING;
        let words = match unlike && NAME + both.len() <= usize::from(width) {
            true => both,
            false => format!("about {round}"),
        };
        add("scatter", words, Role::Text);
    }
    add(
        "ring",
        format!("within {}", system.tear(shown.tolerance)),
        Role::Tolerance,
    );
    if let Some(shot) = shown
        .here
        .last()
        .filter(|s| width >= 30 && s.shot.said.is_some())
    {
        let said = shot.shot.said.clone().unwrap_or_default();
        add("typed", said, Role::Faint);
    }
    rows
}

fn sheet_figures(cursor: &GridCursor, system: System, width: u16) -> Vec<Row> {
    let (what, tear) = match cursor.tear() {
        Some(tear) => ("nock", words::tear(tear, system)),
        None => ("point", "put it on the point hole".into()),
    };
    let mut rows = super::paint::wrap(&format!("{what}: {tear}"), Role::Strong, width, 2);
    if !cursor.count.is_empty() {
        rows.push(row(format!("next arrow goes {}", cursor.count), Role::Text));
    }
    rows
}
