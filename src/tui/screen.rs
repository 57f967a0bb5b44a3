//! What a screen is: it draws itself from the model and answers keys with
//! what it wants done.

use ratatui::layout::Rect;

use crate::actions::{Action, Scope, Situation};
use crate::tui::draw::paint::Paint;
use crate::tui::effects::Effect;
use crate::tui::model::Model;
use crate::tui::prompt::Echo;

/// A screen over the three panes.
pub(crate) trait Screen {
    /// Which keys work here.
    fn scope(&self) -> Scope;
    /// Its title.
    fn title(&self, model: &Model) -> String;
    /// What is on it, for `?`.
    fn about(&self) -> &'static str;
    /// Corrects what holds while it is in front.
    fn adjust(&self, _now: &mut Situation) {}
    /// Whether leaving it is its own business: it then gets Back as an action.
    fn minds_leaving(&self) -> bool {
        false
    }
    /// Answers an action with what is to be done. What the panes know to be in
    /// front is meanwhile what lies under it.
    fn act(&mut self, _action: Action, _model: &Model) -> Vec<Effect> {
        Vec::new()
    }
    /// Whether a letter is text where the cursor is: it then comes as a digit does.
    fn takes_letters(&self) -> bool {
        false
    }
    /// Whether a digit is an answer here and recorded at once.
    fn digit_answers(&self) -> bool {
        false
    }
    /// Answers a digit.
    fn digit(&mut self, _digit: char, _model: &Model) -> Vec<Effect> {
        Vec::new()
    }
    /// Reads what was typed for it as it is typed.
    fn echo(&self, _text: &str, _model: &Model) -> Echo {
        Echo::Nothing
    }
    /// Answers what was typed for it.
    ///
    /// # Errors
    /// What is wrong with it; the prompt then stays open.
    fn answer(&mut self, _text: &str, _model: &Model) -> Result<Vec<Effect>, String> {
        Ok(Vec::new())
    }
    /// Goes on after entries it asked for are on disk, with what is known now;
    /// `entry` is the number of the last of them.
    fn recorded(&mut self, _entry: u32, _model: &Model) -> Vec<Effect> {
        Vec::new()
    }
    /// Goes on after the latest entry was undone or redone while it is in front.
    fn undone(&mut self, _model: &Model) -> Vec<Effect> {
        Vec::new()
    }
    /// Goes on after the page that stood in front of it was left.
    fn uncovered(&mut self, _model: &Model) {}
    /// Goes on where what it asked for could not be done.
    ///
    /// # Errors
    /// The problem, where the screen stays as it was and has nothing to add.
    fn refused(&mut self, problem: String) -> Result<Vec<Effect>, String> {
        Err(problem)
    }
    /// Draws itself.
    fn draw(&self, model: &Model, paint: &mut Paint<'_>, area: Rect);
}
