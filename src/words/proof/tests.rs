//! Everything proof says, on one page that is read when it changes.

use super::super::tests::keeps_to_the_guide;
use super::*;
use crate::checks::safety::{Carried, Danger, Whose};
use crate::fixtures::{LABELLED_RECURVE, MEASURED_COMPOUND};
use crate::gear::{AdjusterKind, BenchStep, Card, Positions, Step};
use crate::proof::sight::sight_move;
use crate::proof::{
    Acts, AimFound, Along, AlongFound, Bend, By, Difference, Distances, Drift, Found, LineFound,
    More, NoMove, PairFound, Read, Rests, Rule, Stage, StageVerdict, Suggestion,
};
use crate::session::Impact;
use crate::setup::tests::timeline;
use crate::step::State;
use crate::units::{Length, System};

const FAR: fn() -> Length = || Length::from_m(18.0);

fn verdict(stage: Stage, status: State, found: Found) -> StageVerdict {
    StageVerdict {
        stage,
        status,
        found,
        shots_wanted: 0,
        correction: None,
        put_back: None,
    }
}

fn apart(right: f64, up: f64) -> Difference {
    Difference::new(right, up, (120.0, 0.0, 120.0), 4.0)
}

fn pair(right: f64, up: f64, odds: f64, powder_first: bool, acts: Option<Acts>) -> Found {
    Found::Pair(PairFound {
        distance: FAR(),
        difference: apart(right, up),
        limit: 50.0,
        odds,
        powder_first,
        acts,
    })
}

fn along(mm: f64, odds: f64) -> Found {
    let along = Along {
        mm,
        se: 8.0,
        df: 8.0,
    };
    Found::Along(AlongFound {
        distance: FAR(),
        difference: apart(0.0, mm),
        along,
        limit: 25.0,
        odds,
    })
}

fn line(per_m: f64, bend: Option<f64>, read: Option<Read>, waits: Option<Distances>) -> Found {
    let bend = bend.map(|mm| Bend {
        mm,
        se: 9.0,
        df: 8.0,
    });
    Found::Line(LineFound {
        drift: Drift {
            per_m,
            se: 0.4,
            df: 9.0,
            span: (18.0, 36.0),
            sd_far: 15.0,
            bend,
        },
        limit: 30.0,
        leans_within: 0.03,
        bends_within: bend.map(|_| 0.4),
        read,
        waits,
    })
}

fn aim(right: f64, odds: Option<f64>, eye: Option<f64>) -> Found {
    Found::Aim(AimFound {
        distance: FAR(),
        centre: Impact { right, up: 0.0 },
        limit: 25.0,
        odds,
        sight: eye.and_then(|eye| sight_move((right, 0.0), eye, 18_000.0, Some(0.2))),
    })
}

/// Every kind of finding that a stage can have.
fn verdicts() -> Vec<StageVerdict> {
    use State::{LevelsFirst, NotYet, Off, Open, ShootMore, Skipped};
    const PASSED: State = State::Ok;
    let light = Danger::TooLight {
        grains: 289.0,
        least: 300.0,
        whose: Whose::Floor,
        pounds: 60.0,
        bare: true,
        trial: false,
    };
    let shot = |shot| Distances { shot, asked: 4 };
    let two = |odds| Found::TwoSettings {
        distance: FAR(),
        here: 31.0,
        there: 52.0,
        setting: 1,
        odds,
    };
    let one = Found::OneSetting {
        distance: FAR(),
        sd: 31.0,
    };
    let mut all: Vec<StageVerdict> = Vec::new();
    let mut add = |stage, status, found| all.push(verdict(stage, status, found));
    add(Stage::Levels, PASSED, Found::Levels(State::Ok));
    add(Stage::Levels, Off, Found::Levels(State::Off));
    add(Stage::Levels, Open, Found::Levels(State::Open));
    add(Stage::WalkBack, Skipped, Found::LeftOut);
    add(Stage::WalkBack, LevelsFirst, Found::LevelsFirst);
    add(Stage::BareShaft, Off, Found::NotBare(light));
    add(
        Stage::Broadhead,
        Off,
        Found::Strikes(Carried::OverHand(0.5)),
    );
    add(Stage::Broadhead, NotYet, Found::RiserFrontUnknown);
    add(Stage::BareShaft, ShootMore, Found::OneKind);
    add(Stage::Torque, ShootMore, Found::OneKind);
    add(Stage::BareShaft, PASSED, pair(0.2, 0.0, 0.97, false, None));
    add(
        Stage::BareShaft,
        ShootMore,
        pair(-20.0, 12.0, 0.6, false, None),
    );
    add(
        Stage::BareShaft,
        Off,
        pair(-140.0, 0.0, 0.01, true, Some(Acts::Stiff)),
    );
    add(
        Stage::BareShaft,
        Off,
        pair(140.0, 0.0, 0.01, false, Some(Acts::Weak)),
    );
    add(Stage::Broadhead, Off, pair(0.0, -90.0, 0.01, true, None));
    add(Stage::Creep, PASSED, along(4.0, 0.95));
    add(Stage::Creep, Off, along(90.0, 0.01));
    add(Stage::Creep, Off, along(-90.0, 0.01));
    add(Stage::Torque, PASSED, along(4.0, 0.95));
    add(Stage::Torque, Off, along(120.0, 0.01));
    add(Stage::Torque, ShootMore, along(-30.0, 0.4));
    add(Stage::WalkBack, ShootMore, Found::FewDistances(shot(1)));
    add(
        Stage::WalkBack,
        ShootMore,
        line(8.0, None, None, Some(shot(3))),
    );
    add(Stage::WalkBack, PASSED, line(0.0, None, None, None));
    add(
        Stage::WalkBack,
        Off,
        line(8.0, None, Some(Read::Slant), None),
    );
    add(
        Stage::WalkBack,
        Off,
        line(-8.0, Some(0.1), Some(Read::CentreShot), None),
    );
    add(
        Stage::WalkBack,
        Off,
        line(0.0, Some(-40.0), Some(Read::Curve), None),
    );
    add(
        Stage::WalkBack,
        Off,
        line(8.0, Some(40.0), Some(Read::Both), None),
    );
    add(Stage::Groups, PASSED, one);
    add(Stage::Groups, PASSED, two(0.91));
    add(Stage::Groups, ShootMore, two(0.5));
    add(Stage::FinalSight, PASSED, aim(4.0, Some(0.96), None));
    add(Stage::FinalSight, Off, aim(-58.0, Some(0.01), Some(838.0)));
    add(Stage::FinalSight, ShootMore, aim(0.2, None, None));
    all
}

