//! A plane in mm on character cells: marks in cells, curves in braille or dots.

use ratatui::layout::Rect;

use crate::look::Role;
use crate::tui::draw::paint::Paint;

/// A cell is about twice as high as it is wide.
const CELL_ASPECT: f64 = 2.0;

/// Half-widths the zoom stops at, mm: few, so that the picture seldom jumps.
const STOPS: [f64; 16] = [
    8.0, 12.0, 16.0, 20.0, 25.0, 30.0, 40.0, 50.0, 60.0, 80.0, 100.0, 150.0, 250.0, 500.0, 1000.0,
    2000.0,
];

/// Millimetres a column the zoom of a cropped plane stops at.
const CROPS: [f64; 18] = [
    0.3, 0.4, 0.5, 0.6, 0.8, 1.0, 1.25, 1.5, 2.0, 2.5, 3.0, 4.0, 6.0, 8.0, 12.0, 20.0, 40.0, 80.0,
];

/// A plane on cells, the point hole at zero.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Plot {
    area: Rect,
    mm_per_col: f64,
    /// What stands in the middle, mm.
    centre: (f64, f64),
}

impl Plot {
    /// A plane that shows at least `reach` mm each way.
    pub fn new(area: Rect, reach: f64) -> Self {
        let half = STOPS
            .iter()
            .copied()
            .find(|s| *s >= reach)
            .unwrap_or(STOPS[STOPS.len() - 1]);
        // A row counts for two columns; one cell each way is the middle itself.
        let cols = f64::from(area.width.saturating_sub(1).max(2));
        let rows = f64::from(area.height.saturating_sub(1).max(2)) * CELL_ASPECT;
        Self {
            area,
            mm_per_col: 2.0 * half / cols.min(rows),
            centre: (0.0, 0.0),
        }
    }

    /// A plane cropped to what lies between two corners, mm: as large as the
    /// area allows, a millimetre as long upright as it is across.
    pub(crate) fn around(area: Rect, low: (f64, f64), high: (f64, f64)) -> Self {
        let cols = f64::from(area.width.saturating_sub(3).max(2));
        let rows = f64::from(area.height.saturating_sub(2).max(1)) * CELL_ASPECT;
        let needed = ((high.0 - low.0) / cols).max((high.1 - low.1) / rows);
        let fits = |mm: &&f64| **mm >= needed;
        let mm_per_col = *CROPS.iter().find(fits).unwrap_or(&CROPS[CROPS.len() - 1]);
        // Whole cells from zero, so that marks keep their places among
        // themselves whatever else comes in.
        let snap = |mm: f64, cell: f64| (mm / cell).round() * cell;
        Self {
            area,
            mm_per_col,
            centre: (
                snap((low.0 + high.0) / 2.0, mm_per_col),
                snap((low.1 + high.1) / 2.0, mm_per_col * CELL_ASPECT),
            ),
        }
    }

    /// The place in the middle of a cell, mm.
    fn place(&self, (x, y): (u16, u16)) -> (f64, f64) {
        let (cx, cy) = self.middle();
        (
            self.centre.0 + (f64::from(x) - cx) * self.mm_per_col,
            self.centre.1 - (f64::from(y) - cy) * self.mm_per_col * CELL_ASPECT,
        )
    }

    /// Shades what is within a circle, where the theme has a shade: to be called
    /// after everything else is drawn.
    pub(crate) fn disc(&self, paint: &mut Paint<'_>, centre: (f64, f64), radius: f64) {
        let area = self.area;
        let all = (area.top()..area.bottom())
            .flat_map(|y| (area.left()..area.right()).map(move |x| (x, y)));
        let within = all.filter(|at| {
            let (right, up) = self.place(*at);
            (right - centre.0).hypot(up - centre.1) <= radius
        });
        paint.shade(within);
    }

    /// Millimetres in one column.
    pub(crate) const fn mm_per_col(&self) -> f64 {
        self.mm_per_col
    }

    fn middle(&self) -> (f64, f64) {
        (
            f64::from(self.area.x) + f64::from(self.area.width - 1) / 2.0,
            f64::from(self.area.y) + f64::from(self.area.height - 1) / 2.0,
        )
    }

    /// The cell of a place, if it is on the plane.
    pub(crate) fn cell(&self, right: f64, up: f64) -> Option<(u16, u16)> {
        let (cx, cy) = self.middle();
        let x = (cx + (right - self.centre.0) / self.mm_per_col).round();
        let y = (cy - (up - self.centre.1) / (self.mm_per_col * CELL_ASPECT)).round();
        let inside = x >= f64::from(self.area.left())
            && x < f64::from(self.area.right())
            && y >= f64::from(self.area.top())
            && y < f64::from(self.area.bottom());
        inside.then_some((x as u16, y as u16))
    }

    /// A mark at a place.
    pub(crate) fn mark(&self, paint: &mut Paint<'_>, right: f64, up: f64, c: char, role: Role) {
        if let Some((x, y)) = self.cell(right, up) {
            paint.cell(x, y, c, role);
        }
    }

    /// An ellipse around a place.
    pub fn ellipse(
        &self,
        paint: &mut Paint<'_>,
        centre: (f64, f64),
        radii: (f64, f64),
        role: Role,
    ) {
        self.turned(paint, centre, radii, 0.0, role);
    }

