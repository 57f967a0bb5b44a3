//! Every finding said once, on one page that is read when it changes.

mod obstacles;

use obstacles::obstacles;

use super::*;
use crate::advice::{
    Against, Ask, Backwards, Behind, ByGuides, ByHeight, ByLoad, Chance, Finding, FirstMove,
    Ground, GuideWay, LeansOn, Missing, OddArrow, Pad, Reckoned, ResponseKnown, RestsOn, Telling,
};
use crate::belief::{Axis as TearAxis, Gain, Powder};
use crate::checks::consistency::{Basis, Repeats, Taken};
use crate::checks::next_steps::NextSteps;
use crate::checks::response::{Known, Obstacle, Response, Reversal};
use crate::checks::safety::{ArrowPart, Danger, Safety, Waiting, Weighing, Whose, Worst};
use crate::checks::{Figure, Unit};
use crate::gear::{AdjusterKind, BowKind, Unconfirmed};
use crate::question::{
    ARROW_ANSWERS, Answer, BEFORE_BOTH_ANSWERS, BUTTON_ANSWERS, Contact, HAND_ANSWERS, InspectPart,
    RAGGED_ANSWERS, RangeItem, Refusal, SetupItem, Test,
};
use crate::range::Due;
use crate::session::Shooter;
use crate::tear::Tear;
use crate::tuner::gates::{Consistency, Gate};
use crate::units::System;

fn known(kind: AdjusterKind, mean: f64, negative: f64) -> Known {
    let gain = Gain {
        mean,
        sd: 0.4,
        probability_negative: negative,
    };
    Known { kind, gain }
}

fn dangers() -> Vec<Danger> {
    let light = Danger::TooLight {
        grains: 289.0,
        least: 300.0,
        whose: Whose::Floor,
        pounds: 60.0,
        bare: false,
        trial: true,
    };
    vec![
        Danger::Incident {
            what: "dry fire".into(),
            entry: 7,
            open: vec![InspectPart::Limbs, InspectPart::Draw],
            bow: BowKind::Compound,
        },
        Danger::PastTurns {
            out: 6.5,
            most: 6.0,
            counted: false,
        },
        Danger::OverWeight {
            pounds: 72.0,
            most: 70.0,
        },
        light.clone(),
        Danger::TooShort(0.3),
        Danger::FarTooWeak {
            ratio: 1.62,
            limit: 1.6,
            weighed: false,
            bare: false,
        },
        Danger::FarTooWeak {
            ratio: 1.62,
            limit: 1.6,
            weighed: true,
            bare: true,
        },
        Danger::WeighFirst {
            turns: 2.0,
            worst: Worst::Draws(68.0, Box::new(light.clone())),
        },
        Danger::AsMeasured {
            what: vec![SetupItem::DrawWeight, SetupItem::ArrowMass],
            then: Box::new(light),
        },
        Danger::WeighFirst {
            turns: 0.5,
            worst: Worst::NoFigure(BowKind::Recurve, 7.5),
        },
        Danger::WeighFirst {
            turns: 0.5,
            worst: Worst::MakersLimit(BowKind::Recurve, Figure::new(38.0, 44.0, Unit::Lb)),
        },
    ]
}

fn repeats() -> Vec<Repeats> {
    let basis = Basis {
        shots: 5,
        settings: 2,
        here: false,
    };
    let pair = |apart, agree| Repeats::Pair {
        basis: Basis {
            shots: 2,
            settings: 1,
            here: true,
        },
        apart,
        limit: 6.0,
        agree,
    };
    let scatter = |taken| Repeats::Scatter {
        basis,
        found: Consistency {
            gate: Gate::Wait,
            figure: 8.0,
            axis: TearAxis::Right,
            limit: 6.0,
            probability_over: 0.55,
            by_repeats: 0.4,
        },
        taken,
    };
    let normal = Taken::Normal {
        tolerance: 3.0,
        shots: 33,
        twice: 9,
    };
    vec![
        Repeats::None(0),
        Repeats::None(1),
        Repeats::None(3),
        pair(4.0, true),
        pair(9.0, false),
        scatter(Taken::Ok),
        scatter(normal),
        scatter(Taken::Near),
        scatter(Taken::Open),
        scatter(Taken::Bent),
        scatter(Taken::Over),
        Repeats::NotConfirmed(vec![Unconfirmed::Tolerance]),
    ]
}

