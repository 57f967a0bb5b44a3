//! The axes of a plane in mm, and the figures along two of its sides.

use ratatui::layout::Rect;

use crate::look::Role;
use crate::tui::draw::paint::Paint;
use crate::tui::draw::plot::Plot;
use crate::units::{MM_PER_INCH, System, format_fraction, trim_number};

/// Columns kept for the figures at the left edge.
pub(crate) const MARGIN: u16 = 4;

/// What the figures count.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Scale {
    unit: &'static str,
    mm: f64,
    steps: [f64; 6],
    inches: bool,
}

impl Scale {
    /// A sheet of paper: mm, or inches in quarters.
    pub const fn tear(system: System) -> Self {
        match system {
            System::Mm => Self {
                unit: "mm",
                mm: 1.0,
                steps: [5.0, 10.0, 20.0, 50.0, 100.0, 200.0],
                inches: false,
            },
            System::Inch => Self {
                unit: "in",
                mm: MM_PER_INCH,
                steps: [0.25, 0.5, 1.0, 2.0, 4.0, 8.0],
                inches: true,
            },
        }
    }
    /// A target face: cm or inches.
    pub(crate) const fn face(system: System) -> Self {
        match system {
            System::Mm => Self {
                unit: "cm",
                mm: 10.0,
                steps: [1.0, 2.0, 5.0, 10.0, 20.0, 50.0],
                inches: false,
            },
            System::Inch => Self {
                unit: "in",
                mm: MM_PER_INCH,
                steps: [0.5, 1.0, 2.0, 4.0, 8.0, 20.0],
                inches: true,
            },
        }
    }

    /// Distance between figures, mm: at least six columns apart.
    fn tick(&self, mm_per_col: f64) -> f64 {
        let fits = |s: &&f64| **s * self.mm / mm_per_col >= 6.0;
        self.steps.iter().find(fits).unwrap_or(&self.steps[5]) * self.mm
    }

    fn label(&self, mm: f64) -> String {
        if self.inches {
            format_fraction(mm.abs() / self.mm, 4)
        } else {
            trim_number(mm.abs() / self.mm, 0)
        }
    }
}

/// The axes through the middle, and the scale along two sides.
pub fn draw(paint: &mut Paint<'_>, plot: &Plot, grid: Rect, scale: Scale) {
    let Some((cx, cy)) = plot.cell(0.0, 0.0) else {
        return;
    };
    let dot = paint.glyphs.dot;
    for x in (grid.left()..grid.right()).filter(|x| (x.abs_diff(cx)).is_multiple_of(2)) {
        paint.cell(x, cy, dot, Role::Faint);
    }
    for y in grid.top()..grid.bottom() {
        paint.cell(cx, y, dot, Role::Faint);
    }
    plot.mark(paint, 0.0, 0.0, paint.glyphs.point, Role::Text);
    let tick = scale.tick(plot.mm_per_col());
    let mut taken = grid.x;
    for i in -40i32..=40 {
        let mm = f64::from(i) * tick;
        let label = scale.label(mm);
        let wide = label.chars().count() as u16;
        if let Some((x, _)) = plot.cell(mm, 0.0) {
            let from = x.saturating_sub(wide / 2);
            if from >= taken && from + wide <= grid.right() {
                paint.put(from, grid.bottom(), &label, Role::Faint, wide);
                taken = from + wide + 1;
            }
        }
        if let Some((_, y)) = plot.cell(0.0, mm)
            && wide < MARGIN
        {
            paint.put(grid.x - 1 - wide, y, &label, Role::Faint, wide);
        }
    }
    let (at, room) = (grid.x - MARGIN + 1, MARGIN - 2);
    paint.put(at, grid.bottom(), scale.unit, Role::Faint, room);
}
