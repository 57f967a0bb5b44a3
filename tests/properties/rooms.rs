//! The rooms that reckon take nothing from the room that says it.

use std::fs;
use std::path::{Path, PathBuf};

/// The rooms that stand above `words/` in the map of DEVELOPERS.md.
const ABOVE: [&str; 16] = [
    "units",
    "tear.rs",
    "gear",
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
    for room in ABOVE {
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
