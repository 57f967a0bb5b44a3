//! Before paper: the checklist, item by item, the range first.
//!
//! ```text
//! +- Before paper -------------------------------------+
//! | 3 of 35 items done. SAFETY FIRST: ...              |
//! | RANGE SAFE                                         |
//! |   ok       Backstop behind the sheet    1.4 m      |
//! | > to do    Backstop large enough for a miss        |
//! |                                                    |
//! | how, wanted, worked out, what follows if it is off |
//! +----------------------------------------------------+
//! ```

use ratatui::layout::Rect;

use crate::actions::{Action, Scope};
use crate::gear::Card;
use crate::look::Role;
use crate::session::Event;
use crate::setup::{self, ItemState, Judged, Measure, SetupError};
use crate::step::State;
use crate::tui::draw::list;
use crate::tui::draw::paint::{Paint, Row, flow, under, wrap};
use crate::tui::draw::steps::{self, Listed};
use crate::tui::effects::{Effect, ask, complain, record, say};
use crate::tui::model::Model;
use crate::tui::prompt::{Echo, Prompt, Purpose};
use crate::tui::screen::Screen;
use crate::tui::travel::chosen;
use crate::units::System;
use crate::words::pages::setup as page;
use crate::words::setup as said;

/// The screen.
pub(crate) struct SetupScreen {
    at: usize,
    scroll: u16,
    /// Work at the press was said last, and no item.
    pressed: bool,
}

impl SetupScreen {
    /// With the cursor on what is to be done next.
    pub fn of(model: &Model) -> Self {
        let list = setup::checklist(model.timeline());
        Self {
            at: next_from(&list, 0).unwrap_or(0),
            scroll: 0,
            pressed: false,
        }
    }

    fn item(&self, model: &Model) -> Option<ItemState> {
        setup::checklist(model.timeline()).into_iter().nth(self.at)
    }

    fn typed(&self, model: &Model, text: &str) -> Vec<Effect> {
        self.item(model).map_or_else(Vec::new, |found| {
            ask(Prompt::with(
                Purpose::Screen,
                said::title(found.item.id),
                text,
            ))
        })
    }

    /// Says how the item stands that was just recorded, and goes on to the next.
    fn judged(&mut self, model: &Model) -> Vec<Effect> {
        self.scroll = 0;
        let list = setup::checklist(model.timeline());
        let Some(now) = list.get(self.at) else {
            return Vec::new();
        };
        let (title, card) = (said::title(now.item.id), &model.timeline().card);
        let said = match now.state {
            State::Off => {
                let note = now.note.as_ref().map_or_else(
                    || {
                        said::told(now.item.id, card, model.system)
                            .if_off
                            .to_owned()
                    },
                    |found| clean_long(&said::judged(found, card, model.system)),
                );
                return complain(format!("{title}: OFF. {note}"));
            }
            State::Skipped => crate::words::pages::proof::left_out(title),
            _ => {
                let note = now.note.as_ref().filter(|n| n.found != Judged::InOrder);
                let note = note.map_or(String::new(), |n| {
                    format!(", {}", clean_long(&said::judged(n, card, model.system)))
                });
                format!("{title}: ok{note}")
            }
        };
        match next_from(&list, self.at) {
            Some(next) => {
                self.at = next;
                say(said)
            }
            None => {
                let summary = said::summary(&setup::summary(&list));
                say(page::now_paper(&summary))
            }
        }
    }
}

/// The entry of an item, or what is wrong with what was said of it.
fn taken(event: Result<Event, SetupError>) -> Vec<Effect> {
    event.map_or_else(|error| complain(error.to_string()), record)
}

/// The first item to do from a place on, then from the top.
fn next_from(list: &[ItemState], from: usize) -> Option<usize> {
    let open = |i: &usize| !list[*i].state.is_answered();
    (from..list.len())
        .find(open)
        .or_else(|| (0..from.min(list.len())).find(open))
}

fn clean_long(text: &str) -> String {
    crate::tui::draw::paint::safe(text)
}

/// Everything about one item.
fn about_item(s: &ItemState, (card, system): (&Card, System), width: u16) -> Vec<Row> {
    let keys = page::keys(s.item.measure, s.item.gate);
    let mut rows = steps::told(&said::stands(s, card, system), width);
    rows.extend(wrap(&keys, Role::Faint, width, 2));
    rows.extend(steps::told(&said::how(s, card, system), width));
    rows
}

