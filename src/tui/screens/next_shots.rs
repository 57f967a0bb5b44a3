//! What the next shots are recorded with, until it is changed.
//!
//! ```text
//! +- Next shots ------------------+
//! | > who shoots    owner         |
//! |   arrow         not named     |
//! |   distance      the card's    |
//! |   fletching     on            |
//! +-------------------------------+
//! ```

use ratatui::layout::Rect;

use crate::actions::{Action, Scope};
use crate::look::Role;
use crate::session::{Given, Shooter};
use crate::tui::draw::list;
use crate::tui::draw::paint::{Paint, row, wrap};
use crate::tui::effects::Effect;
use crate::tui::model::{Model, NextShots};
use crate::tui::prompt::{Echo, Prompt, Purpose};
use crate::tui::screen::Screen;
use crate::tui::travel::chosen;
use crate::words::pages::shots;

const ROWS: usize = 6;
const ARROW: usize = 1;
const DISTANCE: usize = 2;

/// The screen.
#[derive(Debug, Default)]
pub(crate) struct NextShotsScreen {
    at: usize,
}

impl NextShotsScreen {
    fn change(&self, by: isize, model: &Model) -> Vec<Effect> {
        let mut next = NextShots {
            for_test: false,
            ..model.next.clone()
        };
        let mut line = None;
        match self.at {
            0 => {
                let now = Shooter::ALL.iter().position(|s| *s == next.by).unwrap_or(0);
                let to = (now as isize + by).rem_euclid(Shooter::ALL.len() as isize);
                next.by = Shooter::ALL[to as usize];
            }
            ARROW => {
                let text = next.arrow.clone().unwrap_or_default();
                line = Some(Prompt::over(Purpose::Screen, "Arrow", &text));
            }
            DISTANCE => {
                let text = next.distance.clone().unwrap_or_default();
                line = Some(Prompt::over(Purpose::Screen, "Distance", &text));
            }
            3 => next.bare = !next.bare,
            4 => next.called_bad = !next.called_bad,
            _ => next.mirrored = !next.mirrored,
        }
        let changed = std::iter::once(Effect::NextShots(next));
        changed.chain(line.map(Effect::Ask)).collect()
    }
}

impl Screen for NextShotsScreen {
    fn scope(&self) -> Scope {
        Scope::Choice
    }
    fn title(&self, _model: &Model) -> String {
        "Next shots".into()
    }
    fn about(&self) -> &'static str {
        crate::words::screens::NEXT_SHOTS
    }
    fn act(&mut self, action: Action, model: &Model) -> Vec<Effect> {
        match action {
            Action::Choose | Action::Right => return self.change(1, model),
            Action::Left => return self.change(-1, model),
            _ => self.at = chosen(self.at, ROWS, action),
        }
        Vec::new()
    }
    fn echo(&self, text: &str, model: &Model) -> Echo {
        let text = text.trim();
        match (self.at, text.is_empty()) {
            (ARROW, true) => Echo::Hint(shots::ARROW.into()),
            (_, true) => Echo::Hint(shots::DISTANCE.into()),
            (ARROW, false) => Echo::Nothing,
            (_, false) => match crate::tear::read_distance(text) {
                Ok(length) => Echo::Reads(model.system.distance(length)),
                Err(problem) => Echo::Wrong {
                    at: 0,
                    len: 0,
                    text: problem,
                },
            },
        }
    }
    fn answer(&mut self, text: &str, model: &Model) -> Result<Vec<Effect>, String> {
        let text = text.trim();
        let given = (!text.is_empty()).then(|| text.to_owned());
        let mut next = model.next.clone();
        if self.at == ARROW {
            let mark = given.as_deref().and_then(Given::mark);
            next.arrow = mark.map(|m| m.chars().take(12).collect());
        } else {
            if let Some(text) = &given {
                crate::tear::read_distance(text)?;
            }
            next.distance = given;
        }
        Ok(vec![Effect::NextShots(next)])
    }
    fn draw(&self, model: &Model, paint: &mut Paint<'_>, area: Rect) {
        let next = &model.next;
        let usual = || {
            format!(
                "the card's, {}",
                model.system.distance(model.timeline().card.paper.distance)
            )
        };
        let lines = [
            ("who shoots", next.by.id().to_owned()),
            (
                "arrow",
                next.arrow.clone().unwrap_or_else(|| "not named".into()),
            ),
            ("distance", next.distance.clone().unwrap_or_else(usual)),
            (
                "fletching",
                if next.bare { "off: bare shaft" } else { "on" }.to_owned(),
            ),
            (
                "next shot",
                if next.called_bad {
                    "called bad before looking"
                } else {
                    "counts"
                }
                .to_owned(),
            ),
            (
                "sheet read",
                if next.mirrored {
                    "from the target side"
                } else {
                    "from the shooter's side"
                }
                .to_owned(),
            ),
        ];
        let rows: Vec<_> = lines
            .iter()
            .enumerate()
            .map(|(i, (name, value))| (row(format!("{name:<12}{value}"), Role::Text), Some(i)))
            .collect();
        let half = Rect::new(area.x, area.y, area.width, area.height.min(ROWS as u16));
        list::draw(paint, half, &rows, self.at);
        if area.height > half.height + 1 {
            let below = Rect::new(
                area.x,
                half.bottom() + 1,
                area.width,
                area.height - half.height - 1,
            );
            paint.rows(below, &wrap(shots::FOOT, Role::Faint, area.width, 0));
        }
    }
}
