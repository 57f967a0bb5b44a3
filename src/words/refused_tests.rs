//! Every refusal of what was typed, said once, on one page that is read when it
//! changes; each shows what would be right.

use super::setup::example;
use crate::proof::{
    AsksForAMove, FaceUnit, GroupKind, Stage, read_impacts, record_done, record_group,
};
use crate::question::{Answer, Question, Refusal, Said};
use crate::restore::{Target, put_back};
use crate::session::{Event, Timeline};
use crate::setup::tests::{COMPOUND, RECURVE, timeline};
use crate::setup::{self, by_word, judge, skip};
use crate::trouble::{check_answer, next_step};

fn of_proof() -> Vec<String> {
    let impacts = [
        "",
        "3",
        "3 sideways",
        "sideways",
        "left",
        "-3 left",
        "3 left 2 left",
        "9999 left",
    ];
    let read = |text: &&str| read_impacts(text, FaceUnit::Cm).unwrap_err().to_string();
    let mut all: Vec<String> = impacts.iter().map(read).collect();
    for (stage, what, distance, hits) in [
        (Stage::Levels, "fletched", "18 m", "spot"),
        (Stage::BareShaft, "heavy", "18 m", "spot"),
        (Stage::BareShaft, "bare", "18", "spot"),
        (Stage::BareShaft, "bare", "0.9 m", "spot"),
        (Stage::BareShaft, "bare", "18 m", "spot; 2"),
    ] {
        let group = record_group(
            stage,
            &Said::<GroupKind>::from(what),
            distance,
            hits,
            FaceUnit::Cm,
        );
        all.push(group.unwrap_err().to_string());
    }
    all.push(crate::proof::GroupRefused::NoMark.to_string());
    all.push(record_done(Stage::WalkBack).unwrap_err().to_string());
    assert_eq!(record_done(Stage::Groups), Err(AsksForAMove(Stage::Groups)));
    all
}

fn of_the_list() -> Vec<String> {
    let bow = timeline(RECURVE, vec![]);
    let judged = |(item, text): (&str, &str)| judge(&bow, item, text).unwrap_err().to_string();
    let mut all: Vec<String> = [
        ("brace-height", " "),
        ("brace-height", "7"),
        ("centre-shot", "2 mm"),
        ("centre-shot", "-2 mm out"),
        ("centre-shot", "1 mm out at 4 in"),
        ("centre-shot", "1 mm out at 4 in / 2 mm out at 5 in"),
        ("tiller", "190 mm"),
        ("limb-bolts", "x / 2"),
        ("limb-bolts", "2 mm / 2"),
        ("string-settled", "many"),
        ("arrow-match", "412, 411, 413"),
        ("arrow-match", "412 gr, 411, x gr"),
        ("arrow-match", "412 gr, 411"),
        ("arrow-straightness", "0.003 in over 90 in"),
        ("cam-lien", "ok"),
    ]
    .map(judged)
    .to_vec();
    all.push(skip(&bow, "inspection").unwrap_err().to_string());
    let of = |item: &setup::Item| item.gate && item.measure != setup::Measure::Look;
    let figure = setup::items(&bow.card).into_iter().find(of);
    all.extend(figure.map(|item| by_word(&bow, item.id, true).unwrap_err().to_string()));
    all
}

fn of_answers() -> Vec<String> {
    let dry_fire = |card: &str| {
        let what = "dry fire".into();
        timeline(card, vec![Event::Incident { what }])
    };
    let (calm, bow) = (timeline(RECURVE, vec![]), dry_fire(RECURVE));
    let checked = |t: &Timeline, test: &str, result: &str| {
        let test = Question::parse(test).unwrap();
        check_answer(t, test, &result.into())
            .unwrap_err()
            .to_string()
    };
    let step = next_step(&timeline(COMPOUND, vec![]), Refusal::Scatter).unwrap();
    vec![
        checked(&calm, "inspect-limbs", "sound"),
        checked(&bow, "inspection", "ok"),
        checked(&bow, "inspect-cams", "sound"),
        checked(&bow, "inspect-limbs", "fine"),
        checked(&bow, "inspect-draw", Answer::Sound.id()),
        step.events("perhaps", None).unwrap_err().to_string(),
        Target::parse("yesterday").unwrap_err().to_string(),
        put_back(&calm, Target::Setting(9)).unwrap_err().to_string(),
    ]
}

#[test]
fn what_was_typed_and_is_not_taken_is_said_as_it_was() {
    let all = [of_proof(), of_the_list(), of_answers()].concat();
    insta::with_settings!({snapshot_path => "../../snapshots", prepend_module_to_snapshot => false}, {
        insta::assert_snapshot!("words-refused", all.join("\n"));
    });
}

/// Each names what was read or the item, and shows what would be right.
#[test]
fn a_refusal_of_the_list_shows_what_would_be_right() {
    let bow = timeline(RECURVE, vec![]);
    for item in setup::items(&bow.card) {
        if matches!(item.measure, setup::Measure::Look | setup::Measure::Note) {
            continue;
        }
        for text in ["", "x", "-1 x"] {
            let said = judge(&bow, item.id, text).unwrap_err().to_string();
            let shows = ["such as ", "for example "]
                .iter()
                .any(|w| said.contains(w));
            assert!(shows && said.starts_with(item.id.id()), "{said}");
        }
        // What it shows is taken: a set of weights as a whole, else each one.
        let shown = example(item.measure);
        let by = if item.measure == setup::Measure::Masses {
            "|"
        } else {
            ", "
        };
        for right in shown.split(by) {
            assert!(judge(&bow, item.id, right).is_ok(), "{right}");
        }
    }
}
