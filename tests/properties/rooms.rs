//! The rooms that reckon take nothing from the room that says it, and hold no
//! text for people themselves.

use std::fs;
use std::path::{Path, PathBuf};

/// The rooms that read what people typed, and say in their errors what would be
/// right.
const READ: [&str; 3] = ["units", "tear.rs", "gear"];

/// The rooms that find facts for people to read; what they find is said in
/// `words/`. With those that read they are all that stands above `words/` in the
/// map of DEVELOPERS.md.
const FIND: [&str; 13] = [
    "stats",
    "physics",
    "question",
    "session",
    "belief",
    "tuner",
    "checks",
    "cautions.rs",
    "advice",
    "bench_plan.rs",
    "job",
    "job.rs",
    "practice",
];

/// The lines of a file, without comments and without its tests, that name
/// `words`.
fn says_itself(text: &str) -> Vec<&str> {
    let code = text.split("#[cfg(test)]").next().unwrap_or(text);
    let lines = code.lines().map(str::trim);
    lines
        .filter(|l| !l.starts_with("//") && l.contains("crate::words"))
        .collect()
}

fn files(at: &Path) -> Vec<PathBuf> {
    if at.is_file() {
        return vec![at.to_owned()];
    }
    let entries = fs::read_dir(at).unwrap();
    entries
        .flat_map(|e| files(&e.unwrap().path()))
        .filter(|p| {
            let name = p.file_name().unwrap().to_string_lossy().into_owned();
            name.ends_with(".rs") && !name.contains("tests")
        })
        .collect()
}

#[test]
fn no_room_above_words_takes_a_sentence_from_it() {
    let source = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut seen = 0;
    for room in READ.iter().chain(&FIND) {
        for file in files(&source.join(room)) {
            let text = fs::read_to_string(&file).unwrap();
            assert_eq!(says_itself(&text), Vec::<&str>::new(), "{file:?}");
            seen += 1;
        }
    }
    assert!(seen > 100, "{seen} files looked at");
}

#[test]
fn a_room_that_makes_a_sentence_is_found() {
    let text = "//! Said in [`crate::words`].\nuse crate::words;\n#[cfg(test)]\nmod tests {\n use crate::words;\n}";
    assert_eq!(says_itself(text), ["use crate::words;"]);
}

/// The rooms that show what was found. A label of a few words stands where it
/// is drawn; a sentence does not.
const SHOW: [&str; 1] = ["tui"];

/// Words from which on a text is one for people in the rooms that find, and a
/// sentence in those that show.
const FINDS: usize = 3;
const SHOWS: usize = 6;

/// How many such texts may stand in which file, and why. None may come to it,
/// and none that goes may stay here.
const MAY_STAND: [(&str, usize); 14] = [
    // The words that a put-back is recorded under in the file.
    ("job/trouble/mod.rs", 1),
    // What the invented customers wrote on their cards.
    ("practice/cards.rs", 12),
    // The first line of the file of counts, and the line that ends a card.
    ("practice/standing.rs", 1),
    ("session/journal/grammar.rs", 1),
    // What a disk does not do for us is told as an error of the operating
    // system's own kind, which holds text and no type of ours.
    ("session/disk.rs", 1),
    ("session/files.rs", 13),
    ("session/lock.rs", 7),
    ("session/record.rs", 2),
    ("session/store.rs", 1),
    // What is wrong inside an entry stands beside what the reader of TOML
    // says of it, and is read into the damage as such a text.
    ("session/entry/wire.rs", 8),
    // A problem of the card is a text, as `gear/` makes them.
    ("session/mending.rs", 1),
    // The drawings of what is measured, in characters.
    ("tui/screens/card/drawing.rs", 1),
    // The title of its page.
    ("tui/screens/distances.rs", 1),
    // What was being done when the terminal failed.
    ("tui/mod.rs", 1),
];

