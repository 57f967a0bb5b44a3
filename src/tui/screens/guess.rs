//! In practice: what the player would do, before the advice is shown.
//!
//! ```text
//! +- Your guess first -----------------------+
//! | Which way would you move?    shot 1  shot 2 |
//! | > 1 rest left                (the two holes) |
//! |   2 rest right                               |
//! |   ...                                        |
//! | Or no move, because                          |
//! |   5 the arrow does not suit this bow         |
//! +------------------------------------------+
//! ```

use ratatui::layout::Rect;

use crate::actions::{Action, Scope};
use crate::look::Role;
use crate::practice::Guess;
use crate::tui::draw::list;
use crate::tui::draw::paint::{Paint, Row, row};
use crate::tui::effects::Effect;
use crate::tui::model::Model;
use crate::tui::screen::Screen;
use crate::tui::screens::pair::Pair;
use crate::tui::travel::chosen;

/// Columns of the list.
const LIST: u16 = 47;

/// One line of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Line {
    Guess(Guess),
    NeverAsk,
}

/// The screen.
pub(crate) struct GuessScreen {
    lines: Vec<Line>,
    at: usize,
}

impl GuessScreen {
    /// For the bow on screen.
    pub fn of(model: &Model) -> Self {
        let guesses = Guess::all(&model.timeline().card);
        let mut lines: Vec<Line> = guesses.into_iter().map(Line::Guess).collect();
        lines.push(Line::NeverAsk);
        Self { lines, at: 0 }
    }

    fn choose(&self, at: usize) -> Vec<Effect> {
        let wanted = match self.lines.get(at) {
            Some(Line::Guess(guess)) => Effect::Guess(*guess),
            Some(Line::NeverAsk) => Effect::GuessFirst(false),
            None => return Vec::new(),
        };
        vec![Effect::Panes, wanted]
    }

    fn rows(&self, model: &Model) -> Vec<(Row, Option<usize>)> {
        let key = model.by_name(Action::Practice);
        let mut rows = vec![(row("WHICH WAY WOULD YOU MOVE?", Role::Title), None)];
        let mut causes = false;
        for (i, line) in self.lines.iter().enumerate() {
            if matches!(line, Line::Guess(Guess::Cause(_))) && !causes {
                causes = true;
                let head = "OR NO MOVE, BECAUSE";
                rows.push((row(head, Role::Title), None));
            }
            let text = match line {
                Line::Guess(guess) => {
                    format!("{} {}", i + 1, crate::words::practice::guess(*guess))
                }
                Line::NeverAsk => crate::words::pages::practice::never_ask(&key),
            };
            let role = match line {
                Line::Guess(_) => Role::Text,
                Line::NeverAsk => Role::Faint,
            };
            rows.push((row(text, role), Some(i)));
        }
        rows
    }
}

impl Screen for GuessScreen {
    fn scope(&self) -> Scope {
        Scope::Choice
    }
    fn title(&self, _model: &Model) -> String {
        "Your guess first".into()
    }
    fn about(&self) -> &'static str {
        crate::words::screens::GUESS
    }
    fn act(&mut self, action: Action, _model: &Model) -> Vec<Effect> {
        if action == Action::Choose {
            return self.choose(self.at);
        }
        self.at = chosen(self.at, self.lines.len(), action);
        Vec::new()
    }
    fn digit_answers(&self) -> bool {
        true
    }
    fn digit(&mut self, digit: char, _model: &Model) -> Vec<Effect> {
        let n = digit.to_digit(10).unwrap_or(0) as usize;
        match n.checked_sub(1) {
            // The last line has no digit: a slip must not switch it off.
            Some(at) if at + 1 < self.lines.len() => self.choose(at),
            _ => Vec::new(),
        }
    }
    fn draw(&self, model: &Model, paint: &mut Paint<'_>, area: Rect) {
        let rows = self.rows(model);
        let right = list::draw_left(paint, area, LIST, &rows, self.at);
        if let Some(pair) = Pair::latest(model) {
            pair.draw(model, paint, right);
        }
    }
}
