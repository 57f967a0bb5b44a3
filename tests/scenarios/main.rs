//! Stories a technician could write: entries, and the verdict and reason
//! expected after them. Each `stories/*.toml` is one; see the first lines of
//! any of them for the words. No Rust is needed to add one.

mod job;

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

use serde::Deserialize;
use tearbench::advice::{self, Advice, ProbeKind, Verdict};
use tearbench::gear::{AdjusterKind, CardText, parse_moves};
use tearbench::physics::prior::MODEL_VERSION;
use tearbench::question::{Answer, Code, Question};
use tearbench::range::Today;
use tearbench::session::{
    Event, Given, LearnedGain, LearnedRecord, PriorRecord, RangeSaid, Session, Shooter, Shot,
};
use tearbench::tear;
use tearbench::units::System;
use tearbench::words;

/// A story: a sample session or a card, then steps.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Story {
    /// What happens, in one line.
    title: String,
    /// A sample session, by file name; or
    session: Option<String>,
    /// a card of `cards/`, by name without `.toml`,
    card: Option<String>,
    /// with these changes.
    #[serde(default)]
    set: BTreeMap<String, String>,
    /// Steps in order.
    #[serde(default)]
    step: Vec<StoryStep>,
    /// What a sample session says after an entry.
    #[serde(default)]
    after: Vec<After>,
}

/// One step: what is done, and what is expected then.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct StoryStep {
    /// `shot 12 left 4 high; ...`, `technician 3 left`, `move rest left 1 mm`,
    /// `follow`, `answer contact none`, `old-answer arrow stiffer`
    /// (a word that is no longer taken), `note ...`, `card key=value`, `undo`,
    /// `redo`, `restart`, `restart 1`, `incident dry fire`, `look`,
    /// `range` (the range safety list, all in order), `range technician`,
    /// `taught 11 rest-sideways -2.5 0.8, rest-height -2.4 0.7` (bows of the
    /// folder, and of each adjuster the mean slope and the sd between bows).
    r#do: String,
    #[serde(flatten)]
    expect: Expect,
}

/// What is expected after an entry of a sample session.
#[derive(Debug, Deserialize)]
struct After {
    /// Entry number.
    entry: u32,
    #[serde(flatten)]
    expect: Expect,
}

/// What is expected of the advice.
#[derive(Debug, Deserialize, Default)]
struct Expect {
    /// The verdict, exactly.
    verdict: Option<String>,
    /// Or any of these.
    one_of: Option<Vec<String>>,
    /// A reason code that must be among the reasons.
    reason: Option<String>,
    /// A reason code that must not be.
    no_reason: Option<String>,
    /// The adjuster that moves first.
    adjuster: Option<String>,
    /// The adjuster that moves with it.
    also: Option<String>,
    /// The kind of probe.
    probe: Option<String>,
    /// A part of the headline.
    headline: Option<String>,
    /// Status of a check: `spine_match = "fail"` and so on.
    safety: Option<String>,
    spine_match: Option<String>,
    consistency: Option<String>,
    response: Option<String>,
    /// What an advised move is for, `test` or `correction`.
    purpose: Option<String>,
    /// A part of the consistency check's text.
    check_says: Option<String>,
}

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

fn read(path: &Path) -> String {
    fs::read_to_string(path).unwrap_or_else(|e| panic!("{}: {e}", path.display()))
}

fn word<T: serde::Serialize>(value: T) -> String {
    serde_json::to_value(value)
        .unwrap()
        .as_str()
        .unwrap_or_default()
        .to_owned()
}

impl Expect {
    /// Whether its words are words of the program: a slip in one that must not
    /// be there would hold for ever.
    fn is_read(&self, place: &str) {
        let known = |what: &str, word: &str, all: &[&str]| {
            assert!(
                all.contains(&word),
                "{place}: {what} '{word}' is none of {all:?}"
            );
        };
        let verdicts = Verdict::ALL.map(Verdict::id);
        let codes: Vec<&str> = Code::all().map(Code::id).collect();
        for word in self.verdict.iter().chain(self.one_of.iter().flatten()) {
            known("verdict", word, &verdicts);
        }
        for word in self.reason.iter().chain(&self.no_reason) {
            known("reason", word, &codes);
        }
        if let Some(word) = &self.probe {
            known("probe", word, &ProbeKind::ALL.map(ProbeKind::id));
        }
        for word in self.adjuster.iter().chain(&self.also) {
            known("adjuster", word, &AdjusterKind::ALL.map(AdjusterKind::id));
        }
    }

