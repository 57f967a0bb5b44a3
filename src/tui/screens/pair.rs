//! Two holes beside one another, to one scale: before a move and after it.
//!
//! ```text
//! | shot 2        shot 3        |
//! | 1 left        1 right       |
//! | 27 low        9 low         |
//! |       :             :       |
//! | ------@----   ------@----   |
//! |       |             *       |
//! |       *             :       |
//! | Rest DOWN 3.00 mm           |
//! |   (12 clicks)               |
//! ```

use ratatui::layout::Rect;

use crate::look::Role;
use crate::tear::Tear;
use crate::tui::draw::paint::{Paint, wrap};
use crate::tui::draw::plot::Plot;
use crate::tui::model::Model;
use crate::tui::panes::tear::hole;
use crate::tui::wording;
use crate::words::order;

/// Rows over the holes, for what they are.
const HEAD: u16 = 3;
/// Rows under them, for the move between.
const FOOT: u16 = 2;
/// Columns kept between the two.
const GAP: u16 = 2;
/// Neither is drawn wider or higher than this.
const WIDEST: u16 = 36;
const HIGHEST: u16 = 14;
/// Smaller than this it is not drawn.
pub(crate) const LEAST: (u16, u16) = (28, HEAD + FOOT + 5);

/// The two holes.
pub(crate) struct Pair {
    holes: [(String, Tear); 2],
    between: Option<String>,
}

impl Pair {
    /// The last hole before the latest move and the last one after it; where
    /// nothing was moved yet, or nothing shot since, the two latest holes.
    pub(crate) fn latest(model: &Model) -> Option<Self> {
        let timeline = model.timeline();
        let shots = &timeline.shots;
        let last = shots.len().checked_sub(1)?;
        let moved = timeline.moves.last().map(|m| m.shots_before);
        let before = moved
            .filter(|n| *n > 0 && *n <= last)
            .map_or(last.checked_sub(1), |n| Some(n - 1))?;
        Some(Self::of(model, before, last))
    }

    /// The first hole of the session and the last.
    pub(crate) fn whole(model: &Model) -> Option<Self> {
        let last = model.timeline().shots.len().checked_sub(1)?;
        (last > 0).then(|| Self::of(model, 0, last))
    }

    fn of(model: &Model, before: usize, after: usize) -> Self {
        let timeline = model.timeline();
        let shots = &timeline.shots;
        let named = |n: usize| {
            let tear = shots[n].shot.tear();
            (format!("shot {}", n + 1), tear)
        };
        let from = timeline.settings[shots[before].setting].positions;
        let steps = from.steps_to(&timeline.settings[shots[after].setting].positions);
        let between =
            (!steps.is_empty()).then(|| wording::steps(&steps, &timeline.card, model.system));
        Self {
            holes: [named(before), named(after)],
            between,
        }
    }

    /// Draws both; the rows they took, none where there is no room.
    pub fn draw(&self, model: &Model, paint: &mut Paint<'_>, area: Rect) -> u16 {
        if area.width < LEAST.0 || area.height < LEAST.1 {
            return 0;
        }
        let wide = ((area.width - GAP) / 2).min(WIDEST);
        let high = (area.height - HEAD - FOOT).min(HIGHEST);
        let tolerance = model.timeline().card.paper.tolerance;
        let aim = model.timeline().card.paper.aim;
        let (low, top) = self.corners(aim, tolerance);
        for (i, (name, tear)) in self.holes.iter().enumerate() {
            let x = area.x + i as u16 * (wide + GAP);
            paint.put(x, area.y, name, Role::Strong, wide);
            let sides = order::sides(*tear, model.system);
            let sides: Vec<String> = sides.into_iter().flatten().collect();
            for (row, side) in (1..HEAD).zip(&sides) {
                paint.put(x, area.y + row, side, Role::Text, wide);
            }
            if sides.is_empty() {
                paint.put(x, area.y + 1, "clean", Role::Text, wide);
            }
            let grid = Rect::new(x, area.y + HEAD, wide, high);
            let plot = Plot::around(grid, low, top);
            axes(paint, &plot, grid);
            plot.ellipse(paint, aim, (tolerance, tolerance), Role::Faint);
            hole(paint, &plot, *tear, false);
        }
        let text = match &self.between {
            Some(moved) => format!("between: {moved}"),
            None => "both at one setting".to_owned(),
        };
        let foot = Rect::new(area.x, area.y + HEAD + high, area.width, FOOT);
        paint.rows(foot, &wrap(&text, Role::Faint, area.width, 2));
        HEAD + high + FOOT
    }

    /// The corners of what both have to hold, mm.
    fn corners(&self, aim: (f64, f64), tolerance: f64) -> ((f64, f64), (f64, f64)) {
        let (mut low, mut high) = ((0.0f64, 0.0f64), (0.0f64, 0.0f64));
        let tears = self.holes.iter().map(|(_, t)| (t.right, t.up));
        let ring = [-tolerance, tolerance].map(|edge| (aim.0 + edge, aim.1 + edge));
        for (x, y) in tears.chain(ring) {
            low = (low.0.min(x), low.1.min(y));
            high = (high.0.max(x), high.1.max(y));
        }
        (low, high)
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
