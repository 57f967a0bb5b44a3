//! What press work, a new start and a new arrow type leave known.

use std::collections::BTreeMap;

use tearbench::advice::{self, Advice, GainEstimate, Verdict};
use tearbench::gear::{AdjusterKind, CardText, Step};
use tearbench::range::Today;
use tearbench::session::{Event, Session, Shot};

fn session() -> Session {
    let card = CardText::from_toml(crate::fixtures::COMPOUND).unwrap();
    Session::from_text(&card.to_toml()).unwrap()
}

fn shoot(session: &mut Session, tears: &[(f64, f64)]) {
    for (right, up) in tears {
        let shot = Shot {
            right: *right,
            up: *up,
            ..Shot::default()
        };
        session.record(Event::Shot(shot)).unwrap();
    }
}

fn turn(session: &mut Session, adjuster: AdjusterKind, amount: f64) {
    let steps = vec![Step { adjuster, amount }];
    let event = Event::Move {
        steps,
        said: None,
        confirms: None,
    };
    session.record(event).unwrap();
}

/// A bow whose tail goes 3 mm against each mm of the rest, learned.
fn learned() -> Session {
    let mut s = session();
    shoot(&mut s, &[(12.0, 0.0), (13.0, 1.0)]);
    turn(&mut s, AdjusterKind::RestSideways, 2.0);
    shoot(&mut s, &[(6.0, 0.0), (7.0, 0.0)]);
    turn(&mut s, AdjusterKind::RestSideways, 2.0);
    shoot(&mut s, &[(1.0, 1.0), (0.0, 0.0)]);
    s
}

fn advise(session: &Session) -> Advice {
    advice::advise(session.timeline(), Today::now())
}

fn sideways(advice: &Advice) -> GainEstimate {
    advice.estimate.gain[&AdjusterKind::RestSideways]
}

#[test]
fn press_work_makes_the_tear_unknown_again_but_not_the_rests_response() {
    let mut s = learned();
    let before = sideways(&advise(&s));
    turn(&mut s, AdjusterKind::YokeTwist, 0.5);
    let after = advise(&s);
    assert_eq!(after.verdict, Verdict::Shoot);
    assert!(after.estimate.tear_mm.is_none());
    let after = sideways(&after);
    assert!(
        (before.mean - after.mean).abs() < 1e-6,
        "{before:?} {after:?}"
    );
    assert!((before.sd - after.sd).abs() < 1e-6, "{before:?} {after:?}");
}

#[test]
fn a_fresh_start_forgets_the_tear_and_keeps_the_response() {
    let mut s = learned();
    let before = sideways(&advise(&s));
    s.record(Event::Restart {
        setting: None,
        why: Some("new string".into()),
    })
    .unwrap();
    let after = advise(&s);
    assert!(after.estimate.tear_mm.is_none());
    assert!((before.mean - sideways(&after).mean).abs() < 1e-6);
}

#[test]
fn a_new_arrow_type_restarts_the_tear_widens_the_response_and_reruns_safety_and_spine() {
    let set =
        |key: &str, value: &str| Event::card(BTreeMap::from([(key.to_owned(), value.to_owned())]));
    let mut s = learned();
    let before = sideways(&advise(&s));
    s.record(set("arrow.point_mass", "150 gr")).unwrap();
    let other = advise(&s);
    assert!(other.estimate.tear_mm.is_none());
    let wide = sideways(&other);
    assert!(wide.sd > 1.5 * before.sd, "{before:?} {wide:?}");
    assert!(
        wide.mean < 0.0 && wide.mean > before.mean,
        "{before:?} {wide:?}"
    );

    let mut weak = learned();
    weak.record(set("arrow.spine", "0.600")).unwrap();
    let refused = advise(&weak);
    assert_eq!(refused.verdict, Verdict::Refuse);
    assert_eq!(refused.findings[0].code().id(), "spine-weak");

    let mut light = learned();
    light.record(set("arrow.point_mass", "20 gr")).unwrap();
    assert_eq!(advise(&light).verdict, Verdict::Stop);
}
