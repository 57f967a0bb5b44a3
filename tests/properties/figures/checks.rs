//! Safety, spine, scatter and response, by card and by session.

use tearbench::checks::{consistency, next_steps, safety, spine};
use tearbench::gear::{AdjusterKind, Step};
use tearbench::question::{Refusal, Stage};
use tearbench::range::Today;
use tearbench::session::{Event, Impact, Session, Shooter, Shot};

use super::Table;
use crate::fixtures::{COMPOUND, RECURVE};

fn with(base: &str, at: &str, lines: &str) -> String {
    base.replace(at, &format!("{at}{lines}"))
}

fn shot(right: f64, up: f64) -> Event {
    Event::Shot(Shot {
        right,
        up,
        ..Shot::default()
    })
}

fn moved(adjuster: AdjusterKind, amount: f64) -> Event {
    Event::Move {
        steps: vec![Step { adjuster, amount }],
        said: None,
        confirms: None,
    }
}

fn session(card: &str, events: Vec<Event>) -> Session {
    let mut session = Session::from_text(card).unwrap_or_else(|e| panic!("{e:?}\n{card}"));
    for event in events {
        session.record(event).unwrap();
    }
    session
}

/// Cards on either side of every limit of safety.
fn cards() -> Vec<(String, String)> {
    let mut all = Vec::new();
    for weight in ["45 lb", "60 lb", "79 lb", "81 lb", "84 lb"] {
        let card = COMPOUND.replace("\"60 lb\"", &format!("\"{weight}\""));
        let maker = with(
            &card,
            "[bow]\n",
            "maker_min_arrow = \"400 gr\"\nmaker_max_weight = \"80 lb\"\n",
        );
        all.push((format!("compound {weight}"), card));
        all.push((format!("compound {weight} with its maker's"), maker));
    }
    for length in ["27.2 in", "27.7 in", "27.8 in", "30 in"] {
        let card = COMPOUND.replace("\"29 in\"\nspine", &format!("\"{length}\"\nspine"));
        for rest in [
            "contact_ahead = \"-1 in\"\nriser_front = \"2 in\"\n",
            "contact_ahead = \"1 in\"\nriser_front = \"0.5 in\"\n",
            "full_draw_mark = \"27.5 in\"\n",
        ] {
            all.push((
                format!("compound {length} {rest:?}"),
                with(&card, "[rest]\n", rest),
            ));
        }
    }
    for weight in ["25 lb", "38 lb", "52 lb"] {
        let card = RECURVE.replace("\"38 lb\"", &format!("\"{weight}\""));
        let shelf = card.replace("\"plunger\"", "\"shelf\"");
        let longbow = shelf.replace("\"recurve\"", "\"longbow\"");
        all.push((format!("recurve {weight}"), card));
        all.push((format!("recurve off its shelf {weight}"), shelf));
        all.push((format!("longbow {weight}"), longbow));
    }
    for spine in ["0.250", "0.340", "0.460", "0.500", "0.560", "0.700"] {
        let card = COMPOUND.replace("spine = 0.400", &format!("spine = {spine}"));
        let chart = format!("maker_chart = \"60 lb, 29 in, 125 gr: {spine}\"\n");
        all.push((format!("compound spine {spine}"), card));
        let _ = chart;
    }
    all
}

#[test]
fn of_safety_and_spine_by_card() {
    let mut table = Table::default();
    for (name, text) in cards() {
        let one = session(&text, vec![]);
        let card = &one.timeline().card;
        table.row(&name, safety::check(one.timeline()));
        table.row(
            "  dangers",
            (
                safety::card_dangers(card),
                safety::bare_forbidden(one.timeline()),
                safety::overdraw(card),
                safety::reach_inches(card),
                safety::shaft_end_inches(card),
                safety::broadhead(card),
            ),
        );
        let report = spine::assess(one.timeline());
        table.row(
            "  spine",
            (
                (
                    report.computed.load_ratio,
                    report.computed.grade,
                    report.status,
                ),
                (report.lifted, report.stops, report.chart, report.weighed),
                (report.figure(), report.refusal(), report.warning()),
            ),
        );
    }
    table.pinned("safety");
}

