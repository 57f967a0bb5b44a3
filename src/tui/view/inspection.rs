//! The inspection after an incident: every item found sound, or what is not.
//!
//! ```text
//! +- Inspection ------------------------------+
//! | dry fire (entry 7)                        |
//! | > [x] limbs: cracks, splinters            |
//! |   [ ] string and cables: cut strands      |
//! |   something is damaged                    |
//! +-------------------------------------------+
//! ```

use ratatui::layout::Rect;

use super::list;
use super::paint::{Paint, fit, row, wrap};
use crate::actions::{Action, Scope};
use crate::session::Event;
use crate::tui::input::chosen;
use crate::tui::prompt::{Prompt, Purpose};
use crate::tui::screens::{Flow, Screen};
use crate::tui::state::App;
use crate::tui::theme::Role;

/// What is looked at (the shop's yearly check, trade practice).
const ITEMS: &[&str] = &[
    "limbs and pockets: cracks, splinters, lifting",
    "cams, axles and clips: bent, cracked, out of place",
    "string and cables: cut strands, serving gaps, in their tracks",
    "riser, rest and screws: cracks, loose parts",
    "every arrow used: flexed and looked at, nocks and points",
    "cotton drawn over the limbs and shafts catches nowhere",
];

/// The screen.
#[derive(Debug, Default)]
pub struct InspectionScreen {
    at: usize,
    sound: [bool; ITEMS.len()],
}

impl InspectionScreen {
    fn choose(&mut self, app: &mut App) -> Flow {
        if self.at == ITEMS.len() {
            app.prompt = Some(Prompt::new(Purpose::Screen, "Damaged"));
            return Flow::Stay;
        }
        self.sound[self.at] = !self.sound[self.at];
        if self.sound.iter().any(|s| !s) {
            self.at = chosen(self.at, ITEMS.len() + 1, Action::Down);
            return Flow::Stay;
        }
        self.record(app, "clear", None, "inspection clear: all found sound")
            .unwrap_or_else(|problem| {
                app.complain(problem);
                Flow::Stay
            })
    }

    fn record(
        &self,
        app: &mut App,
        result: &str,
        detail: Option<String>,
        say: &str,
    ) -> Result<Flow, String> {
        let test = "inspection".to_owned();
        app.record(Event::Answer {
            test,
            result: result.into(),
            detail,
        })?;
        app.say(say);
        Ok(Flow::Close)
    }
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
            return self.choose(app);
        }
        self.at = chosen(self.at, ITEMS.len() + 1, action);
        Flow::Stay
    }
    fn answer(&mut self, text: &str, app: &mut App) -> Result<Flow, String> {
        match text.trim() {
            "" => Ok(Flow::Stay),
            found => self.record(
                app,
                "damage",
                Some(found.into()),
                "recorded: damage found. DO NOT SHOOT",
            ),
        }
    }
    fn draw(&self, app: &App, paint: &mut Paint<'_>, area: Rect) {
        let what = app.timeline().open_incident();
        let what = what.map_or(String::new(), |i| {
            format!("{} (entry {}). ", i.what, i.entry)
        });
        let text = format!("{what}Enter marks an item as found sound; all of them clear the bow.");
        let used = paint.rows(area, &wrap(&text, Role::Warn, area.width, 0)) + 1;
        let rest = Rect::new(
            area.x,
            area.y + used,
            area.width,
            area.height.saturating_sub(used),
        );
        let room = usize::from(area.width.saturating_sub(2));
        let mut rows: Vec<_> = ITEMS
            .iter()
            .enumerate()
            .map(|(i, item)| {
                let mark = if self.sound[i] { "[x]" } else { "[ ]" };
                (
                    row(fit(&format!("{mark} {item}"), room), Role::Text),
                    Some(i),
                )
            })
            .collect();
        rows.push((
            row("something is damaged: type what", Role::Text),
            Some(ITEMS.len()),
        ));
        list::draw(paint, rest, &rows, self.at);
    }
}