pub(super) fn firsts() -> Vec<Finding> {
    let (rest, height) = (AdjusterKind::RestSideways, AdjusterKind::RestHeight);
    let spring = AdjusterKind::PlungerTension;
    let guides = |way, powder, against| {
        Ground::Fingers(ByGuides {
            tail_left: true,
            way,
            powder,
            against,
            pad: Pad::Plunger,
        })
    };
    let by_height = |against| {
        Ground::Vertical(ByHeight {
            tail_low: true,
            against,
        })
    };
    let load = ByLoad {
        with_rest: true,
        chance: 0.7,
        drawn: 128,
    };
    let (out, firmer) = (GuideWay::RestOut, GuideWay::PlungerFirmer);
    let slap = Some(Against::Slap);
    [
        (height, false, by_height(None)),
        (height, true, by_height(None)),
        (height, false, by_height(Some(Against::NoRoom))),
        (height, true, by_height(Some(Against::OwnMoves))),
        (rest, false, Ground::Aid(None)),
        (rest, true, Ground::Aid(None)),
        (rest, false, Ground::Aid(Some(load))),
        (rest, false, guides(out, Powder::Clean, None)),
        (rest, false, guides(out, Powder::Slap, slap)),
        (spring, false, guides(firmer, Powder::Slap, slap)),
        (rest, true, guides(out, Powder::Slap, None)),
        (rest, false, guides(out, Powder::NotLooked, None)),
        (
            rest,
            false,
            guides(out, Powder::NotLooked, Some(Against::NoRoom)),
        ),
        (
            rest,
            true,
            guides(out, Powder::Clean, Some(Against::OwnMoves)),
        ),
        (
            rest,
            false,
            guides(out, Powder::Clean, Some(Against::EarlierBows(1))),
        ),
        (
            rest,
            false,
            guides(out, Powder::Clean, Some(Against::EarlierBows(3))),
        ),
        (
            rest,
            false,
            guides(out, Powder::NotLooked, Some(Against::Likelier)),
        ),
    ]
    .map(|(kind, tried, ground)| {
        Finding::TestMove(FirstMove {
            kind,
            tried,
            ground,
        })
    })
    .to_vec()
}

fn waits() -> Vec<Waiting> {
    vec![
        Waiting::Unconfirmed(vec![Unconfirmed::DrawWeight, Unconfirmed::Arrow]),
        Waiting::Unweighed(Weighing::Open),
        Waiting::Unweighed(Weighing::AtMost(68.0, 5.9)),
        Waiting::PartNotGiven(ArrowPart::Nock),
        Waiting::CardDiffers(vec![SetupItem::DrawLength]),
        Waiting::TurnsNotCounted(6.0),
        Waiting::UnusualWeight(6.0, (15.0, 80.0)),
    ]
}

