//! The four checks with their figures: the second part of the page behind `w`.
//!
//! ```text
//! | SAFETY: ok                            |
//! |   6.9 gr/lb, limit 5 gr/lb            |
//! |   what it says                        |
//! | ARROW SPINE: borderline               |
//! ```

use crate::look::Role;
use crate::tui::draw::paint::{Row, wrap};
use crate::tui::model::Model;
use crate::tui::panes::next_step::status_role;
use crate::tui::wording;
use crate::words;

/// Each check: what it asks, and what it says with its figure and limit.
pub(crate) fn rows(model: &Model, width: u16) -> Vec<Row> {
    let advice = &model.analysis.advice;
    let mut rows: Vec<Row> = Vec::new();
    for ((kind, status), asks) in advice.checks.each().into_iter().zip(words::help::ASKS) {
        rows.push(vec![
            (
                format!("{}: ", words::check_name(kind).to_uppercase()),
                Role::Strong,
            ),
            (words::status(status).into(), status_role(status)),
        ]);
        rows.extend(wrap(asks, Role::Faint, width, 0));
        let text = words::check(&advice.checks, kind, model.system);
        rows.extend(wrap(&text, Role::Text, width, 0));
        rows.push(Row::new());
    }
    for (kind, gain) in &advice.estimate.gain {
        let text = format!(
            "{}: {}",
            kind.spoken(),
            wording::gain(*kind, gain, model.system)
        );
        rows.extend(wrap(&text, Role::Text, width, 2));
    }
    rows
}
