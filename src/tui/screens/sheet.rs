//! The sheet: read it, write it to a file, close the job.
//!
//! ```text
//! +- Sheet -------------------------------------+
//! | > read the sheet here                       |
//! |   write it as plain text                    |
//! |   write it as a page to print (HTML)        |
//! |   read the put-back sheet                   |
//! |   close the job: done                       |
//! |                                             |
//! | what is in it so far                        |
//! +---------------------------------------------+
//! ```

use std::path::PathBuf;

use ratatui::layout::Rect;

use crate::actions::{Action, Scope, Situation};
use crate::look::Role;
use crate::report::{self, Closing, Format, Options, closings};
use crate::tui::draw::list;
use crate::tui::draw::paint::{Paint, Row, row, wrap};
use crate::tui::effects::{Effect, ask, record, say};
use crate::tui::model::Model;
use crate::tui::names::Name;
use crate::tui::prompt::{Echo, Prompt, Purpose};
use crate::tui::screen::Screen;
use crate::tui::screens::page;
use crate::tui::travel::chosen;
use crate::words::pages::sheet as page_says;
use crate::{proof, setup, words};

/// What a line does.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Line {
    Read,
    Write(Format),
    Restore,
    Contact,
    Close(Closing),
}

/// The screen.
#[derive(Debug, Default)]
pub(crate) struct SheetScreen {
    at: usize,
    contact: bool,
    /// How the job is being closed.
    closing: Option<Closing>,
}

fn lines(model: &Model) -> Vec<Line> {
    let mut all = vec![
        Line::Read,
        Line::Write(Format::Html),
        Line::Write(Format::Text),
        Line::Write(Format::Markdown),
        Line::Write(Format::Json),
        Line::Restore,
        Line::Contact,
    ];
    all.extend(closings(&model.analysis).into_iter().map(Line::Close));
    all
}

fn is_closed(model: &Model, how: Closing) -> bool {
    model.timeline().closed.as_deref() == Some(how.id())
}

impl SheetScreen {
    fn options(&self, model: &Model) -> Options {
        Options {
            system: model.system,
            contact: self.contact,
        }
    }

    fn text(&self, model: &Model, format: Format) -> String {
        report::render(
            model.timeline(),
            &model.sheet_analysis(),
            format,
            &self.options(model),
        )
    }

    fn words(&self, line: Line) -> String {
        match line {
            Line::Read => "read the sheet here".into(),
            Line::Write(Format::Html) => page_says::HTML.into(),
            Line::Write(Format::Text) => "write it as plain text".into(),
            Line::Write(Format::Markdown) => "write it as Markdown".into(),
            Line::Write(Format::Json) => page_says::JSON.into(),
            Line::Restore => "read the put-back sheet".into(),
            Line::Contact if self.contact => page_says::CONTACT.into(),
            Line::Contact => page_says::NO_CONTACT.into(),
            Line::Close(how) => format!("close the job: {}", how.words()),
        }
    }

    fn choose(&mut self, model: &Model) -> Vec<Effect> {
        match lines(model).get(self.at) {
            Some(Line::Read) => {
                let lines = report::lines(
                    model.timeline(),
                    &model.sheet_analysis(),
                    &self.options(model),
                    page::COLUMNS,
                );
                page("The sheet", lines)
            }
            Some(Line::Restore) => {
                let sheet = report::put_back_sheet(model.timeline(), model.system);
                page("Put-back sheet", report::page(&sheet, page::COLUMNS))
            }
            Some(Line::Write(format)) => {
                let name = default_name(model, *format);
                ask(Prompt::with(Purpose::Screen, "Write to", &name))
            }
            Some(Line::Contact) => {
                self.contact = !self.contact;
                Vec::new()
            }
            Some(Line::Close(how)) if is_closed(model, *how) => say(page_says::CLOSED_ALREADY),
            Some(Line::Close(how)) => {
                self.closing = Some(*how);
                record(how.event())
            }
            None => Vec::new(),
        }
    }

    fn format(&self, model: &Model) -> Option<Format> {
        match lines(model).get(self.at) {
            Some(Line::Write(format)) => Some(*format),
            _ => None,
        }
    }
}

fn page(title: &str, lines: Vec<String>) -> Vec<Effect> {
    vec![Effect::Open(Name::Page(title.into(), lines))]
}

const fn ending(format: Format) -> &'static str {
    match format {
        Format::Text => "txt",
        Format::Markdown => "md",
        Format::Json => "json",
        Format::Html => "html",
    }
}

