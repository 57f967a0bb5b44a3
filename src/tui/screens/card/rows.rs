//! How the lines of the card read, and what stands under them.

use ratatui::layout::Rect;

use crate::gear::Card;
use crate::gear::field::{self, Field, FieldKind};
use crate::look::Role;
use crate::tui::draw::list;
use crate::tui::draw::paint::{Paint, Row, fit, row, wrap};
use crate::tui::model::Model;
use crate::tui::screens::card::keys::{EARLIER, FOLD, NAME, START, heading, label, shown};
use crate::tui::screens::card::{CardScreen, adjusters, drawing};
use crate::units::System;
use crate::words::pages::card as page;

/// Columns for a usual value before the word that it wants checking.
const VALUE: usize = 14;

/// Rows at the bottom for what the line means.
const EXPLAIN: u16 = 4;

/// The section a line stands under.
fn section_of(key: &str) -> &str {
    match key.strip_prefix(FOLD) {
        Some(section) => section,
        None => key.rsplit_once('.').map_or("", |(section, _)| section),
    }
}

impl CardScreen {
    /// What is wrong with the card or unusual on it: which line, and in words.
    fn problems(&self) -> Vec<(String, String)> {
        match Card::read(&self.with_changes()) {
            Ok((_, warnings)) => warnings
                .iter()
                .map(|w| (w.field.clone(), w.message.clone()))
                .collect(),
            Err(problems) => problems
                .iter()
                .map(|p| (p.field.clone(), p.to_string()))
                .collect(),
        }
    }

    /// Every problem: in full on the last line and where it is of the line the
    /// cursor is on; of the others the names of their lines.
    fn concerns(&self, key: &str, width: u16) -> Vec<Row> {
        let all = self.problems();
        let here = |(field, _): &&(String, String)| key == START || field == key;
        let mut own: Vec<&str> = all.iter().filter(here).map(|p| p.1.as_str()).collect();
        if own.is_empty() {
            own.extend(all.first().map(|p| p.1.as_str()));
        }
        let others = all.iter().filter(|p| !own.contains(&p.1.as_str()));
        let names: Vec<String> = others.map(|p| label(&p.0)).collect();
        let mut rows = Vec::new();
        for text in &own {
            rows.extend(wrap(text, Role::Warn, width, 2));
        }
        if !names.is_empty() {
            let text = format!("also to look at: {}", names.join(", "));
            rows.extend(wrap(&text, Role::Warn, width, 2));
        }
        rows
    }

    /// The title of the page: which card, and how far it is confirmed.
    pub(crate) fn named(&self) -> String {
        let name = match &self.path {
            Some(path) => format!("Card of the new session {}", path.display()),
            None => "Card".into(),
        };
        self.progress()
            .map_or(name.clone(), |done| format!("{name}, {done}"))
    }

    /// How many of the values on the card are confirmed, where some are not:
    /// `7 of 18 confirmed`.
    fn progress(&self) -> Option<String> {
        let keys = self.keys().into_iter();
        let filled: Vec<String> = keys
            .filter(|k| adjusters::does(k).is_none() && !self.text(k).is_empty())
            .collect();
        let open = filled.iter().filter(|k| self.unchecked(k)).count();
        let done = filled.len() - open;
        (open > 0).then(|| format!("{done} of {} confirmed", filled.len()))
    }

    /// Draws the lines, and under them what the one with the cursor means;
    /// beside that, where it is measured.
    pub(crate) fn draw_lines(&self, model: &Model, paint: &mut Paint<'_>, area: Rect) {
        let drawing = drawing::of(&self.key(), &self.text("bow.hand"));
        let drawing = drawing.filter(|_| drawing::fits(area));
        let beside = if drawing.is_some() {
            drawing::WIDE + 2
        } else {
            0
        };
        let explain = self.explain(area.width - beside, model.system);
        let most = if self.key() == START {
            area.height
        } else if drawing.is_some() {
            drawing::HIGH + 1
        } else {
            EXPLAIN
        };
        let least = drawing.map_or(2, |_| drawing::HIGH);
        let foot = (explain.len() as u16)
            .clamp(least, most)
            .min(area.height / 2);
        let body = Rect::new(area.x, area.y, area.width, area.height - foot);
        let rows = self.list_rows(model, usize::from(area.width.saturating_sub(2)));
        list::draw(paint, body, &rows, self.at);
        let below = Rect::new(area.x, area.bottom() - foot, area.width, foot);
        paint.rows(
            Rect {
                width: area.width - beside,
                ..below
            },
            &explain,
        );
        if let Some(drawing) = drawing {
            drawing::draw(drawing, paint, below);
        }
    }

