//! Every entry, newest at the bottom.
//!
//! ```text
//! +- Log --------------------------------------+
//! |    1 10:02 shot 15 mm left, 8 mm high      |
//! |    2 10:04 move made: Rest OUT 1.50 mm     |
//! | >  3 10:09 shot 4 mm left (undone)         |
//! +--------------------------------------------+
//! ```

use std::path::Path;

use ratatui::layout::Rect;

use crate::actions::{Action, Scope};
use crate::advice::advise;
use crate::checks::safety::{self, Danger};
use crate::gear::parse_moves;
use crate::look::Role;
use crate::session::hand_over::HandedOver;
use crate::session::lock::{CONSOLE, GLANCE};
use crate::session::{Event, Session};
use crate::tui::draw::list;
use crate::tui::draw::paint::{Paint, Row, row, wrap};
use crate::tui::effects::{Effect, ask, complain, record, say};
use crate::tui::model::Model;
use crate::tui::prompt::{Echo, Prompt, Purpose};
use crate::tui::screen::Screen;
use crate::tui::travel::chosen;
use crate::tui::wording;
use crate::words::{self, pages::log as page};

/// Columns of the number and the time before an entry.
const HEAD: u16 = 11;

/// What a line is being typed for.
#[derive(Debug, Clone, PartialEq, Eq)]
enum Typing {
    /// A move made before this entry.
    Move(u32),
    /// The file these shots go to.
    Shots(Vec<u32>),
}

/// The screen.
pub(crate) struct LogScreen {
    at: usize,
    typing: Option<Typing>,
    /// What was typed when it was said what it does: Enter does it.
    told: Option<String>,
    /// The move that is being placed, in words.
    placed: Option<String>,
    /// What is said of an entry that is being undone or redone, and what
    /// forbade the next shot before.
    toggled: Option<(String, Vec<Danger>)>,
    /// That the bow was put back is being recorded.
    put_back: bool,
}

impl LogScreen {
    /// With the cursor on the newest entry.
    pub fn of(model: &Model) -> Self {
        Self {
            at: model.session().entries().len().saturating_sub(1),
            typing: None,
            told: None,
            placed: None,
            toggled: None,
            put_back: false,
        }
    }

    fn number(&self, model: &Model) -> Option<u32> {
        model.session().entries().get(self.at).map(|e| e.number)
    }

    /// Asks which move was made before the shot the cursor is on, or before
    /// the next one: the cursor goes there.
    fn ask_move(&mut self, model: &Model) -> Vec<Effect> {
        let Some(number) = self.number(model) else {
            return complain(page::NO_ENTRY);
        };
        let mut shots = model.timeline().shots.iter().map(|s| s.entry);
        let Some(shot) = shots.find(|entry| *entry >= number) else {
            let key = model.by_name(Action::OwnMove);
            return complain(page::no_shot_follows(&key));
        };
        let entries = model.session().entries();
        self.at = entries
            .iter()
            .position(|e| e.number == shot)
            .unwrap_or(self.at);
        self.ask(Typing::Move(shot), format!("Move made before {shot}"))
    }

    /// Asks which session the shots from the cursor on go to.
    fn ask_file(&mut self, model: &Model) -> Vec<Effect> {
        let Some(number) = self.number(model) else {
            return complain(page::NO_ENTRY);
        };
        let shots = model.timeline().shots.iter().map(|s| s.entry);
        let all: Vec<u32> = shots.filter(|n| *n >= number).collect();
        if model.session().path().is_none() {
            return complain(page::NOT_IN_A_FILE);
        }
        match HandedOver::of(model.session(), &all) {
            Ok(handed) => {
                let label = format!("Entries {} go to", words::entries(&handed.entries));
                self.ask(Typing::Shots(all), label)
            }
            Err(problem) => complain(problem.to_string()),
        }
    }

    fn ask(&mut self, typing: Typing, label: String) -> Vec<Effect> {
        self.typing = Some(typing);
        self.told = None;
        ask(Prompt::new(Purpose::Screen, label))
    }

    /// Says what was typed does, the first time; goes on once it was said.
    fn was_told(&mut self, text: &str, what: &str) -> Result<(), String> {
        if self.told.as_deref() == Some(text) {
            return Ok(());
        }
        self.told = Some(text.to_owned());
        Err(what.to_owned())
    }