fn findings() -> Vec<Finding> {
    let chance = Chance {
        now: 0.83,
        level: 0.9,
        tolerance: 6.0,
    };
    let rest = AdjusterKind::RestSideways;
    let backwards = |open| {
        Finding::Backwards(Backwards {
            known: known(rest, 3.0, 0.03),
            open,
            chance: 0.97,
        })
    };
    let mut all: Vec<Finding> = dangers().into_iter().map(Finding::Danger).collect();
    let due = [
        Due::Day,
        Due::Shooter(Shooter::Technician),
        Due::Place,
        Due::Incident,
        Due::Off(RangeItem::Frame),
    ];
    all.extend(due.map(Finding::RangeListOpen));
    all.extend([Finding::WeighBow, Finding::OnlyThese]);
    all.extend(repeats().into_iter().map(Finding::Scatter));
    all.extend(obstacles().into_iter().map(Finding::Obstacle));
    let refuses = Refusal::ALL.into_iter().filter(|r| !r.stops());
    all.extend(refuses.map(|refusal| {
        Finding::NextSteps(NextSteps {
            refusal,
            steps: vec![Test::PutBack, Test::SpineRemedy, Test::Loose],
            found: (refusal == Refusal::Contact).then_some(Contact::Cable),
        })
    }));
    all.extend([
        Finding::ArrowSame,
        Finding::OwnerMustShoot,
        Finding::Within(chance),
        Finding::RestsOn(RestsOn {
            here: 2,
            on_the_way: 5,
            response: ResponseKnown::Known,
            one_more: 0.95,
        }),
        Finding::RestsOn(RestsOn {
            here: 1,
            on_the_way: 0,
            response: ResponseKnown::NothingMoved,
            one_more: 0.93,
        }),
        Finding::ProofMoved(0.3),
        Finding::ContactFirst(Behind::Scatter),
        Finding::ContactFirst(Behind::Jumps),
        Finding::ContactFirst(Behind::Reversed),
        Finding::LongTear(61.0),
        Finding::NothingShot,
        Finding::NotSureYet(chance, Missing::Chance),
        Finding::NotSureYet(chance, Missing::Shots(2)),
        Finding::NotSureYet(chance, Missing::Repeat),
    ]);
    all.extend(firsts());
    all.extend([
        Finding::Learn,
        Finding::Correct(known(rest, -3.1, 0.99)),
        Finding::TestTells(Telling {
            change: 9.0,
            shots: 1,
            power: 0.85,
            wanted: 0.8,
        }),
        Finding::PowderFirst(Pad::Plunger),
        Finding::Slap(Pad::SidePlate),
        Finding::HandFirst,
        Finding::HandNotRelaxed,
        Finding::HandChanged(-15.0, -1.0),
        Finding::NotConfirmed(vec![Unconfirmed::BowKind, Unconfirmed::Rest]),
    ]);
    all.extend(waits().into_iter().map(Finding::Waits));
    all.extend([
        Finding::Overdraw(0.25),
        backwards(true),
        backwards(false),
        Finding::OddArrowOut("3".into()),
        Finding::OddArrow(OddArrow {
            mark: "3".into(),
            off: Tear::new(-9.0, 0.0),
            chance: 0.94,
        }),
        Finding::Fliers(vec![12]),
        Finding::Fliers(vec![12, 30]),
        Finding::RestTheArcher(31, 30),
        Finding::Drift,
        Finding::PendingMove,
        Finding::OneArrow("1".into(), Obstacle::Jumps(0.93)),
        Finding::Ragged,
        Finding::Reversed(AdjusterKind::RestHeight, Reversal::Powder, 0.95),
        Finding::Reversed(AdjusterKind::NockingPoint, Reversal::HighStart, 0.95),
        Finding::CardDamaged(1),
        Finding::FileHasHoles(2),
        Finding::FileChanged(1),
    ]);
    all
}

fn page(system: System) -> Vec<String> {
    let mut lines = Vec::new();
    for finding in findings() {
        let text = say(&finding, system);
        lines.push(format!("{}: {text}", finding.code()));
    }
    let rest = AdjusterKind::RestSideways;
    let responses = [
        Response::NothingMoved,
        Response::NotShot,
        Response::Known(vec![known(rest, -3.1, 0.99), known(rest, 0.4, 0.4)], None),
        Response::Known(vec![known(rest, 3.1, 0.01)], Some(0.8)),
    ];
    lines.extend(responses.map(|r| format!("response: {}", response(&r, system))));
    let bare = |wanted: fn(&Danger) -> bool| dangers().into_iter().find(wanted);
    let bare_light = bare(|d| matches!(d, Danger::TooLight { .. }));
    let bare_weak = bare(|d| matches!(d, Danger::FarTooWeak { bare: true, .. }));
    let safeties = [
        Safety::CardDamaged,
        Safety::FileHasHoles,
        Safety::Light(BowKind::Longbow, 7.2),
        Safety::Ok {
            gpp: 6.9,
            reach: 1.3,
            bare: bare_light,
        },
        Safety::Ok {
            gpp: 6.9,
            reach: 1.3,
            bare: bare_weak,
        },
    ];
    lines.extend(safeties.map(|s| format!("safety: {}", safety(&s))));
    let asks: [(Ask, &[Answer]); 7] = [
        (Ask::Powder, &RAGGED_ANSWERS),
        (Ask::PowderBeforeBoth, &BEFORE_BOTH_ANSWERS),
        (Ask::PowderFirst(Pad::Plunger), &BUTTON_ANSWERS),
        (Ask::ClearSlap, &BUTTON_ANSWERS),
        (Ask::Hand, &HAND_ANSWERS),
        (Ask::OpenHand, &[]),
        (Ask::OtherArrows("1".into(), 8.0, 9), &ARROW_ANSWERS),
    ];
    lines.extend(asks.map(|(a, answers)| format!("asked: {}", ask(&a, answers, system))));
    let reckonings = [
        Reckoned::LikelyTear(Tear::new(-9.0, 2.0), 2.0),
        Reckoned::Chance {
            tolerance: 6.0,
            here: 0.09,
            best: 0.66,
        },
        Reckoned::BeforeLastShot(0.2),
        Reckoned::OneMoreShot(0.001),
        Reckoned::Response(known(rest, -3.1, 0.99), true),
        Reckoned::LeansOn(LeansOn::EarlierModel(1)),
        Reckoned::LeansOn(LeansOn::Load(128)),
        Reckoned::LeansOn(LeansOn::Guides(128)),
        Reckoned::BadShot(4, 9, 0.7),
        Reckoned::WhySize(0.66),
    ];
    lines.extend(reckonings.map(|r| format!("reckoned: {}", reckoned(&r, system))));
    lines
}

