//! One writer at a time. The lock is on the session's own file, so that it
//! holds by whatever name the file was opened. Who holds it stands in a note
//! beside the file, for information; the note is locked as well, since older
//! programs lock nothing else. Reading a session never needs a lock.
//!
//! Nothing is created, emptied or written through a link, or over a file this
//! program did not make.

use std::fs::{File, OpenOptions, TryLockError};
use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};
use std::sync::Mutex;
use std::time::{Duration, Instant};

use super::files::{Fault, leads_to, names, open_ordinary};

/// A held lock; let go when dropped.
#[derive(Debug)]
pub struct Lock {
    // Dropped first: the notes go while the file is still locked.
    _notes: Vec<Note>,
    file: File,
}

/// Why the lock could not be had.
#[derive(Debug, thiserror::Error)]
pub enum LockError {
    /// Another program holds it.
    #[error("is in use by {0}; close it there first")]
    Held(String),
    /// The file cannot be opened for writing, or not be locked.
    #[error("cannot be locked: {0}")]
    Io(Fault),
    /// Something stands where the note goes.
    #[error("cannot be locked: {} {problem}", crate::units::clean(&path.display().to_string()))]
    InTheWay {
        /// Where.
        path: PathBuf,
        /// What is there, in words that follow its name.
        problem: String,
    },
}

/// How long a headless write waits for the lock.
pub(crate) const PATIENCE: Duration = Duration::from_secs(2);
/// How long the console waits for it: as long as one that only looks whether
/// it is held may take.
pub(crate) const GLANCE: Duration = Duration::from_millis(120);

/// How the console names itself in a note.
pub(crate) const CONSOLE: &str = "the tearbench console";
/// How a command names itself in a note.
pub(crate) const COMMAND: &str = "tearbench (a command)";
/// Notes are shorter than this, bytes.
const LONGEST_NOTE: u64 = 400;
/// What stands in every note before the number of the process.
const PROCESS: &str = ", process ";

/// Notes this program has made, for a way out that drops nothing.
static MADE: Mutex<Vec<PathBuf>> = Mutex::new(Vec::new());

/// Where the note of a session goes by the name it was opened by.
fn note_path(session: &Path) -> PathBuf {
    let mut name = std::ffi::OsString::from(".");
    name.push(session.file_name().unwrap_or_default());
    name.push(".lock");
    session.with_file_name(name)
}

/// The names notes go by: the one the session was opened by, and the one it
/// has where that is a link.
fn note_paths(session: &Path) -> Vec<PathBuf> {
    let mut all = Vec::new();
    if let Ok(real) = session.canonicalize() {
        all.push(note_path(&real));
    }
    let own = note_path(session);
    let same = |a: &Path| {
        let folder = |p: &Path| super::files::folder_of(p).canonicalize().ok();
        a.file_name() == own.file_name() && folder(a) == folder(&own)
    };
    if !all.iter().any(|p| same(p)) {
        all.push(own);
    }
    all
}

