//! The convergence pane: how the tear comes in, shot by shot.
//!
//! ```text
//! | mm from wanted          |  what the axis counts
//! |  30-| .     :           |
//! |     O.      :           |  shots hollow, the likely tear filled and
//! |  15-| -O.-O.: O.        |  joined, moves as faint uprights
//! |     |       :   - O.  | |  the next shot's range at the end
//! |   6-|#################  |  what is within tolerance shaded, or a
//! |   0-|#################  |  dashed line where there is no shade
//! |      1 2  3   4   5     |
//! | . shot O likely : move  |
//! | WHAT THE MOVES DID ...  |  with room to spare
//! ```

use ratatui::layout::Rect;

use crate::look::Role;
use crate::tui::draw::paint::{Paint, Row, row, under, wrap};
use crate::tui::model::{Model, Series};
use crate::tui::panes::series::columns;
use crate::tui::panes::{past, trend};
use crate::tui::wording;

/// Shots told in words.
const LAST: usize = 20;
/// A pane this wide and high has room for what the moves did and the log.
const ROOMY: (u16, u16) = (28, 24);
/// From this many rows the other two series stand under the first.
const WITH_SERIES: u16 = 44;
/// Rows of one of them.
const SERIES_ROWS: u16 = 11;

/// Everything the pane says, in words only: the last shots in order, moves
/// between them, what the next should be.
pub(in crate::tui) fn said(model: &Model) -> Vec<Row> {
    let all = columns(model);
    let mut parts = Vec::new();
    for column in &all[all.len().saturating_sub(LAST)..] {
        if column.moved {
            parts.push("moved".to_owned());
        }
        let bad = if column.bad { " (not counted)" } else { "" };
        let size = model.system.tear(column.size);
        parts.push(format!("shot {} {size}{bad}", column.number));
    }
    let mut rows = Vec::new();
    if !parts.is_empty() {
        let text = format!("Distance from wanted: {}", parts.join(", "));
        rows.extend(wrap(&text, Role::Text, u16::MAX, 0));
    }
    if let Some(next) = &model.analysis.next_shot {
        let when = match model.analysis.advice.movement {
            Some(_) => "After the move",
            None => "Next shot here",
        };
        let text = format!("{when}: {}", wording::next_shot(next, model.system));
        rows.push(row(text, Role::Expected));
    }
    rows
}

/// Draws the pane.
pub fn draw(model: &Model, paint: &mut Paint<'_>, area: Rect) {
    let inside = Rect::new(
        area.x + 1,
        area.y,
        area.width.saturating_sub(2),
        area.height,
    );
    let all = columns(model);
    if all.is_empty() {
        let text = crate::words::pages::panes::NO_TEARS;
        paint.rows(inside, &wrap(text, Role::Faint, inside.width, 0));
        return;
    }
    let roomy = area.width >= ROOMY.0 && area.height >= ROOMY.1;
    let series = area.height >= WITH_SERIES;
    let others = if series { 2 * SERIES_ROWS } else { 0 };
    let past = if roomy {
        past::rows(model, paint.glyphs, inside.width, inside.height - others)
    } else {
        Vec::new()
    };
    let foot = past.len() as u16;
    let mut chart = Rect::new(area.x, area.y, area.width, area.height - foot);
    if series {
        let others = Series::ALL.into_iter().filter(|s| *s != model.series);
        for series in others.rev() {
            chart.height -= SERIES_ROWS;
            let at = Rect::new(area.x, chart.bottom(), area.width, SERIES_ROWS);
            trend::draw(model, paint, at, &all, series, false);
        }
    }
    trend::draw(model, paint, chart, &all, model.series, true);
    paint.rows(under(inside, inside.height - foot), &past);
}