/// The figure beside each finding, as scripts read it: value, limit, unit.
#[test]
fn every_finding_has_its_figure_and_limit() {
    let line = |found: &Finding| {
        let figure = found.figure().map(|f| (f.value, f.limit, f.unit));
        format!("{}: {figure:?}", found.code())
    };
    let all: Vec<String> = findings().iter().map(line).collect();
    insta::with_settings!({snapshot_path => "../../snapshots", prepend_module_to_snapshot => false}, {
        insta::assert_snapshot!("findings-figures", all.join("\n"));
    });
}

#[test]
fn every_finding_is_said_as_it_was() {
    insta::with_settings!({snapshot_path => "../../snapshots", prepend_module_to_snapshot => false}, {
        insta::assert_snapshot!("words-findings", page(System::Mm).join("\n"));
        insta::assert_snapshot!("words-findings-inch", page(System::Inch).join("\n"));
    });
}

#[test]
fn a_chance_never_claims_certainty() {
    assert_eq!(percent(1.0), "over 99 %");
    assert_eq!(percent(0.0), "under 1 %");
    assert_eq!(percent(0.42), "42 %");
}

#[test]
fn a_small_chance_is_rounded() {
    assert_eq!(one_time_in(0.2), "1 time in 5");
    assert_eq!(one_time_in(1.0 / 17.6), "1 time in 18");
    assert_eq!(one_time_in(1.0 / 178.0), "1 time in 180");
    assert_eq!(one_time_in(1e-9), "1 time in 1000");
}

/// The words that the glossary leaves out.
const NOT: [&str; 19] = [
    "odds",
    "give or take",
    "mean tear",
    "inside tolerance",
    "ring",
    "bowyer",
    "anew",
    "afresh",
    "fresh start",
    "sitting",
    "dust test",
    "bench it out",
    "spine match",
    "button",
    "gpp",
    "at the bench",
    "cure",
    "cures",
    "count for nothing",
];

/// Holds a text against the guide's rules that a machine can see: sentences
/// begin with a capital or a figure and end with a full stop or a question
/// mark, and the words the glossary leaves out stay out.
pub(super) fn keeps_to_the_guide(place: &str, text: &str) {
    let Some(first) = text.chars().next() else {
        return;
    };
    assert!(
        first.is_uppercase() || first.is_ascii_digit(),
        "{place}: {text}"
    );
    assert!(text.ends_with(['.', '?']), "{place}: {text}");
    assert!(
        !text.contains("  ") && !text.contains(".."),
        "{place}: {text}"
    );
    let words: Vec<&str> = text.split(|c: char| !c.is_alphabetic()).collect();
    let run = format!(" {} ", words.join(" ").to_lowercase());
    for word in NOT {
        assert!(
            !run.contains(&format!(" {word} ")),
            "{place}: {word}: {text}"
        );
    }
}

#[test]
fn what_is_said_keeps_to_the_guide() {
    for finding in findings() {
        keeps_to_the_guide(&format!("{:?}", finding.code()), &say(&finding, System::Mm));
    }
}

/// The test above is able to fail.
#[test]
#[should_panic(expected = "dust test")]
fn a_word_the_glossary_leaves_out_is_found() {
    keeps_to_the_guide("here", "Do the dust test.");
}
