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

use super::list;
use super::paint::{Paint, Row, fit, flow, row, under, wrap};
use crate::actions::{Action, Scope};
use crate::look::Role;
use crate::question::Work;
use crate::session::Event;
use crate::setup::{self, ItemState, Measure, SetupError, State};
use crate::tui::input::chosen;
use crate::tui::model::Model;
use crate::tui::prompt::{Echo, Prompt, Purpose};
use crate::tui::screens::{Flow, Screen};
use crate::tui::state::App;
use crate::units::clean;

/// Columns of the state word.
const STATE: usize = 9;
/// Columns of an item's name.
const NAME: usize = 39;

/// The screen.
pub struct SetupScreen {
    at: usize,
    scroll: u16,
}

impl SetupScreen {
    /// With the cursor on what is to be done next.
    pub fn of(model: &Model) -> Self {
        let list = setup::checklist(model.timeline());
        Self {
            at: next_from(&list, 0).unwrap_or(0),
            scroll: 0,
        }
    }

    fn item(&self, model: &Model) -> Option<ItemState> {
        setup::checklist(model.timeline()).into_iter().nth(self.at)
    }

    fn ask(&self, app: &mut App, text: &str) {
        if let Some(found) = self.item(app) {
            app.prompt = Some(Prompt::with(Purpose::Screen, found.item.title, text));
        }
    }

    fn take(&mut self, event: Result<Event, SetupError>, app: &mut App) -> Result<(), String> {
        let event = event.map_err(|e| e.to_string())?;
        app.record(event)?;
        self.scroll = 0;
        let list = setup::checklist(app.timeline());
        let Some(now) = list.get(self.at) else {
            return Ok(());
        };
        let title = now.item.title;
        let note = now.note.as_deref().map(clean_long);
        match now.state {
            State::Off => {
                let note = note.unwrap_or_else(|| now.item.if_off.to_owned());
                app.complain(format!("{title}: OFF. {note}"));
                return Ok(());
            }
            State::Skipped => app.say(format!("{title}: left out, on the record")),
            _ => {
                let note = note.filter(|n| n != "in order");
                let note = note.map_or(String::new(), |n| format!(", {n}"));
                app.say(format!("{title}: ok{note}"));
            }
        }
        match next_from(&list, self.at) {
            Some(next) => self.at = next,
            None => {
                let summary = setup::summary(&list);
                app.say(format!(
                    "{summary}: now paper. Esc, then type the first tear"
                ));
            }
        }
        Ok(())
    }

    fn try_take(&mut self, event: Result<Event, SetupError>, app: &mut App) {
        if let Err(problem) = self.take(event, app) {
            app.complain(problem);
        }
    }
}

/// Records work at the press that is no move of an adjuster.
pub(super) fn press_work(app: &mut App) {
    let events = setup::work_done(Work::PressWork);
    if let Err(problem) = app.record_together(events) {
        return app.complain(problem);
    }
    let list = setup::checklist(app.timeline());
    let due = list.iter().filter(|s| matches!(s.state, State::Again(_)));
    let due = crate::words::count(due.count(), "item");
    app.say(format!(
        "press work recorded: {due} due again, the likely tear is forgotten"
    ));
}

/// The first item to do from a place on, then from the top.
fn next_from(list: &[ItemState], from: usize) -> Option<usize> {
    let open = |i: &usize| matches!(list[*i].state, State::Open | State::Again(_));
    (from..list.len())
        .find(open)
        .or_else(|| (0..from.min(list.len())).find(open))
}

fn clean_long(text: &str) -> String {
    super::paint::safe(text)
}

fn state_role(state: &State) -> Role {
    match state {
        State::Ok => Role::Good,
        State::Off => Role::Bad,
        State::Again(_) => Role::Warn,
        State::Open | State::Skipped => Role::Faint,
    }
}

/// The lines of the list, under the headings of its parts.
fn lines(list: &[ItemState], width: u16) -> Vec<(Row, Option<usize>)> {
    let mut rows = Vec::new();
    let mut part = None;
    for (i, s) in list.iter().enumerate() {
        if part != Some(s.item.part) {
            part = Some(s.item.part);
            rows.push((row(s.item.part.title().to_uppercase(), Role::Title), None));
        }
        let room = usize::from(width).saturating_sub(2 + STATE);
        let name = fit(s.item.title, room);
        let mut line = vec![
            (format!("{:<STATE$}", s.state.word()), state_role(&s.state)),
            (format!("{name:<NAME$} "), Role::Text),
        ];
        let value = s.value.as_deref().filter(|v| *v != "ok" && room > NAME + 9);
        if let Some(value) = value {
            line.push((fit(&clean(value), room - NAME - 1), Role::Strong));
        }
        rows.push((line, Some(i)));
    }
    rows
}