fn suggestions(card: &Card) -> Vec<Suggestion> {
    let step = Step {
        adjuster: AdjusterKind::RestSideways,
        amount: -0.75,
    };
    let bench = BenchStep::of(step, card, &Positions::default());
    let shown = |by, odds, rule| Rests::Shown { by, odds, rule };
    let rests = [
        Rests::OnRule(Rule::TowardFletched),
        Rests::OnRule(Rule::TowardFieldPoints),
        Rests::OnRule(Rule::BareRest),
        Rests::OnRule(Rule::BroadheadRest),
        Rests::OnRule(Rule::BareNock),
        Rests::OnRule(Rule::BroadheadNock),
        Rests::OnRule(Rule::WeakFirmer),
        Rests::OnRule(Rule::AgainstDrift),
        Rests::Nothing,
        shown(By::Groups, 0.97, Some((Rule::TowardFieldPoints, false))),
        shown(By::Paper, 0.77, Some((Rule::TowardFletched, true))),
        shown(By::Groups, 0.95, None),
    ];
    rests.map(|rests| Suggestion { bench, rests }).to_vec()
}

const NO_MOVES: [NoMove; 7] = [
    NoMove::NothingMovesIt,
    NoMove::NothingMovesCentreShot,
    NoMove::NoPlunger,
    NoMove::NotOnCard(AdjusterKind::RestSideways),
    NoMove::NoTravel(AdjusterKind::RestSideways),
    NoMove::InsideTheString,
    NoMove::BelowSquare,
];

/// What is said, each with its place.
fn said(system: System) -> Vec<(String, String)> {
    let card = timeline(MEASURED_COMPOUND, vec![]).card;
    let mut all: Vec<(String, String)> = verdicts()
        .iter()
        .map(|v| {
            let place = format!("{}, {}", v.stage.id(), super::super::step::state(v.status));
            (place, found(v, &card, system))
        })
        .collect();
    let more = |arrows, of_each, at_least| More {
        arrows,
        of_each,
        at_least,
    };
    let forecasts = [
        more(3, true, false),
        more(3, false, false),
        more(12, true, true),
    ];
    all.extend(forecasts.map(|m| ("more".into(), super::more(m))));
    let suggested = suggestions(&card);
    all.extend(
        suggested
            .iter()
            .map(|s| ("suggested".into(), suggestion(s, system))),
    );
    all.extend(NO_MOVES.map(|why| ("no move".into(), no_move(why))));
    all
}

#[test]
fn everything_proof_says_is_on_one_page() {
    let page = |system| {
        let lines = said(system).into_iter();
        lines
            .map(|(place, text)| format!("{place}: {text}"))
            .collect::<Vec<_>>()
            .join("\n")
    };
    let mut how = Vec::new();
    for (card, system) in [
        (MEASURED_COMPOUND, System::Mm),
        (LABELLED_RECURVE, System::Mm),
        (LABELLED_RECURVE, System::Inch),
        (MEASURED_COMPOUND, System::Inch),
    ] {
        let card = timeline(card, vec![]).card;
        for stage in Stage::ALL {
            let i = instructions(stage, &card, system);
            how.push(format!(
                "{}: {}\n  safety: {}\n  exclude first: {}\n  standing: {}",
                title(stage),
                i.how,
                i.safety,
                i.confound,
                i.standing
            ));
        }
    }
    insta::with_settings!({snapshot_path => "../../../snapshots", prepend_module_to_snapshot => false}, {
        insta::assert_snapshot!("words-proof", page(System::Mm));
        insta::assert_snapshot!("words-proof-inch", page(System::Inch));
        insta::assert_snapshot!("words-proof-stages", how.join("\n"));
    });
}

#[test]
fn what_proof_says_keeps_to_the_guide() {
    for (place, text) in said(System::Mm) {
        keeps_to_the_guide(&place, &text);
    }
    for why in NO_MOVES {
        let mut off = verdict(Stage::BareShaft, State::Off, Found::OneKind);
        off.correction = Some(Err(why));
        let card = timeline(MEASURED_COMPOUND, vec![]).card;
        assert!(found(&off, &card, System::Mm).ends_with(&no_move(why)));
    }
}
