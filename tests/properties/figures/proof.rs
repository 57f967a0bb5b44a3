//! Verdicts of proof: status, odds, figures and moves, never their words.

use tearbench::advice;
use tearbench::proof::{self, Stage, StageVerdict};
use tearbench::range::Today;
use tearbench::session::{Event, Impact, Session, Shot};

use super::Table;
use crate::fixtures::{COMPOUND, RECURVE, with_hand};

type Hits = Vec<(f64, f64)>;

const TIGHT: [(f64, f64); 3] = [(0.0, 8.0), (-9.0, -5.0), (9.0, -3.0)];
const WIDE: [(f64, f64); 5] = [
    (40.0, 8.0),
    (-39.0, -45.0),
    (9.0, 43.0),
    (-22.0, 20.0),
    (12.0, -26.0),
];

fn by(hits: &[(f64, f64)], right: f64, up: f64) -> Hits {
    hits.iter().map(|(r, u)| (r + right, u + up)).collect()
}

fn group(stage: Stage, what: &str, metres: f64, hits: &[(f64, f64)]) -> Event {
    Event::Group {
        proof: stage.into(),
        what: what.into(),
        distance: format!("{metres} m"),
        impacts: hits
            .iter()
            .map(|(right, up)| Impact {
                right: *right,
                up: *up,
            })
            .collect(),
    }
}

fn answer(test: &str, result: &str) -> Event {
    Event::Answer {
        test: test.into(),
        result: result.into(),
        detail: None,
    }
}

fn judged(card: &str, stage: Stage, events: Vec<Event>) -> StageVerdict {
    let mut session = Session::from_text(card).unwrap();
    for event in events {
        session.record(event).unwrap();
    }
    let timeline = session.timeline();
    let analysis = advice::analyse(timeline, Today::now());
    proof::assess(timeline, &analysis, stage)
}

fn row(table: &mut Table, name: &str, found: &StageVerdict) {
    table.row(
        name,
        (
            (found.status, found.odds(), found.shots_wanted),
            &found.found,
            &found.correction,
            found.put_back.is_some(),
        ),
    );
}

/// Both kinds, both hands, with the riser's front measured.
fn cards() -> Vec<(String, String)> {
    let mut all = Vec::new();
    for (name, card) in [("compound", COMPOUND), ("recurve", RECURVE)] {
        let card = card.replace("[arrow]", "riser_front = \"0.2 in\"\n[arrow]");
        for hand in ["right", "left"] {
            all.push((format!("{name} {hand}"), with_hand(&card, hand)));
        }
    }
    all
}

const OFFSETS: [(f64, f64); 7] = [
    (20.0, 0.0),
    (55.0, 0.0),
    (-120.0, 10.0),
    (130.0, -40.0),
    (10.0, 90.0),
    (0.0, -140.0),
    (30.0, 26.0),
];

#[test]
fn of_two_kinds_of_arrow() {
    let mut table = Table::default();
    for (card_name, card) in cards() {
        for (stage, kinds) in [
            (Stage::BareShaft, ["fletched", "bare"]),
            (Stage::Broadhead, ["field", "broadhead"]),
            (Stage::Creep, ["normal", "hard"]),
            (Stage::Torque, ["turned-left", "turned-right"]),
        ] {
            for (right, up) in OFFSETS {
                for (size, hits) in [("tight", &TIGHT[..]), ("wide", &WIDE[..])] {
                    let events = vec![
                        answer("contact", "none"),
                        group(stage, kinds[0], 18.0, hits),
                        group(stage, kinds[1], 18.0, &by(hits, right, up)),
                    ];
                    let found = judged(&card, stage, events);
                    let name = format!("{card_name} {stage:?} {right} {up} {size}");
                    row(&mut table, &name, &found);
                }
            }
        }
    }
    table.pinned("proof-pairs");
}

/// The same after this bow's own move: it answered, or the other way round,
/// or on paper.
#[test]
fn of_what_a_bow_has_shown() {
    let mut table = Table::default();
    let stage = Stage::BareShaft;
    for (card_name, card) in cards() {
        let mut first = vec![answer("contact", "none")];
        first.push(group(stage, "fletched", 18.0, &TIGHT));
        first.push(group(stage, "bare", 18.0, &by(&TIGHT, 150.0, 0.0)));
        let step = judged(&card, stage, first.clone())
            .suggestion()
            .map(proof::Suggestion::step);
        let Some(step) = step else {
            table.row(&card_name, "no move");
            continue;
        };
        let moved = Event::Move {
            steps: vec![step],
            said: None,
            confirms: None,
        };
        for after in [190.0, 145.0, 120.0, -30.0] {
            let mut events = first.clone();
            events.push(moved.clone());
            events.push(group(stage, "fletched", 18.0, &TIGHT));
            events.push(group(stage, "bare", 18.0, &by(&TIGHT, after, 0.0)));
            let found = judged(&card, stage, events);
            row(&mut table, &format!("{card_name} after {after}"), &found);
        }
        // Shown on paper before proof, either way.
        for way in [1.0, -1.0] {
            let shot = |right: f64| {
                Event::Shot(Shot {
                    right,
                    ..Shot::default()
                })
            };
            let mut events = vec![shot(6.0), shot(6.5)];
            events.push(moved.clone());
            events.extend([shot(6.0 + 14.0 * way), shot(6.5 + 14.0 * way)]);
            events.extend(first.clone());
            let found = judged(&card, stage, events);
            row(&mut table, &format!("{card_name} on paper {way}"), &found);
        }
    }
    table.pinned("proof-shown");
}

