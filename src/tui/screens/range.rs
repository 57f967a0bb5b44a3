//! The range safety list: eight short items, read and answered with one key.
//!
//! ```text
//! +- Range safety list ------------------------------+
//! | Read all eight. Enter: all in order.             |
//! |   Backstop far enough behind the sheet: ...      |
//! |   Nobody beside or past the sheet: ...           |
//! | > ALL IN ORDER                                   |
//! |   at another place                               |
//! +--------------------------------------------------+
//! ```

use ratatui::layout::Rect;

use crate::actions::{Action, Scope, Situation};
use crate::look::Role;
use crate::question::RangeItem;
use crate::range;
use crate::session::RangeSaid;
use crate::tui::draw::list;
use crate::tui::draw::paint::{Paint, Row, row, under, wrap};
use crate::tui::effects::{Effect, complain, record};
use crate::tui::model::Model;
use crate::tui::screen::Screen;
use crate::tui::travel::chosen;
use crate::words::pages::setup as page;

/// The line that answers the whole list.
const ALL: usize = RangeItem::ALL.len();
/// The line that says that the bench stands elsewhere.
const ELSEWHERE: usize = ALL + 1;

/// The screen.
#[derive(Debug)]
pub(crate) struct RangeScreen {
    at: usize,
}

impl Default for RangeScreen {
    fn default() -> Self {
        Self { at: ALL }
    }
}

impl RangeScreen {
    fn choose(&mut self, model: &Model) -> Vec<Effect> {
        let said = match self.at {
            ALL => match range::all_in_order(model.timeline(), model.today()) {
                Ok(said) => said,
                Err(_) => {
                    // The cursor goes to what is in the way.
                    let off = RangeItem::ALL.iter().position(|i| is_off(model, *i));
                    self.at = off.unwrap_or(ALL);
                    return complain(page::PUT_RIGHT);
                }
            },
            ELSEWHERE => RangeSaid::OtherPlace,
            at => match RangeItem::ALL[at] {
                item if is_off(model, item) => RangeSaid::InOrder(item),
                item => RangeSaid::Off(item),
            },
        };
        let mut effects = record(said.event());
        match said {
            RangeSaid::AllInOrder(_) => {
                // What comes before every shot stands beside the verdict.
                effects.push(Effect::Say(crate::words::range_said(said)));
                effects.push(Effect::Close);
            }
            RangeSaid::Off(_) => {
                effects.push(Effect::Complain(page::off(&crate::words::range_said(said))));
            }
            _ => effects.push(Effect::Say(crate::words::range_said(said))),
        }
        effects
    }
}

fn is_off(model: &Model, item: RangeItem) -> bool {
    range::is_off(model.timeline(), model.today(), item)
}

fn head(model: &Model) -> (&'static str, Role) {
    let virtual_bow = model.practice.is_some() || model.demo;
    let due = range::due(model.timeline(), model.today());
    let role = match due {
        _ if virtual_bow => Role::Text,
        None => Role::Good,
        Some(_) => Role::Warn,
    };
    (page::range_head(virtual_bow, due), role)
}

impl Screen for RangeScreen {
    fn scope(&self) -> Scope {
        Scope::Choice
    }
    fn title(&self, _model: &Model) -> String {
        crate::words::RANGE_TITLE.into()
    }
    fn about(&self) -> &'static str {
        crate::words::screens::RANGE
    }
    fn adjust(&self, now: &mut Situation) {
        now.undoable = true;
    }
    fn act(&mut self, action: Action, model: &Model) -> Vec<Effect> {
        if action != Action::Choose {
            self.at = chosen(self.at, ELSEWHERE + 1, action);
            return Vec::new();
        }
        self.choose(model)
    }
    fn recorded(&mut self, _entry: u32, _model: &Model) -> Vec<Effect> {
        self.at = ALL;
        Vec::new()
    }
    fn draw(&self, model: &Model, paint: &mut Paint<'_>, area: Rect) {
        let (text, role) = head(model);
        let stop = model.stop_line();
        let stop = stop.map_or_else(Vec::new, |stop| wrap(&stop, Role::Bad, area.width, 0));
        let mut top = stop;
        top.extend(wrap(text, role, area.width, 0));
        let used = paint.rows(area, &top);
        let rest = under(area, used);
        let card = &model.timeline().card;
        let mut rows: Vec<(Row, Option<usize>)> = Vec::new();
        for (i, item) in RangeItem::ALL.into_iter().enumerate() {
            let off = is_off(model, item);
            let mark = if off { "OFF " } else { "" };
            let text = format!(
                "{mark}{}: {}",
                crate::words::range_item(item),
                crate::words::range_look(item, card, model.system)
            );
            let role = if off { Role::Bad } else { Role::Text };
            rows.extend(list::wrapped(&text, role, i, area.width, 4));
        }
        rows.push((row("ALL IN ORDER", Role::Strong), Some(ALL)));
        rows.push((row(page::ELSEWHERE, Role::Text), Some(ELSEWHERE)));
        list::draw(paint, rest, &rows, self.at);
    }
}
