//! Moves placed before shots that were recorded already: they count where
//! they were placed, as if they had been recorded in time.

use super::{Setting, Timeline};
use crate::session::entry::{Entry, Event};

/// A placed move that counts.
struct Placed<'a> {
    before: u32,
    entry: &'a Entry,
}

impl Timeline {
    /// Takes the entries in the order things happened, up to a number.
    pub(super) fn fold(&mut self, entries: &[Entry], until: u32) {
        let counts = |e: &&Entry| !self.undone.contains(&e.number);
        let mut placed: Vec<Placed<'_>> = entries
            .iter()
            .filter(counts)
            .filter_map(|entry| match entry.event {
                Event::PlacedMove { before, .. } => Some(Placed { before, entry }),
                _ => None,
            })
            .collect();
        // Two before one shot stand in the order they were recorded.
        placed.sort_by_key(|p| (p.before, p.entry.number));
        let mut placed = placed.iter().peekable();
        for entry in entries {
            // Where the shot itself is lost, the move counts at its place.
            while let Some(made) = placed.next_if(|p| p.before <= entry.number.min(until)) {
                self.take_placed(made);
            }
            if entry.number >= until {
                return;
            }
            if !self.undone.contains(&entry.number) {
                self.take(entry);
            }
        }
        placed.for_each(|made| self.take_placed(made));
        self.reopen(entries);
    }

    fn take_placed(&mut self, made: &Placed<'_>) {
        if let Event::PlacedMove {
            steps, confirms, ..
        } = &made.entry.event
        {
            self.take_move((made.entry.number, made.before), steps, *confirms);
        }
    }

    /// A job closed before a move was placed was closed on other knowledge.
    fn reopen(&mut self, entries: &[Entry]) {
        let latest = self.moves.iter().filter(|m| m.place != m.entry);
        let latest = latest.map(|m| m.entry).max().unwrap_or(0);
        let closed = entries
            .iter()
            .rev()
            .find(|e| matches!(e.event, Event::Close { .. }) && !self.undone.contains(&e.number));
        if closed.is_some_and(|c| c.number < latest) {
            self.closed = None;
        }
    }

    /// The setting that had this number when an entry was recorded: those that
    /// moves placed later made are not counted.
    pub(super) fn setting_as_of(&self, entry: u32, number: u32) -> Option<&Setting> {
        let known = |s: &&Setting| s.by_move.is_none_or(|made| made < entry);
        let at = number.saturating_sub(1) as usize;
        self.settings.iter().filter(known).nth(at)
    }
}
