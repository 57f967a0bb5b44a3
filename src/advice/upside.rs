//! A vertical that answers the wrong way round.
//!
//! Guides agree on the vertical: the rest up, or the nocking point down,
//! lowers the tail. A bow that shows the opposite is asked twice before it is
//! believed: powder first, for contact; then, since powder cannot show a nock
//! that is set too low and bounces off the rest, which shows as a high tail,
//! the nock goes to its high starting figure and comes down from there
//! (common practice; the bounce from memory).

use super::caution;
use super::decide::Outcome;
use super::probes;
use super::reading::Reading;
use super::types::Reason;
use crate::belief::Axis;
use crate::checks::response::{self, Reversal};
use crate::gear::AdjusterKind;

/// Chance from which the other way round is acted on.
pub(super) const REVERSED: f64 = 0.9;

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
    let reason = |step: Reversal| {
        let text = response::reversal(kind, step);
        Reason::measured("reversed-vertical", text, wrong, REVERSED, "chance")
    };
    match standing(reading) {
        Upside::No | Upside::Believed => None,
        Upside::AskPowder => Some(probes::powder(
            "Test for contact before a reversed response is believed",
            reason(Reversal::Powder),
        )),
        Upside::HighStart(k, steps) => {
            let mut outcome = super::decide::test_move(reading, &[(k, steps)]);
            outcome.reasons.insert(0, reason(Reversal::HighStart));
            Some(outcome)
        }
    }
}
