//! One writer at a time. The lock is a small file beside the session that
//! names its holder; reading a session never needs it.

use std::fs::{File, OpenOptions, TryLockError};
use std::io::{self, Read, Seek, Write};
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

/// A held lock; let go when dropped.
#[derive(Debug)]
pub struct Lock {
    file: File,
    path: PathBuf,
}

/// Why the lock could not be had.
#[derive(Debug, thiserror::Error)]
pub enum LockError {
    /// Another program holds it.
    #[error("is in use by {0}; close it there first")]
    Held(String),
    /// The lock file cannot be made.
    #[error("cannot be locked: {0}")]
    Io(io::Error),
}

/// How long a headless write waits for the lock.
pub const PATIENCE: Duration = Duration::from_secs(2);

fn lock_path(session: &Path) -> PathBuf {
    let name = session
        .file_name()
        .map_or_else(String::new, |n| n.to_string_lossy().into_owned());
    session.with_file_name(format!(".{name}.lock"))
}

impl Lock {
    /// Takes the lock of a session, waiting at most `patience`. `holder` says
    /// who takes it, for the message another program will show.
    ///
    /// # Errors
    /// When it is held for longer than that, or cannot be made.
    pub fn take(session: &Path, holder: &str, patience: Duration) -> Result<Self, LockError> {
        let path = lock_path(session);
        let deadline = Instant::now() + patience;
        loop {
            let mut file = OpenOptions::new()
                .read(true)
                .write(true)
                .create(true)
                .truncate(false)
                .open(&path)
                .map_err(LockError::Io)?;
            match file.try_lock() {
                // The file may have been removed by its last holder between open and lock.
                Ok(()) if same_file(&file, &path) => {
                    let text = format!("{holder}, process {}\n", std::process::id());
                    let _ = file
                        .set_len(0)
                        .and_then(|()| file.rewind())
                        .and_then(|()| file.write_all(text.as_bytes()));
                    return Ok(Self { file, path });
                }
                Ok(()) => {}
                Err(TryLockError::WouldBlock) if Instant::now() >= deadline => {
                    return Err(LockError::Held(holder_of(&mut file)));
                }
                Err(TryLockError::WouldBlock) => std::thread::sleep(Duration::from_millis(25)),
                Err(TryLockError::Error(e)) => return Err(LockError::Io(e)),
            }
        }
    }
}

/// Whether some program holds the lock of a session now. Writes nothing;
/// where it cannot be told, nobody does.
pub fn is_held(session: &Path) -> bool {
    File::open(lock_path(session))
        .is_ok_and(|file| matches!(file.try_lock(), Err(TryLockError::WouldBlock)))
}

impl Drop for Lock {
    fn drop(&mut self) {
        // Removed while still held, so that nobody can lock a file that is about to vanish.
        let _ = std::fs::remove_file(&self.path);
        let _ = self.file.unlock();
    }
}

fn holder_of(file: &mut File) -> String {
    let mut text = String::new();
    let _ = file
        .rewind()
        .and_then(|()| file.take(200).read_to_string(&mut text));
    let text = crate::units::clean(text.trim());
    if text.is_empty() {
        "another program".into()
    } else {
        text
    }
}

#[cfg(unix)]
fn same_file(file: &File, path: &Path) -> bool {
    use std::os::unix::fs::MetadataExt;
    match (file.metadata(), std::fs::metadata(path)) {
        (Ok(a), Ok(b)) => a.ino() == b.ino() && a.dev() == b.dev(),
        _ => false,
    }
}

#[cfg(not(unix))]
fn same_file(_: &File, path: &Path) -> bool {
    path.exists()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_second_taker_is_told_who_holds_the_lock_and_gets_it_after_release() {
        let folder = tempfile::tempdir().unwrap();
        let session = folder.path().join("bow.toml");
        let held = Lock::take(&session, "the console", Duration::ZERO).unwrap();
        let refused = Lock::take(&session, "a command", Duration::from_millis(60)).unwrap_err();
        assert!(
            refused.to_string().contains("the console, process"),
            "{refused}"
        );
        assert!(is_held(&session));
        drop(held);
        assert!(!is_held(&session));
        assert!(Lock::take(&session, "a command", Duration::ZERO).is_ok());
        assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 0);
    }
}
