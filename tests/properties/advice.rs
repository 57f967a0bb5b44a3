//! What must hold of the whole advice: order, units, called-bad shots.

use proptest::prelude::*;
use tearbench::advice::{self, Advice};
use tearbench::gear::{AdjusterKind, CardText, Step};
use tearbench::range::Today;
use tearbench::session::{Event, Session, Shot};

fn card() -> CardText {
    CardText::from_toml(crate::fixtures::COMPOUND).unwrap()
}

/// The same card, every length and mass said another way.
fn card_otherwise() -> CardText {
    let mut card = card();
    for (key, value) in [
        ("bow.draw_length", "736.6 mm"),
        ("bow.brace_height", "17.78 cm"),
        ("arrow.shaft_length", "0.7366 m"),
        ("arrow.diameter", "0.65 cm"),
        ("paper.distance", "200 cm"),
        ("paper.tolerance", "0.6 cm"),
    ] {
        card.set(key, value).unwrap();
    }
    card
}

/// Settings one after another, each with its shots: clicks sideways and up,
/// tears, arrows.
type Practice = Vec<([i32; 2], Vec<([i32; 2], Option<u8>)>)>;

fn practice() -> impl Strategy<Value = Practice> {
    let shot = (
        prop::array::uniform2(-25i32..25),
        prop::option::weighted(0.7, 1u8..4),
    );
    let setting = (
        prop::array::uniform2(-6i32..6),
        prop::collection::vec(shot, 1..6),
    );
    prop::collection::vec(setting, 1..4)
}

fn shot(tear: [i32; 2], arrow: Option<u8>) -> Event {
    Event::Shot(Shot {
        right: f64::from(tear[0]),
        up: f64::from(tear[1]),
        arrow: arrow.map(|a| a.to_string()),
        ..Shot::default()
    })
}

fn events(practice: &Practice, reversed: bool) -> Vec<Event> {
    let mut events = Vec::new();
    for (clicks, shots) in practice {
        let steps: Vec<Step> = [AdjusterKind::RestSideways, AdjusterKind::RestHeight]
            .into_iter()
            .zip(clicks)
            .filter(|(_, c)| **c != 0)
            .map(|(adjuster, c)| Step {
                adjuster,
                amount: 0.25 * f64::from(*c),
            })
            .collect();
        if !events.is_empty() && !steps.is_empty() {
            events.push(Event::Move {
                steps,
                said: None,
                confirms: None,
            });
        }
        let mut own: Vec<Event> = shots.iter().map(|(t, a)| shot(*t, *a)).collect();
        if reversed {
            own.reverse();
        }
        events.extend(own);
    }
    events
}

fn advise(card: &CardText, events: Vec<Event>) -> Advice {
    let mut session = Session::from_text(&card.to_toml()).unwrap();
    for event in events {
        session.record(event).unwrap();
    }
    advice::advise(session.timeline(), Today::now())
}

/// Verdict, moves, and the figures; the words apart.
fn alike(a: &Advice, b: &Advice, within: f64) -> Result<(), TestCaseError> {
    prop_assert_eq!(a.verdict, b.verdict, "{:?} / {:?}", a.headline, b.headline);
    let steps = |x: &Advice| {
        let all = x.movement.iter().flat_map(|m| m.steps.clone());
        all.map(|s| (s.adjuster(), s.amount(), s.bench.clicks))
            .collect::<Vec<_>>()
    };
    prop_assert_eq!(steps(a), steps(b));
    let chance = |x: &Advice| x.estimate.probability_within_tolerance.unwrap_or(0.0);
    prop_assert!((chance(a) - chance(b)).abs() <= within);
    let checks = |x: &Advice| x.checks.each().map(|(_, status)| status);
    prop_assert_eq!(checks(a), checks(b));
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 32, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn the_order_of_shots_within_a_setting_does_not_matter(practice in practice()) {
        let card = card();
        let a = advise(&card, events(&practice, false));
        let b = advise(&card, events(&practice, true));
        alike(&a, &b, 0.01)?;
    }

    #[test]
    fn units_do_not_matter(practice in practice()) {
        let a = advise(&card(), events(&practice, false));
        let b = advise(&card_otherwise(), events(&practice, false));
        alike(&a, &b, 1e-3)?;
    }

    #[test]
    fn a_called_bad_shot_changes_nothing(practice in practice(), tear in prop::array::uniform2(-70i32..70)) {
        let card = card();
        let all = events(&practice, false);
        let mut more = all.clone();
        let mut bad = shot(tear, None);
        if let Event::Shot(s) = &mut bad {
            s.called_bad = true;
        }
        more.push(bad);
        let (a, b) = (advise(&card, all), advise(&card, more));
        alike(&a, &b, 0.0)?;
        prop_assert_eq!(a.findings, b.findings);
    }
}
