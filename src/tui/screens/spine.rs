//! The spine check in detail: the arrow as a column, how it bends, whether
//! it suits the bow, and what would change that.
//!
//! ```text
//! +- The arrow as a column ----------------------+
//! |  ..                                    ..    |  its first bending shape
//! | ---o----------------------------------o----- |  straight, the still places ringed
//! |      ....                        ....        |
//! |          ........................            |
//! |  60 lb (===---------------^------------->    |  nock, vanes, balance, point
//! | weights, still places, swing                 |
//! | ARROW SPINE: ok                              |
//! | in words, and what that rests on             |
//! | WHAT WOULD CHANGE IT                         |
//! +----------------------------------------------+
//! ```

use ratatui::layout::Rect;

use crate::actions::{Action, Scope};
use crate::checks::spine::{arrow_spec, assess, bow_spec, stops};
use crate::look::{Glyphs, Role};
use crate::physics::SpineGrade;
use crate::physics::bending::Bending;
use crate::physics::column::ArrowSpec;
use crate::session::Timeline;
use crate::trouble::{cut_wants_a_mark, offers_now};
use crate::tui::draw::paint::{Paint, Row, row, wrap};
use crate::tui::effects::Effect;
use crate::tui::model::Model;
use crate::tui::panes::next_step::status_role;
use crate::tui::screen::Screen;
use crate::tui::travel::scrolled;
use crate::words;
use crate::words::pages::column;

/// Rows for the bent shape, the middle one being the straight arrow.
const BEND_ROWS: i32 = 5;
/// Columns in front of the nock, for what pushes.
const PUSH: usize = 9;

/// The screen.
#[derive(Debug, Default)]
pub(crate) struct SpineScreen {
    scroll: u16,
}

/// Where along a drawn arrow of so many columns a place is.
fn along(x_m: f64, arrow: &ArrowSpec, columns: usize) -> usize {
    let share = (x_m / arrow.shaft_length_m).clamp(0.0, 1.0);
    (share * (columns - 1) as f64).round() as usize
}

/// The bent arrow over the straight one.
fn bend(arrow: &ArrowSpec, bending: &Bending, glyphs: &Glyphs, columns: usize) -> Vec<Row> {
    let middle = BEND_ROWS / 2;
    let rows = |bent: f64| (bent * f64::from(middle)).round() as i32;
    let heights: Vec<i32> = bending.shape(columns).into_iter().map(rows).collect();
    let nodes: Vec<usize> = bending
        .nodes_m
        .iter()
        .map(|x| along(*x, arrow, columns))
        .collect();
    (0..BEND_ROWS)
        .map(|row| {
            let height = middle - row;
            let line = (0..columns).map(|c| {
                if height == 0 && nodes.contains(&c) {
                    glyphs.earlier
                } else if heights[c] == height {
                    glyphs.dot
                } else if height == 0 {
                    glyphs.dashes
                } else {
                    ' '
                }
            });
            vec![(" ".repeat(PUSH) + &line.collect::<String>(), Role::Text)]
        })
        .collect()
}

/// The arrow itself: what pushes, nock, vanes, balance point, point.
fn drawn(arrow: &ArrowSpec, pounds: f64, glyphs: &Glyphs, columns: usize) -> Row {
    let mut line = vec![glyphs.frame[0]; columns];
    let vanes = along(arrow.vane_position_m, arrow, columns);
    let half = along(0.02, arrow, columns).max(1);
    for cell in &mut line[vanes.saturating_sub(half)..=(vanes + half).min(columns - 1)] {
        *cell = '=';
    }
    line[along(arrow.balance_m(), arrow, columns)] = glyphs.under;
    line[0] = '(';
    line[columns - 1] = '>';
    let push = format!("{:.0} lb {}", pounds, glyphs.here);
    vec![
        (format!("{push:>width$} ", width = PUSH - 1), Role::Strong),
        (line.into_iter().collect(), Role::Strong),
    ]
}

fn changes(timeline: &Timeline, grade: SpineGrade, width: u16) -> Vec<Row> {
    let mut rows = vec![row("WHAT WOULD CHANGE IT", Role::Title)];
    if grade == SpineGrade::Matched {
        rows.extend(wrap(column::NOTHING_TO_CHANGE, Role::Text, width, 0));
        return rows;
    }
    for offer in offers_now(timeline) {
        rows.extend(wrap(
            &words::trouble::offer_title(&offer),
            Role::Strong,
            width,
            0,
        ));
        rows.extend(wrap(
            &format!("  {}", words::trouble::offer(&offer)),
            Role::Text,
            width,
            2,
        ));
    }
    if cut_wants_a_mark(&timeline.card) {
        rows.extend(wrap(column::NOT_CUT, Role::Text, width, 0));
    }
    let sizes = column::sizes(stops(&timeline.card));
    rows.extend(wrap(&sizes, Role::Faint, width, 0));
    rows
}

fn rows(model: &Model, glyphs: &Glyphs, width: u16) -> Vec<Row> {
    let timeline = model.timeline();
    let card = &timeline.card;
    let arrow = arrow_spec(card);
    let bending = Bending::of(&arrow, &bow_spec(card));
    let columns = usize::from(width).saturating_sub(PUSH + 1).clamp(16, 90);
    let mut rows = bend(&arrow, &bending, glyphs, columns);
    rows.push(drawn(
        &arrow,
        card.bow.peak_weight.pounds(),
        glyphs,
        columns,
    ));
    rows.push(Row::new());
    for text in [
        column::weights(&arrow, card.bow.peak_weight.newtons()),
        column::swing(&arrow, &bending, model.system),
    ] {
        rows.extend(wrap(&text, Role::Text, width, 0));
    }
    let report = assess(timeline);
    let found = &report.computed;
    rows.push(Row::new());
    rows.push(vec![
        ("ARROW SPINE: ".into(), Role::Strong),
        (
            crate::words::status(report.status).into(),
            status_role(report.status),
        ),
    ]);
    rows.extend(wrap(&crate::words::spine(&report), Role::Text, width, 0));
    rows.push(Row::new());
    rows.extend(changes(timeline, found.grade, width));
    rows.push(Row::new());
    let band = column::band(found, card.bow.release);
    rows.extend(wrap(&band, Role::Text, width, 0));
    rows.push(Row::new());
    let standing = column::standing(&found.reference);
    rows.extend(wrap(&standing, Role::Faint, width, 0));
    rows
}

impl Screen for SpineScreen {
    fn scope(&self) -> Scope {
        Scope::Reading
    }
    fn title(&self, _model: &Model) -> String {
        "The arrow as a column".into()
    }
    fn about(&self) -> &'static str {
        crate::words::screens::SPINE
    }
    fn act(&mut self, action: Action, _model: &Model) -> Vec<Effect> {
        self.scroll = scrolled(self.scroll, action);
        Vec::new()
    }
    fn draw(&self, model: &Model, paint: &mut Paint<'_>, area: Rect) {
        let stop = model.stop_line();
        let mut all = stop.map_or_else(Vec::new, |stop| wrap(&stop, Role::Bad, area.width, 0));
        all.extend(rows(model, paint.glyphs, area.width));
        paint.scrolled(area, &all, self.scroll);
    }
}
