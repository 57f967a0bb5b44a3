//! Moving in pages and lists, with the same keys everywhere.

use crate::actions::Action;

/// A screen that only scrolls.
pub(super) fn scrolled(at: u16, action: Action) -> u16 {
    match action {
        Action::Up => at.saturating_sub(1),
        Action::Down => (at + 1).min(2000),
        Action::PageUp => at.saturating_sub(10),
        Action::PageDown => (at + 10).min(2000),
        Action::First => 0,
        Action::Last => 2000,
        _ => at,
    }
}

/// A list's chosen line after an action.
pub(super) fn chosen(at: usize, len: usize, action: Action) -> usize {
    let last = len.saturating_sub(1);
    match action {
        Action::Up => at.saturating_sub(1),
        Action::Down => (at + 1).min(last),
        Action::PageUp => at.saturating_sub(10),
        Action::PageDown => (at + 10).min(last),
        Action::First => 0,
        Action::Last => last,
        _ => at.min(last),
    }
}
