//! What is known of the file behind the console, so that a change made by
//! another program is seen.

use std::path::Path;
use std::time::{Duration, SystemTime};

/// How often a console that only reads looks at the file.
pub(crate) const INTERVAL: Duration = Duration::from_secs(1);

/// What a file looks like from outside: enough to know when to read it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Stamp {
    len: u64,
    modified: Option<SystemTime>,
    #[cfg(unix)]
    inode: u64,
}

impl Stamp {
    /// Of the file at this path, if there is one.
    pub fn of(path: &Path) -> Option<Self> {
        let meta = std::fs::metadata(path).ok()?;
        Some(Self {
            len: meta.len(),
            modified: meta.modified().ok(),
            #[cfg(unix)]
            inode: std::os::unix::fs::MetadataExt::ino(&meta),
        })
    }
}

/// What is known of the file.
#[derive(Debug, Clone, Default)]
pub(crate) struct Follow {
    /// As it looked last.
    pub(super) seen: Option<Stamp>,
    /// What there is to say of it, once nothing is being typed.
    pub(super) notice: Option<String>,
}

impl Follow {
    /// Of a file as it is now.
    pub fn of(path: Option<&Path>) -> Self {
        Self {
            seen: path.and_then(Stamp::of),
            notice: None,
        }
    }
}
