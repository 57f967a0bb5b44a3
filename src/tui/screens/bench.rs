//! A move at the bench: what to do, then one key for how it went.
//!
//! ```text
//! +- At the bench -------------------------------------+
//! | DO THIS, WITH THE BOW LYING ON THE BENCH           |
//! |                                                    |
//! | Rest OUT from the riser 1.50 mm (6 clicks) ...     |
//! |                                                    |
//! | y  made as shown                                   |
//! | o  something else was made                         |
//! | x  not made                                        |
//! +----------------------------------------------------+
//! ```

use ratatui::layout::Rect;

use crate::actions::{Action, Scope};
use crate::bench_plan::BenchPlan;
use crate::look::Role;
use crate::tui::draw::paint::{Paint, Row, wrap};
use crate::tui::effects::Effect;
use crate::tui::model::Model;
use crate::tui::screen::Screen;
use crate::tui::travel::scrolled;
use crate::words;

/// Columns a line of instruction takes at most: long lines are hard to read.
const LINE: u16 = 76;
/// Columns of a key before what it does.
const KEY: u16 = 4;

/// The screen.
#[derive(Debug, Default)]
pub(crate) struct BenchScreen {
    scroll: u16,
}

impl Screen for BenchScreen {
    fn scope(&self) -> Scope {
        Scope::Bench
    }
    fn title(&self, _model: &Model) -> String {
        "At the bench".into()
    }
    fn about(&self) -> &'static str {
        crate::words::screens::BENCH
    }
    fn act(&mut self, action: Action, _model: &Model) -> Vec<Effect> {
        self.scroll = scrolled(self.scroll, action);
        Vec::new()
    }
    fn draw(&self, model: &Model, paint: &mut Paint<'_>, area: Rect) {
        let width = area.width.min(LINE);
        let Some(pending) = &model.timeline().pending else {
            return;
        };
        let head = "WITH THE BOW ON THE BENCH, NO ARROW ON THE STRING";
        let stop = model.stop_line();
        let stop = stop.map_or_else(Vec::new, |stop| wrap(&stop, Role::Bad, width, 0));
        let mut rows: Vec<Row> = stop;
        rows.extend(wrap(head, Role::Strong, width, 0));
        rows.push(Row::new());
        let plan = BenchPlan::of(&pending.steps, model.timeline(), &model.analysis);
        for line in words::bench_plan(&plan, model.system) {
            rows.extend(wrap(&line, Role::Strong, width, 2));
            rows.push(Row::new());
        }
        for action in [
            Action::AsShown,
            Action::OwnMove,
            Action::NotMade,
            Action::Back,
        ] {
            let text = match action {
                Action::OwnMove => words::pages::panes::OTHER_MOVE,
                Action::Back => words::pages::panes::LATER,
                _ => action.spec().label,
            };
            let key = format!("{:<4}", model.look.keymap.first(action));
            let lines = wrap(text, Role::Text, width.saturating_sub(KEY), 0);
            for (i, mut line) in lines.into_iter().enumerate() {
                let before = if i == 0 {
                    key.clone()
                } else {
                    " ".repeat(KEY.into())
                };
                line.insert(0, (before, Role::Key));
                rows.push(line);
            }
        }
        paint.scrolled(area, &rows, self.scroll);
    }
}
