//! A session held open: its file or memory, its entries, its timeline.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::time::Duration;

use super::append::Print;
use super::entry::Entry;
use super::error::{ReadOnly, SessionError};
use super::files::{self, Fault};
use super::journal::grammar::CARD_END;
use super::journal::{Damage, Journal, LARGEST_FILE, Remark};
use super::lock::Lock;
use super::mending::{self, CardRead};
use super::timeline::{Holes, Timeline};
use super::{NotWritten, Warning, format};
use crate::gear::{Card, CardProblem, CardText};

/// The newest file format this program writes.
pub(crate) const FORMAT: u32 = crate::gear::FORMAT;

/// Warnings shown when a session is opened; the rest are counted.
const SHOWN: usize = 3;

/// An open session.
#[derive(Debug)]
pub struct Session {
    pub(super) path: Option<PathBuf>,
    pub(super) lock: Option<Lock>,
    pub(super) card: CardRead,
    pub(super) entries: Vec<Entry>,
    pub(super) damage: Vec<Damage>,
    pub(super) remarks: Vec<Remark>,
    pub(super) claimed_twice: BTreeSet<u32>,
    pub(super) sound_len: u64,
    pub(super) print: Print,
    /// The number the next entry gets; none where they are used up.
    pub(super) next: Option<u32>,
    pub(super) timeline: Timeline,
    next_bare: bool,
    read_only: Option<ReadOnly>,
}

impl Session {
    /// Opens a session file for reading. Nothing is written or locked.
    ///
    /// # Errors
    /// When the file or its card cannot be read.
    pub fn open(path: &Path) -> Result<Self, SessionError> {
        Self::open_to_mend(path)?.closed_unless_mended()
    }

    /// Opens a session file whose card may be damaged past use, so that it can
    /// be shown and mended: until it is, only changes of the card are recorded.
    ///
    /// # Errors
    /// When the file cannot be read, or holds nothing of a card.
    pub(crate) fn open_to_mend(path: &Path) -> Result<Self, SessionError> {
        let fault = |fault| SessionError::File {
            path: path.into(),
            fault,
        };
        let bytes = files::read(path, LARGEST_FILE).map_err(fault)?;
        if bytes.trim_ascii().is_empty() {
            return Err(fault(Fault::typed(
                "is empty; make a session with: tearbench new FILE --card CARD.toml",
            )));
        }
        let mut session = Self::read(&bytes).map_err(|problems| SessionError::Card {
            path: path.into(),
            problems,
        })?;
        session.path = Some(path.into());
        Ok(session)
    }

    fn closed_unless_mended(self) -> Result<Self, SessionError> {
        match (&self.card.missing[..], &self.path) {
            ([], _) => Ok(self),
            (_, path) => Err(SessionError::Card {
                path: path.clone().unwrap_or_else(|| "card".into()),
                problems: self.card.problems(),
            }),
        }
    }

    /// Opens a session file and takes its lock, so that it can be written.
    ///
    /// # Errors
    /// As [`Self::open`], and when another program holds it for longer than `patience`.
    pub fn open_for_writing(
        path: &Path,
        holder: &str,
        patience: Duration,
    ) -> Result<Self, SessionError> {
        // Read once first: a file that cannot be read deserves its own message, and no lock.
        Self::open(path)?;
        Self::lock_to_mend(path, holder, patience)?.closed_unless_mended()
    }

    /// As [`Self::open_to_mend`], with its lock.
    ///
    /// # Errors
    /// As [`Self::open_to_mend`], and when another program holds it.
    pub(crate) fn lock_to_mend(
        path: &Path,
        holder: &str,
        patience: Duration,
    ) -> Result<Self, SessionError> {
        let lock = Lock::take(path, holder, patience).map_err(|source| SessionError::Locked {
            path: path.into(),
            source,
        })?;
        let mut session = Self::open_to_mend(path)?;
        session.lock = Some(lock);
        Ok(session)
    }

    /// A session in memory, such as the demo. It is not kept.
    ///
    /// # Errors
    /// When its card cannot be read.
    pub fn from_text(text: &str) -> Result<Self, Vec<CardProblem>> {
        Self::from_bytes(text.as_bytes())
    }

