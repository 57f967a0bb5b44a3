//! What the files of the console import of each other: what draws changes
//! nothing, and no ring of imports grows.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

/// The most files that may import each other in a ring.
const LARGEST_RING: usize = 4;
/// The folders whose files draw; nothing in them may know of the console
/// itself, which alone changes state.
const DRAWING: [&str; 3] = ["draw", "panes", "screens"];

/// A file of the console by its module path, `view::card`.
type Module = Vec<String>;

/// Every file under `src/tui` with what stands in it, without comments, texts
/// and tests.
fn sources() -> BTreeMap<Module, String> {
    fn walk(folder: &Path, at: &Module, found: &mut BTreeMap<Module, String>) {
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            let stem = path.file_stem().unwrap().to_string_lossy().into_owned();
            let mut module = at.clone();
            if path.is_dir() {
                module.push(stem);
                walk(&path, &module, found);
            } else if path.extension().is_some_and(|e| e == "rs") {
                if stem != "mod" {
                    module.push(stem);
                }
                let text = std::fs::read_to_string(&path).unwrap();
                found.insert(module, code(&text));
            }
        }
    }
    let mut found = BTreeMap::new();
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/tui");
    walk(&folder, &Module::new(), &mut found);
    found
}

/// A source without its tests, comments and texts.
fn code(text: &str) -> String {
    let text = text.split("#[cfg(test)]").next().unwrap_or_default();
    let mut out = String::new();
    for line in text.lines() {
        let mut in_text = false;
        let mut chars = line.chars().peekable();
        while let Some(c) = chars.next() {
            match c {
                '\\' if in_text => drop(chars.next()),
                '"' => in_text = !in_text,
                '/' if !in_text && chars.peek() == Some(&'/') => break,
                _ if !in_text => out.push(c),
                _ => {}
            }
        }
        out.push('\n');
    }
    // How far a name can be seen is no import.
    out.replace("pub(in crate::tui)", "pub")
}

/// What a `use` names, its braces written out: `super::list`, `crate::tui::model::Model`.
fn written_out(tree: &str, before: &[String], found: &mut Vec<Vec<String>>) {
    let tree = tree.trim();
    if let Some((head, inner)) = tree.split_once('{') {
        let head = head.split("::").map(str::trim).filter(|s| !s.is_empty());
        let before: Vec<String> = before
            .iter()
            .cloned()
            .chain(head.map(str::to_owned))
            .collect();
        let inner = &inner[..inner.rfind('}').unwrap_or(inner.len())];
        let (mut depth, mut from) = (0, 0);
        for (i, c) in inner.char_indices() {
            match c {
                '{' => depth += 1,
                '}' => depth -= 1,
                ',' if depth == 0 => {
                    written_out(&inner[from..i], &before, found);
                    from = i + 1;
                }
                _ => {}
            }
        }
        return written_out(&inner[from..], &before, found);
    }
    let name = tree.split(" as ").next().unwrap_or_default();
    let own = name
        .split("::")
        .map(str::trim)
        .filter(|s| !s.is_empty() && *s != "self");
    let path: Vec<String> = before
        .iter()
        .cloned()
        .chain(own.map(str::to_owned))
        .collect();
    if !path.is_empty() {
        found.push(path);
    }
}

/// Every path a source names.
struct Paths {
    /// Those it imports, with whether it passes them on.
    imports: Vec<(Module, bool)>,
    /// Those written out where they are used.
    named: Vec<Module>,
}

fn paths(code: &str) -> Paths {
    let (mut imports, mut rest) = (Vec::new(), String::new());
    for statement in code.split_inclusive([';', '}']) {
        let found = statement.split_once("use ").filter(|(before, _)| {
            let last = before.lines().last().unwrap_or_default().trim();
            last.is_empty() || last.starts_with("pub")
        });
        let Some((before, _)) = found else {
            rest.push_str(statement);
            continue;
        };
        rest.push_str(before);
        // Braces end a piece too: the whole statement is taken from the source.
        let at = statement.as_ptr() as usize - code.as_ptr() as usize + before.len() + 4;
        let tree = code[at..].split(';').next().unwrap_or_default();
        let mut all = Vec::new();
        written_out(tree, &[], &mut all);
        let passed = before.lines().last().unwrap_or_default().contains("pub");
        imports.extend(all.into_iter().map(|path| (path, passed)));
    }
    let word = |c: char| !c.is_alphanumeric() && c != '_' && c != ':';
    let named = rest
        .split(word)
        .filter(|w| w.contains("::"))
        .map(|w| w.split("::").map(str::to_owned).collect());
    Paths {
        imports,
        named: named.collect(),
    }
}

