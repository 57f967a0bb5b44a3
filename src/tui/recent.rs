//! The list of recent sessions, in the XDG state folder, and beside it which
//! of them are open now: a console that leaves takes its own off, so what
//! stands there and nobody holds was dropped. Losing either list loses
//! nothing but a convenience, so errors are not shown.

use std::path::{Path, PathBuf};

use etcetera::{BaseStrategy, choose_base_strategy};

use crate::session::files;

/// Sessions remembered.
const MOST: usize = 20;
/// A list longer than this is not ours, bytes.
const LARGEST: u64 = 64 * 1024;

/// Where the list is kept, if anywhere.
#[derive(Debug, Clone, Default)]
pub struct Recent {
    file: Option<PathBuf>,
}

impl Recent {
    /// The user's own list.
    pub(crate) fn of_user() -> Self {
        let folder = choose_base_strategy().ok().and_then(|s| s.state_dir());
        Self {
            file: folder.map(|f| f.join("tearbench").join("recent")),
        }
    }

    /// A list kept in this file.
    pub const fn at(file: PathBuf) -> Self {
        Self { file: Some(file) }
    }

    /// The folder it stands in, where one is known.
    pub fn folder(&self) -> Option<&Path> {
        self.file.as_deref().and_then(Path::parent)
    }

    /// The sessions, newest first, those that are still there.
    pub(crate) fn list(&self) -> Vec<PathBuf> {
        self.file.as_deref().map_or_else(Vec::new, lines_of)
    }

    /// Puts a session first.
    pub fn remember(&self, session: &Path) {
        if let Some(file) = &self.file {
            put_first(file, session);
        }
    }

    /// A session is open for writing from now on.
    pub fn opened(&self, session: &Path) {
        if let Some(file) = self.open_ones() {
            put_first(&file, session);
        }
    }

    /// It was left as a session is left.
    pub(crate) fn left(&self, session: &Path) {
        let (Some(file), Ok(path)) = (self.open_ones(), std::path::absolute(session)) else {
            return;
        };
        let mut all = lines_of(&file);
        if all.contains(&path) {
            all.retain(|p| *p != path);
            let _ = write(&file, &text_of(&all));
        }
    }

    /// Sessions that were never left and that no program holds now, latest first.
    pub(crate) fn dropped(&self) -> Vec<PathBuf> {
        let mut all = self.open_ones().map_or_else(Vec::new, |f| lines_of(&f));
        all.retain(|p| !crate::session::lock::is_held(p));
        all
    }

    fn open_ones(&self) -> Option<PathBuf> {
        self.file.as_ref().map(|f| f.with_file_name("open"))
    }
}

/// The sessions a list names, those that are still there.
fn lines_of(file: &Path) -> Vec<PathBuf> {
    let text = files::read_text(file, LARGEST).unwrap_or_default();
    text.lines()
        .map(PathBuf::from)
        .filter(|p| p.is_file())
        .take(MOST)
        .collect()
}

fn text_of(all: &[PathBuf]) -> String {
    all.iter()
        .take(MOST)
        .map(|p| format!("{}\n", p.display()))
        .collect()
}

fn put_first(file: &Path, session: &Path) {
    let Ok(path) = std::path::absolute(session) else {
        return;
    };
    let mut all = lines_of(file);
    if all.first() == Some(&path) || path.to_string_lossy().contains(['\n', '\r']) {
        return;
    }
    all.retain(|p| *p != path);
    all.insert(0, path);
    let _ = write(file, &text_of(&all));
}

pub(super) fn write(file: &Path, text: &str) -> std::io::Result<()> {
    let folder = file.parent().unwrap_or_else(|| Path::new("."));
    std::fs::create_dir_all(folder)?;
    files::replace(file, text.as_bytes())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_newest_session_stands_first_and_only_once() {
        let folder = tempfile::tempdir().unwrap();
        let recent = Recent::at(folder.path().join("state").join("recent"));
        let [a, b] = ["a.toml", "b.toml"].map(|n| folder.path().join(n));
        std::fs::write(&a, "").unwrap();
        std::fs::write(&b, "").unwrap();
        for path in [&a, &b, &a] {
            recent.remember(path);
        }
        assert_eq!(recent.list(), [a.clone(), b]);
        std::fs::remove_file(&a).unwrap();
        assert_eq!(recent.list().len(), 1);
        Recent::default().remember(&a);
    }

    #[test]
    fn what_was_opened_and_not_left_was_dropped_unless_somebody_holds_it() {
        let folder = tempfile::tempdir().unwrap();
        let recent = Recent::at(folder.path().join("state").join("recent"));
        let [a, b] = ["a.toml", "b.toml"].map(|n| folder.path().join(n));
        std::fs::write(&a, "").unwrap();
        std::fs::write(&b, "").unwrap();
        recent.opened(&a);
        recent.opened(&b);
        assert_eq!(recent.dropped(), [b.clone(), a.clone()]);
        recent.left(&b);
        assert_eq!(recent.dropped(), std::slice::from_ref(&a));
        let held = crate::session::lock::Lock::take(&a, "a console", std::time::Duration::ZERO);
        assert!(held.is_ok() && recent.dropped().is_empty());
        drop(held);
        std::fs::remove_file(&a).unwrap();
        assert!(recent.dropped().is_empty());
    }
}