impl Lock {
    /// Takes the lock of a session, waiting at most `patience`. `holder` says
    /// who takes it, for the message another program will show.
    ///
    /// # Errors
    /// When it is held for longer than that, or cannot be had.
    pub fn take(session: &Path, holder: &str, patience: Duration) -> Result<Self, LockError> {
        let deadline = Instant::now() + patience;
        let wait = |notes: &[Note]| {
            if Instant::now() >= deadline {
                let known: Vec<&Note> = notes.iter().collect();
                return Err(LockError::Held(holder_of(session, &known)));
            }
            std::thread::sleep(Duration::from_millis(20));
            Ok(())
        };
        'again: loop {
            let mut options = OpenOptions::new();
            options.read(true).write(true);
            let file = open_ordinary(session, &mut options).map_err(LockError::Io)?;
            if !try_lock(&file)? {
                wait(&[])?;
                continue;
            }
            // It may have been replaced by its last holder between open and lock.
            if !leads_to(session, &file) {
                wait(&[])?;
                continue;
            }
            let mut notes = Vec::new();
            for path in note_paths(session) {
                match Note::take(&path, holder)? {
                    Taken::Ours(note) => notes.push(note),
                    Taken::Nobody => {}
                    Taken::Held => {
                        drop(file);
                        wait(&notes)?;
                        continue 'again;
                    }
                }
            }
            return Ok(Self {
                _notes: notes,
                file,
            });
        }
    }

    /// The session's file, open for reading and writing.
    pub(super) const fn file(&self) -> &File {
        &self.file
    }

    /// Whether the name still leads to the file that is locked.
    pub(crate) fn is_current(&self, session: &Path) -> bool {
        leads_to(session, &self.file)
    }

    /// Locks the file that has the name now, where another program replaced it.
    ///
    /// # Errors
    /// When that one is held by another program or cannot be had; the old lock
    /// is then kept.
    pub(crate) fn follow(&mut self, session: &Path) -> Result<(), LockError> {
        if self.is_current(session) {
            return Ok(());
        }
        let mut options = OpenOptions::new();
        options.read(true).write(true);
        let file = open_ordinary(session, &mut options).map_err(LockError::Io)?;
        if !try_lock(&file)? {
            return Err(LockError::Held(holder_of(session, &[])));
        }
        self.file = file;
        Ok(())
    }

    /// Goes over to a file that this program put in the place of the locked
    /// one, locked before it had the name.
    pub(super) fn hand_over(&mut self, file: File) {
        self.file = file;
    }
}

/// Locks a file of ours if nobody else has.
pub(super) fn try_lock(file: &File) -> Result<bool, LockError> {
    // Where a lock keeps others from reading, only the note is locked.
    if !cfg!(unix) {
        return Ok(true);
    }
    match file.try_lock() {
        Ok(()) => Ok(true),
        Err(TryLockError::WouldBlock) => Ok(false),
        Err(TryLockError::Error(e)) => Err(LockError::Io(e.into())),
    }
}

/// Whether some program holds the lock of a session now. Writes nothing;
/// where it cannot be told, nobody does.
pub fn is_held(session: &Path) -> bool {
    let held = |path: &Path| {
        let file = open_ordinary(path, OpenOptions::new().read(true));
        file.is_ok_and(|f| matches!(f.try_lock_shared(), Err(TryLockError::WouldBlock)))
    };
    held(session) || note_paths(session).iter().any(|p| held(p))
}

/// Removes the notes of this program where nothing will be dropped any more.
/// The locks themselves end with the process.
pub(crate) fn remove_notes() {
    if let Ok(made) = MADE.try_lock() {
        for path in made.iter() {
            let _ = std::fs::remove_file(path);
        }
    }
}

/// A note that this program made and holds.
#[derive(Debug)]
struct Note {
    file: File,
    path: PathBuf,
}

enum Taken {
    Ours(Note),
    /// It cannot be made here, so no older program can lock it either.
    Nobody,
    /// Another program holds it.
    Held,
}