    fn place(&mut self, before: u32, text: &str, model: &Model) -> Result<Vec<Effect>, String> {
        let then = model
            .session()
            .before_shot(before)
            .map_err(|e| e.to_string())?;
        let steps =
            parse_moves(text, &then.card, &then.now, model.system).map_err(|e| e.to_string())?;
        let said = text.chars().take(80).collect();
        let event = model
            .session()
            .placed_move(before, steps.clone(), Some(said));
        let event = event.map_err(|e| e.to_string())?;
        let after = model
            .session()
            .with(event.clone())
            .map_err(|e| e.to_string())?;
        let advice = advise(&after, model.today());
        let lines = words::placed(
            &steps,
            before,
            (model.timeline(), &model.analysis.advice),
            (&after, &advice),
            model.system,
        );
        // What was typed stands on the line already.
        let what = page::places(&lines[1..]);
        self.was_told(text, &what)?;
        self.placed = lines.into_iter().next();
        Ok(record(event))
    }

    fn hand_over(
        &mut self,
        shots: &[u32],
        text: &str,
        model: &Model,
    ) -> Result<Vec<Effect>, String> {
        let path = model.new_path(text);
        if !path.is_file() {
            return Err(page::no_session(&path.display().to_string()));
        }
        let same = |a: &Path, b: &Path| a.canonicalize().ok() == b.canonicalize().ok();
        if model.session().path().is_some_and(|own| same(own, &path)) {
            return Err(page::SAME_SESSION.into());
        }
        // What it is told of the other must be what it is done to.
        let to = Session::open_for_writing(&path, CONSOLE, GLANCE).map_err(|e| e.to_string())?;
        let handed = HandedOver::of(model.session(), shots).map_err(|e| e.to_string())?;
        let (name, system) = (path.display().to_string(), model.system);
        let what = page::hands(&handed.entries, &name, to.timeline(), system);
        self.was_told(text, &what)?;
        Ok(vec![Effect::HandOver {
            shots: shots.to_vec(),
            to: path,
        }])
    }

    fn toggle(&mut self, model: &Model) -> Vec<Effect> {
        let Some(number) = self.number(model) else {
            return complain(page::NO_ENTRY);
        };
        let (event, said) = if model.timeline().undone.contains(&number) {
            let said = page::counts_again(number);
            (Event::Redo { target: number }, said)
        } else {
            let said = page::counts_no_longer(number);
            (Event::Undo { target: number }, said)
        };
        self.toggled = Some((said, safety::dangers(model.timeline())));
        record(event)
    }

    /// The setting an entry led to or was shot at.
    fn setting(&self, model: &Model) -> Option<u32> {
        let timeline = model.timeline();
        let number = model.session().entries().get(self.at)?.number;
        let shot = timeline.shots.iter().find(|s| s.entry == number);
        let by_shot = shot.map(|s| timeline.settings[s.setting].number);
        let by_move = timeline.settings.iter().find(|s| s.by_move == Some(number));
        by_shot.or_else(|| by_move.map(|s| s.number))
    }
}

impl LogScreen {
    /// What is typed reads as a move where the bow stood before that shot.
    fn echo_move(&self, before: u32, text: &str, model: &Model) -> Echo {
        if text.trim().is_empty() {
            return Echo::Hint(page::as_people_say(model.system));
        }
        let Ok(then) = model.session().before_shot(before) else {
            return Echo::Nothing;
        };
        match parse_moves(text, &then.card, &then.now, model.system) {
            Ok(steps) => Echo::Reads(words::steps(&steps, &then.card, model.system)),
            Err(problem) => Echo::Wrong {
                at: 0,
                len: 0,
                text: problem.to_string(),
            },
        }
    }
}

/// That a shot does not count, where it does not, and why.
fn not_counted(model: &Model, entry: u32) -> &'static str {
    let shots = &model.timeline().shots;
    let Some(i) = shots.iter().position(|s| s.entry == entry) else {
        return "";
    };
    if shots[i].shot.called_bad {
        ": not counted"
    } else if model.analysis.is_flier(i) {
        ": a flier, counts little"
    } else {
        ""
    }
}

