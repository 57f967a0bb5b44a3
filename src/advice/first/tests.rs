//! Both hands and both senses of the first sideways move, written out.

mod grounds;

use crate::advice::asked;
use crate::advice::{
    Advice, Against, Ask, ByGuides, Finding, Ground, GuideWay, Pad, ProbeKind, Verdict, advise,
};
use crate::belief::Powder;
use crate::fixtures::{COMPOUND, RECURVE};
use crate::gear::{AdjusterKind, CardText, Step};
use crate::question::Refusal;
use crate::range::Today;
use crate::session::told::Bow;
use crate::session::{Event, Session, Shot};

impl Bow {
    /// With these tears shot.
    fn shot(card: &str, hand: &str, tears: &[(f64, f64)]) -> Self {
        let mut bow = Self::new(card, hand, &[]);
        bow.shoot(tears);
        bow
    }

    fn advice(&self) -> Advice {
        advise(self.0.timeline(), Today::now())
    }

    /// Adjuster, sign and ground of the move that is advised.
    fn first_move(&self) -> (AdjusterKind, f64, Ground) {
        let advice = self.advice();
        assert_eq!(advice.verdict, Verdict::Move, "{:?}", advice.headline);
        let step = &advice.movement.as_ref().unwrap().steps[0];
        let first = advice.findings.iter().find_map(|found| match found {
            Finding::TestMove(first) => Some(*first),
            _ => None,
        });
        let first = first.expect("a reason");
        assert_eq!(first.kind, step.adjuster());
        (step.adjuster(), step.amount().signum(), first.ground)
    }
}

/// What the guides say of the tear, where the ground of a move is theirs.
fn guides(ground: Ground) -> ByGuides {
    match ground {
        Ground::Fingers(guides) => guides,
        other => panic!("{other:?}"),
    }
}

/// Hand, the tail out from the riser (left for the right hand), and OUT.
const HANDS: [(&str, f64); 2] = [("right", -1.0), ("left", 1.0)];

/// A tail 26 mm out from the riser, shot twice, with fingers.
fn tail_out(hand: &str, out: f64) -> Bow {
    Bow::shot(RECURVE, hand, &[(26.0 * out, 1.0), (25.0 * out, 2.0)])
}

#[test]
fn with_fingers_the_powder_is_asked_for_before_the_first_sideways_move() {
    for (hand, out) in HANDS {
        let advice = tail_out(hand, out).advice();
        let probe = advice.probe.expect("a question");
        assert_eq!(probe.kind, ProbeKind::Contact);
        assert_eq!(
            probe.answers.iter().map(|a| a.id()).collect::<Vec<_>>(),
            ["none", "button", "rest", "other", "not-looked"]
        );
        assert_eq!(probe.ask, Ask::PowderFirst(Pad::Plunger));
    }
}

#[test]
fn clean_powder_sends_the_rest_the_guides_way_for_either_hand() {
    for (hand, out) in HANDS {
        for answer in ["none", "not-looked"] {
            let mut bow = tail_out(hand, out);
            bow.answer("contact", answer);
            let (adjuster, sign, why) = bow.first_move();
            assert_eq!(adjuster, AdjusterKind::RestSideways);
            assert_eq!(sign, out, "{hand} {answer}: rest OUT");
            let why = guides(why);
            assert_eq!((why.way, why.against), (GuideWay::RestOut, None));
            assert_eq!(why.tail_left, out < 0.0);
        }
        // A tail to the riser's side: the same, mirrored.
        let mut bow = Bow::shot(RECURVE, hand, &[(-26.0 * out, 1.0), (-25.0 * out, 2.0)]);
        bow.answer("contact", "none");
        let (_, sign, why) = bow.first_move();
        assert_eq!(sign, -out);
        assert_eq!(guides(why).way, GuideWay::RestIn);
    }
}

