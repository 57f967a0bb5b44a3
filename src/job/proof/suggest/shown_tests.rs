//! What a bow has shown by its own moves, and which way follows from it:
//! worked examples with their figures written out.

use super::super::rule::rule_of;
use super::*;
use crate::advice;
use crate::gear::Hand;
use crate::range::Today;
use crate::session::{Event, Shot};
use crate::setup::tests::{COMPOUND, timeline};

const REST: AdjusterKind = AdjusterKind::RestSideways;

fn rest(amount: f64) -> Event {
    Event::Move {
        steps: vec![Step {
            adjuster: REST,
            amount,
        }],
        said: None,
        confirms: None,
    }
}

fn shot(called_bad: bool) -> Event {
    Event::Shot(Shot {
        right: -12.0,
        called_bad,
        ..Shot::default()
    })
}

fn wanted(stage: Stage, offset: f64, se: f64, earlier: &[Run]) -> Wanted<'_> {
    Wanted {
        stage,
        kind: REST,
        offset,
        se,
        earlier,
        size_mm: SMALL_MM,
        rule: true,
    }
}

fn run(place: f64, offset: f64, se: f64) -> Run {
    Run { place, offset, se }
}

/// Chance that the impacts follow the rest, as these groups showed it, with
/// the rest now 1.5 mm right of the start.
fn by_groups(offset: f64, se: f64, earlier: &[Run]) -> Option<f64> {
    let t = timeline(COMPOUND, vec![rest(1.5)]);
    let analysis = advice::analyse(&t, Today::now());
    shown(&t, &analysis, &wanted(Stage::WalkBack, offset, se, earlier)).map(|s| s.follows)
}

/// The rest went 1.5 mm right, errors 6 and 8 mm make 10: a change of 30 mm
/// is three of them, 0.99865 of the normal distribution (printed tables).
#[test]
fn groups_show_a_side_by_their_change_over_their_error() {
    let close = |found: Option<f64>, chance: f64| {
        assert!((found.unwrap() - chance).abs() < 1e-5, "{found:?} {chance}");
    };
    close(by_groups(-10.0, 6.0, &[run(0.0, -40.0, 8.0)]), 0.998_65);
    close(by_groups(-40.0, 6.0, &[run(0.0, -10.0, 8.0)]), 0.001_35);
    close(by_groups(10.0, 6.0, &[run(0.0, 40.0, 8.0)]), 0.001_35);
    close(by_groups(40.0, 6.0, &[run(0.0, 10.0, 8.0)]), 0.998_65);
    // From the other side: the rest came 1.5 mm left from 3.
    close(by_groups(-10.0, 6.0, &[run(3.0, -40.0, 8.0)]), 0.001_35);
    close(by_groups(-40.0, 6.0, &[run(3.0, -10.0, 8.0)]), 0.998_65);
    // The latest other place counts, not an earlier one, not this one.
    let runs = [
        run(0.0, -10.0, 8.0),
        run(3.0, -10.0, 8.0),
        run(1.5, 70.0, 8.0),
    ];
    close(by_groups(-40.0, 6.0, &runs), 0.998_65);
    assert!(by_groups(-40.0, 6.0, &[run(1.5, 70.0, 8.0)]).is_none());
    assert!(by_groups(-40.0, 6.0, &[]).is_none());
}

/// 0.9 of the normal distribution is at 1.28155 errors (printed tables).
#[test]
fn a_side_is_shown_from_nine_times_in_ten_either_way() {
    for (change, shows) in [(12.816, true), (12.815, false)] {
        for way in [1.0, -1.0] {
            let found = by_groups(way * change, 6.0, &[run(0.0, 0.0, 8.0)]);
            assert_eq!(found.is_some(), shows, "{change} {way}: {found:?}");
        }
    }
}

/// What the paper showed, with a chance of a negative response put in.
fn by_paper(stage: Stage, events: Vec<Event>, negative: f64) -> Option<f64> {
    let t = timeline(COMPOUND, events);
    let mut analysis = advice::analyse(&t, Today::now());
    let gains = &mut analysis.advice.estimate.gain;
    gains.get_mut(&REST).unwrap().probability_negative = negative;
    shown(&t, &analysis, &wanted(stage, -40.0, 6.0, &[])).map(|s| s.follows)
}

