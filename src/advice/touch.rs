//! Contact is looked for before the shots or the bow are blamed: what knocks
//! on the vanes scatters, jumps or turns the response round, and powder is cheap.

use super::decide::Outcome;
use super::finding::{Behind, Finding, Headline};
use super::probes;
use super::reading::Reading;
use crate::belief::Axis;
use crate::checks::{self, response::Obstacle};
use crate::question::{Contact, Refusal, Test};
use crate::session::Timeline;
use crate::stats::normal;
use crate::tuner::Choice;

/// Chance from which the other way round than expected is acted on.
const REVERSED: f64 = 0.9;
/// How surely a side must have been expected for the other to be a surprise.
const EXPECTED: f64 = 0.7;

/// The powder test, where contact could be behind what is about to be
/// refused and nobody has looked yet.
pub(super) fn first(reading: &Reading<'_>) -> Option<Outcome> {
    if ruled_out(reading.timeline) {
        return None;
    }
    let behind = behind(reading)?;
    let headline = Headline::ContactFirst(behind);
    Some(probes::powder(headline, Finding::ContactFirst(behind)))
}

/// Whether powder was looked at; after "nobody looked" it is asked for once
/// more, on new shots.
fn ruled_out(timeline: &Timeline) -> bool {
    let all = timeline
        .answers
        .iter()
        .filter(|a| a.test == Test::Contact && a.arrow_epoch == timeline.arrow_epoch);
    let Some(last) = all.clone().next_back() else {
        return false;
    };
    let unseen = Contact::of(&last.result) == Contact::NotLooked;
    !(unseen && all.count() == 1 && last.shots_before < timeline.shots.len())
}

/// Whether powder found contact that is still to be cured.
pub(super) fn found(reading: &Reading<'_>) -> bool {
    matches!(reading.obstacle, Some(Obstacle::Contact(_)))
        && !checks::resumed(reading.timeline, Refusal::Contact)
}

fn behind(reading: &Reading<'_>) -> Option<Behind> {
    let timeline = reading.timeline;
    if reading.scatter_refuses() && !checks::resumed(timeline, Refusal::Scatter) {
        return Some(Behind::Scatter);
    }
    let open = |o: &&Obstacle| !checks::resumed(timeline, o.refusal());
    let obstacle = reading.obstacle.as_ref().filter(open);
    if matches!(obstacle, Some(Obstacle::Jumps(_))) {
        return Some(Behind::Jumps);
    }
    reversed_sideways(reading).then_some(Behind::Reversed)
}

/// Whether the adjuster that is about to move the tear sideways answers
/// against a side that was expected of this bow.
fn reversed_sideways(reading: &Reading<'_>) -> bool {
    let Some(k) = reading.view.task.adjuster(Axis::Right) else {
        return false;
    };
    let Choice::Move(steps) = &reading.decision.choice else {
        return false;
    };
    let (_, gain, used) = &reading.gains[k];
    let expected = reading.view.prior.adjusters[k].slope[Axis::Right.index()];
    let negative = normal::below(-expected.mean / expected.sd);
    let against = (negative >= EXPECTED && 1.0 - gain.probability_negative >= REVERSED)
        || (1.0 - negative >= EXPECTED && gain.probability_negative >= REVERSED);
    *used && against && reading.consistency.may_move() && steps.iter().any(|(n, _)| *n == k)
}
