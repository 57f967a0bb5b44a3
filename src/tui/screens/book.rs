//! The bench book: the sessions of this folder and recent ones elsewhere.
//! Opening one parks this one.
//!
//! ```text
//! +- Bench book ------------------------------------------+
//! | > 2026-03-02 10:02  Ann: green compound   blue.toml   |
//! |     MOVE, 8 shots; at the bench: rest left 1.5 mm     |
//! | ELSEWHERE, OPENED LATELY                              |
//! |   recurve.toml                                        |
//! | OTHERWISE                                             |
//! |   another file: type its name                         |
//! |   a new session                                       |
//! |   what this folder teaches                            |
//! +-------------------------------------------------------+
//! ```

use std::path::{Path, PathBuf};

use ratatui::layout::Rect;
use unicode_width::UnicodeWidthStr;

use crate::actions::{Action, Scope};
use crate::book::{self, Row};
use crate::look::Role;
use crate::session::Session;
use crate::tui::draw::list;
use crate::tui::draw::paint::{Paint, Row as Line, row, wrap};
use crate::tui::effects::{Effect, ask, complain, say};
use crate::tui::model::Model;
use crate::tui::names::Name;
use crate::tui::prompt::{Echo, Prompt, Purpose};
use crate::tui::screen::Screen;
use crate::tui::screens::page::COLUMNS;
use crate::tui::travel::chosen;
use crate::units::clean;
use crate::words::pages::file;
use crate::{report, words};

/// What the line being typed is for.
#[derive(Debug, Clone, PartialEq, Eq)]
enum Asking {
    Open,
    Visit(PathBuf),
}

/// The screen.
pub(crate) struct BookScreen {
    here: Vec<Row>,
    problem: Option<String>,
    recent: Vec<PathBuf>,
    at: usize,
    asking: Asking,
}

impl BookScreen {
    /// The sessions as they are now; the cursor on the latest that is not the
    /// open one, so that two keys change the bow.
    pub fn of(model: &Model) -> Self {
        let (here, problem) = match book::scan(&model.look.folder) {
            Ok(rows) => (rows, None),
            Err(error) => (Vec::new(), Some(error.to_string())),
        };
        let absolute = |p: &Path| std::path::absolute(p).ok();
        let known: Vec<_> = here.iter().filter_map(|r| absolute(&r.path)).collect();
        let mut recent = model.look.recent.list();
        recent.retain(|p| !known.contains(p));
        let at = here.iter().position(|r| !model.is_open(&r.path));
        Self {
            at: at.unwrap_or(0),
            here,
            problem,
            recent,
            asking: Asking::Open,
        }
    }

    fn len(&self) -> usize {
        self.here.len() + self.recent.len() + 3
    }

    fn chosen_file(&self) -> Option<&PathBuf> {
        let here = self.here.iter().map(|r| &r.path);
        here.chain(&self.recent).nth(self.at)
    }

    fn compare(&self, model: &Model) -> Result<Vec<Effect>, String> {
        let path = self.chosen_file().ok_or(file::CHOOSE_TO_COMPARE)?;
        if model.is_open(path) {
            return Err(file::COMPARE_ANOTHER.into());
        }
        let other = Session::open(path).map_err(|e| e.to_string())?;
        let begun = |s: &Session| s.entries().first().map(|e| e.at);
        let (mut before, mut after) = (other.timeline(), model.timeline());
        let mut names = [clean(&shown(path, model)), "the open session".to_owned()];
        if begun(&other) > begun(model.session()) {
            (before, after) = (after, before);
            names.reverse();
        }
        let mut lines = vec![format!("From {} to {}", names[0], names[1]), String::new()];
        let page = book::compare(before, after, model.system).page();
        lines.extend(report::page(&page, COLUMNS));
        let page = Name::Page("Two sessions compared".into(), lines);
        Ok(vec![Effect::Open(page)])
    }

    fn new_visit(&mut self, model: &Model) -> Vec<Effect> {
        let Some(path) = self.chosen_file().cloned() else {
            return say(file::CHOOSE_CARD);
        };
        let stem = path
            .file_stem()
            .map_or(String::new(), |s| s.to_string_lossy().into_owned());
        let name = (2..100)
            .map(|n| format!("{stem}-{n}"))
            .find(|name| !model.new_path(name).exists())
            .unwrap_or_default();
        self.asking = Asking::Visit(path);
        ask(Prompt::with(Purpose::Screen, "New visit", &name))
    }

    fn choose(&mut self) -> Vec<Effect> {
        if let Some(path) = self.chosen_file().cloned() {
            return vec![Effect::OpenSession(path)];
        }
        match self.len() - self.at {
            1 => vec![Effect::Open(Name::Taught)],
            2 => ask(Prompt::new(Purpose::NewFile, "New session")),
            _ => {
                self.asking = Asking::Open;
                ask(Prompt::new(Purpose::Screen, "Open"))
            }
        }
    }
}

fn shown(path: &Path, model: &Model) -> String {
    let short = path.strip_prefix(&model.look.folder).unwrap_or(path);
    short.display().to_string()
}