/// Taken to hold at distance four times in five: 0.8 x 0.95 + 0.2 x 0.05.
#[test]
fn paper_is_taken_to_hold_at_distance_four_times_in_five() {
    let moved = || vec![shot(false), rest(1.0), shot(false)];
    for stage in [Stage::BareShaft, Stage::Broadhead] {
        for (negative, follows) in [
            (1.0, 0.8),
            (0.95, 0.77),
            (0.9, 0.74),
            (0.05, 0.23),
            (0.0, 0.2),
        ] {
            let found = by_paper(stage, moved(), negative).unwrap();
            assert!((found - follows).abs() < 1e-12, "{negative}: {found}");
        }
        for unsure in [0.899, 0.5, 0.101] {
            assert!(by_paper(stage, moved(), unsure).is_none(), "{unsure}");
        }
    }
    // A line's slant is no planing; what was not shot at two places, or was
    // called bad, or shot with other arrows, shows nothing.
    assert!(by_paper(Stage::WalkBack, moved(), 1.0).is_none());
    let bare = |events| by_paper(Stage::BareShaft, events, 1.0);
    assert!(bare(vec![shot(false), rest(1.0)]).is_none());
    assert!(bare(vec![shot(false), shot(false)]).is_none());
    assert!(bare(vec![shot(false), rest(1.0), shot(true)]).is_none());
    assert!(bare(vec![shot(true), rest(1.0), shot(false)]).is_none());
}

/// Sign of the move and its odds: against the offset where the impacts follow
/// the adjuster, with it where they go the other way.
#[test]
fn the_way_is_against_the_offset_where_the_impacts_follow() {
    let told = |follows| {
        Some(Shown {
            follows,
            by: By::Groups,
        })
    };
    let rule = rule_of(Stage::BareShaft, AdjusterKind::PlungerTension);
    assert_eq!(rule, Some(Rule::WeakFirmer));
    let way = |shown: Option<&Shown>, rule, hand, offset| {
        let found = super::way(shown, rule, hand, offset);
        let odds = match found.rests {
            Rests::Shown { odds, .. } => Some(odds),
            _ => None,
        };
        (found.sign, odds)
    };
    for (offset, side) in [(40.0, 1.0), (-40.0, -1.0)] {
        for (follows, sign, odds) in [(0.9, -side, 0.9), (0.1, side, 0.9), (0.5, -side, 0.5)] {
            let shown = told(follows);
            // What the bow has shown decides, whatever the rule says.
            for hand in [Hand::Right, Hand::Left] {
                let found = way(shown.as_ref(), rule, hand, offset);
                assert_eq!(found.0, sign, "{offset} {follows}");
                assert!((found.1.unwrap() - odds).abs() < 1e-12);
            }
            assert_eq!(way(shown.as_ref(), None, Hand::Right, offset).0, sign);
        }
        // Right-handed, bare shafts to the right: weak, the plunger firmer (+).
        let of = |hand| way(None, rule, hand, offset);
        assert_eq!(
            (of(Hand::Right), of(Hand::Left)),
            ((side, None), (-side, None))
        );
        assert_eq!(way(None, None, Hand::Right, offset), (1.0, None));
    }
}

/// 8 mm each way: a step of 0.75 mm reaches 8 from 7.25, and no further.
#[test]
fn a_suggestion_ends_with_the_travel_on_either_side() {
    for side in [1.0, -1.0] {
        let goes = |from: f64, offset: f64| {
            let t = timeline(COMPOUND, vec![rest(side * from)]);
            let analysis = advice::analyse(&t, Today::now());
            let wanted = wanted(Stage::BareShaft, side * offset, 6.0, &[]);
            let found = suggest(&t, &analysis, &wanted);
            found.ok().map(|s| side * s.step().amount)
        };
        // Impacts on the other side of the offset's: the rest follows it out.
        assert_eq!(goes(7.25, -40.0), Some(0.75));
        assert_eq!(goes(7.5, -40.0), None);
        assert_eq!(goes(8.0, 40.0), Some(-0.75));
    }
}

/// A line's slant is centre shot or rest, never the spring; bare shafts shot
/// with fingers are the spring's first; anything else the rest's first.
#[test]
fn a_lines_slant_is_never_the_springs() {
    use crate::setup::tests::RECURVE;
    let only = |names: &[&str]| {
        let list = names
            .iter()
            .map(|n| format!("[[adjuster]]\nname = \"{n}\"\n"));
        timeline(&format!("{RECURVE}{}", list.collect::<String>()), vec![])
    };
    let both = only(&["rest-sideways", "plunger-tension"]);
    let spring = only(&["plunger-tension"]);
    let of = |t: &Timeline, stage| adjuster_for(t, stage, Axis::Sideways);
    for stage in [Stage::WalkBack, Stage::NearFar] {
        assert_eq!(of(&both, stage), Some(REST));
        assert_eq!(of(&spring, stage), None);
    }
    let tension = Some(AdjusterKind::PlungerTension);
    assert_eq!(of(&both, Stage::BareShaft), tension);
    assert_eq!(of(&both, Stage::Broadhead), Some(REST));
    assert_eq!(of(&spring, Stage::Broadhead), tension);
    // With an aid the rest comes first for bare shafts too.
    let aid = RECURVE.replace("\"fingers\"", "\"aid\"");
    let aid = timeline(&aid, vec![]);
    assert_eq!(of(&aid, Stage::BareShaft), Some(REST));
}
