//! Help: what is on the screen now, then every key from the one table.
//!
//! ```text
//! +- Help -------------------------------------+
//! | what the screen behind this one shows      |
//! | THE THREE PANES                            |
//! | s, Enter   Type a tear; a digit starts it  |
//! +--------------------------------------------+
//! ```

use ratatui::layout::Rect;

use super::paint::{Paint, Row, row, wrap};
use crate::actions::{ACTIONS, Action, Scope};
use crate::tui::input::scrolled;
use crate::tui::screens::{Flow, Screen};
use crate::tui::state::App;
use crate::tui::theme::Role;

/// Columns for the keys.
const KEYS: u16 = 12;

pub(super) const PANES: &str = "Tear: where the nock went through, seen from the point hole in the middle, right and up as the shooter sees it. What is shaded, or ringed with dots, is within tolerance. Next step: the verdict, what to do, and why. Convergence: how far each tear is from the wanted one, the likely tear, and moves across the chart. Type a tear as you would say it: 12 left 4 high. Several holes of one sheet with ; between. #3 names the arrow; bad, bare, ragged and slit may follow.";
const GRID: &str = "Put the cursor on the point hole and mark it, then on the nock hole and mark that. Arrows go one step; digits before an arrow make it go that far.";

/// The screen.
pub struct HelpScreen {
    about: Vec<String>,
    scope: Scope,
    scroll: u16,
}

/// On the panes, in practice.
const PRACTICE: &str = "Practice: a virtual bow with something wrong with it. The key for a shot shoots it and the paper is read for you; the moves are made by taking them to the bench, or by typing your own. Sometimes it is not the rest. The key for practice has tests and cures, and takes your answer; then it shows what it was.";

impl HelpScreen {
    /// Help on what is in front now.
    pub fn of(app: &App) -> Self {
        let about = match (app.screens.last(), &app.grid) {
            (Some(screen), _) => vec![screen.about().to_owned()],
            (None, Some(_)) => vec![GRID.to_owned()],
            (None, None) if app.is_virtual() => vec![PRACTICE.to_owned()],
            (None, None) => super::explain::panes(app),
        };
        Self {
            about,
            scope: app.scope(),
            scroll: 0,
        }
    }

    fn keys(app: &App, scope: Scope, width: u16, rows: &mut Vec<Row>) {
        rows.push(row(scope.title().to_uppercase(), Role::Title));
        if scope == Scope::Main {
            rows.push(vec![
                (format!("{:<12}", "0 to 9"), Role::Key),
                ("Start a tear".into(), Role::Text),
            ]);
        }
        for spec in ACTIONS.iter().filter(|s| s.scopes.contains(&scope)) {
            let keys = app.look.keymap.label(spec.action);
            let keys = if keys.is_empty() && !spec.action.on_panes() {
                "its line".to_owned()
            } else if keys.is_empty() {
                "by name, /".to_owned()
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

impl Screen for HelpScreen {
    fn scope(&self) -> Scope {
        Scope::Reading
    }
    fn title(&self, _app: &App) -> String {
        "Help".into()
    }
    fn about(&self) -> &'static str {
        "Help on the screen you came from, then the keys of every screen."
    }
    fn act(&mut self, action: Action, _app: &mut App) -> Flow {
        self.scroll = scrolled(self.scroll, action);
        Flow::Stay
    }
    fn draw(&self, app: &App, paint: &mut Paint<'_>, area: Rect) {
        let mut rows = Vec::new();
        for paragraph in &self.about {
            rows.extend(wrap(paragraph, Role::Text, area.width, 0));
            rows.push(Row::new());
        }
        Self::keys(app, self.scope, area.width, &mut rows);
        for scope in Scope::ALL.into_iter().filter(|s| *s != self.scope) {
            Self::keys(app, scope, area.width, &mut rows);
        }
        paint.scrolled(area, &rows, self.scroll);
    }
}
