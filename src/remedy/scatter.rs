//! Repeat shots do not agree: archer, loose part or contact.

use super::node::{Node, Path, Then};
use crate::question::{Answer, Test};
use crate::session::{Shooter, Timeline};
use crate::stats::quantile;

/// Fresh shots it takes to show, with 90 % odds, that the scatter is under
/// its limit, when it is really this share of the limit (0 to 1).
///
/// Pooled over both axes: 2 (n - 1) s^2 / sigma^2 is chi-squared with
/// 2 (n - 1) degrees of freedom. 99 when the share is too near 1.
pub fn shots_to_convince(share_of_limit: f64) -> u32 {
    (2..99)
        .find(|n| {
            let df = 2.0 * f64::from(n - 1);
            let upper = (df / quantile::chi_squared(0.1, df)).sqrt();
            upper * share_of_limit <= 1.0
        })
        .unwrap_or(99)
}

pub(super) fn path(timeline: &Timeline) -> Path {
    let technician = timeline.shots.iter().any(|s| s.shot.by != Shooter::Owner);
    let mut nodes = vec![
        Node::question(
            Test::BadShots,
            "Were any of these shots bad ones, felt before looking at the hole (grip, release, a punch)? Judge the shot before walking to the paper.",
        )
        .next(Answer::None, "all as usual")
        .resume(Answer::Some, "take back those entries and record them as called bad; then shoot on"),
        Node::question(
            Test::Tired,
            "Is the archer tired, cold or rushed? Put the bow down for ten minutes, then shoot 3.",
        )
        .shots(3)
        .next(Answer::Same, "the scatter stays")
        .resume(Answer::Better, "it was the archer's day: go on fresh, 30 shots a sitting at most (juniors 15)"),
        Node::test(
            Test::Loose,
            "Try by hand: limb bolts, rest and its screws, sight, stabiliser, loop and nocking point, nocks in the shafts, inserts, points.",
        )
        .next(Answer::Tight, "nothing moves")
        .fix(Answer::Loose, "a part moves from shot to shot", "tighten it, put the rest back on its marks, note it"),
        super::paths::contact_node(timeline),
        Node::test(
            Test::OneArrow,
            "Shoot one marked arrow 3 times, at the same setting, and record it with its number.",
        )
        .shots(3)
        .next(Answer::Same, "one arrow scatters as much")
        .fix(Answer::Better, "the arrows differ among themselves", "sort them: weigh, spin, flex, nock fit, turn the nocks; bench the odd one and tune with arrows that agree"),
    ];
    if !technician {
        nodes.push(
            Node::test(
                Test::SecondShooter,
                "Let the technician (same hand, about the same draw) or a machine shoot 3, recorded as theirs. Tune for the owner's hand, not theirs.",
            )
            .shots(3)
            .next(Answer::Same, "the bow scatters whoever shoots: equipment")
            .resume(Answer::Tighter, "the bow is sound; the owner's grip or face pressure moves the tear. Relaxed open hand, then more shots; or a tolerance this archer can show"),
        );
    }
    Path {
        nodes,
        end: Then::Fix(format!(
            "nothing cheap explains it. Another day, or a borderline arrow (it looks like the archer): weigh the bow, try another spine. To convince this program afterwards: about {} shots if they scatter well under the limit (six tenths), {} if a little under (eight tenths)",
            shots_to_convince(0.6),
            shots_to_convince(0.8)
        )),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_nearer_the_limit_the_more_shots_it_takes() {
        // Six degrees of freedom: 6 / 2.204 = 2.72, root 1.65, times 0.6 is 0.99.
        assert_eq!(shots_to_convince(0.6), 4);
        assert!(shots_to_convince(0.8) > 10);
        assert_eq!(shots_to_convince(1.0), 99);
    }
}
