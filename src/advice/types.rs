//! Advice as data: what the JSON says, and what the screen shows beside it.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::checks::Checks;
use crate::gear::{AdjusterKind, Step};
use crate::question::{Answer, Refusal, Test};
use crate::tuner::Purpose;

/// Version of the JSON.
pub const SCHEMA: u32 = 1;

/// What to do next. The words here are the JSON's; the screen has its own.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Verdict {
    /// Shoot again here.
    Shoot,
    /// Make the move shown.
    Move,
    /// Do the one test shown.
    Probe,
    /// Leave the rest alone: no move would be honest.
    Refuse,
    /// Within tolerance: now prove it at distance.
    Done,
    /// Do not shoot.
    Stop,
}

impl Verdict {
    /// Every verdict.
    pub const ALL: [Self; 6] = [
        Self::Shoot,
        Self::Move,
        Self::Probe,
        Self::Refuse,
        Self::Done,
        Self::Stop,
    ];

    /// The word in JSON and scenario files.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Shoot => "shoot",
            Self::Move => "move",
            Self::Probe => "probe",
            Self::Refuse => "refuse",
            Self::Done => "done",
            Self::Stop => "stop",
        }
    }
}

/// One reason behind the verdict.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Reason {
    /// Stable code.
    pub code: &'static str,
    /// In words.
    pub text: String,
    /// The figure, where there is one.
    pub value: Option<f64>,
    /// Its limit, where there is one.
    pub limit: Option<f64>,
    /// The unit of both.
    pub unit: Option<&'static str>,
}

impl Reason {
    /// A reason without a figure.
    pub fn plain(code: &'static str, text: impl Into<String>) -> Self {
        Self {
            code,
            text: text.into(),
            value: None,
            limit: None,
            unit: None,
        }
    }
    /// A reason with a figure held against a limit.
    pub fn measured(
        code: &'static str,
        text: impl Into<String>,
        value: f64,
        limit: f64,
        unit: &'static str,
    ) -> Self {
        Self {
            code,
            text: text.into(),
            value: Some(value),
            limit: Some(limit),
            unit: Some(unit),
        }
    }
}

/// One step of an advised move.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct StepAdvice {
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
    pub say: String,
}

/// A tear with one spread, mm.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct TearEstimate {
    /// Right positive.
    pub right: f64,
    /// Up positive.
    pub up: f64,
    /// Standard deviation of one component (root mean square of both).
    pub sd: f64,
}

/// What an advised move is made for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum MovePurpose {
    /// To learn what this bow does: nobody knows yet what it will bring.
    Test,
    /// To bring the tear nearer to what is wanted.
    Correction,
}

impl MovePurpose {
    /// What the tuner chose it for.
    pub(super) const fn of(purpose: Purpose) -> Self {
        if purpose.is_test() {
            Self::Test
        } else {
            Self::Correction
        }
    }
}

/// An advised move.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct MoveAdvice {
    /// Whether it is a test or a correction.
    pub purpose: MovePurpose,
    /// Its steps: one, or two once both responses are known.
    pub steps: Vec<StepAdvice>,
    /// The tear to expect of the next shot.
    pub expected_tear_mm: TearEstimate,
}

impl MoveAdvice {
    /// The steps alone, as a move is recorded.
    pub fn moves(&self) -> Vec<Step> {
        let step = |s: &StepAdvice| Step {
            adjuster: s.adjuster,
            amount: s.amount,
        };
        self.steps.iter().map(step).collect()
    }
}

/// Kinds of probe.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum ProbeKind {
    /// Shots at another distance.
    Distance,
    /// Shots without fletching.
    BareShaft,
    /// The powder test for contact.
    Contact,
    /// The same with another arrow.
    Arrow,
    /// Whether the bow hand was open and relaxed.
    Hand,
}

impl ProbeKind {
    /// Every kind.
    pub const ALL: [Self; 5] = [
        Self::Distance,
        Self::BareShaft,
        Self::Contact,
        Self::Arrow,
        Self::Hand,
    ];