    fn hold(&self, place: &str, advice: &Advice) {
        self.is_read(place);
        let verdict = advice.verdict.id();
        let said = words::said(advice, System::Mm);
        let codes: Vec<&str> = said.reasons.iter().map(|r| r.code).collect();
        let seen = format!("{place}: {verdict} '{}' {codes:?}", said.headline);
        if let Some(wanted) = &self.verdict {
            assert_eq!(verdict, wanted, "{seen}");
        }
        if let Some(any) = &self.one_of {
            assert!(any.iter().any(|v| v == verdict), "{seen}: none of {any:?}");
        }
        if let Some(code) = &self.reason {
            assert!(codes.contains(&code.as_str()), "{seen}: no reason {code}");
        }
        if let Some(code) = &self.no_reason {
            assert!(!codes.contains(&code.as_str()), "{seen}: reason {code}");
        }
        if let Some(id) = &self.adjuster {
            let first = advice.movement.as_ref().map(|m| m.steps[0].adjuster().id());
            assert_eq!(first, Some(id.as_str()), "{seen}");
        }
        if let Some(id) = &self.also {
            let steps = advice.movement.iter().flat_map(|m| &m.steps);
            let second = steps.map(|s| s.adjuster().id()).nth(1);
            assert_eq!(second, Some(id.as_str()), "{seen}");
        }
        if let Some(kind) = &self.probe {
            assert_eq!(
                advice.probe.as_ref().map(|p| word(p.kind)).as_ref(),
                Some(kind),
                "{seen}"
            );
        }
        if let Some(part) = &self.headline {
            assert!(said.headline.contains(part.as_str()), "{seen}: no '{part}'");
        }
        let checks = &said.checks;
        for (name, wanted, check) in [
            ("safety", &self.safety, &checks.safety),
            ("spine_match", &self.spine_match, &checks.spine_match),
            ("consistency", &self.consistency, &checks.consistency),
            ("response", &self.response, &checks.response),
        ] {
            if let Some(wanted) = wanted {
                assert_eq!(
                    &word(check.status),
                    wanted,
                    "{seen}: {name}: {}",
                    check.text
                );
            }
        }
        if let Some(purpose) = &self.purpose {
            let shown = advice.movement.as_ref().map(|m| word(m.purpose));
            assert_eq!(shown.as_ref(), Some(purpose), "{seen}");
        }
        if let Some(part) = &self.check_says {
            let text = &checks.consistency.text;
            assert!(text.contains(part.as_str()), "{seen}: {text}: no '{part}'");
        }
        keeps_its_promises(&seen, advice);
    }
}

/// What holds of every advice, whatever the story.
fn keeps_its_promises(seen: &str, advice: &Advice) {
    assert_eq!(
        advice.movement.is_some(),
        advice.verdict == Verdict::Move,
        "{seen}: a move beside another verdict"
    );
    assert_eq!(
        advice.probe.is_some(),
        advice.verdict == Verdict::Probe,
        "{seen}: a probe beside another verdict"
    );
    assert!(!advice.findings.is_empty(), "{seen}: no reason");
    let refuses = matches!(advice.verdict, Verdict::Refuse | Verdict::Stop);
    assert_eq!(
        advice.refusal.is_some(),
        refuses,
        "{seen}: refused for what"
    );
    if let Some(movement) = &advice.movement {
        assert!(!movement.steps.is_empty(), "{seen}");
        assert!(
            movement
                .steps
                .iter()
                .all(|s| s.amount() != 0.0 && s.amount().is_finite()),
            "{seen}: a move of nothing"
        );
    }
    if let Some(probe) = &advice.probe {
        assert!(
            probe.distance_m.is_none_or(|d| d >= 1.5),
            "{seen}: a probe nearer than 1.5 m"
        );
    }
}

