//! A vertical that answers the wrong way round.
//!
//! Guides agree on the vertical: the rest up, or the nocking point down,
//! lowers the tail. A bow that shows the opposite is asked twice before it is
//! believed: powder first, for contact; then, since powder cannot show a nock
//! that is set too low and bounces off the rest, which shows as a high tail,
//! the nock goes to its high starting figure and comes down from there
//! (common practice; the bounce from memory).

use super::caution;
use super::finding::{Finding, Headline, REVERSED};
use super::outcome::Outcome;
use super::probes;
use super::reading::Reading;
use crate::belief::Axis;
use crate::checks::response::Reversal;
use crate::gear::AdjusterKind;

/// How far a reversed vertical is looked into.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Upside {
    /// It answers as guides say, or nobody knows yet.
    No,
    /// Powder was not asked about.
    AskPowder,
    /// The nock was not shot high yet: this adjuster (its column) goes by so
    /// many whole steps.
    HighStart(usize, i32),
    /// Neither contact nor a low nock: believed.
    Believed,
}

/// The sign guides give the tear's change for a millimetre up: the rest up
/// lowers the tail, the nocking point up raises it.
pub(super) const fn guides_say(kind: AdjusterKind) -> f64 {
    match kind {
        AdjusterKind::NockingPoint => 1.0,
        _ => -1.0,
    }
}

/// Which adjuster is reversed, how surely, and what is to be done about it.
pub(super) fn standing(reading: &Reading<'_>) -> Upside {
    let Some((k, _)) = reversed(reading) else {
        return Upside::No;
    };
    if reading
        .timeline
        .answer(crate::question::Test::Contact)
        .is_none()
    {
        return Upside::AskPowder;
    }
    match steps_to_high(reading, k) {
        0 => Upside::Believed,
        steps => Upside::HighStart(k, steps),
    }
}

fn reversed(reading: &Reading<'_>) -> Option<(usize, f64)> {
    let k = reading.view.task.adjuster(Axis::Up)?;
    let (kind, gain, used) = &reading.gains[k];
    let wrong = if guides_say(*kind) < 0.0 {
        1.0 - gain.probability_negative
    } else {
        gain.probability_negative
    };
    (*used && wrong >= REVERSED).then_some((k, wrong))
}

/// Whole steps from here to the high start, if it was not shot yet.
fn steps_to_high(reading: &Reading<'_>, k: usize) -> i32 {
    let (kind, range) = (reading.view.kinds[k], &reading.view.task.adjusters[k]);
    let timeline = reading.timeline;
    // The nock is high against the rest when the rest is low.
    let up = guides_say(kind);
    let stands = caution::nock_above_square(timeline);
    let rise = (caution::high_start(&timeline.card) - stands).max(0.0);
    let rise = rise.min(if up > 0.0 { range.high } else { -range.low });
    let (least, most) = reading.track.reached[k];
    let highest = (up * least).max(up * most);
    if highest > rise - range.step - 1e-6 {
        return 0;
    }
    let way = up * rise - reading.track.here.positions[k];
    (way / range.step).round() as i32
}

