//! The facts behind the one line of why, on sessions of either hand.

use super::*;
use crate::advice::advise;
use crate::fixtures::{COMPOUND, RECURVE};
use crate::range::Today;
use crate::session::told::Bow;
use crate::session::{Event, LearnedGain, LearnedRecord, PriorRecord};
use crate::words;

impl Bow {
    fn why(&self) -> Why {
        let advice = advise(self.0.timeline(), Today::now());
        why(&advice, self.0.timeline()).unwrap_or_else(|| panic!("{:?}", advice.headline))
    }

    fn said(&self) -> String {
        words::practice::why(&self.why())
    }
}

/// A recurve with fingers, the tail so far right, the powder answered.
fn fingers(hand: &str, right: f64, powder: &[&str]) -> Bow {
    let mut bow = Bow::new(RECURVE, hand, &[]);
    bow.shoot(&[(right, 1.0), (right - right.signum(), 2.0)]);
    powder.iter().for_each(|found| bow.answer("contact", found));
    bow
}

#[test]
fn with_fingers_the_rule_is_said_as_it_is_for_each_hand() {
    for (hand, right, said) in [
        (
            "right",
            -26.0,
            "Tail left: the nock end came through left of the point. A rule of the trade for fingers: tail left, rest OUT. The move goes that way. This bow has not shown it yet.",
        ),
        (
            "right",
            26.0,
            "Tail right: the nock end came through right of the point. A rule of the trade for fingers: tail right, rest IN. The move goes that way. This bow has not shown it yet.",
        ),
        (
            "left",
            26.0,
            "Tail right: the nock end came through right of the point. A rule of the trade for fingers: tail right, rest OUT. The move goes that way. This bow has not shown it yet.",
        ),
        (
            "left",
            -26.0,
            "Tail left: the nock end came through left of the point. A rule of the trade for fingers: tail left, rest IN. The move goes that way. This bow has not shown it yet.",
        ),
    ] {
        assert_eq!(fingers(hand, right, &["none"]).said(), said);
    }
}

#[test]
fn against_the_guides_the_powder_is_named_only_where_it_speaks() {
    for (hand, right, side) in [("right", -24.0, "left"), ("left", 24.0, "right")] {
        let begin = format!(
            "Tail {side}: the nock end came through {side} of the point. A rule of the trade for fingers: tail {side}, rest OUT. The move goes the other way."
        );
        let slap = fingers(hand, right, &["button", "button"]).said();
        assert_eq!(
            slap,
            format!(
                "{begin} After a slap the tear more likely goes with the rest. This bow has not shown it yet."
            )
        );
        let mut bow = fingers(hand, right, &["none"]);
        bow.moved(AdjusterKind::RestSideways, right.signum());
        bow.shoot(&[(27.0 * right.signum(), 1.0)]);
        assert_eq!(
            bow.said(),
            format!("{begin} What this bow has shown so far leans this way, not for sure.")
        );
    }
}

#[test]
fn with_an_aid_no_side_is_a_rule() {
    for hand in ["right", "left"] {
        for (right, side) in [(-15.0, "left"), (15.0, "right")] {
            let mut bow = Bow::new(COMPOUND, hand, &[]);
            bow.shoot(&[(right, 1.0), (right, 0.0)]);
            bow.answer("hand", "relaxed");
            assert_eq!(
                bow.said(),
                format!(
                    "Tail {side}: the nock end came through {side} of the point. With a release aid guides contradict each other on which way the rest goes. This bow has not shown it yet, so the move is a test."
                )
            );
        }
    }
}

/// Tail low is rest too high or nocking point too low, and the reverse (trade
/// practice: tail high, nocking point down or rest up).
#[test]
fn up_and_down_is_the_rule_of_the_trade() {
    for (up, said) in [
        (
            -20.0,
            "Tail low: the nock end came through below the point. A rule of the trade: rest too high or nocking point too low. The move goes that way. This bow has not shown it yet.",
        ),
        (
            20.0,
            "Tail high: the nock end came through above the point. A rule of the trade: rest too low or nocking point too high. The move goes that way. This bow has not shown it yet.",
        ),
    ] {
        let mut bow = Bow::new(COMPOUND, "right", &[]);
        bow.shoot(&[(0.0, up), (1.0, up)]);
        assert_eq!(bow.said(), said);
    }
}