#[test]
fn a_slap_that_stays_turns_the_first_move_round_and_never_refuses() {
    for (hand, out) in HANDS {
        for second in ["button", "not-looked"] {
            let mut bow = tail_out(hand, out);
            bow.answer("contact", "button");
            let advice = bow.advice();
            assert_eq!(advice.verdict, Verdict::Probe, "one round of clearing");
            assert!(advice.findings.contains(&Finding::Slap(Pad::Plunger)));
            bow.answer("contact", second);
            let (adjuster, sign, why) = bow.first_move();
            assert_eq!(adjuster, AdjusterKind::RestSideways);
            assert_eq!(sign, -out, "{hand} {second}: rest IN");
            let why = guides(why);
            assert_eq!(
                (why.powder, why.against),
                (Powder::Slap, Some(Against::Slap))
            );
        }
    }
}

#[test]
fn centre_shot_set_while_clearing_is_no_tuning_move_and_a_cleared_slap_starts_afresh() {
    let mut bow = tail_out("right", -1.0);
    bow.answer("contact", "button");
    bow.moved(AdjusterKind::RestSideways, -1.0);
    bow.shoot(&[(-20.0, 1.0), (-21.0, 1.0)]);
    let slap = Finding::Slap(Pad::Plunger);
    assert!(bow.advice().findings.contains(&slap));
    bow.answer("contact", "none");
    // What was shot while it slapped says nothing of the bow as it is now.
    let advice = bow.advice();
    assert_eq!(advice.verdict, Verdict::Shoot);
    assert!(advice.estimate.tear_mm.is_none());
}

#[test]
fn vanes_that_touch_are_cured_before_anything_is_moved() {
    let mut bow = tail_out("right", -1.0);
    bow.answer("contact", "rest");
    let advice = bow.advice();
    assert_eq!(advice.verdict, Verdict::Refuse);
    assert_eq!(advice.refusal, Some(Refusal::Contact));
}

#[test]
fn with_an_aid_the_hand_is_asked_about_once_and_relaxed_costs_no_shot() {
    for (hand, out) in HANDS {
        let mut bow = Bow::shot(COMPOUND, hand, &[(15.0 * out, 1.0), (14.0 * out, 0.0)]);
        let advice = bow.advice();
        let probe = advice.probe.expect("a question");
        assert_eq!(probe.kind, ProbeKind::Hand);
        assert_eq!(probe.answers, crate::question::HAND_ANSWERS);
        assert_eq!(probe.shots, 0);
        bow.answer("hand", "relaxed");
        let (adjuster, _, why) = bow.first_move();
        assert_eq!(adjuster, AdjusterKind::RestSideways);
        assert!(matches!(why, Ground::Aid(_)), "{why:?}");
    }
}

#[test]
fn a_hand_that_was_not_relaxed_asks_for_two_shots_and_what_changed_was_not_the_rest() {
    let asked = || {
        let mut bow = Bow::shot(COMPOUND, "right", &[(-15.0, 1.0), (-14.0, 0.0)]);
        bow.answer("hand", "not");
        bow
    };
    let probe = asked().advice().probe.expect("two shots");
    assert_eq!((probe.kind, probe.shots), (ProbeKind::Hand, 2));
    assert!(probe.answers.is_empty());

    let mut same = asked();
    same.shoot(&[(-14.0, 1.0)]);
    assert_eq!(same.advice().probe.expect("one more").shots, 1);
    same.shoot(&[(-15.0, 0.0)]);
    assert_eq!(same.advice().verdict, Verdict::Move);

    let mut changed = asked();
    changed.shoot(&[(-1.0, 1.0), (0.0, 0.0)]);
    let advice = changed.advice();
    let changed = |found: &Finding| matches!(found, Finding::HandChanged(..));
    assert!(advice.findings.iter().any(changed));
    let tear = advice.estimate.tear_mm.expect("two shots count");
    assert!(tear.right.abs() < 2.0, "{tear:?}");
    assert!(matches!(advice.verdict, Verdict::Shoot | Verdict::Done));
}

