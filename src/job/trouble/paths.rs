//! What is left of each path when every step was harmless.

use super::says::{End, NoSuchArrow, Resumed};
use crate::checks::{safety, spine};
use crate::gear::{AdjusterKind, BoltsLimit, Card};
use crate::question::Refusal;
use crate::session::Timeline;
use crate::stats::quantile;

/// The end of the path after a refusal; `None` where its last part ends it.
pub(super) fn end(timeline: &Timeline, refusal: Refusal) -> Option<End> {
    let card = &timeline.card;
    Some(match refusal {
        Refusal::Incident => return None,
        Refusal::Jumps => End::Resume(Resumed::NothingFound),
        Refusal::Contact => End::Resume(Resumed::PowderClean),
        Refusal::SpineWeak | Refusal::SpineStiff | Refusal::FarTooWeak => {
            End::NoSuchArrow(no_such_arrow(card))
        }
        Refusal::Scatter => End::Scatter(shots_to_convince(0.6), shots_to_convince(0.8)),
        Refusal::NoResponse => End::NoResponse,
        Refusal::TravelLimit => End::Travel,
        Refusal::HugeTear => End::HugeTear,
        Refusal::NoAdjuster => End::NothingToMove {
            brace: !card.needs_press(AdjusterKind::BraceHeight)
                && card.adjuster(AdjusterKind::BraceHeight).is_some(),
        },
        Refusal::TooLight => too_light(card),
        Refusal::TooShort => End::TooShort,
        Refusal::WeighFirst => End::WeighFirst,
        Refusal::PastLimit => End::PastLimit(BoltsLimit::of(card)),
    })
}

fn no_such_arrow(card: &Card) -> NoSuchArrow {
    if spine::stops(card) {
        NoSuchArrow::Stopped
    } else if card.arrow.only_these {
        NoSuchArrow::OnlyThese
    } else {
        NoSuchArrow::Others
    }
}

fn too_light(card: &Card) -> End {
    let pounds = card.bow.peak_weight.pounds();
    let maker = card.bow.maker_min_arrow;
    let maker = maker.map_or(0.0, crate::units::Mass::grains);
    End::TooLight {
        least: (safety::LEAST_GPP * pounds).max(maker),
        pounds,
    }
}

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

#[cfg(test)]
mod tests {
    use super::super::Ask;
    use super::super::walk::{next_step, path};
    use super::*;
    use crate::checks::next_steps::{after, is_done, steps};
    use crate::question::{Question, Test};
    use crate::session::told::moved;
    use crate::setup::tests::{COMPOUND, RECURVE, timeline};
    use crate::words;

    #[test]
    fn the_nearer_the_limit_the_more_shots_it_takes() {
        // Six degrees of freedom: 6 / 2.204 = 2.72, root 1.65, times 0.6 is 0.99.
        assert_eq!(shots_to_convince(0.6), 4);
        assert!(shots_to_convince(0.8) > 10);
        assert_eq!(shots_to_convince(1.0), 99);
    }

    /// A compound with a blade and fingers, a longbow off the shelf, a bow
    /// whose weight was read off a scale.
    fn bows() -> Vec<String> {
        let longbow = RECURVE
            .replace("\"recurve\"", "\"longbow\"")
            .replace("\"plunger\"", "\"shelf\"")
            .replace("brace_height=\"8 3/4 in\"", "brace_height=\"7 in\"");
        let blade = COMPOUND.replace("\"drop-away\"", "\"blade\"");
        let weighed = COMPOUND.replace("[rest]", "weighed=true\n[rest]");
        vec![COMPOUND.into(), RECURVE.into(), longbow, blade, weighed]
    }

    /// What the advice names is what the path asks, in the same order.
    #[test]
    fn the_path_walks_the_steps_that_the_advice_names_for_every_refusal_and_bow() {
        let mut walked = 0;
        for card in bows() {
            for events in [vec![], vec![moved(AdjusterKind::RestSideways, -3.0)]] {
                let t = timeline(&card, events.clone());
                for refusal in Refusal::ALL.into_iter().filter(|r| *r != Refusal::Incident) {
                    let listed = steps(&t, refusal);
                    let asked: Vec<Question> =
                        path(&t, refusal).nodes.iter().map(|n| n.step.id).collect();
                    let listed: Vec<Question> = listed.into_iter().map(Into::into).collect();
                    assert_eq!(asked, listed, "{refusal:?}");
                    let first = steps(&t, refusal).into_iter().find(|s| !is_done(&t, *s));
                    let next = next_step(&t, refusal).unwrap();
                    match first {
                        Some(test) => assert_eq!(next.id, test.into(), "{refusal:?}"),
                        None => assert!(matches!(next.ask, Ask::Resume | Ask::FixFirst)),
                    }
                    named_in_order(&t, refusal);
                    walked += 1;
                }
            }
        }
        assert_eq!(walked, 5 * 2 * 14);
    }

    /// The sentence names each step of the path, one after another.
    fn named_in_order(t: &Timeline, refusal: Refusal) {
        let Some(next) = after(t, refusal) else {
            assert!(refusal.stops());
            return;
        };
        let text = words::in_order(&next);
        let mut at = 0;
        let plain = |test: &&Test| **test != Test::SpineRemedy && refusal != Refusal::Contact;
        for test in next.steps.iter().filter(plain) {
            let place = text[at..].find(words::brief(*test));
            at += place.unwrap_or_else(|| panic!("{test} is missing or out of order: {text}"));
        }
    }

    /// With nothing to move, brace height is named only where it is done by
    /// hand: on a compound it is press work.
    #[test]
    fn with_nothing_to_move_brace_height_is_named_where_it_takes_no_press() {
        let brace = "\n[[adjuster]]\nname=\"brace-height\"\nstep=\"1 mm\"\nrange=\"8 mm\"\n";
        for (card, named) in [
            (format!("{RECURVE}{brace}"), true),
            (format!("{COMPOUND}{brace}"), false),
            (COMPOUND.to_owned(), false),
        ] {
            let found = end(&timeline(&card, vec![]), Refusal::NoAdjuster);
            assert_eq!(found, Some(End::NothingToMove { brace: named }));
        }
    }
}
