//! Recording: what applies is written and synced first, then counts.

use std::collections::BTreeMap;
use std::path::Path;

use super::append::{NotWritten, Print, append};
use super::disk::{Disk as _, FileDisk};
use super::entry::{Entry, Event, Shot, Together};
use super::error::{Full, Refused, SessionError};
use super::files::{self, FileShelf, Shelf};
use super::journal::{LARGEST_FILE, Remark};
use super::store::Session;
use super::timeline::company;
use super::{format, lock};
use crate::gear::Card;

/// The longest text of an entry, characters; a note may be longer.
const LONGEST: usize = 400;
/// The longest note, characters.
const LONGEST_NOTE: usize = 4000;

impl Session {
    /// Records an event: on disk and synced first, then in memory. Returns its
    /// entry number; of an undo that takes several entries back, the last.
    ///
    /// # Errors
    /// When it cannot apply (an undo of nothing, a card that would not read),
    /// the session is read-only, or the disk refuses; nothing is then changed.
    pub fn record(&mut self, event: Event) -> Result<u32, SessionError> {
        let numbers = self.record_all(vec![event])?;
        Ok(numbers.last().copied().unwrap_or_default())
    }

    /// Records what one action says in several entries: with one group mark,
    /// in one write and one sync, all of them or none. Returns their numbers.
    ///
    /// # Errors
    /// As [`Self::record`].
    pub fn record_all(&mut self, events: Vec<Event>) -> Result<Vec<u32>, SessionError> {
        let mut all = Vec::with_capacity(events.len());
        for event in events {
            let others = |targets: Vec<u32>, one: fn(u32) -> Event| -> Vec<Event> {
                targets.into_iter().rev().map(one).collect()
            };
            self.check(&event)?;
            match event {
                Event::Undo { target } => {
                    let with = self.company(target, false);
                    all.extend(others(with, |target| Event::Undo { target }));
                }
                Event::Redo { target } => {
                    let with = self.company(target, true);
                    all.extend(others(with, |target| Event::Redo { target }));
                }
                event => all.push(self.marked(event)),
            }
        }
        self.write_all(all)
    }

    /// A shot recorded while an incident stops shooting is marked so: it
    /// bears no clearance out.
    fn marked(&self, event: Event) -> Event {
        match event {
            Event::Shot(shot) if self.timeline.open_incident().is_some() => Event::Shot(Shot {
                under_stop: true,
                ..shot
            }),
            other => other,
        }
    }

    /// Undoes the latest entry that can be undone, with all that was recorded
    /// together with it; returns their numbers.
    ///
    /// # Errors
    /// When there is nothing to undo, or the disk refuses.
    pub fn undo(&mut self) -> Result<Vec<u32>, SessionError> {
        let target = self
            .timeline
            .can_undo
            .ok_or(SessionError::Refused(Refused::NothingToUndo))?;
        self.undo_entry(target)
    }

    /// Undoes an entry, with all that was recorded together with it; returns
    /// their numbers.
    ///
    /// # Errors
    /// When it cannot be undone, or the disk refuses.
    pub(crate) fn undo_entry(&mut self, target: u32) -> Result<Vec<u32>, SessionError> {
        let taken = self.company(target, false);
        self.record(Event::Undo { target }).map(|_| taken)
    }

    /// Brings back what was undone last; returns the numbers.
    ///
    /// # Errors
    /// When there is nothing to redo, or the disk refuses.
    pub fn redo(&mut self) -> Result<Vec<u32>, SessionError> {
        let target = self
            .timeline
            .can_redo
            .ok_or(SessionError::Refused(Refused::NothingToRedo))?;
        let taken = self.company(target, true);
        self.record(Event::Redo { target }).map(|_| taken)
    }

    /// The entries that go with one of them, those that are undone or not.
    fn company(&self, target: u32, undone: bool) -> Vec<u32> {
        let mut all = company(&self.entries, target);
        all.retain(|n| self.timeline.undone.contains(n) == undone);
        all
    }

    pub(super) fn check(&self, event: &Event) -> Result<(), SessionError> {
        let refuse = |why| Err(SessionError::Refused(why));
        if let Some(why) = self.read_only() {
            return refuse(Refused::ReadOnly(why.clone()));
        }
        if !self.missing_on_card().is_empty() && !matches!(event, Event::Card { .. }) {
            return refuse(Refused::CardDamaged);
        }
        if let Some(long) = too_long(event) {
            return refuse(long);
        }
        match event {
            Event::Undo { target } | Event::Redo { target }
                if self.claimed_twice.contains(target) =>
            {
                refuse(Refused::ClaimedTwice(*target))
            }
            Event::Undo { target } => {
                let entry = self.entries.iter().find(|e| e.number == *target);
                match entry {
                    None => refuse(Refused::NoEntry(*target)),
                    Some(e) if matches!(e.event, Event::Incident { .. }) => {
                        refuse(Refused::Incident(*target))
                    }
                    Some(e) if !e.event.can_be_undone() => {
                        refuse(Refused::NotToUndo(*target, e.event.kind()))
                    }
                    Some(_) if self.timeline.undone.contains(target) => {
                        refuse(Refused::UndoneAlready(*target))
                    }
                    Some(_) => Ok(()),
                }
            }
            Event::Redo { target } if !self.timeline.undone.contains(target) => {
                refuse(Refused::NotUndone(*target))
            }
            Event::Restart {
                setting: Some(n), ..
            } if *n == 0 || *n as usize > self.timeline.settings.len() => {
                refuse(Refused::NoSetting(*n, self.timeline.settings.len()))
            }
            Event::Card { set, .. } => self.check_card(set),
            Event::PlacedMove { before, .. } => self.check_shot(*before),
            _ => Ok(()),
        }
    }

