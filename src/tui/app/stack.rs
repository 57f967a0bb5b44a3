//! What stands in front of the panes: screens one over the other, or the grid
//! with its marks. Whoever changes it keeps in step what the panes and keys
//! know of it.

use crate::actions::{Scope, Situation};
use crate::tui::grid::GridCursor;
use crate::tui::model::Front;
use crate::tui::screen::Screen;

/// Screens over the panes, and the grid while a hole is marked on it.
#[derive(Default)]
pub(in crate::tui) struct Stack {
    screens: Vec<Box<dyn Screen>>,
    grid: Option<GridCursor>,
}

impl Stack {
    /// The screen in front.
    pub(in crate::tui) fn last(&self) -> Option<&dyn Screen> {
        self.screens.last().map(|screen| &**screen)
    }

    /// How many screens stand over the panes.
    pub(in crate::tui) fn depth(&self) -> usize {
        self.screens.len()
    }

    /// The marks on the grid, where they are being made.
    pub(in crate::tui) const fn grid(&self) -> Option<&GridCursor> {
        self.grid.as_ref()
    }

    /// The same, to move the cursor.
    pub(in crate::tui) const fn grid_mut(&mut self) -> Option<&mut GridCursor> {
        self.grid.as_mut()
    }

    /// Puts a screen in front.
    pub(in crate::tui) fn push(&mut self, screen: Box<dyn Screen>, front: &mut Front) {
        self.screens.push(screen);
        *front = self.front();
    }

    /// Takes the screen in front off.
    pub(in crate::tui) fn pop(&mut self, front: &mut Front) -> Option<Box<dyn Screen>> {
        let screen = self.screens.pop();
        *front = self.front();
        screen
    }

    /// Back to the panes.
    pub(in crate::tui) fn clear(&mut self, front: &mut Front) {
        self.screens.clear();
        *front = self.front();
    }

    /// Begins to mark a hole, or leaves off; the marks so far.
    pub(in crate::tui) fn set_grid(
        &mut self,
        grid: Option<GridCursor>,
        front: &mut Front,
    ) -> Option<GridCursor> {
        let marked = std::mem::replace(&mut self.grid, grid);
        *front = self.front();
        marked
    }

    fn front(&self) -> Front {
        let usual = Front::default();
        let Some(screen) = self.screens.last() else {
            let scope = self.grid.as_ref().map_or(usual.scope, |_| Scope::Grid);
            return Front { scope, ..usual };
        };
        let mut now = Situation {
            by_word: usual.by_word,
            undoable: screen.scope() != Scope::Choice,
            ..Situation::default()
        };
        screen.adjust(&mut now);
        Front {
            scope: screen.scope(),
            about: Some(screen.about()),
            new_card: now.new_card,
            by_word: now.by_word,
            undoable: now.undoable,
        }
    }
}
