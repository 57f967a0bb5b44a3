//! How the verdict was reached: the first part of the page behind `w`.
//!
//! ```text
//! | Rest OUT 2.25 mm                     |
//! | each reason, with figure and limit   |
//! | the reckoning, line by line          |
//! ```

use crate::look::Role;
use crate::tui::draw::paint::{Row, row, wrap};
use crate::tui::model::Model;
use crate::words;

/// Every reason with its figure, then the reckoning.
pub(crate) fn rows(model: &Model, width: u16) -> Vec<Row> {
    let advice = &model.analysis.advice;
    let mut rows: Vec<Row> = Vec::new();
    rows.extend(wrap(
        &words::headline_here(model.timeline(), &model.analysis, model.system),
        Role::Strong,
        width,
        2,
    ));
    for found in &advice.findings {
        rows.push(Row::new());
        let text = words::say(found, model.system);
        rows.extend(wrap(&text, Role::Text, width, 0));
    }
    let made;
    let reckoning = if model.analysis.reckoning.is_empty() {
        made = crate::advice::reckoning(model.timeline());
        &made
    } else {
        &model.analysis.reckoning
    };
    if !reckoning.is_empty() {
        rows.push(Row::new());
        rows.push(row(words::help::RECKONING, Role::Title));
        for line in reckoning {
            let text = words::reckoned(line, model.system);
            let text = text.replace('±', model.look.glyphs.about);
            rows.extend(wrap(&text, Role::Text, width, 2));
        }
    }
    rows
}
