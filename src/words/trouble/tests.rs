//! Everything troubleshooting says, on one page that is read when it changes.

use super::super::tests::keeps_to_the_guide;
use super::*;
use crate::fixtures::{LABELLED_RECURVE, MEASURED_COMPOUND};
use crate::gear::CardText;
use crate::question::{Question, Test};
use crate::session::Timeline;
use crate::setup::tests::timeline;
use crate::trouble::{all_steps, next_step, offers};

/// The step that the answers given so far lead to.
fn after(
    card: &str,
    test: Test,
    answer: crate::question::Answer,
    reason: Refusal,
) -> Option<PathStep> {
    let said = crate::session::Event::answer(Question::Test(test), answer);
    // What stands before it is answered as harmless.
    let mut events = Vec::new();
    for step in all_steps(&timeline(card, vec![]), reason) {
        if step.id == Question::Test(test) {
            break;
        }
        events.extend(step.events(step.answers[0], None).unwrap());
    }
    events.push(said);
    next_step(&timeline(card, events), reason)
}

fn step_lines(t: &Timeline, step: &PathStep) -> String {
    let mut lines = vec![format!("  {}", text(step, &t.card))];
    for answer in &step.answers {
        lines.push(format!("  - {answer}: {}", means(step, *answer)));
    }
    lines.join("\n")
}

/// Each step of each path, with where each of its answers leads.
fn page(card: &str) -> String {
    let t = timeline(card, vec![]);
    let mut lines = Vec::new();
    for reason in Refusal::ALL {
        lines.push(format!("{reason}: {}", title(reason)));
        for step in all_steps(&t, reason) {
            lines.push(step_lines(&t, &step));
            let Question::Test(test) = step.id else {
                continue;
            };
            for answer in &step.answers {
                let then = after(card, test, *answer, reason);
                let then = then.filter(|s| !matches!(s.says, Says::Asks(_)));
                lines.extend(then.map(|s| format!("    {answer} -> {}", text(&s, &t.card))));
            }
        }
    }
    lines.join("\n")
}

#[test]
fn everything_troubleshooting_says_is_on_one_page() {
    insta::with_settings!({snapshot_path => "../../../snapshots", prepend_module_to_snapshot => false}, {
        insta::assert_snapshot!("words-trouble-compound", page(MEASURED_COMPOUND));
        insta::assert_snapshot!("words-trouble-recurve", page(LABELLED_RECURVE));
        insta::assert_snapshot!("words-offers", offered().join("\n"));
    });
}

/// Cards that are offered something, with what they are offered.
fn offered() -> Vec<String> {
    let bolts = [
        ("bow.maker_min_weight", "50 lb"),
        ("bow.maker_max_weight", "90 lb"),
        ("bow.maker_max_turns", "6 turns"),
    ];
    let weak = [
        ("bow.peak_weight", "62 lb"),
        ("arrow.shaft_length", "31 in"),
        ("rest.full_draw_mark", "27 1/4 in"),
    ];
    let both = [
        ("arrow.spine", "0.48"),
        ("arrow.shaft_length", "31 in"),
        ("bow.draw_length", "29.5 in"),
        ("rest.full_draw_mark", "28 in"),
    ];
    let stiff = [
        ("arrow.spine", "0.4"),
        ("bow.maker_max_turns", "6 turns"),
        ("bow.maker_max_weight", "42.3 lb"),
    ];
    let weak_recurve = [("arrow.spine", "1.0")];
    let mut lines = Vec::new();
    for (base, changes) in [
        (MEASURED_COMPOUND, [&weak[..], &bolts[..]].concat()),
        (MEASURED_COMPOUND, both.to_vec()),
        (LABELLED_RECURVE, stiff.to_vec()),
        (LABELLED_RECURVE, weak_recurve.to_vec()),
    ] {
        let mut card = CardText::from_toml(base).unwrap();
        for (key, value) in changes {
            card.set(key, value).unwrap();
        }
        let card = Card::read(&card).unwrap().0;
        let all = offers(&card);
        assert!(!all.is_empty());
        lines.extend(
            all.iter()
                .map(|o| format!("{}: {}", offer_title(o), offer(o))),
        );
    }
    lines
}

#[test]
fn every_step_and_every_answer_has_its_words_and_keeps_to_the_guide() {
    for card in [MEASURED_COMPOUND, LABELLED_RECURVE] {
        let t = timeline(card, vec![]);
        for reason in Refusal::ALL {
            for step in all_steps(&t, reason) {
                let place = format!("{reason} {}", step.id);
                keeps_to_the_guide(&place, &text(&step, &t.card));
                assert!(!step.answers.is_empty(), "{place}");
                for answer in &step.answers {
                    assert!(!means(&step, *answer).is_empty(), "{place} {answer}");
                    let Question::Test(test) = step.id else {
                        continue;
                    };
                    let Some(then) = after(card, test, *answer, reason) else {
                        continue;
                    };
                    let said = text(&then, &t.card);
                    assert!(said.len() > "Fix this first: .".len(), "{place} {answer}");
                    keeps_to_the_guide(&place, &said);
                }
            }
        }
    }
}

/// Cutting says what cannot be undone and how it is done safely.
#[test]
fn cutting_stands_with_its_cautions() {
    let all = offered().join("\n");
    for words in [
        "cannot be undone",
        "Cut one arrow and shoot it before any other",
        "abrasive wheel, eye protection and a dust mask",
    ] {
        assert!(all.contains(words), "{words}");
    }
}
