//! How the verdict was reached.
//!
//! ```text
//! +- Why --------------------------------+
//! | MOVE                                 |
//! | each reason, with figure and limit   |
//! | the reckoning, line by line          |
//! +--------------------------------------+
//! ```

use ratatui::layout::Rect;

use super::paint::{Paint, Row, row, wrap};
use super::verdict::Band;
use crate::actions::{Action, Scope};
use crate::tui::input::scrolled;
use crate::tui::screens::{Flow, Screen};
use crate::tui::state::App;
use crate::tui::theme::Role;
use crate::units::trim_number;

/// The screen.
#[derive(Debug, Default)]
pub struct WhyScreen {
    scroll: u16,
}

impl Screen for WhyScreen {
    fn scope(&self) -> Scope {
        Scope::Reading
    }
    fn title(&self, _app: &App) -> String {
        "Why".into()
    }
    fn about(&self) -> &'static str {
        "How the verdict was reached: each reason with its figure and the limit it is held against, then the reckoning behind it."
    }
    fn act(&mut self, action: Action, _app: &mut App) -> Flow {
        self.scroll = scrolled(self.scroll, action);
        Flow::Stay
    }
    fn draw(&self, app: &App, paint: &mut Paint<'_>, area: Rect) {
        let advice = &app.analysis.advice;
        let used = Band::of(app).draw(paint, Rect { height: 1, ..area });
        let area = super::paint::under(area, used);
        let mut rows: Vec<Row> = Vec::new();
        rows.extend(wrap(&advice.headline, Role::Strong, area.width, 2));
        for reason in &advice.reasons {
            rows.push(Row::new());
            rows.extend(wrap(&reason.text, Role::Text, area.width, 0));
            if let (Some(value), Some(unit)) = (reason.value, reason.unit) {
                let limit = reason.limit.map_or(String::new(), |l| {
                    format!(", limit {} {unit}", trim_number(l, 2))
                });
                let text = format!("  figure {} {unit}{limit}", trim_number(value, 2));
                rows.extend(wrap(&text, Role::Strong, area.width, 2));
            }
        }
        let made;
        let reckoning = if app.analysis.reckoning.is_empty() {
            made = crate::advice::reckoning(app.timeline(), app.system);
            &made
        } else {
            &app.analysis.reckoning
        };
        if !reckoning.is_empty() {
            rows.push(Row::new());
            rows.push(row("THE RECKONING", Role::Title));
            for line in reckoning {
                rows.extend(wrap(line, Role::Text, area.width, 2));
            }
        }
        paint.scrolled(area, &rows, self.scroll);
    }
}