/// What is asked or tried before a reversed vertical is believed.
pub(super) fn ask(reading: &Reading<'_>) -> Option<Outcome> {
    if reading.track.fresh == 0 || !reading.consistency.may_move() {
        return None;
    }
    let (k, wrong) = reversed(reading)?;
    // Inside is inside, whatever it answers.
    if reading.decision.here >= reading.view.task.level {
        return None;
    }
    let kind = reading.view.kinds[k];
    let why = |step: Reversal| Finding::Reversed(kind, step, wrong);
    match standing(reading) {
        Upside::No | Upside::Believed => None,
        Upside::AskPowder => Some(probes::powder(
            Headline::PowderReversed,
            why(Reversal::Powder),
        )),
        Upside::HighStart(k, steps) => {
            let mut outcome = super::movement::test_move(reading, &[(k, steps)]);
            outcome.findings.insert(0, why(Reversal::HighStart));
            Some(outcome)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fixtures::COMPOUND;
    use crate::gear::{CardText, Step};
    use crate::session::{Event, Session, Shot};
    use AdjusterKind::{NockingPoint, RestHeight};

    /// The compound with one adjuster up and down, its nock measured.
    fn bow(kind: AdjusterKind, nock: &str) -> Session {
        let vertical = format!(
            "[[adjuster]]\nname = \"rest-sideways\"\nstep = \"0.25 mm\"\nrange = \"8 mm\"\n[[adjuster]]\nname = \"{}\"\nstep = \"0.25 mm\"\nrange = \"8 mm\"\n",
            kind.id()
        );
        let text = CardText::from_toml(&format!("{COMPOUND}{vertical}")).unwrap();
        let mut session = Session::from_text(&text.to_toml()).unwrap();
        let measured = Event::Setup {
            item: "nocking-point".into(),
            value: Some(nock.into()),
            result: "ok".into(),
        };
        session.record(measured).unwrap();
        session
    }

    fn moved(session: &mut Session, adjuster: AdjusterKind, amount: f64) {
        let steps = vec![Step { adjuster, amount }];
        let event = Event::Move {
            steps,
            said: None,
            confirms: None,
        };
        session.record(event).unwrap();
    }

    fn shoot(session: &mut Session, ups: &[f64]) {
        for up in ups {
            let shot = Shot {
                up: *up,
                ..Shot::default()
            };
            session.record(Event::Shot(shot)).unwrap();
        }
    }

    fn powder(session: &mut Session) {
        let event = Event::Answer {
            test: "contact".into(),
            result: "none".into(),
            detail: None,
        };
        session.record(event).unwrap();
    }

    /// A bow moved up by 1 mm whose tail goes from 12 high by `change`.
    fn answered(kind: AdjusterKind, nock: &str, change: f64) -> Session {
        let mut session = bow(kind, nock);
        shoot(&mut session, &[12.0, 11.0, 12.0]);
        moved(&mut session, kind, 1.0);
        shoot(&mut session, &[12.0 + change, 11.0 + change, 12.0 + change]);
        session
    }

    fn stands(session: &Session) -> Upside {
        standing(&Reading::of(session.timeline()))
    }

    /// Guides: the rest up lowers the tail, the nocking point up raises it.
    #[test]
    fn what_goes_against_the_guides_is_asked_about_and_what_agrees_is_not() {
        for (kind, agrees) in [(RestHeight, -8.0), (NockingPoint, 8.0)] {
            assert_eq!(guides_say(kind), agrees / 8.0);
            assert_eq!(stands(&answered(kind, "2 mm high", agrees)), Upside::No);
            let against = answered(kind, "2 mm high", -agrees);
            assert_eq!(stands(&against), Upside::AskPowder, "{kind:?}");
            let reading = Reading::of(against.timeline());
            let (k, wrong) = reversed(&reading).unwrap();
            assert_eq!(reading.view.kinds[k], kind);
            assert!((0.9..=1.0).contains(&wrong), "{wrong}");
            // Not moved yet, nothing is reversed, whatever was believed before.
            let mut still = bow(kind, "2 mm high");
            shoot(&mut still, &[12.0, 11.0, 12.0]);
            assert_eq!(stands(&still), Upside::No);
        }
    }

    /// Exactly nine times in ten is acted on.
    #[test]
    fn a_reversal_is_acted_on_from_nine_times_in_ten() {
        for (kind, agrees) in [(RestHeight, -8.0), (NockingPoint, 8.0)] {
            let session = answered(kind, "2 mm high", -agrees);
            let mut reading = Reading::of(session.timeline());
            let k = reading.view.task.adjuster(Axis::Up).unwrap();
            let mut wrong = |chance: f64| {
                let negative = if kind == RestHeight {
                    1.0 - chance
                } else {
                    chance
                };
                reading.gains[k].1.probability_negative = negative;
                reversed(&reading).is_some()
            };
            assert_eq!(
                [0.9, 0.95, 0.89, 0.1].map(&mut wrong),
                [true, true, false, false]
            );
            reading.gains[k].1.probability_negative = if kind == RestHeight { 0.0 } else { 1.0 };
            reading.gains[k].2 = false;
            assert!(reversed(&reading).is_none(), "never moved");
        }
    }

    /// The high start is 6.35 mm above square. Measured 2 mm high, the nock
    /// rises 4.35 mm from the start: from 1 mm up the rest goes down 5.35 mm,
    /// 21 clicks of 0.25 mm, and the nocking point up 3.35 mm, 13 clicks.
    #[test]
    fn the_high_start_is_as_many_clicks_away_as_was_measured() {
        let steps = |kind, nock: &str| {
            let against = if kind == RestHeight { 8.0 } else { -8.0 };
            let mut session = answered(kind, nock, against);
            powder(&mut session);
            let reading = Reading::of(session.timeline());
            let k = reading.view.task.adjuster(Axis::Up).unwrap();
            match standing(&reading) {
                Upside::HighStart(at, steps) => {
                    assert_eq!(at, k);
                    assert_eq!(steps_to_high(&reading, k), steps);
                    steps
                }
                Upside::Believed => 0,
                other => panic!("{other:?}"),
            }
        };
        assert_eq!(steps(RestHeight, "2 mm high"), -21);
        assert_eq!(steps(NockingPoint, "2 mm high"), 13);
        // 5 mm high: 1.35 mm to rise; 2.35 mm down from 1 mm up, 9 clicks; the
        // nocking point has 0.35 mm left, 1 click.
        assert_eq!(steps(RestHeight, "5 mm high"), -9);
        assert_eq!(steps(NockingPoint, "5 mm high"), 1);
        // Higher than the high start already: the rest goes back to it.
        assert_eq!(steps(RestHeight, "8 mm high"), 0);
        // 5.2 mm high: 1.15 mm to rise, and 1 mm up was shot: within a click.
        assert_eq!(steps(NockingPoint, "5.2 mm high"), 0);
        assert_eq!(steps(NockingPoint, "5.1 mm high"), 0);
        assert_eq!(steps(NockingPoint, "5.09 mm high"), 1);
    }

    /// Travel ends the rise: 2 mm low it would be 8.35 mm, and 8 mm is all.
    #[test]
    fn the_high_start_stays_within_the_travel_and_is_shot_once() {
        let mut session = answered(RestHeight, "2 mm low", 8.0);
        powder(&mut session);
        assert_eq!(stands(&session), Upside::HighStart(1, -36));
        let mut session = answered(RestHeight, "2 mm high", 8.0);
        powder(&mut session);
        moved(&mut session, RestHeight, -5.35);
        shoot(&mut session, &[-23.0, -22.0, -23.0]);
        assert_eq!(stands(&session), Upside::Believed);
    }

    #[test]
    fn inside_is_inside_and_a_move_is_shot_first() {
        let against = answered(RestHeight, "2 mm high", 8.0);
        let reading = Reading::of(against.timeline());
        let asked = ask(&reading).expect("powder");
        assert_eq!(asked.probe.unwrap().kind, crate::advice::ProbeKind::Contact);
        let mut within = Reading::of(against.timeline());
        within.decision.here = within.view.task.level;
        assert!(ask(&within).is_none());
        within.decision.here = within.view.task.level - 1e-9;
        assert!(ask(&within).is_some());
        within.track.fresh = 0;
        assert!(ask(&within).is_none());
        let mut unsteady = Reading::of(against.timeline());
        unsteady.consistency.gate = crate::tuner::gates::Gate::Wait;
        assert!(ask(&unsteady).is_none());
        // With the powder clean it is a test move down, to the high start.
        let mut clean = answered(RestHeight, "2 mm high", 8.0);
        powder(&mut clean);
        let outcome = ask(&Reading::of(clean.timeline())).expect("a move");
        let step = &outcome.movement.unwrap().steps[0];
        assert_eq!((step.adjuster(), step.amount()), (RestHeight, -5.25));
        assert!(
            ask(&Reading::of(
                answered(RestHeight, "2 mm high", -8.0).timeline(),
            ))
            .is_none()
        );
    }

    /// The rest goes down for a high nock, the nocking point up: each ends at
    /// its own end of the travel.
    #[test]
    fn the_rise_ends_where_the_travel_that_way_ends() {
        for (kind, against, steps) in [(RestHeight, 8.0, -12), (NockingPoint, -8.0, 6)] {
            let mut session = answered(kind, "2 mm high", against);
            powder(&mut session);
            let mut reading = Reading::of(session.timeline());
            let k = reading.view.task.adjuster(Axis::Up).unwrap();
            let range = &mut reading.view.task.adjusters[k];
            // 2 mm down and 2.5 mm up: 3 mm down or 1.5 mm up from 1 mm up.
            (range.low, range.high) = (-2.0, 2.5);
            assert_eq!(steps_to_high(&reading, k), steps, "{kind:?}");
        }
    }
}
