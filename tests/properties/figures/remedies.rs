//! Remedies by card, and the steps of troubleshooting by their answers.

use tearbench::question::Refusal;
use tearbench::session::{Event, Session};
use tearbench::trouble::{self, Ask, PathStep};

use super::Table;
use crate::fixtures::{COMPOUND, RECURVE};

/// A card with lines put in at the head of their tables, or put over those
/// that stand there.
fn card(base: &str, changes: &[(&str, &str, &str)]) -> String {
    let mut text = base.to_owned();
    for (table, key, value) in changes {
        let kept: Vec<String> = text
            .lines()
            .scan(String::new(), |at, line| {
                if line.starts_with('[') {
                    *at = line.to_owned();
                }
                Some((at.clone(), line.to_owned()))
            })
            .filter(|(at, line)| {
                *at != format!("[{table}]") || !line.starts_with(&format!("{key} "))
            })
            .map(|(_, line)| line)
            .collect();
        text = kept.join("\n") + "\n";
        let head = format!("[{table}]\n");
        if !text.contains(&head) {
            text.push_str(&head);
        }
        text = text.replace(&head, &format!("{head}{key} = \"{value}\"\n"));
    }
    text
}

const BOLTS: [(&str, &str, &str); 4] = [
    ("bow", "maker_max_turns", "6 turns"),
    ("bow", "maker_min_weight", "50 lb"),
    ("bow", "maker_max_weight", "70 lb"),
    ("bow", "turns_out", "1 turn"),
];

fn cards() -> Vec<(String, String)> {
    let mut all = Vec::new();
    for spine in [
        "0.200", "0.300", "0.400", "0.470", "0.520", "0.600", "0.800",
    ] {
        let spine_line = ("arrow", "spine", spine);
        for (name, more) in [
            ("plain", vec![]),
            ("bolts", BOLTS.to_vec()),
            ("mark", vec![("rest", "full_draw_mark", "27.25 in")]),
            (
                "mark and bolts",
                [&BOLTS[..], &[("rest", "full_draw_mark", "26 in")]].concat(),
            ),
            (
                "junior",
                [
                    &BOLTS[..],
                    &[
                        ("archer", "junior", "true"),
                        ("rest", "full_draw_mark", "26 in"),
                    ],
                ]
                .concat(),
            ),
            (
                "maker's least",
                vec![
                    ("bow", "maker_min_arrow", "380 gr"),
                    ("arrow", "trial_point", "175 gr"),
                ],
            ),
        ] {
            let changes = [&[spine_line][..], &more].concat();
            all.push((format!("compound {spine} {name}"), card(COMPOUND, &changes)));
        }
        all.push((format!("recurve {spine}"), card(RECURVE, &[spine_line])));
        let longbow = [
            spine_line,
            ("bow", "kind", "longbow"),
            ("rest", "kind", "shelf"),
            ("rest", "full_draw_mark", "26.5 in"),
        ];
        all.push((format!("longbow {spine}"), card(RECURVE, &longbow)));
    }
    all
}

#[test]
fn of_every_offer() {
    let mut table = Table::default();
    for (name, text) in cards() {
        let session = match Session::from_text(&text) {
            Ok(session) => session,
            Err(problem) => panic!("{name}: {problem:?}\n{text}"),
        };
        let offers = trouble::offers_now(session.timeline());
        let figures: Vec<_> = offers
            .iter()
            .map(|o| {
                (
                    o.id,
                    o.reversible(),
                    o.reaches,
                    o.with,
                    &o.card,
                    o.load_ratio(),
                )
            })
            .collect();
        let mark = trouble::cut_wants_a_mark(&session.timeline().card);
        table.row(name, (mark, figures));
    }
    table.pinned("offers");
}

fn next(card: &str, events: &[Event], reason: Refusal) -> Option<PathStep> {
    let mut session = Session::from_text(card).unwrap();
    for event in events {
        session.record(event.clone()).unwrap();
    }
    trouble::next_step(session.timeline(), reason)
}

/// Each path walked by its harmless answers, and at each step what every
/// other answer leads to.
#[test]
fn of_every_path() {
    let mut table = Table::default();
    let weak = card(COMPOUND, &[("arrow", "spine", "0.600")]);
    for (name, text) in [
        ("compound", COMPOUND),
        ("recurve", RECURVE),
        ("weak", &weak),
    ] {
        for reason in Refusal::ALL {
            let mut done: Vec<Event> = Vec::new();
            if reason == Refusal::Incident {
                let what = "dry fire".into();
                done.push(Event::Incident { what });
            }
            for _ in 0..30 {
                let Some(step) = next(text, &done, reason) else {
                    break;
                };
                let words: Vec<_> = step.answers.clone();
                let leads: Vec<_> = words
                    .iter()
                    .map(|word| {
                        let more = step.events(*word, None).unwrap();
                        let then = next(text, &[&done[..], &more].concat(), reason);
                        then.map(|next| (next.id, next.ask, next.place))
                    })
                    .collect();
                table.row(
                    format!("{name} {reason:?} {:?}", step.place),
                    (
                        step.id,
                        step.ask,
                        step.shots,
                        step.put_back.is_some(),
                        &words,
                        leads,
                    ),
                );
                let ends = matches!(step.ask, Ask::Resume | Ask::FixFirst);
                done.extend(step.events(words[0], None).unwrap());
                if ends {
                    break;
                }
            }
        }
    }
    table.pinned("paths");
}
