//! Building a console, pressing keys by action name, and writing a screen
//! down with its styles.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};

use ratatui::Terminal;
use ratatui::backend::TestBackend;
use ratatui::buffer::{Buffer, Cell};
use tearbench::actions::{Action, Key, Keymap, Scope};
use tearbench::look::GlyphChoice;
use tearbench::look::Theme;
use tearbench::session::Session;
use tearbench::tui::hints::Hints;
use tearbench::tui::recent::Recent;
use tearbench::tui::{self, App, Look};
use tearbench::units::System;

/// A look for tests: nothing from the environment, nothing in the user's folders.
pub fn look() -> Look {
    Look {
        theme: Theme::coloured(),
        glyphs: GlyphChoice::Unicode.set(),
        keymap: Keymap::default(),
        thin: false,
        system: None,
        folder: PathBuf::from("."),
        recent: Recent::default(),
        hints: Hints::default(),
        bell: false,
    }
}

/// A console on the demo.
pub fn demo(look: Look) -> App {
    tui::demo(look).unwrap()
}

/// Names a new session: its card comes next.
pub fn name_new(app: &mut App, name: &str) {
    press(app, "new");
    type_text(app, name);
    app.press(Key::Enter);
}

/// A console in this folder, on the card of a new session.
pub fn new_card(folder: &Path, name: &str) -> App {
    let mut app = demo(Look {
        folder: folder.into(),
        ..look()
    });
    name_new(&mut app, name);
    app
}

/// A console on one of the sample sessions, in memory.
pub fn sample(name: &str, look: Look) -> App {
    with(name, look, tearbench::advice::analyse_after)
}

/// The session the pinned screens are drawn from: everything on them is what
/// the program found.
pub fn pinned(look: Look) -> App {
    sample("half-way", look)
}

fn with(name: &str, look: Look, analyser: tearbench::tui::model::Analyser) -> App {
    let path = format!("{}/sample-sessions/{name}.toml", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(path).unwrap();
    let session = Session::from_text(&text).unwrap();
    App::new(session, false, analyser, look)
}

/// Presses the first key of an action, as a user reading the key line would.
pub fn press(app: &mut App, action: &str) {
    let action = Action::from_id(action).unwrap_or_else(|| panic!("no action {action}"));
    let spec = action.spec();
    if app.scope() == Scope::Main && spec.scopes.first() == Some(&Scope::More) {
        app.press(Key::Char(' '));
    }
    // A new card is started from its last line.
    if spec.keys.is_empty() && action == Action::Start {
        app.press(Key::End);
        return app.press(Key::Enter);
    }
    app.press(spec.keys[0]);
}

/// Types text, a key a character.
pub fn type_text(app: &mut App, text: &str) {
    text.chars().for_each(|c| app.press(Key::Char(c)));
}

/// The screen as cells.
pub fn cells(app: &App, width: u16, height: u16) -> Buffer {
    let mut terminal = Terminal::new(TestBackend::new(width, height)).unwrap();
    terminal.draw(|frame| tui::frame::draw(app, frame)).unwrap();
    terminal.backend().buffer().clone()
}

/// The screen as lines of text.
pub fn lines(app: &App, width: u16, height: u16) -> Vec<String> {
    let buffer = cells(app, width, height);
    (0..height)
        .map(|y| (0..width).map(|x| buffer[(x, y)].symbol()).collect())
        .collect()
}

/// The screen as one text.
pub fn text(app: &App, width: u16, height: u16) -> String {
    lines(app, width, height).join("\n")
}

fn style_name(cell: &Cell) -> String {
    let mut parts = Vec::new();
    if cell.fg != ratatui::style::Color::Reset {
        parts.push(format!("{:?}", cell.fg).to_lowercase());
    }
    if cell.bg != ratatui::style::Color::Reset {
        parts.push(format!("on {:?}", cell.bg).to_lowercase());
    }
    if !cell.modifier.is_empty() {
        parts.push(format!("{:?}", cell.modifier).to_lowercase());
    }
    parts.join(" ")
}

/// The screen with the runs of style under each line that has any.
pub fn styled(app: &App, width: u16, height: u16) -> String {
    let buffer = cells(app, width, height);
    let mut out = String::new();
    for y in 0..height {
        let line: String = (0..width).map(|x| buffer[(x, y)].symbol()).collect();
        let _ = writeln!(out, "{}", line.trim_end());
        let mut runs: Vec<(u16, u16, String)> = Vec::new();
        for x in 0..width {
            let name = style_name(&buffer[(x, y)]);
            match runs.last_mut() {
                Some((_, end, last)) if *last == name && *end + 1 == x => *end = x,
                _ => runs.push((x, x, name)),
            }
        }
        let runs: Vec<String> = runs
            .iter()
            .filter(|(_, _, name)| !name.is_empty())
            .map(|(from, to, name)| format!("{from}-{to} {name}"))
            .collect();
        if !runs.is_empty() {
            let _ = writeln!(out, "    ~ {}", runs.join("; "));
        }
    }
    out
}

/// Compares with the snapshot of this name, in the top-level folder of snapshots.
pub fn snapshot(name: &str, screen: &str) {
    let mut settings = insta::Settings::clone_current();
    settings.set_snapshot_path(PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("snapshots"));
    settings.set_prepend_module_to_snapshot(false);
    settings.set_omit_expression(true);
    settings.bind(|| insta::assert_snapshot!(name, screen));
}

/// A look in a system, with or without colour.
pub fn look_with(system: System, theme: Theme) -> Look {
    Look {
        system: Some(system),
        theme,
        ..look()
    }
}
