//! A session held open: its file or memory, its entries, its timeline.

use std::path::{Path, PathBuf};
use std::time::Duration;

use super::disk::FileDisk;
use super::entry::{Entry, Event, Shot};
use super::journal::{self, Damage, Journal, Print};
use super::lock::{Lock, LockError};
use super::timeline::Timeline;
use crate::gear::{Card, CardProblem, CardText};

/// The newest file format this program writes.
pub const FORMAT: u32 = crate::gear::FORMAT;

/// Why a session cannot be opened or written.
#[derive(Debug, thiserror::Error)]
pub enum SessionError {
    /// The file itself cannot be read.
    #[error("{}: {problem}", path.display())]
    File {
        /// Which file.
        path: PathBuf,
        /// In words.
        problem: String,
    },
    /// The card in it cannot be read.
    #[error("{}", card_problems(path, problems))]
    Card {
        /// Which file.
        path: PathBuf,
        /// Every problem found.
        problems: Vec<CardProblem>,
    },
    /// Another program is writing to it.
    #[error("{}: {source}", path.display())]
    Locked {
        /// Which file.
        path: PathBuf,
        /// Who holds it.
        source: LockError,
    },
    /// What was asked cannot be recorded.
    #[error("{0}")]
    Refused(String),
}

fn card_problems(path: &Path, problems: &[CardProblem]) -> String {
    let lines: Vec<String> = problems
        .iter()
        .map(|p| match p.line {
            Some(line) => format!(
                "{}:{line}: {}",
                path.display(),
                CardProblem {
                    line: None,
                    ..p.clone()
                }
            ),
            None => format!("{}: {p}", path.display()),
        })
        .collect();
    lines.join("\n")
}

impl SessionError {
    /// Whether the input was at fault (exit code 2) rather than the machine.
    pub const fn is_input(&self) -> bool {
        matches!(
            self,
            Self::File { .. } | Self::Card { .. } | Self::Refused(_)
        )
    }
}

/// An open session.
#[derive(Debug)]
pub struct Session {
    path: Option<PathBuf>,
    lock: Option<Lock>,
    card_text: CardText,
    entries: Vec<Entry>,
    damage: Vec<Damage>,
    sound_len: u64,
    print: Print,
    next: u32,
    timeline: Timeline,
    read_only: Option<String>,
}

impl Session {
    /// Opens a session file for reading. Nothing is written or locked.
    ///
    /// # Errors
    /// When the file or its card cannot be read.
    pub fn open(path: &Path) -> Result<Self, SessionError> {
        let text = journal::read_text(path).map_err(|problem| SessionError::File {
            path: path.into(),
            problem,
        })?;
        if text.trim().is_empty() {
            let problem =
                "is empty; make a session with: tearbench new FILE --card CARD.toml".into();
            return Err(SessionError::File {
                path: path.into(),
                problem,
            });
        }
        let mut session = Self::from_text(&text).map_err(|problems| SessionError::Card {
            path: path.into(),
            problems,
        })?;
        session.path = Some(path.into());
        Ok(session)
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
        // Read once first: a file that cannot be read deserves its own message, and no lock file.
        Self::open(path)?;
        let lock = Lock::take(path, holder, patience).map_err(|source| SessionError::Locked {
            path: path.into(),
            source,
        })?;
        let mut session = Self::open(path)?;
        session.lock = Some(lock);
        Ok(session)
    }

    /// A session in memory, such as the demo. It is not kept.
    ///
    /// # Errors
    /// When its card cannot be read.
    pub fn from_text(text: &str) -> Result<Self, Vec<CardProblem>> {
        let journal = Journal::from_text(text);
        let card_text = CardText::from_toml(&journal.header)?;
        let read_only = card_text.format.filter(|f| *f > FORMAT).map(|f| {
            format!("the file is of format {f}, newer than this program's {FORMAT}; it is opened for reading only")
        });
        let timeline = Timeline::new(&card_text, &journal.entries)?;
        let next = journal.next_number();
        Ok(Self {
            path: None,
            lock: None,
            card_text,
            damage: journal.damage,
            sound_len: journal.sound_len,
            print: Print::of(text.as_bytes()),
            entries: journal.entries,
            next,
            timeline,
            read_only,
        })
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
        journal::create(path, &card.to_toml()).map_err(|e| {
            let problem = match e.kind() {
                std::io::ErrorKind::AlreadyExists => {
                    "exists already and is never replaced; choose another name".into()
                }
                _ => journal::explain(&e),
            };
            SessionError::File {
                path: path.into(),
                problem,
            }
        })
    }

