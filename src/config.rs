//! The user's own settings: `tearbench/config.toml` in the XDG configuration
//! folder. It overrides only what it names; what is in it and not known, or
//! twice, or in the way of something else, is refused by name and line.

use std::fmt::{self, Write as _};
use std::path::{Path, PathBuf};

use etcetera::{BaseStrategy as _, choose_base_strategy};
use toml::de::{DeTable, DeValue};

use crate::actions::{ACTIONS, Action, Key, Keymap};
use crate::look::{ColourChoice, GlyphChoice, Palette, Scheme};
use crate::session::files;
use crate::units::{System, clean};

/// A file longer than this is no configuration, bytes.
const LARGEST: u64 = 256 * 1024;

/// What can be set.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Config {
    /// Display system, where it is not the card's.
    pub system: Option<System>,
    /// Colours.
    pub colour: ColourChoice,
    /// Which colours.
    pub palette: Palette,
    /// Where the colours come from.
    pub scheme: Scheme,
    /// Characters.
    pub glyphs: GlyphChoice,
    /// Fewer redraws and no faint history, for a slow line.
    pub thin: bool,
    /// Hints that go away as they are used.
    pub hints: bool,
    /// One bell when a job comes within tolerance.
    pub bell: bool,
    /// Keys.
    pub keymap: Keymap,
    /// What the file names and this program does not have, or no longer: left
    /// out, and said.
    pub(crate) left_out: Vec<ConfigProblem>,
}

impl Default for Config {
    fn default() -> Self {
        Self {
            system: None,
            colour: ColourChoice::default(),
            palette: Palette::default(),
            scheme: Scheme::default(),
            glyphs: GlyphChoice::default(),
            thin: false,
            hints: true,
            bell: false,
            keymap: Keymap::default(),
            left_out: Vec::new(),
        }
    }
}

/// What is wrong with the file, where, and what would be right.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ConfigProblem {
    /// Line, from 1, where known.
    pub line: Option<usize>,
    /// Such as `keys.undo`; empty for a syntax error.
    pub(crate) field: String,
    /// In words.
    pub(crate) message: String,
}

impl fmt::Display for ConfigProblem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if !self.field.is_empty() {
            write!(f, "{}: ", clean(&self.field))?;
        }
        f.write_str(&self.message)
    }
}

