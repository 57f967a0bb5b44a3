//! How the verdict was reached: the first part of the page behind `w`.
//!
//! ```text
//! | Rest OUT 2.25 mm                     |
//! | each reason, with figure and limit   |
//! | the reckoning, line by line          |
//! ```

use super::checks::figure;
use super::paint::{Row, row, wrap};
use crate::tui::state::App;
use crate::tui::theme::Role;

/// Every reason with its figure, then the reckoning.
pub(super) fn rows(app: &App, width: u16) -> Vec<Row> {
    let advice = &app.analysis.advice;
    let mut rows: Vec<Row> = Vec::new();
    rows.extend(wrap(&advice.headline, Role::Strong, width, 2));
    for reason in &advice.reasons {
        rows.push(Row::new());
        rows.extend(wrap(&reason.text, Role::Text, width, 0));
        if let (Some(value), Some(unit)) = (reason.value, reason.unit) {
            let limit = reason
                .limit
                .map_or(String::new(), |l| format!(", limit {}", figure(l, unit)));
            let text = format!("  figure {}{limit}", figure(value, unit));
            rows.extend(wrap(&text, Role::Strong, width, 2));
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
            rows.extend(wrap(line, Role::Text, width, 2));
        }
    }
    rows
}