/// Where a tear is wanted the side is of that tear: 4 mm left where 30 mm
/// left is wanted stands right of it.
#[test]
fn the_side_is_that_of_the_wanted_tear() {
    for (hand, way) in [("right", "IN"), ("left", "OUT")] {
        let mut bow = Bow::new(RECURVE, hand, &[("paper.aim_right", "-30 mm")]);
        bow.shoot(&[(-4.0, 1.0), (-5.0, 1.0)]);
        bow.answer("contact", "none");
        assert_eq!(
            bow.said(),
            format!(
                "The tail stands right of the tear that is wanted. A rule of the trade for fingers: tail right, rest {way}. The move goes that way. This bow has not shown it yet."
            )
        );
    }
}

#[test]
fn what_this_bow_has_shown_is_said_as_it_went() {
    // The tail goes against the rest: 4 mm out, 2 mm of rest, 8 mm nearer.
    for (toward, tail, way) in [(1.0, "left", "right"), (-1.0, "right", "left")] {
        let mut bow = Bow::new(COMPOUND, "right", &[]);
        bow.shoot(&[(24.0 * toward, 1.0), (24.0 * toward, 0.0)]);
        bow.answer("hand", "relaxed");
        bow.moved(AdjusterKind::RestSideways, 2.0 * toward);
        bow.shoot(&[(16.0 * toward, 1.0), (16.0 * toward, 0.0)]);
        let said = bow.said();
        let shown = format!("Shown by this bow's own moves: rest {way} sends the tail {tail}.");
        assert!(said.ends_with(&shown), "{said}");
    }
}

/// What earlier bows taught of the rest sideways, mm of tear a mm.
fn taught(bow: &mut Bow, mean: f64) {
    let gain = LearnedGain {
        adjuster: AdjusterKind::RestSideways,
        powder: None,
        bows: 6,
        mean,
        sd: 0.3,
        wide: 0.13,
        dead: 0.0,
    };
    let learned = LearnedRecord {
        bows: 6,
        sessions: 6,
        own: 0,
        read: None,
        gains: vec![gain],
        scatter: None,
    };
    let prior = PriorRecord {
        model: crate::physics::prior::MODEL_VERSION,
        seed: 1,
        draws: 0,
        gains: Vec::new(),
        learned: Some(learned),
    };
    bow.0.record(Event::Prior(prior)).unwrap();
}

/// A correction on the word of earlier bows is theirs, with their number.
#[test]
fn what_earlier_bows_showed_is_not_said_of_this_bow() {
    for (mean, way) in [(-2.5, "right"), (2.5, "left")] {
        let mut bow = Bow::new(COMPOUND, "right", &[]);
        taught(&mut bow, mean);
        bow.shoot(&[(12.0, 1.0), (12.0, 0.0)]);
        bow.answer("hand", "relaxed");
        let Why::Moves { ground, .. } = bow.why() else {
            panic!("{:?}", bow.why())
        };
        let MoveGround::EarlierBows(6, shows) = ground else {
            panic!("{ground:?}")
        };
        assert_eq!(shows.plus, mean < 0.0, "against the response: {shows:?}");
        assert!(!shows.tail_plus, "the tail comes in from the right");
        assert!(
            bow.said().ends_with(&format!(
                "Shown by 6 earlier bows of the folder: rest {way} sends the tail left. This bow has not shown it yet."
            )),
            "{}",
            bow.said()
        );
    }
}

fn known(kind: AdjusterKind, mean: f64) -> Known {
    Known {
        kind,
        gain: crate::belief::Gain {
            mean,
            sd: 0.2,
            probability_negative: if mean < 0.0 { 1.0 } else { 0.0 },
        },
    }
}

#[test]
fn which_way_the_tail_goes_is_the_sign_of_response_and_move() {
    use AdjusterKind::{NockingPoint, PlungerTension, RestSideways};
    for (adjuster, mean, amount, plus, tail_plus) in [
        (RestSideways, -2.0, -1.5, false, true),
        (RestSideways, 2.0, -1.5, false, false),
        (RestSideways, -2.0, 1.5, true, false),
        (NockingPoint, 2.0, -1.0, false, false),
        (PlungerTension, 6.0, 0.25, true, true),
    ] {
        let found = shows(&known(adjuster, mean), &Step { adjuster, amount });
        let kind = adjuster;
        assert_eq!(
            found,
            Some(Shows {
                kind,
                plus,
                tail_plus
            })
        );
    }
    // A side that is not known is not said.
    let mut open = known(RestSideways, -2.0);
    open.gain.probability_negative = 0.89;
    let step = Step {
        adjuster: RestSideways,
        amount: 1.0,
    };
    assert_eq!(shows(&open, &step), None);
    open.gain.probability_negative = 0.9;
    assert!(shows(&open, &step).is_some());
}
