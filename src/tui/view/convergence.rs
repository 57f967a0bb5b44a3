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

use super::paint::{Paint, Row, row, under, wrap};
use super::tear::BAD_FROM;
use super::{past, trend};
use crate::advice::TrackPoint;
use crate::look::Role;
use crate::tui::model::{Model, Series};
use crate::tui::wording;
use crate::units::System;
use crate::words;

/// Shots told in words.
const LAST: usize = 20;
/// A pane this wide and high has room for what the moves did and the log.
const ROOMY: (u16, u16) = (28, 24);
/// From this many rows the other two series stand under the first.
const WITH_SERIES: u16 = 44;
/// Rows of one of them.
const SERIES_ROWS: u16 = 11;

/// One shot in the chart.
#[derive(Debug, Clone, Copy)]
pub(super) struct Column {
    pub(super) number: usize,
    right: f64,
    up: f64,
    size: f64,
    pub(super) bad: bool,
    track: Option<TrackPoint>,
    pub(super) moved: bool,
}

impl Column {
    /// The shot in a series, mm from wanted.
    pub(super) const fn shot(&self, series: Series) -> f64 {
        match series {
            Series::Distance => self.size,
            Series::Sideways => self.right,
            Series::UpDown => self.up,
        }
    }

    /// The likely tear after it, mm from wanted.
    pub(super) fn likely(&self, series: Series, (right, up): (f64, f64)) -> Option<f64> {
        let track = self.track?;
        let (right, up) = (track.right - right, track.up - up);
        Some(match series {
            Series::Distance => right.hypot(up),
            Series::Sideways => right,
            Series::UpDown => up,
        })
    }
}

pub(super) fn columns(model: &Model) -> Vec<Column> {
    let timeline = model.timeline();
    let aim = timeline.card.paper.aim;
    let shots = timeline.shots.iter().enumerate();
    shots
        .map(|(i, s)| {
            let (right, up) = (s.shot.right - aim.0, s.shot.up - aim.1);
            let doubt = model.analysis.bad.get(i).copied().unwrap_or(0.0);
            Column {
                number: i + 1,
                right,
                up,
                size: right.hypot(up),
                bad: s.shot.called_bad || doubt >= BAD_FROM,
                track: model.analysis.track.get(i).copied().flatten(),
                moved: i > 0 && timeline.shots[i - 1].setting != s.setting,
            }
        })
        .collect()
}

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
        let text = "No tears yet: they line up here";
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

/// What a series counts, for the head of its chart.
pub(super) fn counts(series: Series, system: System) -> String {
    let unit = system.unit();
    match series {
        Series::Distance => format!("{unit} from wanted"),
        Series::Sideways => format!("right above left, {unit}"),
        Series::UpDown => format!("high above low, {unit}"),
    }
}

/// The next shot in a series and how far two of three stray from it, mm from wanted.
pub(super) fn next_shot(model: &Model, series: Series) -> Option<(f64, f64)> {
    let next = model.analysis.next_shot?;
    let aim = model.timeline().card.paper.aim;
    let (right, up) = (next.right - aim.0, next.up - aim.1);
    let (at, sd) = match series {
        Series::Distance => (right.hypot(up), next.sd()),
        Series::Sideways => (right, next.sd_right),
        Series::UpDown => (up, next.sd_up),
    };
    (at.is_finite() && sd.is_finite()).then_some((at, sd * words::TWO_OF_THREE))
}
