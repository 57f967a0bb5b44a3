//! A folder of invented bows whose slopes are known, and what it teaches.

use super::*;
use crate::gear::{CardText, Step};
use crate::session::{Event, Shot};

const COMPOUND: &str = include_str!("../../../tests/scenarios/cards/compound.toml");
const RECURVE: &str = include_str!("../../../tests/scenarios/cards/recurve.toml");
const NOISE: [f64; 8] = [0.8, -0.5, 0.2, -0.9, 0.6, -0.3, 0.4, -0.7];

/// A bow to be written into a folder.
#[derive(Clone)]
struct Bow {
    card: &'static str,
    hand: &'static str,
    name: String,
    owner: &'static str,
    kind: AdjusterKind,
    slope: f64,
    answers: Vec<(&'static str, &'static str)>,
}

impl Bow {
    fn new(n: usize, slope: f64) -> Self {
        Self {
            card: COMPOUND,
            hand: "right",
            name: format!("bow number {n}"),
            owner: "Quillfeather",
            kind: AdjusterKind::RestSideways,
            slope,
            answers: Vec::new(),
        }
    }

    fn text(&self) -> CardText {
        let mut card = CardText::from_toml(self.card).unwrap();
        card.set("bow.hand", self.hand).unwrap();
        card.set("bow.name", &self.name).unwrap();
        card.set("job.owner", self.owner).unwrap();
        card
    }

    fn card(&self) -> Card {
        Card::read(&self.text()).unwrap().0
    }

    /// Two shots at the start, then two each after moves of so many units.
    fn events(&self) -> Vec<Event> {
        let side = if self.hand == "left" { -1.0 } else { 1.0 };
        // A spring's turns are what they are; positions sideways are mirrored.
        let turned = if self.kind == AdjusterKind::PlungerTension {
            1.0
        } else {
            side
        };
        let mut events: Vec<Event> = self
            .answers
            .iter()
            .map(|(test, result)| Event::Answer {
                test: (*test).into(),
                result: (*result).into(),
                detail: None,
            })
            .collect();
        let mut noise = NOISE.iter().cycle();
        let mut at = 0.0;
        for step in [0.0, -2.0, 1.0, 2.0] {
            if step != 0.0 {
                at += step;
                events.push(Event::Move {
                    steps: vec![Step {
                        adjuster: self.kind,
                        amount: turned * step,
                    }],
                    said: None,
                    confirms: None,
                });
            }
            for _ in 0..2 {
                let e = noise.next().unwrap();
                events.push(Event::Shot(Shot {
                    right: side * (9.0 + self.slope * at + e),
                    up: 2.0 - e,
                    ..Shot::default()
                }));
            }
        }
        events
    }

    fn write(&self, folder: &Path, name: &str) {
        let path = folder.join(name);
        Session::create(&path, &self.text()).unwrap();
        let mut session = Session::open_for_writing(&path, "test", Duration::ZERO).unwrap();
        for event in self.events() {
            session.record(event).unwrap();
        }
    }
}

const SLOPES: [f64; 6] = [-2.0, -3.0, -1.5, -2.5, -2.2, -1.8];

fn folder_of(bows: &[Bow]) -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    for (n, bow) in bows.iter().enumerate() {
        bow.write(folder.path(), &format!("session-{n}.toml"));
    }
    folder
}

fn similar() -> Vec<Bow> {
    SLOPES
        .iter()
        .enumerate()
        .map(|(n, s)| Bow::new(n, *s))
        .collect()
}

fn how(cache: Option<PathBuf>) -> How {
    How {
        cache,
        patience: Duration::from_secs(60),
    }
}

fn taught(folder: &Path, card: &Card) -> Option<LearnedRecord> {
    Lessons::of(folder, None, &how(None))
        .unwrap()
        .for_card(card)
}

fn rest(record: &LearnedRecord) -> &LearnedGain {
    record.gain(AdjusterKind::RestSideways, None).unwrap()
}