/// Which files each file imports.
fn graph(sources: &BTreeMap<Module, String>) -> BTreeMap<String, BTreeSet<String>> {
    let read: BTreeMap<&Module, _> = sources.iter().map(|(m, code)| (m, paths(code))).collect();
    let absolute = |at: &Module, path: &[String]| -> Option<Module> {
        let supers = path.iter().take_while(|s| *s == "super").count();
        match path.first().map(String::as_str) {
            Some("crate") => (path.get(1).is_some_and(|s| s == "tui")).then(|| path[2..].to_vec()),
            Some("super") if supers <= at.len() => {
                Some([&at[..at.len() - supers], &path[supers..]].concat())
            }
            Some("self") => Some([at, &path[1..]].concat()),
            Some(first) if sources.contains_key(&[at.as_slice(), &[first.to_owned()]].concat()) => {
                Some([at, path].concat())
            }
            _ => None,
        }
    };
    // The file a path ends in; what a file only passes on is followed.
    let ends_in = |path: Module| -> Option<Module> {
        let mut path = path;
        for _ in 0..5 {
            let known = (0..=path.len())
                .rev()
                .find(|n| sources.contains_key(&path[..*n]))?;
            let (file, rest) = (path[..known].to_vec(), path[known..].to_vec());
            let passed = rest.first().and_then(|name| {
                let mut all = read[&file].imports.iter();
                all.find(|(p, passed)| *passed && p.last() == Some(name))
            });
            let Some((on, _)) = passed else {
                return Some(file);
            };
            path = [absolute(&file, on)?, rest[1..].to_vec()].concat();
        }
        None
    };
    let mut graph = BTreeMap::new();
    for (module, Paths { imports, named }) in &read {
        let local = |path: &[String]| -> Option<Module> {
            absolute(module, path).or_else(|| {
                let import = imports.iter().find(|(p, _)| p.last() == path.first())?;
                Some([absolute(module, &import.0)?, path[1..].to_vec()].concat())
            })
        };
        let all = imports.iter().map(|(p, _)| p).chain(named);
        let targets = all.filter_map(|path| ends_in(local(path)?));
        let targets = targets.filter(|t| t != *module).map(|t| t.join("::"));
        graph.insert(module.join("::"), targets.collect());
    }
    graph
}

/// The files that reach each other, largest ring first.
fn rings(graph: &BTreeMap<String, BTreeSet<String>>) -> Vec<BTreeSet<String>> {
    let reached = |from: &String| -> BTreeSet<String> {
        let (mut seen, mut next) = (BTreeSet::new(), vec![from.clone()]);
        while let Some(file) = next.pop() {
            for to in graph.get(&file).into_iter().flatten() {
                if seen.insert(to.clone()) {
                    next.push(to.clone());
                }
            }
        }
        seen
    };
    let all: BTreeMap<&String, BTreeSet<String>> = graph.keys().map(|f| (f, reached(f))).collect();
    let ring = |file: &String| -> BTreeSet<String> {
        let both = all[file]
            .iter()
            .filter(|to| all.get(*to).is_some_and(|r| r.contains(file)));
        both.cloned().collect()
    };
    let found: BTreeSet<BTreeSet<String>> =
        graph.keys().map(ring).filter(|r| r.len() > 1).collect();
    let mut found: Vec<_> = found.into_iter().collect();
    found.sort_by_key(|ring| std::cmp::Reverse(ring.len()));
    found
}

fn made_up(files: &[(&str, &str)]) -> BTreeMap<String, BTreeSet<String>> {
    let module = |name: &str| -> Module {
        name.split("::")
            .filter(|s| !s.is_empty())
            .map(str::to_owned)
            .collect()
    };
    graph(
        &files
            .iter()
            .map(|(name, text)| (module(name), code(text)))
            .collect(),
    )
}

#[test]
fn no_ring_of_imports_is_larger_than_a_screen_and_its_parts() {
    let graph = graph(&sources());
    assert!(graph.len() > 60, "the files of the console are not found");
    assert!(graph["plain"].contains("model") || graph["plain"].contains("prompt"));
    let rings = rings(&graph);
    let large: Vec<_> = rings.iter().filter(|r| r.len() > LARGEST_RING).collect();
    assert!(large.is_empty(), "rings of imports: {large:#?}");
}

#[test]
fn a_ring_is_found_whichever_way_it_is_written() {
    let graph = made_up(&[
        ("", "pub use kept::Kept;\nmod kept;"),
        (
            "kept",
            "use super::view::{self, list::{draw, Row as Line}};",
        ),
        ("view", "mod list;"),
        (
            "view::list",
            "fn f() { super::panes::draw(\"crate::tui::away\") }",
        ),
        ("view::panes", "use crate::tui::Kept; // crate::tui::away"),
        ("away", "#[cfg(test)]\nmod tests { use super::kept; }"),
    ]);
    let found = rings(&graph);
    let names = ["kept", "view::list", "view::panes"].map(str::to_owned);
    assert_eq!(found, [BTreeSet::from(names)], "{graph:#?}");
}

/// Whether code names the console itself.
fn knows_the_console(code: &str) -> bool {
    let word = |c: char| !c.is_alphanumeric() && c != '_';
    code.split(word).any(|w| w == "App")
}

#[test]
fn what_draws_does_not_know_of_the_console_that_changes_state() {
    let sources = sources();
    let drawing = |module: &Module| DRAWING.contains(&module.first().map_or("", String::as_str));
    let all: Vec<_> = sources.iter().filter(|(m, _)| drawing(m)).collect();
    assert!(all.len() > 30, "the drawing folders are not found");
    let known = all.iter().filter(|(_, code)| knows_the_console(code));
    let known: Vec<String> = known.map(|(m, _)| m.join("::")).collect();
    assert!(known.is_empty(), "they name the console itself: {known:?}");
    // The same look finds it where it is.
    assert!(knows_the_console(
        &sources[&["app".to_owned(), "perform".to_owned()][..]]
    ));
    assert!(knows_the_console(&code(
        "fn act(&mut self, app: &mut App) {}"
    )));
    assert!(!knows_the_console(&code(
        "fn act(&self) {} // as the App does"
    )));
}