/// A choice: its words and what it is.
type Words<T> = [(&'static str, T)];

const SYSTEMS: &Words<Option<System>> = &[
    ("card", None),
    ("mm", Some(System::Mm)),
    ("inch", Some(System::Inch)),
];
const COLOURS: &Words<ColourChoice> = &[
    ("auto", ColourChoice::Auto),
    ("always", ColourChoice::Always),
    ("never", ColourChoice::Never),
];
const PALETTES: &Words<Palette> = &[("default", Palette::Default), ("safe", Palette::Safe)];
const GLYPHS: &Words<GlyphChoice> = &[
    ("auto", GlyphChoice::Auto),
    ("unicode", GlyphChoice::Unicode),
    ("dots", GlyphChoice::Dot),
    ("ascii", GlyphChoice::Ascii),
];
const DISPLAY: &str = "system, look, colour, palette, draw, thin, hints, bell";

/// Reads one file's text, gathering problems.
struct Reader<'a> {
    source: &'a str,
    problems: Vec<ConfigProblem>,
}

impl Reader<'_> {
    fn problem(&self, at: usize, field: &str, message: impl Into<String>) -> ConfigProblem {
        ConfigProblem {
            line: Some(line_of(self.source, at)),
            field: field.into(),
            message: message.into(),
        }
    }

    fn refuse(&mut self, at: usize, field: &str, message: impl Into<String>) {
        let problem = self.problem(at, field, message);
        self.problems.push(problem);
    }

    fn word<T: Copy>(
        &mut self,
        at: usize,
        field: &str,
        value: &DeValue<'_>,
        words: &Words<T>,
    ) -> Option<T> {
        let text = value.as_str().unwrap_or_default();
        let found = words.iter().find(|(word, _)| *word == text);
        if found.is_none() {
            let known: Vec<String> = words.iter().map(|(w, _)| format!("\"{w}\"")).collect();
            self.refuse(at, field, format!("must be one of {}", known.join(", ")));
        }
        found.map(|(_, value)| *value)
    }

    fn flag(&mut self, at: usize, field: &str, value: &DeValue<'_>) -> Option<bool> {
        let flag = value.as_bool();
        if flag.is_none() {
            self.refuse(at, field, "must be true or false");
        }
        flag
    }

    fn display(&mut self, table: &DeTable<'_>, config: &mut Config) {
        for (key, value) in table {
            let (at, value) = (key.span().start, value.get_ref());
            let name = key.get_ref().as_ref();
            let field = format!("display.{name}");
            match name {
                "system" => set(&mut config.system, self.word(at, &field, value, SYSTEMS)),
                "look" => set(
                    &mut config.scheme,
                    self.word(at, &field, value, &Scheme::ALL),
                ),
                "colour" => set(&mut config.colour, self.word(at, &field, value, COLOURS)),
                "palette" => set(&mut config.palette, self.word(at, &field, value, PALETTES)),
                "draw" => set(&mut config.glyphs, self.word(at, &field, value, GLYPHS)),
                "thin" => set(&mut config.thin, self.flag(at, &field, value)),
                "hints" => set(&mut config.hints, self.flag(at, &field, value)),
                "bell" => set(&mut config.bell, self.flag(at, &field, value)),
                _ => {
                    let text = format!("no such setting; display has {DISPLAY}");
                    let said = self.problem(at, &field, text);
                    config.left_out.push(said);
                }
            }
        }
    }

    fn keys(&mut self, table: &DeTable<'_>, config: &mut Config) {
        let mut named: Vec<(Action, usize)> = Vec::new();
        for (key, value) in table {
            let at = key.span().start;
            let field = format!("keys.{}", key.get_ref());
            let Some(action) = Action::from_id(key.get_ref()) else {
                let hint = nearest(key.get_ref());
                let text = format!("there is no such action; {hint}");
                config.left_out.push(self.problem(at, &field, text));
                continue;
            };
            if let Some(keys) = self.key_list(at, &field, action, value.get_ref()) {
                config.keymap.set(action, keys);
                named.push((action, at));
            }
        }
        while let Some(clash) = config.keymap.clash() {
            // The one that was named last in the file is the one to change.
            let both: Vec<_> = named
                .iter()
                .filter(|(action, _)| clash.actions.contains(action))
                .collect();
            let Some((action, at)) = both.iter().max_by_key(|(_, at)| *at) else {
                break;
            };
            let field = format!("keys.{}", action.spec().id);
            let text = format!("{clash}; give one of them another key");
            if both.len() > 1 {
                self.refuse(*at, &field, text);
                break;
            }
            // A key that another action has come to have since.
            config.left_out.push(self.problem(*at, &field, text));
            config.keymap.unset(*action);
        }
    }

    fn key_list(
        &mut self,
        at: usize,
        field: &str,
        action: Action,
        value: &DeValue<'_>,
    ) -> Option<Vec<Key>> {
        let texts: Option<Vec<&str>> = match value {
            DeValue::String(one) => Some(vec![one.as_ref()]),
            DeValue::Array(all) => all.iter().map(|v| v.get_ref().as_str()).collect(),
            _ => None,
        };
        let Some(texts) = texts else {
            self.refuse(
                at,
                field,
                "write the keys in quotes, such as [\"s\", \"Enter\"]",
            );
            return None;
        };
        let mut keys = Vec::new();
        for text in texts {
            match key_of(text) {
                Ok(key) if keys.contains(&key) => {
                    self.refuse(at, field, format!("names key {} twice", key.label()));
                }
                Ok(key) => keys.push(key),
                Err(problem) => self.refuse(at, field, problem),
            }
        }
        if keys.is_empty() && !by_name(action) {
            self.refuse(at, field, "needs a key: it cannot be reached by name");
        }
        Some(keys)
    }
}

fn set<T>(place: &mut T, value: Option<T>) {
    if let Some(value) = value {
        *place = value;
    }
}

/// Whether it is reached without a key: by the list of actions, as what is
/// used on the panes and is not the list itself, or by a line of the card.
fn by_name(action: Action) -> bool {
    action == Action::Start || action != Action::Palette && action.on_panes()
}

fn key_of(text: &str) -> Result<Key, String> {
    match Key::from_label(text) {
        Some(Key::Char('0'..='9')) => {
            Err(format!("key {text} cannot be used: a digit starts a tear"))
        }
        Some(Key::Char(c)) if c.is_uppercase() => Err(format!(
            "a capital is the same key; write \"{}\"",
            c.to_lowercase()
        )),
        Some(Key::Char(c)) if c != ' ' && (c.is_control() || c.is_whitespace()) => {
            Err("that key cannot be used; letters and signs can".into())
        }
        Some(key) => Ok(key),
        None => Err(format!(
            "there is no key '{}'; a letter or sign, or left, right, up, down, Enter, Esc, Tab, Backspace, Del, Home, End, PgUp, PgDn",
            clean(text)
        )),
    }
}

fn nearest(name: &str) -> String {
    let near = ACTIONS
        .iter()
        .find(|s| s.id.contains(name) || name.contains(s.id) || s.label == name);
    match near {
        Some(spec) if !name.is_empty() => format!("did you mean {}?", spec.id),
        _ => "tearbench print config lists them".into(),
    }
}

fn line_of(source: &str, at: usize) -> usize {
    let before = &source.as_bytes()[..at.min(source.len())];
    before.iter().filter(|b| **b == b'\n').count() + 1
}

