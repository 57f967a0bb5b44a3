//! The advice in words: what JSON writes, schema 1, and what screen, command
//! line and sheet show. The one place where findings become text and codes.

use std::collections::BTreeMap;

use serde::Serialize;

use super::{ask, check, headline, headline_here, learned, say, step_advised};
use crate::advice::{
    Advice, Analysis, Estimate, Finding, GainEstimate, MovePurpose, PriorSource, Probe, ProbeKind,
    TearEstimate, Verdict,
};
use crate::checks::{CheckKind, Figure, Status};
use crate::gear::AdjusterKind;
use crate::question::Answer;
use crate::session::Timeline;
use crate::units::System;

/// Version of the JSON.
pub(crate) const SCHEMA: u32 = 1;

/// The advice in words; its fields are those of `advise --json`.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Said {
    /// Always [`SCHEMA`].
    pub(crate) schema: u32,
    /// What to do next.
    pub verdict: Verdict,
    /// The verdict in one line: what its title does not say.
    pub headline: String,
    /// Why, most important first.
    pub reasons: Vec<Reason>,
    /// The move, only when the verdict is `move`.
    #[serde(rename = "move")]
    pub movement: Option<SaidMove>,
    /// The test, only when the verdict is `probe`.
    pub probe: Option<SaidProbe>,
    /// Shots wanted before the next decision: a forecast.
    pub shots_wanted: u32,
    /// The four checks.
    pub checks: SaidChecks,
    /// The estimate behind it.
    pub estimate: SaidEstimate,
}

/// The estimate behind the verdict; unknown is null.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SaidEstimate {
    /// Likely tear here.
    pub tear_mm: Option<TearEstimate>,
    /// Chance that the true mean tear here is within tolerance.
    pub probability_within_tolerance: Option<f64>,
    /// Response of each adjuster the bow has.
    pub gain: BTreeMap<&'static str, GainEstimate>,
    /// What was believed before the first shot, and what it rests on.
    pub prior: SaidPrior,
}

/// What was believed before the first shot rests on this.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct SaidPrior {
    /// Earlier bows; 0 where none taught anything.
    pub bows: u32,
    /// In words.
    pub source: String,
}

/// One reason behind the verdict.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Reason {
    /// Stable code.
    pub code: &'static str,
    /// In words.
    pub text: String,
    /// The figure, where there is one.
    pub(crate) value: Option<f64>,
    /// Its limit, where there is one.
    pub(crate) limit: Option<f64>,
    /// The unit of both.
    pub unit: Option<&'static str>,
}

/// One step of an advised move.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SaidStep {
    /// Which adjuster.
    pub adjuster: AdjusterKind,
    /// How far, relative to where it is now; never zero.
    pub amount: f64,
    /// Its unit: `mm`, `turn` or `twist`.
    pub unit: &'static str,
    /// Whole clicks, signed like the amount; null where it does not click.
    pub clicks: Option<i64>,
    /// As a person at the bench wants it.
    pub text: String,
    /// As the command `move` takes it.
    pub(crate) say: String,
}

/// An advised move.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SaidMove {
    /// Whether it is a test or a correction.
    pub purpose: MovePurpose,
    /// Its steps: one, or two once both responses are known.
    pub steps: Vec<SaidStep>,
    /// The tear to expect of the next shot.
    pub(crate) expected_tear_mm: TearEstimate,
}

/// One test that would tell.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SaidProbe {
    /// Which kind.
    pub kind: ProbeKind,
    /// Distance to shoot it at, m; at least 1.5.
    pub distance_m: Option<f64>,
    /// Shots it takes; 0 for a test answered in words.
    pub shots: u32,
    /// Possible answers, the harmless one first; empty when the shots answer.
    pub answers: Vec<Answer>,
    /// What to do and what each outcome would mean.
    pub text: String,
}

/// One check: status, figure, limit and what it found in words.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SaidCheck {
    /// How it stands.
    pub status: Status,
    /// In words.
    pub text: String,
    /// The figure, where there is one.
    pub(crate) value: Option<f64>,
    /// Its limit, where there is one.
    pub(crate) limit: Option<f64>,
    /// The unit of both.
    pub unit: Option<&'static str>,
}

