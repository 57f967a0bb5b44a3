//! The console as lines, for screen readers and for terminals that cannot
//! place text. Each change is told in reading order: what was said, then the
//! panes that are different now. Lines are read from the input: a tear, a
//! name or key of an action with what it wants after it, or an answer.
//!
//! ```text
//! Status: Ann: blue bow | right-handed | setting 1 | 3 shots
//! Next step: SHOOT AGAIN
//! Next step: ...
//! > 12 left 4 high
//! recorded: 12 mm left, 4 mm high
//! ```

use std::io::{self, BufRead, Write};

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

use crate::actions::{ACTIONS, Action, Key, Scope, Spec};
use crate::tui::app::App;
use crate::tui::draw::paint::{Paint, Row, safe};
use crate::tui::frame::typing;
use crate::tui::panes::{convergence, next_step, status, tear};
use crate::tui::prompt::{Prompt, Purpose};
use crate::words::pages::plain as said;

/// Columns and rows a screen over the panes is drawn in before it is read out.
const PAGE: (u16, u16) = (78, 200);
/// Columns of the status line.
const STATUS: u16 = 400;
/// The most times one line repeats an arrow.
const MOST_STEPS: usize = 500;
/// The longest line taken.
const LONGEST: u64 = 4096;

fn text(row: &Row) -> String {
    let text: String = row.iter().map(|(t, _)| t.as_str()).collect();
    let words: Vec<&str> = text.split_whitespace().collect();
    safe(&words.join(" "))
}

/// The lines of a pane, its name before the first.
fn titled(title: &str, rows: &[Row]) -> Part {
    let mut lines: Part = rows.iter().map(text).filter(|l| !l.is_empty()).collect();
    if let Some(first) = lines.first_mut() {
        first.insert_str(0, &format!("{title}: "));
    }
    lines
}

/// A part of the screen: its lines, each naming the part.
type Part = Vec<String>;

/// What is on the screen, in reading order.
fn parts(app: &App) -> Vec<Part> {
    let mut status_part = Vec::new();
    let area = Rect::new(0, 0, STATUS, 1);
    let page = paged(app, area, |paint| status::draw(&app.model, paint, area));
    // Its pieces stand apart on a screen; read aloud a stroke parts them.
    let pieces = |l: &String| -> Vec<String> {
        let pieces = l.split("  ").map(str::trim).filter(|p| !p.is_empty());
        pieces.map(str::to_owned).collect()
    };
    status_part.extend(
        page.iter()
            .map(|l| format!("Status: {}", pieces(l).join(" | "))),
    );
    let mut out = vec![status_part];
    if let Some(screen) = app.stack.last() {
        let area = Rect::new(0, 0, PAGE.0, PAGE.1);
        let mut part = vec![format!("Screen: {}", safe(&screen.title(&app.model)))];
        part.extend(paged(app, area, |paint| {
            screen.draw(&app.model, paint, Rect::new(0, 0, PAGE.0 - 1, PAGE.1));
        }));
        out.push(part);
        return out;
    }
    for (title, rows) in [
        ("Next step", next_step::said(&app.model)),
        ("Tear", tear::said(&app.model, &typing(app))),
        ("Convergence", convergence::said(&app.model)),
    ] {
        out.push(titled(title, &rows));
    }
    out
}

