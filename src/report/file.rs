//! Putting a sheet into a file, never over a session.

use std::path::Path;

use crate::session::journal;

/// Writes a sheet to a file, in place of an older one; never over a session.
///
/// # Errors
/// In words: the file is a session, or cannot be written.
pub fn save(path: &Path, session: Option<&Path>, text: &str) -> Result<(), String> {
    let fail = |problem: &str| Err(format!("{}: {problem}", path.display()));
    if session.is_some_and(|session| same(path, session)) {
        return fail("is the session itself; a report is not written over it");
    }
    if journal::read_text(path).is_ok_and(|old| old.contains("\n[[entry]]")) {
        return fail("is a session; a report is not written over it");
    }
    std::fs::write(path, text).map_err(|e| format!("{}: {}", path.display(), journal::explain(&e)))
}

/// Whether a file is there that is no sheet of this program: it is not
/// replaced without being asked for by name on the command line.
pub fn is_something_else(path: &Path) -> bool {
    match journal::read_text(path) {
        Ok(old) => !["Tuning sheet: ", "RESTORE SHEET: "]
            .iter()
            .any(|mark| old.contains(mark)),
        Err(_) => path.exists(),
    }
}

fn same(a: &Path, b: &Path) -> bool {
    a.canonicalize()
        .ok()
        .zip(b.canonicalize().ok())
        .is_some_and(|(a, b)| a == b)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sheet_replaces_a_sheet_and_never_a_session() {
        let folder = tempfile::tempdir().unwrap();
        let at = |name: &str| folder.path().join(name);
        save(&at("a.txt"), None, "Tuning sheet: one\n").unwrap();
        assert!(!is_something_else(&at("a.txt")));
        save(&at("a.txt"), None, "Tuning sheet: two\n").unwrap();
        assert_eq!(
            std::fs::read_to_string(at("a.txt")).unwrap(),
            "Tuning sheet: two\n"
        );
        std::fs::write(at("bow.toml"), "[bow]\n\n[[entry]]\nend = 1\n").unwrap();
        assert!(
            save(&at("bow.toml"), None, "x")
                .unwrap_err()
                .contains("is a session")
        );
        std::fs::write(at("card.toml"), "[bow]\n").unwrap();
        assert!(save(&at("card.toml"), Some(&at("card.toml")), "x").is_err());
        std::fs::write(at("letter.txt"), "Dear Ann").unwrap();
        assert!(is_something_else(&at("letter.txt")));
        assert!(!is_something_else(&at("none.txt")));
    }
}