/// The four checks, under their names in JSON.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SaidChecks {
    /// Whether anything forbids shooting.
    pub safety: SaidCheck,
    /// Whether the arrow's spine suits the bow.
    pub spine_match: SaidCheck,
    /// Whether repeat shots agree.
    pub consistency: SaidCheck,
    /// Whether the adjusters do what is believed of them.
    pub response: SaidCheck,
}

impl SaidChecks {
    /// Each with which it is, in order.
    pub const fn each(&self) -> [(CheckKind, &SaidCheck); 4] {
        [
            (CheckKind::Safety, &self.safety),
            (CheckKind::Spine, &self.spine_match),
            (CheckKind::Consistency, &self.consistency),
            (CheckKind::Response, &self.response),
        ]
    }
}

/// The whole advice on its session in words: its headline is
/// [`headline_here`].
pub fn said_here(timeline: &Timeline, analysis: &Analysis, system: System) -> Said {
    Said {
        headline: headline_here(timeline, analysis, system),
        ..said(&analysis.advice, system)
    }
}

/// The whole advice in words.
pub fn said(advice: &Advice, system: System) -> Said {
    Said {
        schema: SCHEMA,
        verdict: advice.verdict,
        headline: headline(advice, system),
        reasons: advice.findings.iter().map(|f| reason(f, system)).collect(),
        movement: movement(advice, system),
        probe: advice.probe.as_ref().map(|p| probe(p, system)),
        shots_wanted: advice.shots_wanted,
        checks: checks(advice, system),
        estimate: estimate(&advice.estimate),
    }
}

fn estimate(found: &Estimate) -> SaidEstimate {
    let (bows, source) = match &found.prior {
        PriorSource::Earlier(record) => (record.bows, learned(record)),
        PriorSource::Card(drawn) => (
            0,
            format!("no earlier bow; the card, {drawn} drawn bows (a computation)"),
        ),
        PriorSource::Usual => (0, "no earlier bow; what is usual of the kind".into()),
    };
    SaidEstimate {
        tear_mm: found.tear_mm,
        probability_within_tolerance: found.probability_within_tolerance,
        gain: found.gain.iter().map(|(kind, g)| (kind.id(), *g)).collect(),
        prior: SaidPrior { bows, source },
    }
}

/// A finding with its code, its figure and what it says.
pub(crate) fn reason(finding: &Finding, system: System) -> Reason {
    let (value, limit, unit) = parts(finding.figure());
    Reason {
        code: finding.code().id(),
        text: say(finding, system),
        value,
        limit,
        unit,
    }
}

/// A figure as JSON has it; null where there is none.
type Parts = (Option<f64>, Option<f64>, Option<&'static str>);

fn parts(figure: Option<Figure>) -> Parts {
    figure.map_or((None, None, None), |f| {
        (Some(f.value), Some(f.limit), Some(f.unit.id()))
    })
}

fn movement(advice: &Advice, system: System) -> Option<SaidMove> {
    let advised = advice.movement.as_ref()?;
    let steps = advised.steps.iter().map(|step| SaidStep {
        adjuster: step.adjuster(),
        amount: step.amount(),
        unit: step.adjuster().unit().id(),
        clicks: step.bench.clicks,
        text: step_advised(step, system),
        say: step.bench.step.say(),
    });
    Some(SaidMove {
        purpose: advised.purpose,
        steps: steps.collect(),
        expected_tear_mm: advised.expected_tear_mm,
    })
}

fn probe(probe: &Probe, system: System) -> SaidProbe {
    SaidProbe {
        kind: probe.kind,
        distance_m: probe.distance_m,
        shots: probe.shots,
        answers: probe.answers.clone(),
        text: ask(&probe.ask, &probe.answers, system),
    }
}

fn checks(advice: &Advice, system: System) -> SaidChecks {
    let one = |which| {
        let (value, limit, unit) = parts(advice.checks.figure(which));
        SaidCheck {
            status: advice.checks.status(which),
            text: check(&advice.checks, which, system),
            value,
            limit,
            unit,
        }
    };
    SaidChecks {
        safety: one(CheckKind::Safety),
        spine_match: one(CheckKind::Spine),
        consistency: one(CheckKind::Consistency),
        response: one(CheckKind::Response),
    }
}