#[test]
fn of_lines_groups_and_the_sight() {
    let mut table = Table::default();
    for (card_name, card) in cards() {
        for (slant, bend) in [
            (0.0, 0.0),
            (4.0, 0.0),
            (-6.0, 0.0),
            (0.0, 60.0),
            (5.0, -80.0),
        ] {
            for metres in [&[18.0, 27.0, 32.0, 36.0][..], &[18.0, 27.0], &[3.0, 30.0]] {
                let middle = 0.5 * (metres[0] + metres[metres.len() - 1]);
                let half = metres[metres.len() - 1] - middle;
                let mut events = vec![answer("levels", "ok")];
                let stage = if metres[0] < 10.0 {
                    Stage::NearFar
                } else {
                    Stage::WalkBack
                };
                for m in metres {
                    let q: f64 = f64::powi((m - middle) / half, 2);
                    let right = slant * (m - metres[0]) + bend * (1.0 - q);
                    events.push(group(stage, "fletched", *m, &by(&TIGHT, right, -10.0 * m)));
                }
                let found = judged(&card, stage, events);
                let name = format!("{card_name} {stage:?} {} {slant} {bend}", metres.len());
                row(&mut table, &name, &found);
            }
        }
        for off in [5.0, 22.0, 26.0, -60.0, 400.0] {
            for stage in [Stage::RoughSight, Stage::FinalSight] {
                let events = vec![
                    Event::Setup {
                        item: "eye-to-pin".into(),
                        value: Some("840 mm".into()),
                        result: "ok".into(),
                    },
                    Event::Setup {
                        item: "sight-click".into(),
                        value: Some("0.2 mm".into()),
                        result: "ok".into(),
                    },
                    group(stage, "fletched", 18.0, &by(&TIGHT, off, -0.5 * off)),
                ];
                let found = judged(&card, stage, events);
                row(&mut table, &format!("{card_name} {stage:?} {off}"), &found);
            }
        }
        let moved = Event::Move {
            steps: vec![tearbench::gear::Step {
                adjuster: tearbench::gear::AdjusterKind::RestSideways,
                amount: 1.0,
            }],
            said: None,
            confirms: None,
        };
        for (first, second) in [(&TIGHT[..], &WIDE[..]), (&WIDE, &TIGHT), (&WIDE, &WIDE)] {
            let events = vec![
                group(Stage::Groups, "fletched", 18.0, first),
                moved.clone(),
                group(Stage::Groups, "fletched", 18.0, second),
            ];
            let found = judged(&card, Stage::Groups, events);
            let name = format!("{card_name} groups {} {}", first.len(), second.len());
            row(&mut table, &name, &found);
        }
    }
    table.pinned("proof-lines");
}

#[test]
fn of_distances_tolerances_and_readings() {
    let mut table = Table::default();
    for (card_name, text) in cards() {
        let session = Session::from_text(&text).unwrap();
        let card = &session.timeline().card;
        for stage in Stage::ALL {
            table.row(
                format!("{card_name} {stage:?}"),
                (
                    stage.whats(),
                    stage.distance_m(card),
                    stage.distances_m(card),
                    [2.0, 5.0, 18.0, 40.0].map(|m| stage.tolerance_mm(card, m)),
                    (stage.usual(card), stage.optional(card)),
                ),
            );
        }
    }
    for text in [
        "3 left 2 high",
        "l3h2",
        "1 in right, 5 mm low",
        "spot",
        "1/2 left",
        "4 cm down 2 up",
        "-3 left",
        "3",
        "300 left",
        "left",
        "2 r; 1 l 4 u; on",
        "2.5\" high",
        "199 r 20 h",
        "200 r 1 h",
    ] {
        for unit in [proof::FaceUnit::Cm, proof::FaceUnit::Inch] {
            let read = proof::read_impacts(text, unit).map_err(|e| (e.word, e.number));
            table.row(format!("{text} {unit:?}"), read);
        }
    }
    let hits = |all: &[(f64, f64)]| {
        all.iter()
            .map(|(right, up)| Impact {
                right: *right,
                up: *up,
            })
            .collect::<Vec<_>>()
    };
    for (first, second) in [
        (&TIGHT[..], &WIDE[..]),
        (&WIDE, &TIGHT),
        (&TIGHT, &TIGHT[..1]),
        (&TIGHT[..2], &WIDE[..2]),
    ] {
        let (first, second) = (hits(first), hits(second));
        let found = proof::compare(&first, &second);
        let odds = found.map(|d| {
            (
                [5.0, 25.0, 60.0].map(|r| proof::odds_within(&d, r)),
                (d.round_chance(), d.judged_chance(), d.is_real(), d.length()),
                (d.ellipse(0.9), d.se_right(), d.se_up()),
            )
        });
        table.row(
            format!("compare {} {}", first.len(), second.len()),
            (
                found,
                odds,
                proof::spot(&first),
                proof::ellipse_of_mean(&second, 0.9),
            ),
        );
    }
    table.pinned("proof-figures");
}