impl Config {
    /// Reads a configuration file's text.
    ///
    /// # Errors
    /// Every problem found: syntax, a name twice, an unknown name, a wrong
    /// value, two actions on one key.
    pub fn from_toml(source: &str) -> Result<Self, Vec<ConfigProblem>> {
        let table = DeTable::parse(source).map_err(|error| {
            let first = error.message().lines().next().unwrap_or("cannot be read");
            vec![ConfigProblem {
                line: error.span().map(|span| line_of(source, span.start)),
                field: String::new(),
                message: syntax(source, error.span(), first),
            }]
        })?;
        let mut config = Self::default();
        let mut reader = Reader {
            source,
            problems: Vec::new(),
        };
        for (key, value) in table.get_ref() {
            let at = key.span().start;
            match (key.get_ref().as_ref(), value.get_ref()) {
                ("display", DeValue::Table(table)) => reader.display(table, &mut config),
                ("keys", DeValue::Table(table)) => reader.keys(table, &mut config),
                (other, _) => {
                    reader.refuse(at, other, "no such section; there are [display] and [keys]");
                }
            }
        }
        reader.problems.sort_by_key(|p| p.line);
        config.left_out.sort_by_key(|p| p.line);
        if reader.problems.is_empty() {
            Ok(config)
        } else {
            Err(reader.problems)
        }
    }

    /// What was left out of the user's file, a line each.
    pub fn warnings(&self) -> Vec<String> {
        let file = path().map_or_else(String::new, |p| clean(&p.display().to_string()));
        let said = |p: &ConfigProblem| {
            let line = p.line.map_or(String::new(), |line| line.to_string());
            format!("{file}:{line}: {p}; left out")
        };
        self.left_out.iter().map(said).collect()
    }

    /// Reads the user's file, or the defaults where there is none.
    ///
    /// # Errors
    /// In words, a line a problem, each naming file, line and setting.
    pub(crate) fn of_user() -> Result<Self, String> {
        path().map_or_else(|| Ok(Self::default()), |path| Self::read(&path))
    }

    /// Reads a file, or the defaults where it is not there.
    ///
    /// # Errors
    /// As [`Self::of_user`].
    pub fn read(path: &Path) -> Result<Self, String> {
        let name = clean(&path.display().to_string());
        if files::is_absent(path) {
            return Ok(Self::default());
        }
        let text = files::read_text(path, LARGEST).map_err(|e| format!("{name}: {e}"))?;
        Self::from_toml(&text).map_err(|problems| {
            let lines: Vec<String> = problems
                .iter()
                .map(|p| match p.line {
                    Some(line) => format!("{name}:{line}: {p}"),
                    None => format!("{name}: {p}"),
                })
                .collect();
            lines.join("\n")
        })
    }
}

/// A syntax error in words; a name that stands there twice is named.
fn syntax(source: &str, span: Option<std::ops::Range<usize>>, message: &str) -> String {
    let named = span.and_then(|s| source.get(s)).unwrap_or_default().trim();
    if message.contains("duplicate") && !named.is_empty() {
        return format!("{} stands here twice", clean(named));
    }
    format!("TOML: {}", clean(message))
}

/// Where the user's file is looked for.
pub fn path() -> Option<PathBuf> {
    let folders = choose_base_strategy().ok()?;
    Some(folders.config_dir().join("tearbench").join("config.toml"))
}

/// A commented file that says what holds without one.
pub fn sample() -> String {
    let mut out = String::from(
        "# Settings of tearbench; this file sets everything as it is without one.\n\
         # Keep only the lines you change. It is read from tearbench/config.toml in\n\
         # the folder XDG_CONFIG_HOME, which is ~/.config where that is not set.\n\
         \n\
         [display]\n\
         system = \"card\"        # card, mm, inch: what tears and moves are shown in\n\
         look = \"terminal\"      # terminal, dark, light, contrast, mono; see tearbench print look\n\
         colour = \"auto\"        # auto, always, never; auto minds NO_COLOR\n\
         palette = \"default\"    # default, safe: told apart by colour-blind people\n\
         draw = \"auto\"          # auto (by the locale), unicode, dots, ascii\n\
         thin = false           # fewer redraws, no faint history: for a slow line\n\
         hints = true           # short hints that go away as they are used\n\
         bell = false           # one bell when a job comes within tolerance\n\
         \n\
         # Keys of each action: letters and signs, or left, right, up, down, Enter, Esc,\n\
         # Tab, Backspace, Del, Home, End, PgUp, PgDn. With [] it is reached by name.\n\
         # Digits start a tear and are not given away.\n\
         [keys]\n",
    );
    for spec in ACTIONS {
        let keys: Vec<String> = spec
            .keys
            .iter()
            .map(|k| format!("\"{}\"", k.label()))
            .collect();
        let line = format!("{} = [{}]", spec.id, keys.join(", "));
        let _ = writeln!(out, "{line:<30} # {}", spec.doc);
    }
    out
}

#[cfg(test)]
#[path = "config_tests.rs"]
mod tests;
