//! Sessions in this folder and recent ones elsewhere.
//!
//! ```text
//! +- Files ------------------------------+
//! | HERE                                 |
//! | > blue-bow.toml       2 Mar 10:02    |
//! | RECENT                               |
//! |   /home/ann/bows/recurve.toml        |
//! | OTHERWISE                            |
//! |   another file: type its name        |
//! |   a new session                      |
//! +--------------------------------------+
//! ```

use std::io::Read as _;
use std::path::{Path, PathBuf};

use ratatui::layout::Rect;

use super::list;
use super::paint::{Paint, fit, row};
use crate::actions::{Action, Scope};
use crate::tui::input::chosen;
use crate::tui::prompt::{Echo, Prompt, Purpose};
use crate::tui::screens::{Flow, Screen};
use crate::tui::state::App;
use crate::tui::theme::Role;

/// Files of a folder that are looked into, at most.
const LOOK_INTO: usize = 500;
/// Bytes of a file that show whether it is a session.
const HEAD: u64 = 4096;

/// The screen.
pub struct FilesScreen {
    here: Vec<PathBuf>,
    recent: Vec<PathBuf>,
    at: usize,
}

impl FilesScreen {
    /// The sessions as they are now.
    pub fn of(app: &App) -> Self {
        let here = sessions_in(&app.look.folder);
        let absolute = |p: &PathBuf| std::path::absolute(p).ok();
        let known: Vec<_> = here.iter().filter_map(absolute).collect();
        let mut recent = app.look.recent.list();
        recent.retain(|p| !known.contains(p));
        Self {
            here,
            recent,
            at: 0,
        }
    }

    fn len(&self) -> usize {
        self.here.len() + self.recent.len() + 2
    }

    fn chosen_file(&self) -> Option<&PathBuf> {
        self.here.iter().chain(&self.recent).nth(self.at)
    }
}

fn is_session(path: &Path) -> bool {
    let mut head = Vec::new();
    let read = std::fs::File::open(path).map(|f| f.take(HEAD).read_to_end(&mut head));
    matches!(read, Ok(Ok(_))) && String::from_utf8_lossy(&head).contains("[bow]")
}

fn sessions_in(folder: &Path) -> Vec<PathBuf> {
    let Ok(entries) = std::fs::read_dir(folder) else {
        return Vec::new();
    };
    let mut found: Vec<PathBuf> = entries
        .flatten()
        .map(|e| e.path())
        .filter(|p| p.extension().is_some_and(|e| e == "toml") && p.is_file())
        .take(LOOK_INTO)
        .filter(|p| is_session(p))
        .collect();
    found.sort();
    found
}

fn open(app: &mut App, path: &Path) -> Result<Flow, String> {
    if app.session().path() == Some(path) {
        return Ok(Flow::Panes);
    }
    let (session, read_only) = App::open_session(path).map_err(|e| e.to_string())?;
    app.take_session(session, read_only);
    if app.message.is_none() {
        app.say("opened");
    }
    Ok(Flow::Panes)
}

fn shown(path: &Path, folder: &Path) -> String {
    let short = path.strip_prefix(folder).unwrap_or(path);
    short.display().to_string()
}

fn changed(path: &Path) -> String {
    let time = std::fs::metadata(path).and_then(|m| m.modified());
    time.map_or(String::new(), |t| {
        let local: chrono::DateTime<chrono::Local> = t.into();
        local.format("%Y-%m-%d %H:%M").to_string()
    })
}

impl Screen for FilesScreen {
    fn scope(&self) -> Scope {
        Scope::Choice
    }
    fn title(&self, _app: &App) -> String {
        "Files".into()
    }
    fn about(&self) -> &'static str {
        "The sessions in this folder and those opened lately. Everything recorded in the session you leave is on disk; you come back to it where you stopped."
    }
    fn act(&mut self, action: Action, app: &mut App) -> Flow {
        if action != Action::Choose {
            self.at = chosen(self.at, self.len(), action);
            return Flow::Stay;
        }
        if let Some(path) = self.chosen_file().cloned() {
            return open(app, &path).unwrap_or_else(|problem| {
                app.complain(problem);
                Flow::Stay
            });
        }
        if self.at + 1 == self.len() {
            app.prompt = Some(Prompt::new(Purpose::NewFile, "New session"));
        } else {
            app.prompt = Some(Prompt::new(Purpose::Screen, "Open"));
        }
        Flow::Stay
    }
    fn echo(&self, text: &str, app: &App) -> Echo {
        if text.trim().is_empty() {
            return Echo::Hint("the name of a session file".into());
        }
        let path = app.new_path(text);
        if path.is_file() {
            Echo::Reads("it is there".into())
        } else {
            Echo::Hint("no file of that name yet".into())
        }
    }
    fn answer(&mut self, text: &str, app: &mut App) -> Result<Flow, String> {
        if text.trim().is_empty() {
            return Ok(Flow::Stay);
        }
        let path = app.new_path(text);
        open(app, &path)
    }
    fn draw(&self, app: &App, paint: &mut Paint<'_>, area: Rect) {
        let width = usize::from(area.width.saturating_sub(2));
        let mut rows = Vec::new();
        let mut n = 0;
        for (heading, files) in [("HERE", &self.here), ("RECENT", &self.recent)] {
            if !files.is_empty() {
                rows.push((row(heading, Role::Title), None));
            }
            for path in files {
                let when = changed(path);
                let name = fit(
                    &shown(path, &app.look.folder),
                    width.saturating_sub(when.len() + 2),
                );
                let gap = width.saturating_sub(name.chars().count() + when.len());
                rows.push((
                    row(format!("{name}{}{when}", " ".repeat(gap)), Role::Text),
                    Some(n),
                ));
                n += 1;
            }
        }
        rows.push((row("OTHERWISE", Role::Title), None));
        rows.push((row("another file: type its name", Role::Text), Some(n)));
        rows.push((row("a new session", Role::Text), Some(n + 1)));
        list::draw(paint, area, &rows, self.at);
    }
}