/// One session on two rows or more: whose and where, then how it stands.
fn entry(r: &Row, n: usize, model: &Model, width: u16) -> Vec<(Line, Option<usize>)> {
    let room = usize::from(width.saturating_sub(2));
    let date = r
        .date
        .map_or("-".into(), |d| d.format("%Y-%m-%d %H:%M").to_string());
    let owner = r
        .owner
        .as_deref()
        .map_or(String::new(), |o| format!("{}: ", clean(o)));
    let bow = if r.bow.is_empty() {
        "cannot be read"
    } else {
        r.bow.as_str()
    };
    let file = shown(&r.path, model);
    let whose = format!("{date:<18}{owner}{}", clean(bow));
    let mut rows = if whose.width() + file.width() < room {
        let gap = room - whose.width() - file.width();
        let line = format!("{whose}{}{file}", " ".repeat(gap));
        vec![(row(line, Role::Strong), Some(n))]
    } else {
        // No room beside each other: the file first, then whose bow.
        let mut rows = list::wrapped(&file, Role::Strong, n, width, 2);
        let whose = format!("{date}  {owner}{}", clean(bow));
        rows.extend(
            list::wrapped(&whose, Role::Text, n, width, 2)
                .into_iter()
                .map(|(r, _)| (r, None)),
        );
        rows
    };
    // What cannot be read is said in the row above.
    let unread = r.verdict.is_none() && r.problem.is_some();
    let mut text = if unread { String::new() } else { r.stands() };
    if r.verdict.is_some() {
        text.push_str(&format!(", {}", words::count(r.shots, "shot")));
    }
    if let Some(pending) = &r.pending {
        text.push_str(&format!("; PENDING MOVE: {pending}"));
    }
    if let Some(problem) = &r.problem {
        text.push_str(&format!(" {problem}"));
    }
    if model.is_open(&r.path) {
        text.push_str(" (open now)");
    }
    let width = width.saturating_sub(6);
    for mut more in wrap(text.trim(), Role::Text, width, 0) {
        more.insert(0, ("    ".into(), Role::Text));
        rows.push((more, None));
    }
    rows
}

impl Screen for BookScreen {
    fn scope(&self) -> Scope {
        Scope::Book
    }
    fn title(&self, _model: &Model) -> String {
        "Bench book".into()
    }
    fn about(&self) -> &'static str {
        crate::words::screens::BOOK
    }
    fn act(&mut self, action: Action, model: &Model) -> Vec<Effect> {
        match action {
            Action::NewVisit => return self.new_visit(model),
            Action::Compare => return self.compare(model).unwrap_or_else(complain),
            Action::Choose => return self.choose(),
            _ => self.at = chosen(self.at, self.len(), action),
        }
        Vec::new()
    }
    fn echo(&self, text: &str, model: &Model) -> Echo {
        if text.trim().is_empty() {
            return Echo::Hint(file::NAME_OF_FILE.into());
        }
        let path = model.new_path(text);
        match (&self.asking, path.exists()) {
            (Asking::Open, true) => Echo::Reads("it is there".into()),
            (Asking::Open, false) => Echo::Hint(file::NO_SUCH_FILE.into()),
            (Asking::Visit(_), false) => Echo::Reads(path.display().to_string()),
            (Asking::Visit(_), true) => Echo::Wrong {
                at: 0,
                len: 0,
                text: crate::words::pages::typing::FILE_EXISTS.into(),
            },
        }
    }
    fn answer(&mut self, text: &str, model: &Model) -> Result<Vec<Effect>, String> {
        if text.trim().is_empty() {
            return Ok(Vec::new());
        }
        let path = model.new_path(text);
        Ok(vec![match self.asking.clone() {
            Asking::Open => Effect::OpenSession(path),
            Asking::Visit(from) => Effect::Visit { path, from },
        }])
    }
    fn draw(&self, model: &Model, paint: &mut Paint<'_>, area: Rect) {
        let mut rows = Vec::new();
        if let Some(problem) = &self.problem {
            rows.extend(
                wrap(problem, Role::Warn, area.width, 0)
                    .into_iter()
                    .map(|r| (r, None)),
            );
        }
        for (n, r) in self.here.iter().enumerate() {
            rows.extend(entry(r, n, model, area.width));
        }
        let mut n = self.here.len();
        if !self.recent.is_empty() {
            rows.push((row("ELSEWHERE, OPENED LATELY", Role::Title), None));
        }
        for path in &self.recent {
            let name = shown(path, model);
            rows.extend(list::wrapped(&name, Role::Text, n, area.width, 2));
            n += 1;
        }
        rows.push((row("OTHERWISE", Role::Title), None));
        rows.push((row("another file: type its name", Role::Text), Some(n)));
        rows.push((row("a new session", Role::Text), Some(n + 1)));
        rows.push((row("what this folder teaches", Role::Text), Some(n + 2)));
        list::draw(paint, area, &rows, self.at);
    }
}
