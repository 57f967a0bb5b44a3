//! All that practice says, on one page that is read when it changes.

use super::super::tests::{firsts, keeps_to_the_guide};
use super::*;
use crate::advice::Finding;
use crate::gear::AdjusterKind;
use crate::practice::tell::{MoveGround, Shows, Tail, Why};
use crate::question::Refusal;

/// Every why there is: each side of the tail, each ground, each refusal.
fn whys() -> Vec<Why> {
    let (rest, height) = (AdjusterKind::RestSideways, AdjusterKind::RestHeight);
    let shows = |kind, plus, tail_plus| Shows {
        kind,
        plus,
        tail_plus,
    };
    let learn = MoveGround::Learn(rest);
    let sides = [false, true].into_iter().flat_map(|wanted| {
        [(true, true), (true, false), (false, true), (false, false)].map(|(vertical, positive)| {
            let tail = Some(Tail {
                vertical,
                positive,
                wanted,
            });
            let ground = learn;
            Why::Moves { tail, ground }
        })
    });
    let tests = firsts().into_iter().filter_map(|found| match found {
        Finding::TestMove(first) => Some(MoveGround::Test(first)),
        _ => None,
    });
    let grounds = [
        MoveGround::Shown(shows(rest, false, true)),
        MoveGround::Shown(shows(AdjusterKind::PlungerTension, true, false)),
        MoveGround::Shown(shows(AdjusterKind::NockingPoint, false, false)),
        MoveGround::EarlierBows(1, shows(rest, true, false)),
        MoveGround::EarlierBows(11, shows(height, true, false)),
        learn,
        MoveGround::HighStart(height),
    ];
    let grounds = tests.chain(grounds);
    let moves = grounds.map(|ground| Why::Moves { tail: None, ground });
    let refused = Refusal::ALL.into_iter().map(Why::Refused);
    sides.chain(moves).chain(refused).collect()
}

#[test]
fn all_that_practice_says_keeps_to_the_guide_and_is_as_it_was() {
    let lines: Vec<String> = whys().iter().map(why).collect();
    for line in &lines {
        keeps_to_the_guide("practice", line);
    }
    let page = lines.join("\n");
    insta::with_settings!({snapshot_path => "../../../snapshots", prepend_module_to_snapshot => false}, {
        insta::assert_snapshot!("words-practice", page);
    });
}

/// Each refusal has its own line, and only those that moves were made for
/// speak of moves.
#[test]
fn each_refusal_has_its_own_line() {
    let said: Vec<String> = Refusal::ALL.map(|r| why(&Why::Refused(r))).into();
    for (i, line) in said.iter().enumerate() {
        assert!(said[i + 1..].iter().all(|other| other != line), "{line}");
    }
    for (refusal, line) in Refusal::ALL.iter().zip(&said) {
        let of_moves = matches!(refusal, Refusal::NoResponse | Refusal::Jumps);
        let moved = line.contains("what was moved") || line.contains("from move to move");
        assert_eq!(moved, of_moves, "{line}");
    }
}
