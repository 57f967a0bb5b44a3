//! The list of recent sessions, in the XDG state folder. Losing it loses
//! nothing but a convenience, so its errors are not shown.

use std::path::{Path, PathBuf};

use etcetera::{BaseStrategy, choose_base_strategy};

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
    pub fn of_user() -> Self {
        let folder = choose_base_strategy().ok().and_then(|s| s.state_dir());
        Self {
            file: folder.map(|f| f.join("tearbench").join("recent")),
        }
    }

    /// A list kept in this file.
    pub const fn at(file: PathBuf) -> Self {
        Self { file: Some(file) }
    }

    /// The sessions, newest first, those that are still there.
    pub fn list(&self) -> Vec<PathBuf> {
        let Some(file) = &self.file else {
            return Vec::new();
        };
        if std::fs::metadata(file).is_ok_and(|m| m.len() > LARGEST) {
            return Vec::new();
        }
        let text = std::fs::read_to_string(file).unwrap_or_default();
        text.lines()
            .map(PathBuf::from)
            .filter(|p| p.is_file())
            .take(MOST)
            .collect()
    }

    /// Puts a session first.
    pub fn remember(&self, session: &Path) {
        let (Some(file), Ok(path)) = (&self.file, std::path::absolute(session)) else {
            return;
        };
        let mut all = self.list();
        if all.first() == Some(&path) || path.to_string_lossy().contains(['\n', '\r']) {
            return;
        }
        all.retain(|p| *p != path);
        all.insert(0, path);
        let lines: Vec<String> = all
            .iter()
            .take(MOST)
            .map(|p| p.display().to_string())
            .collect();
        let _ = write(file, &(lines.join("\n") + "\n"));
    }
}

pub(super) fn write(file: &Path, text: &str) -> std::io::Result<()> {
    let folder = file.parent().unwrap_or_else(|| Path::new("."));
    std::fs::create_dir_all(folder)?;
    let temporary = tempfile::NamedTempFile::new_in(folder)?;
    std::fs::write(temporary.path(), text)?;
    temporary.persist(file)?;
    Ok(())
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
}
