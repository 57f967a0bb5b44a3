//! Stories of the work around the paper, told on the command line in the
//! words a technician types: the list before paper, troubleshooting, proof,
//! closing. Each `jobs/*.toml` is one.

use std::collections::BTreeMap;
use std::path::Path;
use std::process::Command;

use serde::Deserialize;
use tearbench::gear::CardText;

use super::{read, root};

/// A story: a card, then commands.
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
    /// Commands in order.
    step: Vec<Step>,
}

/// One command, and what it says.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Step {
    /// As typed, without `tearbench` and without the file: `before levels ok`.
    r#do: String,
    /// What is printed has each of these, one after another.
    #[serde(default)]
    says: Vec<String>,
    /// And none of these.
    #[serde(default)]
    never: Vec<String>,
    /// The exit code, 0 where it is not given.
    #[serde(default)]
    code: i32,
}

/// The words of a line; what stands between quotes is one.
fn words(line: &str) -> Vec<String> {
    let parts = line.split('"').enumerate();
    let words = parts.flat_map(|(i, part)| match i % 2 {
        1 => vec![part.to_owned()],
        _ => part.split_whitespace().map(Into::into).collect(),
    });
    words.collect()
}

fn flat(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn tell(path: &Path) {
    let name = path.file_name().unwrap().to_string_lossy().into_owned();
    let story: Story = toml::from_str(&read(path)).unwrap_or_else(|e| panic!("{name}: {e}"));
    assert!(!story.title.is_empty() && !story.step.is_empty(), "{name}");
    let folder = tempfile::tempdir().unwrap();
    let text = match &story.session {
        Some(file) => read(&root().join("sample-sessions").join(file)),
        None => {
            let card = story.card.as_deref().unwrap_or("compound");
            let source = read(&root().join(format!("tests/scenarios/cards/{card}.toml")));
            let mut text = CardText::from_toml(&source).unwrap();
            for (key, value) in &story.set {
                text.set(key, value)
                    .unwrap_or_else(|e| panic!("{name}: {e}"));
            }
            text.to_toml()
        }
    };
    std::fs::write(folder.path().join("bow.toml"), text).unwrap();
    for (i, step) in story.step.iter().enumerate() {
        let mut words = words(&step.r#do);
        words.insert(1, "bow.toml".into());
        let out = Command::new(env!("CARGO_BIN_EXE_tearbench"))
            .current_dir(folder.path())
            .env("XDG_STATE_HOME", folder.path())
            .env("XDG_CONFIG_HOME", folder.path())
            .args(&words)
            .output()
            .unwrap();
        let said = [out.stdout, out.stderr].map(|s| String::from_utf8_lossy(&s).into_owned());
        // Pages are wrapped: what is said counts, not where its lines end.
        let said = flat(&said.concat());
        let place = format!("{name}, step {} '{}':\n{said}", i + 1, step.r#do);
        assert_eq!(out.status.code(), Some(step.code), "{place}");
        let mut at = 0;
        for part in &step.says {
            let found = said[at..].find(&flat(part));
            at += found.unwrap_or_else(|| panic!("{place}\nno '{part}'")) + part.len();
        }
        for part in &step.never {
            assert!(!said.contains(&flat(part)), "{place}\n'{part}'");
        }
    }
}

#[test]
fn the_jobs_come_out_as_told() {
    let folder = root().join("tests/scenarios/jobs");
    let mut told = 0;
    for file in std::fs::read_dir(folder).unwrap() {
        let path = file.unwrap().path();
        if path.extension().is_some_and(|e| e == "toml") {
            tell(&path);
            told += 1;
        }
    }
    assert!(told >= 6, "{told}");
}

#[test]
fn what_stands_between_quotes_is_one_word() {
    assert_eq!(
        words("proof bare-shaft bare \"18 m\" \"3 left; spot\""),
        ["proof", "bare-shaft", "bare", "18 m", "3 left; spot"]
    );
}