    fn list_rows(&self, model: &Model, room: usize) -> Vec<(Row, Option<usize>)> {
        let mut rows: Vec<(Row, Option<usize>)> = Vec::new();
        let mut section = String::new();
        let odd = self.problems();
        for (i, key) in self.keys().iter().enumerate() {
            let own = section_of(key);
            if key == adjusters::ADD {
                let listed = adjusters::rows(&self.with_changes(), model.system, room);
                rows.extend(listed.into_iter().map(|r| (r, None)));
            } else if key == EARLIER || (key == START && !self.taught) {
                rows.push((Row::new(), None));
            } else if key != START && own != section {
                section = own.to_owned();
                rows.push((row(heading(&section), Role::Title), None));
            }
            let line = match key.as_str() {
                EARLIER => self.earlier_row(model.timeline(), room),
                _ => self.row(key, room, model.system, odd.iter().any(|p| p.0 == *key)),
            };
            rows.push((line, Some(i)));
        }
        rows
    }

    fn row(&self, key: &str, room: usize, system: System, odd: bool) -> Row {
        if let Some(section) = key.strip_prefix(FOLD) {
            let (name, does) = self.fold_line(section, room.saturating_sub(NAME));
            return vec![
                (format!("{name:<NAME$}"), Role::Faint),
                (fit(&does, room.saturating_sub(NAME)), Role::Faint),
            ];
        }
        let name = label(key);
        let value = shown(key, self.text(key));
        let does = match key {
            START => Some(page::STARTS),
            _ => adjusters::does(key),
        };
        if let Some(does) = does {
            return vec![
                (format!("{name:<NAME$}"), Role::Text),
                (fit(does, room.saturating_sub(NAME)), Role::Faint),
            ];
        }
        let needed = field::find(key).is_some_and(|f| f.required) && value.is_empty();
        let usual = self.unchecked(key);
        let waiting = if self.changes.contains_key(key) {
            "* "
        } else {
            ""
        };
        let (value, role) = match (value.is_empty(), needed) {
            (true, true) => ("needed".to_owned(), Role::Warn),
            (true, false) => {
                let usual = adjusters::usual(key, &self.base, system);
                let text = usual.map_or("not given".to_owned(), |u| format!("usual: {u}"));
                (text, Role::Faint)
            }
            _ => (format!("{waiting}{value}"), Role::Text),
        };
        let mut row = vec![
            (format!("{name:<NAME$}"), Role::Text),
            (fit(&value, room.saturating_sub(NAME)), role),
        ];
        let mark = match key {
            "bow.peak_weight" if self.weigh => Some("weigh it"),
            _ if usual && odd => Some("check it: unusual"),
            _ if usual => Some("check it"),
            // Every one of them, not only the first.
            _ if odd => Some("unusual"),
            _ => None,
        };
        if let Some(mark) = mark.filter(|_| role == Role::Text) {
            let gap = VALUE.saturating_sub(row[1].0.chars().count());
            row.push((" ".repeat(gap), Role::Text));
            row.push((mark.into(), Role::Warn));
        }
        row
    }

    pub(crate) fn explain(&self, width: u16, system: System) -> Vec<Row> {
        let key = self.key();
        if key == EARLIER {
            return wrap(self.earlier_about(), Role::Faint, width, 0);
        }
        if key == START {
            let mut rows = wrap(page::THEN, Role::Faint, width, 0);
            rows.extend(self.concerns(&key, width));
            return rows;
        }
        if let Some(section) = key.strip_prefix(FOLD) {
            let (_, does) = self.fold_line(section, usize::MAX);
            return wrap(&does, Role::Faint, width, 0);
        }
        if let Some(text) = adjusters::explain(&key, &self.base, system) {
            return wrap(&text, Role::Faint, width, 0);
        }
        let mut rows = match field::find(&key) {
            Some(Field { doc, kind, .. }) => {
                let example = crate::words::card_example(&key, system);
                let fixed = matches!(kind, FieldKind::Flag | FieldKind::Choice(_));
                let like = if fixed {
                    "; left and right change it".to_owned()
                } else if example.is_empty() {
                    String::new()
                } else {
                    format!("; such as {example}")
                };
                wrap(&format!("{doc}{like}"), Role::Faint, width, 0)
            }
            None => wrap(&key, Role::Faint, width, 0),
        };
        rows.extend(self.concerns(&key, width));
        rows
    }
}