    /// An ellipse whose first radius is turned by an angle, radians, against
    /// the clock from the right.
    pub(crate) fn turned(
        &self,
        paint: &mut Paint<'_>,
        centre: (f64, f64),
        radii: (f64, f64),
        turn: f64,
        role: Role,
    ) {
        let (sin, cos) = turn.sin_cos();
        if radii.0 < self.mm_per_col / 2.0 && radii.1 < self.mm_per_col / 2.0 {
            return;
        }
        let around = std::f64::consts::TAU * radii.0.max(radii.1) / self.mm_per_col;
        // Braille has two dots a column, so half a column a step leaves no gap.
        let steps =
            (around * if paint.glyphs.braille { 3.0 } else { 1.2 }).clamp(12.0, 600.0) as usize;
        let points = (0..steps).map(|i| {
            let angle = std::f64::consts::TAU * i as f64 / steps as f64;
            let (along, across) = (radii.0 * angle.cos(), radii.1 * angle.sin());
            (
                centre.0 + along * cos - across * sin,
                centre.1 + along * sin + across * cos,
            )
        });
        if paint.glyphs.braille {
            self.braille(paint, points, role);
        } else {
            for (right, up) in points {
                self.mark(paint, right, up, paint.glyphs.dot, role);
            }
        }
    }

    fn braille(&self, paint: &mut Paint<'_>, points: impl Iterator<Item = (f64, f64)>, role: Role) {
        // Bits of a braille cell, by column and row of its eight dots.
        const BITS: [[u32; 4]; 2] = [[0x01, 0x02, 0x04, 0x40], [0x08, 0x10, 0x20, 0x80]];
        let (cx, cy) = self.middle();
        let mut cells: Vec<((u16, u16), u32)> = Vec::new();
        for (right, up) in points {
            let x = cx + 0.5 + (right - self.centre.0) / self.mm_per_col;
            let y = cy + 0.5 - (up - self.centre.1) / (self.mm_per_col * CELL_ASPECT);
            if x < f64::from(self.area.left())
                || y < f64::from(self.area.top())
                || x >= f64::from(self.area.right())
                || y >= f64::from(self.area.bottom())
            {
                continue;
            }
            let at = (x as u16, y as u16);
            let bit = BITS[(x.fract() * 2.0) as usize][(y.fract() * 4.0) as usize];
            match cells.iter_mut().rev().find(|(cell, _)| *cell == at) {
                Some((_, bits)) => *bits |= bit,
                None => cells.push((at, bit)),
            }
        }
        for ((x, y), bits) in cells {
            if let Some(c) = char::from_u32(0x2800 + bits) {
                paint.cell(x, y, c, role);
            }
        }
    }

    /// The slit from the point hole to a nock hole, the ends left free.
    pub(crate) fn slit(&self, paint: &mut Paint<'_>, to: (f64, f64), role: Role) {
        let (Some(from), Some(end)) = (self.cell(0.0, 0.0), self.cell(to.0, to.1)) else {
            return;
        };
        let (dx, dy) = (
            i32::from(end.0) - i32::from(from.0),
            i32::from(end.1) - i32::from(from.1),
        );
        let steps = dx.abs().max(dy.abs());
        let at = |i: i32| {
            let part = |from: u16, by: i32| {
                (f64::from(from) + f64::from(by * i) / f64::from(steps)).round() as u16
            };
            (part(from.0, dx), part(from.1, dy))
        };
        let [flat, upright, rising, falling] = paint.glyphs.slit;
        let slope = if (dx > 0) == (dy < 0) {
            rising
        } else {
            falling
        };
        // A long flat slit steps from row to row; its steps need no sign.
        let shallow = dx.abs() > 3 * dy.abs();
        for i in 1..steps {
            let (before, here) = (at(i - 1), at(i));
            let c = match (before.0 == here.0, before.1 == here.1) {
                (_, true) => flat,
                (true, false) => upright,
                (false, false) if shallow => flat,
                (false, false) => slope,
            };
            paint.cell(here.0, here.1, c, role);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_point_hole_is_in_the_middle_and_right_is_right() {
        let plot = Plot::new(Rect::new(0, 0, 25, 13), 10.0);
        assert_eq!(plot.cell(0.0, 0.0), Some((12, 6)));
        let (x, y) = plot.cell(6.0, 6.0).unwrap();
        assert!(x > 12 && y < 6);
        assert_eq!(plot.cell(500.0, 0.0), None);
    }

    #[test]
    fn a_cropped_plane_holds_its_corners_and_a_millimetre_is_square() {
        for (width, height) in [(25, 12), (40, 30), (12, 6)] {
            let area = Rect::new(3, 2, width, height);
            for (low, high) in [
                ((-21.0, -6.0), (6.0, 6.0)),
                ((-6.0, -40.0), (6.0, 6.0)),
                ((0.0, 0.0), (300.0, 10.0)),
            ] {
                let plot = Plot::around(area, low, high);
                for (right, up) in [low, high, (0.0, 0.0)] {
                    assert!(plot.cell(right, up).is_some(), "{area} {right} {up}");
                }
                let (x, y) = plot.cell(0.0, 0.0).unwrap();
                let (right, up) = plot.place((x, y));
                let cell = plot.mm_per_col();
                let near = |mm: f64, cell: f64| mm.abs() <= cell / 2.0 + 1e-9;
                assert!(near(right, cell) && near(up, 2.0 * cell), "{right} {up}");
                // Ten columns across are as long as five rows up.
                let (a, _) = plot.place((x + 10, y));
                let (_, b) = plot.place((x, y.saturating_sub(5)));
                if y >= 5 {
                    assert!(((a - right) - (b - up)).abs() < 1e-9);
                }
            }
        }
    }
}
