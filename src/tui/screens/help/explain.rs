//! What is on the three panes now, in the trade's words, for `?`.

use crate::tui::model::Model;
use crate::words::{self, help};

/// Paragraphs: this tear, this verdict, these checks, then how to read and type.
pub(crate) fn panes(model: &Model) -> Vec<String> {
    let mut out = vec![
        help::NOW.to_owned(),
        tear(model),
        help::verdict(model.analysis.advice.verdict),
    ];
    out.extend(checks(model));
    out.push(marks(model));
    out.push(help::PANES.to_owned());
    out
}

fn tear(model: &Model) -> String {
    match model.timeline().shots_here().last() {
        Some(shot) => help::latest(shot.shot.tear(), model.system),
        None => help::NO_SHOT.to_owned(),
    }
}

fn checks(model: &Model) -> Vec<String> {
    let said = model.said();
    let all = said.checks.each().into_iter().zip(help::ASKS);
    all.map(|((kind, check), asks)| {
        let (name, state) = (words::check_name(kind), words::status(check.status));
        format!("{name} ({state}): {asks} {}", check.text)
    })
    .collect()
}

/// What the marks are, as they are drawn here.
fn marks(model: &Model) -> String {
    let g = model.look.glyphs;
    help::marks([
        g.point, g.nock, g.earlier, g.bad, g.earlier, g.likely, g.moved, g.range,
    ])
}