#[test]
fn a_folder_of_similar_bows_teaches_the_next_one() {
    let folder = folder_of(&similar());
    let next = Bow::new(99, 0.0).card();
    let found = taught(folder.path(), &next).unwrap();
    assert_eq!((found.bows, found.sessions, found.own), (6, 6, 0));
    let gain = rest(&found);
    // Mean of the slopes written above: -2.17.
    assert!((gain.mean + 2.17).abs() < 0.25, "{gain:?}");
    assert!(gain.sd < 1.5 && gain.wide >= 1.0 / 8.0, "{gain:?}");
    // A recurve, fingers, or another rest is another class.
    let other = Bow {
        card: RECURVE,
        ..Bow::new(99, 0.0)
    };
    assert!(taught(folder.path(), &other.card()).is_none_or(|l| l.gains.is_empty()));
}

#[test]
fn a_mirrored_folder_teaches_the_mirrored_bow() {
    let mirrored = |bow: &Bow| Bow {
        hand: "left",
        ..bow.clone()
    };
    let right = folder_of(&similar());
    let left = folder_of(&similar().iter().map(mirrored).collect::<Vec<_>>());
    let (r, l) = (Bow::new(99, 0.0), mirrored(&Bow::new(99, 0.0)));
    let own = taught(right.path(), &r.card()).unwrap();
    // The rest moves the tear alike in both hands, whichever hand was tuned.
    for (folder, card) in [(&left, &r), (&right, &l), (&left, &l)] {
        let found = taught(folder.path(), &card.card()).unwrap();
        assert_eq!(found.gains, own.gains);
    }
    // A spring's side turns round with the hand.
    let spring = |n: usize, slope: f64| Bow {
        card: RECURVE,
        kind: AdjusterKind::PlungerTension,
        ..Bow::new(n, slope)
    };
    let springs: Vec<Bow> = (0..5).map(|n| spring(n, 5.0 + 0.5 * n as f64)).collect();
    let folder = folder_of(&springs);
    let mean = |hand| {
        let bow = Bow {
            hand,
            ..spring(99, 0.0)
        };
        let found = taught(folder.path(), &bow.card()).unwrap();
        found.gain(AdjusterKind::PlungerTension, None).unwrap().mean
    };
    assert!(mean("right") > 3.0 && (mean("right") + mean("left")).abs() < 1e-9);
}

#[test]
fn a_bow_counts_once_however_many_sessions_it_has_and_its_own_weigh_most() {
    let mut bows: Vec<Bow> = (0..8).map(|_| Bow::new(7, 3.0)).collect();
    bows.extend((0..3).map(|n| Bow::new(n, -2.0 - 0.3 * n as f64)));
    let folder = folder_of(&bows);
    let stranger = taught(folder.path(), &Bow::new(99, 0.0).card()).unwrap();
    assert_eq!((stranger.bows, stranger.sessions, stranger.own), (4, 11, 0));
    assert!(rest(&stranger).mean < 0.0, "{stranger:?}");
    let own = taught(folder.path(), &Bow::new(7, 0.0).card()).unwrap();
    assert_eq!((own.bows, own.sessions, own.own), (4, 11, 8));
    assert!((rest(&own).mean - 3.0).abs() < 0.7, "{own:?}");
    // A namesake of another owner is another bow.
    let namesake = Bow {
        owner: "Oakley",
        ..Bow::new(7, 0.0)
    };
    assert_eq!(taught(folder.path(), &namesake.card()).unwrap().own, 0);
}

