//! The same arrow at other distances: what the tear known now says of the
//! tears there, and where a second sheet tells most.
//!
//! ```text
//! +- The same arrow at other distances ---------+
//! | Likely tear here, at 2 m: 12 mm left        |
//! |                                             |
//! | paper at   likely tear      2 of 3 within   |
//! | 1.5 m      9 left 2 high    7 mm            |
//! | 2.5 m      ...              9 mm  half a flex on |
//! | 4 m        ...                              |
//! | what that is for                            |
//! +---------------------------------------------+
//! ```

use ratatui::layout::Rect;

use crate::actions::{Action, Scope};
use crate::advice::TearEstimate;
use crate::look::Role;
use crate::physics::card::case;
use crate::physics::distances::{AtDistance, Distances};
use crate::tear::Tear;
use crate::tui::draw::paint::{Paint, Row, row, wrap};
use crate::tui::effects::Effect;
use crate::tui::model::Model;
use crate::tui::screen::Screen;
use crate::tui::travel::scrolled;
use crate::words;
use crate::words::pages::distances;

/// Columns of the table before the last.
const COLUMNS: [usize; 2] = [10, 22];

/// The screen.
#[derive(Debug)]
pub(crate) struct DistancesScreen {
    at: Distances,
    scroll: u16,
}

impl DistancesScreen {
    /// For the card and the estimate on screen; works the distances out once.
    pub fn of(model: &Model) -> Self {
        Self {
            at: Distances::of(&case(&model.timeline().card)),
            scroll: 0,
        }
    }

    fn table(&self, tear: &TearEstimate, model: &Model) -> Vec<Row> {
        let [first, second] = COLUMNS;
        let [paper_at, likely_there, within] = distances::COLUMNS;
        let head = format!("{paper_at:<first$}{likely_there:<second$}{within}");
        let mut rows = vec![row(head, Role::Title)];
        for at in &self.at.others {
            let (likely, spread) = there(at, tear);
            let is_second = (at.distance_m - self.at.second_m).abs() < 1e-9;
            let (role, note) = if is_second {
                (Role::Strong, format!("   {}", distances::SECOND))
            } else {
                (Role::Text, String::new())
            };
            let line = format!(
                "{:<first$}{:<second$}{}{note}",
                distances::paper(at.distance_m, model.system),
                words::tear(likely, model.system),
                model.system.tear(spread)
            );
            rows.push(row(line, role));
        }
        rows
    }
}

/// The likely tear at another distance, and the radius that holds two of three.
fn there(at: &AtDistance, here: &TearEstimate) -> (Tear, f64) {
    let ([right, up], sd) = at.there([here.right, here.up], here.sd);
    (Tear::new(right, up), (sd * words::TWO_OF_THREE).max(1.0))
}

impl Screen for DistancesScreen {
    fn scope(&self) -> Scope {
        Scope::Reading
    }
    fn title(&self, _model: &Model) -> String {
        "The same arrow at other distances".into()
    }
    fn about(&self) -> &'static str {
        crate::words::screens::DISTANCES
    }
    fn act(&mut self, action: Action, _model: &Model) -> Vec<Effect> {
        self.scroll = scrolled(self.scroll, action);
        Vec::new()
    }
    fn draw(&self, model: &Model, paint: &mut Paint<'_>, area: Rect) {
        let stop = model.stop_line();
        let mut rows = match &stop {
            Some(stop) => wrap(stop, Role::Bad, area.width, 0),
            None => Vec::new(),
        };
        let mut say = |text: &str, role| {
            rows.extend(wrap(text, role, area.width, 0));
        };
        let (here, system) = (self.at.here_m, model.system);
        if self.at.others.is_empty() {
            say(distances::NO_LAUNCH, Role::Warn);
        } else if let Some(tear) = &model.analysis.advice.estimate.tear_mm {
            let likely = Tear::new(tear.right, tear.up);
            say(&distances::here(here, likely, system), Role::Strong);
            rows.push(Row::new());
            rows.extend(self.table(tear, model));
        } else {
            let unknown = distances::nothing_known(here, stop.is_none(), system);
            say(&unknown, Role::Strong);
        }
        // Where a second sheet goes is a matter for the next shot.
        if !self.at.others.is_empty() && stop.is_none() {
            rows.push(Row::new());
            let second = distances::second_sheet(self.at.wave_m, self.at.second_m, system);
            rows.extend(wrap(&second, Role::Text, area.width, 0));
            let widest = distances::widest_swing(system);
            rows.extend(wrap(&widest, Role::Text, area.width, 0));
        }
        paint.scrolled(area, &rows, self.scroll);
    }
}
