//! Two holes beside one another, to one scale: before a move and after it.
//!
//! ```text
//! | shot 2, setting 1       shot 3, setting 2     |
//! |                 :               :             |
//! | *===============@       *=======@             |
//! |                 :               :             |
//! | between them: Rest OUT 1.50 mm                |
//! ```

use ratatui::layout::Rect;

use super::paint::{Paint, fit};
use super::plot::Plot;
use super::tear::hole;
use crate::session::ShotAt;
use crate::tear::Tear;
use crate::tui::state::App;
use crate::tui::theme::Role;
use crate::tui::wording;
use crate::words::order;

/// Rows it takes: the holes, what they are, and the move between.
pub(super) const ROWS: u16 = 9;
/// Columns kept between the two.
const GAP: u16 = 2;
/// Neither is drawn wider than this.
const WIDEST: u16 = 36;

/// The two holes.
pub(super) struct Pair {
    holes: [(String, Tear); 2],
    between: Option<String>,
}

impl Pair {
    /// The last hole before the latest move and the last one after it; where
    /// nothing was moved yet, or nothing shot since, the two latest holes.
    pub(super) fn latest(app: &App) -> Option<Self> {
        let timeline = app.timeline();
        let shots = &timeline.shots;
        let last = shots.len().checked_sub(1)?;
        let moved = timeline.moves.last().map(|m| m.shots_before);
        let before = moved
            .filter(|n| *n > 0 && *n <= last)
            .map_or(last.checked_sub(1), |n| Some(n - 1))?;
        Some(Self::of(app, before, last))
    }

    /// The first hole of the session and the last.
    pub(super) fn whole(app: &App) -> Option<Self> {
        let last = app.timeline().shots.len().checked_sub(1)?;
        (last > 0).then(|| Self::of(app, 0, last))
    }

    fn of(app: &App, before: usize, after: usize) -> Self {
        let timeline = app.timeline();
        let shots = &timeline.shots;
        let named = |n: usize| {
            let shot: &ShotAt = &shots[n];
            let setting = timeline.settings[shot.setting].number;
            let tear = shot.shot.tear();
            let size = order::tear(tear, app.system);
            (format!("{}: {size} (setting {setting})", n + 1), tear)
        };
        let from = timeline.settings[shots[before].setting].positions;
        let steps = from.steps_to(&timeline.settings[shots[after].setting].positions);
        let between = (!steps.is_empty())
            .then(|| wording::steps(&steps, &timeline.card, app.system));
        Self {
            holes: [named(before), named(after)],
            between,
        }
    }

    /// Draws both; the rows they took, none where there is no room.
    pub(super) fn draw(&self, app: &App, paint: &mut Paint<'_>, area: Rect) -> u16 {
        if area.height < ROWS || area.width < 40 {
            return 0;
        }
        let wide = ((area.width - GAP) / 2).min(WIDEST);
        let tolerance = app.timeline().card.paper.tolerance;
        let (right, up) = app.timeline().card.paper.aim;
        let (mut low, mut high) = ((0.0f64, 0.0f64), (0.0f64, 0.0f64));
        let tears = self.holes.iter().map(|(_, t)| (t.right, t.up));
        let ring = [-tolerance, tolerance].map(|edge| (right + edge, up + edge));
        for (x, y) in tears.chain(ring) {
            low = (low.0.min(x), low.1.min(y));
            high = (high.0.max(x), high.1.max(y));
        }
        for (i, (name, tear)) in self.holes.iter().enumerate() {
            let x = area.x + i as u16 * (wide + GAP);
            let name = fit(&format!("shot {name}"), wide.into());
            paint.put(x, area.y, &name, Role::Faint, wide);
            let grid = Rect::new(x, area.y + 1, wide, ROWS - 3);
            let plot = Plot::around(grid, low, high);
            axes(paint, &plot, grid);
            plot.ellipse(paint, (right, up), (tolerance, tolerance), Role::Faint);
            hole(paint, &plot, *tear, false);
        }
        let text = match &self.between {
            Some(moved) => format!("between them: {moved}"),
            None => "both at one setting".to_owned(),
        };
        paint.put(area.x, area.y + ROWS - 2, &text, Role::Faint, area.width);
        ROWS
    }
}

/// The two lines through the point's hole.
fn axes(paint: &mut Paint<'_>, plot: &Plot, grid: Rect) {
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
}
