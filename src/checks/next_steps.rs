//! What comes after a refusal, in the trade's order: cheap and reversible
//! before costly (common practice; bench diaries and tuning guides agree on
//! it). The guided path walks these steps one at a time, and the advice names
//! them in this order.

use super::spine;
use crate::gear::{BowKind, Positions, RestKind};
use crate::question::{Answer, Contact, Refusal, Test};
use crate::session::{Shooter, Timeline};

/// What makes a weak or stiff arrow suit the bow, in the order it is offered.
pub(crate) const REMEDIES: [Answer; 5] = [
    Answer::Plunger,
    Answer::Point,
    Answer::Weight,
    Answer::Shafts,
    Answer::Cut,
];

/// The steps after a refusal on this bow, in their order; none after an
/// incident, which is a matter of its parts.
pub fn steps(timeline: &Timeline, refusal: Refusal) -> Vec<Test> {
    use Test::{
        ArrowAsCard, BadShots, CardComplete, Contact, DrawLength, DrawWeight, Lean, LengthsRight,
        LimbsTrue, LimitRight, Loose, MakerChart, NockingPoint, OneArrow, OneSide, OtherArrow,
        OtherPoint, PutBack, RestMoves, RestTiming, RightArrow, SecondShooter, SpineRemedy, Timing,
        Tired, Torque, WallHold, WeighBow, WeightsRight,
    };
    let card = &timeline.card;
    let compound = card.bow.kind == BowKind::Compound;
    let drop_away = card.rest.kind == RestKind::DropAway;
    let others_shot = timeline.shots.iter().any(|s| s.shot.by != Shooter::Owner);
    // Each step with whether this bow has it.
    let listed: &[(Test, bool)] = match refusal {
        Refusal::Incident => &[],
        Refusal::SpineWeak | Refusal::SpineStiff | Refusal::FarTooWeak => &[
            (WeighBow, true),
            (ArrowAsCard, true),
            (MakerChart, spine::stops(card)),
            (SpineRemedy, true),
        ],
        Refusal::Scatter => &[
            (BadShots, true),
            (Tired, true),
            (Loose, true),
            (Contact, true),
            (OneArrow, true),
            (SecondShooter, !others_shot),
        ],
        Refusal::NoResponse => &[
            (PutBack, true),
            (RestMoves, true),
            (Contact, true),
            (Torque, true),
            (Timing, compound),
            (Lean, compound),
            (LimbsTrue, true),
            (OtherArrow, true),
        ],
        Refusal::Jumps => &[
            (Loose, true),
            (OneSide, true),
            (Contact, true),
            (RestTiming, drop_away),
            (OneArrow, true),
            (Torque, true),
            (WallHold, compound),
        ],
        Refusal::TravelLimit => &[
            (PutBack, true),
            (Contact, true),
            (Torque, true),
            (Timing, compound),
            (Lean, compound),
            (LimbsTrue, true),
            (OtherArrow, true),
        ],
        Refusal::HugeTear => &[
            (RightArrow, true),
            (DrawLength, true),
            (DrawWeight, true),
            (NockingPoint, true),
            (Contact, true),
            (Timing, compound),
        ],
        Refusal::NoAdjuster => &[(CardComplete, true), (OtherPoint, true)],
        Refusal::Contact => &[(Contact, true)],
        Refusal::TooLight => &[(WeightsRight, true)],
        Refusal::TooShort => &[(LengthsRight, true)],
        Refusal::WeighFirst => &[(WeighBow, true)],
        Refusal::PastLimit => &[(LimitRight, true)],
    };
    listed
        .iter()
        .filter(|(_, has)| *has)
        .map(|(test, _)| *test)
        .collect()
}

/// Whether the state of the bow answers a step, so that it is not asked.
pub(crate) fn is_done(timeline: &Timeline, test: Test) -> bool {
    match test {
        Test::PutBack => timeline.now.steps_to(&Positions::default()).is_empty(),
        Test::WeighBow => timeline.card.bow.weighed && !timeline.weight_unknown(),
        _ => false,
    }
}

/// What comes after a refusal as the bow stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NextSteps {
    /// The refusal.
    pub refusal: Refusal,
    /// Its steps, without those that the state of the bow answers.
    pub steps: Vec<Test>,
    /// What the powder test found, where that is the refusal.
    pub found: Option<Contact>,
}

/// What comes after a refusal, in its order; `None` after a stop, whose text
/// says what to do.
pub fn after(timeline: &Timeline, refusal: Refusal) -> Option<NextSteps> {
    let mut steps = steps(timeline, refusal);
    steps.retain(|test| !is_done(timeline, *test));
    let found = timeline.answer(Test::Contact);
    let found = found.map_or(Contact::Other, |a| Contact::of(&a.result));
    (!refusal.stops()).then_some(NextSteps {
        refusal,
        steps,
        found: (refusal == Refusal::Contact).then_some(found),
    })
}
