//! Where an adjuster stands by what was measured before paper.

use super::compute;
use super::item;
use super::read::{Value, read};
use crate::gear::AdjusterKind;
use crate::session::Timeline;

/// Where an adjuster stands, mm: the point outside the string's line for what
/// moves sideways, the bottom of the nock above square for the nocking point;
/// as measured before paper, with the moves since. `None` where it was not
/// measured, and for other adjusters.
pub fn measured_now(timeline: &Timeline, kind: AdjusterKind) -> Option<f64> {
    let (id, way) = match kind {
        AdjusterKind::RestSideways | AdjusterKind::CentreShot => {
            ("centre-shot", -timeline.card.bow.hand.in_sign())
        }
        AdjusterKind::NockingPoint => ("nocking-point", 1.0),
        _ => return None,
    };
    let found = timeline
        .setup
        .iter()
        .rev()
        .find(|s| s.item == id && s.value.is_some())?;
    let measure = item(&timeline.card, id)?.measure;
    let length = timeline.card.arrow.shaft_length.mm();
    let measured = match read(measure, found.value.as_deref()?).ok()? {
        Value::One(mm) => mm,
        Value::Places(near, far) => compute::centre_shot(near, far, length)?.out_mm,
        _ => return None,
    };
    let moved: f64 = timeline
        .moves
        .iter()
        .filter(|m| m.entry > found.entry)
        .flat_map(|m| &m.steps)
        .filter(|s| s.adjuster == kind)
        .map(|s| s.amount)
        .sum();
    Some(measured + way * moved)
}

#[cfg(test)]
mod tests {
    use super::super::tests::{RECURVE, timeline};
    use super::*;
    use crate::gear::Step;
    use crate::session::Event;

    #[test]
    fn what_was_measured_goes_along_with_the_moves_since() {
        let setup = |item: &str, value: &str| Event::Setup {
            item: item.into(),
            value: Some(value.into()),
            result: "ok".into(),
        };
        let moved = |adjuster, amount| Event::Move {
            steps: vec![Step { adjuster, amount }],
            said: None,
            confirms: None,
        };
        let events = vec![
            moved(AdjusterKind::RestSideways, 5.0),
            setup("centre-shot", "2 mm out"),
            setup("nocking-point", "6 mm high"),
            moved(AdjusterKind::RestSideways, -0.5),
            moved(AdjusterKind::NockingPoint, -1.0),
        ];
        for (hand, out) in [("right", 2.5), ("left", 1.5)] {
            let card = RECURVE.replace("hand=\"right\"", &format!("hand=\"{hand}\""));
            let t = timeline(&card, events.clone());
            assert_eq!(measured_now(&t, AdjusterKind::RestSideways), Some(out));
            assert_eq!(measured_now(&t, AdjusterKind::NockingPoint), Some(5.0));
            assert_eq!(measured_now(&t, AdjusterKind::PlungerTension), None);
        }
        let t = timeline(RECURVE, vec![]);
        assert_eq!(measured_now(&t, AdjusterKind::RestSideways), None);
    }
}