fn advise(session: &Session) -> Advice {
    advice::advise(session.timeline(), Today::now())
}

fn act(session: &mut Session, place: &str, line: &str) {
    let (verb, rest) = line.split_once(' ').unwrap_or((line, ""));
    let events: Vec<Event> = match verb {
        "shot" => shots(rest, Shooter::Owner),
        "technician" => shots(rest, Shooter::Technician),
        "machine" => shots(rest, Shooter::Machine),
        "far" => {
            let (distance, tears) = rest.split_once(':').expect("far 2.5 m: 12 left");
            let mut events = shots(tears, Shooter::Owner);
            for event in &mut events {
                if let Event::Shot(shot) = event {
                    shot.distance = Some(distance.trim().into());
                }
            }
            events
        }
        "move" => {
            let t = session.timeline();
            let steps = parse_moves(rest, &t.card, &t.now, System::Mm)
                .unwrap_or_else(|e| panic!("{place}: {e}"));
            vec![Event::Move {
                steps,
                said: None,
                confirms: None,
            }]
        }
        "follow" => {
            let advice = advise(session);
            let movement = advice
                .movement
                .unwrap_or_else(|| panic!("{place}: nothing to follow, {:?}", advice.headline));
            let steps = movement.moves();
            vec![Event::Move {
                steps,
                said: None,
                confirms: None,
            }]
        }
        "answer" | "old-answer" => {
            let (test, result) = rest.split_once(' ').expect("answer TEST RESULT");
            assert!(Question::parse(test).is_some(), "{place}: no question");
            // A word that is no longer taken stands in old files and counts for nothing.
            let taken = Answer::parse(result).is_some();
            assert_eq!(taken, verb == "answer", "{place}: is it an answer?");
            vec![Event::Answer {
                test: test.into(),
                result: result.into(),
                detail: None,
            }]
        }
        "card" => {
            let (key, value) = rest.split_once('=').expect("card key=value");
            vec![Event::card(BTreeMap::from([(key.into(), value.into())]))]
        }
        "note" => vec![Event::Note { text: rest.into() }],
        "incident" => vec![Event::Incident { what: rest.into() }],
        "restart" => vec![Event::Restart {
            setting: rest.parse().ok(),
            why: None,
        }],
        "undo" => {
            session.undo().unwrap_or_else(|e| panic!("{place}: {e}"));
            vec![]
        }
        "redo" => {
            session.redo().unwrap_or_else(|e| panic!("{place}: {e}"));
            vec![]
        }
        "range" => {
            let by = Shooter::from_id(rest).unwrap_or_default();
            vec![RangeSaid::AllInOrder(by).event()]
        }
        "taught" => vec![taught(rest)],
        "look" => vec![],
        other => panic!("{place}: '{other}' is no step"),
    };
    for event in events {
        session
            .record(event)
            .unwrap_or_else(|e| panic!("{place}: {e}"));
    }
}

/// What the other bows of a folder taught, as a new session is told it.
fn taught(text: &str) -> Event {
    let (bows, all) = text.split_once(' ').expect("taught BOWS ADJUSTER MEAN SD");
    let bows = bows.parse().expect("how many bows");
    let gain = |words: &str| {
        let words: Vec<&str> = words.split_whitespace().collect();
        let number = |i: usize| words[i].parse::<f64>().expect("a slope and its sd");
        LearnedGain {
            adjuster: AdjusterKind::from_id(words[0]).expect("an adjuster"),
            powder: None,
            bows,
            mean: number(1),
            sd: number(2),
            wide: 1.0 / f64::from(bows + 2),
            dead: 0.02,
        }
    };
    Event::Prior(PriorRecord {
        model: MODEL_VERSION,
        seed: 1,
        draws: 0,
        gains: Vec::new(),
        learned: Some(LearnedRecord {
            bows,
            sessions: bows,
            own: 0,
            read: None,
            gains: all.split(',').map(gain).collect(),
            scatter: None,
        }),
    })
}