/// The string literals of a file, without comments and tests, each with its
/// line. Backslashes that continue a line are taken out.
fn literals(text: &str) -> Vec<(usize, String)> {
    let code = text.split("#[cfg(test)]\nmod tests").next().unwrap_or(text);
    let mut found = Vec::new();
    let mut chars = code.char_indices().peekable();
    let mut line = 1;
    while let Some((i, c)) = chars.next() {
        let rest = &code[i..];
        if c == '\n' {
            line += 1;
        } else if rest.starts_with("//") {
            while chars.peek().is_some_and(|(_, c)| *c != '\n') {
                chars.next();
            }
        } else if c == '\'' && (rest.starts_with("'\"'") || rest.starts_with("'\\\"'")) {
            while chars.next().is_some_and(|(_, c)| c != '"') {}
        } else if c == '"' {
            let (start, mut text) = (line, String::new());
            while let Some((_, c)) = chars.next() {
                match c {
                    '"' => break,
                    '\\' => match chars.next() {
                        Some((_, '\n')) => line += 1,
                        Some((_, escaped)) => text.push(escaped),
                        None => break,
                    },
                    c => {
                        line += usize::from(c == '\n');
                        text.push(c);
                    }
                }
            }
            // What a mistake of the program itself would say is for nobody.
            let statement = code[..i].rsplit([';', '{', '}']).next().unwrap_or("");
            let ours = ["expect(", "assert!(", "panic!("];
            if !ours.iter().any(|own| statement.contains(own)) {
                found.push((start, text));
            }
        }
    }
    found
}

/// Whether a text reads as one for people: so many words or more, two of them
/// plain lower-case ones.
fn is_for_people(text: &str, least: usize) -> bool {
    let has_letters = |w: &&str| w.contains(char::is_alphabetic);
    let words: Vec<&str> = text.split_whitespace().filter(has_letters).collect();
    let plain = |w: &&&str| {
        let word = w.trim_end_matches(['.', ',', ';', ':', '?']);
        word.len() > 1 && word.chars().all(|c| c.is_ascii_lowercase())
    };
    words.len() >= least && words.iter().filter(plain).count() >= 2
}

/// The texts for people of so many words that stand in a file: line and text.
fn texts(text: &str, least: usize) -> Vec<(usize, String)> {
    let all = literals(text).into_iter();
    all.filter(|(_, text)| is_for_people(text, least)).collect()
}

/// What stands in these rooms against what may; and how many files they have.
fn stands_wrongly(rooms: &[&str], least: usize) -> (Vec<String>, usize) {
    let source = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut wrong = Vec::new();
    let mut looked_at = 0;
    for file in rooms.iter().flat_map(|room| files(&source.join(room))) {
        let name = file.strip_prefix(&source).unwrap().display().to_string();
        if name.contains("/tests/") {
            continue;
        }
        looked_at += 1;
        let found = texts(&fs::read_to_string(&file).unwrap(), least);
        let may = MAY_STAND.iter().find(|(of, _)| name == *of);
        let may = may.map_or(0, |(_, most)| *most);
        if found.len() != may {
            wrong.push(format!("{name}: {} and not {may}: {found:#?}", found.len()));
        }
    }
    (wrong, looked_at)
}

#[test]
fn no_room_that_finds_facts_holds_a_text_for_people() {
    let (wrong, looked_at) = stands_wrongly(&FIND, FINDS);
    assert!(wrong.is_empty(), "said in words/?\n{}", wrong.join("\n"));
    assert!(looked_at > 150, "{looked_at} files looked at");
}

#[test]
fn no_room_that_shows_them_holds_a_sentence() {
    let (wrong, looked_at) = stands_wrongly(&SHOW, SHOWS);
    assert!(wrong.is_empty(), "said in words/?\n{}", wrong.join("\n"));
    assert!(looked_at > 80, "{looked_at} files looked at");
}

/// Every file that may hold texts is one that is looked at.
#[test]
fn what_may_stand_stands_in_a_room_that_is_looked_at() {
    for (name, _) in MAY_STAND {
        let own = |room: &&&str| name.starts_with(*room);
        assert!(FIND.iter().chain(&SHOW).any(|room| own(&room)), "{name}");
    }
}

#[test]
fn a_text_for_people_is_found_wherever_it_is_written() {
    let code = "fn f(c: char) {\n// \"not a text for people\"\nlet a = c == '\"';\nsay(\"Put it back \\\n    and look elsewhere.\");\nlet id = \"rest-left\";\nassert!(a, \"a mistake of our own\");\n}\n#[cfg(test)]\nmod tests {\n say(\"only said in a test\");\n}";
    let found = texts(code, FINDS);
    assert_eq!(found.len(), 1, "{found:?}");
    assert_eq!(found[0].0, 4);
    assert!(found[0].1.starts_with("Put it back"));
    assert_eq!(texts(code, SHOWS).len(), 1);
    assert_eq!(texts(code, SHOWS + 1).len(), 0);
    for (text, is) in [
        ("the tear goes left", true),
        ("no arrow is marked yet", true),
        ("dry fire", false),
        ("a {} b", false),
        ("format = 1", false),
    ] {
        assert_eq!(is_for_people(text, FINDS), is, "{text}");
    }
}
