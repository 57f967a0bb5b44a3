//! What the help page says of the panes and of the page itself.

use super::{tear_with_unit, verdict_title};
use crate::advice::Verdict;
use crate::tear::Tear;
use crate::units::System;

/// Shorter than this, mm, a hole is one hole.
const ONE_HOLE: f64 = 1.0;

/// The words of the three parts of the page, in their order.
pub(crate) const PARTS: [&str; 3] = ["why", "checks", "keys"];
/// How the next part is reached.
pub(crate) const NEXT_PART: &str = "Tab: the next part";
/// Heading of the reckoning.
pub(crate) const RECKONING: &str = "THE RECKONING";
/// Moving in pages and lists, beside the keys of the table.
pub(crate) const TRAVEL: (&str, &str) = (
    "j k g G",
    "Down, up, first and last, in every page and list",
);
/// What a digit does on the panes.
pub(crate) const START_A_TEAR: &str = "Start a tear";
/// In place of a key: the line of a list does it.
pub(crate) const ITS_LINE: &str = "its line";
/// In place of a key: its name does it.
pub(crate) const BY_NAME: &str = "by name, /";

/// What each check asks, in the trade's words.
pub(crate) const ASKS: [&str; 4] = [
    "Is the arrow heavy and long enough for this bow, and was anything hit or dry-fired since it was last inspected?",
    "Does the arrow bend as this bow and release want it to? A shaft that is too weak or too stiff tears whatever the rest does.",
    "Do repeat shots agree well enough for the tear to mean anything? A loose part or contact shows here as well as the archer.",
    "Does the tear respond to the adjusters?",
];

/// Over what is said of the panes.
pub(crate) const NOW: &str = "What is on the screen now; every key is further down.";
/// Before the first shot at a setting.
pub(crate) const NO_SHOT: &str = "NOW: no shot at this setting yet. A tear is where the nock end cut the paper, against where the point went in; it shows how the arrow leaves the bow.";
/// How to read the panes and type a tear.
pub(crate) const PANES: &str = "Tear: where the nock went through, seen from the point hole in the middle, right and up as the shooter sees it. What is shaded, or ringed with dots, is within tolerance. Next step: the verdict, what to do, and why. Convergence: how far each tear is from the wanted one, the likely tear, and moves across the chart. Type a tear as you would say it: 12 left 4 high. Several holes of one sheet with ; between. #3 names the arrow; bad, bare, ragged and slit may follow.";
/// On the grid.
pub(crate) const GRID: &str = "Put the cursor on the point hole and mark it, then on the nock hole and mark that. Arrows go one step; digits before an arrow make it go that far.";
/// On the panes, in practice.
pub(crate) const PRACTICE: &str = "Practice: a virtual bow with something wrong with it. The key for a shot shoots it and the paper is read for you; the moves are made by taking them to the bench, or by typing your own. Sometimes it is not the rest. The key for practice has tests and fixes, and takes your answer; then it shows what it was.";

/// The latest tear, and how the arrow flew.
pub(crate) fn latest(tear: Tear, system: System) -> String {
    let size = tear_with_unit(tear, system);
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

/// What a verdict means, after its name.
pub(crate) fn verdict(verdict: Verdict) -> String {
    let means = match verdict {
        Verdict::Shoot => {
            "more shots at this setting tell more than any move would; leave the bow as it is."
        }
        Verdict::Move => {
            "the shots here mean enough to act on. Take the move to the bench, make it, say how it went, shoot again. The first move on a bow is a test of which way it responds."
        }
        Verdict::Probe => {
            "one question must be settled before a move makes sense; the pane says what to try."
        }
        Verdict::Refuse => {
            "moving the rest now would be a guess: the arrow does not suit, the shots do not repeat, or the tear does not respond. The pane says which, and what to do instead."
        }
        Verdict::Done => {
            "paper is not the end: shoot bare against fletched at distance before calling it tuned."
        }
        Verdict::Stop => "something must be put right or looked over before the next arrow.",
    };
    format!("{}: {means}", verdict_title(verdict))
}

/// What the marks are, as they are drawn: the point hole, the last nock hole,
/// earlier ones, one that is not counted; in the chart a shot, the likely tear,
/// a move, the range of the next shot.
pub(crate) fn marks(drawn: [char; 8]) -> String {
    let [point, nock, earlier, bad, shot, likely, moved, range] = drawn;
    format!(
        "MARKS: {point} the point hole, {nock} the last nock hole, {earlier} earlier ones, {bad} a shot that is not counted. In the chart {shot} a shot, {likely} the likely tear, {moved} a move, {range} the range of the next shot."
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::tests::keeps_to_the_guide;

    #[test]
    fn a_tear_is_named_as_the_trade_names_it() {
        assert!(flew(Tear::new(-12.0, 4.0)).contains("nock-left nock-high tear"));
        assert!(flew(Tear::new(0.2, -3.0)).contains("a nock-low tear"));
        assert!(flew(Tear::new(0.3, 0.0)).contains("one hole"));
    }

    #[test]
    fn what_the_help_says_of_the_panes_keeps_to_the_guide() {
        for text in ASKS
            .into_iter()
            .chain([NOW, NO_SHOT, PANES, GRID, PRACTICE])
        {
            keeps_to_the_guide("help", text);
        }
        for verdict in [
            Verdict::Shoot,
            Verdict::Move,
            Verdict::Probe,
            Verdict::Refuse,
            Verdict::Done,
            Verdict::Stop,
        ] {
            keeps_to_the_guide("help", &super::verdict(verdict));
        }
        keeps_to_the_guide("help", &marks(['x'; 8]));
    }
}
