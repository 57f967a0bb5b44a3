//! A list with a line the cursor is on, kept in sight.
//!
//! ```text
//! |   a line            |
//! | > the chosen line   |
//! |   a line            |
//! ```

use ratatui::layout::Rect;

use crate::look::Role;
use crate::tui::draw::paint::{Paint, Row, Span};

/// Draws rows, the chosen one marked and reversed; headings are rows that
/// cannot be chosen.
pub fn draw(paint: &mut Paint<'_>, area: Rect, rows: &[(Row, Option<usize>)], chosen: usize) {
    let from = lines(paint, area, rows, chosen);
    paint.place(area, from, area.height.into(), rows.len());
}

/// Draws rows in so many columns at the left; what is left beside them.
pub(crate) fn draw_left(
    paint: &mut Paint<'_>,
    area: Rect,
    columns: u16,
    rows: &[(Row, Option<usize>)],
    chosen: usize,
) -> Rect {
    let width = area.width.min(columns);
    draw(paint, Rect { width, ..area }, rows, chosen);
    Rect {
        x: area.x + width,
        width: area.width - width,
        ..area
    }
}

/// The same without the mark of how far down one is; the first row in sight.
pub(crate) fn lines(
    paint: &mut Paint<'_>,
    area: Rect,
    rows: &[(Row, Option<usize>)],
    chosen: usize,
) -> usize {
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
    from
}

/// A list with what is to be read about the chosen line under it; the list
/// gives way, but keeps a few lines in sight. `scroll` moves the text.
pub(crate) fn with_text(
    paint: &mut Paint<'_>,
    area: Rect,
    rows: &[(Row, Option<usize>)],
    chosen: usize,
    text: &[Row],
    scroll: u16,
) {
    const LEAST_LIST: u16 = 3;
    keeping(LEAST_LIST, paint, area, rows, chosen, text, scroll);
}

/// The same, with at least so many lines of the list in sight, as far as
/// two thirds of the height go.
pub(crate) fn keeping(
    least: u16,
    paint: &mut Paint<'_>,
    area: Rect,
    rows: &[(Row, Option<usize>)],
    chosen: usize,
    text: &[Row],
    scroll: u16,
) {
    let wanted = (text.len() as u16).saturating_add(1);
    let least = least
        .min(area.height * 2 / 3)
        .clamp(1, rows.len().max(1) as u16);
    let high = area
        .height
        .saturating_sub(wanted)
        .max(least)
        .min(rows.len() as u16)
        .min(area.height);
    draw(
        paint,
        Rect::new(area.x, area.y, area.width, high),
        rows,
        chosen,
    );
    if area.height > high + 1 {
        let under = Rect::new(
            area.x,
            area.y + high + 1,
            area.width,
            area.height - high - 1,
        );
        paint.scrolled(under, text, scroll);
    }
}

/// A line to choose, on as many rows as it takes.
pub(crate) fn wrapped(
    text: &str,
    role: Role,
    n: usize,
    width: u16,
    hang: u16,
) -> Vec<(Row, Option<usize>)> {
    crate::tui::draw::paint::wrap(text, role, width.saturating_sub(2), hang)
        .into_iter()
        .enumerate()
        .map(|(i, row)| (row, (i == 0).then_some(n)))
        .collect()
}
