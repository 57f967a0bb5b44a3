use super::*;
use crate::fixtures::PLAIN_COMPOUND as CARD;
use crate::session::Event;
use crate::session::entry::Shot;

fn shot(right: f64) -> Event {
    Event::Shot(Shot {
        right,
        ..Shot::default()
    })
}

#[test]
fn what_is_recorded_is_there_when_opened_again() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("bow.toml");
    Session::create(&path, &CardText::from_toml(CARD).unwrap()).unwrap();
    let mut session = Session::open_for_writing(&path, "test", Duration::ZERO).unwrap();
    assert_eq!(session.record(shot(9.0)).unwrap(), 1);
    assert_eq!(session.record(shot(8.0)).unwrap(), 2);
    assert_eq!(session.undo().unwrap(), [2]);
    let again = Session::open(&path).unwrap();
    assert_eq!(again.entries(), session.entries());
    assert_eq!(again.timeline().shots.len(), 1);
    assert_eq!(
        std::fs::read_to_string(&path).unwrap().len() as u64,
        session.print.length()
    );
}

#[test]
fn what_cannot_apply_is_refused_and_nothing_changes() {
    let mut session = Session::from_text(CARD).unwrap();
    assert!(session.undo().is_err());
    assert!(session.redo().is_err());
    assert!(
        session
            .record(Event::Restart {
                setting: Some(9),
                why: None
            })
            .is_err()
    );
    let bad =
        std::collections::BTreeMap::from([("bow.peak_weight".to_owned(), "heavy".to_owned())]);
    assert!(
        session
            .record(Event::card(bad))
            .unwrap_err()
            .to_string()
            .contains("bow.peak_weight")
    );
    session
        .record(Event::Incident {
            what: "dry fire".into(),
        })
        .unwrap();
    assert!(
        session
            .record(Event::Undo { target: 1 })
            .unwrap_err()
            .to_string()
            .contains("every part")
    );
    assert_eq!(session.entries().len(), 1);
}

#[test]
fn a_file_changed_elsewhere_is_noticed_and_read_again_with_the_lock_kept() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("bow.toml");
    Session::create(&path, &CardText::from_toml(CARD).unwrap()).unwrap();
    let mut session = Session::open_for_writing(&path, "test", Duration::ZERO).unwrap();
    session.record(shot(9.0)).unwrap();
    assert!(session.is_unchanged().unwrap());
    let text = std::fs::read_to_string(&path).unwrap();
    std::fs::write(&path, text.replace("right = 9.0", "right = 7.0")).unwrap();
    assert!(!session.is_unchanged().unwrap());
    assert!(session.record(shot(8.0)).is_err());
    session.reload().unwrap();
    session.record(shot(8.0)).unwrap();
    let rights: Vec<f64> = session
        .timeline()
        .shots
        .iter()
        .map(|s| s.shot.right)
        .collect();
    assert_eq!(rights, [7.0, 8.0]);
    std::fs::remove_file(&path).unwrap();
    assert!(session.is_unchanged().is_err());
    assert!(session.reload().is_err());
    assert_eq!(session.entries().len(), 2);
}

#[test]
fn a_file_of_a_newer_format_is_read_and_not_written() {
    let card = format!("format = 3\n{CARD}[hologram]\ndepth = \"3 mm\"\n");
    let mut session = Session::from_text(&card).unwrap();
    assert!(
        session
            .record(shot(1.0))
            .unwrap_err()
            .to_string()
            .contains("format 3")
    );
}

/// The entries of a file as they stand in it, without their check sums.
fn blocks(text: &str) -> Vec<String> {
    let whole = |block: &str| {
        let kept = block.lines().filter(|l| !l.starts_with("sum = "));
        kept.collect::<Vec<_>>().join("\n").trim().to_owned()
    };
    text.split("[[entry]]\n").skip(1).map(whole).collect()
}

fn written_again(text: &str) -> Vec<String> {
    let session = Session::from_text(text).unwrap();
    assert!(session.damage().is_empty(), "{:?}", session.damage());
    let again: String = session.entries().iter().map(Entry::to_toml).collect();
    blocks(&again)
}

#[test]
fn every_sample_session_is_written_again_as_it_stands() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/sample-sessions");
    let mut entries = 0;
    for file in std::fs::read_dir(folder).unwrap() {
        let path = file.unwrap().path();
        let text = std::fs::read_to_string(&path).unwrap();
        entries += blocks(&text).len();
        assert_eq!(written_again(&text), blocks(&text), "{path:?}");
    }
    assert!(entries > 50, "{entries}");
}

#[test]
fn words_that_are_no_longer_taken_stay_as_they_stand_and_count_for_nothing() {
    let answers = [
        ("inspection", "clear"),
        ("contact", "vanes"),
        ("contact", "no"),
        ("zebra", "purple"),
        ("remedy-no-response", "resume"),
        ("remedy-gone", "resume"),
        ("loose-fixed", "done"),
        ("zebra-fixed", "done"),
        ("inspect-limbs-fixed", "done"),
        ("proof-bare-shaft", "skipped"),
        ("proof-gone", "skipped"),
        ("press-work", "finished"),
        ("Contact", "None"),
        ("levels", "nearly"),
    ];
    let at = "at = \"2026-03-14T10:02:00+00:00\"";
    let mut text = CARD.to_owned();
    let mut number = 0;
    let mut add = |text: &mut String, lines: String| {
        number += 1;
        text.push_str(&format!("\n[[entry]]\n{lines}\nend = {number}\n"));
    };
    for (test, result) in answers {
        let lines = format!("kind = \"answer\"\n{at}\nresult = \"{result}\"\ntest = \"{test}\"");
        add(&mut text, lines);
    }
    for (item, result) in [("levels", "fine"), ("moon", "ok"), ("range-first", "read")] {
        let lines = format!("kind = \"setup\"\n{at}\nitem = \"{item}\"\nresult = \"{result}\"");
        add(&mut text, lines);
    }
    add(
        &mut text,
        format!(
            "kind = \"group\"\n{at}\ndistance = \"18 m\"\nimpacts = [{{ right = 1.0, up = 2.0 }}]\nproof = \"gone\"\nwhat = \"bare\""
        ),
    );
    assert_eq!(written_again(&text), blocks(&text));
    let timeline = Session::from_text(&text).unwrap();
    let timeline = timeline.timeline();
    let unknown = timeline.answers.iter().filter(|a| a.test.known().is_none());
    let unknown: Vec<String> = unknown.map(|a| a.test.word()).collect();
    assert_eq!(
        unknown,
        [
            "zebra",
            "remedy-gone",
            "zebra-fixed",
            "proof-gone",
            "Contact"
        ]
    );
}