/// Everything about one item.
fn about_item(s: &ItemState, width: u16) -> Vec<Row> {
    let mut rows = Vec::new();
    let mut add = |name: &str, text: &str, role: Role| {
        rows.extend(flow(&[(name, Role::Strong), (text, role)], width, 2));
    };
    if let State::Again(why) = s.state {
        add("Due again: ", why, Role::Warn);
    }
    if let Some(note) = &s.note {
        let role = if s.state == State::Off {
            Role::Warn
        } else {
            Role::Text
        };
        add("Found: ", note, role);
    }
    let keys = match s.item.measure {
        Measure::Look if s.item.gate => "y ok, x off; Enter says what was found".to_owned(),
        Measure::Look => "y ok, x off, s skip; Enter says what was found".to_owned(),
        Measure::Note => "Enter writes it down; y done but not written, s skip".to_owned(),
        measure if s.item.gate => format!("Enter or a digit types it: {}", measure.example()),
        measure => format!(
            "Enter or a digit types it: {}; y in order but not measured, s skip",
            measure.example()
        ),
    };
    add("", &keys, Role::Faint);
    if let Some(caution) = s.item.caution {
        add("Careful: ", crate::words::caution(caution), Role::Warn);
    }
    add("How: ", &s.item.how, Role::Text);
    let wanted = format!("{} ({})", s.item.start, s.item.standing.words());
    add("Wanted: ", &wanted, Role::Text);
    if let Some(computed) = &s.item.computed {
        add("Worked out: ", computed, Role::Text);
    }
    // What follows stands in what was found already.
    if s.note.as_deref().is_none_or(|n| !n.contains(s.item.if_off)) {
        add("If off: ", s.item.if_off, Role::Text);
    }
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
        "What is checked before the first shot, in working order for this bow. A figure is typed with its unit and judged; what is judged by eye takes one key. The range safety list is a screen of its own. Press work that is no move of an adjuster is said with a key: what it changes is then due again. Nothing here stops you from recording a shot. Left and right scroll the text."
    }
    fn act(&mut self, action: Action, app: &mut App) -> Flow {
        let Some(found) = self.item(app) else {
            return Flow::Stay;
        };
        let (timeline, id) = (app.timeline(), found.item.id);
        match action {
            Action::Choose => self.ask(app, ""),
            // A safety item with a figure wants the figure, so it is asked for.
            Action::InOrder if found.item.gate && found.item.measure != Measure::Look => {
                self.ask(app, "");
            }
            Action::InOrder => self.try_take(setup::by_word(timeline, id, true), app),
            Action::NotInOrder => self.try_take(setup::by_word(timeline, id, false), app),
            Action::LeaveOut => self.try_take(setup::skip(timeline, id), app),
            Action::PressWork => {
                press_work(app);
                self.at = next_from(&setup::checklist(app.timeline()), 0).unwrap_or(self.at);
            }
            Action::Left => self.scroll = self.scroll.saturating_sub(1),
            Action::Right => self.scroll = (self.scroll + 1).min(100),
            _ => {
                let len = setup::items(&timeline.card).len();
                self.at = chosen(self.at, len, action);
                self.scroll = 0;
            }
        }
        Flow::Stay
    }
    fn digit(&mut self, digit: char, app: &mut App) -> Flow {
        self.ask(app, &digit.to_string());
        Flow::Stay
    }
    fn echo(&self, text: &str, model: &Model) -> Echo {
        let Some(found) = self.item(model) else {
            return Echo::Nothing;
        };
        if text.trim().is_empty() {
            return Echo::Hint(found.item.measure.example().into());
        }
        match setup::judge(model.timeline(), found.item.id, text) {
            Ok(judged) if judged.ok => Echo::Reads(format!("ok: {}", judged.text)),
            Ok(judged) => Echo::Reads(format!("OFF: {}", judged.text)),
            Err(error) => Echo::Wrong {
                at: 0,
                len: 0,
                text: error.problem,
            },
        }
    }
    fn answer(&mut self, text: &str, app: &mut App) -> Result<Flow, String> {
        let Some(found) = self.item(app).filter(|_| !text.trim().is_empty()) else {
            return Ok(Flow::Stay);
        };
        self.take(setup::record(app.timeline(), found.item.id, text), app)?;
        Ok(Flow::Stay)
    }
    fn draw(&self, model: &Model, paint: &mut Paint<'_>, area: Rect) {
        let list = setup::checklist(model.timeline());
        let mut head = wrap(
            &format!("{}.", setup::summary(&list)),
            Role::Text,
            area.width,
            0,
        );
        if let Some(open) = setup::safety_open(&list) {
            let text = &format!("SAFETY FIRST: {open}. No shot before that.");
            head = flow(
                &[
                    (&format!("{}. ", setup::summary(&list)), Role::Text),
                    (text, Role::Warn),
                ],
                area.width,
                0,
            );
        }
        // What forbids a shot, or the range safety list, stands above all.
        if let Some(stop) = crate::advice::stopped(model.timeline()) {
            head.splice(
                0..0,
                wrap(&crate::words::stop_line(&stop), Role::Bad, area.width, 0),
            );
        } else if let Some(due) = crate::range::due(model.timeline(), model.today()) {
            let text = format!(
                "{} (Esc, then {})",
                crate::words::range_due(due),
                model.by_name(Action::Range)
            );
            head.splice(0..0, wrap(&text, Role::Warn, area.width, 0));
        }
        let used = paint.rows(area, &head);
        let rest = under(area, used);
        let rows = lines(&list, area.width);
        let text = list
            .get(self.at)
            .map_or_else(Vec::new, |s| about_item(s, area.width));
        list::with_text(paint, rest, &rows, self.at, &text, self.scroll);
    }
}
