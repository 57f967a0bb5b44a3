//! What the set-up list measured, as a number for the tuning.

use super::judge::in_mm;
use crate::gear::{AdjusterKind, Positions};
use crate::question::SetupItem;
use crate::session::Timeline;

/// The latest measured value of an item of this bow's list, mm (the point out
/// from the string's line, the nock above square), and where the adjusters
/// stood then. `None` where it was not measured or is not a length.
pub(crate) fn measured_mm(timeline: &Timeline, id: SetupItem) -> Option<(f64, Positions)> {
    let found = timeline
        .setup
        .iter()
        .rev()
        .find(|s| s.item == id && s.value.is_some())?;
    let mm = in_mm(timeline, id, found.value.as_deref()?)?;
    let before = timeline.moves.iter().filter(|m| m.place < found.entry);
    let then = before.fold(Positions::default(), |at, m| at.after(&m.steps));
    Some((mm, then))
}

/// How far the point stands outside the string's line with the adjusters at
/// the start, mm; in is negative. `None` where it was not measured.
pub(crate) fn point_outside_mm(timeline: &Timeline) -> Option<f64> {
    let (mm, then) = measured_mm(timeline, SetupItem::CentreShot)?;
    let moved = then.get(AdjusterKind::RestSideways) + then.get(AdjusterKind::CentreShot);
    // Positions count right positive, the measure outward.
    Some(mm + timeline.card.bow.hand.in_sign() * moved)
}

/// How far the nock stands above square with the adjusters at the start, mm.
/// `None` where it was not measured.
pub(crate) fn nock_above_square_mm(timeline: &Timeline) -> Option<f64> {
    let (mm, then) = measured_mm(timeline, SetupItem::NockingPoint)?;
    Some(mm - then.get(AdjusterKind::NockingPoint) + then.get(AdjusterKind::RestHeight))
}

/// Where an adjuster stands, mm: the point outside the string's line for what
/// moves sideways, the bottom of the nock above square for the nocking point;
/// as measured before paper, with the moves since. `None` where it was not
/// measured, and for other adjusters.
pub(crate) fn measured_now(timeline: &Timeline, kind: AdjusterKind) -> Option<f64> {
    let now = |kind| timeline.now.get(kind);
    match kind {
        AdjusterKind::RestSideways | AdjusterKind::CentreShot => {
            let moved = now(AdjusterKind::RestSideways) + now(AdjusterKind::CentreShot);
            Some(point_outside_mm(timeline)? - timeline.card.bow.hand.in_sign() * moved)
        }
        AdjusterKind::NockingPoint => {
            let moved = now(AdjusterKind::NockingPoint) - now(AdjusterKind::RestHeight);
            Some(nock_above_square_mm(timeline)? + moved)
        }
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fixtures::COMPOUND;
    use crate::fixtures::with_hand;
    use crate::session::Event;
    use crate::session::told::{self, measured as setup, moved};

    fn timeline(hand: &str, events: Vec<Event>) -> Timeline {
        told::timeline(&with_hand(COMPOUND, hand), events)
    }

    #[test]
    fn the_point_is_told_from_where_it_was_measured_for_either_hand() {
        let said = || setup("centre-shot", "2 mm out");
        let left = || moved(AdjusterKind::RestSideways, -1.5);
        assert_eq!(point_outside_mm(&timeline("right", vec![])), None);
        let measured_first = timeline("right", vec![said(), left()]);
        assert_eq!(point_outside_mm(&measured_first), Some(2.0));
        // Left is out for the right hand: it stood nearer in before the move.
        let moved_first = timeline("right", vec![left(), said()]);
        assert_eq!(point_outside_mm(&moved_first), Some(0.5));
        let moved_first = timeline("left", vec![left(), said()]);
        assert_eq!(point_outside_mm(&moved_first), Some(3.5));
    }

    #[test]
    fn the_nock_is_told_against_the_rest() {
        let said = || setup("nocking-point", "3 mm high");
        let up = |kind| moved(kind, 1.0);
        let measured = timeline("right", vec![said()]);
        assert_eq!(nock_above_square_mm(&measured), Some(3.0));
        let rest = timeline("right", vec![up(AdjusterKind::RestHeight), said()]);
        assert_eq!(nock_above_square_mm(&rest), Some(4.0));
        let nock = timeline("right", vec![up(AdjusterKind::NockingPoint), said()]);
        assert_eq!(nock_above_square_mm(&nock), Some(2.0));
        let low = timeline("right", vec![setup("nocking-point", "1 mm low")]);
        assert_eq!(nock_above_square_mm(&low), Some(-1.0));
    }

    #[test]
    fn what_was_measured_goes_along_with_the_moves_since() {
        let events = vec![
            moved(AdjusterKind::RestSideways, 5.0),
            setup("centre-shot", "2 mm out"),
            setup("nocking-point", "6 mm high"),
            moved(AdjusterKind::RestSideways, -0.5),
            moved(AdjusterKind::NockingPoint, -1.0),
        ];
        for (hand, out) in [("right", 2.5), ("left", 1.5)] {
            let card =
                super::super::tests::RECURVE.replace("hand=\"right\"", &format!("hand=\"{hand}\""));
            let t = super::super::tests::timeline(&card, events.clone());
            assert_eq!(measured_now(&t, AdjusterKind::RestSideways), Some(out));
            assert_eq!(measured_now(&t, AdjusterKind::NockingPoint), Some(5.0));
            assert_eq!(measured_now(&t, AdjusterKind::PlungerTension), None);
        }
        let t = super::super::tests::timeline(super::super::tests::RECURVE, vec![]);
        assert_eq!(measured_now(&t, AdjusterKind::RestSideways), None);
    }
}
