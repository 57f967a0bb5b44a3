//! The order of the checks and the verdict, as findings with figures. What
//! they say, in whichever unit system, stands in [`crate::words`].

mod another;
mod asked;
mod caution;
mod cures;
mod decide;
pub(crate) mod earlier;
mod finding;
mod first;
mod fliers;
mod holes;
mod lean;
mod movement;
mod outcome;
pub mod prior;
mod probes;
mod proved;
mod range_first;
mod reading;
mod stop;
mod tells;
mod touch;
mod track;
mod types;
mod upside;
pub(crate) mod usual;
pub mod view;
mod warnings;

use std::collections::BTreeMap;

pub(crate) use cures::shots_before_mending;
#[cfg(test)]
pub(crate) use finding::ByLoad;
pub(crate) use finding::{Against, ByGuides, ByHeight, Ground, GuideWay, OUTSIDE};
pub use finding::{
    Ask, Backwards, Behind, Chance, Finding, FirstMove, Headline, Missing, OddArrow, Pad,
    ResponseKnown, RestsOn, Telling, Weighed,
};
pub use lean::LeansOn;
pub(crate) use stop::{Stop, stopped};
pub use track::Memo;
pub use types::{
    Advice, Analysis, Estimate, GainEstimate, MoveAdvice, MovePurpose, NextShot, PriorSource,
    Probe, ProbeKind, Reckoned, StepAdvice, TearEstimate, TrackPoint, Verdict,
};

use crate::belief::Axis;
use crate::gear::AdjusterKind;
use crate::range::{Due, Today};
use crate::session::Timeline;
use decide::decide;
pub(crate) use outcome::tidy;
use outcome::{Outcome, rms};
use reading::Reading;

/// The advice on a timeline for a shot on the day given: the range safety list is due once a day, and only the caller knows the day.
pub fn advise(timeline: &Timeline, today: Today) -> Advice {
    let reading = Reading::of(timeline);
    let outcome = decide(&reading);
    to_advice(&reading, outcome, today).0
}

/// The advice with what a page or a sheet shows beside it. What was believed
/// after each shot is [`running_record`]: only a chart of it needs that, and it
/// takes longer than all the rest.
pub fn analyse(timeline: &Timeline, today: Today) -> Analysis {
    let reading = Reading::of(timeline);
    let outcome = decide(&reading);
    let lines = track::reckoning(&reading, &outcome);
    let mut analysis = to_analysis(&reading, outcome, today);
    analysis.reckoning = lines;
    analysis
}

/// The same for one who asks again after every entry and cannot wait: what the
/// running record of the entries before is kept in the memo where it still
/// holds, and the reckoning, which few look at, is left to [`reckoning`].
pub fn analyse_after(timeline: &Timeline, today: Today, memo: &mut Memo) -> Analysis {
    let reading = Reading::of(timeline);
    let outcome = decide(&reading);
    track::renew(&reading, memo);
    to_analysis(&reading, outcome, today)
}

/// What was believed after each shot of a timeline, as [`Memo::points`] has it.
pub fn running_record(timeline: &Timeline) -> Vec<Option<TrackPoint>> {
    let mut memo = Memo::default();
    track::renew(&Reading::of(timeline), &mut memo);
    memo.points().to_vec()
}

/// How the verdict on a timeline is reached, line by line.
pub fn reckoning(timeline: &Timeline) -> Vec<Reckoned> {
    let reading = Reading::of(timeline);
    track::reckoning(&reading, &decide(&reading))
}

fn to_analysis(reading: &Reading<'_>, outcome: Outcome, today: Today) -> Analysis {
    let next_shot = outcome.next_shot;
    let scatter = (reading.track.repeats >= 1).then(|| {
        let [right, up] = Axis::BOTH.map(|axis| reading.belief.scatter(axis).mean);
        (right, up)
    });
    let bad = (0..reading.view.shots.len())
        .map(|i| reading.belief.shot_bad(i).unwrap_or(0.0))
        .collect();
    let judged_by_technician = !reading.owner_is_judged();
    let (advice, range_due) = to_advice(reading, outcome, today);
    Analysis {
        advice,
        reckoning: Vec::new(),
        bad,
        scatter,
        next_shot,
        judged_by_technician,
        range_due,
    }
}

/// The advice, and why the range safety list comes before it, where it does.
fn to_advice(reading: &Reading<'_>, outcome: Outcome, today: Today) -> (Advice, Option<Due>) {
    let mut advice = Advice {
        verdict: outcome.verdict,
        refusal: outcome.refusal,
        headline: outcome.headline,
        findings: outcome.findings,
        movement: outcome.movement,
        probe: outcome.probe,
        shots_wanted: outcome.shots_wanted,
        checks: reading.checks(),
        estimate: estimate(reading),
        shots_here: reading.track.shots_here,
    };
    holes::tell(reading.timeline.holes, &mut advice);
    let due = range_first::say(reading.timeline, &mut advice, today);
    (advice, due)
}

fn estimate(reading: &Reading<'_>) -> Estimate {
    let known = reading.known();
    let tear = reading.belief.tear(&reading.track.here);
    let tear_mm = known.then(|| TearEstimate {
        right: tidy(tear.mean[0]),
        up: tidy(tear.mean[1]),
        sd: tidy(rms(tear.sd[0], tear.sd[1])),
    });
    let gain: BTreeMap<AdjusterKind, GainEstimate> = reading
        .gains
        .iter()
        .map(|(kind, gain, _)| {
            let estimate = GainEstimate {
                mean: tidy(gain.mean),
                sd: tidy(gain.sd),
                probability_negative: tidy(gain.probability_negative),
            };
            (*kind, estimate)
        })
        .collect();
    Estimate {
        tear_mm,
        probability_within_tolerance: known.then_some(tidy(reading.decision.here)),
        gain,
        prior: earlier::source(reading.timeline),
    }
}