#[test]
fn practice_sample_and_contact_sessions_teach_nothing() {
    let odd = |answers: &[(&'static str, &'static str)]| Bow {
        answers: answers.to_vec(),
        ..Bow::new(50, 9.0)
    };
    for answers in [
        &[PRACTICE_ANSWER][..],
        &[("contact", "rest")],
        &[("contact", "none"), ("contact", "other")],
    ] {
        let folder = folder_of(&[odd(answers)]);
        assert_eq!(
            taught(folder.path(), &Bow::new(99, 0.0).card()),
            None,
            "{answers:?}"
        );
    }
    assert!(
        taught(
            folder_of(&[odd(&[("contact", "none")])]).path(),
            &Bow::new(99, 0.0).card()
        )
        .is_some()
    );
    let folder = Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/sample-sessions"));
    let samples = Lessons::of(folder, None, &how(None)).unwrap();
    assert_eq!(samples.read, (9, 9));
    assert!(
        samples.all.is_empty() && samples.skipped.is_empty(),
        "{:?}",
        samples.skipped
    );
}

const PRACTICE_ANSWER: (&str, &str) = ("practice", "virtual");

#[test]
fn a_chain_of_sessions_does_not_sharpen_itself() {
    let folder = folder_of(&similar());
    let card = Bow::new(99, 0.0);
    let learned = taught(folder.path(), &card.card()).unwrap();
    // The same shots, once told nothing and once told all of it.
    let lesson_of = |learned: Option<LearnedRecord>| {
        let mut session = Session::from_text(&card.text().to_toml()).unwrap();
        crate::advice::prior::begin(&mut session, learned).unwrap();
        for event in Bow::new(99, -4.0).events() {
            session.record(event).unwrap();
        }
        lesson::of(&session).unwrap()
    };
    assert_eq!(lesson_of(None), lesson_of(Some(learned)));
}

#[test]
fn what_was_read_is_kept_and_a_changed_file_is_read_again() {
    let folder = folder_of(&similar()[..3]);
    let state = tempfile::tempdir().unwrap();
    let cache = state.path().join("a").join("lessons.json");
    let card = Bow::new(99, 0.0).card();
    let look = |patience| {
        let how = How {
            cache: Some(cache.clone()),
            patience,
        };
        let lessons = Lessons::of(folder.path(), None, &how).unwrap();
        (lessons.read, lessons.for_card(&card))
    };
    let none = Duration::ZERO;
    assert_eq!(look(none).0, (0, 3), "no time and nothing kept");
    let first = look(PATIENCE);
    assert_eq!(first.0, (3, 3));
    assert_eq!(look(none), first, "all of it was kept");
    // A session that goes on is read again; the others are not.
    let path = folder.path().join("session-1.toml");
    let mut session = Session::open_for_writing(&path, "test", Duration::ZERO).unwrap();
    session
        .record(Event::Shot(Shot {
            right: 30.0,
            ..Shot::default()
        }))
        .unwrap();
    drop(session);
    let part = look(none);
    assert_eq!(part.0, (2, 3));
    assert_eq!(part.1.unwrap().read, Some([2, 3]));
    let again = look(PATIENCE);
    assert_eq!(again.0, (3, 3));
    assert_ne!(again.1, first.1);
    // Whatever stands there instead, or nothing: it is made anew.
    for text in ["", "{", "{\"version\":1,\"files\":7}"] {
        std::fs::write(&cache, text).unwrap();
        assert_eq!(look(PATIENCE), again);
    }
    std::fs::remove_file(&cache).unwrap();
    assert_eq!(look(PATIENCE), again);
}

#[test]
fn no_name_is_written_anywhere() {
    let folder = folder_of(&similar());
    let state = tempfile::tempdir().unwrap();
    let cache = state.path().join("lessons.json");
    let lessons = Lessons::of(folder.path(), None, &how(Some(cache.clone()))).unwrap();
    let card = Bow::new(99, 0.0);
    let mut session = Session::from_text(&card.text().to_toml()).unwrap();
    crate::advice::prior::begin(&mut session, lessons.for_card(&card.card())).unwrap();
    let kept = std::fs::read_to_string(&cache).unwrap();
    let entries: String = session
        .entries()
        .iter()
        .map(crate::session::Entry::to_toml)
        .collect();
    assert!(
        entries.contains("learned = {") && kept.contains("bells"),
        "{entries}"
    );
    for text in [kept, entries] {
        for name in ["uillfeather", "bow number", "session-"] {
            assert!(!text.contains(name), "{name}: {text}");
        }
    }
}