    /// A session in memory from the bytes of a file.
    ///
    /// # Errors
    /// When its card cannot be read.
    pub fn from_bytes(bytes: &[u8]) -> Result<Self, Vec<CardProblem>> {
        let session = Self::read(bytes)?;
        if session.card.missing.is_empty() {
            return Ok(session);
        }
        Err(session.card.problems())
    }

    fn read(bytes: &[u8]) -> Result<Self, Vec<CardProblem>> {
        let journal = Journal::from_bytes(bytes);
        let card = mending::read_card(&journal.header, &journal.entries)?;
        let read_only = match (card.text.format.filter(|f| *f > FORMAT), journal.newer()) {
            (Some(f), _) => Some(ReadOnly::Format(f)),
            (None, Some(newer)) => Some(ReadOnly::Newer(newer.clone())),
            (None, None) => None,
        };
        let timeline = Timeline::new(&card.complete, &journal.entries)?;
        let mut session = Self {
            path: None,
            lock: None,
            card,
            next: journal.next_number(),
            damage: journal.damage,
            remarks: journal.remarks,
            claimed_twice: journal.claimed_twice,
            sound_len: journal.sound_len,
            print: Print::of(bytes),
            entries: journal.entries,
            timeline,
            next_bare: false,
            read_only,
        };
        session.timeline.holes = session.holes();
        Ok(session)
    }

    /// Adds the entries up again.
    pub(super) fn add_up(&mut self) {
        self.card.mend(&self.entries);
        if let Ok(timeline) = Timeline::new(&self.card.complete, &self.entries) {
            self.timeline = timeline;
        }
        self.timeline.next_bare = self.next_bare;
        self.timeline.holes = self.holes();
    }

    /// What of the file is not in the timeline.
    fn holes(&self) -> Holes {
        let lost = self.damage.iter().filter(|d| !d.torn_tail);
        let grave = self.damage.iter().filter(|d| d.grave);
        let mut holes = Holes {
            lost: lost.count(),
            torn: grave.clone().filter(|d| d.torn_tail).count(),
            grave: grave.count(),
            card: self.card.lost.len() + self.timeline.unread.len(),
            ..Holes::default()
        };
        for remark in &self.remarks {
            let lost = match remark {
                Remark::Changed { .. } => {
                    holes.changed += 1;
                    0
                }
                Remark::Missing { from, to } => (to - from + 1) as usize,
                Remark::Newer { .. } => 1,
                Remark::Renumbered { .. } => 0,
            };
            holes.lost += lost;
            holes.grave += lost;
        }
        holes
    }

    /// Makes a new session file from a card, and never replaces a file.
    ///
    /// # Errors
    /// When the card cannot be read, the file exists, or cannot be written.
    pub fn create(path: &Path, card: &CardText) -> Result<(), SessionError> {
        Card::read(card).map_err(|problems| SessionError::Card {
            path: path.into(),
            problems,
        })?;
        files::create(path, whole_file(card, &[]).as_bytes()).map_err(|e| SessionError::File {
            path: path.into(),
            fault: e.into(),
        })
    }

    /// Whether the file is still as this session left it; a session in memory always is.
    ///
    /// # Errors
    /// When the file cannot be read any more.
    pub fn is_unchanged(&self) -> Result<bool, Fault> {
        let Some(path) = &self.path else {
            return Ok(true);
        };
        let bytes = files::read(path, LARGEST_FILE)?;
        let current = self.lock.as_ref().is_none_or(|l| l.is_current(path));
        Ok(current && self.print.fits(&bytes))
    }

    /// Reads the file again as it is now; a lock that is held stays held, on
    /// the file that has the name now.
    ///
    /// # Errors
    /// When the file or its card cannot be read, or another program holds it;
    /// the session is then as it was.
    pub fn reload(&mut self) -> Result<(), SessionError> {
        let Some(path) = self.path.clone() else {
            return Ok(());
        };
        if let Some(lock) = &mut self.lock {
            // A file that is gone has its own message.
            files::read_head(&path, 1).map_err(|fault| SessionError::File {
                path: path.clone(),
                fault,
            })?;
            lock.follow(&path).map_err(|source| SessionError::Locked {
                path: path.clone(),
                source,
            })?;
        }
        let mut fresh = Self::open(&path)?;
        fresh.lock = self.lock.take();
        fresh.set_next_bare(self.next_bare);
        *self = fresh;
        Ok(())
    }

