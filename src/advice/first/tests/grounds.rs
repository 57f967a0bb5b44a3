//! What a test move rests on, and why it goes against the guides.

use super::*;
use crate::advice::ByHeight;

/// Ground and whether it was tried, of the test move that is advised.
fn ground_of(bow: &Bow) -> (f64, bool, Ground) {
    let advice = bow.advice();
    let amount = advice.movement.as_ref().map(|m| m.steps[0].amount());
    let first = advice.findings.iter().find_map(|found| match found {
        Finding::TestMove(first) => Some(*first),
        _ => None,
    });
    let first = first.unwrap_or_else(|| panic!("{:?}: {:?}", advice.verdict, advice.headline));
    (amount.unwrap().signum(), first.tried, first.ground)
}

/// The rest went the guides' way (out, with the tail), and the tear did not
/// come in: the next test goes the other way on that account, and not on
/// account of the powder, which was clean.
#[test]
fn a_second_test_the_other_way_is_what_this_bow_has_shown() {
    for (hand, out) in HANDS {
        for (tail, way) in [(out, GuideWay::RestOut), (-out, GuideWay::RestIn)] {
            for powder in ["none", "not-looked"] {
                let mut bow = Bow::shot(RECURVE, hand, &[(24.0 * tail, 1.0), (23.0 * tail, 2.0)]);
                bow.answer("contact", powder);
                bow.moved(AdjusterKind::RestSideways, 1.0 * tail);
                bow.shoot(&[(27.0 * tail, 1.0)]);
                let (sign, tried, ground) = ground_of(&bow);
                let found = guides(ground);
                assert_eq!((sign, tried), (-tail, true), "{hand} {powder}");
                assert_eq!(found.way, way);
                assert_eq!(found.against, Some(Against::OwnMoves), "{hand} {powder}");
            }
        }
    }
}

/// The point stands on the string's line, and the tail to the riser's side:
/// the guides' way is inside, where no test goes.
#[test]
fn where_the_guides_way_leads_inside_the_string_it_has_no_room() {
    for (hand, out) in HANDS {
        let mut bow = measured(hand, -out, "0");
        bow.answer("contact", "none");
        let (sign, tried, ground) = ground_of(&bow);
        let found = guides(ground);
        assert_eq!((sign, tried), (out, false), "{hand}");
        assert_eq!(found.way, GuideWay::RestIn);
        assert_eq!(found.against, Some(Against::NoRoom), "{hand}");
    }
}

/// Tail low: the rest down or the nocking point up, for either hand.
#[test]
fn up_and_down_the_first_move_goes_the_guides_way() {
    for hand in ["right", "left"] {
        for (up, low) in [(-20.0, true), (20.0, false)] {
            let bow = Bow::shot(COMPOUND, hand, &[(0.0, up), (1.0, up)]);
            let (sign, tried, ground) = ground_of(&bow);
            let against = None;
            let found = ByHeight {
                tail_low: low,
                against,
            };
            assert_eq!(ground, Ground::Vertical(found));
            assert_eq!((sign, tried), (up.signum(), false));
        }
    }
}

/// A load speaks for a side only until this bow was moved: what the chance
/// then rests on is its own.
#[test]
fn the_arrows_load_has_no_word_once_the_rest_was_moved() {
    let mut bow = Bow::shot(COMPOUND, "right", &[]);
    crate::advice::prior::refresh(&mut bow.0).unwrap();
    bow.shoot(&[(-15.0, 1.0), (-14.0, 0.0)]);
    bow.answer("hand", "relaxed");
    let (sign, tried, ground) = ground_of(&bow);
    let Ground::Aid(load) = ground else {
        panic!("{ground:?}")
    };
    assert!(!tried);
    bow.moved(AdjusterKind::RestSideways, sign);
    bow.shoot(&[(-15.0, 1.0), (-14.0, 0.0)]);
    let again = ground_of(&bow);
    assert_eq!((again.1, again.2), (true, Ground::Aid(None)), "{load:?}");
}