/// Bolts in and out, weighed and not; bare shafts under way; good shots with
/// an arrow that fails.
#[test]
fn of_safety_and_spine_by_what_was_done() {
    let mut table = Table::default();
    let near = COMPOUND.replace("\"60 lb\"", "\"74 lb\"");
    let turns = with(
        &near,
        "[bow]\n",
        "maker_max_turns = \"4 turns\"\nturns_out = \"2 turns\"\n",
    );
    let bolts = |n: f64| moved(AdjusterKind::LimbBolts, n);
    for (name, card) in [
        ("plain", &near),
        ("with turns", &turns),
        ("recurve", &RECURVE.to_owned()),
    ] {
        for moves in [
            vec![1.0],
            vec![-1.0],
            vec![-1.0, 2.5],
            vec![-3.0],
            vec![2.0, -2.0],
        ] {
            let one = session(card, moves.iter().map(|n| bolts(*n)).collect());
            let timeline = one.timeline();
            table.row(
                format!("{name} {moves:?}"),
                (
                    safety::dangers(timeline),
                    safety::waiting(timeline),
                    (
                        timeline.turns_out(),
                        timeline.weight_unknown(),
                        timeline.turns_in_since_weighed(),
                    ),
                ),
            );
            let report = spine::assess(timeline);
            table.row(
                "  spine",
                (report.computed.load_ratio, report.status, report.waits),
            );
        }
    }
    let weak = COMPOUND.replace("spine = 0.400", "spine = 0.500");
    for (name, tears) in [
        ("two good", vec![(1.0, 1.0), (2.0, 0.0)]),
        ("three good", vec![(1.0, 1.0), (2.0, 0.0), (6.0, 0.0)]),
        ("three, one out", vec![(1.0, 1.0), (2.0, 0.0), (6.1, 0.0)]),
        (
            "good, then one bad",
            vec![(1.0, 1.0), (2.0, 0.0), (3.0, 0.0), (9.0, 0.0)],
        ),
        (
            "good, then two bad",
            vec![(1.0, 1.0), (2.0, 0.0), (3.0, 0.0), (9.0, 0.0), (9.0, 1.0)],
        ),
    ] {
        let one = session(&weak, tears.iter().map(|(r, u)| shot(*r, *u)).collect());
        let report = spine::assess(one.timeline());
        table.row(
            name,
            (
                report.status,
                report.lifted,
                report.figure(),
                report.refusal(),
            ),
        );
    }
    let bare = |stage: Stage| Event::Group {
        proof: stage.into(),
        what: "bare".into(),
        distance: "18 m".into(),
        impacts: vec![Impact {
            right: 0.0,
            up: 0.0,
        }],
    };
    let light = COMPOUND.replace("\"60 lb\"", "\"78 lb\"");
    for (name, events) in [
        ("fletched", vec![shot(1.0, 1.0)]),
        ("bare under way", vec![bare(Stage::BareShaft)]),
        (
            "bare, then paper",
            vec![bare(Stage::BareShaft), shot(1.0, 0.0)],
        ),
    ] {
        let one = session(&light, events);
        let timeline = one.timeline();
        table.row(
            name,
            (safety::bare_next(timeline), safety::dangers(timeline)),
        );
    }
    table.pinned("done");
}

#[test]
fn of_scatter_response_and_what_comes_next() {
    let mut table = Table::default();
    let rest = AdjusterKind::RestSideways;
    let height = AdjusterKind::RestHeight;
    for (name, events) in [
        ("one", vec![shot(9.0, 1.0)]),
        ("two", vec![shot(9.0, 1.0), shot(11.0, 1.0)]),
        ("two apart", vec![shot(9.0, 1.0), shot(22.0, 1.0)]),
        (
            "two settings",
            vec![shot(9.0, 1.0), moved(rest, 2.0), shot(3.0, 1.0)],
        ),
        (
            "repeated",
            vec![
                shot(9.0, 1.0),
                shot(10.0, 2.0),
                moved(rest, 2.0),
                shot(3.0, 1.0),
                shot(4.0, 1.0),
            ],
        ),
        (
            "wide",
            vec![
                shot(9.0, 1.0),
                shot(-14.0, 2.0),
                shot(17.0, -9.0),
                shot(-3.0, 14.0),
                shot(4.0, -16.0),
                shot(12.0, 9.0),
            ],
        ),
        (
            "moved twice",
            vec![
                shot(9.0, 9.0),
                shot(10.0, 9.0),
                moved(height, 2.0),
                shot(9.0, 4.0),
                shot(10.0, 5.0),
                moved(rest, 1.5),
                shot(5.0, 4.0),
                shot(5.0, 5.0),
            ],
        ),
        (
            "dead",
            vec![
                shot(9.0, 0.0),
                shot(10.0, 1.0),
                moved(rest, 3.0),
                shot(9.0, 0.0),
                shot(10.0, 1.0),
                moved(rest, -6.0),
                shot(9.0, 0.0),
                shot(10.0, 1.0),
                shot(9.0, 1.0),
            ],
        ),
    ] {
        for (kind, card) in [("compound", COMPOUND), ("recurve", RECURVE)] {
            let one = session(card, events.clone());
            let analysis = tearbench::advice::analyse(one.timeline(), Today::now());
            let checks = &analysis.advice.checks;
            table.row(
                format!("{name} {kind}"),
                (
                    &checks.consistency,
                    checks.consistency.figure(),
                    &checks.response,
                    checks.response.figure(),
                ),
            );
            table.row(
                "  each",
                (
                    checks.each(),
                    analysis.advice.verdict,
                    consistency::sitting(one.timeline()),
                ),
            );
        }
    }
    for (name, card) in [("compound", COMPOUND), ("recurve", RECURVE)] {
        let technician = Event::Shot(Shot {
            by: Shooter::Technician,
            ..Shot::default()
        });
        for (what, events) in [
            ("begun", vec![]),
            ("moved, another shooter", vec![moved(rest, 1.0), technician]),
        ] {
            let one = session(card, events);
            for refusal in Refusal::ALL {
                table.row(
                    format!("{name} {what} {refusal:?}"),
                    next_steps::after(one.timeline(), refusal),
                );
            }
        }
    }
    for (sd, half) in [(2.0, 6.0), (5.0, 3.0), (0.1, 9.0), (90.0, 1.0)] {
        table.row(
            format!("shots {sd} {half}"),
            consistency::shots_to_prove(sd, half),
        );
    }
    table.pinned("checks");
}
