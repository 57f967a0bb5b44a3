//! Advice as data: the verdict, its findings and figures, and what a screen
//! shows beside it. What it says stands in [`crate::words`].

use std::collections::BTreeMap;

use serde::Serialize;

use super::finding::{Ask, Finding, Headline};
use super::lean::LeansOn;
use crate::belief::Gain;
use crate::checks::Checks;
use crate::checks::response::Known;
use crate::gear::{AdjusterKind, BenchStep, Step};
use crate::question::{Answer, Refusal, Test};
use crate::session::LearnedRecord;
use crate::tear::Tear;
use crate::tuner::Purpose;

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

/// One step of an advised move.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StepAdvice {
    /// The step, never zero, with what the bench has to know of it.
    pub bench: BenchStep,
    /// Whether it goes toward the side the tail tore to, where that is known.
    pub(crate) toward_tail: Option<bool>,
}

impl StepAdvice {
    /// Which adjuster.
    pub const fn adjuster(&self) -> AdjusterKind {
        self.bench.step.adjuster
    }
    /// How far, relative to where it is now.
    pub const fn amount(&self) -> f64 {
        self.bench.step.amount
    }
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
#[derive(Debug, Clone, PartialEq)]
pub struct MoveAdvice {
    /// Whether it is a test or a correction.
    pub purpose: MovePurpose,
    /// Its steps: one, or two once both responses are known.
    pub steps: Vec<StepAdvice>,
    /// The tear to expect of the next shot.
    pub(crate) expected_tear_mm: TearEstimate,
}

impl MoveAdvice {
    /// The steps alone, as a move is recorded.
    pub fn moves(&self) -> Vec<Step> {
        self.steps.iter().map(|s| s.bench.step).collect()
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
#[derive(Debug, Clone, PartialEq)]
pub struct Probe {
    /// Which kind.
    pub kind: ProbeKind,
    /// Distance to shoot it at, m; at least 1.5.
    pub distance_m: Option<f64>,
    /// Shots it takes; 0 for a test answered in words.
    pub shots: u32,
    /// Possible answers, the harmless one first; empty when the shots answer.
    pub answers: Vec<Answer>,
    /// What it asks for.
    pub ask: Ask,
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

/// What the response was believed to be before this bow's first shot.
#[derive(Debug, Clone, PartialEq)]
pub enum PriorSource {
    /// Earlier bows of the folder.
    Earlier(LearnedRecord),
    /// The card, by so many drawn bows.
    Card(u32),
    /// What is usual of the kind.
    Usual,
}

impl GainEstimate {
    /// The same as what is known of that adjuster.
    pub(crate) const fn known(&self, kind: AdjusterKind) -> Known {
        let gain = Gain {
            mean: self.mean,
            sd: self.sd,
            probability_negative: self.probability_negative,
        };
        Known { kind, gain }
    }
}

/// The estimate behind the verdict; unknown is null.
#[derive(Debug, Clone, PartialEq)]
pub struct Estimate {
    /// Mean tear here.
    pub tear_mm: Option<TearEstimate>,
    /// Probability that the true mean tear here is within tolerance of the aim.
    pub probability_within_tolerance: Option<f64>,
    /// Response of each adjuster the bow has.
    pub gain: BTreeMap<AdjusterKind, GainEstimate>,
    /// What was believed before the first shot, and what it rests on.
    pub prior: PriorSource,
}

/// The whole advice: findings and figures, whatever the unit system.
#[derive(Debug, Clone, PartialEq)]
pub struct Advice {
    /// What to do next.
    pub verdict: Verdict,
    /// Why the rest is to be left alone, or the bow not shot, where it is so.
    pub refusal: Option<Refusal>,
    /// The verdict in one line: what its title does not say.
    pub headline: Headline,
    /// Why, most important first.
    pub findings: Vec<Finding>,
    /// The move, only when the verdict is `move`.
    pub movement: Option<MoveAdvice>,
    /// The test, only when the verdict is `probe`.
    pub probe: Option<Probe>,
    /// Shots wanted before the next decision: a forecast.
    pub shots_wanted: u32,
    /// What the four checks found.
    pub checks: Checks,
    /// The estimate behind it.
    pub estimate: Estimate,
    /// Shots that stand at this setting already.
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
    pub reckoning: Vec<Reckoned>,
    /// For each shot of the timeline, the probability that it was a bad one.
    pub bad: Vec<f64>,
    /// Shot-to-shot scatter per axis (right, up), mm, where known.
    pub scatter: Option<(f64, f64)>,
    /// The next shot at the present setting; after the move, where one is
    /// advised or waits to be confirmed.
    pub next_shot: Option<NextShot>,
    /// Whether the answers come from the technician's shots, not the owner's.
    pub(crate) judged_by_technician: bool,
    /// Why the range safety list comes first, where a shot comes next and it is due.
    pub range_due: Option<crate::range::Due>,
}

impl Analysis {
    /// From this chance on a shot is taken for a bad one.
    const BAD_FROM: f64 = 0.5;

    /// Whether the shot at this place in the timeline is a flier: nobody called
    /// it bad, and it is likelier than not that it was.
    pub(crate) fn is_flier(&self, shot: usize) -> bool {
        self.bad.get(shot).is_some_and(|p| *p >= Self::BAD_FROM)
    }

    /// Why the range safety list is said before the verdict itself. A finished
    /// paper tune stands first: the list withholds no `done`. What is shot
    /// after it is proof, which asks for the list, and beside the verdict it
    /// stands as what comes before that.
    #[must_use]
    pub(crate) fn list_first(&self) -> Option<crate::range::Due> {
        self.range_due
            .filter(|_| self.advice.verdict != Verdict::Done)
    }
}

/// One line of how the verdict was reached.
#[derive(Debug, Clone, PartialEq)]
pub enum Reckoned {
    /// The likely tear here, and the standard deviation of one component, mm.
    LikelyTear(Tear, f64),
    /// The chance of being within this tolerance, mm, now and at the best
    /// place within reach.
    Chance {
        /// The tolerance, mm.
        tolerance: f64,
        /// Now.
        here: f64,
        /// At the best place within reach.
        best: f64,
    },
    /// What that chance was before the last shot.
    BeforeLastShot(f64),
    /// The chance that one more shot here makes it done.
    OneMoreShot(f64),
    /// What an adjuster does, and whether this bow has shown it.
    Response(Known, bool),
    /// What its side leans on before that.
    LeansOn(LeansOn),
    /// What earlier bows taught.
    EarlierBows(LearnedRecord),
    /// A shot that looks like a bad one: its number, its entry, how surely.
    BadShot(usize, u32, f64),
    /// The advised size gives the best chance of being within tolerance.
    WhySize(f64),
}
