//! One page of three parts: how the verdict was reached, the four checks, and
//! what is on the screen with every key from the one table.
//!
//! ```text
//! +- Why ----------------------------------------+
//! |  why    checks    keys     left, right turn  |
//! |                                              |
//! | the part, as far down as it was scrolled     |
//! +----------------------------------------------+
//! ```

pub(crate) mod checks;
pub(crate) mod explain;
pub mod why;

use ratatui::layout::Rect;

use crate::actions::{ACTIONS, Action, Scope};
use crate::look::Role;
use crate::tui::draw::paint::{Paint, Row, row, under, wrap};
use crate::tui::effects::Effect;
use crate::tui::model::Model;
use crate::tui::names::HelpPart;
use crate::tui::panes::verdict::Band;
use crate::tui::screen::Screen;
use crate::tui::travel::scrolled;
use crate::words::help;

/// Columns for the keys.
const KEYS: u16 = 12;

/// The screen.
pub(crate) struct HelpScreen {
    part: HelpPart,
    about: Vec<String>,
    scope: Scope,
    scroll: [u16; 3],
}

impl HelpScreen {
    /// The page over what is in front now, at one of its parts.
    pub fn of(model: &Model, part: HelpPart) -> Self {
        let about = match (model.front.about, model.scope()) {
            (Some(about), _) => vec![about.to_owned()],
            (None, Scope::Grid) => vec![help::GRID.to_owned()],
            (None, _) if model.is_virtual() => vec![help::PRACTICE.to_owned()],
            (None, _) => crate::tui::screens::help::explain::panes(model),
        };
        Self {
            part,
            about,
            scope: model.scope(),
            scroll: [0; 3],
        }
    }

    fn keys(model: &Model, scope: Scope, width: u16, rows: &mut Vec<Row>) {
        rows.push(row(scope.title().to_uppercase(), Role::Title));
        if scope == Scope::Main {
            rows.push(vec![
                (format!("{:<12}", "0 to 9"), Role::Key),
                (help::START_A_TEAR.into(), Role::Text),
            ]);
        }
        for spec in ACTIONS.iter().filter(|s| s.scopes.contains(&scope)) {
            let keys = model.look.keymap.label(spec.action);
            let keys = if keys.is_empty() && !spec.action.on_panes() {
                help::ITS_LINE.to_owned()
            } else if keys.is_empty() {
                help::BY_NAME.to_owned()
            } else {
                keys
            };
            let lines = wrap(spec.doc, Role::Text, width.saturating_sub(KEYS), 0);
            for (i, mut line) in lines.into_iter().enumerate() {
                let head = if i == 0 { keys.as_str() } else { "" };
                line.insert(0, (format!("{:<12}", format!("{head} ")), Role::Key));
                rows.push(line);
            }
        }
        rows.push(Row::new());
    }
}

impl HelpScreen {
    /// The words of the three parts, the one in front marked.
    fn head(&self) -> Row {
        let mut row = Row::new();
        for (part, word) in HelpPart::ALL.into_iter().zip(help::PARTS) {
            let role = if part == self.part {
                Role::Selected
            } else {
                Role::Text
            };
            row.push((format!(" {word} "), role));
            row.push(("  ".into(), Role::Text));
        }
        row.push((help::NEXT_PART.into(), Role::Faint));
        row
    }

    fn rows(&self, model: &Model, width: u16) -> Vec<Row> {
        match self.part {
            HelpPart::Why => why::rows(model, width),
            HelpPart::Checks => checks::rows(model, width),
            HelpPart::Keys => {
                let mut rows = Vec::new();
                for paragraph in &self.about {
                    rows.extend(wrap(paragraph, Role::Text, width, 0));
                    rows.push(Row::new());
                }
                Self::keys(model, self.scope, width, &mut rows);
                for scope in Scope::ALL.into_iter().filter(|s| *s != self.scope) {
                    Self::keys(model, scope, width, &mut rows);
                }
                rows.push(vec![
                    (format!("{:<12}", help::TRAVEL.0), Role::Key),
                    (help::TRAVEL.1.into(), Role::Text),
                ]);
                rows
            }
        }
    }
}

impl Screen for HelpScreen {
    fn scope(&self) -> Scope {
        Scope::Reading
    }
    fn title(&self, _model: &Model) -> String {
        self.part.title().into()
    }
    fn about(&self) -> &'static str {
        crate::words::screens::HELP
    }
    fn act(&mut self, action: Action, _model: &Model) -> Vec<Effect> {
        let at = self.part as usize;
        match action {
            Action::Left => self.part = HelpPart::ALL[(at + 2) % 3],
            Action::Right => self.part = HelpPart::ALL[(at + 1) % 3],
            _ => self.scroll[at] = scrolled(self.scroll[at], action),
        }
        Vec::new()
    }
    fn draw(&self, model: &Model, paint: &mut Paint<'_>, area: Rect) {
        paint.row(area.x, area.y, &self.head(), area.width);
        let mut rest = under(area, 2);
        if self.part == HelpPart::Why {
            // One row of it: the page is about what stands below.
            let used = Band::of(model).draw(paint, Rect { height: 1, ..rest });
            rest = under(rest, used);
        }
        let rows = self.rows(model, rest.width);
        paint.scrolled(rest, &rows, self.scroll[self.part as usize]);
    }
}
