//! The table of actions in words: for the README, the manual page and
//! `print keys`.

#[cfg(test)]
use std::fmt::Write as _;

use super::{ACTIONS, Action, Keymap, Scope, Spec};

#[cfg(test)]
/// The keys a newcomer needs, in the order of a first tuning; the rest stand
/// behind `space`, `/` and `?`.
pub(crate) const FIRST_KEYS: [Action; 12] = [
    Action::Shot,
    Action::TakeMove,
    Action::AsShown,
    Action::OwnMove,
    Action::Answer,
    Action::Undo,
    Action::CallBad,
    Action::Card,
    Action::Letters,
    Action::More,
    Action::Palette,
    Action::Help,
];

#[cfg(test)]
/// The first keys as a Markdown table, for the README.
pub(crate) fn markdown() -> String {
    let mut out = String::from("| key | what it does |\n|---|---|\n");
    let map = Keymap::default();
    for action in FIRST_KEYS {
        let keys = map.keys(action).iter();
        let keys: Vec<String> = keys.map(|k| format!("`{}`", k.label())).collect();
        let _ = writeln!(out, "| {} | {} |", keys.join(" "), action.spec().doc);
    }
    out
}

/// One row of the whole table in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct KeyRow {
    /// What to press.
    pub keys: String,
    /// On which screens.
    pub place: String,
    /// What it does.
    pub doc: &'static str,
}

/// The whole table in words, for the manual page and `print keys`.
pub(crate) fn key_rows(map: &Keymap) -> Vec<KeyRow> {
    let row = |spec: &Spec| KeyRow {
        keys: what_to_press(map, spec),
        place: where_it_works(spec),
        doc: spec.doc,
    };
    ACTIONS.iter().map(row).collect()
}

fn what_to_press(map: &Keymap, spec: &Spec) -> String {
    match map.label(spec.action) {
        keys if keys.is_empty() && !spec.action.on_panes() => "its own line".to_owned(),
        keys if keys.is_empty() => format!("/ {}", spec.label),
        keys if spec.action.behind_more() => format!("{} {keys}", map.first(Action::More)),
        keys => keys,
    }
}

fn where_it_works(spec: &Spec) -> String {
    if spec.scopes.len() > 3 {
        let main = spec.scopes.contains(&Scope::Main);
        let place = if main {
            "everywhere"
        } else {
            "every other screen"
        };
        return place.to_owned();
    }
    let shown = |s: &Scope| match s {
        Scope::More => Scope::Main.title().to_lowercase(),
        other => other.title().to_lowercase(),
    };
    let names: Vec<String> = spec.scopes.iter().map(shown).collect();
    names.join("; ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_readme_shows_this_table() {
        assert_eq!(markdown().lines().count(), FIRST_KEYS.len() + 2);
        assert!(!markdown().contains("|  |"), "a first key has a key");
        assert_eq!(key_rows(&Keymap::default()).len(), ACTIONS.len());
        let readme = include_str!("../../README.md");
        assert!(
            readme.contains(&markdown()),
            "README.md must hold:\n{}",
            markdown()
        );
    }
}