/// The recurve with centre shot measured so far outside, tail out.
fn measured(hand: &str, out: f64, value: &str) -> Bow {
    let mut bow = Bow::shot(RECURVE, hand, &[]);
    let event = Event::Setup {
        item: "centre-shot".into(),
        value: Some(value.into()),
        result: "ok".into(),
    };
    bow.0.record(event).unwrap();
    bow.shoot(&[(26.0 * out, 1.0), (25.0 * out, 2.0)]);
    bow
}

#[test]
fn with_centre_shot_at_its_figure_the_plunger_is_first_and_firmer_for_a_tail_out() {
    for (hand, out) in HANDS {
        let mut bow = measured(hand, out, "2.4 mm out");
        assert_eq!(bow.advice().verdict, Verdict::Probe);
        bow.answer("contact", "none");
        let (adjuster, sign, why) = bow.first_move();
        assert_eq!(adjuster, AdjusterKind::PlungerTension);
        assert_eq!(sign, 1.0, "{hand}: firmer");
        assert_eq!(guides(why).way, GuideWay::PlungerFirmer);
        // The tail to the riser's side: softer.
        let mut other = measured(hand, -out, "2.4 mm out");
        other.answer("contact", "none");
        let (_, sign, why) = other.first_move();
        assert_eq!(sign, -1.0, "{hand}: softer");
        assert_eq!(guides(why).way, GuideWay::PlungerSofter);
        // Not at its figure: the rest.
        for off in ["0", "1.2 mm out", "4 mm out"] {
            let mut bow = measured(hand, out, off);
            bow.answer("contact", "none");
            assert_eq!(bow.first_move().0, AdjusterKind::RestSideways, "{off}");
        }
    }
}

/// After a slap a firmer plunger sends the tail out, so a tail that is out asks
/// for softer turns, against the guides, and for the same turns of either hand.
#[test]
fn after_a_slap_the_plunger_goes_softer_for_a_tail_out_and_says_why() {
    for (hand, out) in HANDS {
        for (side, sign, way) in [
            (out, -1.0, GuideWay::PlungerFirmer),
            (-out, 1.0, GuideWay::PlungerSofter),
        ] {
            let mut bow = measured(hand, side, "2.4 mm out");
            bow.answer("contact", "button");
            bow.answer("contact", "button");
            let (adjuster, went, why) = bow.first_move();
            assert_eq!(adjuster, AdjusterKind::PlungerTension);
            assert_eq!(went, sign, "{hand} {side}");
            let why = guides(why);
            assert_eq!((why.way, why.against), (way, Some(Against::Slap)));
        }
    }
}

#[test]
fn at_its_figure_the_rest_moves_only_inside_it() {
    let travel = |hand: &str, value: &str| {
        let bow = measured(hand, -1.0, value);
        let (low, high) = asked::travel(bow.0.timeline(), AdjusterKind::RestSideways, 8.0);
        (
            (low * 100.0).round() / 100.0,
            (high * 100.0).round() / 100.0,
        )
    };
    // 1/16 to 1/8 in and a tenth of a millimetre: 1.49 to 3.28 mm outside.
    assert_eq!(travel("right", "2.4 mm out"), (-0.88, 0.91));
    assert_eq!(travel("left", "2.4 mm out"), (-0.91, 0.88));
    assert_eq!(travel("right", "0"), (-8.0, 8.0));
}

/// 2 mm out, then 0.5 mm to the left, which is out for the right hand.
#[test]
fn the_point_is_followed_outside_the_string_for_either_hand() {
    for (hand, out) in [("right", 2.5), ("left", 1.5)] {
        for adjuster in [AdjusterKind::RestSideways, AdjusterKind::CentreShot] {
            let card =
                crate::setup::tests::RECURVE.replace("hand=\"right\"", &format!("hand=\"{hand}\""));
            let measured = Event::Setup {
                item: "centre-shot".into(),
                value: Some("2 mm out".into()),
                result: "ok".into(),
            };
            let moved = Event::Move {
                steps: vec![Step {
                    adjuster,
                    amount: -0.5,
                }],
                said: None,
                confirms: None,
            };
            let found = crate::setup::tests::timeline(&card, vec![measured, moved]);
            assert_eq!(asked::outside_mm(&found), Some(out), "{hand} {adjuster:?}");
        }
    }
}