    /// Records an event: on disk and synced first, then in memory. Returns its
    /// entry number.
    ///
    /// # Errors
    /// When it cannot apply (an undo of nothing, a card that would not read),
    /// the session is read-only, or the disk refuses; nothing is then changed.
    pub fn record(&mut self, event: Event) -> Result<u32, SessionError> {
        if let Some(why) = &self.read_only {
            return Err(SessionError::Refused(why.clone()));
        }
        self.check(&event)?;
        let entry = Entry::now(self.next, self.marked(event));
        if let Some(path) = &self.path {
            if self.lock.is_none() {
                return Err(SessionError::Refused(
                    "the session is open for reading only".into(),
                ));
            }
            let written = FileDisk::open(path).and_then(|mut disk| {
                journal::append(&mut disk, &entry.to_toml(), self.sound_len, &self.print)
            });
            let print = written.map_err(|e| SessionError::File {
                path: path.clone(),
                problem: journal::explain(&e),
            })?;
            self.sound_len = print.len();
            self.print = print;
            self.damage.retain(|d| !d.torn_tail);
        }
        self.entries.push(entry);
        self.next += 1;
        self.timeline =
            Timeline::new(&self.card_text, &self.entries).unwrap_or_else(|_| self.timeline.clone());
        Ok(self.next - 1)
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

    fn check(&self, event: &Event) -> Result<(), SessionError> {
        let refuse = |message: String| Err(SessionError::Refused(message));
        match event {
            Event::Undo { target } => {
                let entry = self.entries.iter().find(|e| e.number == *target);
                match entry {
                    None => refuse(format!("there is no entry {target}; the log lists them")),
                    Some(e) if !e.event.can_be_undone() => refuse(format!(
                        "entry {target} is an {} and is not undone; an incident ends when every part was looked at",
                        e.event.kind()
                    )),
                    Some(_) if self.timeline.undone.contains(target) => {
                        refuse(format!("entry {target} is undone already"))
                    }
                    Some(_) => Ok(()),
                }
            }
            Event::Redo { target }
                if self.timeline.can_redo != Some(*target)
                    && !self.timeline.undone.contains(target) =>
            {
                refuse(format!("entry {target} is not undone"))
            }
            Event::Restart {
                setting: Some(n), ..
            } if *n == 0 || *n as usize > self.timeline.settings.len() => refuse(format!(
                "there is no setting {n}; there are {}",
                self.timeline.settings.len()
            )),
            Event::Card { set } => self.check_card(set),
            _ => Ok(()),
        }
    }

    fn check_card(
        &self,
        set: &std::collections::BTreeMap<String, String>,
    ) -> Result<(), SessionError> {
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

    /// Undoes the latest entry that can be undone; returns its number.
    ///
    /// # Errors
    /// When there is nothing to undo, or the disk refuses.
    pub fn undo(&mut self) -> Result<u32, SessionError> {
        let target = self
            .timeline
            .can_undo
            .ok_or_else(|| SessionError::Refused("there is nothing to undo".into()))?;
        self.record(Event::Undo { target }).map(|_| target)
    }

    /// Brings back the entry undone last; returns its number.
    ///
    /// # Errors
    /// When there is nothing to redo, or the disk refuses.
    pub fn redo(&mut self) -> Result<u32, SessionError> {
        let target = self
            .timeline
            .can_redo
            .ok_or_else(|| SessionError::Refused("there is nothing to redo".into()))?;
        self.record(Event::Redo { target }).map(|_| target)
    }

    /// Whether the file is still as this session left it; a session in memory always is.
    ///
    /// # Errors
    /// When the file cannot be read any more.
    pub fn is_unchanged(&self) -> std::io::Result<bool> {
        match &self.path {
            Some(path) => std::fs::read(path).map(|bytes| self.print.fits(&bytes)),
            None => Ok(true),
        }
    }

    /// Reads the file again as it is now; a lock that is held stays held.
    ///
    /// # Errors
    /// When the file or its card cannot be read; the session is then as it was.
    pub fn reload(&mut self) -> Result<(), SessionError> {
        let Some(path) = self.path.clone() else {
            return Ok(());
        };
        let mut fresh = Self::open(&path)?;
        fresh.lock = self.lock.take();
        *self = fresh;
        Ok(())
    }

    /// What the entries add up to.
    pub const fn timeline(&self) -> &Timeline {
        &self.timeline
    }
    /// The entries, in order.
    pub fn entries(&self) -> &[Entry] {
        &self.entries
    }
    /// What could not be read when the file was opened.
    pub fn damage(&self) -> &[Damage] {
        &self.damage
    }
    /// The file, where there is one.
    pub fn path(&self) -> Option<&Path> {
        self.path.as_deref()
    }
    /// Why nothing can be recorded, if so.
    pub fn read_only(&self) -> Option<&str> {
        self.read_only.as_deref()
    }
    /// The card as first entered.
    pub const fn first_card(&self) -> &CardText {
        &self.card_text
    }
    /// Warnings to show once on opening: damage and unusual card values.
    pub fn warnings(&self) -> Vec<String> {
        let damage = self.damage.iter().map(|d| {
            let rest = if d.torn_tail {
                "; every whole entry before it is loaded, and it will be set aside, not lost"
            } else {
                "; this entry is left out, the rest is loaded"
            };
            format!("line {}: {}{rest}", d.line, d.problem)
        });
        damage
            .chain(self.timeline.warnings.iter().map(ToString::to_string))
            .chain(self.read_only.clone())
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const CARD: &str = "[bow]\nkind=\"compound\"\nhand=\"right\"\nrelease=\"aid\"\npeak_weight=\"60 lb\"\ndraw_length=\"29 in\"\nbrace_height=\"7 in\"\nlet_off=\"75 %\"\n[rest]\nkind=\"drop-away\"\n[arrow]\nshaft_length=\"29 in\"\nspine=0.4\nshaft_mass=\"8.5 gr/in\"\npoint_mass=\"125 gr\"\n[paper]\ndistance=\"2 m\"\n";

    fn shot(right: f64) -> Event {
        Event::Shot(Shot {
            right,
            ..Shot::default()
        })
    }

    #[test]
    fn what_is_recorded_is_there_when_opened_again() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("bow.toml");
        Session::create(&path, &CardText::from_toml(CARD).unwrap()).unwrap();
        let mut session = Session::open_for_writing(&path, "test", Duration::ZERO).unwrap();
        assert_eq!(session.record(shot(9.0)).unwrap(), 1);
        assert_eq!(session.record(shot(8.0)).unwrap(), 2);
        assert_eq!(session.undo().unwrap(), 2);
        let again = Session::open(&path).unwrap();
        assert_eq!(again.entries(), session.entries());
        assert_eq!(again.timeline().shots.len(), 1);
        assert_eq!(
            std::fs::read_to_string(&path).unwrap().len() as u64,
            session.print.len()
        );
    }

    #[test]
    fn what_cannot_apply_is_refused_and_nothing_changes() {
        let mut session = Session::from_text(CARD).unwrap();
        assert!(session.undo().is_err());
        assert!(session.redo().is_err());
        assert!(
            session
                .record(Event::Restart {
                    setting: Some(9),
                    why: None
                })
                .is_err()
        );
        let bad =
            std::collections::BTreeMap::from([("bow.peak_weight".to_owned(), "heavy".to_owned())]);
        assert!(
            session
                .record(Event::Card { set: bad })
                .unwrap_err()
                .to_string()
                .contains("bow.peak_weight")
        );
        session
            .record(Event::Incident {
                what: "dry fire".into(),
            })
            .unwrap();
        assert!(
            session
                .record(Event::Undo { target: 1 })
                .unwrap_err()
                .to_string()
                .contains("every part")
        );
        assert_eq!(session.entries().len(), 1);
    }

    #[test]
    fn a_file_changed_elsewhere_is_noticed_and_read_again_with_the_lock_kept() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("bow.toml");
        Session::create(&path, &CardText::from_toml(CARD).unwrap()).unwrap();
        let mut session = Session::open_for_writing(&path, "test", Duration::ZERO).unwrap();
        session.record(shot(9.0)).unwrap();
        assert!(session.is_unchanged().unwrap());
        let text = std::fs::read_to_string(&path).unwrap();
        std::fs::write(&path, text.replace("right = 9.0", "right = 7.0")).unwrap();
        assert!(!session.is_unchanged().unwrap());
        assert!(session.record(shot(8.0)).is_err());
        session.reload().unwrap();
        session.record(shot(8.0)).unwrap();
        let rights: Vec<f64> = session
            .timeline()
            .shots
            .iter()
            .map(|s| s.shot.right)
            .collect();
        assert_eq!(rights, [7.0, 8.0]);
        std::fs::remove_file(&path).unwrap();
        assert!(session.is_unchanged().is_err());
        assert!(session.reload().is_err());
        assert_eq!(session.entries().len(), 2);
    }

    #[test]
    fn a_file_of_a_newer_format_is_read_and_not_written() {
        let card = format!("format = 2\n{CARD}[hologram]\ndepth = \"3 mm\"\n");
        let mut session = Session::from_text(&card).unwrap();
        assert!(
            session
                .record(shot(1.0))
                .unwrap_err()
                .to_string()
                .contains("format 2")
        );
    }
}
