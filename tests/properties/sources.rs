//! Every check of `tests/published` names its source on the line above it.

use std::fs;
use std::path::Path;

/// Tests that stand without a line `/// Source: ...` right above them.
fn without_source(text: &str) -> Vec<String> {
    let lines: Vec<&str> = text.lines().map(str::trim).collect();
    let mut found = Vec::new();
    for (i, line) in lines.iter().enumerate() {
        if *line != "#[test]" {
            continue;
        }
        let comment = lines[..i]
            .iter()
            .rev()
            .take_while(|l| l.starts_with("///"))
            .any(|l| l.strip_prefix("/// Source: ").is_some_and(|s| s.len() > 8));
        if !comment {
            found.push(lines[i + 1].to_owned());
        }
    }
    found
}

#[test]
fn every_published_check_names_its_source() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/published");
    let mut seen = 0;
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_none_or(|e| e != "rs") {
            continue;
        }
        let text = fs::read_to_string(&path).unwrap();
        seen += text.matches("#[test]").count();
        assert_eq!(without_source(&text), Vec::<String>::new(), "{path:?}");
    }
    assert!(seen > 40, "{seen} checks found");
}

#[test]
fn a_check_without_a_source_is_found() {
    let bare = "/// Something.\n#[test]\nfn bare() {}\n/// Source: a book, 1999, page 4.\n#[test]\nfn sourced() {}\n";
    assert_eq!(without_source(bare), ["fn bare() {}"]);
}