    /// Its word in the JSON, and the word of the test it is recorded under.
    pub const fn id(self) -> &'static str {
        match self.test() {
            Some(test) => test.id(),
            None if matches!(self, Self::Distance) => "distance",
            None => "bare-shaft",
        }
    }

    /// The test it is answered under; `None` where the shots answer.
    pub const fn test(self) -> Option<Test> {
        match self {
            Self::Distance | Self::BareShaft => None,
            Self::Contact => Some(Test::Contact),
            Self::Arrow => Some(Test::Arrow),
            Self::Hand => Some(Test::Hand),
        }
    }
}

/// One test that would tell.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Probe {
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

/// What is known of one adjuster's response on its own axis.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct GainEstimate {
    /// Mm of tear per unit moved.
    pub mean: f64,
    /// Its standard deviation.
    pub sd: f64,
    /// Probability that it is negative, 0..1.
    pub probability_negative: f64,
}

/// What the response was believed to be before this bow's first shot, and why.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct PriorSource {
    /// Earlier bows it rests on; 0 where none taught anything.
    pub bows: u32,
    /// What it rests on, in words.
    pub source: String,
}

/// The estimate behind the verdict; unknown is null.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Estimate {
    /// Mean tear here.
    pub tear_mm: Option<TearEstimate>,
    /// Probability that the true mean tear here is within tolerance of the aim.
    pub probability_within_tolerance: Option<f64>,
    /// Response of each adjuster the bow has.
    pub gain: BTreeMap<&'static str, GainEstimate>,
    /// What was believed before the first shot, and what it rests on.
    pub prior: PriorSource,
}

/// The whole advice, as JSON writes it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Advice {
    /// Always [`SCHEMA`].
    pub schema: u32,
    /// What to do next.
    pub verdict: Verdict,
    /// Why the rest is to be left alone, or the bow not shot, where it is so.
    #[serde(skip)]
    pub refusal: Option<Refusal>,
    /// It in one line.
    pub headline: String,
    /// Why, most important first.
    pub reasons: Vec<Reason>,
    /// The move, only when the verdict is `move`.
    #[serde(rename = "move")]
    pub movement: Option<MoveAdvice>,
    /// The test, only when the verdict is `probe`.
    pub probe: Option<Probe>,
    /// Shots wanted before the next decision: a forecast.
    pub shots_wanted: u32,
    /// The four checks.
    pub checks: Checks,
    /// The estimate behind it.
    pub estimate: Estimate,
    /// Shots that stand at this setting already; not in the JSON.
    #[serde(skip)]
    pub shots_here: usize,
}

/// One point of the running record, after one shot.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TrackPoint {
    /// Estimated mean tear at that shot's setting after it, mm.
    pub right: f64,
    /// Up positive, mm.
    pub up: f64,
    /// Band of the mean tear's length, off the aim, mm: low and high.
    pub band: (f64, f64),
    /// Chance of being within tolerance then, 0..1.
    pub within: f64,
}

/// What the next shot should look like if the estimate is right.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NextShot {
    /// Centre, right positive, mm.
    pub right: f64,
    /// Centre, up positive, mm.
    pub up: f64,
    /// Spread sideways, mm.
    pub sd_right: f64,
    /// Spread vertically, mm.
    pub sd_up: f64,
}

impl NextShot {
    /// Standard deviation of one component, mm: the root mean square of both.
    pub fn sd(&self) -> f64 {
        self.sd_right.hypot(self.sd_up) / std::f64::consts::SQRT_2
    }
}

/// Advice with all that a screen shows beside it.
#[derive(Debug, Clone, PartialEq)]
pub struct Analysis {
    /// The advice.
    pub advice: Advice,
    /// How the verdict was reached, for the reckoning screen; empty where it
    /// is worked out only when asked for.
    pub reckoning: Vec<String>,
    /// One point for each shot of the timeline, in order; `None` for a shot
    /// that says nothing of the mean (called bad).
    pub track: Vec<Option<TrackPoint>>,
    /// For each shot of the timeline, the probability that it was a bad one.
    pub bad: Vec<f64>,
    /// Shot-to-shot scatter per axis (right, up), mm, where known.
    pub scatter: Option<(f64, f64)>,
    /// The next shot at the present setting; after the move, where one is
    /// advised or waits to be confirmed.
    pub next_shot: Option<NextShot>,
    /// Whether the answers come from the technician's shots, not the owner's.
    pub judged_by_technician: bool,
    /// Why the range safety list comes first, where a shot comes next and it is due.
    pub range_due: Option<crate::range::Due>,
}
