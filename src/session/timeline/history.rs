//! Which entries are undone.

use std::collections::BTreeSet;

use crate::session::entry::{Entry, Event};

/// Which entries are undone, and what undo and redo would do next.
pub(super) struct History {
    pub(super) undone: BTreeSet<u32>,
    pub(super) can_undo: Option<u32>,
    pub(super) can_redo: Option<u32>,
}

impl History {
    pub(super) fn of(entries: &[Entry]) -> Self {
        let mut undone = BTreeSet::new();
        let mut redoable: Vec<u32> = Vec::new();
        let mut done: Vec<u32> = Vec::new();
        for entry in entries {
            match &entry.event {
                Event::Undo { target } => {
                    if let Some(i) = done.iter().rposition(|n| n == target) {
                        done.remove(i);
                        undone.insert(*target);
                        redoable.push(*target);
                    }
                }
                Event::Redo { target } => {
                    if let Some(i) = redoable.iter().rposition(|n| n == target) {
                        redoable.remove(i);
                        undone.remove(target);
                        done.push(*target);
                    }
                }
                event if event.can_be_undone() => {
                    done.push(entry.number);
                    redoable.clear();
                }
                _ => {}
            }
        }
        Self {
            can_undo: done.last().copied(),
            can_redo: redoable.last().copied(),
            undone,
        }
    }
}