impl Screen for SetupScreen {
    fn scope(&self) -> Scope {
        Scope::Job
    }
    fn title(&self, _model: &Model) -> String {
        "Before paper".into()
    }
    fn about(&self) -> &'static str {
        crate::words::screens::SETUP
    }
    fn act(&mut self, action: Action, model: &Model) -> Vec<Effect> {
        let Some(found) = self.item(model) else {
            return Vec::new();
        };
        let (timeline, id) = (model.timeline(), found.item.id);
        self.pressed = action == Action::PressWork;
        match action {
            Action::Choose => return self.typed(model, ""),
            // A safety item with a figure wants the figure, so it is asked for.
            Action::InOrder if found.item.gate && found.item.measure != Measure::Look => {
                return self.typed(model, "");
            }
            Action::InOrder => return taken(setup::by_word(timeline, id, true)),
            Action::NotInOrder => return taken(setup::by_word(timeline, id, false)),
            Action::LeaveOut => return taken(setup::skip(timeline, id)),
            Action::PressWork => return vec![Effect::PressWork],
            Action::Left => self.scroll = self.scroll.saturating_sub(1),
            Action::Right => self.scroll = (self.scroll + 1).min(100),
            _ => {
                let len = setup::items(&timeline.card).len();
                self.at = chosen(self.at, len, action);
                self.scroll = 0;
            }
        }
        Vec::new()
    }
    fn digit(&mut self, digit: char, model: &Model) -> Vec<Effect> {
        self.typed(model, &digit.to_string())
    }
    fn echo(&self, text: &str, model: &Model) -> Echo {
        let Some(found) = self.item(model) else {
            return Echo::Nothing;
        };
        if text.trim().is_empty() {
            return Echo::Hint(said::example(found.item.measure).into());
        }
        match setup::judge(model.timeline(), found.item.id, text) {
            Ok(found) => {
                let state = if found.ok { "ok" } else { "OFF" };
                let text = said::judged(&found, &model.timeline().card, model.system);
                Echo::Reads(format!("{state}: {text}"))
            }
            Err(error) => Echo::Wrong {
                at: 0,
                len: 0,
                text: error.why.to_string(),
            },
        }
    }
    fn answer(&mut self, text: &str, model: &Model) -> Result<Vec<Effect>, String> {
        let Some(found) = self.item(model).filter(|_| !text.trim().is_empty()) else {
            return Ok(Vec::new());
        };
        self.pressed = false;
        let event = setup::record(model.timeline(), found.item.id, text);
        // The line that is typed on has the item's name.
        Ok(record(event.map_err(|e| e.why.to_string())?))
    }
    fn recorded(&mut self, _entry: u32, model: &Model) -> Vec<Effect> {
        if self.pressed {
            self.at = next_from(&setup::checklist(model.timeline()), 0).unwrap_or(self.at);
            return Vec::new();
        }
        self.judged(model)
    }
    fn draw(&self, model: &Model, paint: &mut Paint<'_>, area: Rect) {
        let list = setup::checklist(model.timeline());
        let mut head = wrap(
            &format!("{}.", said::summary(&setup::summary(&list))),
            Role::Text,
            area.width,
            0,
        );
        if let Some(open) = said::safety_open(&setup::safety_open(&list)) {
            let text = &format!("Before the first shot: {open}.");
            head = flow(
                &[
                    (
                        &format!("{}. ", said::summary(&setup::summary(&list))),
                        Role::Text,
                    ),
                    (text, Role::Warn),
                ],
                area.width,
                0,
            );
        }
        // What forbids a shot, or the range safety list, stands above all.
        if let Some(stop) = model.stop_line() {
            head.splice(0..0, wrap(&stop, Role::Bad, area.width, 0));
        } else if let Some(text) = model.range_first() {
            head.splice(0..0, wrap(&text, Role::Warn, area.width, 0));
        }
        let used = paint.rows(area, &head);
        let rest = under(area, used);
        let rows = list.iter().map(|s| Listed {
            part: said::part(s.item.part),
            value: s.value.clone().filter(|v| v != "ok"),
            ..Listed::new(s.state, said::title(s.item.id))
        });
        let rows = steps::lines(rows, area.width);
        let text = list.get(self.at).map_or_else(Vec::new, |s| {
            about_item(s, (&model.timeline().card, model.system), area.width)
        });
        list::with_text(paint, rest, &rows, self.at, &text, self.scroll);
    }
}