impl Screen for LogScreen {
    fn scope(&self) -> Scope {
        Scope::Log
    }
    fn title(&self, model: &Model) -> String {
        format!(
            "Log, {}",
            words::counted(model.session().entries().len(), "entry", "entries")
        )
    }
    fn about(&self) -> &'static str {
        crate::words::screens::LOG
    }
    fn act(&mut self, action: Action, model: &Model) -> Vec<Effect> {
        self.placed = None;
        self.toggled = None;
        self.put_back = false;
        match action {
            Action::UndoEntry => self.toggle(model),
            Action::PlaceMove => self.ask_move(model),
            Action::HandOver => self.ask_file(model),
            Action::RestartAt => match self.setting(model) {
                Some(setting) => {
                    self.put_back = true;
                    record(Event::Restart {
                        setting: Some(setting),
                        why: None,
                    })
                }
                None => complain(page::NO_SETTING),
            },
            _ => {
                self.at = chosen(self.at, model.session().entries().len(), action);
                Vec::new()
            }
        }
    }
    fn recorded(&mut self, entry: u32, model: &Model) -> Vec<Effect> {
        if std::mem::take(&mut self.put_back) {
            // The key that undoes an entry undoes this one.
            self.at = model.session().entries().len().saturating_sub(1);
            let undo = model.key(Action::UndoEntry);
            return say(page::back_at(model.timeline().setting().number, &undo));
        }
        if let Some((said, stopped)) = self.toggled.take() {
            let gone = safety::gone(&stopped, model.timeline());
            let lifts = gone.first().map(words::lifted_by_undo);
            return say(format!(
                "{said}{}",
                lifts.map_or(String::new(), |l| format!(". {l}"))
            ));
        }
        let Some(placed) = self.placed.take() else {
            return Vec::new();
        };
        self.typing = None;
        say(page::was_placed(entry, &placed))
    }
    fn echo(&self, text: &str, model: &Model) -> Echo {
        match &self.typing {
            Some(Typing::Move(before)) => self.echo_move(*before, text, model),
            Some(Typing::Shots(_)) if text.trim().is_empty() => Echo::Hint(page::OTHER_FILE.into()),
            Some(Typing::Shots(_)) => Echo::Reads(model.new_path(text).display().to_string()),
            None => Echo::Nothing,
        }
    }
    fn answer(&mut self, text: &str, model: &Model) -> Result<Vec<Effect>, String> {
        let text = text.trim();
        self.placed = None;
        match self.typing.clone().filter(|_| !text.is_empty()) {
            Some(Typing::Move(before)) => self.place(before, text, model),
            Some(Typing::Shots(shots)) => self.hand_over(&shots, text, model),
            None => Ok(Vec::new()),
        }
    }
    fn draw(&self, model: &Model, paint: &mut Paint<'_>, area: Rect) {
        let timeline = model.timeline();
        let room = area.width.saturating_sub(2 + HEAD);
        // Only what can be seen is worded: a session may hold thousands of entries.
        let height = usize::from(area.height);
        let all = model.session().entries();
        let from = self.at.saturating_sub(height);
        let lifted = crate::checks::safety::lifted_by_card(timeline);
        let rows: Vec<(Row, Option<usize>)> = all
            .iter()
            .enumerate()
            .skip(from)
            .take(2 * height + 1)
            .flat_map(|(i, entry)| {
                let undone = timeline.undone.contains(&entry.number);
                let mark = if undone { "(undone) " } else { "" };
                let mut what = wording::entry(&entry.event, &timeline.card, model.system);
                what.push_str(not_counted(model, entry.number));
                if lifted.iter().any(|l| l.entry == entry.number) {
                    what.push_str(" (lifts DO NOT SHOOT)");
                }
                let role = if undone { Role::Faint } else { Role::Text };
                let text = wrap(&format!("{mark}{what}"), role, room, 0);
                let head = format!("{:>4} {} ", entry.number, entry.at.format("%H:%M"));
                text.into_iter().enumerate().map(move |(n, mut line)| {
                    let before = if n == 0 {
                        head.clone()
                    } else {
                        " ".repeat(HEAD.into())
                    };
                    line.insert(0, (before, role));
                    (line, (n == 0).then_some(i))
                })
            })
            .collect();
        if rows.is_empty() {
            paint.rows(area, &[row(page::EMPTY, Role::Faint)]);
        }
        list::lines(paint, area, &rows, self.at);
        // The list holds only what is near: the mark is of all entries.
        if all.len() > height {
            let top = self.at.saturating_sub(height / 2).min(all.len() - height);
            paint.place(area, top, height, all.len());
        }
    }
}
