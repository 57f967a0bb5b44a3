//! Which entries are undone. What was recorded together is undone together,
//! whoever undoes it and whichever of its entries is named.

use std::collections::{BTreeMap, BTreeSet};

use crate::session::entry::{Entry, Event, Together};

/// Which entries are undone, and what undo and redo would do next.
#[derive(Default)]
pub(super) struct History {
    pub(super) undone: BTreeSet<u32>,
    pub(super) can_undo: Option<u32>,
    pub(super) can_redo: Option<u32>,
}

impl History {
    pub(super) fn of(entries: &[Entry]) -> Self {
        let mut groups: BTreeMap<Together, Vec<u32>> = BTreeMap::new();
        let mut mark_of: BTreeMap<u32, Together> = BTreeMap::new();
        let mut undone: BTreeSet<u32> = BTreeSet::new();
        let mut redoable: Vec<u32> = Vec::new();
        let mut done: Vec<u32> = Vec::new();
        for entry in entries {
            let with = |target: &u32| -> Vec<u32> {
                let mark = mark_of.get(target).and_then(|mark| groups.get(mark));
                mark.cloned().unwrap_or_else(|| vec![*target])
            };
            match &entry.event {
                Event::Undo { target } => {
                    for number in with(target) {
                        if let Some(i) = done.iter().rposition(|n| *n == number) {
                            done.remove(i);
                            undone.insert(number);
                            redoable.push(number);
                        }
                    }
                }
                Event::Redo { target } => {
                    for number in with(target) {
                        if undone.remove(&number) {
                            redoable.retain(|n| *n != number);
                            done.push(number);
                        }
                    }
                }
                event if event.can_be_undone() => {
                    done.push(entry.number);
                    redoable.clear();
                    if let Some(mark) = entry.together {
                        mark_of.insert(entry.number, mark);
                        groups.entry(mark).or_default().push(entry.number);
                    }
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

/// The entries that undoing or bringing back one of them takes along, itself
/// among them, in order.
pub(in crate::session) fn company(entries: &[Entry], target: u32) -> Vec<u32> {
    let own = entries.iter().find(|e| e.number == target);
    let Some(mark) = own.and_then(|e| e.together) else {
        return vec![target];
    };
    entries
        .iter()
        .filter(|e| e.together == Some(mark) && e.event.can_be_undone())
        .map(|e| e.number)
        .collect()
}
