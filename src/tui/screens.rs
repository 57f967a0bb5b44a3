//! What a screen is, and the one table of them. A new screen is a file under
//! `view/`, a row here and a row in the table of actions.

use ratatui::layout::Rect;

use super::model::Model;
use super::prompt::Echo;
use super::state::App;
use super::view::{self, paint::Paint};
use crate::actions::{Action, Scope, Situation};

/// What a screen wants done after an action.
pub enum Flow {
    /// Nothing more.
    Stay,
    /// Back to the screen before.
    Close,
    /// Another screen on top.
    Open(Box<dyn Screen>),
    /// Back to the panes.
    Panes,
}

/// A screen over the three panes.
pub trait Screen {
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
    /// Does an action. The screen is off the stack meanwhile.
    fn act(&mut self, action: Action, app: &mut App) -> Flow;
    /// Whether a letter is text where the cursor is: it then comes as a digit does.
    fn takes_letters(&self) -> bool {
        false
    }
    /// Takes a digit. The screen is off the stack meanwhile.
    fn digit(&mut self, _digit: char, _app: &mut App) -> Flow {
        Flow::Stay
    }
    /// Reads what was typed for it as it is typed.
    fn echo(&self, _text: &str, _model: &Model) -> Echo {
        Echo::Nothing
    }
    /// Takes what was typed for it.
    ///
    /// # Errors
    /// What is wrong with it; the prompt then stays open.
    fn answer(&mut self, _text: &str, _app: &mut App) -> Result<Flow, String> {
        Ok(Flow::Stay)
    }
    /// Draws itself.
    fn draw(&self, model: &Model, paint: &mut Paint<'_>, area: Rect);
}

type Open = fn(&Model) -> Box<dyn Screen>;

/// Which action opens which screen.
pub const SCREENS: &[(Action, Open)] = &[
    (Action::Card, |app| {
        Box::new(view::card::CardScreen::of(app))
    }),
    (
        Action::More,
        |_| Box::new(view::more::MoreScreen::default()),
    ),
    (Action::Log, |app| Box::new(view::log::LogScreen::of(app))),
    (Action::LookPage, |_| {
        Box::new(view::look_page::LookScreen::default())
    }),
    (Action::Letters, |_| Box::new(view::letters::LettersScreen)),
    (Action::Files, |app| {
        Box::new(view::book::BookScreen::of(app))
    }),
    (Action::Before, |app| {
        Box::new(view::setup::SetupScreen::of(app))
    }),
    (Action::Range, |_| {
        Box::new(view::range::RangeScreen::default())
    }),
    (Action::Proof, |app| {
        Box::new(view::proof::ProofScreen::of(app))
    }),
    (Action::PutBack, |_| {
        Box::new(view::restore::PutBackScreen::default())
    }),
    (Action::Sheet, |_| {
        Box::new(view::report::SheetScreen::default())
    }),
    (Action::NextShots, |_| {
        Box::new(view::next_shots::NextShotsScreen::default())
    }),
    (Action::Incident, |_| {
        Box::new(view::incident::IncidentScreen::default())
    }),
    (Action::Spine, |app| {
        Box::new(view::spine::SpineScreen::of(app))
    }),
    (Action::Distances, |app| {
        Box::new(view::distances::DistancesScreen::of(app))
    }),
    (Action::Practice, |app| {
        Box::new(view::practice::PracticeScreen::of(app))
    }),
];

/// The screen an action opens.
pub fn for_action(action: Action, model: &Model) -> Option<Box<dyn Screen>> {
    SCREENS
        .iter()
        .find(|(a, _)| *a == action)
        .map(|(_, open)| open(model))
}