fn default_name(model: &Model, format: Format) -> String {
    let stem = model.session().path().and_then(|p| p.file_stem());
    let stem = stem.map_or_else(|| "demo".into(), |s| s.to_string_lossy().into_owned());
    format!("{stem}-sheet.{}", ending(format))
}

/// Where a sheet of this name goes: the console's folder, unless a whole path is given.
fn place(model: &Model, text: &str, format: Format) -> PathBuf {
    let mut path = model.look.folder.join(text.trim());
    if path.extension().is_none() {
        path.set_extension(ending(format));
    }
    path.strip_prefix(".").map(PathBuf::from).unwrap_or(path)
}

/// What the sheet holds so far, a line a part of the job.
fn so_far(model: &Model) -> Vec<String> {
    let timeline = model.timeline();
    let stages = proof::stages(timeline, &model.analysis);
    let proved = words::proof::summary(&proof::summary(&stages));
    let mut lines = vec![
        format!(
            "Before paper  {}",
            words::setup::summary(&setup::summary(&setup::checklist(timeline)))
        ),
        format!(
            "Paper         {}, {}: {}",
            words::count(timeline.shots.len(), "shot"),
            words::count(timeline.moves.len(), "move"),
            crate::words::title(&model.analysis.advice)
        ),
        format!("After paper   {proved}"),
    ];
    if timeline.pending.is_some() {
        lines.push(page_says::PENDING.into());
    }
    if let Some(how) = &timeline.closed {
        let words = Closing::from_id(how).map(Closing::words);
        lines.push(format!("Closed        {}", words.unwrap_or(how)));
    }
    lines
}

impl Screen for SheetScreen {
    fn scope(&self) -> Scope {
        Scope::Choice
    }
    fn title(&self, _model: &Model) -> String {
        "Sheet".into()
    }
    fn about(&self) -> &'static str {
        crate::words::screens::REPORT
    }
    fn adjust(&self, now: &mut Situation) {
        now.undoable = true;
    }
    fn act(&mut self, action: Action, model: &Model) -> Vec<Effect> {
        if action == Action::Choose {
            return self.choose(model);
        }
        self.at = chosen(self.at, lines(model).len(), action);
        Vec::new()
    }
    fn recorded(&mut self, entry: u32, model: &Model) -> Vec<Effect> {
        self.closing.take().map_or_else(Vec::new, |how| {
            say(page_says::closed(
                how.words(),
                entry,
                &model.key(Action::Files),
            ))
        })
    }
    fn echo(&self, text: &str, model: &Model) -> Echo {
        let Some(format) = self.format(model).filter(|_| !text.trim().is_empty()) else {
            return Echo::Hint("a file name".into());
        };
        let path = place(model, text, format);
        match report::may_replace(&path) {
            Err(fault) => Echo::Wrong {
                at: 0,
                len: 0,
                text: format!("{}: {fault}", path.display()),
            },
            Ok(_) => Echo::Reads(path.display().to_string()),
        }
    }
    fn answer(&mut self, text: &str, model: &Model) -> Result<Vec<Effect>, String> {
        let Some(format) = self.format(model).filter(|_| !text.trim().is_empty()) else {
            return Ok(Vec::new());
        };
        let path = place(model, text, format);
        let (said, text) = (
            format!("wrote {}", path.display()),
            self.text(model, format),
        );
        Ok(vec![Effect::Write { path, text }, Effect::Say(said)])
    }
    fn draw(&self, model: &Model, paint: &mut Paint<'_>, area: Rect) {
        let rows: Vec<_> = lines(model)
            .into_iter()
            .enumerate()
            .flat_map(|(i, line)| list::wrapped(&self.words(line), Role::Text, i, area.width, 2))
            .collect();
        let mut text: Vec<Row> = vec![row("IN IT SO FAR", Role::Title)];
        for line in so_far(model) {
            text.extend(wrap_columns(&line, area.width));
        }
        list::with_text(paint, area, &rows, self.at, &text, 0);
    }
}

/// A name of 14 columns, then text wrapped beside it.
fn wrap_columns(line: &str, width: u16) -> Vec<Row> {
    let (name, value) = line.split_at(line.len().min(14));
    let rows = wrap(value, Role::Text, width.saturating_sub(14), 0);
    rows.into_iter()
        .enumerate()
        .map(|(i, mut row)| {
            let head = if i == 0 { name } else { "" };
            row.insert(0, (format!("{head:<14}"), Role::Faint));
            row
        })
        .collect()
}