/// What is drawn, as lines without the empty ones.
fn paged(app: &App, area: Rect, draw: impl FnOnce(&mut Paint<'_>)) -> Vec<String> {
    let mut buf = Buffer::empty(area);
    draw(&mut Paint {
        buf: &mut buf,
        theme: app.model.look.theme,
        glyphs: app.model.look.glyphs,
        cursor: None,
    });
    (area.top()..area.bottom())
        .map(|y| {
            let line: String = (area.left()..area.right())
                .map(|x| buf[(x, y)].symbol())
                .collect();
            line.trim_end().to_owned()
        })
        .filter(|l| !l.trim().is_empty())
        .collect()
}

/// The console as lines.
pub struct Plain {
    app: App,
    told: Vec<Part>,
}

impl Plain {
    /// On a console.
    pub const fn new(app: App) -> Self {
        Self {
            app,
            told: Vec::new(),
        }
    }

    /// Whether the user asked to leave.
    pub(crate) const fn is_over(&self) -> bool {
        self.app.wants_to_quit()
    }

    /// What is new since it was last told.
    pub fn tell(&mut self) -> Vec<String> {
        self.app.look_at_file();
        self.app.tell_of_file();
        let mut out = Vec::new();
        if let Some(message) = self.app.message.take() {
            let mark = if message.problem { "Problem: " } else { "" };
            out.push(format!("{mark}{}", safe(&message.text)));
        }
        let parts = parts(&self.app);
        for (i, part) in parts.iter().enumerate() {
            if self.told.get(i) != Some(part) {
                out.extend(part.iter().cloned());
            }
        }
        self.told = parts;
        if let Some(prompt) = &self.app.prompt {
            if let Some(problem) = &prompt.refused {
                out.push(format!("Problem: {}", safe(problem)));
                out.push(said::AGAIN.into());
            }
            out.push(format!("{}:", safe(&prompt.label)));
        } else if let Some((head, words)) = self.app.hint() {
            out.push(format!("{head} {words}"));
        }
        out
    }

    /// Takes one line.
    pub fn take(&mut self, line: &str) {
        let line = line.trim();
        self.app.message = None;
        if self.app.prompt.is_some() {
            return self.fill(line);
        }
        let (first, rest) = line.split_once(' ').unwrap_or((line, ""));
        match first {
            "" => self.told.clear(),
            "keys" if rest.is_empty() => self.keys(),
            _ => match self.action(first, line) {
                Some(action) => self.act(action, rest.trim()),
                None => self.tear(line),
            },
        }
    }

    /// An action by name, label or key, where it works now.
    fn action(&self, first: &str, line: &str) -> Option<Action> {
        let scope = self.app.scope();
        let panes = scope == Scope::Main;
        let works = |s: &&Spec| s.scopes.contains(&scope) || (panes && s.action.on_panes());
        let here = || ACTIONS.iter().filter(works);
        let lower = first.to_lowercase();
        let named = here().find(|s| s.id == lower || s.label == line.to_lowercase());
        if let Some(spec) = named.filter(|_| !starts_a_tear(line, scope)) {
            return Some(spec.action);
        }
        let key = Key::from_label(&lower)?;
        if matches!(key, Key::Char('0'..='9')) || starts_a_tear(line, scope) {
            return None;
        }
        let keymap = &self.app.model.look.keymap;
        let behind = || keymap.action(Scope::More, key).filter(|_| panes);
        keymap.action(scope, key).or_else(behind)
    }

    fn act(&mut self, action: Action, rest: &str) {
        if action == Action::Mark {
            return self.app.say(said::NO_MARKS);
        }
        let times = rest.parse().unwrap_or(1).clamp(1, MOST_STEPS);
        let moves = matches!(
            action,
            Action::Up | Action::Down | Action::Left | Action::Right
        );
        for _ in 0..if moves { times } else { 1 } {
            self.app.act(action);
        }
        if self.app.prompt.is_some() && !rest.is_empty() {
            self.fill(rest);
        }
        if action == Action::Help {
            self.app.say(said::HELP);
        }
    }

    /// A line for the prompt that is open.
    fn fill(&mut self, line: &str) {
        if line == "back" || line == "esc" {
            self.app.prompt = None;
            return;
        }
        if let Some(prompt) = &mut self.app.prompt
            && !line.is_empty()
        {
            let fresh = Prompt::with(prompt.purpose, prompt.label.clone(), "");
            *prompt = fresh;
            prompt.paste(line);
        }
        self.app.accept();
    }

    fn tear(&mut self, line: &str) {
        if self.app.scope() != Scope::Main {
            return self.app.complain(said::no_action(line));
        }
        if self.app.model.is_virtual() {
            return self.app.practice_reads();
        }
        if let Some(why) = self.app.model.read_only.clone() {
            return self.app.complain(why);
        }
        let mut prompt = Prompt::new(Purpose::Tear, "Tear");
        prompt.paste(line);
        self.app.prompt = Some(prompt);
        self.app.accept();
        // A line that reads as no tear is no reason to stay in the prompt; one
        // that could not be kept is.
        let text = self.app.prompt.as_ref().map(|p| p.text.clone());
        if let Some(text) = text
            && let Err(error) = crate::tear::read_holes(&text, self.app.model.system)
        {
            self.app.prompt = None;
            self.app.complain(said::not_recorded(&error.to_string()));
        }
    }

    fn keys(&mut self) {
        let now = self.app.model.situation();
        let scope = self.app.scope();
        let all = ACTIONS
            .iter()
            .filter(|s| s.scopes.contains(&scope) || (scope == Scope::Main && s.action.on_panes()))
            .filter(|s| s.when.holds(&now));
        let lines: Vec<String> = all.map(|s| format!("{} ({})", s.id, s.doc)).collect();
        self.app.say(lines.join("; "));
    }
}

/// Up, down, left and right with more after them may be the way people say a tear.
fn starts_a_tear(line: &str, scope: Scope) -> bool {
    let after = line.split_once(' ').map_or("", |(_, rest)| rest.trim());
    let number = after.starts_with(|c: char| c.is_ascii_digit() || c == '.');
    let first = line.split(' ').next().unwrap_or_default();
    let way = first.chars().count() == 1 || ["left", "right", "up", "down"].contains(&first);
    scope == Scope::Main && number && way
}

/// Runs the console as lines until the input ends or the user leaves.
///
/// # Errors
/// When input or output fail.
pub fn run(app: App, input: &mut dyn BufRead, output: &mut dyn Write) -> io::Result<()> {
    let mut plain = Plain::new(app);
    loop {
        for line in plain.tell() {
            writeln!(output, "{line}")?;
        }
        write!(output, "> ")?;
        output.flush()?;
        let mut bytes = Vec::new();
        let read = io::Read::take(&mut *input, LONGEST).read_until(b'\n', &mut bytes)?;
        if read > 0 {
            plain.take(&String::from_utf8_lossy(&bytes));
        }
        if read == 0 || plain.is_over() {
            plain.app.put_down();
        }
        if read == 0 {
            return writeln!(output);
        }
        if plain.is_over() {
            return Ok(());
        }
    }
}