    /// Says whether the next shots are bare shafts, which no entry can say
    /// before they are shot: what forbids them depends on it.
    pub(crate) fn set_next_bare(&mut self, bare: bool) {
        self.next_bare = bare;
        self.timeline.next_bare = bare;
    }

    /// What the entries add up to.
    pub const fn timeline(&self) -> &Timeline {
        &self.timeline
    }
    /// The entries, in order.
    pub fn entries(&self) -> &[Entry] {
        &self.entries
    }
    /// What does not count of the file as it was opened.
    pub fn damage(&self) -> &[Damage] {
        &self.damage
    }
    /// What else there is to know of the file as it was opened.
    pub fn remarks(&self) -> &[Remark] {
        &self.remarks
    }
    /// Lines of the card that cannot be read and that nothing mends yet.
    pub fn lost_card_lines(&self) -> &[CardProblem] {
        &self.card.lost
    }
    /// What the card lacks before it can be used at all.
    pub(crate) fn missing_on_card(&self) -> &[CardProblem] {
        &self.card.missing
    }
    /// The card as far as it can be read and is mended, with nothing in the
    /// place of what is missing; as it stands where it is sound.
    pub(crate) fn readable_card(&self) -> &CardText {
        if self.card.missing.is_empty() {
            &self.timeline.card_text
        } else {
            &self.card.readable
        }
    }
    /// The file, where there is one.
    pub fn path(&self) -> Option<&Path> {
        self.path.as_deref()
    }
    /// Why nothing can be recorded, if so.
    pub(crate) const fn read_only(&self) -> Option<&ReadOnly> {
        self.read_only.as_ref()
    }
    /// The card as first entered.
    pub const fn first_card(&self) -> &CardText {
        &self.card.text
    }

    /// Everything there is to know on opening: damage, remarks, unusual card
    /// values, limits that come near.
    pub fn all_warnings(&self) -> Vec<Warning> {
        let newer = |r: &&Remark| !matches!(r, Remark::Newer { .. });
        let remarks = self.remarks.iter().filter(newer);
        let damage = self.damage.iter().cloned().map(Warning::Damage);
        damage
            .chain(self.card.lost.iter().cloned().map(Warning::Card))
            .chain(remarks.cloned().map(Warning::Remark))
            .chain(self.timeline.warnings.iter().cloned().map(Warning::Card))
            .chain(self.half_handed())
            .chain(self.near_a_limit())
            .chain(self.read_only.clone().map(Warning::ReadOnly))
            .collect()
    }

    /// The first few of [`Self::all_warnings`], and how many more there are.
    pub fn warnings(&self) -> Vec<Warning> {
        let mut all = self.all_warnings();
        let more = all.len().saturating_sub(SHOWN);
        // One more is said rather than counted.
        if more > 1 {
            all.truncate(SHOWN);
            all.push(Warning::More(more));
        }
        all
    }

    /// Told long before it is reached.
    fn near_a_limit(&self) -> Option<Warning> {
        let bytes = self.print.length();
        if bytes > LARGEST_FILE / 4 * 3 {
            return Some(Warning::NearlyFull(bytes));
        }
        let left = self.next.map_or(0, |next| u32::MAX - next);
        (left < NUMBERS_LEFT).then_some(Warning::NumbersLeft(left))
    }
}

/// Below this many numbers left it is said.
const NUMBERS_LEFT: u32 = 1_000_000;

/// A session's file as this program writes it: the card, the line that closes
/// it, the entries.
pub(crate) fn whole_file(card: &CardText, entries: &[Entry]) -> String {
    let card = format!("{}\n{CARD_END}\n", card.to_toml());
    let needed = entries.iter().map(format::of_entry).max().unwrap_or(1);
    let mut bytes = card.into_bytes();
    if needed > 1 {
        bytes = super::record::with_format(&bytes, needed);
    }
    let mut text = String::from_utf8_lossy(&bytes).into_owned();
    text.extend(entries.iter().map(Entry::to_toml));
    text
}

impl From<NotWritten> for Fault {
    fn from(problem: NotWritten) -> Self {
        Self::machine(problem.to_string())
    }
}

#[cfg(test)]
mod tests;