#[test]
fn a_foreign_or_holed_file_is_left_out_with_a_word() {
    let folder = folder_of(&similar());
    let at = |name: &str| folder.path().join(name);
    std::fs::write(at("shopping.toml"), "[milk]\nlitres = 1\n").unwrap();
    std::fs::write(at("broken.toml"), "[bow]\nkind = \"zeppelin\"\n").unwrap();
    let text = std::fs::read_to_string(at("session-2.toml")).unwrap();
    std::fs::write(
        at("session-2.toml"),
        text.replacen("right = ", "right = x", 1),
    )
    .unwrap();
    let torn = std::fs::read_to_string(at("session-3.toml")).unwrap();
    std::fs::write(
        at("session-3.toml"),
        format!("{torn}\n[[entry]]\nkind = \"sh"),
    )
    .unwrap();
    let lessons = Lessons::of(folder.path(), None, &how(None)).unwrap();
    let found = lessons.for_card(&Bow::new(99, 0.0).card()).unwrap();
    assert_eq!(found.bows, 5, "all but the one with a hole in it");
    let mut said = lessons.skipped;
    said.sort();
    assert_eq!(said.len(), 2, "{said:?}");
    assert!(said[0].starts_with("broken.toml: left out of"), "{said:?}");
    assert!(
        said[1].starts_with("session-2.toml: left out of"),
        "{said:?}"
    );
    assert!(Lessons::of(Path::new("/nowhere/at/all"), None, &how(None)).is_err());
}

#[test]
fn an_owners_scatter_is_known_after_a_few_sittings_and_not_anothers() {
    let folder = folder_of(&similar());
    let known = |owner| {
        let bow = Bow {
            owner,
            ..Bow::new(99, 0.0)
        };
        taught(folder.path(), &bow.card()).unwrap().scatter
    };
    let found = known("Quillfeather").unwrap();
    assert!(
        (0.6..1.6).contains(&found.right) && found.repeats >= 20,
        "{found:?}"
    );
    assert_eq!(known("Oakley"), None);
}

#[test]
fn another_bow_release_or_rest_on_the_card_drops_what_was_learned() {
    let folder = folder_of(&similar());
    let card = Bow::new(99, 0.0);
    let learned = taught(folder.path(), &card.card());
    let after = |key: &str, value: &str| {
        let mut session = Session::from_text(&card.text().to_toml()).unwrap();
        crate::advice::prior::begin(&mut session, learned.clone()).unwrap();
        let set = [(key.to_owned(), value.to_owned())].into();
        session.record(Event::Card { set, taken: None }).unwrap();
        crate::advice::prior::refresh(&mut session).unwrap();
        session.timeline().learned.is_some()
    };
    for (key, value) in [
        ("bow.hand", "left"),
        ("bow.release", "fingers"),
        ("rest.kind", "blade"),
        ("bow.kind", "longbow"),
        ("paper.distance", "3 m"),
    ] {
        assert!(!after(key, value), "{key}");
    }
    for (key, value) in [
        ("arrow.point_mass", "100 gr"),
        ("bow.peak_weight", "61 lb"),
        ("paper.distance", "2.4 m"),
        ("bow.name", "another word"),
    ] {
        assert!(after(key, value), "{key}");
    }
}

#[test]
fn the_figures_of_a_hand_edited_record_cannot_shut_out_the_odd_bow() {
    let folder = folder_of(&similar());
    let card = Bow::new(99, 0.0);
    let mut learned = taught(folder.path(), &card.card()).unwrap();
    learned.gains[0].wide = 0.0;
    let mut session = Session::from_text(&card.text().to_toml()).unwrap();
    crate::advice::prior::begin(&mut session, Some(learned)).unwrap();
    let view = crate::advice::view::View::of(session.timeline());
    assert!(
        (view.prior.wide[0] - 1.0 / 8.0).abs() < 1e-12,
        "{:?}",
        view.prior.wide
    );
}