    fn check_card(&self, set: &BTreeMap<String, String>) -> Result<(), SessionError> {
        let mut text = self.timeline.card_text.clone();
        let problems = set
            .iter()
            .try_for_each(|(key, value)| text.set(key, value))
            .map_err(|p| vec![p])
            .and_then(|()| Card::read(&text).map(|_| ()));
        problems.map_err(|problems| SessionError::Card {
            path: self.path.clone().unwrap_or_else(|| "card".into()),
            problems,
        })
    }

    /// Writes checked events and takes them in.
    fn write_all(&mut self, events: Vec<Event>) -> Result<Vec<u32>, SessionError> {
        let mut entries = self.numbered(events)?;
        if self.path.is_some() {
            self.put_on_disk(&mut entries)?;
            self.damage.retain(|d| !d.torn_tail);
        }
        let numbers: Vec<u32> = entries.iter().map(|e| e.number).collect();
        self.entries.extend(entries);
        self.next = numbers.last().and_then(|n| n.checked_add(1));
        self.add_up();
        Ok(numbers)
    }

    /// The entries these events become: numbered, marked as a group.
    fn numbered(&self, events: Vec<Event>) -> Result<Vec<Entry>, SessionError> {
        let members = u32::try_from(events.len()).unwrap_or(u32::MAX);
        let first = self
            .next
            .filter(|first| first.checked_add(members).is_some())
            .ok_or_else(|| self.full(Full::Numbers))?;
        let mark = Together { first, members };
        let numbered = (first..).zip(events).map(|(number, event)| Entry {
            together: (members > 1).then_some(mark),
            ..Entry::now(number, event)
        });
        let entries: Vec<Entry> = numbered.collect();
        // What this program could not read again is not written.
        for entry in &entries {
            reads_back(entry).map_err(|why| self.full(why))?;
        }
        Ok(entries)
    }

    fn full(&self, why: Full) -> SessionError {
        SessionError::Full {
            path: self.path.clone().unwrap_or_else(|| "this session".into()),
            why,
        }
    }

    fn put_on_disk(&mut self, entries: &mut [Entry]) -> Result<(), SessionError> {
        let Some(path) = self.path.clone() else {
            return Ok(());
        };
        if self.lock.is_none() {
            return Err(SessionError::Refused(Refused::OpenForReading));
        }
        let not_recorded = |source| SessionError::NotRecorded {
            path: path.clone(),
            source,
        };
        // A file that is gone has its own message.
        std::fs::metadata(&path)
            .map_err(NotWritten::from)
            .map_err(not_recorded)?;
        if self.has_second_name() {
            // Never written anew, so it stays of the format it is: the entries
            // go in one write all the same, each for itself.
            entries.iter_mut().for_each(|e| e.together = None);
        }
        let needed = entries.iter().map(format::of_entry).max().unwrap_or(1);
        if self.card.text.format.unwrap_or(1) < needed {
            self.raise_format(&path, needed).map_err(&not_recorded)?;
        }
        let block: String = entries.iter().map(Entry::to_toml).collect();
        if self.sound_len + 1 + block.len() as u64 > LARGEST_FILE {
            return Err(self.full(Full::Large(self.sound_len)));
        }
        let Some(lock) = &self.lock else {
            return Ok(());
        };
        let mut disk = FileDisk::new(lock.file(), &path);
        let print =
            append(&mut disk, &block, self.sound_len, &self.print).map_err(&not_recorded)?;
        self.sound_len = print.length();
        self.print = print;
        Ok(())
    }

    /// Whether the file goes by another name too and is of the first format.
    fn has_second_name(&self) -> bool {
        let meta = self.lock.as_ref().and_then(|l| l.file().metadata().ok());
        self.card.text.format.unwrap_or(1) < 2 && meta.is_some_and(|m| files::names(&m) > 1)
    }