fn shots(text: &str, by: Shooter) -> Vec<Event> {
    let holes = tear::read_holes(text, System::Mm).unwrap_or_else(|e| panic!("{text}: {e}"));
    holes
        .iter()
        .map(|hole| {
            Event::Shot(Shot {
                by,
                ..Shot::of(hole, "", &Given::default()).unwrap()
            })
        })
        .collect()
}

fn tell(path: &Path) {
    let name = path.file_name().unwrap().to_string_lossy().into_owned();
    let story: Story = toml::from_str(&read(path)).unwrap_or_else(|e| panic!("{name}: {e}"));
    assert!(!story.title.is_empty(), "{name}: a story has a title");
    if let Some(file) = &story.session {
        retell(&name, file, &story);
    } else {
        let card = story.card.as_deref().unwrap_or("compound");
        let source = read(&root().join(format!("tests/scenarios/cards/{card}.toml")));
        let mut text = CardText::from_toml(&source).unwrap_or_else(|e| panic!("{card}: {e:?}"));
        for (key, value) in &story.set {
            text.set(key, value)
                .unwrap_or_else(|e| panic!("{name}: {e}"));
        }
        let mut session =
            Session::from_text(&text.to_toml()).unwrap_or_else(|e| panic!("{name}: {e:?}"));
        assert!(!story.step.is_empty(), "{name}: a story has steps");
        for (i, step) in story.step.iter().enumerate() {
            let place = format!("{name}, step {} '{}'", i + 1, step.r#do);
            act(&mut session, &place, &step.r#do);
            step.expect.hold(&place, &advise(&session));
        }
    }
}

/// Replays a sample session entry by entry.
fn retell(name: &str, file: &str, story: &Story) {
    let text = read(&root().join("sample-sessions").join(file));
    let whole = Session::from_text(&text).unwrap_or_else(|e| panic!("{file}: {e:?}"));
    assert!(whole.damage().is_empty(), "{file}: {:?}", whole.damage());
    let card = whole.first_card().to_toml();
    let mut session = Session::from_text(&card).unwrap();
    let last = whole.entries().last().map_or(0, |e| e.number);
    for after in &story.after {
        assert!(
            after.entry <= last,
            "{name}: {file} has only {last} entries"
        );
    }
    assert!(
        story
            .after
            .iter()
            .any(|a| a.entry == last && a.expect.verdict.is_some()),
        "{name}: the last verdict must be pinned"
    );
    for entry in whole.entries() {
        session.record(entry.event.clone()).unwrap();
        for after in story.after.iter().filter(|a| a.entry == entry.number) {
            after.expect.hold(
                &format!("{name}, {file} after entry {}", entry.number),
                &advise(&session),
            );
        }
    }
}

#[test]
fn every_story_ends_as_it_should() {
    let folder = root().join("tests/scenarios/stories");
    let mut paths: Vec<PathBuf> = fs::read_dir(&folder)
        .unwrap()
        .map(|e| e.unwrap().path())
        .collect();
    paths.sort();
    let failures: Vec<String> = paths
        .iter()
        .filter_map(|path| {
            let told = std::panic::catch_unwind(|| tell(path));
            told.err().map(|e| {
                e.downcast_ref::<String>()
                    .cloned()
                    .unwrap_or_else(|| format!("{}: failed", path.display()))
            })
        })
        .collect();
    assert!(
        failures.is_empty(),
        "{} of {} stories:\n{}",
        failures.len(),
        paths.len(),
        failures.join("\n")
    );
    assert!(paths.len() >= 8, "only {} stories", paths.len());
}

#[test]
fn every_sample_session_has_its_story() {
    let samples = fs::read_dir(root().join("sample-sessions")).unwrap();
    let stories: String = fs::read_dir(root().join("tests/scenarios/stories"))
        .unwrap()
        .map(|e| read(&e.unwrap().path()))
        .collect();
    for sample in samples {
        let name = sample.unwrap().file_name().to_string_lossy().into_owned();
        assert!(
            name.ends_with(".toml"),
            "{name}: sample sessions are flat TOML files"
        );
        assert!(
            stories.contains(&format!("session = \"{name}\"")),
            "{name} has no story"
        );
    }
}
