//! Each reader against spoiled texts.

use proptest::prelude::*;

use crate::fixtures::{COMPOUND as CARD, RECURVE};
use crate::mutate::{Blow, blow, cases, spoiled};
use tearbench::config::Config;
use tearbench::gear::{Card, CardText, Positions, parse_moves};
use tearbench::session::{Journal, Session};
use tearbench::tear::read_holes;
use tearbench::units::System;

const SESSION: &str = include_str!("../../sample-sessions/half-way.toml");
const TEARS: &[&str] = &[
    "12 left 4 high",
    "l12 h4 #3 bad ragged",
    "1/2 in left; clean; 9l3h",
    "1 3/16 in right, 0 high bare",
    "0 right 0 high",
];
const MOVES: &[&str] = &[
    "rest left 1.5 mm",
    "rest up 2 clicks, nock down 1 mm",
    "rest at 19.3 mm",
    "plunger firmer 1/8 turn",
    "yoke left +1/2 twist",
];

fn blows() -> impl Strategy<Value = Vec<Blow>> {
    prop::collection::vec(blow(), 0..6)
}

/// Nothing a terminal acts on, and no longer than a person reads.
fn is_fit_to_show(text: &str) -> bool {
    let marks = |c: char| matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
    text.chars()
        .all(|c| c == '\n' || (!c.is_control() && !marks(c)))
}

fn systems() -> impl Strategy<Value = System> {
    prop_oneof![Just(System::Mm), Just(System::Inch)]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: cases(), failure_persistence: None, max_shrink_iters: 2000, ..ProptestConfig::default() })]

    #[test]
    fn any_card_is_read_or_refused_in_words(recurve in any::<bool>(), blows in blows()) {
        let text = spoiled(if recurve { RECURVE } else { CARD }, &blows);
        match CardText::from_toml(&text).and_then(|card| Card::read(&card).map(|read| (card, read))) {
            Ok((card, _)) => {
                // What was read is read again from what is written.
                let again = CardText::from_toml(&card.to_toml()).expect("a written card reads");
                prop_assert!(Card::read(&again).is_ok());
            }
            Err(problems) => {
                prop_assert!(!problems.is_empty());
                for problem in problems {
                    let said = problem.to_string();
                    prop_assert!(is_fit_to_show(&said) && said.chars().count() < 600, "{said:?}");
                }
            }
        }
    }

    #[test]
    fn any_session_is_read_in_part_or_refused_in_words(blows in blows()) {
        let text = spoiled(SESSION, &blows);
        let journal = Journal::from_text(&text);
        prop_assert!(journal.sound_len <= text.len() as u64);
        prop_assert!(journal.entries.windows(2).all(|w| w[0].number < w[1].number));
        for damage in &journal.damage {
            prop_assert!(damage.line >= 1 && damage.line <= text.lines().count() + 1);
            prop_assert!(is_fit_to_show(&damage.problem.to_string()), "{:?}", damage.problem);
        }
        if let Ok(mut session) = Session::from_text(&text) {
            let timeline = session.timeline();
            for shot in &timeline.shots {
                prop_assert!(shot.shot.right.is_finite() && shot.shot.up.is_finite());
            }
            prop_assert!(session.warnings().iter().all(|w| is_fit_to_show(&tearbench::words::warning(w))));
            let before = session.entries().len();
            let noted = session.record(tearbench::session::Event::Note { text: "n".into() });
            // A file of a newer format, and one whose numbers are used up, are only read.
            prop_assert_eq!(session.entries().len(), before + usize::from(noted.is_ok()));
        }
    }

    #[test]
    fn a_spoiled_session_is_advised_on_reported_and_shown_without_panic(blows in prop::collection::vec(blow(), 0..3)) {
        let text = spoiled(SESSION, &blows);
        if let Ok(session) = Session::from_text(&text) {
            let advice = tearbench::advice::analyse(session.timeline(), tearbench::range::Today::now(),
            )
            .advice;
            let said = tearbench::words::said(&advice, tearbench::units::System::Mm);
            let json = serde_json::to_string(&said).expect("advice is JSON");
            prop_assert!(!json.contains("NaN") && !json.contains("inf"));
        }
    }

    #[test]
    fn any_tear_is_read_or_pointed_at(which in 0..TEARS.len(), blows in blows(), system in systems()) {
        let text = spoiled(TEARS[which], &blows);
        match read_holes(&text, system) {
            Ok(holes) => {
                prop_assert!(!holes.is_empty() && holes.len() <= 24);
                prop_assert!(holes.iter().all(|h| h.tear.right.is_finite() && h.tear.up.is_finite()));
            }
            Err(error) => {
                prop_assert!(is_fit_to_show(&error.to_string()), "{error}");
                prop_assert!(error.at <= text.chars().count());
            }
        }
    }

    #[test]
    fn any_move_is_read_or_refused(which in 0..MOVES.len(), blows in blows(), system in systems()) {
        let text = spoiled(MOVES[which], &blows);
        for card in [CARD, RECURVE] {
            let card = Card::read(&CardText::from_toml(card).unwrap()).unwrap().0;
            match parse_moves(&text, &card, &Positions::default(), system) {
                Ok(steps) => prop_assert!(steps.iter().all(|s| s.amount.is_finite())),
                Err(error) => prop_assert!(is_fit_to_show(&error.to_string()), "{error}"),
            }
        }
    }

    #[test]
    fn any_settings_are_read_or_refused_by_line(blows in blows()) {
        let text = spoiled(&tearbench::config::sample(), &blows);
        if let Err(problems) = Config::from_toml(&text) {
            prop_assert!(!problems.is_empty());
            for problem in problems {
                prop_assert!(is_fit_to_show(&problem.to_string()), "{problem}");
            }
        }
    }
}
