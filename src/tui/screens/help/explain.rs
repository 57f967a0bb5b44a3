//! What is on the three panes now, in the trade's words, for `?`.

use crate::advice::Verdict;
use crate::tear::Tear;
use crate::tui::model::Model;
use crate::tui::screens::help::checks::ASKS;
use crate::words;

/// Shorter than this, mm, a hole is one hole.
const ONE_HOLE: f64 = 1.0;

/// How to read the panes and type a tear.
const PANES: &str = "Tear: where the nock went through, seen from the point hole in the middle, right and up as the shooter sees it. What is shaded, or ringed with dots, is within tolerance. Next step: the verdict, what to do, and why. Convergence: how far each tear is from the wanted one, the likely tear, and moves across the chart. Type a tear as you would say it: 12 left 4 high. Several holes of one sheet with ; between. #3 names the arrow; bad, bare, ragged and slit may follow.";

/// Paragraphs: this tear, this verdict, these checks, then how to read and type.
pub(crate) fn panes(model: &Model) -> Vec<String> {
    let mut out = vec![
        "What is on the screen now; every key is further down.".to_owned(),
        tear(model),
        verdict(model),
    ];
    out.extend(checks(model));
    out.push(marks(model));
    out.push(PANES.to_owned());
    out
}

fn tear(model: &Model) -> String {
    let Some(shot) = model.timeline().shots_here().last() else {
        return "NOW: no shot at this setting yet. A tear is where the nock end cut the paper, against where the point went in; it shows how the arrow leaves the bow."
            .into();
    };
    let tear = shot.shot.tear();
    let size = words::tear_with_unit(tear, model.system);
    format!("NOW: the latest tear is {size}. {}", flew(tear))
}

/// How the arrow went through the paper.
fn flew(tear: Tear) -> String {
    if tear.length() < ONE_HOLE {
        return "The tail followed the point through one hole: the arrow flew straight there."
            .into();
    }
    let mut ways = Vec::new();
    let mut add = |size: f64, minus: &'static str, plus: &'static str| {
        if size.abs() >= ONE_HOLE {
            ways.push(if size < 0.0 { minus } else { plus });
        }
    };
    add(tear.right, "left", "right");
    add(tear.up, "low", "high");
    format!(
        "The tail went through {} of the point: a nock-{} tear.",
        ways.join(" and "),
        ways.join(" nock-")
    )
}

fn verdict(model: &Model) -> String {
    let verdict = model.analysis.advice.verdict;
    let means = match verdict {
        Verdict::Shoot => {
            "more shots at this setting tell more than any move would; leave the bow as it is."
        }
        Verdict::Move => {
            "the shots here mean enough to act on. Take the move to the bench, make it, say how it went, shoot again. The first move on a bow is a test of which way it answers."
        }
        Verdict::Probe => {
            "one question must be settled before a move makes sense; the pane says what to try."
        }
        Verdict::Refuse => {
            "moving the rest now would be a guess: the arrow does not suit, the shots do not repeat, or the tear does not follow. The pane says which, and what to do instead."
        }
        Verdict::Done => {
            "paper is not the end: shoot bare against fletched at distance before calling it tuned."
        }
        Verdict::Stop => "something must be put right or looked over before the next arrow.",
    };
    format!("{}: {means}", words::verdict_title(verdict))
}

fn checks(model: &Model) -> Vec<String> {
    let said = model.said();
    let all = said.checks.each().into_iter().zip(ASKS);
    all.map(|((kind, check), asks)| {
        let (name, state) = (words::check_name(kind), words::status(check.status));
        format!("{name} ({state}): {asks} {}", check.text)
    })
    .collect()
}

/// What the marks are, as they are drawn here.
fn marks(model: &Model) -> String {
    let g = model.look.glyphs;
    format!(
        "MARKS: {} the point hole, {} the last nock hole, {} earlier ones, {} a shot that is not counted. In the chart {} a shot, {} the likely tear, {} a move, {} the range of the next shot.",
        g.point, g.nock, g.earlier, g.bad, g.earlier, g.likely, g.moved, g.range
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_tear_is_named_as_the_trade_names_it() {
        assert!(flew(Tear::new(-12.0, 4.0)).contains("nock-left nock-high tear"));
        assert!(flew(Tear::new(0.2, -3.0)).contains("a nock-low tear"));
        assert!(flew(Tear::new(0.3, 0.0)).contains("one hole"));
    }
}
