//! Practice: tests and cures, the player's answer, other bows.
//!
//! ```text
//! +- Practice, level 2 ----------------------+
//! | AT THE BENCH                             |
//! | > weigh the bow on a scale               |
//! |   powder test: ...                       |
//! | YOUR ANSWER                              |
//! |   it is tuned: hand it over              |
//! |   ...                                    |
//! | OTHERWISE                                |
//! |   save this session                      |
//! |   another bow: level 1, ...              |
//! +------------------------------------------+
//! ```

use ratatui::layout::Rect;

use super::list;
use super::paint::{Paint, row};
use crate::actions::{Action, Scope};
use crate::advice::Verdict;
use crate::look::Role;
use crate::practice::{Conclusion, Job, LEVELS, level_words};
use crate::tui::model::Model;
use crate::tui::practice::new_seed;
use crate::tui::prompt::{Echo, Prompt, Purpose};
use crate::tui::screen::{Flow, Screen};
use crate::tui::state::App;
use crate::tui::travel::chosen;

/// One line that can be chosen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Line {
    Work(Job),
    Answer(Conclusion),
    Save,
    Level(u8),
}

/// The screen.
pub struct PracticeScreen {
    level: Option<u8>,
    lines: Vec<Line>,
    at: usize,
}

impl PracticeScreen {
    /// What can be done now.
    pub fn of(app: &Model) -> Self {
        let level = app.practice.as_ref().map(crate::practice::Practice::level);
        let mut lines = Vec::new();
        if level.is_some() {
            lines.extend(Job::ALL.map(Line::Work));
            lines.extend(Conclusion::ALL.map(Line::Answer));
            lines.push(Line::Save);
        }
        lines.extend(LEVELS.map(Line::Level));
        // Once the verdict is done, handing it over is what comes next.
        let done = app.analysis.advice.verdict == Verdict::Done;
        let tuned = Line::Answer(Conclusion::Tuned);
        let at = lines.iter().position(|line| done && *line == tuned);
        Self {
            level,
            lines,
            at: at.unwrap_or(0),
        }
    }

    fn choose(&self, app: &mut App) -> Flow {
        match self.lines.get(self.at) {
            Some(Line::Work(job)) => {
                app.practice_job(*job);
                Flow::Panes
            }
            Some(Line::Answer(said)) => match app.conclude(*said) {
                Some(screen) => Flow::Open(Box::new(screen)),
                None => Flow::Stay,
            },
            Some(Line::Save) => {
                app.prompt = Some(Prompt::new(Purpose::Screen, "Save as"));
                Flow::Stay
            }
            Some(Line::Level(level)) => {
                app.begin_practice(new_seed(), *level);
                Flow::Panes
            }
            None => Flow::Close,
        }
    }
}

fn heading(line: Line) -> &'static str {
    match line {
        Line::Work(_) => "AT THE BENCH",
        Line::Answer(_) => "YOUR ANSWER",
        Line::Save | Line::Level(_) => "OTHERWISE",
    }
}

fn words(line: Line) -> String {
    match line {
        Line::Work(job) => job.title().to_owned(),
        Line::Answer(said) => said.words().to_owned(),
        Line::Save => "save this session as a file".to_owned(),
        Line::Level(level) => format!("another bow, level {level}: {}", level_words(level)),
    }
}

impl Screen for PracticeScreen {
    fn scope(&self) -> Scope {
        Scope::Choice
    }
    fn title(&self, _app: &Model) -> String {
        self.level.map_or_else(
            || "Practise on a virtual bow".to_owned(),
            |level| format!("Practice, level {level}"),
        )
    }
    fn about(&self) -> &'static str {
        "A virtual bow with something wrong with it. Shoot it, move its adjusters, do the tests the verdicts ask for, and say what it is: sometimes it is the rest, sometimes the rest should be left alone. The bow answers as a real one would, and the same seed always gives the same bow. Nothing is kept unless you save it."
    }
    fn act_on(&mut self, action: Action, app: &mut App) -> Flow {
        if action != Action::Choose {
            self.at = chosen(self.at, self.lines.len(), action);
            return Flow::Stay;
        }
        self.choose(app)
    }
    fn echo(&self, text: &str, app: &Model) -> Echo {
        if text.trim().is_empty() {
            return Echo::Hint("a file name".into());
        }
        Echo::Reads(app.new_path(text).display().to_string())
    }
    fn answer_on(&mut self, text: &str, app: &mut App) -> Result<Flow, String> {
        if text.trim().is_empty() {
            return Ok(Flow::Stay);
        }
        let path = app.save_practice(text)?;
        app.say(format!(
            "{path} holds the practice so far; what follows is not kept"
        ));
        Ok(Flow::Panes)
    }
    fn draw(&self, _app: &Model, paint: &mut Paint<'_>, area: Rect) {
        let mut rows = Vec::new();
        let mut last = "";
        for (n, line) in self.lines.iter().enumerate() {
            if heading(*line) != last {
                last = heading(*line);
                rows.push((row(last, Role::Title), None));
            }
            rows.extend(list::wrapped(&words(*line), Role::Text, n, area.width, 2));
        }
        list::draw(paint, area, &rows, self.at);
    }
}