impl Note {
    fn take(path: &Path, holder: &str) -> Result<Taken, LockError> {
        let in_the_way = |problem: &str| LockError::InTheWay {
            path: path.to_owned(),
            problem: problem.to_owned(),
        };
        // More rounds than one where its last holder removes it meanwhile.
        for _ in 0..8 {
            let mut options = OpenOptions::new();
            // Made anew, so never through a link and never over anything.
            match options.read(true).write(true).create_new(true).open(path) {
                Ok(file) => return Self::fill(file, path, holder),
                Err(e) if e.kind() == io::ErrorKind::AlreadyExists => {}
                Err(e)
                    if matches!(
                        e.kind(),
                        io::ErrorKind::PermissionDenied | io::ErrorKind::ReadOnlyFilesystem
                    ) =>
                {
                    return Ok(Taken::Nobody);
                }
                Err(e) => return Err(in_the_way(&super::files::explain(&e))),
            }
            match std::fs::symlink_metadata(path) {
                Ok(meta) if meta.is_symlink() => {
                    return Err(in_the_way(
                        "is a link and no lock of this program; remove it",
                    ));
                }
                Ok(meta) if !meta.is_file() || names(&meta) != 1 => {
                    return Err(in_the_way("is no lock of this program; remove it"));
                }
                Ok(_) => {}
                Err(e) if e.kind() == io::ErrorKind::NotFound => continue,
                Err(e) => return Err(in_the_way(&super::files::explain(&e))),
            }
            let Ok(mut file) = open_ordinary(path, OpenOptions::new().read(true)) else {
                continue;
            };
            match file.try_lock() {
                Ok(()) if leads_to(path, &file) => {}
                Ok(()) => continue,
                Err(TryLockError::WouldBlock) => return Ok(Taken::Held),
                Err(TryLockError::Error(e)) => {
                    return Err(in_the_way(&super::files::explain(&e)));
                }
            }
            // Left behind by a program that was killed: removed while held, so
            // that nobody can lock a file that is about to vanish.
            if !is_note(&mut file) {
                return Err(in_the_way("is no lock of this program; remove it"));
            }
            std::fs::remove_file(path).map_err(|e| in_the_way(&super::files::explain(&e)))?;
        }
        Ok(Taken::Held)
    }

    fn fill(mut file: File, path: &Path, holder: &str) -> Result<Taken, LockError> {
        if !matches!(file.try_lock(), Ok(())) {
            return Ok(Taken::Held);
        }
        if let Ok(mut made) = MADE.lock() {
            made.push(path.to_owned());
        }
        // For information only: no room for it is no reason not to go on. In
        // one write, so that a kill hardly ever leaves a part of it.
        let line = format!("{holder}{PROCESS}{}\n", std::process::id());
        let _ = file.write_all(line.as_bytes());
        Ok(Taken::Ours(Self {
            file,
            path: path.to_owned(),
        }))
    }
}

impl Drop for Note {
    fn drop(&mut self) {
        // Removed while still held; what another program put there instead stays.
        if leads_to(&self.path, &self.file) {
            let _ = std::fs::remove_file(&self.path);
        }
        let _ = self.file.unlock();
        if let Ok(mut made) = MADE.lock() {
            made.retain(|p| *p != self.path);
        }
    }
}

/// Whether a file is a note: a line that names a process, or what a kill, a
/// full disk or a power cut leaves of one (nothing, zeros, its beginning).
fn is_note(file: &mut File) -> bool {
    let text = first_line(file);
    let text = text.trim_end_matches('\0');
    let process = text.rsplit_once(PROCESS).map(|(_, p)| p.trim());
    process.is_some_and(|p| p.parse::<u32>().is_ok())
        || [CONSOLE, COMMAND]
            .iter()
            .any(|holder| format!("{holder}{PROCESS}").starts_with(text))
}

fn first_line(file: &mut File) -> String {
    let mut bytes = Vec::new();
    let _ = file.take(LONGEST_NOTE).read_to_end(&mut bytes);
    String::from_utf8_lossy(&bytes).trim().to_owned()
}

/// Who holds the lock of a session, as the notes beside it say.
fn holder_of(session: &Path, ours: &[&Note]) -> String {
    let text = note_paths(session)
        .iter()
        .filter(|path| !ours.iter().any(|n| n.path == **path))
        .filter(|path| std::fs::symlink_metadata(path).is_ok_and(|m| m.is_file()))
        .filter_map(|path| open_ordinary(path, OpenOptions::new().read(true)).ok())
        .map(|mut file| first_line(&mut file))
        .find(|text| text.contains(PROCESS));
    text.map_or_else(
        || "another program".into(),
        |text| crate::units::clean(&text),
    )
}