/// What opening the hand changed: tears before and after, and whether it
/// counts. The scatter taken along is 2.8 mm, worth two readings. One shot
/// before and two alike after: sd = sqrt(15.68 / 3 x 1.5) = 2.8, so 5.6 mm.
/// Two before, 2 mm apart, and two after, 4 mm apart: squares 2 + 8 + 15.68
/// over 4, times 1: sd 2.534, so 5.07 mm. Worked by hand.
#[test]
fn an_opened_hand_counts_from_two_errors_of_the_change_either_way() {
    let changed = |before: &[f64], after: &[f64]| {
        let tears = |all: &[f64]| all.iter().map(|r| (*r, 0.0)).collect::<Vec<_>>();
        let mut bow = Bow::shot(COMPOUND, "right", &tears(before));
        bow.answer("hand", "not");
        bow.shoot(&tears(after));
        super::hand_changed(bow.0.timeline()).map(|c| (c.shots_before, c.from, c.to))
    };
    for way in [1.0, -1.0] {
        let one = |mm: f64| changed(&[3.0], &[3.0 + way * mm; 2]);
        assert_eq!(one(5.5), None);
        assert_eq!(one(5.7), Some((1, 3.0, 3.0 + way * 5.7)));
        let two = |mm: f64| {
            let to = way * mm;
            changed(&[-1.0, 1.0], &[to - 2.0, to + 2.0]).is_some()
        };
        assert_eq!([5.0, 5.2].map(two), [false, true]);
        // Three before, 0, 0 and 3 (squares 6, mean 1), two alike after:
        // 21.68 over 5, times 5/6: sd 1.901, so 3.80 mm.
        let three = |mm: f64| changed(&[0.0, 0.0, 3.0], &[1.0 + way * mm; 2]).is_some();
        assert_eq!([3.7, 3.9].map(three), [false, true]);
    }
    // The first two after count, and no fewer; with none before, nothing changed.
    assert_eq!(changed(&[0.0], &[20.0]), None);
    assert_eq!(changed(&[0.0], &[0.0, 0.0, 90.0]), None);
    assert_eq!(changed(&[0.0], &[9.0, 9.0, -90.0]), Some((1, 0.0, 9.0)));
    assert_eq!(changed(&[], &[9.0, 9.0]), None);
}

#[test]
fn only_the_shooters_own_fletched_shots_of_that_setting_speak_of_the_hand() {
    let changed = |spoil: fn(&mut Shot), setting: f64| {
        let mut bow = Bow::shot(COMPOUND, "right", &[(-15.0, 0.0), (-15.0, 0.0)]);
        if setting != 0.0 {
            bow.moved(AdjusterKind::RestHeight, setting);
            bow.shoot(&[(-15.0, 0.0)]);
        }
        bow.answer("hand", "not");
        for _ in 0..2 {
            let mut shot = Shot::default();
            spoil(&mut shot);
            bow.0.record(Event::Shot(shot)).unwrap();
        }
        super::hand_changed(bow.0.timeline()).map(|c| (c.shots_before, c.from, c.to))
    };
    assert_eq!(changed(|_| {}, 0.0), Some((2, -15.0, 0.0)));
    assert_eq!(changed(|s| s.called_bad = true, 0.0), None);
    assert_eq!(changed(|s| s.bare = true, 0.0), None);
    assert_eq!(
        changed(|s| s.by = crate::session::Shooter::Technician, 0.0),
        None
    );
    // Shots of another setting are not compared with these.
    assert_eq!(changed(|_| {}, 0.5), Some((3, -15.0, 0.0)));
    let mut other = Bow::shot(COMPOUND, "right", &[(-15.0, 0.0), (-15.0, 0.0)]);
    other.answer("hand", "not");
    other.moved(AdjusterKind::RestHeight, 0.5);
    other.shoot(&[(0.0, 0.0), (0.0, 0.0)]);
    assert!(super::hand_changed(other.0.timeline()).is_none());
    // Other words than "not" ask for nothing.
    let mut relaxed = Bow::shot(COMPOUND, "right", &[(-15.0, 0.0), (-15.0, 0.0)]);
    relaxed.answer("hand", "relaxed");
    relaxed.shoot(&[(0.0, 0.0), (0.0, 0.0)]);
    assert!(super::hand_changed(relaxed.0.timeline()).is_none());
}

