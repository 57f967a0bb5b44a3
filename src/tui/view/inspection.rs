//! The inspection after an incident: every item found sound, or what is not.
//!
//! ```text
//! +- Inspection ------------------------------+
//! | dry fire (entry 7)                        |
//! | > [x] String and cables                   |
//! |   [ ] Limbs and pockets                   |
//! |   something is damaged                    |
//! |                                           |
//! | what to look for                          |
//! +-------------------------------------------+
//! ```

use ratatui::layout::Rect;

use super::list;
use super::paint::{Paint, row, wrap};
use crate::actions::{Action, Scope};
use crate::gear::BowKind;
use crate::remedy::INSPECTION;
use crate::session::{Event, Timeline};
use crate::tui::input::chosen;
use crate::tui::prompt::{Prompt, Purpose};
use crate::tui::screens::{Flow, Screen};
use crate::tui::state::App;
use crate::tui::theme::Role;

/// The screen.
#[derive(Debug)]
pub struct InspectionScreen {
    at: usize,
}

type Part = (&'static str, &'static str, bool);

/// The parts this bow has.
fn parts(timeline: &Timeline) -> Vec<&'static Part> {
    let compound = timeline.card.bow.kind == BowKind::Compound;
    let fits = |part: &&Part| compound || !part.2;
    INSPECTION.iter().filter(fits).collect()
}

/// What was found of a part since the incident.
fn found<'a>(timeline: &'a Timeline, id: &str) -> Option<&'a str> {
    let since = timeline.incidents.last().map_or(0, |i| i.entry);
    let answer = timeline.answer(id).filter(|a| a.entry > since)?;
    Some(answer.result.as_str())
}

impl InspectionScreen {
    /// With the cursor on the first part not yet found sound.
    pub fn of(app: &App) -> Self {
        let open = |part: &&Part| found(app.timeline(), part.0) != Some("sound");
        Self {
            at: parts(app.timeline()).iter().position(open).unwrap_or(0),
        }
    }

    fn choose(&mut self, app: &mut App) -> Result<Flow, String> {
        let parts = parts(app.timeline());
        let Some((id, ..)) = parts.get(self.at) else {
            app.prompt = Some(Prompt::new(Purpose::Screen, "Damaged"));
            return Ok(Flow::Stay);
        };
        record(app, id, "sound", None)?;
        let open = |(_, (id, ..)): &(usize, &&Part)| found(app.timeline(), id) != Some("sound");
        if let Some((next, _)) = parts.iter().enumerate().find(open) {
            self.at = next;
            return Ok(Flow::Stay);
        }
        record(app, "inspection", "clear", None)?;
        app.say("inspection clear: all found sound. First shots close in");
        Ok(Flow::Close)
    }
}

fn record(app: &mut App, test: &str, result: &str, detail: Option<String>) -> Result<(), String> {
    app.record(Event::Answer {
        test: test.into(),
        result: result.into(),
        detail,
    })?;
    Ok(())
}

impl Screen for InspectionScreen {
    fn scope(&self) -> Scope {
        Scope::Choice
    }
    fn title(&self, _app: &App) -> String {
        "Inspection".into()
    }
    fn about(&self) -> &'static str {
        "After an incident every item is looked at, by a trained person where in doubt. Shooting goes on only when all of them are found sound."
    }
    fn act(&mut self, action: Action, app: &mut App) -> Flow {
        if action == Action::Choose {
            return self.choose(app).unwrap_or_else(|problem| {
                app.complain(problem);
                Flow::Stay
            });
        }
        self.at = chosen(self.at, parts(app.timeline()).len() + 1, action);
        Flow::Stay
    }
    fn answer(&mut self, text: &str, app: &mut App) -> Result<Flow, String> {
        if text.trim().is_empty() {
            return Ok(Flow::Stay);
        }
        record(app, "inspection", "damage", Some(text.trim().into()))?;
        app.say("recorded: damage found. DO NOT SHOOT");
        Ok(Flow::Close)
    }
    fn draw(&self, app: &App, paint: &mut Paint<'_>, area: Rect) {
        let timeline = app.timeline();
        let what = timeline.open_incident();
        let what = what.map_or(String::new(), |i| {
            format!("{} (entry {}). ", i.what, i.entry)
        });
        let text = format!("{what}Enter marks a part as found sound; all of them clear the bow.");
        let used = paint.rows(area, &wrap(&text, Role::Warn, area.width, 0)) + 1;
        let rest = Rect::new(
            area.x,
            area.y + used,
            area.width,
            area.height.saturating_sub(used),
        );
        let parts = parts(timeline);
        let mut rows = Vec::new();
        for (i, (id, text, _)) in parts.iter().enumerate() {
            let mark = match found(timeline, id) {
                Some("sound") => "[x]",
                _ => "[ ]",
            };
            let name = text.split_once(':').map_or(*text, |(name, _)| name);
            rows.extend(list::wrapped(
                &format!("{mark} {name}"),
                Role::Text,
                i,
                area.width,
                4,
            ));
        }
        rows.push((
            row("something is damaged: type what", Role::Text),
            Some(parts.len()),
        ));
        let text = parts.get(self.at).map_or("", |(_, text, _)| text);
        let text = wrap(text, Role::Strong, area.width, 0);
        list::with_text(paint, rest, &rows, self.at, &text, 0);
    }
}