    /// Writes the file anew as one of a later format, once: a temporary file,
    /// locked before it takes the name.
    fn raise_format(&mut self, path: &Path, format: u32) -> Result<(), NotWritten> {
        let Some(lock) = &mut self.lock else {
            return Ok(());
        };
        let mut disk = FileDisk::new(lock.file(), path);
        let bytes = disk.read()?;
        if !disk.is_current() || !self.print.fits(&bytes) {
            return Err(NotWritten::Changed);
        }
        let meta = lock.file().metadata()?;
        if files::names(&meta) > 1 {
            // Put in the place of one name, it would leave the other behind.
            return Err(std::io::Error::other(
                "the file has a second name (a hard link), and what is recorded now needs it written again; give it one name first",
            )
            .into());
        }
        let raised = with_format(&bytes, format);
        // A link stays a link: the file it leads to is the one that is replaced.
        let real = path.canonicalize()?;
        let mut shelf = Raising {
            shelf: FileShelf::at(&real),
            permissions: meta.permissions(),
        };
        files::write_whole(&mut shelf, &raised, true)?;
        if let Some(placed) = shelf.shelf.placed.take() {
            lock.hand_over(placed);
        }
        let longer = raised.len() as u64 - bytes.len() as u64;
        self.sound_len += longer;
        self.print = Print::of(&raised);
        self.card.text.format = Some(format);
        Ok(())
    }
}

/// A shelf whose temporary file is locked, with the rights of the file it
/// will replace.
struct Raising {
    shelf: FileShelf,
    permissions: std::fs::Permissions,
}

impl Shelf for Raising {
    fn write_temporary(&mut self, bytes: &[u8]) -> std::io::Result<()> {
        self.shelf.write_temporary(bytes)?;
        let Some(file) = self.shelf.temporary() else {
            return Ok(());
        };
        file.set_permissions(self.permissions.clone())?;
        match lock::try_lock(file) {
            Ok(true) => Ok(()),
            _ => Err(std::io::Error::other("the new file cannot be locked")),
        }
    }
    fn sync_temporary(&mut self) -> std::io::Result<()> {
        self.shelf.sync_temporary()
    }
    fn put_in_place(&mut self, replace: bool) -> std::io::Result<()> {
        self.shelf.put_in_place(replace)
    }
    fn sync_folder(&mut self) -> std::io::Result<()> {
        self.shelf.sync_folder()
    }
}

/// The bytes of a file with another number on its `format` line, or with that
/// line where it has none.
pub(super) fn with_format(bytes: &[u8], format: u32) -> Vec<u8> {
    let line = format!("format = {format}\n").into_bytes();
    let mut at = 0;
    for old in bytes.split_inclusive(|b| *b == b'\n') {
        let text = old.trim_ascii();
        if text.starts_with(b"[") {
            break;
        }
        let value = text.strip_prefix(b"format").map(<[u8]>::trim_ascii_start);
        if value.is_some_and(|v| v.starts_with(b"=")) {
            return [&bytes[..at], &line, &bytes[at + old.len()..]].concat();
        }
        at += old.len();
    }
    [&line, bytes].concat()
}

/// Whether an entry would be read again as it is.
pub(super) fn reads_back(entry: &Entry) -> Result<(), Full> {
    let block = entry.to_toml();
    match Entry::from_toml(&block) {
        Ok(read) if read == *entry && Entry::sum_fits(&block, entry.number) == Some(true) => Ok(()),
        Ok(_) => Err(Full::Otherwise),
        Err((_, problem)) => Err(Full::Unreadable(problem)),
    }
}

/// Which text of an event is too long, if one is.
fn too_long(event: &Event) -> Option<Refused> {
    let most = |event: &Event| match event {
        Event::Note { .. } => LONGEST_NOTE,
        _ => LONGEST,
    };
    let Ok(value) = toml::Value::try_from(event) else {
        return None;
    };
    let most = most(event);
    longest(&value)
        .filter(|n| *n > most)
        .map(|characters| Refused::TooLong { characters, most })
}

/// Characters of the longest text in a value, its keys included.
fn longest(value: &toml::Value) -> Option<usize> {
    match value {
        toml::Value::String(text) => Some(text.chars().count()),
        toml::Value::Array(items) => items.iter().filter_map(longest).max(),
        toml::Value::Table(table) => table
            .iter()
            .flat_map(|(key, value)| [Some(key.chars().count()), longest(value)])
            .flatten()
            .max(),
        _ => None,
    }
}

impl Remark {}

#[cfg(test)]
mod tests {
    use super::*;
    use chrono::TimeZone as _;

    #[test]
    fn a_year_past_9999_is_not_written_since_it_could_not_be_read_again() {
        let in_year = |year: i32| {
            let zone = chrono::FixedOffset::east_opt(0).unwrap();
            let at = zone.with_ymd_and_hms(year, 1, 1, 10, 0, 0).unwrap();
            let event = Event::Note { text: "x".into() };
            Entry {
                at,
                ..Entry::now(1, event)
            }
        };
        assert_eq!(reads_back(&in_year(9999)), Ok(()));
        assert!(reads_back(&in_year(10_000)).is_err());
    }
}
