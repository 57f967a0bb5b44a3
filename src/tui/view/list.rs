//! A list with a line the cursor is on, kept in sight.
//!
//! ```text
//! |   a line            |
//! | > the chosen line   |
//! |   a line            |
//! ```

use ratatui::layout::Rect;

use super::paint::{Paint, Row, Span};
use crate::tui::theme::Role;

/// Draws rows, the chosen one marked and reversed; headings are rows that
/// cannot be chosen.
pub fn draw(paint: &mut Paint<'_>, area: Rect, rows: &[(Row, Option<usize>)], chosen: usize) {
    let height = usize::from(area.height);
    let at = rows
        .iter()
        .position(|(_, n)| *n == Some(chosen))
        .unwrap_or(0);
    let from = at
        .saturating_sub(height / 2)
        .min(rows.len().saturating_sub(height));
    for (i, (row, n)) in rows.iter().skip(from).take(height).enumerate() {
        let y = area.y + i as u16;
        let here = *n == Some(chosen);
        let mark = if here { paint.glyphs.here } else { ' ' };
        let role = if here { Role::Strong } else { Role::Text };
        paint.cell(area.x, y, mark, role);
        let spans: Vec<Span> = if here {
            row.iter()
                .map(|(t, _)| (t.clone(), Role::Selected))
                .collect()
        } else {
            row.clone()
        };
        paint.row(area.x + 2, y, &spans, area.width.saturating_sub(2));
    }
    let [up, down] = paint.glyphs.more;
    if from > 0 {
        paint.cell(area.right(), area.y, up, Role::Strong);
    }
    if from + height < rows.len() {
        paint.cell(
            area.right(),
            area.bottom().saturating_sub(1),
            down,
            Role::Strong,
        );
    }
}