/// A tear 4 mm left where 30 mm left is wanted is 26 mm right of it.
#[test]
fn the_side_of_the_tail_is_that_from_the_wanted_tear() {
    for (hand, way) in [("right", GuideWay::RestIn), ("left", GuideWay::RestOut)] {
        let mut text = CardText::from_toml(RECURVE).unwrap();
        text.set("bow.hand", hand).unwrap();
        text.set("paper.aim_right", "-30 mm").unwrap();
        let mut bow = Bow(Session::from_text(&text.to_toml()).unwrap());
        bow.shoot(&[(-4.0, 1.0), (-5.0, 1.0)]);
        bow.answer("contact", "none");
        let (adjuster, sign, why) = bow.first_move();
        assert_eq!(
            (adjuster, sign),
            (AdjusterKind::RestSideways, 1.0),
            "{hand}"
        );
        let why = guides(why);
        assert_eq!((why.tail_left, why.way), (false, way), "{hand}");
    }
}

/// The spring has two moves, then the rest has its turn; only moves of the
/// spring count, and only a bow that has one.
#[test]
fn at_its_figure_the_spring_has_two_moves_before_the_rest() {
    use AdjusterKind::{PlungerTension, RestSideways};
    for (hand, out) in HANDS {
        let mut bow = measured(hand, out, "2.4 mm out");
        let now = |bow: &Bow| asked::sideways(bow.0.timeline());
        assert_eq!(now(&bow), Some(PlungerTension));
        bow.moved(RestSideways, 0.25);
        bow.moved(RestSideways, -0.25);
        assert_eq!(now(&bow), Some(PlungerTension));
        bow.moved(PlungerTension, 0.125);
        assert_eq!(now(&bow), Some(PlungerTension));
        bow.moved(PlungerTension, 0.125);
        assert_eq!(now(&bow), Some(RestSideways));
        let rest = "[[adjuster]]\nname = \"rest-sideways\"\nstep = \"0.25 mm\"\nrange = \"8 mm\"\n";
        let bow = Bow::shot(&format!("{RECURVE}{rest}"), hand, &[]);
        let mut bow = Bow(bow.0);
        let event = Event::Setup {
            item: "centre-shot".into(),
            value: Some("2.4 mm out".into()),
            result: "ok".into(),
        };
        bow.0.record(event).unwrap();
        assert_eq!(now(&bow), Some(RestSideways), "no spring");
    }
}

/// Exactly two errors of the change are no change yet.
#[test]
fn an_opened_hand_changes_nothing_at_exactly_two_errors() {
    // One shot before and two alike after: squares 2 x 2.8^2, over 3, x 1.5.
    let two_errors = 2.0 * (2.0 * 2.8 * 2.8 / 3.0 * 1.5_f64).sqrt();
    for (to, counts) in [(two_errors, false), (two_errors + 1e-9, true)] {
        for way in [1.0, -1.0] {
            let mut bow = Bow::shot(COMPOUND, "right", &[(0.0, 0.0)]);
            bow.answer("hand", "not");
            bow.shoot(&[(way * to, 0.0), (way * to, 0.0)]);
            let found = super::hand_changed(bow.0.timeline());
            assert_eq!(found.is_some(), counts, "{to}");
        }
    }
}
