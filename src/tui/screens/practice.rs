//! Practice: tests, cures, the player's answer, other bows.
//!
//! ```text
//! +- Practice, level 2 ----------------------+
//! | TESTS: they tell, and change nothing     |
//! | > ? weigh the bow on a scale             |
//! | FIXES: they change the bow               |
//! |   + turn the nocks and clear ...         |
//! | YOUR ANSWER: it ends the round           |
//! |   "it is tuned: hand it over"            |
//! | OTHERWISE                                |
//! |   save this session                      |
//! |   another bow: level 1, ...              |
//! | HOW YOU DO                               |
//! +------------------------------------------+
//! ```

use ratatui::layout::Rect;

use crate::actions::{Action, Scope};
use crate::advice::Verdict;
use crate::look::Role;
use crate::practice::{Conclusion, Job, LEVELS, Standing};
use crate::tui::draw::list;
use crate::tui::draw::paint::{Paint, row, wrap};
use crate::tui::effects::{Effect, ask};
use crate::tui::model::Model;
use crate::tui::prompt::{Echo, Prompt, Purpose};
use crate::tui::screen::Screen;
use crate::tui::screens::pair::Pair;
use crate::tui::travel::chosen;
use crate::words::pages::practice as page;
use crate::words::practice as words;

/// Columns of the list; beside it stand the two latest holes.
const LIST: u16 = 84;

/// One line that can be chosen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Line {
    Work(Job),
    Answer(Conclusion),
    Save,
    GuessFirst,
    Level(u8),
}

/// The screen.
pub(crate) struct PracticeScreen {
    level: Option<u8>,
    lines: Vec<Line>,
    at: usize,
    standing: Standing,
}

impl PracticeScreen {
    /// What can be done now.
    pub fn of(model: &Model) -> Self {
        let level = model
            .practice
            .as_ref()
            .map(crate::practice::Practice::level);
        let mut lines = Vec::new();
        if level.is_some() {
            lines.extend(Job::TESTS.map(Line::Work));
            lines.extend(Job::CURES.map(Line::Work));
            lines.extend(Conclusion::ALL.map(Line::Answer));
            lines.push(Line::Save);
            lines.push(Line::GuessFirst);
        }
        lines.extend(LEVELS.map(Line::Level));
        // Once the verdict is done, handing it over is what comes next.
        let done = model.analysis.advice.verdict == Verdict::Done;
        let tuned = Line::Answer(Conclusion::Tuned);
        let at = lines.iter().position(|line| done && *line == tuned);
        Self {
            level,
            lines,
            at: at.unwrap_or(0),
            standing: model.practice_standing().0,
        }
    }

    fn choose(&mut self) -> Vec<Effect> {
        match self.lines.get(self.at) {
            Some(Line::Work(job)) => vec![Effect::Work(*job)],
            Some(Line::Answer(said)) => vec![Effect::Conclude(*said)],
            Some(Line::Save) => ask(Prompt::new(Purpose::Screen, "Save as")),
            Some(Line::GuessFirst) => {
                self.standing.guess_first = !self.standing.guess_first;
                vec![Effect::GuessFirst(self.standing.guess_first)]
            }
            Some(Line::Level(level)) => vec![Effect::Practise(*level)],
            None => vec![Effect::Close],
        }
    }

    fn words(&self, line: Line) -> String {
        match line {
            Line::Work(job) if job.changes() => format!("+ {}", words::job(job)),
            Line::Work(job) => format!("? {}", words::job(job)),
            Line::Answer(said) => format!("\"{}\"", words::conclusion(said)),
            Line::Save => page::SAVE.to_owned(),
            Line::GuessFirst if self.standing.guess_first => page::ASKED.to_owned(),
            Line::GuessFirst => page::NOT_ASKED.to_owned(),
            Line::Level(level) => format!("another bow, level {level}: {}", words::level(level)),
        }
    }
}

fn heading(line: Line) -> &'static str {
    match line {
        Line::Work(job) if job.changes() => page::FIXES,
        Line::Work(_) => page::TESTS,
        Line::Answer(_) => page::ANSWER,
        Line::Save | Line::GuessFirst | Line::Level(_) => "OTHERWISE",
    }
}

/// An answer is said, so it stands out from what is done.
const fn role(line: Line) -> Role {
    match line {
        Line::Answer(_) => Role::Strong,
        _ => Role::Text,
    }
}

impl Screen for PracticeScreen {
    fn scope(&self) -> Scope {
        Scope::Choice
    }
    fn title(&self, _model: &Model) -> String {
        self.level.map_or_else(
            || "Practise on a virtual bow".to_owned(),
            |level| format!("Practice, level {level}"),
        )
    }
    fn about(&self) -> &'static str {
        crate::words::screens::PRACTICE
    }
    fn act(&mut self, action: Action, _model: &Model) -> Vec<Effect> {
        if action != Action::Choose {
            self.at = chosen(self.at, self.lines.len(), action);
            return Vec::new();
        }
        self.choose()
    }
    fn echo(&self, text: &str, model: &Model) -> Echo {
        if text.trim().is_empty() {
            return Echo::Hint("a file name".into());
        }
        Echo::Reads(model.new_path(text).display().to_string())
    }
    fn answer(&mut self, text: &str, _model: &Model) -> Result<Vec<Effect>, String> {
        if text.trim().is_empty() {
            return Ok(Vec::new());
        }
        Ok(vec![Effect::SavePractice(text.to_owned())])
    }
    fn draw(&self, model: &Model, paint: &mut Paint<'_>, area: Rect) {
        let mut rows = Vec::new();
        let mut last = "";
        for (n, line) in self.lines.iter().enumerate() {
            if heading(*line) != last {
                last = heading(*line);
                rows.push((row(last, Role::Title), None));
            }
            let text = self.words(*line);
            rows.extend(list::wrapped(&text, role(*line), n, area.width, 2));
        }
        let done = self.standing.practised();
        let done: Vec<String> = done
            .map(|(l, counts)| words::level_counts(l, counts))
            .collect();
        if !done.is_empty() {
            rows.push((row("HOW YOU DO", Role::Title), None));
            for line in done {
                let wrapped = wrap(&line, Role::Faint, area.width.saturating_sub(2), 2);
                rows.extend(wrapped.into_iter().map(|r| (r, None)));
            }
        }
        let right = list::draw_left(paint, area, LIST, &rows, self.at);
        if let Some(pair) = Pair::latest(model).filter(|_| self.level.is_some()) {
            pair.draw(model, paint, right);
        }
    }
}
