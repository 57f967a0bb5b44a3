//! One frame: what is drawn from the console as it stands.
//!
//! ```text
//! +- status line ------------------------------------------------+
//! | panes, or the screen in front                                |
//! |                                                              |
//! +- key line: keys, what is being typed, or a message ----------+
//! ```

use ratatui::Frame;
use ratatui::layout::{Constraint, Layout, Rect};

use crate::look::Role;
use crate::tui::app::App;
use crate::tui::draw::paint::{self, Paint};
use crate::tui::model::Model;
use crate::tui::panes::keyline::{self, KeyLine};
use crate::tui::panes::tear::Typing;
use crate::tui::panes::{self, status};
use crate::tui::prompt::Purpose;
use crate::words::guide;

/// Narrower or lower than this nothing useful fits.
pub(crate) const LEAST: (u16, u16) = (40, 12);

/// From this height on a message has a row of its own.
const MESSAGE_FROM: u16 = 20;

const STATUS: Constraint = Constraint::Length(1);
const MIDDLE: Constraint = Constraint::Fill(1);
const KEYS: Constraint = Constraint::Length(1);

/// Rows hints take at most.
const MOST_HINT_ROWS: usize = 2;
/// A screen lower than this has no row to spare for a hint.
const HINT_FROM: u16 = 16;

/// Draws one frame.
pub fn draw(app: &App, frame: &mut Frame<'_>) {
    let area = frame.area();
    let model = &app.model;
    let mut paint = Paint {
        buf: frame.buffer_mut(),
        theme: model.look.theme,
        glyphs: model.look.glyphs,
        cursor: None,
    };
    paint.clear(area);
    if area.width < LEAST.0 || area.height < LEAST.1 {
        too_small(model, &mut paint, area);
        return;
    }
    let mut hint = hint_rows(model, area);
    // A row of its own for what was just said, so that the keys stay in sight.
    if hint.is_empty() && area.height >= MESSAGE_FROM {
        hint.push(paint::Row::new());
    }
    let said = app.message.as_ref().filter(|_| hint_gives_way(app));
    let said = said.map(|m| keyline::message_rows(m, area.width));
    let said = said.filter(|rows| rows.len() <= hint.len());
    let above = said.is_some();
    if let Some(mut rows) = said {
        rows.resize(hint.len(), paint::Row::new());
        hint = rows;
    }
    let [status_area, middle, hints, keys] =
        Layout::vertical([STATUS, MIDDLE, Constraint::Length(hint.len() as u16), KEYS]).areas(area);
    paint.rows(hints, &hint);
    status::draw(model, &mut paint, status_area);
    match app.stack.last() {
        Some(screen) => {
            let inside = paint.frame(middle, &[], &[&screen.title(model)])[0];
            let padded = Rect::new(inside.x + 1, inside.y, inside.width - 2, inside.height);
            screen.draw(model, &mut paint, padded);
        }
        None => panes::draw(model, &typing(app), &mut paint, middle),
    }
    let line = match &app.prompt {
        Some(prompt) => KeyLine::Typed(prompt, app.echo()),
        None => app
            .message
            .as_ref()
            .filter(|_| !above)
            .map_or(KeyLine::Keys, KeyLine::Said),
    };
    keyline::draw(model, line, &mut paint, keys);
    if let Some(at) = paint.cursor {
        frame.set_cursor_position(at);
    }
}

/// What is being typed or marked as a tear.
pub(super) fn typing(app: &App) -> Typing<'_> {
    let prompt = app.prompt.as_ref();
    Typing {
        tear: prompt
            .filter(|p| p.purpose == Purpose::Tear)
            .map(|p| p.text.as_str()),
        grid: app.stack.grid(),
    }
}

/// Whether what was just said may stand in place of the hint, so that the
/// keys stay in sight: not where the hint is a first step.
fn hint_gives_way(app: &App) -> bool {
    app.prompt.is_none() && app.model.hint().is_none_or(|(head, _)| head == guide::HINT)
}

/// The hint as rows over the key line; none where there is no room.
fn hint_rows(model: &Model, area: Rect) -> Vec<paint::Row> {
    let Some((head, words)) = model.hint().filter(|_| area.height >= HINT_FROM) else {
        return Vec::new();
    };
    let spans = [
        (head.as_str(), Role::Strong),
        (" ", Role::Text),
        (words.as_str(), Role::Text),
    ];
    let rows = paint::flow(&spans, area.width, 2);
    if rows.len() > MOST_HINT_ROWS {
        return Vec::new();
    }
    rows
}

fn too_small(model: &Model, paint: &mut Paint<'_>, area: Rect) {
    let quit = model.look.keymap.first(crate::actions::Action::Quit);
    let has = (area.width, area.height);
    let text = crate::words::pages::panes::too_small(LEAST, has, &quit);
    let rows = paint::wrap(&text, Role::Text, area.width, 0);
    paint.rows(area, &rows);
}
